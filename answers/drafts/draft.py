"""A draft: the three texts, and the passages they were made of, each tied to where it comes from.

Not here: composing it (compose.py).
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Passage:
    """One thing said. `basis` is the rule, figure, caution or hand-off id it rests on; `sources` are source ids."""

    part: str  # what, do, figure, window, avoid, ask, caution, hand-off, look-alike, language
    text: str
    basis: str
    sources: tuple[str, ...] = ()


@dataclass(frozen=True)
class Draft:
    """Words for a person to edit and clear; nothing here has been sent."""

    email: str
    cue_card: str
    phone: str
    passages: tuple[Passage, ...] = ()
    topic: str = ""  # what it is about, in the words of its first sentence
