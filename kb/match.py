"""Which rules fit a plant and a problem, best first, with the reasons named.

Not here: how plant and problem were read out of a letter (answers/reading).
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from kb.entries import Place, Rule
from kb.load import Knowledge
from kb.schedule import in_zones


@dataclass(frozen=True)
class Match:
    """A rule, how well it fits (0 to 1), and why."""

    rule: Rule
    fit: float
    reasons: tuple[str, ...]


def occurs_on(problem: str, plant: str, knowledge: Knowledge) -> float:
    """How well a problem suits a plant: 1 when named for it, less for its group or a wider one, else 0."""
    entry = knowledge.plants[plant]
    plants, groups = knowledge.hosts[problem]
    return _fit(plant, entry.generic, knowledge.lineage(entry.group), plants, groups, knowledge)


def _fit(
    plant: str,
    generic: bool,
    lineage: tuple[str, ...],
    plants: Collection[str],
    groups: Collection[str],
    knowledge: Knowledge,
) -> float:
    if plant in plants:
        return 1.0
    if lineage[0] in groups:
        return 0.8
    if any(g in groups for g in lineage[1:]):
        return 0.7
    if generic:  # "my tree" may be any of the trees a rule names
        below = [knowledge.lineage(knowledge.plants[p].group) for p in plants] + [knowledge.lineage(g) for g in groups]
        if any(lineage[0] in line for line in below):
            return 0.6
    return 0.0


def matches(plant: str | None, problem: str, knowledge: Knowledge, place: Place | None = None) -> list[Match]:
    """The rules for `problem`, those that suit `plant` first. A rule that names other plants only is left out.

    At a known `place` a rule written for other hardiness zones is left out too, when another rule is left.
    """
    found = []
    for rule in knowledge.rules_by_problem.get(problem, ()):
        if plant is None or not (rule.plants or rule.groups):
            found.append(Match(rule, 0.5, (f"answers {problem}",)))
            continue
        entry = knowledge.plants[plant]
        fit = _fit(plant, entry.generic, knowledge.lineage(entry.group), rule.plants, rule.groups, knowledge)
        if fit:
            found.append(Match(rule, fit, (f"answers {problem}", f"is meant for {entry.common}")))
    if place is not None:
        found = [m for m in found if in_zones(m.rule.zones, place)] or found
    return sorted(found, key=lambda m: (-m.fit, m.rule.id))
