"""The words of a letter, what stands around an amount in its own sentence, how an amount is hedged or taken back.

Not here: what the words mean (ages.py, temperatures.py).
"""

from __future__ import annotations

import re
from collections.abc import Container
from functools import lru_cache

_FAR = 90  # characters looked at on either side
_END = re.compile(r"[!?;\n]|(?<!\b[a-z])\.+(?=\s|$)")
_WORD = re.compile(r"[a-z0-9]+(?:'[a-z]+)?")
_WORD_OR_MARK = re.compile(r"[a-z][a-z']*|\d+|[$&#%+=/]")
HEDGE = re.compile(
    r"\b(?:about|bout|abt|around|roughly|approx\w*|maybe|say|nearly|almost|guess|near|call it)\s*$|~\s*$"
)

TAKEN_BACK = (
    r"(?:no,? (?:wait|sorry)|sorry,? (?:i mean|no)|wait,? no|i mean\b|scratch that|make that|i (?:tell a )?lie\b)"
)
INSTEAD = re.compile(  # between two numbers: "forty pound bag. No, forty-five"; the second is meant
    rf"(?: [\w']+){{0,3}}(?:[\s,.;—–-]+(?:{TAKEN_BACK}|no|wait|sorry),?|[,;—–-]+\s*well,)\s+"
    r"(?:(?:it's|its|that's|about|maybe|more like)\s+)?\Z",
    re.IGNORECASE,
)


@lru_cache(maxsize=4)  # a letter is looked at for plants, for problems, for numbers
def words_of(text: str) -> list[tuple[str, int, int]]:
    """Lower-case words with their start and end; a possessive 's is dropped."""
    found = []
    for match in _WORD.finditer(text.lower().replace("’", "'")):
        word = match.group()
        found.append((word.removesuffix("'s"), match.start(), match.end()))
    return found


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
    for found in reversed(_WORD_OR_MARK.findall(before)):
        word = found.removesuffix("'s") if len(found) > 4 else found  # "daytime's around 93"
        if word not in passed_over:
            return word, passed
        passed.append(word)
    return "", passed
