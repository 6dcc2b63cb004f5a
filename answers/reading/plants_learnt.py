"""What teaches which plant a question is about: looks, names, and letters whose plant is known.

Not here: the tables and models of problems, kinds and quantities (train.py), keeping them all (kept.py).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import Protocol

from answers.reading.asked_of import AskedOf
from answers.reading.fitting import fit_on
from answers.reading.heard import is_kind_of
from answers.reading.lessons import Lesson
from answers.reading.reading import Mention
from answers.reading.spoken_of import SpokenOf
from answers.reading.spoken_of import features as around_name
from answers.reading.words import tokens as counted
from kb.load import Knowledge

_SPOKEN_STRENGTH = 0.3  # that of the model of how plants are spoken of, chosen on the development letters


class Naming(Protocol):
    """What finds the names in a text (read.py's Reader)."""

    def token_names(self, text: str) -> list[str]: ...
    def mask(self, text: str) -> str: ...
    def plants_in(self, text: str) -> list[Mention]: ...
    def urgent_signs(self, text: str) -> tuple[str, ...]: ...


def looks_told(knowledge: Knowledge, names: Naming) -> list[tuple[str, str]]:
    """(stems, plant) of what people tell of each plant, and of its names: half a name ("my snaps") is often all."""
    told = [(names.token_names(words), looks.id) for looks in knowledge.looks.values() for words in looks.told]
    for plant in knowledge.plants.values():
        called = dict.fromkeys((plant.common, *plant.aliases, *plant.cultivars, plant.botanical))
        told += [([token.name for token in counted(name, (), str)], plant.id) for name in called]
    return [(" ".join(stem for stem in stems if ":" not in stem), plant) for stems, plant in told]


def plants_asked_of(knowledge: Knowledge, lessons: Iterable[Lesson]) -> list[Lesson]:
    """The rules' examples as lessons, and those `lessons` that tell the plant too."""
    examples = [
        Lesson(text, rule.problem, plant)
        for rule in knowledge.rules.values()
        for plant, letters in rule.examples.items()
        for text in letters
    ]
    return examples + [lesson for lesson in lessons if lesson.plant in knowledge.plants]


def asked_of(knowledge: Knowledge, names: Naming, lessons: Iterable[Lesson] = ()) -> AskedOf:
    """The plants that each problem's letters ask about, and name."""
    asked: dict[str, Counter[str]] = {}
    named: dict[str, dict[str, tuple[int, int]]] = {}
    for text, problem, plant in plants_asked_of(knowledge, lessons):
        asked.setdefault(problem, Counter())[plant] += 1
        pairs = named.setdefault(problem, {})
        for one in {m.id for m in names.plants_in(text)}:
            times, rightly = pairs.get(one, (0, 0))
            pairs[one] = times + 1, rightly + (one == plant)
    return AskedOf(asked, named, frozenset(p.id for p in knowledge.plants.values() if p.generic))


def whose_plant_is_known(knowledge: Knowledge, names: Naming, lessons: Iterable[Lesson] = ()) -> list[tuple[str, str]]:
    """(letter, plant asked about or NO_PLANT): letters written for it, and examples that name several plants."""
    told = [(text, plant) for plant, letters in knowledge.plant_letters.items() for text in letters]
    examples = plants_asked_of(knowledge, lessons)
    return told + [(text, p) for text, _, p in examples if len({m.id for m in names.plants_in(text)}) > 1]


def fit_spoken_of(letters: Iterable[tuple[str, str]], knowledge: Knowledge, names: Naming) -> SpokenOf:
    """The model of how a plant is spoken of, from (letter, plant asked about); its wider names teach nothing."""
    import numpy as np
    from sklearn.linear_model import LogisticRegression

    def pairs_of(text: str, plant: str) -> Iterator[tuple[Mapping[str, float], bool]]:
        every = names.plants_in(text)
        for mention, around in zip(every, around_name(text, every), strict=True):
            if plant not in knowledge.plants or not is_kind_of(plant, mention.id, knowledge):
                yield around, mention.id == plant

    classifier = LogisticRegression(C=_SPOKEN_STRENGTH, max_iter=500, class_weight="balanced")
    features = fit_on((pair for text, plant in letters for pair in pairs_of(text, plant)), classifier)
    return SpokenOf(features, classifier.coef_[0].astype(np.float32), float(classifier.intercept_[0]))
