"""Evapotranspiration against the reference libraries refet and pyet, and what must hold on any day."""

import math

import pytest
import refet
from hypothesis import given, settings
from hypothesis import strategies as st

from answers.calculators.evapotranspiration import et_hargreaves, et_penman_monteith, extraterrestrial_radiation
from kb.errors import RangeError


def f(celsius: float) -> float:
    return celsius * 1.8 + 32


WEATHER = [  # tmax C, tmin C, latitude, day, height m, wind m/s at 2 m, dew point C, sun MJ
    (32.4, 10.9, 39.5, 182, 1208, 1.94, 8.0, 27.5),
    (21.5, 12.3, 50.8, 187, 100, 2.08, 12.1, 22.0),
    (35.0, 22.0, 30.0, 200, 10, 1.2, 20.0, 24.0),
    (8.0, -2.0, 45.0, 60, 300, 4.0, -4.0, 10.0),
    (28.0, 14.0, -35.0, 15, 600, 3.0, 10.0, 28.0),
]


@pytest.mark.parametrize("row", WEATHER)
def test_penman_monteith_agrees_with_refet(row):
    """Within 1.5 percent of the ASCE short reference, whose constants differ a little from FAO-56's."""
    high, low, latitude, day, height, wind, dew, sun = row
    ours = et_penman_monteith(
        tmax_f=f(high),
        tmin_f=f(low),
        latitude_deg=latitude,
        day_of_year=day,
        elevation_ft=height / 0.3048,
        wind_mph=wind / 0.44704,
        dewpoint_f=f(dew),
        solar_mj=sun,
    )
    vapor = 0.6108 * math.exp(17.27 * dew / (dew + 237.3))
    theirs = refet.Daily(
        tmin=low, tmax=high, ea=vapor, rs=sun, uz=wind, zw=2, elev=height, lat=latitude, doy=day, method="asce"
    ).eto()
    assert ours.also["mm"] == pytest.approx(float(theirs[0]), rel=0.015)


@pytest.mark.parametrize("row", WEATHER)
def test_hargreaves_agrees_with_pyet(row):
    """Within 0.1 percent of pyet, once its latent heat, which follows the temperature, is set to FAO-56's 2.45 MJ."""
    import pandas
    import pyet

    high, low, latitude, day = row[:4]
    index = pandas.DatetimeIndex([pandas.Timestamp(2025, 1, 1) + pandas.Timedelta(days=day - 1)])
    mean, most, least = (pandas.Series([t], index) for t in ((high + low) / 2, high, low))
    theirs = (
        float(pyet.hargreaves(mean, most, least, math.radians(latitude)).iloc[0])
        * (2.501 - 0.002361 * (high + low) / 2)
        / 2.45
    )
    ours = et_hargreaves(tmax_f=f(high), tmin_f=f(low), latitude_deg=latitude, day_of_year=day).also["mm"]
    assert ours == pytest.approx(theirs, rel=0.001)


@settings(max_examples=40)
@given(latitude=st.floats(-65, 65), day=st.integers(1, 365))
def test_radiation_agrees_with_refet(latitude, day):
    """The sun at the top of the air, anywhere and any day, within 0.3 percent of refet's."""
    from refet import calcs

    theirs = float(calcs.ra_daily(math.radians(latitude), day, method="asce"))
    ours = extraterrestrial_radiation(latitude_deg=latitude, day_of_year=day).value
    assert ours == pytest.approx(theirs, rel=0.003, abs=0.03)


@given(latitude=st.floats(0.1, 65), day=st.integers(1, 366))
def test_the_two_hemispheres_share_the_day(latitude, day):
    """Daylight at a latitude north and south adds up to 24 hours."""
    north = extraterrestrial_radiation(latitude_deg=latitude, day_of_year=day).also["daylight_hours"]
    south = extraterrestrial_radiation(latitude_deg=-latitude, day_of_year=day).also["daylight_hours"]
    assert north + south == pytest.approx(24)


@given(low=st.floats(35, 70), spread=st.floats(1, 40), more=st.floats(0.5, 20))
def test_a_hotter_day_takes_more_water(low, spread, more):
    """Hargreaves rises with the day's high."""
    day = {"tmin_f": low, "latitude_deg": 40, "day_of_year": 180}
    assert et_hargreaves(tmax_f=low + spread + more, **day).value > et_hargreaves(tmax_f=low + spread, **day).value >= 0


@given(high=st.floats(50, 100), spread=st.floats(2, 40), sun=st.floats(1, 35), more=st.floats(0.1, 5))
def test_more_sun_takes_more_water(high, spread, sun, more):
    """Penman-Monteith never falls when the sun is stronger, and is never negative."""
    day = {"tmax_f": high, "tmin_f": high - spread, "latitude_deg": 40, "day_of_year": 180}
    dim = et_penman_monteith(**day, solar_mj=sun).value
    assert 0 <= dim <= et_penman_monteith(**day, solar_mj=sun + more).value + 1e-9


@pytest.mark.parametrize(
    ("given_too", "field"),
    [
        ({"rh_max_percent": 80}, "rh_min_percent"),
        ({"rh_min_percent": 40}, "rh_max_percent"),
        ({"rh_max_percent": 50, "rh_min_percent": 60}, "rh_min_percent"),
        ({"sunshine_hours": 17}, "sunshine_hours"),
        ({"dewpoint_f": 95}, "dewpoint_f"),
        ({"tmin_f": 95}, "tmin_f"),
    ],
)
def test_weather_that_cannot_be_is_refused(given_too, field):
    """Half a humidity, more sun than day, a dew point over the air's and a low over the high name their field."""
    day = {"tmax_f": 85, "tmin_f": 60, "latitude_deg": 40, "day_of_year": 180} | given_too
    with pytest.raises(RangeError) as error:
        et_penman_monteith(**day)
    assert error.value.field == field
