"""Day length, the hours of a day drawn from its extremes, chill by four counts, and the hardiness zone of a minimum.

Not here: reading a record (stations.py), a winter's or a station's totals (station_years.py), degree days (heat.py).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from kb.errors import RangeError

# Utah weights by hour: up to this many C, this many units (Richardson and others 1974, HortScience 9: 331-332)
UTAH = ((1.4, 0.0), (2.4, 0.5), (9.1, 1.0), (12.4, 0.5), (15.9, 0.0), (18.0, -0.5), (math.inf, -1.0))
# Dynamic model (Fishman, Erez and Couvillon 1987, Journal of Theoretical Biology 124: 473-483)
E0, E1, A0, A1, SLOPE, TETMLT = 4153.5, 12888.8, 139500.0, 2.567e18, 1.6, 277.0


@dataclass(frozen=True)
class Chill:
    """Chill by the four usual counts; they do not convert into one another."""

    hours_below_45: float
    hours_32_to_45: float
    utah_units: float
    portions: float


def declination(day_of_year: int) -> float:
    """The sun's declination in radians (FAO Irrigation and Drainage Paper 56, equation 24)."""
    return 0.409 * math.sin(2 * math.pi / 365 * day_of_year - 1.39)


def closer_declination(day_of_year: int) -> float:
    """The same within half a degree, closer than FAO's in fall, by Spencer's series (1971; from memory)."""
    g = 2 * math.pi * (day_of_year - 1) / 365
    return (
        0.006918
        - 0.399912 * math.cos(g)
        + 0.070257 * math.sin(g)
        - 0.006758 * math.cos(2 * g)
        + 0.000907 * math.sin(2 * g)
        - 0.002697 * math.cos(3 * g)
        + 0.00148 * math.sin(3 * g)
    )


def day_length(latitude: float, day_of_year: int, horizon_deg: float | None = None) -> float:
    """Hours from sunrise to sunset (FAO-56 equations 25 and 34).

    With `horizon_deg` the sun's center rises at that height, by the closer declination: -0.833 as in almanacs.
    """
    lat = math.radians(latitude)
    sun = declination(day_of_year) if horizon_deg is None else closer_declination(day_of_year)
    horizon_deg = horizon_deg or 0.0
    low = math.sin(math.radians(horizon_deg)) - math.sin(lat) * math.sin(sun)
    return 24 / math.pi * math.acos(max(-1.0, min(1.0, low / (math.cos(lat) * math.cos(sun)))))


def hours_of_day(tmax: float, tmin: float, next_tmin: float, daylight: float) -> list[float]:
    """Temperatures at 24 clock hours, sunrise onwards and in the day's own order from sunrise.

    A sine by day that peaks two hours after noon, and from sunset a logarithmic fall to the next minimum (Linvill
    1990, HortScience 25: 14-16; written so that the night begins at the sunset temperature and ends at the minimum).
    """
    if not 1 <= daylight <= 23:
        raise RangeError("daylight", f"{daylight:g} hours", "1 to 23 hours")
    night = 24 - daylight
    sunset = tmin + (tmax - tmin) * math.sin(math.pi * daylight / (daylight + 4))
    drawn = []
    for hour in range(24):  # hours since sunrise
        if hour <= daylight:
            drawn.append(tmin + (tmax - tmin) * math.sin(math.pi * hour / (daylight + 4)))
        else:
            drawn.append(sunset - (sunset - next_tmin) * math.log(hour - daylight + 1) / math.log(night + 1))
    return drawn


def hours_of_days(highs_c: Sequence[float], lows_c: Sequence[float], latitude: float, first: date) -> list[float]:
    """The hours of a run of days; the last night falls to that day's own minimum."""
    start, hours = first.timetuple().tm_yday, []
    for i, (high, low) in enumerate(zip(highs_c, lows_c, strict=True)):
        following = lows_c[i + 1] if i + 1 < len(lows_c) else low
        hours += hours_of_day(high, low, following, day_length(latitude, (start + i - 1) % 365 + 1))
    return hours


def utah_units(temp_c: float) -> float:
    """Utah chill units of one hour."""
    return next(units for limit, units in UTAH if temp_c <= limit)


def portions(hours_c: Sequence[float]) -> float:
    """Chill portions of a run of hours by the Dynamic model: a part made in the cold and undone by warmth is kept
    for good once it is whole.
    """
    part = total = 0.0
    for temp_c in hours_c:
        kelvin = temp_c + 273
        ceiling = A0 / A1 * math.exp((E1 - E0) / kelvin)
        rate = A1 * math.exp(-E1 / kelvin)
        part = ceiling - (ceiling - part) * math.exp(-rate)
        if part >= 1:
            kept = part * _share_kept(kelvin)
            total, part = total + kept, part - kept
    return total


def _share_kept(kelvin: float) -> float:
    return 1 / (1 + math.exp(-min(700.0, max(-700.0, SLOPE * TETMLT * (kelvin - TETMLT) / kelvin))))


def chill_of(hours_c: Sequence[float]) -> Chill:
    """Chill of a run of hourly temperatures in C by all four counts; 45 F is 7.2 C."""
    edge = (45 - 32) / 1.8 + 1e-9
    below = sum(t <= edge for t in hours_c)
    between = sum(-1e-9 <= t <= edge for t in hours_c)
    return Chill(float(below), float(between), sum(map(utah_units, hours_c)), portions(hours_c))


def zone_of(mean_minimum_f: float) -> str:
    """The hardiness half zone of a mean annual extreme minimum: 5 F each, from 1a at -60 F to 13b below 70 F."""
    if not -60 <= mean_minimum_f < 70:
        raise RangeError("mean_minimum_f", f"{mean_minimum_f:g} F", "from -60 to less than 70 F, zones 1a to 13b")
    half = math.floor((mean_minimum_f + 60) / 5)
    return f"{half // 2 + 1}{'ab'[half % 2]}"
