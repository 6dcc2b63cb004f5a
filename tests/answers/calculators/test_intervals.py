"""Label limits: active ingredient adds up, the season's remainder is never over, and the latest date governs."""

from datetime import date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.intervals import (
    RATE_UNITS,
    active_ingredient_applied,
    earliest_harvest,
    earliest_reentry,
    seasonal_maximum_left,
)
from kb.errors import RangeError

DAYS = st.dates(date(2000, 1, 1), date(2090, 1, 1))


@pytest.mark.parametrize("unit", RATE_UNITS)
@given(rate=st.floats(0.01, 100))
def test_active_ingredient_is_linear_in_the_product(unit, rate):
    """Twice the product is twice the active ingredient, and an acre holds what its rate says."""
    strength = {"ai_lb_per_gal": 4.0, "ai_percent": 50.0}
    once = active_ingredient_applied(product_rate=rate, product_rate_unit=unit, **strength)
    twice = active_ingredient_applied(product_rate=2 * rate, product_rate_unit=unit, **strength)
    assert twice.value == pytest.approx(2 * once.value)
    assert once.also["active_lb"] == pytest.approx(once.value)


@given(rate=st.floats(0.01, 100))
def test_a_kilogram_a_hectare_is_the_metric_figure(rate):
    """Pure active ingredient in kg/ha comes back as the same kg/ha (Utah State: 1 kg/ha is 0.892 lb an acre)."""
    figure = active_ingredient_applied(product_rate=rate, product_rate_unit="kg/ha", ai_percent=100)
    assert figure.also["kg_per_ha"] == pytest.approx(rate)
    assert figure.value == pytest.approx(rate * 0.892, rel=0.001)


@pytest.mark.parametrize(
    ("unit", "strength", "field"),
    [("pt/acre", "ai_percent", "ai_lb_per_gal"), ("lb/acre", "ai_lb_per_gal", "ai_percent")],
)
def test_the_strength_must_fit_the_unit(unit, strength, field):
    """A liquid's rate needs pounds a gallon, a dry product's needs percent."""
    with pytest.raises(RangeError) as error:
        active_ingredient_applied(product_rate=1, product_rate_unit=unit, **{strength: 5})
    assert error.value.field == field


@given(most=st.floats(1, 100), share=st.floats(0, 1), each=st.floats(0.01, 50))
def test_what_is_left_is_never_exceeded(most, share, each):
    """The applications left fit in what is left, and one more would not."""
    figure = seasonal_maximum_left(season_max=most, used_so_far=most * share, each_time=each)
    left, times = figure.value, figure.also["applications_left"]
    assert 0 <= left <= most
    assert times * each <= left + 1e-6 * each
    assert (times + 1) * each > left


@pytest.mark.parametrize(
    ("given_too", "field"),
    [({"used_so_far": 11}, "used_so_far"), ({"most_applications": 2, "applications_made": 3}, "applications_made")],
)
def test_a_season_already_over_its_limit_is_refused(given_too, field):
    """Over the maximum there is no figure, only the news."""
    with pytest.raises(RangeError) as error:
        seasonal_maximum_left(season_max=10, **given_too)
    assert error.value.field == field


@given(first=DAYS, second=DAYS, one=st.integers(0, 60), two=st.integers(0, 60))
def test_harvest_waits_for_every_spray(first, second, one, two):
    """The harvest is the later of the two sprays' dates, in either order."""
    figure = earliest_harvest(last_spray=first, phi_days=one, other_sprays=f"{second}:{two}")
    swapped = earliest_harvest(last_spray=second, phi_days=two, other_sprays=f"{first}:{one}")
    assert figure.value == swapped.value == max(first + timedelta(one), second + timedelta(two)).isoformat()


@pytest.mark.parametrize("text", ["2026-07-01", "7", "2026-07-01:x", "2026-13-01:2", "2026-07-01:nan", "2026-07-01:-1"])
def test_a_spray_that_cannot_be_read_is_refused(text):
    """Never guessed: a wrong spray in the list stops the figure."""
    with pytest.raises(RangeError, match="other_sprays"):
        earliest_harvest(last_spray=date(2026, 7, 1), phi_days=1, other_sprays=text)


@given(end=st.datetimes(datetime(2000, 1, 1), datetime(2090, 1, 1)), one=st.integers(0, 500), two=st.integers(0, 500))
def test_reentry_waits_for_the_longest_interval(end, one, two):
    """The longest interval from the end of the application, to the minute."""
    end = end.replace(second=0, microsecond=0)
    figure = earliest_reentry(application_end=end.isoformat(), rei_hours=one, other_rei_hours=two)
    assert datetime.fromisoformat(figure.value) - end == timedelta(hours=max(one, two))


@pytest.mark.parametrize("text", ["noon", "2026-07-01", ""])
def test_reentry_needs_a_time_of_day(text):
    """A date alone would start the clock at midnight, hours too early."""
    with pytest.raises(RangeError, match="application_end"):
        earliest_reentry(application_end=text, rei_hours=12)
