"""What stands before and after an amount in its own sentence, and the word that a short way of telling goes back to.

Not here: what the words mean (ages.py, temperatures.py).
"""

from __future__ import annotations

import re
from collections.abc import Container

_FAR = 90  # characters looked at on either side
_END = re.compile(r"[!?;\n]|(?<!\b[a-z])\.+(?=\s|$)")
_WORD = re.compile(r"[a-z][a-z']*|\d+|[$&#%+=/]")
HEDGE = re.compile(
    r"\b(?:about|bout|abt|around|roughly|approx\w*|maybe|say|nearly|almost|guess|near|call it)\s*$|~\s*$"
)

TAKEN_BACK = (
    r"(?:no,? (?:wait|sorry)|sorry,? (?:i mean|no)|wait,? no|i mean\b|scratch that|make that|i (?:tell a )?lie\b)"
)


def around(text: str, start: int, end: int) -> tuple[str, str]:
    """The sentence's words before and after `text[start:end]`, in lower case, 90 characters of each at most."""
    before = text[max(0, start - _FAR) : start].lower().replace("’", "'")
    after = text[end : end + _FAR].lower().replace("’", "'")
    return _END.split(before)[-1], _END.split(after, maxsplit=1)[0]


def word_set(words: str) -> frozenset[str]:
    """The words, told apart by spaces."""
    return frozenset(words.split())


def words_back(before: str, passed_over: Container[str]) -> tuple[str, list[str]]:
    """The first word, going back from the end of `before`, that is not passed over ("" at its start); those passed."""
    passed: list[str] = []
    for word in reversed(_WORD.findall(before)):
        if word not in passed_over:
            return word, passed
        passed.append(word)
    return "", passed
