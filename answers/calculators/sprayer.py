"""How much product goes in the user's sprayer, from the rate the user read on the label.

Not here: any rate. The label is the law; nothing here proposes one.
"""

from __future__ import annotations

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import one_of, within
from answers.calculators.units import UNITS, convert
from kb.errors import RangeError

FAMILY = "spray"

_VOLUMES = ("floz", "tbsp", "tsp", "pt", "qt", "mL")
_MASSES = ("oz", "lb", "g")
LABEL_UNITS = (*(f"{u}/{per}" for per in ("gal", "1000sqft", "acre") for u in (*_VOLUMES, *_MASSES)), "percent")


def tank_mix(
    *,
    label_rate: float,
    label_rate_unit: str,
    tank_gal: float,
    area_sqft: float | None = None,
    gal_per_1000sqft: float | None = None,
) -> Figure:
    """Product for one tank, from the label's own rate.

    Args:
        label_rate: the number read on the label, 0.001 to 1,000 (percent: to 100).
        label_rate_unit: per gal, per 1000sqft or per acre (such as tbsp/gal, floz/1000sqft, pt/acre), or percent v/v.
        tank_gal: water the tank is filled with, 0.1 to 500 gal.
        area_sqft: area to treat, 1 to 10,000,000 sq ft; gives the number of tanks.
        gal_per_1000sqft: what the sprayer puts out, 0.1 to 20 gal per 1,000 sq ft; needed for rates per area.

    Returns: product for one full tank, in the label's unit (percent: floz); also tanks and total when the area is
        known, tbsp for liquids.
    Raises: RangeError outside these ranges, or when a rate per area comes without the sprayer's output.
    Formula: per gallon: rate x tank; per area: rate x (tank / output) x 1000.
    Source: New England Vegetable Management Guide, conversion tables; Virginia Cooperative Extension 456-502.
    """
    unit = one_of("label_rate_unit", label_rate_unit, LABEL_UNITS)
    rate = within("label_rate", label_rate, 0.001, 100 if unit == "percent" else 1000, unit)
    tank = within("tank_gal", tank_gal, 0.1, 500, "gal")
    out = None if gal_per_1000sqft is None else within("gal_per_1000sqft", gal_per_1000sqft, 0.1, 20)
    amount_unit, _, per = unit.partition("/")
    if unit == "percent":
        amount_unit, product = "floz", tank * 128 * rate / 100
        how = f"{pencil(rate)} % of {pencil(tank)} gal x 128 fl oz"
    elif per == "gal":
        product = rate * tank
        how = f"{pencil(rate)} {amount_unit} a gallon x {pencil(tank)} gal"
    elif out is None:
        raise RangeError("gal_per_1000sqft", "nothing", "the sprayer's output, since the label rate is for an area")
    else:
        covered = tank / out * 1000
        product = rate * covered / (43560 if per == "acre" else 1000)
        how = (
            f"a tank covers {pencil(tank)} / {pencil(out)} x 1,000 = {pencil(covered)} sq ft; at {pencil(rate)} {unit}"
        )
    also: dict[str, float | str] = {}
    if UNITS[amount_unit][0] == "volume":
        also["tbsp"] = convert(product, amount_unit, "tbsp")
    if area_sqft is not None:
        area = within("area_sqft", area_sqft, 1, 10_000_000, "sq ft")
        if out is None:
            raise RangeError(
                "gal_per_1000sqft", "nothing", "the sprayer's output, to know how many tanks the area takes"
            )
        also["tanks"] = area / 1000 * out / tank
        also["total"] = area / 1000 * out / tank * product
    inputs = {"label_rate": rate, "label_rate_unit": unit, "tank_gal": tank, "area_sqft": area_sqft}
    return Figure(
        "tank_mix",
        "product for one tank",
        product,
        amount_unit,
        {k: v for k, v in {**inputs, "gal_per_1000sqft": out}.items() if v is not None},
        (Step(f"{how} = {pencil(product)} {amount_unit}"),),
        "product = label rate x tank (or the area a tank covers)",
        "New England Vegetable Management Guide: Pesticide and fertilizer conversion tables",
        also,
        ("The rate is the one you read; the label is the law. Wear what it asks for.",),
    )
