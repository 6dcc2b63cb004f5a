"""Finding names from the rule base in a letter."""

import pytest

from answers.reading.names_in_text import Names

NAMES = Names(
    {
        "lily": ["lily"],
        "daylily": ["daylily", "day lily"],
        "peace-lily": ["peace lily"],
        "cherry": ["cherry"],
        "hydrangea": ["hydrangea"],
    },
    ordinary_words={"hydrants"},
)


@pytest.mark.parametrize(
    ("text", "ids"),
    [
        ("My peace lily droops", ["peace-lily"]),
        ("day lilies and a lily", ["daylily", "lily"]),
        ("the cherries", ["cherry"]),
        ("the hydrangea's leaves", ["hydrangea"]),
        ("my hydranga wont bloom", ["hydrangea"]),
        ("two fire hydrants", []),
        ("cherryville road", []),
        ("", []),
    ],
)
def test_the_longest_name_wins_and_one_typo_is_forgiven(text, ids):
    """Whole words only; plurals and possessives count; ordinary words are never typos."""
    assert [m.id for m in NAMES.find(text)] == ids


def test_a_mention_points_at_its_words():
    """The words that decided can be shown in place."""
    text = "Our peace lily is sad"
    mention = NAMES.find(text)[0]
    assert text[mention.start : mention.end] == mention.words == "peace lily"
