"""Mulch, soil or compost to cover an area to a depth.

Not here: how deep is right (the rules say).
"""

from __future__ import annotations

import math

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within

FAMILY = "space"
DEEPEST_MULCH = 4.0  # inches; common practice


def bulk_volume(*, area_sqft: float, depth_in: float, bag_cuft: float = 2.0) -> Figure:
    """Loose material for an area and depth.

    Args:
        area_sqft: area, 1 to 1,000,000 sq ft.
        depth_in: depth, 0.1 to 36 in.
        bag_cuft: what a bag holds, 0.25 to 60 cu ft.

    Returns: cubic yards; also cubic_feet and whole bags.
    Raises: RangeError outside these ranges.
    Formula: cubic yards = area x depth / 12 / 27.
    Source: Country Garden Center of Bel Air, Mulch Coverage (worked example).
    """
    area = within("area_sqft", area_sqft, 1, 1_000_000, "sq ft")
    depth = within("depth_in", depth_in, 0.1, 36, "in")
    bag = within("bag_cuft", bag_cuft, 0.25, 60, "cu ft")
    feet = area * depth / 12
    yards = feet / 27
    return Figure(
        "bulk_volume",
        "loose material",
        yards,
        "cu yd",
        {"area_sqft": area, "depth_in": depth, "bag_cuft": bag},
        (
            Step(f"{pencil(area)} sq ft x {pencil(depth)} in / 12 = {pencil(feet)} cu ft"),
            Step(f"{pencil(feet)} cu ft / 27 = {pencil(yards)} cu yd"),
        ),
        "cubic yards = area x depth / 12 / 27",
        "Country Garden Center of Bel Air: Mulch Coverage",
        {"cubic_feet": feet, "bags": math.ceil(round(feet / bag, 9))},
        ("As mulch this is too deep: over 4 inches keeps air from roots.",) if depth > DEEPEST_MULCH else (),
    )
