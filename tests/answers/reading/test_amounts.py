"""Amounts as people write them, each tied to what it measures."""

import json
import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.reading import amounts
from answers.reading.numbers import number
from answers.reading.read import Reader
from kb.load import load

READER = Reader(load())


def measurements(text, year=2026):
    """The amounts in `text`, by the model that reads letters."""
    return amounts.measurements(text, READER.roles, READER.plants_in(text), year)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("my lawn is bout 40 x 60", {"length_ft": 60, "width_ft": 40, "area_sqft": 2400}),
        ("a 10' x 20' bed", {"area_sqft": 200}),
        ("4 1/2 m by 3 m", {"length_ft": 14.76, "width_ft": 9.84}),
        ("half an acre of grass", {"area_sqft": 21780}),
        ("quarter acre lot", {"area_sqft": 10890}),
        ("we have an acre", {"area_sqft": 43560}),
        ("5,000 sq ft", {"area_sqft": 5000}),
        ("200 square metres", {"area_sqft": 2152.8}),
        ("a 6 inch trunk", {"trunk_diameter_in": 6}),
        ("the trunk is 8 inches thick", {"trunk_diameter_in": 8}),
        ('oak is 14" diameter', {"trunk_diameter_in": 14}),
        ("trunk is about 50 inches around", {"trunk_diameter_in": 50 / math.pi}),
        ("crown maybe 30 feet across", {"crown_spread_ft": 30}),
        ("maybe 40 or 50 feet tall", {"height_ft": 45}),
        ("the soil test said ph 5.4", {"soil_ph": 5.4}),
        ("pH came back 7.8, want to get the pH down to 5.5", {"soil_ph": 7.8, "target_ph": 5.5}),
        ("soil pH: 6.1", {"soil_ph": 6.1}),
        ("a bag of 10-10-10", {"n_percent": 10, "p_percent": 10, "k_percent": 10}),
        ("a 2 gal sprayer", {"tank_gal": 2}),
        ("label says 2 tbsp per gallon", {"label_rate": 2, "label_rate_unit": "tbsp/gal"}),
        ("3 inches of mulch", {"depth_in": 3}),
        ("a 30% slope", {"slope_percent": 30}),
        ("planted 3 years ago", {"age_years": 3}),
        ("18 inches apart", {"spacing_in": 18}),
        ("got down to 27 degrees", {"temperature_f": 27}),
        ("it got down to 27 Wednesday", {"temperature_f": 27}),
        ("it was 18 below in January", {"temperature_f": -18}),
        ("a garden that's 25 by 40.", {"area_sqft": 1000}),
        ("forty foot row of raspberries", {"length_ft": 40}),
        ("a privet hedge runs some sixty feet along the lane, six foot tall", {"length_ft": 60, "height_ft": 6}),
        ("planted an 8 footer Saturday", {"height_ft": 8}),
        ("the tree is 35 ft.", {"height_ft": 35}),
        ("The oak is 40 feet. Holes in it.", {"height_ft": 40}),
        ("Holly hedge, 50 feet.", {"length_ft": 50}),
        ("put down 4 inches over the bed", {"depth_in": 4}),
        ("how much 21-0-0 for an orange", {"n_percent": 21, "p_percent": 0, "k_percent": 0}),
        ("put on 10-10-10 at planting", {"n_percent": 10}),
        ("got a sack of it, 40 lb", {"product_lb": 40}),
        ("soil man said 7.4", {"soil_ph": 7.4}),
        ("two hundred sq ft of border", {"area_sqft": 200}),
        ("the girth, by my tape, is four feet", {"trunk_diameter_in": 48 / math.pi}),
        ("space them a foot apart", {"spacing_in": 12}),
        ("the girth of that old poplar back of the barn is ten feet", {"trunk_diameter_in": 120 / math.pi}),
        ("forty feet of holly along the lane", {"length_ft": 40}),
        ("limbs reach 18 feet out from the trunk all around", {"crown_spread_ft": 36}),
        ("a box 3 x 8 x 10 inches deep", {"length_ft": 8, "width_ft": 3, "depth_in": 10}),
        ("both our plum trees ooze", {"count": 2}),
        ("the yard is 80 x 120 less the house which is about 1600 square feet", {"area_sqft": 8000}),
        ("lot is 100 by 150 minus 2,000 sq ft of house and drive", {"area_sqft": 13000}),
        ("I want to take off the sod, 2,000 square feet", {"area_sqft": 2000}),
        ("it is less than 3,000 square feet", {"area_sqft": 3000}),
        ("boxes are 4 x 8. Should I use less on the lawn? it is 3,000 square feet", {"length_ft": 8, "width_ft": 4}),
        ("it is four feet tall, well, four and a half", {"height_ft": 4.5}),
        ("ten thousand square feet, take off 1,500 sq ft for the house", {"area_sqft": 8500}),
        ("the boxwoods along the walk, twenty-four in number, are bronze", {"count": 24}),
        ("call it 5 feet tall and about as wide", {"height_ft": 5, "crown_spread_ft": 5}),
        ("it is 60 feet along the road by about 35 deep", {"length_ft": 60, "width_ft": 35}),
        ("my boxes are 3 by 7 and the boards stand 15 inches high, what do I fill them with", {"depth_in": 15}),
        ("soil came back 5.6 and the buffer reading is 6.3", {"soil_ph": 5.6, "buffer_ph": 6.3}),
        ("fifteen mounds on one acre", {"count": 15}),
        ("a solitary spruce in the front, 35 feet tall", {"count": 1, "height_ft": 35}),
        ("bring the soil from 7.4 to 6", {"soil_ph": 7.4, "target_ph": 6}),
        ("lower my bed to 5.0 from 6.6", {"soil_ph": 6.6, "target_ph": 5}),
        ("soil test pH 5.9 buffer 6.4", {"soil_ph": 5.9, "buffer_ph": 6.4}),
        ("the lab's buffer value is six point seven, soil pH 6.0", {"buffer_ph": 6.7, "soil_ph": 6}),
        ("two readings, pH 5.2 for the soil and 6.1 for the buffer", {"soil_ph": 5.2, "buffer_ph": 6.1}),
        ("lime recommended per the buffer (6.4), the soil pH itself is 6.6", {"buffer_ph": 6.4, "soil_ph": 6.6}),
        ("too steep to mow, about 1 in 4", {"slope_percent": 25}),
        ("the bank is 2 to 1", {"slope_percent": 50}),
        ("Slope drops 12 feet in forty", {"slope_percent": 30}),
        ("a pile 4x4x4 that stinks", {"length_ft": 4, "width_ft": 4, "height_ft": 4}),
        ("ditch lilies as tall as my wife, 5'4", {"height_ft": 5 + 4 / 12}),
        ("three years in the ground", {"age_years": 3}),
        ("our soil is heavy red clay", {"texture": "clay loam"}),
        ("it is sandy here", {"texture": "sandy loam"}),
    ],
)
def test_an_amount_is_read_and_tied_to_what_it_measures(text, expected):
    """Units are turned into ours, unsaid units are feet, a range gives its middle."""
    found = measurements(text)
    for name, value in expected.items():
        got = found[name].value
        assert got == value if isinstance(value, str) else got == pytest.approx(value, rel=0.001)


@pytest.mark.parametrize(
    "text",
    [
        "on 5-10-24 I sprayed",
        "call 555-0142",
        "no numbers here",
        "my 3 children",
        "one in three has a grub in it, the rest drop",
        "a single stalk",
        "outvoted 3 to 1",
        "",
    ],
)
def test_other_numbers_are_left_alone(text):
    """Dates, phone numbers and head counts are not measurements."""
    assert measurements(text) == {}


@pytest.mark.parametrize(("text", "about"), [("bout 40 x 60", True), ("40 x 60", False), ("40 or 50 ft tall", True)])
def test_hedges_are_remembered(text, about):
    """A guess is marked as one, so that the draft can say so."""
    assert all(m.about is about for m in measurements(text).values())


@given(st.floats(0.1, 9999, allow_nan=False).map(lambda v: round(v, 2)))
def test_a_written_number_comes_back(value):
    """Plain and comma-marked numbers read as written."""
    assert number(f"{value:,}") == pytest.approx(value)


@pytest.mark.parametrize(("text", "value"), [("5k", 5000), ("2.5k", 2500), ("5k 1/2", 5000.5), ("5k½", 5000.5)])
def test_thousands_may_be_shortened(text, value):
    """A k makes thousands of the figure it stands at, whatever follows."""
    assert number(text) == value


@given(st.text(max_size=300))
def test_no_text_breaks_the_parser(text):
    """Any text gives finite positive values or none."""
    for m in measurements(text).values():
        assert isinstance(m.value, str) or (m.value > 0 and math.isfinite(m.value))


def test_amounts_in_letters_of_the_development_half():
    """Most amounts that careful readers took down are read, in letters from which nothing was learnt."""
    right = asked = 0
    for line in (Path(__file__).parents[2] / "gold" / "dev.jsonl").read_text("utf-8").splitlines():
        g = json.loads(line)
        found = measurements(g["text"])
        for name, value in g.get("amounts", {}).items():
            asked += 1
            right += name in found and found[name].value == pytest.approx(value, rel=0.02)
    assert right / asked > 0.93
