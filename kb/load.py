"""The knowledge files into one Knowledge: read, typed and indexed, or one EntryError with every fault in it.

Not here: whether entries make sense together (check.py).
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any

from kb import compiled
from kb.build import build
from kb.entries import AmountLetter, Caution, HandOff, Looks, Place, Plant, Problem, Rule, Source
from kb.errors import EntryError
from kb.metric import from_metric
from kb.yaml_lines import LineDict, read_yaml

ENTRIES: dict[str, type] = {
    "sources": Source,
    "cautions": Caution,
    "hand_offs": HandOff,
    "plants": Plant,
    "looks": Looks,
    "problems": Problem,
    "rules": Rule,
    "places": Place,
    "amount_letters": AmountLetter,
}
LISTS = ("groups", "other_letters", "kind_letters", "urgent_letters", "plant_letters", "amount_words", "not_plants")
_MAPPINGS = ("groups", "kind_letters", "urgent_letters", "plant_letters", "amount_words")
Document = tuple[str, str, str]  # table, file name, text


@dataclass(frozen=True)
class Knowledge:
    """Everything we know, by id. `fingerprint` changes when any file does."""

    sources: dict[str, Source]
    cautions: dict[str, Caution]
    hand_offs: dict[str, HandOff]
    plants: dict[str, Plant]
    looks: dict[str, Looks]  # by plant
    problems: dict[str, Problem]
    rules: dict[str, Rule]
    places: dict[str, Place]
    amount_letters: dict[str, AmountLetter]
    groups: dict[str, str | None]
    other_letters: tuple[str, ...]  # letters no rule answers: they teach the model what it does not know
    kind_letters: dict[str, tuple[str, ...]]  # kind -> what people write
    urgent_letters: dict[str, tuple[str, ...]]  # "urgent", "not-urgent" -> letters that are, or only sound so
    plant_letters: dict[str, tuple[str, ...]]  # plant, or "none" -> letters that ask about it, whatever else they name
    amount_words: dict[str, tuple[str, ...]]  # lists of words that say the same of a quantity
    not_plants: tuple[str, ...]  # words that hold a plant's name and name none
    fingerprint: str

    def lineage(self, group: str) -> tuple[str, ...]:
        """The group and every wider group it belongs to, nearest first."""
        found: list[str] = []
        walk: str | None = group
        while walk and walk not in found:
            found.append(walk)
            walk = self.groups.get(walk)
        return tuple(found)

    @cached_property
    def rules_by_problem(self) -> dict[str, tuple[Rule, ...]]:
        """Problem id -> the rules that answer it."""
        by: dict[str, list[Rule]] = {}
        for rule in self.rules.values():
            by.setdefault(rule.problem, []).append(rule)
        return {problem: tuple(rules) for problem, rules in by.items()}

    @cached_property
    def hosts(self) -> dict[str, tuple[frozenset[str], frozenset[str]]]:
        """Problem id -> the plants and the groups that it, or a rule for it, names."""
        found = {}
        for problem in self.problems.values():
            rules = self.rules_by_problem.get(problem.id, ())
            plants = frozenset(problem.plants).union(*(r.plants for r in rules))
            found[problem.id] = plants, frozenset(problem.groups).union(*(r.groups for r in rules))
        return found


def load(folder: Traversable | None = None) -> Knowledge:
    """Read the rule base from `folder` (default: the files shipped with the package, or their compiled form).

    Raises:
        EntryError: with every fault found, each as `file:line field: message`.
    """
    root = folder or files("kb")
    texts = list(_documents(root))
    fingerprint = _fingerprint(texts)
    found = compiled.kept(fingerprint, ENTRIES) if folder is None else None
    if found is None:
        found = _read_all(texts)
        if folder is None:
            compiled.keep(fingerprint, *found)
    tables, lists = found
    return Knowledge(
        **tables,
        groups=lists["groups"],
        other_letters=tuple(lists["other_letters"]),
        kind_letters={kind: tuple(letters) for kind, letters in lists["kind_letters"].items()},
        urgent_letters={which: tuple(letters) for which, letters in lists["urgent_letters"].items()},
        plant_letters={plant: tuple(letters) for plant, letters in lists["plant_letters"].items()},
        amount_words={name: tuple(words) for name, words in lists["amount_words"].items()},
        not_plants=tuple(lists["not_plants"]),
        fingerprint=fingerprint,
    )


def _fingerprint(texts: list[Document]) -> str:
    digest = hashlib.sha256((compiled.shape_of(list(ENTRIES.values())) + repr(LISTS)).encode())
    for _, name, text in texts:
        digest.update(name.encode() + b"\0" + text.encode())
    return digest.hexdigest()[:16]


def _read_all(texts: list[Document]) -> tuple[dict[str, dict[str, Any]], dict[str, Any]]:
    problems: list[str] = []
    tables: dict[str, dict[str, Any]] = {name: {} for name in ENTRIES}
    lists: dict[str, Any] = {name: {} if name in _MAPPINGS else [] for name in LISTS}
    for table, name, text in texts:
        if table in ENTRIES:
            _add_entries(tables[table], ENTRIES[table], text, name, problems)
        else:
            lists[table] = read_yaml(text, name, problems) or lists[table]
    if problems:
        raise EntryError(problems)
    return tables, lists


def _documents(root: Traversable) -> Iterator[Document]:
    """Every file that holds entries or lists, in a fixed order."""
    for table in ENTRIES:
        folder = root / table
        if folder.is_dir():
            for file in sorted(folder.iterdir(), key=lambda f: f.name):
                if file.name.endswith(".yaml"):
                    yield table, f"{table}/{file.name}", file.read_text("utf-8")
    for table in (*ENTRIES, *LISTS):
        single = root / f"{table}.yaml"
        if single.is_file():
            yield table, f"{table}.yaml", single.read_text("utf-8")


def _add_entries(table: dict[str, Any], cls: type, text: str, name: str, problems: list[str]) -> None:
    values = read_yaml(text, name, problems)
    if values is None:
        return
    if not isinstance(values, list):
        problems.append(f"{name}:1 file: expected a list of entries")
        return
    for value in values:
        line = value.line if isinstance(value, LineDict) else 1
        if cls is Place and isinstance(value, LineDict):
            from_metric(value)
        entry = build(cls, value, name, line, problems)
        if entry is None:
            continue
        if entry.id in table:
            problems.append(f"{name}:{line} id: {entry.id!r} is already used at {table[entry.id].where}")
        table[entry.id] = entry
