"""Seed: how much to buy for an area or a row, and what share of it lives.

Not here: when to sow (kb/rules) or plants by spacing (planting.py).
"""

from __future__ import annotations

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within

FAMILY = "space"


def live_seed(*, purity_percent: float, germination_percent: float, price_per_lb: float = 0.0) -> Figure:
    """Pure live seed in a bag.

    Args:
        purity_percent: seed of the kind wanted, by weight, 1 to 100 %.
        germination_percent: of it, what sprouts, 1 to 100 %.
        price_per_lb: price of a pound from the bag, 0 to 10,000.

    Returns: percent of live seed; also bulk_lb_per_live_lb, price_per_live_lb.
    Raises: RangeError outside these ranges.
    Formula: live = purity x germination.
    Source: Texas Department of Transportation, Pure live seed; Hydroseeding organisation, Live Seeds.
    """
    purity = within("purity_percent", purity_percent, 1, 100, "%")
    sprouts = within("germination_percent", germination_percent, 1, 100, "%")
    price = within("price_per_lb", price_per_lb, 0, 10_000)
    live = purity * sprouts / 100
    return Figure(
        "live_seed",
        "pure live seed",
        live,
        "percent",
        {"purity_percent": purity, "germination_percent": sprouts, "price_per_lb": price},
        (
            Step(f"live seed = {pencil(purity)} % x {pencil(sprouts)} % = {pencil(live)} %"),
            Step(f"for one pound of it = 1 / {pencil(live / 100)} = {pencil(100 / live)} lb from the bag"),
        ),
        "live = purity x germination",
        "Texas Department of Transportation: Pure live seed",
        {"bulk_lb_per_live_lb": 100 / live, "price_per_live_lb": price * 100 / live},
    )


def seed_for_area(*, area_sqft: float, rate_lb_per_1000sqft: float, live_percent: float = 100.0) -> Figure:
    """Seed for an area from a rate of live seed.

    Args:
        area_sqft: area, 1 to 10,000,000 sq ft.
        rate_lb_per_1000sqft: live seed wanted, 0.01 to 20 lb per 1,000 sq ft.
        live_percent: live seed in the bag, 1 to 100 %.

    Returns: pounds from the bag; also lb_per_1000sqft.
    Raises: RangeError outside these ranges.
    Formula: seed = rate x area / 1000 / live share.
    Source: Texas Department of Transportation, Pure live seed (the correction); the rate is the user's.
    """
    area = within("area_sqft", area_sqft, 1, 10_000_000, "sq ft")
    rate = within("rate_lb_per_1000sqft", rate_lb_per_1000sqft, 0.01, 20, "lb per 1,000 sq ft")
    live = within("live_percent", live_percent, 1, 100, "%")
    seed = rate * area / 1000 / (live / 100)
    return Figure(
        "seed_for_area",
        "seed from the bag",
        seed,
        "lb",
        {"area_sqft": area, "rate_lb_per_1000sqft": rate, "live_percent": live},
        (Step(f"seed = {pencil(rate)} lb x {pencil(area)} / 1,000 / {pencil(live / 100)} = {pencil(seed)} lb"),),
        "seed = rate x area / 1000 / live share",
        "Texas Department of Transportation: Pure live seed",
        {"lb_per_1000sqft": seed / area * 1000},
    )


def row_planting(*, row_ft: float, spacing_in: float, row_spacing_in: float = 36.0, piece_oz: float = 0.0) -> Figure:
    """Plants or seed pieces in rows.

    Args:
        row_ft: length of row in all, 1 to 1,000,000 ft.
        spacing_in: between plants in the row, 0.1 to 240 in.
        row_spacing_in: between rows, 1 to 400 in.
        piece_oz: weight of a seed piece, 0 to 32 oz (0: not weighed).

    Returns: plants; also area_sqft, plants_per_acre, seed_lb, seed_cwt_per_acre.
    Raises: RangeError outside these ranges.
    Formula: plants = row x 12 / spacing; per acre = 43,560 x 144 / (spacing x row spacing).
    Source: Macmillan, Farm and Garden Rule-Book (plants an acre); Potato Grower magazine (2021), seed piece tables.
    """
    row = within("row_ft", row_ft, 1, 1_000_000, "ft")
    spacing = within("spacing_in", spacing_in, 0.1, 240, "in")
    rows = within("row_spacing_in", row_spacing_in, 1, 400, "in")
    piece = within("piece_oz", piece_oz, 0, 32, "oz")
    plants = row * 12 / spacing
    per_acre = 43560 * 144 / (spacing * rows)
    return Figure(
        "row_planting",
        "plants",
        plants,
        "plants",
        {"row_ft": row, "spacing_in": spacing, "row_spacing_in": rows, "piece_oz": piece},
        (
            Step(f"plants = {pencil(row)} ft x 12 / {pencil(spacing)} in = {pencil(plants)}"),
            Step(f"an acre holds 43,560 x 144 / ({pencil(spacing)} x {pencil(rows)}) = {pencil(per_acre)}"),
        ),
        "plants = row x 12 / spacing",
        "Macmillan: Farm and Garden Rule-Book",
        {
            "area_sqft": row * rows / 12,
            "plants_per_acre": per_acre,
            "seed_lb": plants * piece / 16,
            "seed_cwt_per_acre": per_acre * piece / 1600,
        },
    )
