"""Fertilizer for an area from a nutrient rate and the analysis on the bag, and what a bag holds and covers.

Not here: several products (soil_test.py), trees (tree_size.py), lime (lime.py) and sulfur (acidify.py).
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


def nutrients_in_product(
    *,
    product_lb: float,
    n_percent: float,
    p_percent: float = 0.0,
    k_percent: float = 0.0,
    rate_lb_per_1000sqft: float = 1.0,
) -> Figure:
    """Nutrients in an amount of fertilizer, and the area it feeds.

    Args:
        product_lb: fertilizer, 0.1 to 100,000 lb.
        n_percent: nitrogen in the product, 1 to 100 %.
        p_percent: P2O5 in the product, 0 to 100 %.
        k_percent: K2O in the product, 0 to 100 %.
        rate_lb_per_1000sqft: nitrogen rate, 0.05 to 6 lb N per 1,000 sq ft.

    Returns: pounds of nitrogen; also p2o5_lb, k2o_lb, p_lb, k_lb (the elements) and covers_sqft.
    Raises: RangeError outside these ranges, or when the analysis adds up to over 100 %.
    Formula: nutrient = product x % / 100; area = N / rate x 1000; P = 0.4364 P2O5; K = 0.8301 K2O.
    Source: HGTV, How to Fertilize a Tree (20 lb of 10-10-10); the elements by atomic weights.
    """
    product = within("product_lb", product_lb, 0.1, 100_000, "lb")
    n = within("n_percent", n_percent, 1, 100, "%")
    p, k = within("p_percent", p_percent, 0, 100, "%"), within("k_percent", k_percent, 0, 100, "%")
    within("n_percent + p_percent + k_percent", n + p + k, 1, 100, "%")
    rate = within("rate_lb_per_1000sqft", rate_lb_per_1000sqft, 0.05, 6, "lb N per 1,000 sq ft")
    n_lb, p2o5, k2o = product * n / 100, product * p / 100, product * k / 100
    covers = n_lb / rate * 1000
    return Figure(
        "nutrients_in_product",
        "nitrogen in it",
        n_lb,
        "lb",
        {"product_lb": product, "n_percent": n, "p_percent": p, "k_percent": k, "rate_lb_per_1000sqft": rate},
        (
            Step(f"nitrogen = {pencil(product)} lb x {pencil(n)} / 100 = {pencil(n_lb)} lb"),
            Step(f"phosphate = {pencil(p2o5)} lb, potash = {pencil(k2o)} lb"),
            Step(f"area = {pencil(n_lb)} lb / {pencil(rate)} lb x 1,000 = {pencil(covers)} sq ft"),
        ),
        "nutrient = product x % / 100; area = N / rate x 1000",
        "HGTV: How to Fertilize a Tree",
        {"p2o5_lb": p2o5, "k2o_lb": k2o, "p_lb": p2o5 * 0.4364, "k_lb": k2o * 0.8301, "covers_sqft": covers},
        ("Keep fertilizer off paving and away from water.",),
    )
