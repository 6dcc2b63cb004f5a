"""Planting dates: counted back and forward, and never after the last chance."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.catalogue import run
from kb.errors import RangeError

FROSTS = st.dates(date(2020, 8, 1), date(2035, 12, 31))


@given(frost=FROSTS, maturity=st.integers(10, 250), harvest=st.integers(0, 120), seedling=st.integers(0, 120))
def test_a_fall_sowing_ripens_on_the_day_it_must(frost, maturity, harvest, seedling):
    """Sowing, seedling, maturity and fall factor end on the first harvest; picking ends with the frost."""
    given = {"first_frost": frost, "maturity_days": maturity, "harvest_days": harvest, "seedling_days": seedling}
    figure = run("fall_planting", given)
    sow = date.fromisoformat(figure.value)
    first = date.fromisoformat(figure.also["first_harvest_date"])
    assert sow + timedelta(days=seedling + maturity + 14) == first
    assert first + timedelta(days=harvest) == frost
    assert (frost - sow).days == figure.also["days_back"]


@given(frost=FROSTS, maturity=st.integers(10, 250))
def test_a_tender_crop_is_sown_two_weeks_sooner(frost, maturity):
    """Frost ends it, so it must be done earlier."""
    hardy = run("fall_planting", {"first_frost": frost, "maturity_days": maturity})
    tender = run("fall_planting", {"first_frost": frost, "maturity_days": maturity, "frost_tender": "yes"})
    assert (date.fromisoformat(hardy.value) - date.fromisoformat(tender.value)).days == 14


@given(frost=FROSTS, indoors=st.integers(0, 20), after=st.integers(-12, 12))
def test_spring_weeks_are_sevens(frost, indoors, after):
    """From sowing to setting out, and from the frost to setting out."""
    figure = run("spring_planting", {"last_frost": frost, "indoor_weeks": indoors, "weeks_after_frost": after})
    set_out = date.fromisoformat(figure.also["set_out_date"])
    assert (set_out - date.fromisoformat(figure.value)).days == 7 * indoors
    assert (set_out - frost).days == 7 * after


@given(start=st.dates(date(2020, 3, 1), date(2035, 6, 1)), days=st.integers(0, 300), interval=st.integers(3, 90))
def test_sowings_fill_the_season_and_no_more(start, days, interval):
    """The last is not after the last chance, and another would be."""
    given = {"first_sowing": start, "first_frost": start + timedelta(days=days), "weeks_before_frost": 0}
    figure = run("succession_sowings", {**given, "interval_days": interval})
    last = date.fromisoformat(figure.also[f"sowing_{figure.value}"])
    chance = date.fromisoformat(figure.also["last_chance_date"])
    assert last <= chance < last + timedelta(days=interval)
    assert figure.also["sowing_1"] == start.isoformat()


def test_a_sowing_after_the_last_chance_is_refused():
    """Nothing sown then would ripen."""
    late = {"first_sowing": "2026-09-10", "first_frost": "2026-10-01", "weeks_before_frost": 8}
    with pytest.raises(RangeError, match="first_sowing"):
        run("succession_sowings", late)
