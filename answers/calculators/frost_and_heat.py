"""Degree days of a day, and dates counted from a frost date.

Not here: a place's normals or windows (kb/schedule.py).
"""

from __future__ import annotations

from datetime import date, timedelta

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import one_of, within
from kb.errors import RangeError

FAMILY = "season"


def degree_days(
    *, tmax_f: float, tmin_f: float, base_f: float = 50.0, cap_f: float | None = None, method: str = "average"
) -> Figure:
    """Degree days of one day.

    Args:
        tmax_f, tmin_f: the day's highest and lowest temperature, -80 to 140 F, tmax_f not below tmin_f.
        base_f: lower threshold, 0 to 80 F.
        cap_f: upper threshold for the modified method, above base_f, to 120 F.
        method: average (plain mean), or modified (both temperatures held within base and cap first).

    Returns: Fahrenheit degree days, never below zero.
    Raises: RangeError outside these ranges.
    Formula: (max + min) / 2 - base.
    Source: Michigan State University, Calculating Growing Degree Days; Ohio State University Extension, Corn Growing
        Degree Days (2023).
    """
    high, low = within("tmax_f", tmax_f, -80, 140, "F"), within("tmin_f", tmin_f, -80, 140, "F")
    if high < low:
        raise RangeError("tmax_f", f"{high:g} F", f"at least the minimum of {low:g} F")
    base = within("base_f", base_f, 0, 80, "F")
    cap = None if cap_f is None else within("cap_f", cap_f, base + 1, 120, "F")
    if one_of("method", method, ("average", "modified")) == "modified":
        high, low = (max(base, t if cap is None else min(t, cap)) for t in (high, low))
    elif cap is not None:
        raise RangeError("cap_f", f"{cap:g}", "nothing with the average method; use method=modified")
    mean = (high + low) / 2
    return Figure(
        "degree_days",
        "degree days",
        max(0.0, mean - base),
        "F degree days",
        {"tmax_f": tmax_f, "tmin_f": tmin_f, "base_f": base, "cap_f": cap, "method": method},
        (
            Step(f"mean = ({pencil(high)} + {pencil(low)}) / 2 = {pencil(mean)} F"),
            Step(f"degree days = {pencil(mean)} - {pencil(base)} = {pencil(max(0.0, mean - base))}, not below 0"),
        ),
        "degree days = (max + min) / 2 - base",
        "Michigan State University: Calculating Growing Degree Days",
    )


def frost_relative_date(*, frost_date: date, days: float) -> Figure:
    """The date so many days from a frost date.

    Args:
        frost_date: the last or first frost, as YYYY-MM-DD.
        days: days after it (negative: before), -365 to 365.

    Returns: an ISO date; also day_of_year.
    Raises: RangeError outside these ranges.
    Formula: date + days.
    Source: The Morning Call, garden column on seed starting (2021), weeks counted back.
    """
    within("days", days, -365, 365, "days")
    if not isinstance(frost_date, date) or not 1900 <= frost_date.year <= 2200:
        raise RangeError("frost_date", frost_date, "a date in the years 1900 to 2200")
    found = frost_date + timedelta(days=round(days))
    side = "before" if days < 0 else "after"
    return Figure(
        "frost_relative_date",
        "date",
        found.isoformat(),
        "date",
        {"frost_date": frost_date.isoformat(), "days": days},
        (Step(f"{abs(round(days))} days {side} {frost_date.isoformat()} is {found.isoformat()}"),),
        "date = frost date + days",
        "The Morning Call: garden column on seed starting (2021)",
        {"day_of_year": found.timetuple().tm_yday},
    )
