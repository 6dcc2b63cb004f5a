"""A tree's root zone and the fertilizer for it, on the surface or in drilled holes.

Not here: watering (watering.py) or lawns (fertilizer.py).
"""

from __future__ import annotations

import math

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within
from kb.errors import RangeError

FAMILY = "soil"


def tree_root_zone(
    *,
    crown_spread_ft: float | None = None,
    trunk_diameter_in: float | None = None,
    radius_multiple: float = 1.0,
    paved_sqft: float = 0.0,
) -> Figure:
    """Root-zone area of a tree, from the crown if known, else from the trunk at 1 ft of radius an inch.

    Args:
        crown_spread_ft: crown from branch tip to branch tip, 1 to 150 ft.
        trunk_diameter_in: trunk at 4.5 ft, 0.5 to 120 in; used when the crown is not given.
        radius_multiple: root radius as a multiple of the crown's radius, 0.5 to 3.
        paved_sqft: paving and buildings within the zone, 0 sq ft to less than the zone.

    Returns: sq ft; also radius_ft, gross_sqft.
    Raises: RangeError outside these ranges, or with neither measurement.
    Formula: area = 3.1416 x radius^2 - paving.
    Source: University of Kentucky, Fertilization (root area from the crown); Vancouver (Washington) Municipal Code
        20.170.100 (1 ft of radius an inch of trunk).
    """
    multiple = within("radius_multiple", radius_multiple, 0.5, 3)
    if trunk_diameter_in is not None:
        trunk_diameter_in = within("trunk_diameter_in", trunk_diameter_in, 0.5, 120, "in")
    if crown_spread_ft is not None:
        spread = within("crown_spread_ft", crown_spread_ft, 1, 150, "ft")
        radius = spread / 2 * multiple
        how = f"radius = {pencil(spread)} ft / 2 x {pencil(multiple)} = {pencil(radius)} ft"
    elif trunk_diameter_in is not None:
        radius = trunk_diameter_in * multiple
        how = f"radius = {pencil(trunk_diameter_in)} in x 1 ft per inch x {pencil(multiple)} = {pencil(radius)} ft"
    else:
        raise RangeError("crown_spread_ft", "nothing", "the crown spread or the trunk diameter")
    gross = math.pi * radius**2
    paved = within("paved_sqft", paved_sqft, 0, gross * 0.999, "sq ft")
    inputs = {"crown_spread_ft": crown_spread_ft, "trunk_diameter_in": trunk_diameter_in}
    return Figure(
        "tree_root_zone",
        "root zone",
        gross - paved,
        "sq ft",
        {k: v for k, v in inputs.items() if v is not None} | {"radius_multiple": multiple, "paved_sqft": paved},
        (
            Step(how),
            Step(
                f"area = 3.1416 x {pencil(radius)} ft x {pencil(radius)} ft - {pencil(paved)} sq ft paved"
                f" = {pencil(gross - paved)} sq ft"
            ),
        ),
        "area = 3.1416 x radius^2 - paving",
        "University of Kentucky: Fertilization; Vancouver (Washington) Municipal Code 20.170.100",
        {"radius_ft": radius, "gross_sqft": gross},
    )


def tree_fertilizer(
    *,
    root_zone_sqft: float,
    rate_lb_n_per_1000sqft: float,
    n_percent: float,
    hole_spacing_ft: float = 2.0,
) -> Figure:
    """Fertilizer for a root zone, with the holes if it is put in by drill.

    Args:
        root_zone_sqft: area to feed, 1 to 100,000 sq ft.
        rate_lb_n_per_1000sqft: nitrogen, 0.1 to 6 lb per 1,000 sq ft (6 is the historic upper limit).
        n_percent: nitrogen in the product, 1 to 100 %.
        hole_spacing_ft: distance between holes, 1 to 4 ft.

    Returns: pounds of product; also n_lb, holes, lb_per_hole, oz_per_hole.
    Raises: RangeError outside these ranges.
    Formula: product = rate x area / 1000 / (N % / 100); holes = area / spacing^2.
    Source: The Washington Post, Defeating Deficiencies (University of Illinois shade tree trials, 1977) for the
        product; hole grid by geometry.
    """
    area = within("root_zone_sqft", root_zone_sqft, 1, 100_000, "sq ft")
    rate = within("rate_lb_n_per_1000sqft", rate_lb_n_per_1000sqft, 0.1, 6, "lb N per 1,000 sq ft")
    n = within("n_percent", n_percent, 1, 100, "%")
    spacing = within("hole_spacing_ft", hole_spacing_ft, 1, 4, "ft")
    n_lb = rate * area / 1000
    product = n_lb / (n / 100)
    holes = max(1, round(area / spacing**2))
    return Figure(
        "tree_fertilizer",
        "fertilizer for the root zone",
        product,
        "lb",
        {"root_zone_sqft": area, "rate_lb_n_per_1000sqft": rate, "n_percent": n, "hole_spacing_ft": spacing},
        (
            Step(f"nitrogen = {pencil(rate)} lb x {pencil(area)} sq ft / 1,000 = {pencil(n_lb)} lb"),
            Step(f"product = {pencil(n_lb)} lb / {pencil(n / 100)} = {pencil(product)} lb"),
            Step(f"holes = {pencil(area)} sq ft / ({pencil(spacing)} ft x {pencil(spacing)} ft) = {holes}"),
            Step(f"a hole = {pencil(product)} lb / {holes} = {pencil(product / holes * 16)} oz"),
        ),
        "product = rate x area / 1000 / (N % / 100); holes = area / spacing^2",
        "The Washington Post: Defeating Deficiencies (University of Illinois shade tree trials, 1977)",
        {"n_lb": n_lb, "holes": holes, "lb_per_hole": product / holes, "oz_per_hole": product / holes * 16},
        ("Have buried lines marked before you drill.", "Keep fertilizer off paving and away from water."),
    )
