"""Tank mixes: linear in rate and tank, the tanks add up to the job, and ppm agrees with the other forms."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.sprayer import LABEL_UNITS, tank_mix
from answers.calculators.units import convert
from kb.errors import RangeError


@pytest.mark.parametrize("unit", LABEL_UNITS)
@given(rate=st.floats(0.01, 40), tank=st.floats(0.2, 200))
def test_twice_the_rate_or_the_tank_is_twice_the_product(unit, rate, tank):
    """Every form of label rate is linear in the rate and in the tank."""
    given_too = {"gal_per_1000sqft": 1.5, "ai_lb_per_gal": 4.0}
    once = tank_mix(label_rate=rate, label_rate_unit=unit, tank_gal=tank, **given_too).value
    assert tank_mix(label_rate=2 * rate, label_rate_unit=unit, tank_gal=tank, **given_too).value == pytest.approx(
        2 * once
    )
    assert tank_mix(label_rate=rate, label_rate_unit=unit, tank_gal=2 * tank, **given_too).value == pytest.approx(
        2 * once
    )


@given(tank=st.floats(0.5, 100), area=st.floats(100, 500_000), out=st.floats(0.2, 10), rate=st.floats(0.1, 20))
def test_full_tanks_and_the_last_one_make_the_whole_job(tank, area, out, rate):
    """Full tanks and the last part-filled one hold all the spray and all the product."""
    figure = tank_mix(
        label_rate=rate, label_rate_unit="floz/1000sqft", tank_gal=tank, area_sqft=area, gal_per_1000sqft=out
    )
    spray = figure.also["full_tanks"] * tank + figure.also["last_tank_gal"]
    product = figure.also["full_tanks"] * figure.value + figure.also["last_tank_product"]
    assert spray == pytest.approx(area / 1000 * out)
    assert product == pytest.approx(figure.also["total"]) == pytest.approx(rate * area / 1000)
    assert figure.also["last_tank_gal"] < tank + 1e-6


@pytest.mark.parametrize(
    ("metric", "customary", "factor"),
    [
        ("L/ha", "pt/acre", convert(1, "L", "pt") / convert(1, "ha", "acre")),
        ("kg/ha", "lb/acre", convert(1, "kg", "lb") / convert(1, "ha", "acre")),
        ("mL/100sqm", "floz/1000sqft", convert(1, "mL", "floz") / convert(100, "sqm", "sqft") * 1000),
        ("mL/L", "floz/gal", 128 / 1000),
    ],
)
def test_a_metric_rate_is_its_customary_equal(metric, customary, factor):
    """The same rate in metric and in customary units puts the same product in the tank."""
    one = tank_mix(label_rate=3, label_rate_unit=metric, tank_gal=5, gal_per_1000sqft=2)
    two = tank_mix(label_rate=3 * factor, label_rate_unit=customary, tank_gal=5, gal_per_1000sqft=2)
    assert convert(one.value, one.unit, two.unit) == pytest.approx(two.value)


@pytest.mark.parametrize("strengths", [{}, {"ai_lb_per_gal": 4.0, "ai_percent": 50.0}])
def test_ppm_needs_one_strength(strengths):
    """Parts per million of active ingredient mean nothing without the product's strength, and only one of them."""
    with pytest.raises(RangeError, match="ai_lb_per_gal"):
        tank_mix(label_rate=100, label_rate_unit="ppm", tank_gal=5, **strengths)
