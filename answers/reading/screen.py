"""Which words a pattern cannot do without: a letter that holds none of them need not be searched with it.

Found from the pattern itself, so that nobody keeps a second list. Not here: the patterns (amount_patterns.py,
kb/hand_offs.yaml).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import lru_cache
from re import _constants as sre  # type: ignore[attr-defined]  # what the standard library parses patterns with
from re import _parser  # type: ignore[attr-defined]
from typing import Any

_DIGIT = re.compile(r"\d")  # each is looked for as "0"


class Screen:
    """Tells which of many patterns could match a text at all; a word is looked through once, and remembered."""

    def __init__(self, patterns: Iterable[str]) -> None:
        needed = [needs(pattern) for pattern in patterns]
        bit = {words: 1 << i for i, words in enumerate({words: 0 for sets in needed for words in sets})}
        self._needs = [sum(bit[words] for words in set(sets)) for sets in needed]  # each set is a bit of a number
        meets = {word: sum(bit[words] for words in bit if word in words) for words in bit for word in words}
        within = {word: sets for word, sets in meets.items() if word.split() == [word]}
        self._across = {word: sets for word, sets in meets.items() if word not in within}  # with a space in it
        self._met_by = lru_cache(maxsize=20_000)(lambda word: _met(word, within))

    def possible(self, text: str) -> list[int]:
        """The places of those patterns, in their order."""
        plain, words = _words(text)
        met = _met(plain, self._across)
        for word in words:
            met |= self._met_by(word)
        return [i for i, sets in enumerate(self._needs) if sets & met == sets]


class Scan:
    """Several patterns, each looked for only in a text that could hold it."""

    def __init__(self, *patterns: re.Pattern[str]) -> None:
        self._patterns = patterns
        self._screen = Screen(pattern.pattern for pattern in patterns)

    def matches(self, text: str) -> list[list[re.Match[str]]]:
        """All matches of each pattern, in their order."""
        possible = self._screen.possible(text)
        return [list(p.finditer(text)) if i in possible else [] for i, p in enumerate(self._patterns)]


@lru_cache(maxsize=4)  # a letter is looked through for amounts, for ages, for those to call
def _words(text: str) -> tuple[str, tuple[str, ...]]:
    plain = _plain(text)
    return plain, tuple(set(plain.split()))


def _met(text: str, meets: Mapping[str, int]) -> int:
    """The sets, as bits, that hold a string in `text`."""
    met = 0
    for word, sets in meets.items():
        if word in text:
            met |= sets
    return met


def needs(pattern: str) -> tuple[frozenset[str], ...]:
    """The sets of strings, in lower case, of which a matching text holds one each; empty when none is sure.

    A digit, whichever it is, stands as "0".
    """
    return tuple(_of_sequence(_parser.parse(pattern, re.IGNORECASE)))


def _of_sequence(items: Iterable[Any]) -> list[frozenset[str]]:
    found: list[frozenset[str]] = []
    run = ""
    for code, value in items:
        if code is sre.LITERAL:
            run += _plain(chr(value))
            continue
        found += _kept(run)
        run = ""
        if code is sre.IN:
            found += _of_class(value)
        elif code is sre.SUBPATTERN:
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


def _of_class(items: Iterable[Any]) -> list[frozenset[str]]:
    """The set of what a class like "[4-8]" or "[½¼]" stands for; none for one that holds anything common."""
    each: list[frozenset[str]] = []
    for code, value in items:
        if code is sre.LITERAL:
            kept = _kept(_plain(chr(value)))
        else:
            digits = value is sre.CATEGORY_DIGIT or (code is sre.RANGE and all(48 <= end <= 57 for end in value))
            kept = _kept("0" if digits else "")
        if not kept:
            return []
        each += kept
    return [frozenset().union(*each)]


def _kept(run: str) -> list[frozenset[str]]:
    """Left out are single letters and marks, which stand in almost every letter; "½" and digits do not."""
    return [frozenset({run})] if len(run) > 1 or run == "0" or (run and not run.isascii()) else []


def _plain(text: str) -> str:
    """Alike for all that `re.IGNORECASE` and "\\d" hold for the same."""
    return _DIGIT.sub("0", text.casefold()).replace("ı", "i")
