"""One letter's worksheet: its words with those that decided marked, the reading and its rivals, the figures' inputs.

Not here: the page's look (templates/letter.html), the steps that may be taken (ledger.py, clearing.py).
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from answers.calculators.units import number_written
from answers.drafts.compose import cite
from kb.entries import Calculation, Input, Rule
from kb.errors import RangeError, UnitError
from kb.load import Knowledge

_LONGEST_VALUE = 60  # characters of a number as typed


class Piece(NamedTuple):
    """A stretch of text; `mark` when it decided the reading."""

    text: str
    mark: bool


class Rival(NamedTuple):
    """Another problem it could be, how likely in words, and the sign that tells it from the leading one."""

    id: str
    name: str
    likely: str
    sign: str


class Field(NamedTuple):
    """One number that figures are worked from. `name` is what `Store.tell` keeps; `fixed` ones are the rule's."""

    name: str
    label: str
    value: str
    origin: str
    fixed: bool = False


def marked(text: str, words: Sequence[str]) -> list[Piece]:
    """A letter's text in pieces, those that decided marked, wherever they stand; no number is marked in part."""
    if not words:
        return [Piece(text, False)]
    any_word = "|".join(_whole(w) for w in sorted(words, key=len, reverse=True))
    pieces = re.split(rf"(?<!\w)({any_word})(?!\w)", text, flags=re.IGNORECASE)
    return [Piece(piece, i % 2 == 1) for i, piece in enumerate(pieces) if piece]


def _whole(word: str) -> str:
    """A pattern of one word; a digit at its edge must be the edge of its number too (of 5.4, 5,000 or 20-0-10)."""
    before = r"(?<!\.)(?<!\d[,/–-])" if word[:1].isdigit() else ""
    after = r"(?![.,/–-]\d)" if word[-1:].isdigit() else ""
    return before + re.escape(word) + after


def rivals(worked: Mapping[str, Any], knowledge: Knowledge) -> list[Rival]:
    """The other problems of the candidate set with what sets each apart, likeliest first."""
    chances: dict[str, float] = {}
    for candidate in worked["candidates"]:
        chances[candidate["problem"]] = chances.get(candidate["problem"], 0.0) + candidate["probability"]
    leading = worked["problem"]["id"] if worked["problem"] else ""
    found = []
    for problem, chance in sorted(chances.items(), key=lambda item: -item[1]):
        if problem != leading and problem in knowledge.problems:
            sign = _sign(leading, problem, knowledge)
            found.append(Rival(problem, knowledge.problems[problem].name, in_a_hundred(chance), sign))
    return found


def in_a_hundred(chance: float) -> str:
    """A probability in words: "97 in 100"; never nought and never certain."""
    if chance < 0.01:
        return "less than 1 in 100"
    return "over 99 in 100" if chance > 0.99 else f"{round(100 * chance)} in 100"


def _sign(leading: str, rival: str, k: Knowledge) -> str:
    """What the rule base says tells one problem from the other, from either side; "" when it says nothing."""
    if leading not in k.problems:
        return ""
    for one, other in ((leading, rival), (rival, leading)):
        for look in k.problems[one].look_alikes:
            if look.problem == other or look.name == k.problems[other].name:
                return f"{look.name}: {look.sign}"
    return ""


def fields(rule: Rule | None, worked: Mapping[str, Any], told: Mapping[str, Any], knowledge: Knowledge) -> list[Field]:
    """Every number that a rule's figures rest on, each once, with where its value comes from."""
    found: dict[str, Field] = {}
    for calculation in rule.figures if rule else ():
        used: Mapping[str, Any] = next((f["inputs"] for f in worked["figures"] if f["id"] == calculation.id), {})
        for name, source in calculation.inputs.items():
            field = _field(calculation, name, source, used, worked, told, knowledge)
            if field is not None:
                found.setdefault(field.name, field)
        for need in calculation.needs:
            found.setdefault(need, Field(need, label(need), _shown(told.get(need, "")), "the writer must tell it"))
    return list(found.values())


def _field(
    calculation: Calculation,
    name: str,
    source: Input,
    used: Mapping[str, Any],
    worked: Mapping[str, Any],
    told: Mapping[str, Any],
    knowledge: Knowledge,
) -> Field | None:
    own = f"{calculation.id}.{name}"
    value = _shown(used.get(name, ""))
    if source.reading:
        if source.reading in told:
            return Field(source.reading, label(source.reading), _shown(told[source.reading]), "told by a person")
        said = worked["measurements"].get(source.reading)
        if said:
            words = f"the letter: “{said['words']}”" + (", roughly" if said["about"] else "")
            return Field(source.reading, label(source.reading), _shown(said["value"]), words)
        unknown = "the writer must tell it" if source.reading in calculation.needs else "not told"
        origin = f"assumed: {source.default_words}" if source.default is not None else unknown
        return Field(source.reading, label(source.reading), value, origin)
    if own in told:
        return Field(own, label(name), _shown(told[own]), "told by a person")
    if source.figure:
        return None
    if source.trait or source.place:
        origin = "the plant" if source.trait else "the place"
        return Field(own, label(name), value, origin if value else "unknown here")
    cited = [source.source] if isinstance(source.source, str) else list(source.source)
    sources = "; ".join(cite(knowledge.sources[s]) for s in cited if s in knowledge.sources)
    if source.value is not None:
        return Field(own, label(name), _shown(source.value), sources or "the rule", fixed=True)
    return Field(own, label(name), value, f"assumed: {source.default_words}" if source.default_words else "assumed")


def label(name: str) -> str:
    """A measurement's name in words: "area (sq ft)" of "area_sqft"."""
    words = name.split("_")
    units = {"sqft": "sq ft", "in": "in", "ft": "ft", "lb": "lb", "f": "°F", "percent": "%", "gal": "gal", "oz": "oz"}
    if len(words) > 1 and words[-1] in units:
        return f"{' '.join(words[:-1])} ({units[words[-1]]})"
    return " ".join(words).replace("ph", "pH")


def values_told(form: Mapping[str, Any], known: Sequence[Field]) -> dict[str, Any]:
    """The numbers of a form that differ from what stands there; None where one was emptied.

    Raises: RangeError for a value longer than a number is ever written.
    """
    changed: dict[str, Any] = {}
    for field in known:
        text = str(form.get(field.name, field.value)).strip()
        if field.fixed or text == field.value:
            continue
        if len(text) > _LONGEST_VALUE:
            raise RangeError(field.label, f"{len(text)} characters", f"a number of at most {_LONGEST_VALUE}")
        changed[field.name] = _number(text) if text else None
    return changed


def _number(text: str) -> float | str:
    try:
        return number_written(text)
    except UnitError:
        return text  # "1/2 acre", "1,5": the calculator reads units itself, and refuses what it cannot read


def _shown(value: Any) -> str:
    if value is None:
        return ""
    return f"{value:.6g}" if isinstance(value, int | float) and not isinstance(value, bool) else str(value)
