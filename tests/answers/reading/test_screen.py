"""The screen leaves out only patterns that could not have matched."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.reading.amount_patterns import PATTERNS
from answers.reading.screen import Scan, Screen, needs
from kb.load import load

AMOUNTS = [pattern for pattern, _ in PATTERNS]
SIGNS = [sign for off in load().hand_offs.values() for sign in off.signs]


@pytest.mark.parametrize(
    ("pattern", "sets"),
    [
        (r"\bph\s+\d", [{"ph"}, {"0"}]),  # a digit, whichever it is, stands as 0
        (r"(?:yards|meters)\s+(?:tall|high)", [{"yards", "meters"}, {"tall", "high"}]),
        (r"(?:about\s+)?acres?", [{"acre"}]),
        (r"ft2|m²", [{"ft0", "m²"}]),
        (r"[3-9]|half|[½¼]", [{"0", "half", "½", "¼"}]),
        (r"[3-9x]|half", []),
        (r"[^3-9]half", [{"half"}]),
        (r"x|acre", []),  # one letter stands in almost every text
        (r"^(?=.*\bdog\b)(?=.*\bate\b)", [{"dog"}, {"ate"}]),
        (r"^(?!.*dog)ate", [{"ate"}]),
        (r"\d{0,2}", []),
    ],
)
def test_what_a_pattern_needs(pattern, sets):
    """Words that must stand; nothing that may be left out or must be absent."""
    assert sorted(map(sorted, needs(pattern))) == sorted(map(sorted, sets))


_WORDS = sorted(
    set(re.findall(r"[a-z']{2,}|\d", " ".join([*AMOUNTS, *SIGNS])))
    | {"PH", "½", "3", "٣", ".", ",", "-", "ſ", "ı", "\u212a"}
)
_SCREENED = [
    (Screen(patterns), [re.compile(pattern, flags) for pattern in patterns])
    for patterns, flags in ((AMOUNTS, re.IGNORECASE), (SIGNS, re.DOTALL))
]


@given(st.lists(st.sampled_from(_WORDS), max_size=25).map(" ".join) | st.text(max_size=60))
def test_no_match_is_ever_missed(text):
    """Over letters made of the patterns' own words, and over any text at all."""
    for screen, patterns in _SCREENED:
        possible = set(screen.possible(text))
        for place, pattern in enumerate(patterns):
            assert place in possible or not pattern.search(text), (pattern.pattern, text)


@given(st.lists(st.sampled_from(["year", "last spring", "2019", "'09", "oak", "planted"]), max_size=9).map(" ".join))
def test_a_scan_finds_what_each_pattern_finds(text):
    """Screened or not."""
    patterns = [
        re.compile(pattern, re.IGNORECASE) for pattern in (r"years?", r"last (?:spring|fall)", r"20\d\d", "['’]0")
    ]
    assert [[m.span() for m in found] for found in Scan(*patterns).matches(text)] == [
        [m.span() for m in pattern.finditer(text)] for pattern in patterns
    ]
