"""Emergencies and questions for somebody else, by the plain signs in kb/hand_offs.yaml; recall before precision.

Not here: the wording of a hand-off (kb/hand_offs.yaml).
"""

from __future__ import annotations

import re
from functools import cache

from kb.load import Knowledge


@cache
def _pattern(sign: str) -> re.Pattern[str]:
    return re.compile(sign, re.DOTALL)


def hand_offs(text: str, knowledge: Knowledge) -> tuple[str, ...]:
    """Ids of the hand-offs whose signs are in `text`, the urgent ones first."""
    lower = " ".join(text.lower().replace("’", "'").split())
    hits = [h for h in knowledge.hand_offs.values() if any(_pattern(s).search(lower) for s in h.signs)]
    return tuple(h.id for h in sorted(hits, key=lambda h: not h.urgent))
