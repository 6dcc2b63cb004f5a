"""Soil texture class from the USDA triangle, and the water a soil holds for roots.

Not here: how much to irrigate and how often (watering.py and its neighbours).
"""

from __future__ import annotations

import re

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within
from answers.calculators.soil_tables import soil_table
from kb.errors import RangeError

FAMILY = "soil"

_LAYER = re.compile(r"(\d+(?:\.\d+)?)\s*(?:in|inches|inch)?\s*(?:at|of)?\s+([a-z ]+?|\d+(?:\.\d+)?)\s*(?:in/ft)?")


def texture_class(*, sand_percent: float, clay_percent: float, silt_percent: float | None = None) -> Figure:
    """Texture class of a soil by the USDA triangle.

    Args:
        sand_percent: sand (0.05 to 2 mm), 0 to 100 %.
        clay_percent: clay (under 0.002 mm), 0 to 100 %.
        silt_percent: silt, 0 to 100 %; the rest when not given. The three add up to 100, give or take 1.

    Returns: the class in words; also silt_percent, and available_in_per_ft_low and _high for it.
    Raises: RangeError outside these ranges or when the three do not add up.
    Formula: the class limits of the triangle, tested from the coarsest.
    Source: USDA Soil Survey Manual (Agriculture Handbook 18), texture class limits; Benham, Ahrens and Nettleton,
        Clarification of Soil Texture Class Boundaries (NRCS, 2009).
    """
    sand = within("sand_percent", sand_percent, 0, 100, "%")
    clay = within("clay_percent", clay_percent, 0, 100, "%")
    rest = 100 - sand - clay
    silt = rest if silt_percent is None else within("silt_percent", silt_percent, 0, 100, "%")
    if rest < -1 or abs(silt - rest) > 1:
        raise RangeError("sand_percent + silt_percent + clay_percent", f"{sand + clay + silt:g} %", "100 % in all")
    name, why = _class(sand, max(0.0, silt), clay)
    low, high = soil_table("available_water")[name]
    return Figure(
        "texture_class",
        "texture class",
        name,
        "class",
        {"sand_percent": sand, "silt_percent": silt, "clay_percent": clay},
        (
            Step(f"sand {pencil(sand)} %, silt {pencil(silt)} %, clay {pencil(clay)} %"),
            Step(f"{name}: {why}"),
            Step(f"such a soil holds about {low} to {high} in of available water per foot"),
        ),
        "USDA texture triangle",
        "USDA Soil Survey Manual (Agriculture Handbook 18), texture class limits; water: "
        + soil_table("available_water")["source"],
        {"silt_percent": silt, "available_in_per_ft_low": low, "available_in_per_ft_high": high},
        ("A jar or feel test gives the class only roughly; a laboratory measures it.",),
    )


def _class(sand: float, silt: float, clay: float) -> tuple[str, str]:
    """The class and the limits that put it there; each branch may rely on those above having failed."""
    if silt + 1.5 * clay < 15:
        return "sand", "silt + 1.5 x clay under 15"
    if silt + 2 * clay < 30:
        return "loamy sand", "silt + 1.5 x clay 15 or more, silt + 2 x clay under 30"
    if clay >= 40:
        if silt >= 40:
            return "silty clay", "clay 40 or more, silt 40 or more"
        if sand <= 45:
            return "clay", "clay 40 or more, sand 45 or less, silt under 40"
    if clay >= 35 and sand > 45:
        return "sandy clay", "clay 35 or more, sand over 45"
    if clay >= 27:
        if sand <= 20:
            return "silty clay loam", "clay 27 to 40, sand 20 or less"
        if sand <= 45:
            return "clay loam", "clay 27 to 40, sand over 20 to 45"
    if clay >= 20 and silt < 28 and sand > 45:
        return "sandy clay loam", "clay 20 to 35, silt under 28, sand over 45"
    if silt >= 80 and clay < 12:
        return "silt", "silt 80 or more, clay under 12"
    if silt >= 50:
        return "silt loam", "silt 50 or more, clay under 27"
    if (clay < 20 and sand > 52) or (clay < 7 and silt < 50):
        return "sandy loam", "clay under 20 and sand over 52, or clay under 7 and silt under 50"
    return "loam", "clay 7 to 27, silt 28 to 50, sand 52 or less"


def available_water(*, layers: str, depletion_percent: float = 50.0) -> Figure:
    """Water a root zone holds for plants, layer by layer, and what to give back.

    Args:
        layers: thickness and texture class or inches of water per foot, top first, with commas:
            "8 in loam, 12 in clay loam" or "8 in at 1.5, 12 in at 1.9"; one to eight layers, 1 to 120 in, 0.1 to
            4 in per foot.
        depletion_percent: share to let the plants use before watering, 10 to 90 %.

    Returns: inches of available water; also irrigate_in, low_in and high_in by the range of each texture.
    Raises: RangeError outside these ranges or for a layer it cannot read.
    Formula: sum of thickness / 12 x inches per foot (the middle of a texture's range); water back = sum x depletion.
    Source: University of California Santa Cruz, Teaching Organic Farming and Gardening, unit 2.1 example 1; ranges
        by texture in kb/tables/soil.yaml.
    """
    share = within("depletion_percent", depletion_percent, 10, 90, "%")
    table = soil_table("available_water")
    parts = [part.strip() for part in layers.lower().split(",") if part.strip()]
    if not 1 <= len(parts) <= 8:
        raise RangeError("layers", repr(layers), "one to eight layers with commas between")
    steps, total, low, high = [], 0.0, 0.0, 0.0
    for part in parts:
        match = _LAYER.fullmatch(part)
        if match is None or (match[2][0].isalpha() and (match[2] not in table or match[2] == "source")):
            raise RangeError("layers", repr(part), "such as 8 in loam, or 8 in at 1.5")
        thick = within("layers", float(match[1]), 1, 120, "in")
        if match[2][0].isalpha():
            least, most = table[match[2]]
        else:
            least = most = within("layers", float(match[2]), 0.1, 4, "in of water per foot")
        rate = (least + most) / 2
        total += thick / 12 * rate
        low, high = low + thick / 12 * least, high + thick / 12 * most
        steps.append(Step(f"{pencil(thick)} in / 12 x {pencil(rate)} in per foot = {pencil(thick / 12 * rate)} in"))
    back = total * share / 100
    return Figure(
        "available_water",
        "available water",
        total,
        "in",
        {"layers": layers, "depletion_percent": share},
        (
            *steps,
            Step(f"in all = {pencil(total)} in"),
            Step(f"water when {pencil(share)} % is gone, with {pencil(back)} in"),
        ),
        "available water = sum of thickness / 12 x inches per foot",
        "University of California Santa Cruz: Teaching Organic Farming and Gardening, unit 2.1; textures: "
        + table["source"],
        {"irrigate_in": back, "low_in": low, "high_in": high},
        ("Stones, compaction and little organic matter lower these figures.",),
    )
