"""Compost: the recipe put back into the mix gives its target, and mass is kept."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from answers.calculators.catalogue import run
from kb.errors import RangeError

RECIPE = {"first_lb": 100, "first_carbon_percent": 45, "first_nitrogen_percent": 2.4, "first_moisture_percent": 77}
RECIPE |= {"second_carbon_percent": 50, "second_nitrogen_percent": 0.75, "second_moisture_percent": 35}


@given(target=st.floats(20, 60), wet=st.floats(0, 90), dry=st.floats(0, 90))
def test_the_recipe_mixed_has_the_ratio_asked(target, wet, dry):
    """Round trip: the second material's weight, put in the mix, gives the target ratio and the moisture said."""
    recipe = RECIPE | {"target_ratio": target, "first_moisture_percent": wet, "second_moisture_percent": dry}
    second = run("compost_recipe", recipe)
    mix = f"100 45 2.4 {wet:.9f}, {second.value:.9f} 50 0.75 {dry:.9f}"
    got = run("compost_mix", {"ingredients": mix})
    assert got.value == pytest.approx(target, rel=1e-5)
    assert got.also["moisture_percent"] == pytest.approx(second.also["moisture_percent"], abs=1e-4)


@given(weights=st.lists(st.floats(1, 1000), min_size=2, max_size=6))
def test_a_mix_lies_between_its_materials(weights):
    """No blend is richer or poorer than what went in."""
    kinds = ["45 2.4 77", "50 0.75 35", "40 1 50", "48 0.2 10", "42 3 80", "50 0.1 20"]
    ratios = [float(k.split()[0]) / float(k.split()[1]) for k in kinds[: len(weights)]]
    text = ", ".join(f"{w:.6f} {k}" for w, k in zip(weights, kinds, strict=False))
    assert min(ratios) - 1e-6 <= run("compost_mix", {"ingredients": text}).value <= max(ratios) + 1e-6


@given(moisture=st.floats(0, 95), target=st.floats(40, 65), added=st.floats(0, 100))
def test_what_is_added_brings_the_pile_to_its_moisture(moisture, target, added):
    """Water before and after balances."""
    assume((target - moisture) * (added - target) > 1)
    asked = {"weight_lb": 100, "moisture_percent": moisture, "target_percent": target, "added_moisture_percent": added}
    more = run("compost_moisture", asked).value
    assert (100 * moisture + more * added) / (100 + more) == pytest.approx(target)


@given(now=st.floats(0, 10), rise=st.floats(0.2, 6), area=st.floats(10, 10_000))
def test_the_soil_ends_with_the_organic_matter_asked(now, rise, area):
    """Organic matter of soil and compost over the weight of both is the target."""
    asked = {"area_sqft": area, "now_percent": now, "target_percent": now + rise}
    compost = run("organic_matter_rise", asked).also["compost_dry_lb"]
    soil = area * 0.5 * 80
    assert (soil * now + compost * 50) / (soil + compost) == pytest.approx(now + rise)


@pytest.mark.parametrize(
    ("name", "asked", "field"),
    [
        ("compost_recipe", RECIPE | {"target_ratio": 15}, "target_ratio"),
        ("compost_recipe", RECIPE | {"second_carbon_percent": 20, "second_nitrogen_percent": 2}, "target_ratio"),
        ("compost_moisture", {"weight_lb": 10, "moisture_percent": 70}, "added_moisture_percent"),
        ("compost_mix", {"ingredients": "10 45 2.4"}, "ingredients"),
        ("compost_mix", {"ingredients": "10 45 2.4 77, some leaves"}, "ingredients"),
        ("compost_mix", {"ingredients": "10 45 0 77"}, "ingredients"),
        ("organic_matter_rise", {"area_sqft": 10, "now_percent": 5, "target_percent": 4}, "target_percent"),
    ],
)
def test_what_cannot_be_mixed_is_refused(name, asked, field):
    """The error names the field at fault."""
    with pytest.raises(RangeError) as error:
        run(name, asked)
    assert error.value.field == field
