"""Which plants, problems and months the rules answer, and where the gaps are.

Not here: printing and drawing it (answers/cli/coverage.py).
"""

from __future__ import annotations

from dataclasses import dataclass

from kb.entries import Plant, Problem
from kb.load import Knowledge
from kb.match import matches

ALL_YEAR = tuple(range(1, 13))


@dataclass(frozen=True)
class PlantCoverage:
    """One plant: the problems that a rule answers for it, and those months in which each is asked about."""

    plant: Plant
    months: dict[str, tuple[int, ...]]  # problem id -> months

    def in_month(self, month: int) -> list[str]:
        """The problems answered in a month."""
        return [problem for problem, months in self.months.items() if month in months]


@dataclass(frozen=True)
class Coverage:
    """Every plant's coverage, and the gaps."""

    plants: tuple[PlantCoverage, ...]
    unanswered: tuple[Problem, ...]  # problems without a rule
    only_general: tuple[Plant, ...]  # plants that no rule and no problem names, only their wider group


def coverage(k: Knowledge) -> Coverage:
    """Plants x problems x months of the rule base; a problem without months is asked about all year."""
    rows = []
    for plant in k.plants.values():
        months = {
            problem.id: problem.months or ALL_YEAR
            for problem in k.problems.values()
            if any(m.fit >= 0.7 for m in matches(plant.id, problem.id, k) if m.rule.plants or m.rule.groups)
        }
        rows.append(PlantCoverage(plant, months))
    named = {p for rule in k.rules.values() for p in rule.plants} | {p for q in k.problems.values() for p in q.plants}
    return Coverage(
        tuple(rows),
        tuple(p for p in k.problems.values() if p.id not in k.rules_by_problem),
        tuple(p for p in k.plants.values() if p.id not in named and not p.generic),
    )
