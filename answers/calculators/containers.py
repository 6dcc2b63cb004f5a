"""Pots and raised beds: what they hold, and mixes made up by volume.

Not here: mulch and soil by the yard over ground (mulch.py).
"""

from __future__ import annotations

import math

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within

FAMILY = "space"
LB_PER_CUYD_IN_KG_PER_M3 = 0.45359237 / 0.764554857984


def pot_volume(*, diameter_in: float, height_in: float, pots: float = 1.0, bottom_diameter_in: float = 0.0) -> Figure:
    """Soil that round pots hold.

    Args:
        diameter_in: across the top, 1 to 120 in.
        height_in: depth of soil, 1 to 120 in.
        pots: how many, 1 to 100,000.
        bottom_diameter_in: across the bottom, 0 (same as the top) to 120 in, not more than the top.

    Returns: cubic feet in all; also gallons, pots_per_cuyd.
    Raises: RangeError outside these ranges.
    Formula: frustum = pi h (D^2 + D d + d^2) / 12; a cylinder when top and bottom are equal.
    Source: Fabric pot volume table, reprinted (cylinders); geometry.
    """
    top = within("diameter_in", diameter_in, 1, 120, "in")
    height = within("height_in", height_in, 1, 120, "in")
    count = within("pots", pots, 1, 100_000)
    bottom = within("bottom_diameter_in", bottom_diameter_in, 0, top, "in") or top
    one = math.pi * height * (top * top + top * bottom + bottom * bottom) / 12 / 1728
    return Figure(
        "pot_volume",
        "soil",
        one * count,
        "cu ft",
        {"diameter_in": top, "height_in": height, "pots": count, "bottom_diameter_in": bottom},
        (
            Step(
                f"one pot = 3.1416 x {pencil(height)} x ({pencil(top)}^2 + {pencil(top)} x {pencil(bottom)}"
                f" + {pencil(bottom)}^2) / 12 / 1,728 = {pencil(one)} cu ft"
            ),
            Step(f"{pencil(count)} pots = {pencil(one * count)} cu ft"),
        ),
        "pi h (D^2 + D d + d^2) / 12",
        "Fabric pot volume table, reprinted",
        {"gallons": one * count * 1728 / 231, "pots_per_cuyd": 27 / one},
    )


def raised_bed(*, length_ft: float, width_ft: float, depth_in: float, bag_cuft: float = 1.5) -> Figure:
    """Soil to fill a raised bed.

    Args:
        length_ft, width_ft: inside of the bed, 0.5 to 500 ft.
        depth_in: depth of soil, 1 to 48 in.
        bag_cuft: what a bag holds, 0.25 to 60 cu ft.

    Returns: cubic feet; also cubic_yards and whole bags.
    Raises: RangeError outside these ranges.
    Formula: length x width x depth / 12.
    Source: geometry; Country Garden Center of Bel Air, Mulch Coverage (cubic feet to yards).
    """
    length = within("length_ft", length_ft, 0.5, 500, "ft")
    width = within("width_ft", width_ft, 0.5, 500, "ft")
    depth = within("depth_in", depth_in, 1, 48, "in")
    bag = within("bag_cuft", bag_cuft, 0.25, 60, "cu ft")
    feet = length * width * depth / 12
    return Figure(
        "raised_bed",
        "soil",
        feet,
        "cu ft",
        {"length_ft": length, "width_ft": width, "depth_in": depth, "bag_cuft": bag},
        (Step(f"{pencil(length)} ft x {pencil(width)} ft x {pencil(depth)} in / 12 = {pencil(feet)} cu ft"),),
        "length x width x depth / 12",
        "Country Garden Center of Bel Air: Mulch Coverage",
        {"cubic_yards": feet / 27, "bags": math.ceil(round(feet / bag, 9))},
    )
