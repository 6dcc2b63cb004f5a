"""Products to meet a soil test's N-P2O5-K2O, splits under a limit per application, and liquids by density.

Not here: one nutrient from one bag (fertilizer.py), trees (tree_size.py).
"""

from __future__ import annotations

import math
import re
from itertools import combinations

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within
from kb.errors import RangeError

FAMILY = "soil"

_NUTRIENTS = ("N", "P2O5", "K2O")
_GRADE = re.compile(r"(\d{1,3}(?:\.\d+)?)-(\d{1,3}(?:\.\d+)?)-(\d{1,3}(?:\.\d+)?)")


def products_for_soil_test(
    *,
    area_sqft: float,
    products: str,
    n_lb_per_1000sqft: float = 0.0,
    p2o5_lb_per_1000sqft: float = 0.0,
    k2o_lb_per_1000sqft: float = 0.0,
) -> Figure:
    """Products that together meet a soil-test recommendation with the least nutrient to spare.

    Args:
        area_sqft: area, 1 to 10,000,000 sq ft.
        products: one to four analyses such as "46-0-0 0-46-0 0-0-60".
        n_lb_per_1000sqft: nitrogen recommended, 0 to 10 lb per 1,000 sq ft.
        p2o5_lb_per_1000sqft: phosphate recommended, 0 to 10 lb per 1,000 sq ft.
        k2o_lb_per_1000sqft: potash recommended, 0 to 10 lb per 1,000 sq ft.

    Returns: pounds of all products; also lb_of_<analysis> for each, and n_spare_lb, p2o5_spare_lb, k2o_spare_lb.
    Raises: RangeError outside these ranges, or when the products lack a recommended nutrient.
    Formula: least sum of what is given over what is asked, with no nutrient short; each amount solves
        sum of (product x its % / 100) = nutrient for as many nutrients as products used.
    Source: balance of each nutrient (hand-derived); pounds by analysis as in Northeast Nursery, Fertilizers in the
        Vegetable Garden.
    """
    area = within("area_sqft", area_sqft, 1, 10_000_000, "sq ft")
    rates = (
        within("n_lb_per_1000sqft", n_lb_per_1000sqft, 0, 10, "lb per 1,000 sq ft"),
        within("p2o5_lb_per_1000sqft", p2o5_lb_per_1000sqft, 0, 10, "lb per 1,000 sq ft"),
        within("k2o_lb_per_1000sqft", k2o_lb_per_1000sqft, 0, 10, "lb per 1,000 sq ft"),
    )
    if not any(rates):
        raise RangeError("n_lb_per_1000sqft", "0", "at least one of N, P2O5 and K2O to be met")
    grades = _grades(products)
    want = [rate * area / 1000 for rate in rates]
    amounts = _least_spare(grades, want)
    if amounts is None:
        raise RangeError("products", products, "products that between them hold every nutrient recommended")
    given = [sum(a * grade[i] / 100 for a, grade in zip(amounts, grades, strict=True)) for i in range(3)]
    names = ["-".join(f"{part:g}" for part in grade) for grade in grades]
    used = [(name, a, grade) for name, a, grade in zip(names, amounts, grades, strict=True) if a > 0]
    spare = [max(0.0, g - w) for g, w in zip(given, want, strict=True)]
    steps = [
        Step(f"{label} wanted = {pencil(rate)} lb x {pencil(area)} sq ft / 1,000 = {pencil(w)} lb")
        for label, rate, w in zip(_NUTRIENTS, rates, want, strict=True)
    ]
    steps += [
        Step(
            f"{name}: {pencil(a)} lb gives "
            + ", ".join(f"{pencil(a * part / 100)} lb {label}" for part, label in zip(grade, _NUTRIENTS, strict=True))
        )
        for name, a, grade in used
    ]
    steps.append(
        Step("to spare: " + ", ".join(f"{pencil(s)} lb {label}" for s, label in zip(spare, _NUTRIENTS, strict=True)))
    )
    cautions = ["Keep fertilizer off paving and away from water."]
    if spare[1] > 0.05 * area / 1000:
        cautions.append("These products give more phosphate than asked; look for one with less.")
    also: dict[str, float | str] = {f"lb_of_{name}": a for name, a in zip(names, amounts, strict=True)}
    also |= {"n_spare_lb": spare[0], "p2o5_spare_lb": spare[1], "k2o_spare_lb": spare[2]}
    return Figure(
        "products_for_soil_test",
        "products to spread in all",
        sum(amounts),
        "lb",
        {"area_sqft": area, "products": products, "n_lb_per_1000sqft": rates[0]}
        | {"p2o5_lb_per_1000sqft": rates[1], "k2o_lb_per_1000sqft": rates[2]},
        tuple(steps),
        "sum of product x % / 100 = nutrient, for the set with the least to spare",
        "balance of each nutrient; pounds by analysis as in Northeast Nursery: Fertilizers in the Vegetable Garden",
        also,
        tuple(cautions),
    )


def _grades(products: str) -> list[tuple[float, float, float]]:
    found = re.split(r"[\s,;+]+", products.strip())
    grades: list[tuple[float, float, float]] = []
    for text in found:
        match = _GRADE.fullmatch(text)
        if match is None:
            raise RangeError("products", repr(text), 'analyses such as "46-0-0 0-46-0 0-0-60"')
        n, p, k = (float(part) for part in match.groups())
        within("products", n + p + k, 1, 115, "% in all")  # phosphoric products counted as oxides can pass 100
        if (n, p, k) not in grades:
            grades.append((n, p, k))
    if not 1 <= len(grades) <= 4:
        raise RangeError("products", len(grades), "one to four analyses")
    return grades


def _least_spare(grades: list[tuple[float, float, float]], want: list[float]) -> list[float] | None:
    """Amounts of each product, none negative, no nutrient short, least nutrient over; None if none will do.

    The best set is a corner: as many nutrients met exactly as products used.
    """
    best: tuple[float, list[float]] | None = None
    for size in (1, 2, 3):
        for chosen in combinations(range(len(grades)), size):
            for exact in combinations(range(3), size):
                matrix = [[grades[c][i] / 100 for c in chosen] for i in exact]
                solved = _solve(matrix, [want[i] for i in exact])
                if solved is None or min(solved) < -1e-9:
                    continue
                amounts = [0.0] * len(grades)
                for c, value in zip(chosen, solved, strict=True):
                    amounts[c] = max(0.0, value)
                over = [sum(a * g[i] / 100 for a, g in zip(amounts, grades, strict=True)) - want[i] for i in range(3)]
                if min(over) < -1e-6 * max(1.0, *want):
                    continue
                score = sum(over)
                if best is None or score < best[0] - 1e-9:
                    best = (score, amounts)
    return best[1] if best else None


def _solve(matrix: list[list[float]], right: list[float]) -> list[float] | None:
    """Gauss elimination of a small square system; None when it has no single answer."""
    rows = [[*row, r] for row, r in zip(matrix, right, strict=True)]
    size = len(rows)
    for i in range(size):
        pivot = max(range(i, size), key=lambda r: abs(rows[r][i]))
        if abs(rows[pivot][i]) < 1e-9:
            return None
        rows[i], rows[pivot] = rows[pivot], rows[i]
        for r in range(size):
            if r != i:
                factor = rows[r][i] / rows[i][i]
                rows[r] = [x - factor * y for x, y in zip(rows[r], rows[i], strict=True)]
    return [rows[i][size] / rows[i][i] for i in range(size)]


def split_applications(
    *,
    area_sqft: float,
    season_lb_n_per_1000sqft: float,
    n_percent: float,
    limit_lb_n_per_1000sqft: float = 1.0,
) -> Figure:
    """Equal applications of a season's nitrogen, each within a limit.

    Args:
        area_sqft: area, 1 to 10,000,000 sq ft.
        season_lb_n_per_1000sqft: nitrogen for the season, 0.05 to 10 lb per 1,000 sq ft.
        n_percent: nitrogen in the product, 1 to 100 %.
        limit_lb_n_per_1000sqft: most nitrogen at one time, 0.1 to 3 lb per 1,000 sq ft (1 is common practice for
            quick-release nitrogen on turf; local law may set less).

    Returns: number of applications; also lb_n_per_1000sqft_each, lb_product_each, lb_product.
    Raises: RangeError outside these ranges.
    Formula: applications = season / limit, rounded up; each = season / applications.
    Source: arithmetic; the limit is common practice.
    """
    area = within("area_sqft", area_sqft, 1, 10_000_000, "sq ft")
    season = within("season_lb_n_per_1000sqft", season_lb_n_per_1000sqft, 0.05, 10, "lb per 1,000 sq ft")
    n = within("n_percent", n_percent, 1, 100, "%")
    limit = within("limit_lb_n_per_1000sqft", limit_lb_n_per_1000sqft, 0.1, 3, "lb per 1,000 sq ft")
    count = math.ceil(round(season / limit, 9))
    each = season / count
    product = each * area / 1000 / (n / 100)
    return Figure(
        "split_applications",
        "applications",
        count,
        "applications",
        {"area_sqft": area, "season_lb_n_per_1000sqft": season, "n_percent": n, "limit_lb_n_per_1000sqft": limit},
        (
            Step(f"{pencil(season)} lb / {pencil(limit)} lb = {pencil(season / limit)}, so {count}"),
            Step(f"each = {pencil(season)} lb / {count} = {pencil(each)} lb N per 1,000 sq ft"),
            Step(
                f"product each time = {pencil(each)} lb x {pencil(area)} sq ft / 1,000 / {pencil(n / 100)}"
                f" = {pencil(product)} lb"
            ),
        ),
        "applications = season / limit, rounded up",
        "arithmetic; limit by common practice",
        {"lb_n_per_1000sqft_each": each, "lb_product_each": product, "lb_product": product * count},
        ("Keep fertilizer off paving and away from water.", "Local law may set a lower limit or closed months."),
    )


def liquid_fertilizer(
    *,
    area_sqft: float,
    floz_per_1000sqft: float,
    density_lb_per_gal: float,
    n_percent: float,
    p_percent: float = 0.0,
    k_percent: float = 0.0,
) -> Figure:
    """Nutrients a liquid fertilizer delivers, by its density.

    Args:
        area_sqft: area, 1 to 10,000,000 sq ft.
        floz_per_1000sqft: product applied, 0.1 to 1,000 fl oz per 1,000 sq ft.
        density_lb_per_gal: density on the label, 7 to 16 lb per gallon.
        n_percent: nitrogen by weight, 0.1 to 60 %.
        p_percent: P2O5 by weight, 0 to 80 %.
        k_percent: K2O by weight, 0 to 60 %.

    Returns: pounds of nitrogen per 1,000 sq ft; also product_lb_per_1000sqft, p2o5_lb_per_1000sqft,
        k2o_lb_per_1000sqft, product_gal, floz_per_lb_n.
    Raises: RangeError outside these ranges.
    Formula: product lb = fl oz / 128 x density; nutrient = product lb x % / 100.
    Source: Asian Turfgrass Center, Calculating how much of an element is applied in a liquid fertilizer (2015).
    """
    area = within("area_sqft", area_sqft, 1, 10_000_000, "sq ft")
    ounces = within("floz_per_1000sqft", floz_per_1000sqft, 0.1, 1000, "fl oz per 1,000 sq ft")
    density = within("density_lb_per_gal", density_lb_per_gal, 7, 16, "lb per gallon")
    n = within("n_percent", n_percent, 0.1, 60, "%")
    p, k = within("p_percent", p_percent, 0, 80, "%"), within("k_percent", k_percent, 0, 60, "%")
    product = ounces / 128 * density
    n_lb = product * n / 100
    gallons = ounces / 128 * area / 1000
    return Figure(
        "liquid_fertilizer",
        "nitrogen delivered",
        n_lb,
        "lb per 1,000 sq ft",
        {"area_sqft": area, "floz_per_1000sqft": ounces, "density_lb_per_gal": density, "n_percent": n}
        | {"p_percent": p, "k_percent": k},
        (
            Step(f"product = {pencil(ounces)} fl oz / 128 x {pencil(density)} lb = {pencil(product)} lb"),
            Step(f"nitrogen = {pencil(product)} lb x {pencil(n)} / 100 = {pencil(n_lb)} lb per 1,000 sq ft"),
            Step(f"for {pencil(area)} sq ft: {pencil(gallons)} gal of product"),
        ),
        "nutrient = fl oz / 128 x density x % / 100",
        "Asian Turfgrass Center: Calculating how much of an element is applied in a liquid fertilizer (2015)",
        {
            "product_lb_per_1000sqft": product,
            "p2o5_lb_per_1000sqft": product * p / 100,
            "k2o_lb_per_1000sqft": product * k / 100,
            "product_gal": gallons,
            "floz_per_lb_n": 128 / (density * n / 100),
        },
        ("Dilute as the label says; strong liquids burn leaves.",),
    )
