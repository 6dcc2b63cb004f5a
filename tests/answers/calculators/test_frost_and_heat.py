"""Degree days: against a day cut into thousands of moments, and how the methods stand to one another."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.catalogue import run
from kb import heat
from kb.errors import RangeError

LOWS, RANGES = st.floats(-40, 100), st.floats(0.1, 40)


def moments(tmax, tmin, worth, count=20_000):
    """The day's mean of `worth` over a sine sampled at the middle of each moment."""
    mean, half = (tmax + tmin) / 2, (tmax - tmin) / 2
    return sum(worth(mean + half * math.sin(2 * math.pi * (k + 0.5) / count)) for k in range(count)) / count


@pytest.mark.parametrize(
    ("tmax", "tmin", "base", "cap"),
    [(70, 40, 50, 60), (70, 40, 50, 88), (95, 60, 50, 86), (95, 40, 50, 86), (49, 30, 50, 86), (99, 90, 50, 86)],
)
@pytest.mark.parametrize("cutoff", heat.CUTOFFS)
def test_the_sine_is_the_sum_of_its_moments(tmax, tmin, base, cap, cutoff):
    """In all six positions of the thresholds the formula equals the area found by counting."""

    def worth(t):
        return 0 if t <= base else t - base if t <= cap else (cap - base if cutoff == "horizontal" else 0)

    assert heat.sine(tmax, tmin, base, cap, cutoff) == pytest.approx(moments(tmax, tmin, worth), abs=0.01)


@given(low=LOWS, spread=RANGES)
def test_a_sine_never_gives_less_than_the_average(low, spread):
    """The plain mean loses the warm hours of a cool day, and is equal on a day wholly above the base."""
    sine, average = (heat.day_degree_days(low + spread, low, 50, method=m) for m in ("single_sine", "average"))
    assert sine >= average - 1e-9
    if low >= 50:
        assert sine == pytest.approx(average)


@given(low=LOWS, spread=RANGES, more=st.floats(0, 20), method=st.sampled_from(("average", "modified", "single_sine")))
def test_a_warmer_day_never_gives_less(low, spread, more, method):
    """Raising both temperatures raises the total, in every method with a horizontal cut-off."""
    cap = None if method == "average" else 86
    cool = heat.day_degree_days(low + spread, low, 50, cap=cap, method=method)
    assert heat.day_degree_days(low + spread + more, low + more, 50, cap=cap, method=method) >= cool - 1e-9


@given(low=LOWS, spread=RANGES)
def test_a_vertical_cutoff_never_gives_more_than_a_horizontal_one(low, spread):
    """Stopping above the cap is never better than going on at its rate, and neither passes cap less base."""
    vertical, horizontal = (heat.sine(low + spread, low, 50, 86, c) for c in ("vertical", "horizontal"))
    assert 0 <= vertical <= horizontal + 1e-9
    assert horizontal <= 36 + 1e-9


@given(low=LOWS, spread=RANGES)
def test_a_double_sine_with_equal_nights_is_a_single_one(low, spread):
    """The two halves are then the same curve."""
    double = heat.day_degree_days(low + spread, low, 50, method="double_sine", next_tmin=low)
    assert double == pytest.approx(heat.sine(low + spread, low, 50))


@given(low=LOWS, spread=RANGES)
def test_celsius_days_are_five_ninths(low, spread):
    """The formulas do not care for the scale."""
    celsius = [(t - 32) / 1.8 for t in (low + spread, low, 50.0, 86.0)]
    fahrenheit = heat.sine(low + spread, low, 50, 86)
    assert heat.sine(*celsius) * 1.8 == pytest.approx(fahrenheit, abs=1e-6)


@pytest.mark.parametrize(
    ("field", "inputs"),
    [
        ("cap_f", {"cap_f": 86}),
        ("cutoff", {"method": "modified", "cap_f": 86, "cutoff": "vertical"}),
        ("cutoff", {"method": "single_sine", "cutoff": "vertical"}),
        ("next_tmin_f", {"method": "double_sine"}),
        ("next_tmin_f", {"method": "single_sine", "next_tmin_f": 50}),
        ("next_tmin_f", {"method": "double_sine", "next_tmin_f": 81}),
        ("method", {"method": "triangle"}),
    ],
)
def test_inputs_that_do_not_go_together_are_refused(field, inputs):
    """A threshold or cut-off that the method would ignore is an error, not ignored."""
    with pytest.raises(RangeError) as error:
        run("degree_days", {"tmax_f": 80, "tmin_f": 60, **inputs})
    assert error.value.field == field


@pytest.mark.parametrize(
    ("field", "inputs"),
    [
        ("highs", {"highs": "", "lows": "40"}),
        ("highs", {"highs": "70 warm", "lows": "40 41"}),
        ("highs", {"highs": "nan", "lows": "40"}),
        ("lows", {"highs": "70 71", "lows": "40"}),
        ("lows", {"highs": "70 71", "lows": "40 72"}),
    ],
)
def test_a_bad_run_of_days_is_refused(field, inputs):
    """The field is named and the run is not cut or filled."""
    with pytest.raises(RangeError) as error:
        run("degree_day_total", inputs)
    assert error.value.field == field


def test_days_too_cold_to_reach_a_total_are_refused():
    """A date a year and more away is no forecast."""
    cold = {"today": "2026-01-01", "so_far": 0, "threshold": 100, "tmax_f": 45, "tmin_f": 30}
    with pytest.raises(RangeError, match="threshold"):
        run("degree_day_date", cold)


def test_a_total_reached_already_is_today():
    """Nothing is needed any more."""
    warm = {"today": "2026-06-01", "so_far": 300, "threshold": 245, "tmax_f": 45, "tmin_f": 30}
    assert run("degree_day_date", warm).value == "2026-06-01"
