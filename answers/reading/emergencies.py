"""Emergencies and questions for somebody else; recall before precision.

By the plain signs in kb/hand_offs.yaml, and for emergencies also by a model of how people tell them, learnt from
kb/urgent_letters.yaml: an urgent matter is often told in passing. Not here: the wording of a hand-off
(kb/hand_offs.yaml), fitting the model (train.py).
"""

from __future__ import annotations

import re

from answers.reading import weights
from answers.reading.model import LinearText
from answers.reading.screen import Screen
from kb.entries import NOT_URGENT, URGENT
from kb.load import Knowledge


def sounds_urgent(text: str, model: LinearText) -> bool:
    """Whether a letter is told as urgent ones are."""
    scores = model.logits(text)
    return scores[URGENT] - scores[NOT_URGENT] >= weights.URGENT


class Signs:
    """The signs of every hand-off of a rule base."""

    def __init__(self, knowledge: Knowledge) -> None:
        offs = sorted(knowledge.hand_offs.values(), key=lambda h: not h.urgent)  # the urgent ones first
        self._signs = [(off.id, re.compile(sign, re.DOTALL)) for off in offs for sign in off.signs]
        self._screen = Screen(sign.pattern for _, sign in self._signs)

    def hand_offs(self, text: str) -> tuple[str, ...]:
        """Ids of the hand-offs whose signs are in `text`, the urgent ones first."""
        lower = " ".join(text.lower().replace("’", "'").split())
        possible = (self._signs[i] for i in self._screen.possible(lower))
        return tuple(dict.fromkeys(id_ for id_, sign in possible if sign.search(lower)))
