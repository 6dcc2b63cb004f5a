"""The place with climate numbers nearest to a writer's town or ZIP code.

Not here: the places themselves (kb/places). Town and ZIP positions come from the `zipcodes` package, offline.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from kb.entries import Place

EARTH_MILES = 3958.8  # mean radius


@dataclass(frozen=True)
class PlaceMatch:
    """The nearest place, and how it was found."""

    place: Place
    how: str


def miles_between(lat1: float, lon1: float, lat2: float, lon2: float) -> float:
    """Great-circle distance in statute miles (haversine), from degrees."""
    a1, a2, across = math.radians(lat1), math.radians(lat2), math.radians(lon2 - lon1)
    h = math.sin((a2 - a1) / 2) ** 2 + math.cos(a1) * math.cos(a2) * math.sin(across / 2) ** 2
    return 2 * EARTH_MILES * math.asin(math.sqrt(min(1.0, h)))


def nearest(places: Sequence[Place], *, town: str = "", state: str = "", zip_code: str = "") -> PlaceMatch | None:
    """The place nearest to a ZIP code, else to a town in a state, to the state's middle, or None.

    An invented place is never nearest: it matches only its own name. Outside the United States a town that is not a
    place of ours gets the first station of its province or country.
    """
    named = [p for p in places if town and p.name.lower() == town.lower() and state in ("", p.state)]
    if named:
        return PlaceMatch(named[0], "named in the letter")
    at = _position(town.strip().title(), state.strip().upper(), zip_code.strip()[:5])
    real = [p for p in places if not p.invented]
    abroad = [p for p in real if p.country != "US" and p.state == state]
    if abroad:
        return PlaceMatch(abroad[0], f"the station kept for {state}")
    if at is None or not real:
        return None
    lat, lon, how = at
    best = min(real, key=lambda p: miles_between(lat, lon, p.lat, p.lon))
    return PlaceMatch(best, how)


@lru_cache(maxsize=4096)
def _position(town: str, state: str, zip_code: str) -> tuple[float, float, str] | None:
    if not zip_code and not state:
        return None
    import zipcodes

    found, how = [], ""
    if len(zip_code) == 5 and zip_code.isdigit():
        found, how = zipcodes.matching(zip_code), f"ZIP code {zip_code}"  # type: ignore[no-untyped-call]
    if not found and town and state:
        found, how = zipcodes.filter_by(city=town, state=state), f"{town}, {state}"  # type: ignore[no-untyped-call]
    if not found and state:
        found, how = zipcodes.filter_by(state=state), f"the middle of {state}; the town is not known"  # type: ignore[no-untyped-call]
    spots = [(float(z["lat"]), float(z["long"])) for z in found if z["lat"] and z["long"]]
    if not spots:
        return None
    return sum(s[0] for s in spots) / len(spots), sum(s[1] for s in spots) / len(spots), how
