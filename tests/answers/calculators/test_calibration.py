"""Calibration: linear in what was caught, inverse in the ground covered, and the methods agree."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.calibration import (
    boom_sprayer_output,
    spray_for_plants,
    sprayer_calibration,
    spreader_calibration,
)
from kb.errors import RangeError


@given(width=st.floats(1, 40), length=st.floats(20, 400), water=st.floats(1, 100))
def test_sprayer_output_falls_as_the_strip_grows(width, length, water):
    """Twice the strip on the same water is half the output; twice the water is double."""
    once = sprayer_calibration(water_used_floz=water, test_width_ft=width, test_length_ft=length).value
    longer = sprayer_calibration(water_used_floz=water, test_width_ft=width, test_length_ft=2 * length).value
    wetter = sprayer_calibration(water_used_floz=2 * water, test_width_ft=width, test_length_ft=length).value
    assert (longer, wetter) == (pytest.approx(once / 2), pytest.approx(2 * once))


@given(width=st.floats(0.5, 25), water=st.floats(5, 30))
def test_over_the_short_course_ounces_are_gallons_an_acre(width, water):
    """Over 1/128 acre the ounces used are the gallons an acre."""
    course = sprayer_calibration(water_used_floz=water, test_width_ft=width, test_length_ft=30).also["course_ft"]
    again = sprayer_calibration(water_used_floz=water, test_width_ft=width, test_length_ft=course)
    assert again.also["gal_per_acre"] == pytest.approx(water)


@given(speed=st.floats(1, 10), spacing=st.floats(10, 60), catch=st.floats(5, 100))
def test_a_boom_agrees_with_its_measured_strip(speed, spacing, catch):
    """One nozzle for a minute is a strip as wide as its spacing and 88 ft a mph long."""
    boom = boom_sprayer_output(nozzle_catches_floz=f"{catch}", speed_mph=speed, nozzle_spacing_in=spacing)
    strip = sprayer_calibration(water_used_floz=catch, test_width_ft=spacing / 12, test_length_ft=speed * 88)
    assert boom.value == pytest.approx(strip.also["gal_per_acre"])


@pytest.mark.parametrize(
    ("catches", "to_check"), [("30 30 30", 0), ("30 30 30 30 36", 1), ("20 30 40", 2), ("30, 30, 31", 0)]
)
def test_worn_nozzles_are_counted(catches, to_check):
    """Nozzles over 5 percent off the mean are counted (36 among four 30s is 15 percent over, they 4 under)."""
    figure = boom_sprayer_output(nozzle_catches_floz=catches, speed_mph=3, nozzle_spacing_in=20)
    assert figure.also["nozzles_to_check"] == to_check


@pytest.mark.parametrize("catches", ["", "30 wet", "30 nan"])
def test_catches_must_be_numbers(catches):
    """An empty list, a word and NaN are refused, naming the field."""
    with pytest.raises(RangeError, match="nozzle_catches_floz"):
        boom_sprayer_output(nozzle_catches_floz=catches, speed_mph=3, nozzle_spacing_in=20)


@given(caught=st.floats(0.1, 9), swath=st.floats(1, 30), run=st.floats(20, 500))
def test_a_spreader_is_linear_in_what_it_drops(caught, swath, run):
    """Twice the product over the same strip is twice the rate, and the percent wanted follows it."""
    once = spreader_calibration(product_caught_lb=caught, swath_ft=swath, run_ft=run)
    twice = spreader_calibration(product_caught_lb=2 * caught, swath_ft=swath, run_ft=run, wanted_lb_per_1000sqft=10)
    assert twice.value == pytest.approx(2 * once.value)
    assert twice.also["percent_of_wanted"] == pytest.approx(twice.value * 10)


@given(each=st.floats(1, 500), plants=st.integers(1, 1000))
def test_more_plants_take_more_spray(each, plants):
    """One plant more takes one plant's water more."""
    fewer = spray_for_plants(plant_water_floz=each, plants=plants).value
    assert spray_for_plants(plant_water_floz=each, plants=plants + 1).value == pytest.approx(fewer + each / 128)
