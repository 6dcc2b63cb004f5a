"""A plain baseline: TF-IDF and logistic regression on the same texts, for plant, problem and kind.

Not here: Trug's own reading. Amounts and emergencies the baseline does not read.
"""

from __future__ import annotations

from answers.letters.letter import Question
from answers.reading import train
from answers.reading.plants_learnt import plants_asked_of
from answers.reading.reading import Candidate, Reading
from kb.entries import NO_PLANT
from kb.load import Knowledge

DECIDED = 0.26  # at which it decides as many of the development half as Trug
_SHOWN = 6


class Baseline:
    """Three classifiers, fitted when made."""

    def __init__(self, knowledge: Knowledge) -> None:
        from sklearn.feature_extraction.text import TfidfVectorizer
        from sklearn.linear_model import LogisticRegression
        from sklearn.pipeline import make_pipeline

        def fitted(pairs: list[tuple[str, str]]) -> object:
            model = make_pipeline(TfidfVectorizer(sublinear_tf=True), LogisticRegression(C=20.0, max_iter=300))
            return model.fit(*zip(*pairs, strict=True))

        self._problem = fitted(train.texts(knowledge))
        self._plant = fitted([(lesson.text, lesson.plant) for lesson in plants_asked_of(knowledge, ())])
        self._kind = fitted([(text, kind) for kind, texts in knowledge.kind_letters.items() for text in texts])

    def read(self, questions: list[Question]) -> list[Reading]:
        """A reading of each question, with nothing in it but plant, problem and kind."""
        texts = [q.text for q in questions]
        problem, plant = self._problem, self._plant
        problems = problem.predict_proba(texts)  # type: ignore[attr-defined]
        plants = plant.predict(texts)  # type: ignore[attr-defined]
        kinds = self._kind.predict(texts)  # type: ignore[attr-defined]
        return [
            self._reading(row, str(name), str(kind), problem.classes_)  # type: ignore[attr-defined]
            for row, name, kind in zip(problems, plants, kinds, strict=True)
        ]

    def _reading(self, row: object, told: str, kind: str, labels: list[str]) -> Reading:
        plant = None if told == NO_PLANT else told
        chances = sorted(zip(map(float, row), labels, strict=True), reverse=True)[:_SHOWN]  # type: ignore[call-overload]
        found = [Candidate(plant, str(label), chance) for chance, label in chances if label != train.OTHER]
        best, label = chances[0]
        known = label != train.OTHER
        return Reading(
            kind=kind,
            plant=plant,
            problem=str(label) if known else None,
            candidates=tuple(found),
            confidence=best if known else 0.0,
            decided=known and best >= DECIDED,
        )
