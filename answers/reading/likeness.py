"""The text model at work: how much a letter's words, or its pairs of words, speak for each problem.

A word speaks for a problem by BM25 (how rare it is, how often the problem's texts use it) and by naive Bayes; both are
sums over words, so the whole model is one sparse table, a row for each word. Not here: making it (train.py).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Any

_UNKNOWN_RARITY = 2.0  # weight of a word the table lacks, in the length by which scores are divided


@dataclass(frozen=True)
class Likeness:
    """The table: row i of (`starts`, `columns`, `values`) holds what token i adds to each label's score."""

    labels: tuple[str, ...]
    names: tuple[str, ...]
    rarity: Any  # inverse document frequency of each token
    starts: Any
    columns: Any
    values: Any
    each: Any  # what every known word adds to each label

    @cached_property
    def _row(self) -> dict[str, int]:
        return {name: i for i, name in enumerate(self.names)}

    @cached_property
    def _slices(self) -> list[slice]:
        """Where each row's cells stand."""
        return [slice(*ends) for ends in pairwise(self.starts.tolist())]

    @cached_property
    def _table(self) -> Any:
        """The table with its empty cells: a row for each token, a column for each label (some 9 MB for words)."""
        import numpy as np

        table = np.zeros((len(self.names), len(self.labels)), dtype=np.float32)
        table[np.repeat(np.arange(len(self.names)), np.diff(self.starts)), self.columns] = self.values
        return table

    def known_share(self, names: Sequence[str]) -> float:
        """The share of word tokens that the rule base ever used; 1 for a text without words."""
        words = [n for n in names if ":" not in n]
        return sum(n in self._row or n.removeprefix("no_") in self._row for n in words) / len(words) if words else 1.0

    def scores(self, names: Iterable[str]) -> Any:
        """A score for each label, divided by the length of the letter as its words' rarity measures it."""
        import numpy as np

        once = sorted(set(names))
        rows = [self._row[n] for n in once if n in self._row]
        if not rows:
            return np.zeros(len(self.labels))
        cells = [self._slices[row] for row in rows]
        columns, values = (np.concatenate([part[cell] for cell in cells]) for part in (self.columns, self.values))
        total = np.bincount(columns, values, len(self.labels))
        unknown = len(once) - len(rows)
        length = float(np.sqrt((self.rarity[rows] ** 2).sum() + unknown * _UNKNOWN_RARITY**2))
        return (total + self.each * len(rows)) / length

    def worth(self, names: Sequence[str], label: int, rival: int) -> list[float]:
        """How much more each token speaks for one label than for another; 0 for one that no text has."""
        rows = [self._row.get(name, -1) for name in names]
        more = self._table[rows, label] - self._table[rows, rival]
        return [value if row >= 0 else 0.0 for row, value in zip(rows, more.tolist(), strict=True)]
