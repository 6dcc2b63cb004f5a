"""What a station's own years say: freeze dates, degree days carried forward to a threshold, chill, hardiness zone.

Not here: reading the record (stations.py), the day's formulas (heat.py, cold.py).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from kb.cold import Chill, chill_of, hours_of_days, zone_of
from kb.errors import RangeError
from kb.heat import day_degree_days
from kb.stations import Record

_MOST_MISSING = 9  # days without a minimum that a season's search may cross, about one in twenty; common practice
_FEWEST_YEARS = 10  # for a probability or a spread; common practice
_LONGEST_BRIDGE = 5  # days of a winter filled between neighbours; common practice
_START = {"last": date(2001, 1, 1), "first": date(2001, 7, 1)}  # of a common year
_AROUND = 7  # days each side of a calendar day in its mean


@dataclass(frozen=True)
class Freezes:
    """The years' freeze dates at one temperature, as days of a common year from 1 January (last) or 1 July (first)."""

    which: str  # last | first
    threshold_f: float
    days: dict[int, int]  # year -> days from the season's start
    none: tuple[int, ...]  # whole seasons without such a freeze
    left_out: tuple[int, ...]  # seasons with too much missing


@dataclass(frozen=True)
class Reached:
    """When a total is reached: `day` on the station's mean year, `earliest` and `latest` on its own years' spread."""

    so_far: float
    day: date | None
    earliest: date | None
    latest: date | None
    years: int  # years behind the spread; 0 when it has been reached already
    filled: int  # missing days so far, filled with the mean of their time of year
    words: str


@dataclass(frozen=True)
class Winter:
    """A winter's chill, or a zone, with what had to be filled or left out."""

    chill: Chill
    days: int
    filled: int


def freezes(record: Record, which: str, threshold_f: float = 32.0) -> Freezes:
    """Each year's last freeze (July to June before it) or first freeze (July to the June after).

    A season is left out when more than nine days that matter have no minimum: those after the last freeze found to
    the end of June, or from July to the first one found.
    """
    if which not in ("last", "first"):
        raise RangeError("which", repr(which), "last or first")
    found: dict[int, int] = {}
    none, left_out = [], []
    for year in range(record.first.year, record.last.year + 1):
        winter = year if which == "first" else year - 1
        season = record.span(date(winter, 7, 1), date(winter + 1, 6, 30))
        missing = 0
        for day, reading in season if which == "first" else reversed(season):
            if reading.tmin_f is None:
                missing += 1
            elif reading.tmin_f <= threshold_f:
                found[year] = (_in_year(day, 2001 + day.year - year) - _START[which]).days
                break
        if missing > _MOST_MISSING:
            left_out.append(year)
            found.pop(year, None)
        elif year not in found:
            none.append(year)
    return Freezes(which, threshold_f, found, tuple(none), tuple(left_out))


def freeze_probabilities(
    record: Record, which: str, threshold_f: float = 32.0, percents: Sequence[int] = (10, 50, 90)
) -> dict[int, str | None]:
    """Percent -> "MM-DD": the chance of a freeze after that date in spring, or before it in fall.

    The years' dates are ranked and read at rank / (years + 1), years without a freeze counting as years. None where
    the years do not reach that far: too few for the percent, or freezes rarer than it.

    Raises:
        RangeError: with fewer than ten usable years, or a percent not between 0 and 100.
    """
    seasons = freezes(record, which, threshold_f)
    years = len(seasons.days) + len(seasons.none)
    if years < _FEWEST_YEARS:
        raise RangeError("record", f"{years} usable years", f"at least {_FEWEST_YEARS} for a freeze probability")
    ordered = sorted(seasons.days.values(), reverse=which == "last")
    dates: dict[int, str | None] = {}
    for percent in percents:
        if not 0 < percent < 100:
            raise RangeError("percent", percent, "between 0 and 100")
        offset = _at_rank(ordered, percent / 100 * (years + 1))
        dates[percent] = None if offset is None else f"{_START[which] + timedelta(days=round(offset)):%m-%d}"
    return dates


def mean_daily_degree_days(record: Record, base_f: float, **how: Any) -> dict[tuple[int, int], float]:
    """(month, day) -> the mean of that calendar day's degree days and of the week each side, over all years.

    The mean of the days' own degree days, so that warm spells count: the degree days of mean temperatures are fewer.
    """
    sums, counts = [0.0] * 366, [0] * 366
    for day in record.days:
        value = _degree_days(record, day, base_f, how)
        if value is not None:
            sums[_slot(day)] += value
            counts[_slot(day)] += 1
    means = {}
    for slot in range(366):
        near = [(slot + k) % 366 for k in range(-_AROUND, _AROUND + 1)]
        there = sum(counts[n] for n in near)
        if not there:
            raise RangeError("record", f"nothing near {_calendar(slot):%d %B}", "readings for every time of year")
        means[(_calendar(slot).month, _calendar(slot).day)] = sum(sums[n] for n in near) / there
    return means


def accumulated(record: Record, start: date, end: date, base_f: float, **how: Any) -> tuple[float, int]:
    """(degree days from start to end, both counted; missing days filled with the mean of their time of year)."""
    means = mean_daily_degree_days(record, base_f, **how)
    values = [(d, _degree_days(record, d, base_f, how)) for d, _ in record.span(start, end)]
    return sum(means[(d.month, d.day)] if v is None else v for d, v in values), sum(v is None for _, v in values)


def reached(record: Record, start: date, today: date, threshold: float, base_f: float = 50.0, **how: Any) -> Reached:
    """When `threshold` degree days from `start` are reached: on the record to today, then on the years' mean.

    The spread runs the rest of the season on each of the station's own years in turn and gives the dates that one
    year in ten is ahead of and one in ten behind. `how` goes to `day_degree_days`: method, cap, cutoff.

    Raises:
        RangeError: for a start after today, or fewer than ten other years to judge by.
    """
    if not start <= today or not 0 < threshold <= 20000:
        raise RangeError("threshold", f"{threshold:g} from {start}", f"1 to 20000 from a start not after {today}")
    means = mean_daily_degree_days(record, base_f, **how)
    total, filled = 0.0, 0
    for day, _ in record.span(start, today):
        value = _degree_days(record, day, base_f, how)
        filled += value is None
        total += means[(day.month, day.day)] if value is None else value
        if total >= threshold:
            words = f"{threshold:g} was reached on {day}; {filled} missing days were filled with usual ones"
            return Reached(total, day, day, day, 0, filled, words)
    ahead = [today + timedelta(days=n) for n in range(1, 367)]
    usual = _first_day(ahead, [means[(d.month, d.day)] for d in ahead], threshold - total)
    runs: list[date] = []
    years = 0
    for year in range(record.first.year - 1, record.last.year + 1):
        shift = year - today.year
        own = [_degree_days(record, _in_year(d, d.year + shift), base_f, how) for d in ahead]
        if shift == 0 or sum(v is None for v in own) > _MOST_MISSING * 2:
            continue
        years += 1
        day_reached = _first_day(
            ahead,
            [means[(d.month, d.day)] if v is None else v for d, v in zip(ahead, own, strict=True)],
            threshold - total,
        )
        runs += [day_reached] if day_reached else []
    if years < _FEWEST_YEARS:
        raise RangeError("record", f"{years} whole years besides this", f"at least {_FEWEST_YEARS} for a spread")
    offsets = sorted((d - today).days for d in runs)
    low, high = (_at_rank(offsets, p * (years + 1)) for p in (0.1, 0.9))
    earliest = None if low is None else today + timedelta(days=round(low))
    latest = None if high is None else today + timedelta(days=round(high))
    words = (
        f"{total:.0f} of {threshold:g} by {today}; usually reached about {usual or 'never within a year'}"
        f" ({earliest or 'rarely'} to {latest or 'some years not'} in eight years of ten, from {years} years);"
        f" {filled} missing days were filled with usual ones"
    )
    return Reached(total, usual, earliest, latest, years, filled, words)


def winter_chill(record: Record, latitude: float, start: date, end: date) -> Winter:
    """Chill from start to end by all four counts, on hours drawn from each day's extremes.

    Raises:
        RangeError: where more than five days on end, or the first or last, are missing: chill cannot be guessed.
    """
    days = [reading.both for _, reading in record.span(start, end)]
    if not days or days[0] is None or days[-1] is None:
        raise RangeError("record", f"no reading on {start} or {end}", "a span that begins and ends with a reading")
    whole: list[tuple[float, float]] = []
    gap = filled = 0
    for both in days:
        if both is None:
            gap += 1
            continue
        if gap > _LONGEST_BRIDGE:
            raise RangeError("record", f"{gap} days missing on end", f"at most {_LONGEST_BRIDGE}")
        last = whole[-1] if whole else both
        for k in range(1, gap + 1):
            share = k / (gap + 1)
            whole.append((last[0] + (both[0] - last[0]) * share, last[1] + (both[1] - last[1]) * share))
        filled, gap = filled + gap, 0
        whole.append(both)
    highs, lows = ([(pair[i] - 32) / 1.8 for pair in whole] for i in (0, 1))
    return Winter(chill_of(hours_of_days(highs, lows, latitude, start)), len(whole), filled)


def annual_minima(record: Record) -> dict[int, float]:
    """Winter (the year it begins in) -> its lowest temperature in F, July to June.

    Winters with more than nine days of November to March missing are left out: the coldest night may be among them.
    """
    minima = {}
    for year in range(record.first.year - 1, record.last.year + 1):
        cold = record.span(date(year, 11, 1), date(year + 1, 3, 31))
        if sum(d.tmin_f is None for _, d in cold) <= _MOST_MISSING:
            season = record.span(date(year, 7, 1), date(year + 1, 6, 30))
            minima[year] = min(d.tmin_f for _, d in season if d.tmin_f is not None)
    return minima


def zone(record: Record) -> tuple[str, float, int]:
    """(hardiness half zone, mean annual minimum in F, winters it rests on).

    Raises:
        RangeError: with fewer than ten usable winters.
    """
    minima = annual_minima(record)
    if len(minima) < _FEWEST_YEARS:
        raise RangeError("record", f"{len(minima)} usable winters", f"at least {_FEWEST_YEARS} for a zone")
    mean = sum(minima.values()) / len(minima)
    return zone_of(mean), mean, len(minima)


def _degree_days(record: Record, day: date, base_f: float, how: dict[str, Any]) -> float | None:
    reading = record.days.get(day)
    if reading is None or reading.both is None:
        return None
    following = record.days.get(day + timedelta(days=1))
    next_tmin = reading.tmin_f if following is None or following.tmin_f is None else following.tmin_f
    return day_degree_days(*reading.both, base_f, next_tmin=next_tmin, **how)


def _first_day(days: list[date], values: list[float], wanted: float) -> date | None:
    total = 0.0
    for day, value in zip(days, values, strict=True):
        total += value
        if total >= wanted:
            return day
    return None


def _at_rank(ordered: Sequence[float], rank: float) -> float | None:
    """The value at a rank from 1, in between by a straight line; None beyond either end."""
    if not 1 <= rank <= len(ordered):
        return None
    below = int(rank)
    left = ordered[below - 1]
    return left if rank == below else left + (ordered[below] - left) * (rank - below)


def _slot(day: date) -> int:
    return date(2000, day.month, day.day).timetuple().tm_yday - 1


def _calendar(slot: int) -> date:
    return date(2000, 1, 1) + timedelta(days=slot)


def _in_year(day: date, year: int) -> date:
    return day.replace(year=year, day=28) if (day.month, day.day) == (2, 29) else day.replace(year=year)
