"""Degree days of a day or a run of days, the date a total is reached, and dates counted from a frost date.

Not here: the formulas (kb/heat.py), a station's record (kb/stations.py), a place's windows (kb/schedule.py).
"""

from __future__ import annotations

import math
from datetime import date, timedelta

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import one_of, within
from kb import heat
from kb.errors import RangeError

FAMILY = "season"

_SOURCES = {
    "average": "Michigan State University: Calculating Growing Degree Days",
    "modified": "Ohio State University Extension: Corn Growing Degree Days (2023)",
    "single_sine": "Baskerville and Emin (1969), Ecology 50: 514-517 (from memory)",
    "double_sine": "Allen (1976), Environmental Entomology 5: 388-396 (from memory)",
}
_FORMULAS = {
    "average": "degree days = (max + min) / 2 - base",
    "modified": "degree days = (max + min) / 2 - base, both held between base and cap first",
    "single_sine": "degree days = area under the day's sine between base and cap",
    "double_sine": "degree days = half the sine to this night's low and half to the next one's",
}


def degree_days(
    *,
    tmax_f: float,
    tmin_f: float,
    base_f: float = 50.0,
    cap_f: float | None = None,
    method: str = "average",
    cutoff: str = "horizontal",
    next_tmin_f: float | None = None,
) -> Figure:
    """Degree days of one day.

    Args:
        tmax_f, tmin_f: the day's highest and lowest temperature, -80 to 140 F, tmax_f not below tmin_f.
        base_f: lower threshold, 0 to 80 F.
        cap_f: upper threshold for every method but average, above base_f, to 120 F.
        method: average (plain mean), modified (both temperatures held within base and cap first), single_sine or
            double_sine.
        cutoff: what warmth above the cap does: horizontal (counts as the cap) or, for the sines, vertical (stops
            the count).
        next_tmin_f: the lowest temperature of the day after, for double_sine, -80 to 140 F and not above tmax_f.

    Returns: Fahrenheit degree days, never below zero; also celsius_degree_days.
    Raises: RangeError outside these ranges.
    Formula: (max + min) / 2 - base; or the area of a sine between base and cap.
    Source: Michigan State University, Calculating Growing Degree Days; Ohio State University Extension, Corn Growing
        Degree Days (2023); Baskerville and Emin (1969), Ecology 50: 514-517 (from memory).
    """
    high, low = within("tmax_f", tmax_f, -80, 140, "F"), within("tmin_f", tmin_f, -80, 140, "F")
    if high < low:
        raise RangeError("tmax_f", f"{high:g} F", f"at least the minimum of {low:g} F")
    after = None if next_tmin_f is None else within("next_tmin_f", next_tmin_f, -80, high, "F")
    base, cap = _thresholds(base_f, cap_f, method, cutoff)
    if (after is None) == (method == "double_sine"):
        allowed = "the minimum of the day after" if after is None else "it with method=double_sine only"
        raise RangeError("next_tmin_f", "nothing" if after is None else f"{after:g} F", allowed)
    total = heat.day_degree_days(high, low, base, cap=cap, method=method, cutoff=cutoff, next_tmin=after)
    return Figure(
        "degree_days",
        "degree days",
        total,
        "F degree days",
        {"tmax_f": tmax_f, "tmin_f": tmin_f, "base_f": base, "cap_f": cap, "method": method, "cutoff": cutoff}
        | {"next_tmin_f": after},
        _day_steps(high, low, base, cap, method, cutoff, after, total),
        _FORMULAS[method],
        _SOURCES[method],
        {"celsius_degree_days": total / 1.8},
    )


def degree_day_total(
    *,
    highs: str,
    lows: str,
    base_f: float = 50.0,
    cap_f: float | None = None,
    method: str = "average",
    cutoff: str = "horizontal",
    so_far: float = 0.0,
) -> Figure:
    """Degree days added up over a run of days.

    Args:
        highs, lows: each day's highest and lowest temperature in F in order, "61 58 70", 1 to 400 days.
        base_f, cap_f, method, cutoff: as for degree_days; double_sine takes each next day's low (the last its own).
        so_far: degree days before the first day, 0 to 20,000.

    Returns: Fahrenheit degree days; also celsius_degree_days, days, last_day.
    Raises: RangeError outside these ranges, or for unequal runs.
    Formula: the sum of the days, none below zero.
    Source: as for degree_days.
    """
    base, cap = _thresholds(base_f, cap_f, method, cutoff)
    before = within("so_far", so_far, 0, 20_000, "degree days")
    warm, cold = temperatures("highs", highs, 400), temperatures("lows", lows, 400)
    if len(warm) != len(cold):
        raise RangeError("lows", f"{len(cold)} days", f"as many as highs, {len(warm)}")
    days, steps, total = [], [], before
    for i, (high, low) in enumerate(zip(warm, cold, strict=True)):
        if low > high:
            raise RangeError("lows", f"{low:g} F on day {i + 1}", f"not above that day's high of {high:g} F")
        after = min(high, cold[i + 1]) if i + 1 < len(cold) else low
        day = heat.day_degree_days(high, low, base, cap=cap, method=method, cutoff=cutoff, next_tmin=after)
        days.append(day)
        total += day
        steps.append(Step(f"day {i + 1}: high {high:g}, low {low:g} = {pencil(day)}; total {pencil(total)}"))
    return Figure(
        "degree_day_total",
        "degree days in all",
        total,
        "F degree days",
        {"highs": highs, "lows": lows, "base_f": base, "cap_f": cap, "method": method, "cutoff": cutoff}
        | {"so_far": before},
        tuple(steps),
        "sum of " + _FORMULAS[method],
        _SOURCES[method],
        {"celsius_degree_days": total / 1.8, "days": len(days), "last_day": days[-1]},
    )


def degree_day_date(
    *, today: date, so_far: float, threshold: float, tmax_f: float, tmin_f: float, base_f: float = 50.0
) -> Figure:
    """The date a degree-day total is reached if every day ahead is like the one given, by single sine.

    Args:
        today: the day so_far runs to, as YYYY-MM-DD.
        so_far: degree days to the end of today, 0 to 20,000.
        threshold: degree days wanted, 1 to 20,000.
        tmax_f, tmin_f: the usual high and low of the weeks ahead, -80 to 140 F.
        base_f: lower threshold, 0 to 80 F.

    Returns: an ISO date; also days, per_day.
    Raises: RangeError outside these ranges, or when the days ahead would take more than a year.
    Formula: days = (threshold - so far) / degree days of a usual day, rounded up.
    Source: arithmetic; the day by Baskerville and Emin (1969), Ecology 50: 514-517 (from memory).
    """
    start = a_date("today", today)
    before, wanted = within("so_far", so_far, 0, 20_000), within("threshold", threshold, 1, 20_000)
    high, low = within("tmax_f", tmax_f, -80, 140, "F"), within("tmin_f", tmin_f, -80, 140, "F")
    base = within("base_f", base_f, 0, 80, "F")
    if high < low:
        raise RangeError("tmax_f", f"{high:g} F", f"at least the minimum of {low:g} F")
    per_day = heat.sine(high, low, base)
    left = max(0.0, wanted - before)
    if left > per_day * 366:
        raise RangeError("threshold", f"{wanted:g}", f"what {pencil(per_day)} degree days a day reach within a year")
    days = math.ceil(left / per_day - 1e-9) if left else 0
    found = start + timedelta(days=days)
    return Figure(
        "degree_day_date",
        "threshold reached",
        found.isoformat(),
        "date",
        {"today": start.isoformat(), "so_far": before, "threshold": wanted, "tmax_f": high, "tmin_f": low}
        | {"base_f": base},
        (
            Step(f"still needed = {pencil(wanted)} - {pencil(before)} = {pencil(left)} degree days"),
            Step(f"a day of {pencil(high)} and {pencil(low)} F gives {pencil(per_day)}"),
            Step(f"days = {pencil(left)} / {pencil(per_day)}, rounded up = {days}; to {found.isoformat()}"),
        ),
        "days = (threshold - so far) / degree days of a usual day",
        _SOURCES["single_sine"],
        {"days": days, "per_day": per_day},
        ("A usual day hides warm and cold spells; look some days either side.",),
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
    found = a_date("frost_date", frost_date) + timedelta(days=round(days))
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


def a_date(field: str, value: date) -> date:
    """`value` when it is a date of 1900 to 2200.

    Raises:
        RangeError: otherwise.
    """
    if not isinstance(value, date) or not 1900 <= value.year <= 2200:
        raise RangeError(field, value, "a date in the years 1900 to 2200")
    return value


def temperatures(field: str, text: str, most: int, low: float = -80, high: float = 140, unit: str = "F") -> list[float]:
    """The numbers in "45 44.5 41", each within low and high.

    Raises:
        RangeError: naming the field and the word.
    """
    words = text.replace(",", " ").split()
    if not 1 <= len(words) <= most:
        raise RangeError(field, f"{len(words)} numbers", f'1 to {most:,} temperatures in {unit}, as "45 44.5 41"')
    numbers = []
    for word in words:
        try:
            numbers.append(within(field, float(word), low, high, unit))
        except ValueError as fault:
            if isinstance(fault, RangeError):
                raise
            raise RangeError(field, repr(word), f'temperatures in {unit}, as "45 44.5 41"') from None
    return numbers


def _thresholds(base_f: float, cap_f: float | None, method: str, cutoff: str) -> tuple[float, float | None]:
    base = within("base_f", base_f, 0, 80, "F")
    cap = None if cap_f is None else within("cap_f", cap_f, base + 1, 120, "F")
    one_of("method", method, heat.METHODS)
    one_of("cutoff", cutoff, heat.CUTOFFS)
    if method == "average" and cap is not None:
        raise RangeError("cap_f", f"{cap:g}", "nothing with the average method; use method=modified")
    if cutoff == "vertical" and (cap is None or method == "modified"):
        raise RangeError("cutoff", "vertical", "horizontal, or a sine method with cap_f")
    return base, cap


def _day_steps(
    high: float, low: float, base: float, cap: float | None, method: str, cutoff: str, after: float | None, total: float
) -> tuple[Step, ...]:
    if method in ("average", "modified"):
        if method == "modified":
            high, low = (max(base, t if cap is None else min(t, cap)) for t in (high, low))
        mean = (high + low) / 2
        return (
            Step(f"mean = ({pencil(high)} + {pencil(low)}) / 2 = {pencil(mean)} F"),
            Step(f"degree days = {pencil(mean)} - {pencil(base)} = {pencil(total)}, not below 0"),
        )
    halves = [(low, "to this night's low")] if after is None else [(low, "from this low"), (after, "to the next low")]
    steps = []
    for foot, words in halves:
        above = heat.sine(high, foot, base)
        line = f"sine from {pencil(foot)} to {pencil(high)} F, {words}: {pencil(above)} above {pencil(base)} F"
        if cap is not None:
            over = heat.sine(high, foot, cap)
            line += f", less {pencil(over)} above {pencil(cap)} F"
            if cutoff == "vertical":
                share = heat.share_above(high, foot, cap)
                line += f" and ({pencil(cap)} - {pencil(base)}) x {pencil(share)} of the day above it"
        steps.append(Step(line))
    return (*steps, Step(f"degree days = {pencil(total)}" + (", the mean of the halves" if after is not None else "")))
