"""What holds for every calculator whatever the numbers: more area never needs less, and no NaN comes or goes."""

import math
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.catalogue import catalogue, run
from kb.errors import RangeError

BY_AREA = {
    "nutrient_product": {"rate_lb_per_1000sqft": 1, "n_percent": 20},
    "lime_requirement": {"soil_ph": 5.5},
    "sulfur_requirement": {"soil_ph": 6.5},
    "lawn_watering": {},
    "bulk_volume": {"depth_in": 3},
    "plant_count": {"spacing_in": 12},
}


@pytest.mark.parametrize("name", BY_AREA)
@given(area=st.floats(1, 400_000), more=st.floats(1, 400_000))
def test_more_area_never_needs_less(name, area, more):
    """The amount rises with the area."""
    small = run(name, {**BY_AREA[name], "area_sqft": area})
    large = run(name, {**BY_AREA[name], "area_sqft": area + more})
    assert large.value >= small.value


@pytest.mark.parametrize("name", [n for n in BY_AREA if n != "plant_count"])
@given(area=st.floats(1, 100_000))
def test_twice_the_area_needs_twice_as_much(name, area):
    """These formulas are linear in the area (plants are whole, so their count is not)."""
    once = run(name, {**BY_AREA[name], "area_sqft": area}).value
    twice = run(name, {**BY_AREA[name], "area_sqft": 2 * area}).value
    assert twice == pytest.approx(2 * once)


SOUND = {
    **{name: {**given, "area_sqft": 1000} for name, given in BY_AREA.items()},
    "tree_root_zone": {"crown_spread_ft": 30},
    "tree_fertilizer": {"root_zone_sqft": 700, "rate_lb_n_per_1000sqft": 2, "n_percent": 10},
    "tank_mix": {"label_rate": 2, "label_rate_unit": "tbsp/gal", "tank_gal": 2, "gal_per_1000sqft": 1},
    "degree_days": {"tmax_f": 80, "tmin_f": 60, "method": "modified"},
    "frost_relative_date": {"frost_date": "2026-05-15", "days": -14},
    "tree_watering": {"trunk_diameter_in": 3},
}
for _path in (Path(__file__).parents[2] / "published").glob("*.yaml"):
    if _path.name != "worked_examples.yaml":  # a calculator's first published row is its sound call
        for _row in yaml.safe_load(_path.read_text("utf-8")):
            SOUND.setdefault(_row["calculator"], _row["inputs"])
NUMBERS = [(name, a.name) for name, entry in catalogue().items() for a in entry.inputs if a.type == "number"]


@pytest.mark.parametrize("name", catalogue())
def test_a_sound_call_gives_finite_figures(name):
    """Every calculator works on ordinary numbers, and nothing in its figure is NaN or infinite."""
    figure = run(name, SOUND[name])
    for value in (figure.value, *figure.also.values(), *figure.inputs.values()):
        assert not isinstance(value, float) or math.isfinite(value)
    assert figure.steps


@pytest.mark.parametrize(("name", "argument"), NUMBERS)
@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf, -1e12])
def test_a_number_that_is_none_is_refused(name, argument, bad):
    """NaN, infinity and far-off values are refused in every input of a sound call, naming the field."""
    with pytest.raises(RangeError) as error:
        run(name, {**SOUND[name], argument: bad})
    assert argument in error.value.field


@given(spread=st.floats(1, 150), multiple=st.floats(0.5, 3))
def test_a_root_zone_is_its_circle(spread, multiple):
    """Area = pi r squared, derived by hand."""
    figure = run("tree_root_zone", {"crown_spread_ft": spread, "radius_multiple": multiple})
    assert figure.value == pytest.approx(math.pi * (spread / 2 * multiple) ** 2)


def test_sulfur_is_refused_on_calcareous_soil():
    """Free lime outlasts any sulfur a gardener can spread."""
    with pytest.raises(RangeError, match="free lime"):
        run("sulfur_requirement", {"area_sqft": 100, "soil_ph": 7.2, "free_lime": "yes"})


def test_a_tank_mix_never_assumes_a_rate_or_output():
    """Without the label's rate, or the sprayer's output for a rate per area, there is no figure."""
    with pytest.raises(RangeError, match="label_rate"):
        run("tank_mix", {"tank_gal": 2})
    with pytest.raises(RangeError, match="gal_per_1000sqft"):
        run("tank_mix", {"label_rate": 3, "label_rate_unit": "pt/acre", "tank_gal": 2})
