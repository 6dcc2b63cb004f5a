"""Dilution: nothing is lost in mixing, and the square refuses what no mixture can reach."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from answers.calculators.dilution import dilute_solution, percent_active_spray, percent_solution
from kb.errors import RangeError


@given(strong=st.floats(1, 100), weak=st.floats(0, 50), share=st.floats(0, 1), batch=st.floats(1, 1000))
def test_a_mixture_holds_what_went_in(strong, weak, share, batch):
    """Strength times volume adds up, and so do the volumes."""
    assume(strong > weak + 0.1)
    wanted = weak + (strong - weak) * share
    assume(0.001 <= wanted <= strong)
    figure = dilute_solution(strong_percent=strong, wanted_percent=wanted, batch_floz=batch, weak_percent=weak)
    other = figure.also["weak_floz"]
    assert figure.value + other == pytest.approx(batch)
    assert figure.value * strong + other * weak == pytest.approx(batch * wanted)
    assert -1e-9 * batch <= figure.value <= batch * (1 + 1e-9)


@pytest.mark.parametrize(
    ("strong", "weak", "wanted", "field"),
    [(10, 2, 11, "wanted_percent"), (10, 2, 1, "wanted_percent"), (2, 10, 5, "strong_percent")],
)
def test_no_mixture_is_stronger_or_weaker_than_its_parts(strong, weak, wanted, field):
    """A strength outside the two is refused."""
    with pytest.raises(RangeError) as error:
        dilute_solution(strong_percent=strong, wanted_percent=wanted, batch_floz=10, weak_percent=weak)
    assert error.value.field == field


@given(percent=st.floats(0.01, 100), batch=st.floats(0.02, 400))
def test_percent_by_volume_agrees_with_the_square(percent, batch):
    """A percent solution is a dilution of the undiluted product with water."""
    figure = percent_solution(percent=percent, batch_gal=batch)
    square = dilute_solution(strong_percent=100, wanted_percent=percent, batch_floz=batch * 128)
    assert figure.value == pytest.approx(square.value)
    assert figure.also["water_floz"] == pytest.approx(square.also["weak_floz"], abs=1e-6)


@given(wanted=st.floats(0.01, 10), batch=st.floats(1, 500), strength=st.floats(0.5, 10))
def test_a_product_twice_as_strong_is_needed_by_half(wanted, batch, strength):
    """The product needed is inverse to its strength and linear in the batch."""
    weak = percent_active_spray(wanted_percent=wanted, batch_gal=batch, ai_lb_per_gal=strength).value
    assert percent_active_spray(
        wanted_percent=wanted, batch_gal=batch, ai_lb_per_gal=strength * 1.5
    ).value == pytest.approx(weak / 1.5)
    assert percent_active_spray(
        wanted_percent=wanted, batch_gal=batch * 2, ai_lb_per_gal=strength
    ).value == pytest.approx(weak * 2)


def test_a_strength_by_gallon_or_by_weight_is_needed():
    """Neither strength, or both, gives no figure."""
    with pytest.raises(RangeError):
        percent_active_spray(wanted_percent=1, batch_gal=1)
    with pytest.raises(RangeError):
        percent_active_spray(wanted_percent=1, batch_gal=1, ai_lb_per_gal=4, ai_percent=50)
