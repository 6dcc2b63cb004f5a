"""A plain baseline: TF-IDF and logistic regression on the same texts, for plant and for problem.

Not here: Trug's own reading. Amounts, emergencies and kinds the baseline does not read.
"""

from __future__ import annotations

from answers.letters.letter import Question
from answers.reading import train
from answers.reading.reading import Candidate, Reading
from kb.load import Knowledge

DECIDED = 0.5  # probability from which the baseline is taken at its word
_SHOWN = 6


class Baseline:
    """Two classifiers, fitted when made."""

    def __init__(self, knowledge: Knowledge, plants_in: dict[str, str]) -> None:
        """`plants_in` gives the plant of each training text that names one."""
        from sklearn.feature_extraction.text import TfidfVectorizer
        from sklearn.linear_model import LogisticRegression
        from sklearn.pipeline import make_pipeline

        def fitted(pairs: list[tuple[str, str]]) -> object:
            model = make_pipeline(TfidfVectorizer(sublinear_tf=True), LogisticRegression(C=20.0, max_iter=300))
            return model.fit(*zip(*pairs, strict=True))

        pairs = train.texts(knowledge)
        self._problem = fitted(pairs)
        self._plant = fitted([(text, plants_in[text]) for text, _ in pairs if text in plants_in])

    def read(self, questions: list[Question]) -> list[Reading]:
        """A reading of each question, with nothing in it but plant and problem."""
        texts = [q.text for q in questions]
        problem, plant = self._problem, self._plant
        problems = problem.predict_proba(texts)  # type: ignore[attr-defined]
        plants = plant.predict(texts)  # type: ignore[attr-defined]
        return [
            self._reading(row, str(name), problem.classes_)  # type: ignore[attr-defined]
            for row, name in zip(problems, plants, strict=True)
        ]

    def _reading(self, row: object, plant: str, labels: list[str]) -> Reading:
        chances = sorted(zip(map(float, row), labels, strict=True), reverse=True)[:_SHOWN]  # type: ignore[call-overload]
        found = [Candidate(plant, str(label), chance) for chance, label in chances if label != train.OTHER]
        best, label = chances[0]
        known = label != train.OTHER
        return Reading(
            kind="",
            plant=plant,
            problem=str(label) if known else None,
            candidates=tuple(found),
            confidence=best if known else 0.0,
            decided=known and best >= DECIDED,
        )
