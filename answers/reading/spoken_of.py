"""How a plant is spoken of where it is named: as the one asked about ("my pear has"), or in passing ("under the pear").

A linear model on the words around a name, learnt from letters whose plant is known (kb/plant_letters.yaml and the
rules' own examples). Not here: finding the names (names_in_text.py), fitting (plants_learnt.py), weighing (heard.py).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any, NamedTuple

from answers.reading.reading import Mention
from answers.reading.words import stem

_REACH = 6  # words looked at on either side, in the sentence
_PLACED = 2  # of which so many count by their place too
_LATE = 3  # from this sentence on (the first is 0) all count as late
_PLANT = "<plant>"
_WORD = re.compile(r"[a-z]+(?:'[a-z]+)?|\d[\d.,/]*|[,:()\"]")
_SENTENCE = re.compile(r"[^.!?\n]+[.!?\n]*")


class _Sentence(NamedTuple):
    start: int
    end: int
    asks: bool


@dataclass(frozen=True)
class SpokenOf:
    """The fitted model: a weight for each feature."""

    names: tuple[str, ...]
    weights: Any
    bias: float

    @cached_property
    def _weight(self) -> dict[str, float]:
        return dict(zip(self.names, self.weights.tolist(), strict=True))

    def scores(self, text: str, every: Sequence[Mention]) -> list[float]:
        """For each plant named, in log-odds, how much it is spoken of as the one asked about."""
        find = self._weight.get
        return [
            self.bias + sum(find(name, 0.0) * value for name, value in given.items()) for given in features(text, every)
        ]


def features(text: str, every: Sequence[Mention]) -> list[dict[str, float]]:
    """For each plant named, the words around it, its sentence, and whether that asks."""
    low = text.lower().replace("’", "'")
    sentences = [_Sentence(m.start(), m.end(), "?" in m.group()) for m in _SENTENCE.finditer(low) if m.group().strip()]
    found: list[dict[str, float]] = []
    for mention in every:
        nth, its = next((n, s) for n, s in enumerate(sentences) if mention.start < s.end)
        before = _words(low, its.start, mention.start, every)[: -_REACH - 1 : -1]
        after = _words(low, mention.end, its.end, every)[:_REACH]
        given = _side("before", before) | _side("after", after)
        given[f"between {before[0] if before else '|'} {after[0] if after else '|'}"] = 1.0
        given[f"sentence {min(nth, _LATE)}"] = 1.0
        given |= {"asks": 1.0} if its.asks else {}
        given |= {"last sentence": 1.0} if nth == len(sentences) - 1 else {}
        found.append(given)
    return found


def _side(side: str, words: Sequence[str]) -> dict[str, float]:
    """The words on one side, nearest first: the nearer the more, the nearest by their place too."""
    given = {f"{side} {words[far]}": 1 / (1 + far / 2) for far in reversed(range(len(words)))}
    given |= {f"{side} {far} {word}": 1.0 for far, word in enumerate(words[:_PLACED])}
    if len(words) >= _PLACED:
        given[f"{side} {' '.join(words[:_PLACED])}"] = 1.0
    return given if words else {f"{side} |": 1.0}


def _words(low: str, start: int, end: int, every: Sequence[Mention]) -> list[str]:
    """The stems and marks of `low[start:end]`; another plant, and a number, stand as one word each."""
    found: list[str] = []
    for mention in every:
        if start <= mention.start and mention.end <= end:
            found += [*_stems(low[start : mention.start]), _PLANT]
            start = mention.end
    return [*found, *_stems(low[start:end])]


def _stems(low: str) -> list[str]:
    return [stem(word) if word[0].isalpha() else "0" if word[0].isdigit() else word for word in _WORD.findall(low)]
