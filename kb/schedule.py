"""A window at a place: the dates it opens and closes, and how to say so.

Not here: what to do in the window (kb/rules). Northern hemisphere only.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import lru_cache
from typing import Any

from kb.entries import Place, Plant, Window
from kb.errors import PlaceError, RangeError
from kb.heat import sine

_DORMANT_BELOW_F = 45.0  # daily mean at which most woody plants rest; from memory
_MILD_BELOW_F = 55.0  # coldest normal month above which there is no rest at all; from memory
_MILD_WITHIN_F = 6.0  # how near the coldest daily mean a mild winter's cooler part lies; from memory
_SOIL_LAG_DAYS = 7  # the soil at four inches follows the mean of the last week's air; from memory
Days = tuple[date, date]


@dataclass(frozen=True)
class Dates:
    """A window's dates. `days` counts until it closes (open), until it opens (opens later) or since it closed."""

    opens: date | None
    closes: date | None
    state: str  # open | opens later | closed | none here
    days: int
    words: str


def schedule(window: Window, place: Place, today: date) -> Dates:
    """When `window` is open at `place`, seen from `today`.

    Raises:
        RangeError: for a place south of the equator, whose seasons are not handled.
    """
    if place.lat < 0:
        raise RangeError("lat", place.lat, "a place north of the equator")
    spans = [s for year in range(today.year - 1, today.year + 3) if (s := _span(window, place, year))]
    spans = [s for s in spans if s[1] >= s[0]]
    if not spans:
        return Dates(None, None, "none here", 999, f"there is no such time at {place.name}")
    later = next((s for s in spans if s[0] > today), None)
    for opens, closes in spans:
        if opens <= today <= closes:
            words = f"open now, until about {_day(closes, today)}"
            return Dates(opens, closes, "open", (closes - today).days, words)
    past = [s for s in spans if s[1] < today]
    if past and (today - past[-1][1]).days < 60:
        again = f"; opens again about {_day(later[0], today)}" if later else ""
        words = f"closed about {_day(past[-1][1], today)}{again}"
        return Dates(past[-1][0], past[-1][1], "closed", (today - past[-1][1]).days, words)
    if later is None:
        return Dates(None, None, "none here", 999, f"there is no such time at {place.name}")
    days = (later[0] - today).days
    words = f"opens about {_day(later[0], today)}, in {_ago(days)}, and closes about {_day(later[1], today)}"
    return Dates(later[0], later[1], "opens later", days, words)


def in_zones(zones: tuple[int, ...], place: Place) -> bool:
    """Whether a place's hardiness zone lies within (coldest, warmest), both included; no zones means everywhere."""
    if not zones:
        return True
    number = re.match(r"\d+", place.zone)
    return number is None or zones[0] <= int(number[0]) <= zones[-1]


def for_plant(window: Window, plant: Plant | None) -> Window | None:
    """The window with the plant's own dates in it; None when it asks for a trait that this plant lacks."""
    if not window.trait:
        return window
    when = plant.traits.get(window.trait) if plant is not None else None
    if not isinstance(when, dict):
        return None
    source = plant.traits_from.get(window.trait, "from-memory") if plant is not None else window.source
    frost = {key: when[key] for key in ("of", "from_days", "to_days")}
    return replace(window, trait="", frost=frost, source=source if isinstance(source, str) else tuple(source))


def frost_date(place: Place, which: str, probability: int, year: int) -> date:
    """The date after the last (or before the first) 32 F freeze in the place's table, at a probability in percent.

    Raises:
        PlaceError: when the place's table has no such date, as where freezes are rare.
    """
    table = place.last_freeze if which == "last" else place.first_freeze
    if probability not in table:
        raise PlaceError(f"{place.name}: no date for the {which} freeze at {probability} percent")
    month, day = map(int, table[probability].split("-"))
    late = which == "first" and month < 7  # a first freeze in January belongs to the winter begun the year before
    return date(year + 1 if late else year, month, day)


def _span(window: Window, place: Place, year: int) -> Days | None:
    """The window that begins in `year`, or None when the place has none."""
    if window.months:
        return _months(window.months, year)
    if window.dates:
        opens, closes = (_month_day(d, year) for d in window.dates)
        return opens, closes if closes >= opens else _month_day(window.dates[1], year + 1)
    if window.frost:
        return _frost(window.frost, place, year)
    if window.degree_days:
        return _degree_days(window.degree_days, place, year)
    if window.soil_temp_f:
        return _soil(window.soil_temp_f, place, year)
    return _dormant(place, year)


def _months(months: tuple[int, ...], year: int) -> Days:
    first = next((m for m in sorted(months) if (m - 2) % 12 + 1 not in months), min(months))
    length = len(set(months))
    end_month, end_year = (first + length - 1) % 12 + 1, year + (first + length - 1) // 12
    return date(year, first, 1), date(end_year, end_month, 1) - timedelta(days=1)


def _frost(window: dict[str, Any], place: Place, year: int) -> Days | None:
    try:
        anchor = frost_date(place, window.get("of", "last"), int(window.get("probability", 50)), year)
    except PlaceError:
        return None
    return anchor + timedelta(days=int(window["from_days"])), anchor + timedelta(days=int(window["to_days"]))


def _degree_days(window: dict[str, Any], place: Place, year: int) -> Days | None:
    """Summed on the normals by single sine, so that cool spring days with warm afternoons count.

    A mean of many years hides the warm spells of each, which would add to the sum: normals undercount in spring.
    """
    start = _month_day(str(window.get("start", "01-01")), year)
    total, opens = 0.0, None
    normals = daily_normals(place)
    for offset in range(366):
        day = start + timedelta(days=offset)
        total += sine(*normals[(day.timetuple().tm_yday - 1) % 365], float(window.get("base_f", 50)))
        if opens is None and total >= float(window["low"]):
            opens = day
        if total >= float(window["high"]):
            return (opens, day) if opens else None
    return None


def _soil(window: dict[str, Any], place: Place, year: int) -> Days | None:
    """Soil at four inches taken as the mean air temperature of the last seven days' normals (from memory)."""
    low, high = float(window["low"]), float(window["high"])
    rising = window.get("trend", "rising") == "rising"
    return _first_run(place, year, rising, lambda soil: low <= soil <= high)


def _first_run(place: Place, year: int, rising: bool, right: Callable[[float], bool]) -> Days | None:
    """The first days on which the soil is `right`, in the half-year in which it warms (or cools)."""
    means = [(high + low) / 2 for high, low in daily_normals(place)]
    soil = [sum(means[(i - j) % 365] for j in range(_SOIL_LAG_DAYS)) / _SOIL_LAG_DAYS for i in range(365)]
    coldest, hottest = soil.index(min(soil)), soil.index(max(soil))
    coldest -= 365 if coldest > hottest else 0  # the coldest day may fall in the December before
    first, last = (coldest, hottest) if rising else (hottest, coldest + 365)
    run = [i for i in range(first, last + 1) if right(soil[i % 365])]
    if not run:
        return None
    return date(year, 1, 1) + timedelta(days=run[0]), date(year, 1, 1) + timedelta(days=run[-1])


def _dormant(place: Place, year: int) -> Days | None:
    """From the autumn day the normal mean falls below the resting point to the spring day it rises above it.

    The resting point is 45 F. Where the coldest month's mean lies from 45 to 55 F it is instead 6 F above the
    coldest daily mean, the cooler part of a mild winter; above 55 F there is no rest. All three from memory.
    """
    means = [(high + low) / 2 for high, low in daily_normals(place)]
    month = min((high + low) / 2 for high, low in zip(place.tmax_f, place.tmin_f, strict=True))
    if month > _MILD_BELOW_F:
        return None
    resting = _DORMANT_BELOW_F if month < _DORMANT_BELOW_F else min(means) + _MILD_WITHIN_F
    cold = [mean < resting for mean in means]
    if not any(cold) or all(cold):
        return None
    fall = next(i for i in range(200, 565) if cold[i % 365])
    spring = next(i for i in range(fall, fall + 365) if not cold[i % 365])
    return date(year, 1, 1) + timedelta(days=fall), date(year, 1, 1) + timedelta(days=spring - 1)


@lru_cache(maxsize=128)
def _normals(tmax: tuple[float, ...], tmin: tuple[float, ...]) -> tuple[tuple[float, float], ...]:
    middles = [15.5, 45.0, 74.5, 105.0, 135.5, 166.0, 196.5, 227.5, 258.0, 288.5, 319.0, 349.5]
    days = []
    for day in range(365):
        after = next((i for i, m in enumerate(middles) if m > day), 12)
        left = middles[after - 1] if after else middles[11] - 365
        right = middles[after] if after < 12 else middles[0] + 365
        share = (1 - math.cos(math.pi * (day - left) / (right - left))) / 2
        days.append(
            tuple(months[(after - 1) % 12] * (1 - share) + months[after % 12] * share for months in (tmax, tmin))
        )
    return tuple((d[0], d[1]) for d in days)


def daily_normals(place: Place) -> tuple[tuple[float, float], ...]:
    """Normal (maximum, minimum) in F for each of 365 days, drawn smoothly through the middle of each month."""
    return _normals(place.tmax_f, place.tmin_f)


def _month_day(text: str, year: int) -> date:
    month, day = map(int, text.split("-"))
    return date(year, month, day)


def _day(day: date, today: date) -> str:
    return f"{day.day} {day:%B}" + (f" {day.year}" if day.year != today.year else "")


def _ago(days: int) -> str:
    return "1 day" if days == 1 else f"{days} days" if days < 60 else f"about {round(days / 30.4)} months"
