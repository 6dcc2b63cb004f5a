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
    }
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


@pytest.mark.parametrize(
    ("text", "plants"),
    [
        ("my peace lily, a day lily and lily of the valley", ["peace-lily", "daylily", "lily-of-the-valley"]),
        ("star jasmine or winter jasmine", ["star-jasmine", "winter-jasmine"]),
        ("can I put wood ash on the peonies", ["peony"]),
        ("my ash tree", ["ash"]),
        ("cedar trees with a cedar fence behind", ["juniper"]),
        ("are yams and sweet potatoes the same", ["sweet-potato", "sweet-potato"]),
        ("japanese maple under the silver maple", ["japanese-maple", "maple"]),
        ("a bump the size of a pea, orange oil did nothing", []),
        ("we call them cukes and spuds", ["cucumber", "potato"]),
        ("mopheads and an Annabelle", ["bigleaf-hydrangea", "smooth-hydrangea"]),
        ("the palm of my hand", []),
        ("the same rule applies on a popular basis, hosts beats charity", []),
        ("a stem snaps, I fiddle with it, says Mrs. Meyer of Natchez", []),
        ("the crab grass by my Meyer lemon", ["lawn", "lemon"]),
        ("squashy, and the preacher preaches", []),
        ("my begonas and hydranjas", ["begonia", "hydrangea"]),
    ],
)
def test_look_alike_names_are_told_apart(text, plants):
    """The longest name wins, regional names are known, and words that only hold a plant's name name none."""
    from answers.reading.read import Reader
    from kb.load import load

    reader = Reader(load())
    found = [t.name.removeprefix("plant:") for t in reader.tokens(text, reader.plants_in(text)) if "plant:" in t.name]
    assert found == plants


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("black lumps all over my Stanley.", ["Stanley"]),
        ("We have a Bing and two Bings", ["Bing", "Bings"]),
        ("my stanley", []),
        ("my Stanley Jones wrench", []),
        ("Stanley is my husband", []),
        ("I asked Stanley", []),
        ("my, Stanley", []),
    ],
)
def test_a_cultivar_that_is_also_a_word_is_taken_only_as_one(text, words):
    """With a capital, right after "my" or "a", and not before another name; never as sure as a plant's own name."""
    names = Names({"cherry": ["cherry"]}, {"plum": ["Stanley"], "cherry": ["Bing"]})
    found = names.find(text)
    assert [m.words for m in found] == words
    assert not any(m.exact for m in found)
