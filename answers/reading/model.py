"""Linear text models at work, for problems and kinds of question, and the list of all models.

Not here: fitting them (train.py, plants_learnt.py and fitting.py, which need scikit-learn), keeping them (kept.py).
Reading needs numpy alone, so that one letter is answered quickly from a cold start; tests compare the result with
scikit-learn's own.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Any, NamedTuple, get_type_hints

from answers.reading.asked_of import AskedOf
from answers.reading.likeness import Likeness
from answers.reading.roles import Roles
from answers.reading.spoken_of import SpokenOf

_TOKEN = re.compile(r"(?u)\b\w\w+\b")


def word_grams(text: str, longest: int) -> list[str]:
    """Single words, and pairs for 2, as scikit-learn's `word` analyser with ngram_range (1, `longest`) makes them."""
    words = _TOKEN.findall(text.lower())
    return words + [f"{a} {b}" for a, b in pairwise(words)] if longest > 1 else words


@dataclass(frozen=True)
class LinearText:
    """A linear classifier on TF-IDF of words, or words and pairs; `weights` has a row a feature, a column a label."""

    labels: tuple[str, ...]
    words: tuple[str, ...]
    longest: int  # 1 for words, 2 for words and pairs
    idf: Any
    weights: Any
    bias: Any

    @cached_property
    def _row(self) -> dict[str, int]:
        return {word: i for i, word in enumerate(self.words)}

    def logits(self, text: str) -> dict[str, float]:
        """Label -> score."""
        return dict(zip(self.labels, self.scores(text).tolist(), strict=True))

    def scores(self, text: str) -> Any:
        """A score for each label, as scikit-learn's `decision_function` gives it."""
        import numpy as np

        find = self._row.get
        counts = Counter([row for gram in word_grams(text, self.longest) if (row := find(gram)) is not None])
        total = self.bias
        if counts:
            once = np.array(list(counts))
            value = (1.0 + np.log(list(counts.values()))) * self.idf[once]
            total = total + (value / np.sqrt((value**2).sum())) @ self.weights[once]
        return total


class Models(NamedTuple):
    """What the reader needs: the words of problems, of kinds of question, of what quantities measure, of plants."""

    problem: Likeness
    pairs: Likeness  # of words, for problems
    plain: LinearText  # every word as it is written, for problems
    asked_of: AskedOf
    kind: LinearText
    urgent: LinearText
    role: Roles
    spoken_of: SpokenOf
    looks: Likeness


_CLASSES = get_type_hints(Models)
OF_PROBLEMS = {  # and of plants: what people's corrections teach too
    name: _CLASSES[name] for name in ("problem", "pairs", "plain", "asked_of", "spoken_of")
}
OF_QUESTIONS = {name: made for name, made in _CLASSES.items() if name not in OF_PROBLEMS}
