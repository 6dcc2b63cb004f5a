"""The screen leaves out only patterns that could not have matched."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.reading import amount_patterns, loose_patterns
from answers.reading.screen import Screen, needs
from kb.load import load

AMOUNTS = [pattern for pattern, _ in (*amount_patterns.PATTERNS, *loose_patterns.PATTERNS)]
SIGNS = [sign for off in load().hand_offs.values() for sign in off.signs]


@pytest.mark.parametrize(
    ("pattern", "sets"),
    [
        (r"\bph\s+\d", [{"ph"}]),
        (r"\d+\s*(?:yards|meters)\s+(?:tall|high)", [{"yards", "meters"}, {"tall", "high"}]),
        (r"(?:about\s+)?\d\s*acres?", [{"acre"}]),
        (r"x|acre", []),  # one letter stands in almost every text
        (r"^(?=.*\bdog\b)(?=.*\bate\b)", [{"dog"}, {"ate"}]),
        (r"^(?!.*dog)ate", [{"ate"}]),
        (r"\d{2}", []),
    ],
)
def test_what_a_pattern_needs(pattern, sets):
    """Words that must stand; nothing that may be left out or must be absent."""
    assert sorted(map(sorted, needs(pattern))) == sorted(map(sorted, sets))


_WORDS = sorted(
    set(re.findall(r"[a-z']{2,}|\d", " ".join([*AMOUNTS, *SIGNS]))) | {"PH", "½", "3", ".", ",", "-", "ſ", "ı"}
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
