"""What goes wrong as a rule base grows and ages: rules that contradict, windows that never open, reviews overdue.

Not here: the shape of entries (build.py), ids across entries (check.py), the words of a rule (wording.py).
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import combinations

from kb.entries import Caution, Plant, Rule
from kb.load import Knowledge
from kb.match import matches
from kb.schedule import for_plant, in_zones, schedule

REVIEW_YEARS = 3


def conflicts(k: Knowledge) -> Iterator[str]:
    """Two rules that claim one question: the same problem on the same plant, equally well, in shared zones."""
    for rules in k.rules_by_problem.values():
        if len(rules) < 2:
            continue
        told: set[tuple[str, str]] = set()
        for plant in (None, *k.plants):
            found = matches(plant, rules[0].problem, k)
            best = [m.rule for m in found if m.fit == found[0].fit and (m.fit >= 0.7 or not _named(m.rule))]
            for one, other in combinations(best, 2):
                if (one.id, other.id) not in told and _overlap(one, other):
                    told.add((one.id, other.id))
                    on = plant or "no plant named"
                    yield f"{other.where} rule: {other.id!r} and {one.id!r} both answer {one.problem!r} ({on})"


def _named(rule: Rule) -> bool:
    """Whether a rule is for certain plants; two that are claim no letter that names no plant."""
    return bool(rule.plants or rule.groups)


def _overlap(one: Rule, other: Rule) -> bool:
    a, b = one.zones or (0, 99), other.zones or (0, 99)
    return bool(set(one.kinds) & set(other.kinds)) and max(a[0], b[0]) <= min(a[-1], b[-1])


def never_open(k: Knowledge, today: date) -> Iterator[str]:
    """Windows that open at no place of the rule base (or, for a plant's own dates, that no plant of the rule has)."""
    for rule in k.rules.values():
        for window in rule.windows:
            plants: list[Plant | None] = [None]
            if window.trait:
                plants = [p for p in k.plants.values() if window.trait in p.traits]
            dated = next((w for p in plants if (w := for_plant(window, p)) is not None), None)
            places = (p for p in k.places.values() if in_zones(window.zones, p) and in_zones(rule.zones, p))
            if dated is None or not any(schedule(dated, p, today).opens for p in places):
                yield f"{rule.where} windows: {window.action!r} opens at no place"


def overdue(k: Knowledge, today: date) -> Iterator[str]:
    """Rules whose last review is more than three years past, is no date, or lies ahead."""
    for rule in k.rules.values():
        try:
            reviewed = date.fromisoformat(rule.reviewed)
        except ValueError:
            yield f"{rule.where} reviewed: {rule.reviewed!r}; expected a date as YYYY-MM-DD"
            continue
        if reviewed > today:
            yield f"{rule.where} reviewed: {rule.reviewed} lies ahead of today"
        elif (today - reviewed).days > REVIEW_YEARS * 365:
            yield f"{rule.where} reviewed: {rule.reviewed} is more than {REVIEW_YEARS} years ago; read it again"


def chemical_cautions(k: Knowledge) -> Iterator[str]:
    """Rules with a chemical step that lack a caution which cautions.yaml asks for there: the label, the bees."""
    for rule in k.rules.values():
        if any(s.step == "chemical" for s in rule.do):
            for caution in k.cautions.values():
                if _needs(rule, caution, k) and caution.id not in rule.cautions:
                    yield f"{rule.where} cautions: a chemical step here needs the {caution.id} caution"


def _needs(rule: Rule, caution: Caution, k: Knowledge) -> bool:
    groups = {*rule.groups, *(k.plants[p].group for p in rule.plants if p in k.plants)}
    lines = [set(k.lineage(g)) for g in groups]
    return (
        caution.with_chemicals
        and (not caution.sorts or k.problems[rule.problem].sort in caution.sorts)
        and (not caution.groups or any(line & set(caution.groups) for line in lines))
        and not (lines and all(line & set(caution.not_groups) for line in lines))
    )
