"""Degree days of a day from its highest and lowest temperature: the one place for these formulas.

Not here: reading a record (stations.py), carrying a total forward (station_years.py), any insect's total (kb/rules).
"""

from __future__ import annotations

import math

from kb.errors import RangeError

METHODS = ("average", "modified", "single_sine", "double_sine")
CUTOFFS = ("horizontal", "vertical")


def day_degree_days(
    tmax: float,
    tmin: float,
    base: float,
    *,
    cap: float | None = None,
    method: str = "single_sine",
    cutoff: str = "horizontal",
    next_tmin: float | None = None,
) -> float:
    """Degree days of one day, in the scale of its temperatures (F or C), never below zero.

    `cutoff` says what warmth above `cap` does: horizontal counts it as `cap`, vertical stops the count while it lasts.
    Double sine draws the afternoon and night down to `next_tmin`, the lowest of the day after.

    Raises:
        RangeError: for an unknown method or cut-off, or one the method does not have.
    """
    if tmax < tmin:
        raise RangeError("tmax", f"{tmax:g}", f"at least the minimum of {tmin:g}")
    if cap is not None and cap <= base:
        raise RangeError("cap", f"{cap:g}", f"more than the base of {base:g}")
    if method == "average":
        return max(0.0, (tmax + tmin) / 2 - base)
    if method == "modified":
        high, low = (max(base, t if cap is None else min(t, cap)) for t in (tmax, tmin))
        return (high + low) / 2 - base
    if method == "single_sine":
        return sine(tmax, tmin, base, cap, cutoff)
    if method != "double_sine":
        raise RangeError("method", repr(method), "one of " + ", ".join(METHODS))
    if next_tmin is None:
        raise RangeError("next_tmin", "nothing", "the minimum of the day after, which double sine needs")
    second = sine(max(tmax, next_tmin), min(tmax, next_tmin), base, cap, cutoff)
    return (sine(tmax, tmin, base, cap, cutoff) + second) / 2


def sine(tmax: float, tmin: float, base: float, cap: float | None = None, cutoff: str = "horizontal") -> float:
    """Degree days between `base` and `cap` under one sine wave from `tmin` to `tmax`.

    Baskerville and Emin (1969), Ecology 50: 514-517, the area above the base; the cap's area is taken off it, and with
    a vertical cut-off also the block between base and cap for as long as the wave is above the cap (the cases of
    Zalom and others 1983, University of California leaflet 21373; from memory).
    """
    if cutoff not in CUTOFFS:
        raise RangeError("cutoff", repr(cutoff), "one of " + ", ".join(CUTOFFS))
    total = _area_above(tmax, tmin, base)
    if cap is not None:
        total -= _area_above(tmax, tmin, cap)
        if cutoff == "vertical":
            total -= (cap - base) * share_above(tmax, tmin, cap)
    return max(0.0, total)


def share_above(tmax: float, tmin: float, limit: float) -> float:
    """The share of the day that the sine wave spends above `limit`, 0 to 1."""
    if tmax <= limit:
        return 0.0
    if tmin >= limit:
        return 1.0
    return 0.5 - math.asin(_level(tmax, tmin, limit)) / math.pi


def _area_above(tmax: float, tmin: float, limit: float) -> float:
    mean, half = (tmax + tmin) / 2, (tmax - tmin) / 2
    if tmax <= limit:
        return 0.0
    if tmin >= limit:
        return mean - limit
    angle = math.asin(_level(tmax, tmin, limit))
    return ((mean - limit) * (math.pi / 2 - angle) + half * math.cos(angle)) / math.pi


def _level(tmax: float, tmin: float, limit: float) -> float:
    """Where `limit` cuts the wave, -1 at its foot to 1 at its crest."""
    half = (tmax - tmin) / 2
    return max(-1.0, min(1.0, (limit - (tmax + tmin) / 2) / half)) if half > 0 else 0.0
