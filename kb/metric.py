"""A place's climate numbers given in metric units, as the US units that every window is worked in.

Not here: the units writers use in their letters (answers/calculators/units.py).
"""

from __future__ import annotations

from collections.abc import Callable

from kb.yaml_lines import LineDict

TO_US: dict[str, tuple[str, Callable[[float], float]]] = {
    "tmax_c": ("tmax_f", lambda c: c * 9 / 5 + 32),
    "tmin_c": ("tmin_f", lambda c: c * 9 / 5 + 32),
    "rain_mm": ("rain_in", lambda mm: mm / 25.4),
    "elevation_m": ("elevation_ft", lambda m: m / 0.3048),
}


def from_metric(place: LineDict) -> None:
    """Change `tmax_c`, `tmin_c`, `rain_mm` and `elevation_m` in place to the fields of entries.Place, keeping lines."""
    for metric, (field, convert) in TO_US.items():
        if metric in place and field not in place:
            given = place.pop(metric)
            if isinstance(given, list):
                place[field] = [round(convert(v), 2) if isinstance(v, int | float) else v for v in given]
            else:
                place[field] = round(convert(given), 2) if isinstance(given, int | float) else given
            place.lines[field] = place.lines.pop(metric)
