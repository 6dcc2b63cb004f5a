"""What a letter says of each plant it names, whatever the problem: first or late, mine or next door's, there or gone.

Not here: finding the names (names_in_text.py), weighing them for a problem (which_plant.py).
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from answers.reading import weights
from answers.reading.context import asked_about, beside_the_point, not_there
from answers.reading.reading import Mention
from kb.load import Knowledge

_MINE = re.compile(r"\b(?:my|our|mine|have|got|i've|we've|this|these|planted|grow|bought)\W+(?:[\w'-]+\W+){0,2}\Z")
_BESIDE = re.compile(  # "next to our crabapple"
    r"\b(?:next to|beside|near|under|beneath|behind|along|past|between|against|around)\W+(?:my|our|this|these)\W+"
    r"(?:[\w'-]+\W+){0,2}\Z"
)
_BACK = 40  # characters looked back for "my"


@dataclass(frozen=True)
class Heard:
    """What is said of every plant that is named, and how much the letter's words describe each plant there is."""

    plants: list[str]  # those the question may be about, in their order
    said: Mapping[str, Mapping[str, float]]  # each plant named -> kind of evidence -> how much
    sure: frozenset[str]  # specific plants it may be about, named without a slip
    described: Any  # a score for each plant of the table of looks
    wider: Mapping[str, frozenset[str]]  # each plant named -> its wider names in the letter, when it alone has them

    @cached_property
    def worth(self) -> dict[str, float]:
        """Each plant named -> what is said of it, weighed."""
        return {plant: weighed(given) for plant, given in self.said.items()}

    @cached_property
    def in_passing(self) -> float:
        """How much every plant named is spoken of in passing; 0 when none is named, or one as what is asked about."""
        return max(0.0, -max((given["spoken of as asked"] for given in self.said.values()), default=0.0))

    @cached_property
    def leader(self) -> tuple[int, float]:
        """The plant of the table that is described best, and by how much better than the next."""
        first, second = self.described.argsort()[:-3:-1].tolist()
        return first, float(self.described[first] - self.described[second])


def hear(
    text: str,
    every: Sequence[Mention],
    problems: Sequence[Mention],
    spoken_of: Sequence[float],
    described: Any,
    knowledge: Knowledge,
) -> Heard:
    """What `text`, in which `every` plant is named, and these `problems`, says of the plants.

    `spoken_of` is how much each mention sounds like the plant asked about, `described` how much the words fit each
    plant there is.
    """
    mentions: dict[str, list[Mention]] = {}
    sounds: dict[str, float] = {}
    for mention, score in zip(every, spoken_of, strict=True):
        mentions.setdefault(mention.id, []).append(mention)
        sounds[mention.id] = max(score, sounds.get(mention.id, score))
    beside = {p: sum(beside_the_point(text, m) for m in said) / len(said) for p, said in mentions.items()}
    missing = {p for p, said in mentions.items() if any(not_there(text, m) for m in said)}
    plants = [p for p in mentions if beside[p] < 1 and p not in missing]
    order = {plant: place for place, plant in enumerate(plants)}
    low = text.lower().replace("’", "'")
    mine = {p for p, said in mentions.items() if any(_is_mine(low, m) for m in said)}
    narrower = {wide: [p for p in plants if is_kind_of(p, wide, knowledge)] for wide in mentions}
    # "my lawn ... the bluegrass"
    wider_of = {p: frozenset(w for w in mentions if narrower[w] == [p]) for p in mentions}
    given: dict[str, dict[str, float]] = {}
    for plant, said in mentions.items():
        wider = wider_of[plant]
        first = min((order[p] for p in (plant, *wider) if p in order), default=None)
        given[plant] = {
            "named": 1.0,
            "in a problem's name": float(all(_within(m, problems) for m in said)),  # "squash bugs on my pumpkin"
            "named first": 0.0 if first is None else 1 / (1 + first),
            "named as mine": float(plant in mine or not wider.isdisjoint(mine)),
            "spoken of as asked": max(sounds[p] for p in (plant, *wider)),
            "said to be meant": float(any(asked_about(text, m) for m in said)),
            "beside the point": beside[plant],
            "not there": float(plant in missing),
            "with a slip": float(not any(m.exact for m in said)),
            "named widely": float(knowledge.plants[plant].generic),
            "wider than another named": float(len(narrower[plant]) == 1),
            "wider than several named": float(len(narrower[plant]) > 1),
        }
    sure = frozenset(p for p in plants if not knowledge.plants[p].generic and any(m.exact for m in mentions[p]))
    return Heard(plants, given, sure, described, wider_of)


def weighed(given: Mapping[str, float]) -> float:
    """Evidence for a plant as one number, in log-odds."""
    return sum(weights.PLANT[kind] * value for kind, value in given.items())


def _is_mine(low: str, mention: Mention) -> bool:
    """Whether it is "my" plant, and not only the one beside which something is."""
    before = max(0, mention.start - _BACK)
    return bool(_MINE.search(low, before, mention.start)) and not _BESIDE.search(low, before, mention.start)


def _within(plant: Mention, problems: Sequence[Mention]) -> bool:
    return any(problem.start <= plant.start and plant.end <= problem.end for problem in problems)


def is_kind_of(plant: str, wider: str, knowledge: Knowledge) -> bool:
    """Whether `wider` is the less exact name: a Japanese maple is a kind of maple, bluegrass one of lawn."""
    if plant == wider:
        return False
    narrow, wide = knowledge.plants[plant], knowledge.plants[wider]
    of_its_group = wide.generic and not narrow.generic and wide.group in knowledge.lineage(narrow.group)
    return narrow.kind_of == wider or of_its_group
