"""Plants to fill a bed, level or sloping.

Not here: which plants (the rules say).
"""

from __future__ import annotations

import math

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import one_of, within

FAMILY = "space"

_SHARE = {"square": 1.0, "triangular": math.sqrt(3) / 2}


def plant_count(*, area_sqft: float, spacing_in: float, pattern: str = "square", slope_percent: float = 0.0) -> Figure:
    """Plants for an area at a spacing, measured along the slope.

    Args:
        area_sqft: area on plan (as on a map), 0.5 to 1,000,000 sq ft.
        spacing_in: distance between plants, 1 to 600 in.
        pattern: square or triangular.
        slope_percent: rise over run, 0 to 200 %; the ground is then larger than its plan.

    Returns: whole plants; also exact and surface_sqft.
    Raises: RangeError outside these ranges.
    Formula: plants = surface x 144 / (spacing^2 x 1 or 0.866); surface = plan x sqrt(1 + slope^2).
    Source: McShane's Nursery, How to space flowers and ground covers evenly (triangular); Macmillan, Farm and Garden
        Rule-Book (square); geometry.
    """
    area = within("area_sqft", area_sqft, 0.5, 1_000_000, "sq ft")
    spacing = within("spacing_in", spacing_in, 1, 600, "in")
    slope = within("slope_percent", slope_percent, 0, 200, "%")
    share = _SHARE[one_of("pattern", pattern, tuple(_SHARE))]
    surface = area * math.hypot(1, slope / 100)
    exact = surface * 144 / (spacing**2 * share)
    plants = math.ceil(round(exact, 9))
    return Figure(
        "plant_count",
        "plants",
        plants,
        "plants",
        {"area_sqft": area, "spacing_in": spacing, "pattern": pattern, "slope_percent": slope},
        (
            Step(f"ground = {pencil(area)} sq ft on plan, {pencil(surface)} sq ft along the slope"),
            Step(f"each plant takes {pencil(spacing)} in x {pencil(spacing)} in x {pencil(share)} / 144"),
            Step(f"plants = {pencil(exact)}, rounded up to {plants}"),
        ),
        "plants = surface x 144 / (spacing^2 x pattern share)",
        "McShane's Nursery: How to space flowers and ground covers evenly",
        {"exact": exact, "surface_sqft": surface},
    )
