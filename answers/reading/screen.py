"""Which words a pattern cannot do without: a letter that holds none of them need not be searched with it.

Found from the pattern itself, so that nobody keeps a second list. Not here: the patterns (amount_patterns.py,
kb/hand_offs.yaml).
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from re import _constants as sre  # type: ignore[attr-defined]  # what the standard library parses patterns with
from re import _parser  # type: ignore[attr-defined]
from typing import Any

_SHORTEST = 2  # characters; shorter ones stand in almost every letter
_MOST = 40  # strings in a set; looking for more costs as much as searching


class Screen:
    """Tells which of many patterns could match a text at all."""

    def __init__(self, patterns: Iterable[str]) -> None:
        needed = [needs(pattern) for pattern in patterns]
        bit = {words: 1 << i for i, words in enumerate(dict.fromkeys(words for sets in needed for words in sets))}
        self._needs = [sum(bit[words] for words in set(sets)) for sets in needed]  # sets as bits of a number
        self._meets = {word: 0 for words in bit for word in words}  # word -> the sets that hold it
        for words, flag in bit.items():
            for word in words:
                self._meets[word] |= flag

    def possible(self, text: str) -> list[int]:
        """The places of those patterns, in their order."""
        plain = text.casefold().replace("ı", "i")  # as `re.IGNORECASE` holds letters for the same
        met = 0
        for word, sets in self._meets.items():
            if word in plain:
                met |= sets
        return [i for i, sets in enumerate(self._needs) if sets & met == sets]


def needs(pattern: str) -> tuple[frozenset[str], ...]:
    """The sets of strings, in lower case, of which a matching text holds one each; empty when none is sure."""
    return tuple(s for s in _of_sequence(_parser.parse(pattern, re.IGNORECASE)) if len(s) <= _MOST)


def _of_sequence(items: Iterable[Any]) -> list[frozenset[str]]:
    found: list[frozenset[str]] = []
    run = ""
    for code, value in items:
        if code is sre.LITERAL:
            run += chr(value).casefold()
            continue
        found += _kept(run)
        run = ""
        if code is sre.SUBPATTERN:
            found += _of_sequence(value[3])
        elif code is sre.BRANCH:
            found += _of_branches(value[1])
        elif code in (sre.MAX_REPEAT, sre.MIN_REPEAT) and value[0] >= 1:
            found += _of_sequence(value[2])
        elif code is sre.ASSERT and value[0] > 0:
            found += _of_sequence(value[1])
    return found + _kept(run)


def _of_branches(branches: Iterable[Any]) -> list[frozenset[str]]:
    """One set from each branch together, the one whose shortest string is longest; none when a branch has none."""
    together: frozenset[str] = frozenset()
    for branch in branches:
        sets = _of_sequence(branch)
        if not sets:
            return []
        together |= max(sets, key=lambda words: (min(map(len, words)), -len(words)))
    return [together]


def _kept(run: str) -> list[frozenset[str]]:
    return [frozenset({run})] if len(run) >= _SHORTEST else []
