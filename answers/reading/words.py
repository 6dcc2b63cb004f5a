"""A letter's words as the text model counts them: stems, plants by name and group, and what is said not to be there.

Not here: which plants are named (names_in_text.py), what a word speaks for (likeness.py).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import Any, NamedTuple

from answers.reading.reading import Mention
from answers.reading.sentence import word_set, words_of

_REACH = 2  # words that a negation reaches: "no black spots", "not blooming"


_NEGATIONS = word_set("no not without never cannot none nor neither dont wont doesnt didnt isnt arent cant")
_EMPTY = word_set(
    "a an the i my we our it its it's is are was were be been am of to in on at and or but so for with this that these "
    "those they them their he she his her you your me us do does did can could should would will shall what when how "
    "why where which who have has had if as from up out by about there then than just very really please thank thanks "
    "hello dear sir madam caller phone asks says wants know tell help want need get got one some any all im i'm i've "
    "ive id i'd we've too also here now more most much many lot lots kind sort thing things way bit little every each "
    "other another same well okay ok like"
)


class Token(NamedTuple):
    """One thing the text model counts, and where in the text it stands."""

    name: str
    start: int
    end: int

    @property
    def of_plant(self) -> bool:
        """Whether it is a plant's name, or its group's."""
        return ":" in self.name


@lru_cache(maxsize=1)
def _stemmer() -> Any:
    import snowballstemmer

    return snowballstemmer.stemmer("english")


@lru_cache(maxsize=50_000)
def stem(word: str) -> str:
    """The Snowball English stem of a lower-case word."""
    return str(_stemmer().stemWord(word))


def tokens(text: str, mentions: Sequence[Mention], group_of: Callable[[str], str]) -> list[Token]:
    """Word stems (a negated one marked `no_`), and `plant:` and `group:` for each plant named."""
    found: list[Token] = []
    reach, at = 0, 0
    inside = sorted(mentions, key=lambda m: m.start)
    for word, start, end in words_of(text):
        while at < len(inside) and inside[at].end <= start:
            at += 1
        if at < len(inside) and inside[at].start <= start:
            if start == inside[at].start:
                m = inside[at]
                found += [Token(f"plant:{m.id}", m.start, m.end), Token(f"group:{group_of(m.id)}", m.start, m.end)]
            continue
        if word in _EMPTY:
            continue
        if word in _NEGATIONS or word.endswith("n't"):
            reach = _REACH
            continue
        plain = stem(word.partition("'")[0])
        found.append(Token(f"no_{plain}" if reach else plain, start, end))
        reach = max(0, reach - 1)
    return found


def pairs(names: Sequence[str]) -> list[str]:
    """Each two things counted that follow each other: "leaf spot", "plant:oak mushroom"; groups of plants left out."""
    return [f"{first} {second}" for first, second in pairwise([n for n in names if not n.startswith("group:")])]
