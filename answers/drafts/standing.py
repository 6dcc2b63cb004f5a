"""Whether a warning still stands in an edited text: word for word, lightly reworded, changed, turned round or gone.

Not here: which warnings must stand (proof.py).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from answers.reading.sentence import word_set

LIKE = 70.0  # likeness in percent from which a place in the text is taken for the warning, reworded
GONE = 0.4  # share of a warning's words lost from which it is gone, not changed
LIST_MARK = re.compile(r"^\s*(?:[-*•]|\d+[.)])\s+")
_BREAK = re.compile(
    r"(?<!\n\d\.)(?<!\n\d\d\.)(?<=[.!?])[\"”)]?\s+(?=[A-Z“\"(])|:\s+(?=[A-Z])|:\s*\n|\n\s*\n"
    r"|\n(?=\s*(?:[-*•]|\d+[.)])\s)"
)


_NEGATIONS = word_set("not no never nor neither none nobody without")
_SMALL = word_set(
    "a an the and or but so is are was were be been am it its this that these those you your we our i my they their "
    "them he she his her in on of to at by for with as do does did have has had will would should shall must may might "
    "can could there here then please also too very just any some ever said say says under sure make what which who "
    "kindly always really if"
)


class Standing(NamedTuple):
    """How a warning fails to stand: where it was changed (-1 when it is gone), and whether it says the opposite."""

    start: int
    end: int
    why: str
    turned: bool = False


def sentences(text: str) -> Iterator[tuple[int, int]]:
    """Where each sentence, heading or line of a list starts and ends."""
    start = 0
    for gap in _BREAK.finditer(text):
        yield start, gap.start()
        start = gap.end()
    yield start, len(text)


def standing(warning: str, text: str) -> Standing | None:
    """How one sentence of warning fails to stand in `text`; None when it stands.

    It stands when every word that says anything is there in some form, and what is denied is what was denied: case,
    punctuation, small words and added words are free.
    """
    before, stands, _ = f" {' '.join(_words(text))} ".partition(f" {' '.join(_words(warning))} ")
    if stands and not _NEGATIONS.intersection(before.split()[-1:]):
        return None
    start, end, likeness = _place(warning, text)
    had, has = _content(_words(warning)), _content(_words(text[start:end]))
    gone = [word for word in had if not _among(word, has)]
    if likeness >= LIKE and turned(warning, text[start:end]):
        return Standing(start, end, "turned round to say the opposite", turned=True)
    if len(gone) > GONE * len(had):
        return Standing(-1, -1, "this caution is missing")
    return Standing(start, end, f"this caution was changed, “{' '.join(gone)}” is gone") if gone else None


def _place(warning: str, text: str) -> tuple[int, int, float]:
    """Where `text` says most of the warning, and how like in percent: by its letters, or by words in any order."""
    from rapidfuzz import fuzz

    said, had = list(sentences(text)), _content(_words(warning))

    def kept(start: int, end: int) -> int:
        has = _content(_words(text[start:end]))
        return sum(_among(word, has) for word in had)

    most = max(said, key=lambda s: kept(*s))
    by_words = (*most, 100.0 * kept(*most) / max(1, len(had)))
    flat = "".join(c.lower() if len(c.lower()) == 1 else c for c in re.sub(r"\s", " ", text))  # offsets stay
    found = fuzz.partial_ratio_alignment(" ".join(warning.lower().split()), flat)
    if not found:
        return by_words
    near, far = found.dest_start, found.dest_end
    around = [s for s in said if 2 * (min(s[1], far) - max(s[0], near)) > min(s[1] - s[0], far - near)]
    if not around:
        return by_words
    by_letters = (min(s[0] for s in around), max(s[1] for s in around), found.score)
    return max(by_letters, by_words, key=lambda place: kept(*place[:2]))


def turned(before: str, now: str) -> bool:
    """Whether an edit denies what was said, or says what was denied."""
    had, has = _words(before), _words(now)
    lost = [w for w in _denied(had, 1) if _among(w, _content(has)) and not _among(w, _denied(has, 2))]
    gained = [w for w in _denied(has, 1) if _among(w, _content(had)) and not _among(w, _denied(had, 2))]
    return bool(lost or gained)


def _denied(words: Sequence[str], reach: int) -> list[str]:
    """The words that a negation denies: the next `reach` that say anything."""
    return [w for i, word in enumerate(words) if word in _NEGATIONS for w in _content(words[i + 1 :])[:reach]]


@lru_cache(maxsize=256)
def _words(text: str) -> tuple[str, ...]:
    plain = re.sub(r"n['’]t\b", " not", text.lower().replace("cannot", "can not"))
    return tuple(re.findall(r"[^\W_]+", plain))


def _content(words: Iterable[str]) -> list[str]:
    return [w for w in words if w not in _SMALL and w not in _NEGATIONS]


def _among(word: str, others: Iterable[str]) -> bool:
    """Whether a word stands among others in any of its forms: spread, spreading."""
    stem = word.rstrip("s")[:5]
    return any(o.startswith(stem) or (len(o) > 2 and stem.startswith(o)) for o in others)
