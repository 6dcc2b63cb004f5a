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

from kb.build import build
from kb.entries import Caution, HandOff, Place, Plant, Problem, Rule, Source
from kb.errors import EntryError
from kb.yaml_lines import LineDict, read_yaml

ENTRIES: dict[str, type] = {
    "sources": Source,
    "cautions": Caution,
    "hand_offs": HandOff,
    "plants": Plant,
    "problems": Problem,
    "rules": Rule,
    "places": Place,
}


@dataclass(frozen=True)
class Knowledge:
    """Everything we know, by id. `fingerprint` changes when any file does."""

    sources: dict[str, Source]
    cautions: dict[str, Caution]
    hand_offs: dict[str, HandOff]
    plants: dict[str, Plant]
    problems: dict[str, Problem]
    rules: dict[str, Rule]
    places: dict[str, Place]
    groups: dict[str, str | None]
    other_letters: tuple[str, ...]  # letters no rule answers: they teach the model what it does not know
    kind_letters: dict[str, tuple[str, ...]]  # kind -> what people write
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


def load(folder: Traversable | None = None) -> Knowledge:
    """Read the rule base from `folder` (default: the files shipped with the package).

    Raises:
        EntryError: with every fault found, each as `file:line field: message`.
    """
    root = folder or files("kb")
    problems: list[str] = []
    digest = hashlib.sha256()
    tables: dict[str, dict[str, Any]] = {name: {} for name in ENTRIES}
    for table, name, text in _documents(root):
        digest.update(name.encode() + text.encode())
        _add_entries(tables[table], ENTRIES[table], text, name, problems)
    groups = _read(root, "groups.yaml", digest, problems) or {}
    others = _read(root, "other_letters.yaml", digest, problems) or []
    kinds = _read(root, "kind_letters.yaml", digest, problems) or {}
    if problems:
        raise EntryError(problems)
    return Knowledge(
        **tables,
        groups=dict(groups),
        other_letters=tuple(map(str, others)),
        kind_letters={kind: tuple(map(str, texts)) for kind, texts in kinds.items()},
        fingerprint=digest.hexdigest()[:16],
    )


def _documents(root: Traversable) -> Iterator[tuple[str, str, str]]:
    """(table, file name, text) of every file that holds entries, in a fixed order."""
    for table in ENTRIES:
        single = root / f"{table}.yaml"
        if single.is_file():
            yield table, f"{table}.yaml", single.read_text("utf-8")
        folder = root / table
        if folder.is_dir():
            for file in sorted(folder.iterdir(), key=lambda f: f.name):
                if file.name.endswith(".yaml"):
                    yield table, f"{table}/{file.name}", file.read_text("utf-8")


def _read(root: Traversable, name: str, digest: Any, problems: list[str]) -> Any:
    file = root / name
    if not file.is_file():
        return None
    text = file.read_text("utf-8")
    digest.update(name.encode() + text.encode())
    return read_yaml(text, name, problems)


def _add_entries(table: dict[str, Any], cls: type, text: str, name: str, problems: list[str]) -> None:
    values = read_yaml(text, name, problems)
    if values is None:
        return
    if not isinstance(values, list):
        problems.append(f"{name}:1 file: expected a list of entries")
        return
    for value in values:
        line = value.line if isinstance(value, LineDict) else 1
        entry = build(cls, value, name, line, problems)
        if entry is None:
            continue
        if entry.id in table:
            problems.append(f"{name}:{line} id: {entry.id!r} is already used at {table[entry.id].where}")
        table[entry.id] = entry
