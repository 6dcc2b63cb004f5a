"""Which plant a question is about: among those named, the ones the problem occurs on, or the problem's usual one.

Not here: finding names (names_in_text.py), which problem it is (read.py).
"""

from __future__ import annotations

from functools import cache

from answers.reading.likeness import Likeness
from answers.reading.reading import Mention
from kb.load import Knowledge
from kb.match import occurs_on

IMPLIED = 0.1  # worth of the plant a problem says by itself, beside those named (a named host is worth 0.3 to 1)
_HARMS = ("disorder", "injury", "disease")


class WhichPlant:
    """Shares of belief over plants for a problem, in one rule base."""

    def __init__(self, knowledge: Knowledge, likeness: Likeness) -> None:
        self.knowledge = knowledge
        self._usual = dict(zip(likeness.labels, likeness.usual, strict=True))
        self._fit = cache(lambda problem, plant: occurs_on(problem, plant, knowledge))

    def has_hosts(self, problem: str) -> bool:
        """Whether the problem, or a rule for it, names plants or groups at all."""
        return any(self.knowledge.hosts[problem])

    def suits(self, problem: str, plants: list[Mention]) -> bool:
        """Whether the problem is known on one of the plants named, or none is named that could contradict it."""
        kinds = {m.id for m in plants if m.exact and not self.knowledge.plants[m.id].generic}
        return (
            not kinds
            or not self.has_hosts(problem)
            or any(self._fit(problem, plant) for plant in {m.id for m in plants})
        )

    def shares(self, problem: str, plants: list[Mention]) -> list[tuple[str | None, float]]:
        """The plants the problem may be on, each with its share of belief."""
        usual = self._usual_plant(problem)
        if not self.has_hosts(problem):  # compost, lead in soil: of a plant only when one alone is named
            harmed = self.knowledge.problems[problem].sort in _HARMS
            named = {m.id for m in plants if not self.knowledge.plants[m.id].generic} if harmed else set()
            return [(named.pop() if len(named) == 1 else None, 1.0)]
        weight: dict[str, float] = {}
        for order, mention in enumerate(plants):
            fit = self._fit(problem, mention.id)
            generic = self.knowledge.plants[mention.id].generic
            worth = (fit + 0.02) * (0.3 if generic else 1.0) * (1.0 if mention.exact else 0.7) / (1 + 0.25 * order)
            weight[mention.id] = weight.get(mention.id, 0.0) + worth
        fitting = {plant for plant in weight if self._fit(problem, plant)}
        if not fitting or (usual and all(self._fit(problem, plant) < 0.7 for plant in fitting)):
            return [(usual, 1.0)]  # the plants named, if any, are beside the point, or wider words for the usual one
        weight = self._to_whole_group(problem, self._to_specific(weight))
        if usual is not None:
            weight[usual] = weight.get(usual, 0.0) + IMPLIED
        squared = {plant: w * w for plant, w in weight.items()}
        total = sum(squared.values())
        return [(plant, w / total) for plant, w in squared.items()]

    def _to_specific(self, weight: dict[str, float]) -> dict[str, float]:
        """ "My lawn ... the bluegrass": what speaks for the generic plant speaks for the kind of it that is named."""
        entries = self.knowledge.plants
        specific = [p for p in weight if not entries[p].generic]
        moved = {p: weight[p] for p in specific}
        for generic in (p for p in weight if entries[p].generic):
            kinds = [p for p in specific if entries[generic].group in self.knowledge.lineage(entries[p].group)]
            heir = max(kinds, key=lambda p: weight[p], default=generic)
            moved[heir] = moved.get(heir, 0.0) + weight[generic]
        return moved

    def _to_whole_group(self, problem: str, weight: dict[str, float]) -> dict[str, float]:
        """ "Tomatoes, beans and squash" in one question about a whole group is about the vegetable garden."""
        entries = self.knowledge.plants
        hosts = [p for p in weight if self._fit(problem, p) > 0]
        if len(hosts) < 3 or any(self._fit(problem, p) == 1.0 for p in hosts):
            return weight
        lines = [self.knowledge.lineage(entries[p].group) for p in hosts]
        shared = [group for group in lines[0] if all(group in line for line in lines)]
        whole = next((p.id for g in shared for p in entries.values() if p.generic and p.group == g), None)
        return {**weight, whole: 2 * max(weight.values())} if whole else weight

    def _group(self, plant: str) -> str:
        return self.knowledge.plants[plant].group

    def _usual_plant(self, problem: str) -> str | None:
        """The plant a problem says by itself: its only host, or the one that its texts mostly name."""
        plants, groups = self.knowledge.hosts[problem]
        if len(plants) == 1 and all(g in self.knowledge.lineage(self._group(p)) for p in plants for g in groups):
            return next(iter(plants))
        usual = self._usual.get(problem, "")
        return usual if usual and self._fit(problem, usual) else None

    def main(self, plants: list[Mention]) -> str | None:
        """The first specific plant named, else the first named."""
        specific = [m for m in plants if not self.knowledge.plants[m.id].generic] or plants
        return specific[0].id if specific else None
