"""Which plant a question is about: one that is named, one that is described, or the problem's usual one.

Evidence for each plant, for one problem, is weighed and made into shares (weights.py). Not here: what a letter says of
the plants it names (heard.py), which problem it is (read.py).
"""

from __future__ import annotations

import math
from functools import cache
from typing import Any

from answers.reading.heard import Heard, is_kind_of, weighed
from answers.reading.model import Models
from kb.load import Knowledge
from kb.match import occurs_on

_HARMS = ("disorder", "injury", "disease")
_DESCRIBED = 3  # plants not named that are weighed, the best described first
_MANY = 3  # plants named of one group from which the question may be about the whole of it
_TENTH = 0.1  # scores of words are put on the scale of the other evidence


class WhichPlant:
    """Shares of belief over plants for a problem, in one rule base."""

    def __init__(self, knowledge: Knowledge, models: Models) -> None:
        self.knowledge = knowledge
        self._likeness = models.problem
        self._told = models.plants
        self._column = {plant: i for i, plant in enumerate(models.looks.labels)}
        self._wholes = {p.group: p.id for p in knowledge.plants.values() if p.generic}
        self._fit = cache(lambda problem, plant: occurs_on(problem, plant, knowledge))
        self._hosts = cache(self._hosts_of)
        self._narrower = cache(lambda plant, named: is_kind_of(plant, named, knowledge))
        self._usual_plant = cache(self._usual_plant_of)
        self._alone = cache(self._evidence_alone)
        self._worth_alone = cache(lambda *given: weighed(self._evidence_alone(*given)))

    def has_hosts(self, problem: str) -> bool:
        """Whether the problem, or a rule for it, names plants or groups at all."""
        return any(self.knowledge.hosts[problem])

    def suits(self, problem: str, heard: Heard) -> bool:
        """Whether the problem is known on one of the plants named, or none is named that could contradict it."""
        return not heard.sure or not self.has_hosts(problem) or any(self._fit(problem, p) for p in heard.plants)

    def main(self, heard: Heard) -> str | None:
        """The first specific plant named, else the first named."""
        specific = [p for p in heard.plants if not self.knowledge.plants[p].generic] or heard.plants
        return specific[0] if specific else None

    def shares(self, problem: str, heard: Heard) -> list[tuple[str | None, float]]:
        """The plants the problem may be on, each with its share of belief; None stands for no plant."""
        scores = {
            plant: self._worth_alone(problem, plant, _named(plant, heard))
            + heard.worth.get(plant or "", 0.0)
            + weighed(given)
            for plant, given in self._described(problem, heard).items()
        }
        top = max(scores.values())
        powers = {plant: math.exp(score - top) for plant, score in scores.items()}
        total = sum(powers.values())
        return [(plant, power / total) for plant, power in powers.items()]

    def evidence(self, problem: str, heard: Heard) -> dict[str | None, dict[str, float]]:
        """For each plant that it may be on, and for none, each kind of evidence unweighted."""
        return {
            plant: {
                **self._alone(problem, plant, _named(plant, heard)),
                **heard.said.get(plant or "", {}),
                **given,
            }
            for plant, given in self._described(problem, heard).items()
        }

    def _described(self, problem: str, heard: Heard) -> dict[str | None, dict[str, float]]:
        """Every plant it may be on, named or not, with how well the letter's words describe it."""
        usual, whole = self._usual_plant(problem), self._whole(problem, heard)
        best = self._best_described(problem, heard)
        named_or_likely = (*heard.said, *((usual,) if usual else ()), *(plant for plant, _ in best), *whole)
        found: dict[str | None, dict[str, float]] = {None: {}, **{plant: {} for plant in named_or_likely}}
        found[None] |= {"none, others in passing": heard.in_passing}
        for plant in found.keys() - heard.said.keys() - {None}:
            column = self._column.get(str(plant))
            score = heard.described[column] if column is not None else 0.0
            wider = max(
                (given["named first"] for n, given in heard.said.items() if self._narrower(plant, n)), default=0.0
            )
            found[plant] |= {"described, not named": float(score) * _TENTH, "narrower than one named": wider}
        if best:
            lead = best[0][1] - best[1][1] if len(best) > 1 else 0.0
            found[best[0][0]] |= {"described by far": lead * _TENTH}
            if self._column[best[0][0]] == heard.leader[0]:
                found[best[0][0]] |= {"described by far of all": heard.leader[1] * _TENTH}
        for plant in whole:
            found[plant] |= {"whole of many": float(plant not in heard.said)}
        return found

    def _evidence_alone(self, problem: str, plant: str | None, named: bool) -> dict[str, float]:
        """What speaks for a plant whatever the letter says of it; for None, `named` is whether any plant is named."""
        hosted = self.has_hosts(problem)
        if plant is None:
            return {
                "none": 1.0,
                "none, as often told": self._told[problem].without,
                "none, without hosts": float(not hosted),
                "none, nothing named": float(not named),
            }
        fit, harmed = self._fit(problem, plant), self.knowledge.problems[problem].sort in _HARMS
        return {
            "fits": fit,
            "fits not": float(hosted and not fit),
            "usual": float(plant == self._usual_plant(problem)),
            "told with it": bool(fit or not hosted) * self._likeness.strength(f"plant:{plant}", problem) * _TENTH,
            "named, without hosts": float(named and not hosted),
            "named, harmed without hosts": float(named and not hosted and harmed),
            "wide, not named": float(not named and self.knowledge.plants[plant].generic),
        }

    def _whole(self, problem: str, heard: Heard) -> list[str]:
        """ "Tomatoes, beans and squash": a question about a whole group is about the vegetable garden."""
        if len(heard.plants) < _MANY or any(self._fit(problem, p) == 1.0 for p in heard.plants):
            return []
        groups = [set(self.knowledge.lineage(self.knowledge.plants[p].group)) for p in heard.plants]
        return sorted(self._wholes[group] for group in set.intersection(*groups) if group in self._wholes)

    def _best_described(self, problem: str, heard: Heard) -> list[tuple[str, float]]:
        """Of the plants it occurs on, those that the letter's words describe best, and how well."""
        hosts, columns = self._hosts(problem)
        scores = heard.described[columns]
        return [(hosts[i], float(scores[i])) for i in scores.argsort()[::-1][:_DESCRIBED] if scores[i] > 0]

    def _hosts_of(self, problem: str) -> tuple[list[str], Any]:
        import numpy as np

        hosts = [p for p in self._column if self._fit(problem, p)]
        return hosts, np.array([self._column[p] for p in hosts], dtype=np.intp)

    def _usual_plant_of(self, problem: str) -> str | None:
        """The plant a problem says by itself: its only host, or the one that its texts mostly name."""
        plants, groups = self.knowledge.hosts[problem]
        lineages = [self.knowledge.lineage(self.knowledge.plants[p].group) for p in plants]
        if len(plants) == 1 and all(g in line for line in lineages for g in groups):
            return next(iter(plants))
        usual = self._told[problem].usual
        return usual if usual and self._fit(problem, usual) else None


def _named(plant: str | None, heard: Heard) -> bool:
    """Whether the plant is named; for None, whether any is."""
    return plant in heard.said if plant else bool(heard.said)
