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


def cover_comparison(
    *,
    area_sqft: float,
    cover_spacing_in: float,
    shrub_spacing_in: float,
    cover_price: float,
    shrub_price: float,
    cover_gal_per_week: float = 0.25,
    shrub_gal_per_week: float = 2.0,
    slope_percent: float = 0.0,
) -> Figure:
    """Low covers and shrubs compared for the same ground: plants, cost and water.

    Args:
        area_sqft: area on plan, 0.5 to 1,000,000 sq ft.
        cover_spacing_in, shrub_spacing_in: distance between plants, 1 to 600 in.
        cover_price, shrub_price: price of one plant, 0 to 10,000.
        cover_gal_per_week, shrub_gal_per_week: water a plant while it takes hold, 0 to 50 gal a week.
        slope_percent: rise over run, 0 to 200 %.

    Returns: what covers cost more than shrubs (less, when negative); also covers, shrubs, cover_cost, shrub_cost,
        cover_water_gal, shrub_water_gal (a week).
    Raises: RangeError outside these ranges.
    Formula: plants by plant_count on triangles; cost and water by the plant.
    Source: McShane's Nursery, How to space flowers and ground covers evenly (counts); prices and water are the user's.
    """
    prices = [within(n, p, 0, 10_000) for n, p in (("cover_price", cover_price), ("shrub_price", shrub_price))]
    water = [
        within(n, w, 0, 50, "gal")
        for n, w in (("cover_gal_per_week", cover_gal_per_week), ("shrub_gal_per_week", shrub_gal_per_week))
    ]
    for name, spacing in (("cover_spacing_in", cover_spacing_in), ("shrub_spacing_in", shrub_spacing_in)):
        within(name, spacing, 1, 600, "in")
    counts = [
        int(plant_count(area_sqft=area_sqft, spacing_in=s, pattern="triangular", slope_percent=slope_percent).value)
        for s in (cover_spacing_in, shrub_spacing_in)
    ]
    costs = [count * price for count, price in zip(counts, prices, strict=True)]
    return Figure(
        "cover_comparison",
        "covers cost more by",
        costs[0] - costs[1],
        "",
        {
            "area_sqft": area_sqft,
            "cover_spacing_in": cover_spacing_in,
            "shrub_spacing_in": shrub_spacing_in,
            "cover_price": prices[0],
            "shrub_price": prices[1],
            "cover_gal_per_week": water[0],
            "shrub_gal_per_week": water[1],
            "slope_percent": slope_percent,
        },
        (
            Step(f"covers: {counts[0]} x {pencil(prices[0])} = {pencil(costs[0])}"),
            Step(f"shrubs: {counts[1]} x {pencil(prices[1])} = {pencil(costs[1])}"),
        ),
        "plants x price; plants x water",
        "McShane's Nursery: How to space flowers and ground covers evenly (counts)",
        {
            "covers": counts[0],
            "shrubs": counts[1],
            "cover_cost": costs[0],
            "shrub_cost": costs[1],
            "cover_water_gal": counts[0] * water[0],
            "shrub_water_gal": counts[1] * water[1],
        },
    )
