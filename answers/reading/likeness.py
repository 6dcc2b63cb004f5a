"""The text model at work: how much a letter's words speak for each problem.

A word speaks for a problem by BM25 (how rare it is, how often the problem's texts use it) and by naive Bayes; both are
sums over words, so the whole model is one sparse table, a row for each word. Not here: making it (train.py).
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

_UNKNOWN_RARITY = 2.0  # weight of a word the table lacks, in the length by which scores are divided


@dataclass(frozen=True)
class Likeness:
    """The table: row i of (`starts`, `columns`, `values`) holds what token i adds to each label's score."""

    labels: tuple[str, ...]
    names: tuple[str, ...]
    usual: tuple[str, ...]  # the plant that most of a label's texts name, or ""
    rarity: Any  # inverse document frequency of each token
    starts: Any
    columns: Any
    values: Any
    each: Any  # what every known word adds to each label

    @cached_property
    def _row(self) -> dict[str, int]:
        return {name: i for i, name in enumerate(self.names)}

    def known_share(self, names: Sequence[str]) -> float:
        """The share of word tokens that the rule base ever used; 1 for a text without words."""
        words = [n for n in names if ":" not in n]
        return sum(n in self._row or n.removeprefix("no_") in self._row for n in words) / len(words) if words else 1.0

    def scores(self, names: Iterable[str]) -> Any:
        """A score for each label, divided by the length of the letter as its words' rarity measures it."""
        import numpy as np

        once = sorted(set(names))
        rows = [self._row[n] for n in once if n in self._row]
        total = np.zeros(len(self.labels))
        if not rows:
            return total
        spans = [slice(self.starts[r], self.starts[r + 1]) for r in rows]
        columns = np.concatenate([self.columns[s] for s in spans])
        np.add.at(total, columns, np.concatenate([self.values[s] for s in spans]))
        unknown = len(once) - len(rows)
        length = float(np.sqrt((self.rarity[rows] ** 2).sum() + unknown * _UNKNOWN_RARITY**2))
        return (total + self.each * len(rows)) / length

    def worth(self, name: str, label: int, rival: int) -> float:
        """How much more a token speaks for one label than for another."""
        row = self._row.get(name)
        if row is None:
            return 0.0
        return self._held(row, label) - self._held(row, rival)

    @cached_property
    def _plain(self) -> tuple[memoryview, memoryview, memoryview]:
        """The table for looking up single cells, which NumPy is slow at."""
        return memoryview(self.starts), memoryview(self.columns), memoryview(self.values)

    def _held(self, row: int, label: int) -> float:
        starts, columns, values = self._plain
        end = starts[row + 1]
        at = bisect_left(columns, label, starts[row], end)  # each row's columns are in order
        return float(values[at]) if at < end and columns[at] == label else 0.0
