"""How much product goes in the user's sprayer, tank by tank, from the rate the user read on the label.

Not here: any rate. The label is the law; nothing here proposes one. What the sprayer puts out: calibration.py.
"""

from __future__ import annotations

import math

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import one_of, within
from answers.calculators.units import UNITS, convert
from kb.errors import RangeError

FAMILY = "spray"

_VOLUMES = ("floz", "tbsp", "tsp", "pt", "qt", "mL")
_MASSES = ("oz", "lb", "g")
# what a rate is for -> its size, in gallons of spray or in square feet
_PER_SPRAY = {"gal": 1.0, "100gal": 100.0, "L": convert(1, "L", "gal")}
_PER_AREA = {
    "1000sqft": 1000.0,
    "acre": 43560.0,
    "100sqm": convert(100, "sqm", "sqft"),
    "ha": convert(1, "ha", "sqft"),
}
_METRIC = ("mL/L", "g/L", "mL/100sqm", "g/100sqm", "L/ha", "kg/ha", "mL/ha", "g/ha")
LABEL_UNITS = (
    *(f"{u}/{per}" for per in ("gal", "1000sqft", "acre", "100gal") for u in (*_VOLUMES, *_MASSES)),
    "gal/100gal",
    "gal/acre",
    *_METRIC,
    "percent",
    "ppm",
)
_MG_PER_L = convert(1, "lb", "g") * 1000 / convert(1, "gal", "L")  # of one pound in a gallon: 119,826


def tank_mix(
    *,
    label_rate: float,
    label_rate_unit: str,
    tank_gal: float,
    area_sqft: float | None = None,
    gal_per_1000sqft: float | None = None,
    ai_lb_per_gal: float | None = None,
    ai_percent: float | None = None,
) -> Figure:
    """Product for one tank, and for as many tanks as the area takes, from the label's own rate.

    Args:
        label_rate: the number read on the label, 0.001 to 1,000 (percent: to 100; ppm: to 100,000).
        label_rate_unit: per gal, 100gal, 1000sqft or acre (such as tbsp/gal, pt/100gal, floz/1000sqft, pt/acre), the
            metric mL/L, g/L, mL/100sqm, g/100sqm, L/ha, kg/ha, mL/ha, g/ha; percent v/v; or ppm of active ingredient.
        tank_gal: water the tank is filled with, 0.1 to 500 gal.
        area_sqft: area to treat, 1 to 10,000,000 sq ft; gives the number of tanks and the last, part-filled one.
        gal_per_1000sqft: what the sprayer puts out, 0.1 to 20 gal per 1,000 sq ft; needed for rates per area.
        ai_lb_per_gal: active ingredient in a liquid product, 0.01 to 15 lb a gallon; for ppm.
        ai_percent: active ingredient in a dry product, 0.01 to 100 % by weight; for ppm.

    Returns: product for one full tank, in the label's unit (percent: floz; ppm: floz of a liquid, oz of a dry product);
        also tbsp for liquids; tanks, total, full_tanks, last_tank_gal and last_tank_product when the area is known.
    Raises: RangeError outside these ranges, when a rate per area comes without the sprayer's output, or ppm without
        the product's strength.
    Formula: per gallon: rate x tank; per area: rate x (tank / output) x 1000; ppm: rate x tank / product strength.
    Source: New England Vegetable Management Guide, conversion tables; Virginia Cooperative Extension 456-502.
    """
    unit = one_of("label_rate_unit", label_rate_unit, LABEL_UNITS)
    rate = within("label_rate", label_rate, 0.001, {"percent": 100, "ppm": 100_000}.get(unit, 1000), unit)
    tank = within("tank_gal", tank_gal, 0.1, 500, "gal")
    area = None if area_sqft is None else within("area_sqft", area_sqft, 1, 10_000_000, "sq ft")
    out = None if gal_per_1000sqft is None else within("gal_per_1000sqft", gal_per_1000sqft, 0.1, 20)
    liquid = None if ai_lb_per_gal is None else within("ai_lb_per_gal", ai_lb_per_gal, 0.01, 15, "lb a gallon")
    dry = None if ai_percent is None else within("ai_percent", ai_percent, 0.01, 100, "%")
    amount_unit, _, per = unit.partition("/")
    if unit == "percent":
        amount_unit, product = "floz", tank * 128 * rate / 100
        how = f"{pencil(rate)} % of {pencil(tank)} gal x 128 fl oz"
    elif unit == "ppm":
        amount_unit, product, how = _for_ppm(rate, tank, liquid, dry)
    elif per in _PER_SPRAY:
        product = rate * tank / _PER_SPRAY[per]
        each = {"gal": "a gallon", "100gal": "in 100 gal", "L": "a liter"}[per]
        size = "" if per == "gal" else f" / {_PER_SPRAY[per]:.4g}"
        how = f"{pencil(rate)} {amount_unit} {each} x {pencil(tank)} gal{size}"
    elif out is None:
        raise RangeError("gal_per_1000sqft", "nothing", "the sprayer's output, since the label rate is for an area")
    else:
        covered = tank / out * 1000
        product = rate * covered / _PER_AREA[per]
        how = (
            f"a tank covers {pencil(tank)} / {pencil(out)} x 1,000 = {pencil(covered)} sq ft; at {pencil(rate)} {unit}"
        )
    steps = [Step(f"{how} = {pencil(product)} {amount_unit}")]
    also: dict[str, float | str] = {}
    if UNITS[amount_unit][0] == "volume":
        also["tbsp"] = convert(product, amount_unit, "tbsp")
    if area is not None:
        if out is None:
            raise RangeError(
                "gal_per_1000sqft", "nothing", "the sprayer's output, to know how many tanks the area takes"
            )
        spray = area / 1000 * out
        tanks = spray / tank
        full = math.floor(tanks + 1e-9)
        last = max(0.0, spray - full * tank)
        also |= {"tanks": tanks, "total": tanks * product, "full_tanks": full}
        also |= {"last_tank_gal": last, "last_tank_product": last / tank * product}
        steps.append(
            Step(f"spray = {pencil(area)} sq ft / 1,000 x {pencil(out)} gal = {pencil(spray)} gal, {full} full tanks")
        )
        if last > 1e-6:
            steps.append(
                Step(f"last tank = {pencil(last)} gal with {pencil(last / tank * product)} {amount_unit} of product")
            )
    inputs = {"label_rate": rate, "label_rate_unit": unit, "tank_gal": tank, "area_sqft": area}
    inputs |= {"gal_per_1000sqft": out, "ai_lb_per_gal": liquid, "ai_percent": dry}
    return Figure(
        "tank_mix",
        "product for one tank",
        product,
        amount_unit,
        {k: v for k, v in inputs.items() if v is not None},
        tuple(steps),
        "product = label rate x tank (or the area a tank covers)",
        "New England Vegetable Management Guide: Pesticide and fertilizer conversion tables",
        also,
        (
            "The rate is the one you read; the label is the law. Wear what it asks for.",
            "Mix only what the job takes; leftover spray goes on a site the label allows, never down a drain.",
        ),
    )


def _for_ppm(rate: float, tank: float, liquid: float | None, dry: float | None) -> tuple[str, float, str]:
    """Unit, amount and working for so many parts per million (mg a liter) of active ingredient."""
    if (liquid is None) == (dry is None):
        raise RangeError(
            "ai_lb_per_gal", "nothing, or both strengths", "the product's active ingredient by gallon or by weight"
        )
    active = rate * tank / _MG_PER_L  # lb
    how = f"active ingredient = {pencil(rate)} ppm x {pencil(tank)} gal / 119,826 = {active:.3g} lb"
    if liquid is not None:
        return "floz", active / liquid * 128, f"{how}; / {pencil(liquid)} lb a gallon x 128"
    assert dry is not None
    return "oz", active / (dry / 100) * 16, f"{how}; / {pencil(dry / 100)} x 16"
