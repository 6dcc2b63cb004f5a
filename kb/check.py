"""Does the rule base make sense as a whole? Every fault as `file:line field: message`, all in one run.

Not here: the shape of single entries (build.py refuses those while loading).
Calculator names and arguments are passed in, since kb knows nothing of answers.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

from kb import upkeep, wording
from kb.entries import (
    KINDS,
    MEASUREMENTS,
    NO_PLANT,
    NOT_URGENT,
    POSSIBLE_EMERGENCY,
    PROBLEM_SORTS,
    SEEN,
    STEP_ORDER,
    TRAITS,
    URGENT,
    Calculation,
    Place,
    Rule,
)
from kb.load import Knowledge

SPOKEN_WORDS = (70, 160)
FEWEST_EXAMPLES = 8


def check(
    knowledge: Knowledge, calculators: Mapping[str, set[str]] | None = None, today: date | None = None
) -> list[str]:
    """Every fault in the rule base on `today`. `calculators` maps a calculator's name to the names of its arguments."""
    found: list[str] = []
    for part in (_sources, _plants, _looks, _problems, _hand_offs, _amount_letters, _plant_letters, _urgent_letters):
        found += part(knowledge)
    for rule in knowledge.rules.values():
        found += _rule(rule, knowledge)
        for figure in rule.figures:
            found += _figure(rule, figure, knowledge, calculators)
    if found:  # what follows leans on ids that exist
        return found
    today = today or date.today()
    found += [*upkeep.chemical_cautions(knowledge), *upkeep.conflicts(knowledge), *upkeep.overdue(knowledge, today)]
    return found + list(upkeep.never_open(knowledge, today))


def _unknown(where: str, field: str, ids: Any, known: Mapping[str, Any]) -> Iterator[str]:
    for name in (ids,) if isinstance(ids, str) else ids:
        if name not in known:
            yield f"{where} {field}: {name!r} is not an entry"


def _sources(k: Knowledge) -> Iterator[str]:
    for source in k.sources.values():
        if source.seen not in SEEN:
            yield f"{source.where} seen: {source.seen!r}; expected one of {', '.join(SEEN)}"
        if source.seen == "read" and not source.address and not source.number:
            yield f"{source.where} address: a source that was read needs its address or number"
    for place in k.places.values():
        yield from _unknown(place.where, "source", place.source, k.sources)
        for name, normals in (("tmax_f", place.tmax_f), ("tmin_f", place.tmin_f), ("rain_in", place.rain_in)):
            if len(normals) != 12:
                yield f"{place.where} {name}: {len(normals)} values; expected 12, January first"
    for caution in k.cautions.values():
        yield from _unknown(caution.where, "source", caution.source, k.sources)
        yield from _unknown(caution.where, "groups", (*caution.groups, *caution.not_groups), k.groups)
        yield from _unknown(caution.where, "sorts", caution.sorts, dict.fromkeys(PROBLEM_SORTS))


def _plants(k: Knowledge) -> Iterator[str]:
    named: dict[str, str] = {}
    for plant in k.plants.values():
        yield from _unknown(plant.where, "group", plant.group, k.groups)
        yield from _unknown(plant.where, "kind_of", plant.kind_of or (), k.plants)
        yield from _unknown(plant.where, "sources", plant.sources, k.sources)
        yield from _unknown(plant.where, "traits", plant.traits, TRAITS)
        for trait, source in plant.traits_from.items():
            yield from _unknown(plant.where, f"traits_from.{trait}", source, k.sources)
        for trait in plant.traits.keys() - plant.traits_from.keys():
            if not plant.sources:
                yield f"{plant.where} traits_from: {trait!r} has no source"
        yield from _zones(plant.where, tuple(plant.traits.get("zones", ())))
        for alias in {plant.common.lower(), *(a.lower() for a in (*plant.aliases, *plant.cultivars))}:
            if named.setdefault(alias, plant.id) != plant.id:
                yield f"{plant.where} aliases: {alias!r} is also a name of {named[alias]!r}"


def _looks(k: Knowledge) -> Iterator[str]:
    for looks in k.looks.values():
        yield from _unknown(looks.where, "id", looks.id, k.plants)


def _zones(where: str, zones: tuple[int, ...]) -> Iterator[str]:
    if zones and not (len(zones) == 2 and 1 <= zones[0] <= zones[1] <= 13):
        yield f"{where} zones: {list(zones)}; expected [coldest, warmest] from 1 to 13"


def _problems(k: Knowledge) -> Iterator[str]:
    for problem in k.problems.values():
        yield from _unknown(problem.where, "plants", problem.plants, k.plants)
        yield from _unknown(problem.where, "groups", problem.groups, k.groups)
        yield from _unknown(problem.where, "sources", problem.sources, k.sources)
        yield from _unknown(problem.where, "expects", problem.expects, dict.fromkeys(MEASUREMENTS))
        for name, limits in problem.expects.items():
            if not (isinstance(limits, list | tuple) and len(limits) == 2 and limits[0] < limits[1]):
                yield f"{problem.where} expects.{name}: {limits!r}; expected [low, high]"
        if problem.sort not in PROBLEM_SORTS:
            yield f"{problem.where} sort: {problem.sort!r}; expected one of {', '.join(PROBLEM_SORTS)}"
        if problem.sort not in ("task", "soil", "weed") and not problem.look_alikes:
            yield f"{problem.where} look_alikes: a diagnosis names what else it could be"
        for look in problem.look_alikes:
            yield from _unknown(problem.where, "look_alikes.problem", look.problem or (), k.problems)
            yield from _unknown(problem.where, "look_alikes.source", look.source, k.sources)


def _hand_offs(k: Knowledge) -> Iterator[str]:
    for hand_off in k.hand_offs.values():
        yield from _unknown(hand_off.where, "source", hand_off.source, k.sources)
        for sign in hand_off.signs:
            try:
                re.compile(sign)
            except re.error as fault:
                yield f"{hand_off.where} signs: {sign!r} is not a regular expression ({fault})"


def _amount_letters(k: Knowledge) -> Iterator[str]:
    for told in k.amount_letters.values():
        yield from _unknown(told.where, "amounts", told.amounts, dict.fromkeys(MEASUREMENTS))
        for name, value in told.amounts.items():
            if value <= 0 and name not in ("temperature_f", "n_percent", "p_percent", "k_percent"):
                yield f"{told.where} amounts.{name}: {value:g}; expected above 0"


def _plant_letters(k: Knowledge) -> Iterator[str]:
    yield from _unknown("plant_letters.yaml", "plant", tuple(k.plant_letters), {NO_PLANT: None, **k.plants})
    if len(k.plant_letters) < 2:
        yield "plant_letters.yaml: the reading learns from letters on some plants, and on none"


def _urgent_letters(k: Knowledge) -> Iterator[str]:
    which = {URGENT: (), NOT_URGENT: (), **k.urgent_letters}
    yield from _unknown("urgent_letters.yaml", "list", tuple(which), dict.fromkeys((URGENT, NOT_URGENT)))
    for name, letters in which.items():
        if not letters:
            yield f"urgent_letters.yaml {name}: no letters; the reading learns from both lists"
    yield from _unknown("urgent_letters.yaml", "hand-off", POSSIBLE_EMERGENCY, k.hand_offs)


def _rule(rule: Rule, k: Knowledge) -> Iterator[str]:
    yield from _unknown(rule.where, "problem", rule.problem, k.problems)
    yield from _unknown(rule.where, "plants", rule.plants, k.plants)
    yield from _unknown(rule.where, "groups", rule.groups, k.groups)
    yield from _unknown(rule.where, "cautions", rule.cautions, k.cautions)
    yield from _unknown(rule.where, "hand_off", rule.hand_off or (), k.hand_offs)
    yield from _unknown(rule.where, "kinds", rule.kinds, dict.fromkeys(KINDS))
    yield from wording.faults(rule)
    yield from _zones(rule.where, rule.zones)
    for part in (rule.what, *rule.do, *rule.avoid):
        yield from _unknown(rule.where, "source", part.source, k.sources)
        if part.step not in STEP_ORDER:
            yield f"{rule.where} step: {part.step!r}; expected one of {', '.join(STEP_ORDER)}"
    steps = [STEP_ORDER.index(s.step) for s in rule.do if s.step in STEP_ORDER]
    if steps != sorted(steps):
        yield f"{rule.where} do: steps are out of order; give them as {', '.join(STEP_ORDER)}"
    for window in rule.windows:
        if sum((m % 12) + 1 not in window.months for m in window.months) > 1:
            yield f"{rule.where} windows: months {list(window.months)} leave a gap; give a window for each run"
        yield from _zones(rule.where, window.zones)
        yield from _unknown(rule.where, "windows.source", window.source, k.sources)
        forms = (
            window.months,
            window.dates,
            window.frost,
            window.degree_days,
            window.soil_temp_f,
            window.dormant,
            window.trait,
        )
        if sum(map(bool, forms)) != 1:
            yield f"{rule.where} windows: {window.action!r} needs exactly one of the fields that say when"
    words = len(rule.spoken.split())
    if not SPOKEN_WORDS[0] <= words <= SPOKEN_WORDS[1]:
        yield f"{rule.where} spoken: {words} words; expected {SPOKEN_WORDS[0]} to {SPOKEN_WORDS[1]}"
    yield from _unknown(rule.where, "examples", rule.examples, {NO_PLANT: None, **k.plants})
    if len(rule.letters) < FEWEST_EXAMPLES:
        yield f"{rule.where} examples: {len(rule.letters)}; expected at least {FEWEST_EXAMPLES}"


def _figure(rule: Rule, figure: Calculation, k: Knowledge, calculators: Mapping[str, set[str]] | None) -> Iterator[str]:
    field = f"figures.{figure.id}"
    earlier = {f.id for f in rule.figures[: rule.figures.index(figure)]}
    for name, given in figure.inputs.items():
        if given.value is not None and not given.source:
            yield f"{rule.where} {field}.{name}: a value needs a source"
        yield from _unknown(rule.where, f"{field}.{name}.source", given.source or (), k.sources)
        if given.figure and given.figure.split(".")[0] not in earlier:
            yield f"{rule.where} {field}.{name}: {given.figure!r} is not an earlier figure of this rule"
        yield from _unknown(rule.where, f"{field}.{name}.reading", given.reading or (), dict.fromkeys(MEASUREMENTS))
        if given.place and given.place not in Place.__dataclass_fields__:
            yield f"{rule.where} {field}.{name}: {given.place!r} is nothing that a place has"
        if given.default is not None and not given.default_words:
            yield f"{rule.where} {field}.{name}: a default needs default_words, so that the draft can say it aloud"
    if calculators is None:
        return
    if figure.calculator not in calculators:
        yield f"{rule.where} {field}.calculator: {figure.calculator!r} is not a calculator"
        return
    yield from (
        f"{rule.where} {field}.{name}: {figure.calculator} has no such input"
        for name in figure.inputs
        if name not in calculators[figure.calculator]
    )
