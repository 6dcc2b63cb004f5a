"""What the check says about a rule base that grows: conflicts, idle windows, old reviews, cautions."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from kb import upkeep
from kb.entries import Place, Plant, Rule, Say, Window
from kb.load import Knowledge, load
from kb.match import matches
from kb.schedule import for_plant, in_zones

TODAY = date(2026, 11, 25)


@pytest.fixture(scope="module")
def k() -> Knowledge:
    """The shipped rule base."""
    return load()


def _with(k: Knowledge, *rules: Rule) -> Knowledge:
    return replace(k, rules={r.id: r for r in rules})


def test_two_rules_for_one_question_conflict(k: Knowledge) -> None:
    """A copy of a rule under another id claims the same question; for other zones it does not."""
    rule = k.rules["black-spot-of-rose"]
    copy = replace(rule, id="copy")
    assert any("both answer 'black-spot'" in line for line in upkeep.conflicts(_with(k, rule, copy)))
    apart = (replace(rule, zones=(3, 6)), replace(copy, zones=(7, 10)))
    assert list(upkeep.conflicts(_with(k, *apart))) == []


@pytest.mark.parametrize(
    "window",
    [
        Window("x", degree_days={"base_f": 50, "low": 90000, "high": 99000}),
        Window("x", trait="no-such-trait"),
        Window("x", dormant=True, zones=(13, 13)),
    ],
)
def test_a_window_that_opens_nowhere(k: Knowledge, window: Window) -> None:
    """A sum of heat no place reaches, dates no plant has, rest where there is no winter."""
    rule = replace(k.rules["black-spot-of-rose"], windows=(window,))
    assert any("opens at no place" in line for line in upkeep.never_open(_with(k, rule), TODAY))


@pytest.mark.parametrize(
    ("reviewed", "fault"),
    [("2026-11-25", ""), ("2023-11-20", "more than 3 years ago"), ("2027-01-01", "lies ahead"), ("spring", "a date")],
)
def test_reviews(k: Knowledge, reviewed: str, fault: str) -> None:
    """A review three years old, in the future or unreadable is reported."""
    rule = replace(k.rules["black-spot-of-rose"], reviewed=reviewed)
    assert fault in "".join(upkeep.overdue(_with(k, rule), TODAY))
    assert bool(fault) == bool(list(upkeep.overdue(_with(k, rule), TODAY)))


def test_chemical_steps_carry_their_cautions(k: Knowledge) -> None:
    """On food the interval, against insects the bees, always the label."""
    spray = Say("Spray with something labeled for it.", "from-memory", step="chemical")
    rule = replace(k.rules["squash-bug-eggs"], do=(spray,), cautions=())
    text = "".join(upkeep.chemical_cautions(_with(k, rule)))
    assert all(caution in text for caution in ("label-is-law", "pre-harvest", "pollinators"))


def test_indoors_there_are_no_bees(k: Knowledge) -> None:
    """Which caution goes with which chemical step stands in cautions.yaml: no bees in a house, no interval on roses."""
    spray = Say("Spray with something labeled for it.", "from-memory", step="chemical")
    rule = replace(k.rules["squash-bug-eggs"], plants=(), groups=("houseplant",), do=(spray,), cautions=())
    text = "".join(upkeep.chemical_cautions(_with(k, rule)))
    assert "label-is-law" in text
    assert not any(caution in text for caution in ("pre-harvest", "pollinators"))


HERE = Place("h", "Here", "MI", 42, -84, "6a", 800, {}, {}, (50,) * 12, (30,) * 12, (3,) * 12)


@pytest.mark.parametrize(
    ("zones", "zone", "inside"),
    [((), "6a", True), ((3, 6), "6b", True), ((3, 6), "7a", False), ((9, 11), "10b", True), ((3, 6), "", True)],
)
def test_zones(zones: tuple[int, ...], zone: str, inside: bool) -> None:
    """Both ends of a range of zones belong to it; an unknown zone is never excluded."""
    assert in_zones(zones, replace(HERE, zone=zone)) is inside


def test_a_plants_own_dates() -> None:
    """A window by trait takes the plant's dates and their source; without them there is no window."""
    pea = Plant("pea", "pea", "vegetable", traits={"planting": {"of": "last", "from_days": -42, "to_days": -14}},
                traits_from={"planting": "a-table"})  # fmt: skip
    window = for_plant(Window("sow", trait="planting"), pea)
    assert window is not None
    assert (window.frost, window.source) == ({"of": "last", "from_days": -42, "to_days": -14}, "a-table")
    assert for_plant(Window("sow", trait="planting"), replace(pea, traits={})) is None
    assert for_plant(Window("sow", trait="planting"), None) is None


def test_rules_for_other_zones_give_way(k: Knowledge) -> None:
    """Where two rules answer, the one for this place's zone is taken; a lone rule stays."""
    rule = k.rules["black-spot-of-rose"]
    north, south = replace(rule, id="north", zones=(3, 6)), replace(rule, id="south", zones=(8, 10))
    both = _with(k, north, south)
    assert [m.rule.id for m in matches("rose", "black-spot", both, HERE)] == ["north"]
    assert [m.rule.id for m in matches("rose", "black-spot", _with(k, south), HERE)] == ["south"]
