"""Windows turned into dates at places, checked on hand-worked days.

Not here: the rules that carry the windows.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from kb.entries import Place, Window
from kb.errors import PlaceError, RangeError
from kb.schedule import daily_normals, frost_date, schedule

HERE = Place(
    "here", "Here", "MI", 42.7, -84.5, "6a", 860, {50: "05-09"}, {50: "10-05"},
    (31, 34, 45, 58, 70, 79, 83, 81, 74, 61, 47, 36), (16, 17, 26, 36, 47, 57, 61, 59, 51, 41, 31, 22), (3,) * 12,
)  # fmt: skip
FLAT = replace(HERE, name="Flat", tmax_f=(70.0,) * 12, tmin_f=(50.0,) * 12, last_freeze={}, first_freeze={})


@pytest.mark.parametrize(
    ("window", "today", "state", "opens", "closes", "days"),
    [
        (Window("x", months=(11, 12, 1, 2)), date(2026, 1, 10), "open", date(2025, 11, 1), date(2026, 2, 28), 49),
        (Window("x", months=(4, 5)), date(2026, 3, 25), "opens later", date(2026, 4, 1), date(2026, 5, 31), 7),
        (Window("x", dates=("03-15", "04-30")), date(2026, 5, 10), "closed", date(2026, 3, 15), date(2026, 4, 30), 10),
        (Window("x", dates=("12-20", "01-10")), date(2026, 1, 1), "open", date(2025, 12, 20), date(2026, 1, 10), 9),
        (
            Window("x", frost={"of": "last", "from_days": -14, "to_days": 0, "probability": 50}),
            date(2026, 4, 20), "opens later", date(2026, 4, 25), date(2026, 5, 9), 5,
        ),
    ],
)  # fmt: skip
def test_dates(window: Window, today: date, state: str, opens: date, closes: date, days: int) -> None:
    """Each form of window gives the days a person would count on a calendar."""
    found = schedule(window, HERE, today)
    assert (found.state, found.opens, found.closes, found.days) == (state, opens, closes, days)


@pytest.mark.parametrize(("low", "high", "opens", "closes"), [(100, 200, date(2026, 1, 10), date(2026, 1, 20))])
def test_degree_days_on_a_flat_year(low: float, high: float, opens: date, closes: date) -> None:
    """At a steady 70 over 50, ten degree days above 50 gather each day."""
    found = schedule(Window("x", degree_days={"base_f": 50, "low": low, "high": high}), FLAT, date(2026, 1, 12))
    assert (found.opens, found.closes) == (opens, closes)


@pytest.mark.parametrize("window", [Window("x", dormant=True), Window("x", frost={"from_days": 0, "to_days": 9})])
def test_no_such_time(window: Window) -> None:
    """A warm place without freezes has no dormant or frost window, and the words say so."""
    found = schedule(window, FLAT, date(2026, 1, 1))
    assert found.opens is None
    assert "no such time" in found.words


def test_refusals() -> None:
    """The southern hemisphere and a missing freeze probability are refused."""
    with pytest.raises(RangeError):
        schedule(Window("x", months=(4,)), replace(HERE, lat=-33.0), date(2026, 1, 1))
    with pytest.raises(PlaceError):
        frost_date(FLAT, "last", 50, 2026)


def test_daily_normals_pass_through_mid_month() -> None:
    """The daily curve meets the monthly normal in mid-July."""
    assert daily_normals(HERE)[196] == pytest.approx((83, 61), abs=0.2)
    assert len(daily_normals(HERE)) == 365


def test_a_january_first_freeze_follows_the_year() -> None:
    """A first freeze dated in January falls in the winter that the year's autumn leads to."""
    assert frost_date(replace(FLAT, first_freeze={50: "01-05"}), "first", 50, 2026) == date(2027, 1, 5)


def test_soil_warms_where_december_is_coldest() -> None:
    """A place whose coldest day falls in December still has a spring in which its soil warms."""
    mild = replace(HERE, tmax_f=(48, 51, 56, 61, 68, 74, 82, 82, 76, 64, 53, 46), tmin_f=(38,) * 12)
    found = schedule(Window("x", soil_temp_f={"low": 50, "high": 55}), mild, date(2026, 2, 1))
    assert found.opens is not None
    assert 3 <= found.opens.month <= 5


MILD_MAX = (54, 58, 66, 74, 81, 87, 90, 89, 84, 74, 64, 56)
MILD_MIN = (36, 39, 45, 53, 61, 69, 72, 71, 66, 55, 45, 38)


@pytest.mark.parametrize(
    ("shift", "opens", "closes"),
    [
        (-2, (11, 12), (2, 3)),  # coldest month 43 F: the 45 F rule
        (0, (11, 12), (2, 3)),  # coldest month 45 F: the mild rule begins
        (9, (11, 12), (2, 3)),  # coldest month 54 F: the mild rule still
        (11, None, None),  # coldest month 56 F: no rest
    ],
)
def test_dormancy_in_mild_winters(shift: int, opens: tuple[int, ...] | None, closes: tuple[int, ...] | None) -> None:
    """A winter of 45 to 55 F rests in its cooler part, and a warmer one does not rest."""
    here = replace(HERE, tmax_f=tuple(t + shift for t in MILD_MAX), tmin_f=tuple(t + shift for t in MILD_MIN))
    found = schedule(Window("x", dormant=True), here, date(2026, 1, 15))
    assert (found.opens is None) == (opens is None)
    if found.opens and found.closes and opens and closes:
        assert found.state == "open"
        assert found.opens.month in opens
        assert found.closes.month in closes
