"""Emergencies are caught by plain signs, recall first."""

import pytest

from answers.reading.emergencies import hand_offs
from kb.load import load


@pytest.fixture(scope="module")
def knowledge():
    return load()


@pytest.mark.parametrize(
    ("text", "who"),
    [
        ("My 3 year old just ate some berries off the yew", "poison-centre"),
        ("grandson swallowed a castor bean", "poison-centre"),
        ("our toddler was chewing on a philodendron leaf", "poison-centre"),
        ("weed killer splashed in my eyes this morning", "poison-centre"),
        ("I feel dizzy after using the insecticide", "poison-centre"),
        ("the dog ate half a bag of cocoa mulch", "animal-poison"),
        ("our puppy got into the slug bait", "animal-poison"),
        ("a limb is resting on the power line", "electric-utility"),
        ("the big maple is leaning on the electric wire", "electric-utility"),
        ("I think we hit the gas line digging, can smell gas", "gas-utility"),
        ("split limb hanging over the house", "arborist-hazard"),
    ],
)
def test_an_emergency_is_caught(knowledge, text, who):
    """Whatever else the letter says, the right people come first."""
    assert who in hand_offs(text, knowledge)
    assert knowledge.hand_offs[who].urgent


@pytest.mark.parametrize(
    "text",
    [
        "Something ate all my lettuce leaves overnight",
        "How much fertilizer for a maple?",
        "deer have eaten my hostas",
        "Can I plant a dogwood near the power line?",
    ],
)
def test_ordinary_questions_are_no_emergency(knowledge, text):
    """Plants being eaten is everyday mail."""
    assert not any(knowledge.hand_offs[h].urgent for h in hand_offs(text, knowledge))
