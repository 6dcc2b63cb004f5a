"""How often letters on a problem ask about a plant: shares worked by hand, and what must hold of any counts."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.reading.asked_of import AskedOf
from answers.reading.lessons import Lesson
from answers.reading.plants_learnt import asked_of
from answers.reading.reading import Mention
from kb.load import load

RUST = AskedOf(
    asked={"rust": {"apple": 6, "none": 2}, "moles": {"none": 7, "lawn": 3}},
    named={"rust": {"apple": (8, 6), "oak": (2, 0)}, "moles": {"lawn": (10, 3)}},
    wide=frozenset({"lawn"}),
)


def test_a_plants_share_by_hand() -> None:
    """Six of eight letters, drawn to the usual 0.02 as by four more: (6 + 0.08) / 12, beside 0.02."""
    assert RUST.plant("rust", "apple") == pytest.approx(math.log((6 + 0.08) / 12 / 0.02))
    assert RUST.plant("rust", "pear") == pytest.approx(math.log(0.08 / 12 / 0.02))


def test_a_sorts_share_by_hand() -> None:
    """Of eighteen letters (and one more of each sort) nine ask about no plant, so 10 / 21 is usual."""
    usual = 10 / 21
    assert RUST.sort("moles", "none") == pytest.approx(math.log((7 + 2 * usual) / 12 / usual))
    assert RUST.sort("moles", "lawn") > RUST.sort("rust", "lawn")
    assert RUST.sort("rust", "apple") == RUST.sort("rust", "pear")  # both are one plant


def test_naming_is_not_asking() -> None:
    """Nine of twenty named plants are asked about; apples oftener, lawns with moles under them seldomer."""
    usual = 10 / 21
    assert RUST.when_named("rust", "apple") == pytest.approx(math.log((6 / usual + 2) / 10))
    assert RUST.when_named("rust", "apple") > 0 > RUST.when_named("moles", "lawn") > RUST.when_named("rust", "oak")


@pytest.mark.parametrize(("problem", "plant"), [("rust", "never-named"), ("never-heard-of", "apple")])
def test_what_was_never_counted_is_as_usual(problem: str, plant: str) -> None:
    """Without a letter nothing speaks for or against a named plant; a problem without letters knows no plant."""
    assert RUST.when_named(problem, plant) == 0
    assert RUST.often("never-heard-of", 0.1) == []
    assert RUST.plant("never-heard-of", plant) == pytest.approx(0)
    assert RUST.sort("never-heard-of", plant) == pytest.approx(0)


@pytest.mark.parametrize(("share", "plants"), [(0.2, ["apple", "none"]), (0.5, ["apple"]), (0.8, [])])
def test_often(share: float, plants: list[str]) -> None:
    """The plants that so large a share of the letters ask about."""
    assert RUST.often("rust", share) == plants


class NamesMelons:
    """Finds one name, where it stands."""

    def plants_in(self, text: str) -> list[Mention]:
        """The melon, if it is named."""
        return [Mention("melon", "melon", 0, 5)] if "melon" in text else []


def test_a_persons_correction_counts_as_an_example_does() -> None:
    """Lessons that tell the plant raise its share; those that do not say which plant change nothing."""
    names: Any = NamesMelons()
    knowledge = load()
    before = asked_of(knowledge, names)
    told = [Lesson("melon and moles", "moles-in-lawn", "melon")] * 20
    after = asked_of(knowledge, names, [*told, Lesson("moles", "moles-in-lawn")])
    assert after.plant("moles-in-lawn", "melon") > before.plant("moles-in-lawn", "melon")
    assert after.when_named("moles-in-lawn", "melon") > 0 > before.sort("moles-in-lawn", "melon")
    assert asked_of(knowledge, names, [Lesson("moles", "moles-in-lawn")]).asked == before.asked


@given(st.dictionaries(st.sampled_from(["apple", "pear", "lawn", "none"]), st.integers(1, 40), min_size=1))
def test_shares_stay_shares(counts: dict[str, int]) -> None:
    """Whatever was counted, what stands for each plant is the ln of a share below one, over the usual one."""
    of = AskedOf({"rust": counts}, {}, frozenset({"lawn"}))
    assert sum(0.02 * math.exp(of.plant("rust", plant)) for plant in counts) < 1
    assert max(counts, key=lambda plant: counts[plant]) in of.often("rust", 1 / len(counts))
