"""The hardiness zone of a mean annual minimum, or of a list of winters' lowest temperatures.

Not here: the zone's edges (kb/cold.py), minima from a daily record (kb/station_years.py).
"""

from __future__ import annotations

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.frost_and_heat import temperatures
from answers.calculators.ranges import within
from kb import cold
from kb.errors import RangeError

FAMILY = "season"

_SOURCE = "USDA Agricultural Research Service: Plant Hardiness Zone Map, half-zone table (2023; from memory)"
_FORMULA = "zone = whole part of ((minimum + 60) / 10) + 1; a in its lower 5 F, b in its upper"
_CAUTION = ("A zone says how cold a usual winter gets, not the worst one; snow, shelter and wet soil matter too.",)


def hardiness_zone(*, mean_minimum_f: float) -> Figure:
    """Hardiness half zone from the mean of the years' lowest temperatures.

    Args:
        mean_minimum_f: mean annual extreme minimum, -60 to 69.9 F (give it in C as "-12 C").

    Returns: the half zone, "5b"; also number, low_f and high_f (its edges), low_c and high_c.
    Raises: RangeError outside this range.
    Formula: half zones of 5 F from -60 F, zone 1a.
    Source: USDA Agricultural Research Service, Plant Hardiness Zone Map (2023; from memory).
    """
    mean = within("mean_minimum_f", mean_minimum_f, -60, 69.99, "F")
    return _zone("hardiness_zone", mean, {"mean_minimum_f": mean}, (), {})


def hardiness_from_winters(*, minima: str) -> Figure:
    """Hardiness half zone from a list of winters' lowest temperatures.

    Args:
        minima: each winter's lowest temperature in F, "-12 -8.5 -15", 3 to 200 winters of -100 to 70 F.

    Returns: the half zone; also mean_f, winters, coldest_f, mildest_f, number, low_f, high_f, low_c, high_c.
    Raises: RangeError outside these ranges.
    Formula: the mean of the minima, then half zones of 5 F from -60 F.
    Source: USDA Agricultural Research Service, Plant Hardiness Zone Map (2023; from memory), on 30 winters.
    """
    winters = temperatures("minima", minima, 200, -100, 70)
    if len(winters) < 3:
        raise RangeError("minima", f"{len(winters)} winters", "at least 3; the map uses 30")
    mean = sum(winters) / len(winters)
    if not -60 <= mean < 70:
        raise RangeError("minima", f"a mean of {mean:g} F", "a mean from -60 to less than 70 F")
    step = Step(f"mean = sum of {len(winters)} minima / {len(winters)} = {pencil(mean)} F")
    also: dict[str, float | str] = {
        "mean_f": mean,
        "winters": len(winters),
        "coldest_f": min(winters),
        "mildest_f": max(winters),
    }
    few = () if len(winters) >= 30 else (f"The map rests on 30 winters; {len(winters)} may be a half zone off.",)
    return _zone("hardiness_from_winters", mean, {"minima": minima}, (step,), also, few)


def _zone(
    name: str,
    mean: float,
    inputs: dict[str, float | str],
    steps: tuple[Step, ...],
    also: dict[str, float | str],
    cautions: tuple[str, ...] = (),
) -> Figure:
    zone = cold.zone_of(mean)
    number = int(zone[:-1])
    low = -60.0 + (number - 1) * 10 + (5 if zone.endswith("b") else 0)
    edges: dict[str, float | str] = {"number": number, "low_f": low, "high_f": low + 5}
    return Figure(
        name,
        "hardiness zone",
        zone,
        "zone",
        dict(inputs),
        (
            *steps,
            Step(f"({pencil(mean)} + 60) / 10 = {pencil((mean + 60) / 10)}: zone {number}"),
            Step(f"half zone {zone} runs from {low:g} to {low + 5:g} F, and {pencil(mean)} F is in it"),
        ),
        _FORMULA,
        _SOURCE,
        also | edges | {"low_c": (low - 32) / 1.8, "high_c": (low - 27) / 1.8},
        _CAUTION + cautions,
    )
