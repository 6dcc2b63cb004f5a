"""What the check says about a rule's words: quantities, reading level, home brews, brands, unsourced numbers."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kb.entries import Rule, Say
from kb.wording import brand_digest, brands, faults, grade

SPOKEN = "has a rose with black spots. Pick up the leaves and water at the ground. " * 5
SOUND = Rule(
    "sound", "Sound", "black-spot", ("how-to",), Say("Black spot is a fungus.", "from-memory"),
    (Say("Pick up fallen leaves.", "from-memory"),), (Say("Do not spray salt on it.", "from-memory"),),
    SPOKEN, (), "2026-01-01",
)  # fmt: skip


def test_sound_words_have_no_fault() -> None:
    """Plain short sentences pass."""
    assert list(faults(SOUND)) == []


@pytest.mark.parametrize(
    ("advice", "fault"),
    [
        ("Put two pounds of it around the tree.", "'two pounds' is a quantity"),
        ("Spread 10 to 15 pounds on the bed.", "'10 to 15 pounds' is a quantity"),
        ("Spray the weeds with strong vinegar.", "'Spray the weeds with strong vinegar' is a home-brew"),
        ("Mix a little dish soap in water and spray.", "home-brew"),
        ("Try Blossomax® on it.", "is a brand name"),
        (
            "Implementation of comprehensive sanitation interventions considerably diminishes reinfection",
            "reads at grade",
        ),
    ],
)
def test_each_fault_is_found(advice: str, fault: str) -> None:
    """A planted fault of each sort is named."""
    rule = replace(SOUND, do=(Say(advice, "from-memory"),))
    assert any(fault in line for line in faults(rule)), list(faults(rule))


@pytest.mark.parametrize("advice", ["Never spray vinegar on a lawn.", "Do not pour bleach on the stump."])
def test_a_warning_is_not_a_home_brew(advice: str) -> None:
    """Telling people not to is allowed."""
    assert list(faults(replace(SOUND, do=(Say(advice, "from-memory"),)))) == []


def test_a_number_spoken_without_a_source() -> None:
    """Digits on the air must stand in a sourced sentence too."""
    rule = replace(SOUND, spoken=SPOKEN + " Wait 21 days.")
    assert any("number 21 stands in no sourced sentence" in line for line in faults(rule))
    sourced = replace(rule, do=(Say("Wait 21 days.", "from-memory"),))
    assert list(faults(sourced)) == []


def test_brands_are_known_by_digest(monkeypatch: pytest.MonkeyPatch) -> None:
    """A word whose digest is listed is a brand, in any capitals; the list itself names none."""
    monkeypatch.setattr("kb.wording._brand_digests", lambda: frozenset({brand_digest("Blossomax")}))
    assert brands("I used BLOSSOMAX and lime") == ["BLOSSOMAX"]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("The cat sat on the mat.", 4.71 * 17 / 6 + 0.5 * 6 - 21.43),
        ("Dig a hole. Set the tree in it.", 4.71 * 22 / 8 + 0.5 * 4 - 21.43),
        ("", 0.0),
    ],
)
def test_grade_by_hand(text: str, expected: float) -> None:
    """The Automated Readability Index worked by hand (Smith and Senter, AMRL-TR-66-220, 1967; from memory)."""
    assert grade(text) == pytest.approx(expected)
