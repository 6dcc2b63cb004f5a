"""Day length against an almanac library, and its symmetries."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.catalogue import run

DAYS = st.dates(date(2001, 1, 1), date(2040, 12, 31))


def hours(latitude, day):
    """The figure's daylight."""
    return run("day_length", {"latitude_deg": latitude, "day": day}).value


@pytest.mark.parametrize("latitude", [-45, -20, 0, 25, 35, 45, 60])
@pytest.mark.parametrize("day", [date(2026, m, d) for m in (1, 3, 6, 9, 11) for d in (4, 21)])
def test_sunrise_to_sunset_is_what_an_almanac_says(latitude, day):
    """Within five minutes of the astral library to 45 degrees, nine at 60; the plain figure within a quarter hour."""
    import astral
    from astral.sun import sunrise, sunset

    place = astral.Observer(latitude, 0.0, 0.0)
    almanac = (sunset(place, day) - sunrise(place, day)).total_seconds() / 3600
    figure = run("day_length", {"latitude_deg": latitude, "day": day})
    assert figure.also["almanac_hours"] == pytest.approx(almanac, abs=5 / 60 if abs(latitude) <= 45 else 9 / 60)
    if abs(latitude) <= 45:
        assert figure.value == pytest.approx(almanac - 0.15, abs=0.25)


@given(latitude=st.floats(-65, 65), day=DAYS)
def test_north_and_south_share_a_day(latitude, day):
    """What one hemisphere has more than twelve hours the other has less."""
    assert hours(latitude, day) + hours(-latitude, day) == pytest.approx(24)


@given(day=DAYS)
def test_the_equator_has_twelve_hours(day):
    """Whatever the date."""
    assert hours(0, day) == pytest.approx(12)


@given(latitude=st.floats(1, 60), day=st.dates(date(2026, 4, 1), date(2026, 9, 1)))
def test_summer_days_are_longer_further_north(latitude, day):
    """And twilight is longer than the almanac's day."""
    figure = run("day_length", {"latitude_deg": latitude, "day": day})
    assert hours(latitude + 1, day) > figure.value > 12
    assert 12 < figure.also["almanac_hours"] < figure.also["with_twilight_hours"]


def test_days_grow_from_the_solstice_to_midsummer():
    """Every day from December to June is at least as long as the one before."""
    days = [hours(42, date(2025, 12, 23) + timedelta(days=n)) for n in range(178)]
    assert days == sorted(days)
