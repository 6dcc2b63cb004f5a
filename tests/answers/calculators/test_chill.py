"""Chill: the Dynamic model against its closed form and a second way of writing it; hours that stay in their day."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.catalogue import run
from kb import cold
from kb.errors import RangeError

HOURS = st.lists(st.floats(-20, 30), min_size=2, max_size=300)


def by_arrays(hours):
    """The Dynamic model as the common open code lays it out: columns first, the first hour making nothing."""
    kelvin = [t + 273 for t in hours]
    share = [math.exp(1.6 * 277 * (k - 277) / k) for k in kelvin]
    share = [s / (1 + s) for s in share]
    ceiling = [139500 / 2.567e18 * math.exp((12888.8 - 4153.5) / k) for k in kelvin]
    rate = [2.567e18 * math.exp(-12888.8 / k) for k in kelvin]
    made, portions = [0.0], 0.0
    for i in range(1, len(hours)):
        before = made[-1] if made[-1] < 1 else made[-1] * (1 - share[i - 1])
        made.append(ceiling[i] - (ceiling[i] - before) * math.exp(-rate[i]))
        portions += made[-1] * share[i] if made[-1] >= 1 else 0
    return portions


@given(hours=HOURS)
def test_portions_agree_with_the_common_layout(hours):
    """Both ways of writing the model give the same, once the first hour is set aside."""
    assert cold.portions(hours[1:]) == pytest.approx(by_arrays(hours), abs=1e-9)


@pytest.mark.parametrize("temp_c", [2, 4, 6, 8, 10])
def test_the_first_portion_takes_the_hours_of_its_closed_form(temp_c):
    """At one temperature the part follows 1 - exp(-rate x hours), so its hour can be solved by hand."""
    kelvin = temp_c + 273
    ceiling = cold.A0 / cold.A1 * math.exp((cold.E1 - cold.E0) / kelvin)
    rate = cold.A1 * math.exp(-cold.E1 / kelvin)
    hours = math.ceil(math.log(ceiling / (ceiling - 1)) / rate)
    assert cold.portions([temp_c] * (hours - 1)) == 0
    assert cold.portions([temp_c] * hours) > 0


def test_moderate_cold_makes_most_portions():
    """The model's known shape: best near 6 to 8 C, little at freezing, none in heat."""
    month = {t: cold.portions([t] * 720) for t in (-5, 0, 6, 8, 15, 20)}
    assert month[6] > 20 > month[0] > month[-5]
    assert month[8] > 20
    assert month[15] == month[20] == 0


def test_warm_days_undo_a_part_but_not_a_portion():
    """A part below one is lost in heat; portions already made stay."""
    cold_run = [6.0] * 20
    assert cold.portions(cold_run + [25.0] * 12 + cold_run) == 0 < cold.portions(cold_run + cold_run)
    made = cold.portions([6.0] * 200)
    assert cold.portions([6.0] * 200 + [25.0] * 48) >= made


@given(hours=HOURS)
def test_the_counts_keep_their_bounds(hours):
    """The narrower count is within the wider, and no hour is worth more than one unit."""
    chill = cold.chill_of(hours)
    assert 0 <= chill.hours_32_to_45 <= chill.hours_below_45 <= len(hours)
    assert -len(hours) <= chill.utah_units <= len(hours)
    assert chill.portions >= 0


@given(low=st.floats(-20, 20), spread=st.floats(0, 25), change=st.floats(-8, 8), light=st.floats(5, 19))
def test_hours_stay_between_the_extremes(low, spread, change, light):
    """No hour is warmer than the high or colder than both nights, and the first is the minimum."""
    following = min(low + change, low + spread * math.sin(math.pi * light / (light + 4)))
    hours = cold.hours_of_day(low + spread, low, following, light)
    assert len(hours) == 24
    assert hours[0] == pytest.approx(low)
    assert min(low, following) - 1e-9 <= min(hours)
    assert max(hours) <= low + spread + 1e-9


@pytest.mark.parametrize("day", ["2026-01-15", "2026-06-15"])
def test_the_hottest_hour_is_after_noon(day):
    """Two hours after the middle of the day, within the hour."""
    from datetime import date

    light = cold.day_length(42, date.fromisoformat(day).timetuple().tm_yday)
    hours = cold.hours_of_day(20, 5, 5, light)
    assert abs(hours.index(max(hours)) - (light / 2 + 2)) <= 1


@given(temps=st.lists(st.integers(20, 80), min_size=1, max_size=48), times=st.integers(1, 5))
def test_fahrenheit_and_celsius_agree(temps, times):
    """The same hours in either scale, and run over, give the same counts; plain hours are linear in repeats."""
    fahrenheit = {"temperatures_in_order": " ".join(map(str, temps)), "repeats": times}
    celsius = {**fahrenheit, "temperatures_in_order": " ".join(repr((t - 32) / 1.8) for t in temps), "scale": "C"}
    first, second = run("chill_of_hours", fahrenheit), run("chill_of_hours", celsius)
    assert first.also == pytest.approx(second.also)
    assert first.value == times * run("chill_of_hours", {**fahrenheit, "repeats": 1}).value


@pytest.mark.parametrize(
    ("calculator", "field", "inputs"),
    [
        ("chill_of_hours", "temperatures_in_order", {"temperatures_in_order": ""}),
        ("chill_of_hours", "temperatures_in_order", {"temperatures_in_order": "45 x"}),
        ("chill_of_hours", "scale", {"temperatures_in_order": "45", "scale": "K"}),
        ("chill_of_hours", "model", {"temperatures_in_order": "45", "model": "guess"}),
        ("chill_of_hours", "temperatures_in_order", {"temperatures_in_order": "75", "scale": "C"}),
        ("chill_of_days", "lows", {"highs": "50 51", "lows": "40"}),
        ("chill_of_days", "lows", {"highs": "50", "lows": "51"}),
        ("chill_of_days", "latitude_deg", {"highs": "50", "lows": "41", "latitude_deg": 80}),
    ],
)
def test_bad_temperatures_are_refused(calculator, field, inputs):
    """Naming the field."""
    with pytest.raises(RangeError) as error:
        run(calculator, inputs)
    assert error.value.field == field
