"""Names from the rule base in a letter: longest match on word boundaries, then single typos forgiven.

Not here: which of the named plants the question is about (read.py).
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from functools import lru_cache
from types import MappingProxyType

from answers.reading.reading import Mention
from answers.reading.sentence import word_set, words_of

_SHORTEST_TYPO = 6  # shorter words are too near to other words to be forgiven
_BEFORE_A_CULTIVAR = word_set("my our a an two three four five six old young mature dwarf big planted grow growing")
_CLOSE_ENOUGH = 88.0  # rapidfuzz ratio; one letter in eight


class Names:
    """An index of names (several words each) to ids."""

    def __init__(
        self, names: Mapping[str, Iterable[str]], cultivars: Mapping[str, Iterable[str]] = MappingProxyType({})
    ) -> None:
        """`names` maps an id to its names, `cultivars` to single words that are names only in "my Stanley"."""
        self._cultivars = {
            form: id_
            for id_, own in cultivars.items()
            for word in map(str.lower, own)
            for form in (word, _plural(word))
        }
        self._ids: dict[tuple[str, ...], str] = {}
        for id_, aliases in names.items():
            for alias in aliases:
                key = tuple(w for w, _, _ in words_of(alias))
                if key:
                    self._ids.setdefault(key, id_)
                    self._ids.setdefault((*key[:-1], _plural(key[-1])), id_)
        self._first = {key[0] for key in self._ids}
        self._longest: dict[tuple[str, ...], int] = {}  # two words -> words of the longest name that begins so
        for key in self._ids:
            self._longest[key[:2]] = max(len(key), self._longest.get(key[:2], 0))
        self._typo_targets: dict[str, list[str]] = {}  # by first letter, which people seldom get wrong
        for target in sorted(k[0] for k in self._ids if len(k) == 1 and len(k[0]) >= _SHORTEST_TYPO):
            self._typo_targets.setdefault(target[0], []).append(target)
        self._typo_of = lru_cache(maxsize=20_000)(self._nearest)

    def find(self, text: str) -> list[Mention]:
        """Every name in `text`, in order, not overlapping."""
        words = words_of(text)
        found, at = [], 0
        while at < len(words):
            word = words[at][0]
            if word in self._first:
                mention = self._longest_at(text, words, at)
            else:
                mention = self._typo_at(text, words, at) if len(word) >= _SHORTEST_TYPO else None
            if mention is None and word in self._cultivars:
                mention = self._cultivar_at(text, words, at)
            if mention is None:
                at += 1
                continue
            found.append(mention)
            while at < len(words) and words[at][1] < mention.end:
                at += 1
        return found

    def _longest_at(self, text: str, words: list[tuple[str, int, int]], at: int) -> Mention | None:
        begins = tuple(w for w, _, _ in words[at : at + 2])
        for size in range(min(self._longest.get(begins, 1), len(words) - at), 0, -1):
            id_ = self._ids.get(tuple(w for w, _, _ in words[at : at + size]))
            if id_ is not None:
                start, end = words[at][1], words[at + size - 1][2]
                return Mention(id_, text[start:end], start, end)
        return None

    def _cultivar_at(self, text: str, words: list[tuple[str, int, int]], at: int) -> Mention | None:
        """A name with a capital after "my" or "a", before a word without one: "our Stanley has", no "Stanley Jones"."""
        word, start, end = words[at]
        follows = at > 0 and words[at - 1][0] in _BEFORE_A_CULTIVAR and text[words[at - 1][2] : start].isspace()
        alone = at + 1 == len(words) or text[end : words[at + 1][1]] != " " or not text[words[at + 1][1]].isupper()
        if not (follows and alone and text[start].isupper()):
            return None
        return Mention(self._cultivars[word], text[start:end], start, end, exact=False)

    def _typo_at(self, text: str, words: list[tuple[str, int, int]], at: int) -> Mention | None:
        word, start, end = words[at]
        target = self._typo_of(word)
        return Mention(self._ids[(target,)], text[start:end], start, end, exact=False) if target else None

    def _nearest(self, word: str) -> str:
        """The name that `word`, with which none begins, may be a slip for; "" when it is a word of its own."""
        from rapidfuzz import fuzz, process

        near = self._typo_targets.get(word[0])
        best = near and process.extractOne(word, near, scorer=fuzz.ratio, score_cutoff=_CLOSE_ENOUGH)
        return best[0] if best and word not in _english() else ""


@lru_cache(maxsize=1)
def _english() -> Collection[str]:
    """Words of the language: "popular" is no slip for poplar. Loaded when a word comes near a name."""
    from spellchecker import SpellChecker

    words: Collection[str] = SpellChecker(language="en").word_frequency.dictionary
    return words


def _plural(word: str) -> str:
    if word.endswith(("s", "x", "ch", "sh")):
        return word + "es"
    if word.endswith("y") and word[-2:-1] not in "aeiou":
        return word[:-1] + "ies"
    return word + "s"
