"""Words as counted, names in passing, and languages."""

from __future__ import annotations

import pytest

from answers.reading.context import beside_the_point, long_past
from answers.reading.language import language_of
from answers.reading.reading import Mention
from answers.reading.words import pairs, stem, tokens


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("No black spots on the leaves", ["no_black", "no_spot", "leav"]),
        ("they are not blooming", ["no_bloom"]),
        ("it doesn't bloom", ["no_bloom"]),
        ("The LEAVES are spotted!", ["leav", "spot"]),
        ("please help, thank you", []),
        ("", []),
    ],
)
def test_stems_and_negation(text: str, expected: list[str]) -> None:
    """Empty words go, forms of one word are one, and what is said not to be there is marked."""
    assert [t.name for t in tokens(text, [], str)] == expected


def test_pairs_are_words_that_follow_each_other() -> None:
    """Plants by name, groups left out; one word makes no pair."""
    assert pairs(["leaf", "spot", "plant:oak", "group:tree", "bark"]) == [
        "leaf spot",
        "spot plant:oak",
        "plant:oak bark",
    ]
    assert pairs(["leaf"]) == []


def test_stems_are_snowballs() -> None:
    """The reference vocabulary of the Snowball English stemmer agrees on these (pairs from memory)."""
    pairs = {"consign": "consign", "consigned": "consign", "consistency": "consist", "knightly": "knight"}
    assert {word: stem(word) for word in pairs} == pairs


def test_a_plant_is_counted_by_name_and_group() -> None:
    """The plant's words themselves are not counted again, and the place of each token is kept."""
    text = "spots on my sugar maple"
    found = tokens(text, [Mention("maple", "sugar maple", 12, 23)], lambda plant: "shade-tree")
    assert [t.name for t in found] == ["spot", "plant:maple", "group:shade-tree"]
    assert text[found[1].start : found[1].end] == "sugar maple"


def _mention(text: str, words: str) -> Mention:
    at = text.index(words)
    return Mention("x", words, at, at + len(words))


@pytest.mark.parametrize(
    ("text", "words", "aside"),
    [
        ("My neighbor's maple is fine but mine has spots", "maple", True),
        ("the maple between them is in perfect health and looks fine", "maple", True),
        ("the begonias right beside them are perfectly happy", "begonias", True),
        ("my maple has spots", "maple", False),
        ("Neighbors tell me the oak is sick", "oak", False),
    ],
)
def test_in_passing(text: str, words: str, aside: bool) -> None:
    """Somebody else's plant, or one that is well, is not the plant asked about."""
    assert beside_the_point(text, _mention(text, words)) is aside


@pytest.mark.parametrize(
    ("text", "words", "past"),
    [
        ("Last year it had scab.", "scab", True),
        ("two years ago it had scab", "scab", True),
        ("it had scab last year and has it again", "scab", False),
        ("it has scab", "scab", False),
    ],
)
def test_long_past(text: str, words: str, past: bool) -> None:
    """Last year's trouble is not this year's, unless it is back."""
    assert long_past(text, _mention(text, words)) is past


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Mis matas de chile tienen las hojas nuevas enroscadas y pegajosas, ¿qué hago?", "Spanish"),
        ("Bonjour, mes plants de courge fanent d'un coup au milieu de la journée.", "French"),
        ("Wann soll ich meine Rosen schneiden, und wie tief?", "German"),
        ("lá cây chanh của tôi bị vàng và rụng", "Vietnamese"),
        ("my tomatos is roten on the bottem what do", ""),
        ("ok", ""),
        ("", ""),
    ],
)
def test_language(text: str, language: str) -> None:
    """A language is named when it is surely not English; bad spelling is not a language."""
    assert language_of(text) == language
