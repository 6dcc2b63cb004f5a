"""Watering by trunk and by depth: linear, split evenly, and metric agrees."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.watering import lawn_watering, new_tree_watering, tree_watering


@given(trunk=st.floats(0.5, 29), per_inch=st.floats(1, 20))
def test_a_trunk_twice_as_thick_takes_twice_the_water(trunk, per_inch):
    """Linear in the trunk."""
    once = tree_watering(trunk_diameter_in=trunk, gal_per_in=per_inch).value
    assert tree_watering(trunk_diameter_in=2 * trunk, gal_per_in=per_inch).value == pytest.approx(2 * once)


@given(trunk=st.floats(0.25, 12), between=st.floats(1, 14))
def test_a_new_trees_week_is_its_waterings(trunk, between):
    """Waterings times the water of each is the week's water, however they are spaced."""
    figure = new_tree_watering(trunk_diameter_in=trunk, days_between=between)
    assert figure.value * figure.also["waterings_a_week"] == pytest.approx(figure.also["gal_per_week"])


@given(area=st.floats(10, 10_000), depth=st.floats(0.1, 4), times=st.integers(2, 14))
def test_splitting_changes_the_parts_and_not_the_whole(area, depth, times):
    """Split waterings add up to the same gallons, inches and minutes."""
    whole = lawn_watering(area_sqft=area, inches=depth, rate_in_per_hr=1)
    split = lawn_watering(area_sqft=area, inches=depth, rate_in_per_hr=1, waterings=times)
    assert split.value == whole.value
    assert split.also["minutes_each"] * times == pytest.approx(whole.also["minutes"])
    assert split.also["inches_each"] * times == pytest.approx(depth)


@given(square_meters=st.floats(1, 10_000), mm=st.floats(2, 100))
def test_a_millimeter_is_a_liter_a_square_meter(square_meters, mm):
    """The metric identity: 1 mm over 1 sq m is 1 liter."""
    figure = lawn_watering(area_sqft=square_meters / 0.3048**2, inches=mm / 25.4)
    assert figure.also["liters"] == pytest.approx(square_meters * mm)
