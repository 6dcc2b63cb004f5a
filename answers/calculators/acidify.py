"""Sulfur, or one of the sulfates in its place, to lower soil pH.

Not here: raising pH (lime.py); the tables' numbers and sources (kb/tables/soil.yaml).
"""

from __future__ import annotations

import math

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.lime import TEXTURES
from answers.calculators.ranges import one_of, within
from answers.calculators.soil_tables import soil_table
from kb.errors import RangeError

FAMILY = "soil"


def sulfur_requirement(
    *,
    area_sqft: float,
    soil_ph: float,
    target_ph: float = 5.0,
    texture: str = "loam",
    free_lime: bool = False,
    depth_in: float = 6.0,
    most_lb_per_100sqft: float = 2.0,
) -> Figure:
    """Elemental sulfur to lower soil pH.

    Args:
        area_sqft: area, 1 to 1,000,000 sq ft.
        soil_ph: tested pH, 4.5 to 7.5; above that the soil is likely calcareous and sulfur is refused.
        target_ph: pH wanted, 4.0 to less than soil_ph.
        texture: sandy loam, loam or clay loam.
        free_lime: True when the soil fizzes with vinegar; refused.
        depth_in: depth to treat, 1 to 12 in; the table is for 6 in (common practice).
        most_lb_per_100sqft: most to give at one time, 0.2 to 3 lb per 100 sq ft (2 is common practice).

    Returns: pounds of sulfur; also lb_per_100sqft, applications.
    Raises: RangeError outside these ranges and on calcareous soil.
    Formula: table value per pH unit x units x depth / 6 x area / 100.
    Source: kb/tables/soil.yaml (eXtension Blueberries).
    """
    area = within("area_sqft", area_sqft, 1, 1_000_000, "sq ft")
    one_of("texture", texture, TEXTURES)
    if free_lime:
        raise RangeError("free_lime", "true", "a soil without free lime; sulfur cannot outlast the lime in this one")
    ph = within("soil_ph", soil_ph, 4.5, 7.5)
    target = within("target_ph", target_ph, 4.0, 7.0)
    depth = within("depth_in", depth_in, 1, 12, "in")
    most = within("most_lb_per_100sqft", most_lb_per_100sqft, 0.2, 3, "lb per 100 sq ft")
    if target >= ph:
        raise RangeError("soil_ph", f"{ph:g}", f"more than the target pH of {target:g}; no sulfur is needed")
    table = soil_table("sulfur")
    per_100 = table[texture] * (ph - target) * depth / 6
    total = per_100 * area / 100
    applications = max(1, math.ceil(round(per_100 / most, 9)))
    return Figure(
        "sulfur_requirement",
        "elemental sulfur",
        total,
        "lb",
        {"area_sqft": area, "soil_ph": ph, "target_ph": target, "texture": texture, "free_lime": free_lime}
        | {"depth_in": depth, "most_lb_per_100sqft": most},
        (
            Step(
                f"rate for {texture} = {pencil(table[texture])} lb a pH unit x {pencil(ph - target)} units"
                f" x {pencil(depth)} in / 6 in = {pencil(per_100)} lb per 100 sq ft"
            ),
            Step(f"in all = {pencil(per_100)} lb x {pencil(area)} sq ft / 100 = {pencil(total)} lb"),
            Step(f"applications of at most {pencil(most)} lb per 100 sq ft = {applications}"),
        ),
        "sulfur = rate per pH unit x units x depth / 6 x area / 100",
        table["source"],
        {"lb_per_100sqft": per_100, "applications": applications},
        ("Sulfur works over months; test again before adding more.",),
    )


def sulfate_for_sulfur(*, sulfur_lb: float, material: str, area_sqft: float = 100.0) -> Figure:
    """A sulfate doing the work of an amount of elemental sulfur.

    Args:
        sulfur_lb: elemental sulfur it replaces, 0.01 to 100,000 lb.
        material: aluminum sulfate or ferrous sulfate.
        area_sqft: area it goes on, 1 to 1,000,000 sq ft.

    Returns: pounds of the sulfate; also lb_per_100sqft, factor.
    Raises: RangeError outside these ranges or for another material.
    Formula: sulfate = sulfur x factor (6.9 for aluminum sulfate, 8 for ferrous sulfate).
    Source: kb/tables/soil.yaml (Royal Horticultural Society; Veryfocus; chemistry).
    """
    table = soil_table("sulfates")
    sulfur = within("sulfur_lb", sulfur_lb, 0.01, 100_000, "lb")
    area = within("area_sqft", area_sqft, 1, 1_000_000, "sq ft")
    row = table[one_of("material", material, tuple(table))]
    total = sulfur * row["factor"]
    return Figure(
        "sulfate_for_sulfur",
        material,
        total,
        "lb",
        {"sulfur_lb": sulfur, "material": material, "area_sqft": area},
        (
            Step(f"{pencil(sulfur)} lb sulfur x {row['factor']} = {pencil(total)} lb {material}"),
            Step(f"= {pencil(total / area * 100)} lb per 100 sq ft"),
        ),
        "sulfate = sulfur x factor",
        row["source"],
        {"lb_per_100sqft": total / area * 100, "factor": row["factor"]},
        (
            "Sulfates act at once and are salts: give them in portions, water in, and test again.",
            "Much aluminum sulfate can poison plants; sulfur is the safer choice for most beds.",
        ),
    )
