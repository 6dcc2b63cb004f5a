"""Fertilizer for an area from a nutrient rate and the analysis on the bag.

Not here: trees (tree_size.py), lime and sulfur (lime.py).
"""

from __future__ import annotations

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within

FAMILY = "soil"


def nutrient_product(
    *,
    area_sqft: float,
    rate_lb_per_1000sqft: float,
    n_percent: float,
    p_percent: float = 0.0,
    k_percent: float = 0.0,
) -> Figure:
    """Product to spread for a nitrogen rate.

    Args:
        area_sqft: area, 1 to 10,000,000 sq ft.
        rate_lb_per_1000sqft: nitrogen rate, 0.05 to 6 lb N per 1,000 sq ft.
        n_percent: nitrogen in the product, 1 to 100 % by weight.
        p_percent: P2O5 in the product, 0 to 100 %.
        k_percent: K2O in the product, 0 to 100 %.

    Returns: pounds of product; also n_lb, p2o5_lb, k2o_lb, lb_per_1000sqft.
    Raises: RangeError outside these ranges, or when the analysis adds up to over 100 %.
    Formula: product = rate x area / 1000 / (N % / 100).
    Source: Country Gardener, Fertilizer Calculations (published worked example).
    """
    area = within("area_sqft", area_sqft, 1, 10_000_000, "sq ft")
    rate = within("rate_lb_per_1000sqft", rate_lb_per_1000sqft, 0.05, 6, "lb N per 1,000 sq ft")
    n = within("n_percent", n_percent, 1, 100, "%")
    p, k = within("p_percent", p_percent, 0, 100, "%"), within("k_percent", k_percent, 0, 100, "%")
    within("n_percent + p_percent + k_percent", n + p + k, 1, 100, "%")
    n_lb = rate * area / 1000
    product = n_lb / (n / 100)
    return Figure(
        "nutrient_product",
        "product to spread",
        product,
        "lb",
        {"area_sqft": area, "rate_lb_per_1000sqft": rate, "n_percent": n, "p_percent": p, "k_percent": k},
        (
            Step(f"nitrogen wanted = {pencil(rate)} lb x {pencil(area)} sq ft / 1,000 = {pencil(n_lb)} lb"),
            Step(f"product = {pencil(n_lb)} lb / {pencil(n / 100)} = {pencil(product)} lb"),
        ),
        "product = rate x area / 1000 / (N % / 100)",
        "Country Gardener: Fertilizer Calculations",
        {
            "n_lb": n_lb,
            "p2o5_lb": product * p / 100,
            "k2o_lb": product * k / 100,
            "lb_per_1000sqft": product / area * 1000,
        },
        ("Keep fertilizer off paving and away from water.",),
    )
