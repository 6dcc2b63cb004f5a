"""The sentences of a letter that ask, without the story around them.

Not here: what is asked (model.py, read.py), letters that ask several things (letters/split.py).
"""

from __future__ import annotations

import re

_ENDS = re.compile(r"(?<=[.!?])\s+|\n+")
_ASKS = re.compile(
    r"\b(?:how|what|when|why|which|where|who|should|can|could|is it|do i|does|wants? to know|please|tell me|advise|"
    r"wonder\w*|help)\b",
    re.IGNORECASE,
)


def asking(text: str) -> str:
    """The sentences with a question mark; without any, those that ask in other words; else the whole text."""
    sentences = [s for s in _ENDS.split(text) if s.strip()]
    return " ".join([s for s in sentences if "?" in s] or [s for s in sentences if _ASKS.search(s)] or sentences)
