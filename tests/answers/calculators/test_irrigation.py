"""Irrigation: water asked for is water given, the soil's layers add up, and even sprinklers score one."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.irrigation import (
    irrigation_schedule,
    landscape_water,
    root_zone_water,
    sprinkler_uniformity,
    water_allowance,
)
from kb.errors import RangeError


@given(et=st.floats(0.1, 50), area=st.floats(1, 5000), rain=st.floats(0, 60), efficiency=st.floats(30, 100))
def test_what_is_let_out_covers_the_need(et, area, rain, efficiency):
    """Gallons times efficiency over the area is the need; rain never makes it negative."""
    figure = landscape_water(et_in=et, area_sqft=area, rain_in=rain, efficiency_percent=efficiency)
    assert figure.value == pytest.approx(max(0, et * 0.5 - rain))
    assert figure.also["gallons"] * efficiency / 100 == pytest.approx(figure.value * area * 144 / 231)


@given(thick=st.lists(st.floats(1, 40), min_size=1, max_size=9), held=st.floats(0.2, 3))
def test_layers_alike_are_one_layer(thick, held):
    """Layers of one soil hold what one layer of their depth holds."""
    total = root_zone_water(layers=" ".join(f"{t!r}@{held!r}" for t in thick))
    assert total.value == pytest.approx(sum(thick) / 12 * held)
    assert total.also["depth_in"] == pytest.approx(sum(thick))


@given(held=st.floats(0.3, 3), depth=st.floats(3, 60), et=st.floats(0.02, 0.5), k=st.floats(0.1, 1.2))
def test_the_days_use_up_what_the_soil_lends(held, depth, et, k):
    """Days times daily use is the net water; deeper roots never need water sooner."""
    figure = irrigation_schedule(
        available_water_in_per_ft=held, root_depth_in=depth, et_in_per_day=et, coefficient=k, rate_in_per_hr=0.5
    )
    deeper = irrigation_schedule(
        available_water_in_per_ft=held, root_depth_in=depth + 6, et_in_per_day=et, coefficient=k
    )
    assert figure.value * et * k == pytest.approx(figure.also["net_in"])
    assert figure.also["minutes"] / 60 * 0.5 == pytest.approx(figure.also["applied_in"])
    assert deeper.value > figure.value


@given(depths=st.lists(st.floats(0.05, 3), min_size=4, max_size=40))
def test_uniformity_is_at_most_one_whatever_the_order(depths):
    """DU is in 0 to 1, does not hang on the order of the cans, and scales out."""
    text = " ".join(f"{d!r}" for d in depths)
    figure = sprinkler_uniformity(catches=text)
    again = sprinkler_uniformity(catches=" ".join(f"{d * 2!r}" for d in reversed(depths)))
    assert 0 < figure.value <= 1 + 1e-12
    assert again.value == pytest.approx(figure.value)
    assert again.also["rate_in_per_hr"] == pytest.approx(2 * figure.also["rate_in_per_hr"])
    assert 1 - 1e-9 <= figure.also["multiplier"] <= 2.5


@pytest.mark.parametrize("text", ["", "0.3 0.3 0.3", "0.3 0.3 0.3 wet", "0 0 0 0", "0.3 0.3 0.3 nan", "0.3 0.3 0.3 -1"])
def test_catches_that_say_nothing_are_refused(text):
    """Too few cans, dry cans, words and NaN name the field."""
    with pytest.raises(RangeError, match="catches"):
        sprinkler_uniformity(catches=text)


@pytest.mark.parametrize("text", ["", "8", "8@", "@1.5", "8@nan", "8@9", "0@1", " ".join(["8@1"] * 11)])
def test_layers_that_cannot_be_are_refused(text):
    """A layer without its water, too many, and NaN name the field."""
    with pytest.raises(RangeError, match="layers"):
        root_zone_water(layers=text)


@given(area=st.floats(10, 100_000), share=st.floats(0, 1), factor=st.floats(0.3, 1))
def test_special_area_raises_the_allowance_to_full_et(area, share, factor):
    """All special is full ET; the allowance lies between the factor's and full ET."""
    full = 40 * 0.62 * area
    figure = water_allowance(et_in_per_year=40, landscape_sqft=area, special_sqft=area * share, et_adjustment=factor)
    assert full * factor - 1e-6 <= figure.value <= full + 1e-6
    whole = water_allowance(et_in_per_year=40, landscape_sqft=area, special_sqft=area, et_adjustment=factor)
    assert whole.value == pytest.approx(full)
