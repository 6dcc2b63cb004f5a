"""Which plants the letters on a problem ask about, and how often one that they name is the one asked about.

Counted over the rules' own examples, which tell it. Not here: counting (plants_learnt.py), weighing (which_plant.py).
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from kb.entries import NO_PLANT

_SORT_DOUBT, _PLANT_DOUBT, _NAMED_DOUBT = 2.0, 4.0, 2.0  # as many letters' worth that it is as usual
_RARE = 0.02  # the usual share of the letters that ask about one plant


@dataclass(frozen=True)
class AskedOf:
    """The counts. Evidence is in natural logarithms: 0 for as usual, more for oftener."""

    asked: Mapping[str, Mapping[str, int]]  # problem -> plant, or "none" -> letters that ask about it
    named: Mapping[str, Mapping[str, tuple[int, int]]]  # the same -> letters that name it, and of these ask about it
    wide: frozenset[str]  # the plants that are whole kinds

    def often(self, problem: str, share: float) -> list[str]:
        """The plants, and "none", that at least `share` of the letters on the problem ask about."""
        counts = self.asked.get(problem, {})
        return [plant for plant, count in counts.items() if count >= share * sum(counts.values())]

    def sort(self, problem: str, plant: str) -> float:
        """How much oftener than usual they ask about plants of this sort: none, a whole kind, or one plant."""
        counts, usual = self._sorts.get(problem, Counter()), self._usual[self._sort_of(plant)]
        share = (counts[self._sort_of(plant)] + _SORT_DOUBT * usual) / (counts.total() + _SORT_DOUBT)
        return math.log(share / usual)

    def plant(self, problem: str, plant: str) -> float:
        """How much oftener than usual they ask about this very plant."""
        counts = self.asked.get(problem, {})
        share = (counts.get(plant, 0) + _PLANT_DOUBT * _RARE) / (sum(counts.values()) + _PLANT_DOUBT)
        return math.log(share / _RARE)

    def when_named(self, problem: str, plant: str) -> float:
        """How much oftener than usual those that name the plant ask about it."""
        named, asked = self.named.get(problem, {}).get(plant, (0, 0))
        return math.log((asked / self._usual_named + _NAMED_DOUBT) / (named + _NAMED_DOUBT))

    def _sort_of(self, plant: str) -> str:
        return "none" if plant == NO_PLANT else "wide" if plant in self.wide else "one"

    @cached_property
    def _sorts(self) -> dict[str, Counter[str]]:
        found: dict[str, Counter[str]] = {problem: Counter() for problem in self.asked}
        for problem, counts in self.asked.items():
            for plant, count in counts.items():
                found[problem][self._sort_of(plant)] += count
        return found

    @cached_property
    def _usual(self) -> dict[str, float]:
        total = sum(self._sorts.values(), Counter(none=1, wide=1, one=1))
        return {sort: count / total.total() for sort, count in total.items()}

    @cached_property
    def _usual_named(self) -> float:
        pairs = [pair for plants in self.named.values() for pair in plants.values()]
        return (1 + sum(asked for _, asked in pairs)) / (1 + sum(named for named, _ in pairs))
