"""Words to seconds on air.

Not here: the words themselves (kb/rules, compose.py).
"""

from __future__ import annotations

WORDS_A_MINUTE = 150  # a measured broadcast pace; common practice
SHORTEST = 113  # words in 45 s
LONGEST = 187  # words in 75 s


def count_words(text: str) -> int:
    """Words, as separated by white space."""
    return len(text.split())


def seconds(text: str) -> float:
    """How long `text` takes to say, in seconds, at WORDS_A_MINUTE."""
    return count_words(text) * 60 / WORDS_A_MINUTE
