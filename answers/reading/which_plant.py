"""Which plant a question is about: one that is named, one that is described, or one that the problem is often asked of.

Evidence for each plant, for one problem, is weighed and made into shares (weights.py). Not here: what a letter says of
the plants it names (heard.py), which problem it is (read.py).
"""

from __future__ import annotations

import math
from functools import cache
from typing import Any

from answers.reading.heard import Heard, is_kind_of, weighed
from answers.reading.model import Models
from kb.entries import NO_PLANT
from kb.load import Knowledge
from kb.match import occurs_on

_DESCRIBED = 3  # plants not named that are weighed, the best described first
_MANY = 3  # plants named of one group from which the question may be about the whole of it
_OFTEN = 0.1  # share of the letters on a problem that ask about a plant, from which it is weighed unnamed
_TENTH = 0.1  # scores of words are put on the scale of the other evidence


class WhichPlant:
    """Shares of belief over plants for a problem, in one rule base."""

    def __init__(self, knowledge: Knowledge, models: Models) -> None:
        self.knowledge = knowledge
        self._asked_of = models.asked_of
        self._looked_at = models.looks.labels
        self._column = {plant: i for i, plant in enumerate(models.looks.labels)}
        self._wholes = {p.group: p.id for p in knowledge.plants.values() if p.generic}
        self._fit = cache(lambda problem, plant: occurs_on(problem, plant, knowledge))
        self._hosts = cache(self._hosts_of)
        self._narrower = cache(lambda plant, named: is_kind_of(plant, named, knowledge))
        self._alone = cache(self._evidence_alone)
        self._often_asked = cache(self._often_asked_of)
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
            plant: self._worth_alone(problem, plant, plant in heard.said)
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
                **self._alone(problem, plant, plant in heard.said),
                **heard.said.get(plant or "", {}),
                **given,
            }
            for plant, given in self._described(problem, heard).items()
        }

    def _described(self, problem: str, heard: Heard) -> dict[str | None, dict[str, float]]:
        """Every plant it may be on, named or not, with how well the letter's words describe it."""
        often, whole = self._asked_of.often(problem, _OFTEN), self._whole(problem, heard)
        likely = (*heard.said, *often, *self._best_described(problem, heard), *whole)
        found: dict[str | None, dict[str, float]] = {None: {}, **{plant: {} for plant in likely if plant != NO_PLANT}}
        found[None] |= {"none, others in passing": heard.in_passing}
        for plant in found.keys() - heard.said.keys() - {None}:
            column = self._column.get(str(plant))
            score = heard.described[column] if column is not None else 0.0
            wider = max(
                (given["named first"] for n, given in heard.said.items() if self._narrower(plant, n)), default=0.0
            )
            found[plant] |= {"described, not named": float(score) * _TENTH, "narrower than one named": wider}
        leader, lead = self._looked_at[heard.leader[0]], heard.leader[1]
        if leader in found:
            found[leader] |= {"described by far of all": lead * _TENTH}
        for plant, wides in heard.wider.items():
            own = self._often_asked(problem, plant)
            most = max((self._often_asked(problem, wide) for wide in wides), default=own)
            found[plant] |= {"its wider name oftener asked of": max(0.0, most - own)}
        for plant in whole:
            found[plant] |= {"whole of many": float(plant not in heard.said)}
        return found

    def _evidence_alone(self, problem: str, plant: str | None, named: bool) -> dict[str, float]:
        """What speaks for a plant, or for none, whatever the letter says of it but that it is `named`."""
        hosted, asked_of = self.has_hosts(problem), self._evidence_of_asking(problem, plant, named)
        if plant is None:
            return asked_of | {"none": 1.0, "none, without hosts": float(not hosted)}
        fit = self._fit(problem, plant)
        return asked_of | {
            "fits": fit,
            "fits not": float(hosted and not fit),
            "named, without hosts": float(named and not hosted),
            "wide, not named": float(not named and self.knowledge.plants[plant].generic),
        }

    def _evidence_of_asking(self, problem: str, plant: str | None, named: bool) -> dict[str, float]:
        """How often the letters on the problem ask about the plant, or about none."""
        of = plant or NO_PLANT
        return {
            "sort often asked of": self._asked_of.sort(problem, of),
            "often asked of": self._asked_of.plant(problem, of),
            "often asked of when named": self._asked_of.when_named(problem, of) if named else 0.0,
        }

    def _often_asked_of(self, problem: str, plant: str) -> float:
        return weighed(self._evidence_of_asking(problem, plant, True))

    def _whole(self, problem: str, heard: Heard) -> list[str]:
        """ "Tomatoes, beans and squash": a question about a whole group is about the vegetable garden."""
        if len(heard.plants) < _MANY or any(self._fit(problem, p) == 1.0 for p in heard.plants):
            return []
        groups = [set(self.knowledge.lineage(self.knowledge.plants[p].group)) for p in heard.plants]
        return sorted(self._wholes[group] for group in set.intersection(*groups) if group in self._wholes)

    def _best_described(self, problem: str, heard: Heard) -> list[str]:
        """Of the plants it occurs on, those that the letter's words describe best."""
        hosts, columns = self._hosts(problem)
        scores = heard.described[columns]
        return [hosts[i] for i in scores.argsort()[::-1][:_DESCRIBED] if scores[i] > 0]

    def _hosts_of(self, problem: str) -> tuple[list[str], Any]:
        import numpy as np

        hosts = [p for p in self._column if self._fit(problem, p)]
        return hosts, np.array([self._column[p] for p in hosts], dtype=np.intp)
