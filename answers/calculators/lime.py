"""Lime to raise soil pH and sulfur to lower it, from the tables in kb/tables/soil.yaml.

Not here: the tables' numbers and sources (kb/tables/soil.yaml).
"""

from __future__ import annotations

from functools import cache
from typing import Any

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import one_of, within
from kb.errors import RangeError

FAMILY = "soil"

TEXTURES = ("sandy loam", "loam", "clay loam")
_MOST_ON_TURF = 50.0  # lb per 1,000 sq ft at one time on established turf; common practice


@cache
def _table(name: str) -> Any:
    from importlib.resources import files

    from kb.yaml_lines import read_yaml

    return read_yaml((files("kb") / "tables" / "soil.yaml").read_text("utf-8"), "soil.yaml", [])[name]


def _between(x: float, xs: list[float], ys: list[float]) -> float:
    """Straight-line interpolation in an ascending table; x is within it."""
    for i in range(len(xs) - 1):
        if xs[i] <= x <= xs[i + 1]:
            return ys[i] + (ys[i + 1] - ys[i]) * (x - xs[i]) / (xs[i + 1] - xs[i])
    raise AssertionError(f"{x} was let past its range check")


def lime_requirement(
    *,
    area_sqft: float,
    soil_ph: float,
    target_ph: float = 6.5,
    texture: str = "loam",
    buffer_ph: float | None = None,
    cce_percent: float = 100.0,
    established_turf: bool = False,
) -> Figure:
    """Ground limestone to raise soil pH, by Sikora buffer pH if tested, else by texture.

    Args:
        area_sqft: area, 1 to 10,000,000 sq ft.
        soil_ph: tested pH, 4.5 to 6.5 by texture (to the target by buffer).
        target_ph: pH wanted, above soil_ph and to 6.5 by texture; 5.6 to 7.2 by buffer.
        texture: sandy loam, loam or clay loam.
        buffer_ph: Sikora buffer pH, 6.0 to 6.5.
        cce_percent: calcium carbonate equivalent of the product, 40 to 180 %.
        established_turf: True to split into what turf bears at one time.

    Returns: pounds of limestone; also lb_per_1000sqft, applications.
    Raises: RangeError outside these ranges; when no lime is needed.
    Formula: table value x area x 100 / CCE.
    Source: kb/tables/soil.yaml (Agroconection; Oregon State University Extension EM 9585); CCE by Penn State
        Agricultural Analytical Services Laboratory.
    """
    area = within("area_sqft", area_sqft, 1, 10_000_000, "sq ft")
    ph = within("soil_ph", soil_ph, 4.5 if buffer_ph is None else 3.5, 7.0)
    cce = within("cce_percent", cce_percent, 40, 180, "%")
    one_of("texture", texture, TEXTURES)
    target = within("target_ph", target_ph, 5.0, 6.5 if buffer_ph is None else 7.2)
    if ph >= target:
        raise RangeError("soil_ph", f"{ph:g}", f"less than the target pH of {target:g}; no lime is needed")
    if buffer_ph is None:
        table = _table("lime_texture")
        need = [_between(x, table["soil_ph"], table[texture]) for x in (ph, target)]
        per_1000 = (need[0] - need[1]) * 10
        how = f"table for {texture}: from pH {pencil(ph)} to {pencil(target)} = {pencil(per_1000)} lb per 1,000 sq ft"
    else:
        table = _table("lime_buffer")
        buffer = within("buffer_ph", buffer_ph, table["buffer_ph"][0], table["buffer_ph"][-1])
        within("target_ph", target, table["target_ph"][0], table["target_ph"][-1])
        rows = [_between(target, table["target_ph"], row) for row in table["tons"]]
        tons = _between(buffer, table["buffer_ph"], rows)
        per_1000 = tons * 2000 / 43.56
        how = (
            f"buffer pH {pencil(buffer)} to pH {pencil(target)}: {pencil(tons)} tons an acre"
            f" = {pencil(per_1000)} lb per 1,000 sq ft"
        )
    per_1000 *= 100 / cce
    total = per_1000 * area / 1000
    applications = max(1, -int(-per_1000 // _MOST_ON_TURF)) if established_turf else 1
    return Figure(
        "lime_requirement",
        "ground limestone",
        total,
        "lb",
        {"area_sqft": area, "soil_ph": ph, "target_ph": target, "texture": texture, "buffer_ph": buffer_ph}
        | {"cce_percent": cce, "established_turf": established_turf},
        (
            Step(how),
            Step(f"for {pencil(cce)} % neutralizing value: {pencil(per_1000)} lb per 1,000 sq ft"),
            Step(f"in all = {pencil(per_1000)} lb x {pencil(area)} sq ft / 1,000 = {pencil(total)} lb"),
            Step(f"applications = {applications}, some months apart"),
        ),
        "lime = table value x area x 100 / CCE",
        table["source"],
        {"lb_per_1000sqft": per_1000, "applications": applications},
        ("Published lime tables differ by 20 to 50 percent; your laboratory's recommendation comes first.",),
    )


def sulfur_requirement(
    *,
    area_sqft: float,
    soil_ph: float,
    target_ph: float = 5.0,
    texture: str = "loam",
    free_lime: bool = False,
) -> Figure:
    """Elemental sulfur to lower soil pH.

    Args:
        area_sqft: area, 1 to 1,000,000 sq ft.
        soil_ph: tested pH, 4.5 to 7.5; above that the soil is likely calcareous and sulfur is refused.
        target_ph: pH wanted, 4.0 to less than soil_ph.
        texture: sandy loam, loam or clay loam.
        free_lime: True when the soil fizzes with vinegar; refused.

    Returns: pounds of sulfur; also lb_per_100sqft.
    Raises: RangeError outside these ranges and on calcareous soil.
    Formula: table value per pH unit x units x area / 100.
    Source: kb/tables/soil.yaml (eXtension Blueberries).
    """
    area = within("area_sqft", area_sqft, 1, 1_000_000, "sq ft")
    one_of("texture", texture, TEXTURES)
    if free_lime:
        raise RangeError("free_lime", "true", "a soil without free lime; sulfur cannot outlast the lime in this one")
    ph = within("soil_ph", soil_ph, 4.5, 7.5)
    target = within("target_ph", target_ph, 4.0, 7.0)
    if target >= ph:
        raise RangeError("soil_ph", f"{ph:g}", f"more than the target pH of {target:g}; no sulfur is needed")
    table = _table("sulfur")
    per_100 = table[texture] * (ph - target)
    total = per_100 * area / 100
    return Figure(
        "sulfur_requirement",
        "elemental sulfur",
        total,
        "lb",
        {"area_sqft": area, "soil_ph": ph, "target_ph": target, "texture": texture},
        (
            Step(
                f"rate for {texture} = {pencil(table[texture])} lb a pH unit x {pencil(ph - target)} units"
                f" = {pencil(per_100)} lb per 100 sq ft"
            ),
            Step(f"in all = {pencil(per_100)} lb x {pencil(area)} sq ft / 100 = {pencil(total)} lb"),
        ),
        "sulfur = rate per pH unit x units x area / 100",
        table["source"],
        {"lb_per_100sqft": per_100},
        ("Sulfur works over months; test again before adding more.",),
    )
