"""Solutions by percent, and weaker ones made from stronger ones.

Not here: a label's rate for a tank (sprayer.py), fertilizer in water by ppm (fertigation.py).
"""

from __future__ import annotations

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import one_of, within
from answers.calculators.units import convert
from kb.errors import RangeError

FAMILY = "spray"

_WATER_LB_PER_GAL = 1000 * convert(1, "gal", "L") / convert(1, "lb", "g")  # at 1 kg a liter: 8.345
_CAUTION = "Add the strong one to water, not water to it; goggles and gloves. The label's strength governs."


def percent_solution(*, percent: float, batch_gal: float, by: str = "volume") -> Figure:
    """Product for a batch of a given percent, by volume or by weight of product in water.

    Args:
        percent: strength wanted, 0.001 to 100 % by volume, to 30 % by weight.
        batch_gal: finished solution, 0.01 to 1,000 gal.
        by: volume (liquid in liquid) or weight (so many parts by weight in 100 of water).

    Returns: product, floz by volume or oz by weight; also product_mL and water_floz, or product_g and g_per_l.
    Raises: RangeError outside these ranges.
    Formula: by volume: batch x percent / 100; by weight: batch x 8.345 lb x percent / 100.
    Source: Virginia Department of Wildlife Resources, Formulas for Determining Application Rates.
    """
    one_of("by", by, ("volume", "weight"))
    strength = within("percent", percent, 0.001, 100 if by == "volume" else 30, "%")
    batch = within("batch_gal", batch_gal, 0.01, 1000, "gal")
    also: dict[str, float | str]
    if by == "volume":
        unit, product = "floz", batch * 128 * strength / 100
        also = {"product_mL": convert(product, "floz", "mL"), "water_floz": batch * 128 - product}
        steps = (
            Step(f"product = {pencil(batch)} gal x 128 x {pencil(strength)} / 100 = {pencil(product)} fl oz"),
            Step(f"water = {pencil(batch * 128)} - {pencil(product)} = {pencil(batch * 128 - product)} fl oz"),
        )
    else:
        unit, product = "oz", batch * _WATER_LB_PER_GAL * 16 * strength / 100
        also = {"product_g": convert(product, "oz", "g"), "g_per_l": strength * 10}
        steps = (
            Step(f"water weighs {pencil(batch)} gal x 8.345 lb = {pencil(batch * _WATER_LB_PER_GAL)} lb"),
            Step(f"product = that x 16 oz x {pencil(strength)} / 100 = {pencil(product)} oz"),
        )
    return Figure(
        "percent_solution",
        "product in the batch",
        product,
        unit,
        {"percent": strength, "batch_gal": batch, "by": by},
        steps,
        "product = batch x percent / 100",
        "Virginia Department of Wildlife Resources: Formulas for Determining Application Rates",
        also,
        (_CAUTION,),
    )


def dilute_solution(
    *, strong_percent: float, wanted_percent: float, batch_floz: float, weak_percent: float = 0.0
) -> Figure:
    """Parts of a strong and a weak solution (or water) that make a wanted strength, by the Pearson square.

    Args:
        strong_percent: the stronger one, 0.01 to 100 %.
        wanted_percent: strength wanted, 0.001 to 100 %, between the two.
        batch_floz: finished solution, 0.1 to 100,000 fl oz.
        weak_percent: the weaker one, 0 to 99 %; 0 is water.

    Returns: fluid ounces of the strong one; also weak_floz, parts_strong, parts_weak.
    Raises: RangeError outside these ranges, or when the wanted strength is not between the two.
    Formula: parts strong : parts weak = (wanted - weak) : (strong - wanted).
    Source: Pearson square (alligation), the textbook method.
    """
    strong = within("strong_percent", strong_percent, 0.01, 100, "%")
    wanted = within("wanted_percent", wanted_percent, 0.001, 100, "%")
    batch = within("batch_floz", batch_floz, 0.1, 100_000, "fl oz")
    weak = within("weak_percent", weak_percent, 0, 99, "%")
    if strong <= weak:
        raise RangeError("strong_percent", f"{strong:g} %", f"more than the weak one's {weak:g} %")
    if not weak <= wanted <= strong:
        raise RangeError("wanted_percent", f"{wanted:g} %", f"between {weak:g} and {strong:g} %")
    parts_strong, parts_weak = wanted - weak, strong - wanted
    product = batch * parts_strong / (parts_strong + parts_weak)
    return Figure(
        "dilute_solution",
        "strong solution to measure out",
        product,
        "floz",
        {"strong_percent": strong, "wanted_percent": wanted, "batch_floz": batch, "weak_percent": weak},
        (
            Step(f"parts of the strong one = {pencil(wanted)} - {pencil(weak)} = {pencil(parts_strong)}"),
            Step(f"parts of the weak one = {pencil(strong)} - {pencil(wanted)} = {pencil(parts_weak)}"),
            Step(
                f"strong one = {pencil(batch)} fl oz x {pencil(parts_strong)} / {pencil(parts_strong + parts_weak)}"
                f" = {pencil(product)} fl oz; the rest, {pencil(batch - product)} fl oz, is the weak one"
            ),
        ),
        "strong : weak = (wanted - weak) : (strong - wanted)",
        "Pearson square (alligation), the textbook method",
        {"weak_floz": batch - product, "parts_strong": parts_strong, "parts_weak": parts_weak},
        (_CAUTION,),
    )


def percent_active_spray(
    *,
    wanted_percent: float,
    batch_gal: float,
    ai_lb_per_gal: float | None = None,
    ai_percent: float | None = None,
) -> Figure:
    """Product for a finished spray of a percent of active ingredient by weight.

    Args:
        wanted_percent: active ingredient the label wants in the finished spray, 0.001 to 20 %.
        batch_gal: finished spray, 0.1 to 1,000 gal.
        ai_lb_per_gal: active ingredient in a liquid product, 0.1 to 15 lb a gallon.
        ai_percent: active ingredient in a dry product, 0.1 to 100 % by weight.

    Returns: product, floz of a liquid or oz of a dry product; also active_lb, and tsp_per_gal of a liquid.
    Raises: RangeError outside these ranges, or unless exactly one strength is given.
    Formula: active = batch x 8.345 lb x percent / 100; product = active / strength.
    Source: University of Missouri Extension, Pesticide dilution table, G7510; New England Vegetable Management Guide.
    """
    wanted = within("wanted_percent", wanted_percent, 0.001, 20, "%")
    batch = within("batch_gal", batch_gal, 0.1, 1000, "gal")
    liquid = None if ai_lb_per_gal is None else within("ai_lb_per_gal", ai_lb_per_gal, 0.1, 15, "lb a gallon")
    dry = None if ai_percent is None else within("ai_percent", ai_percent, 0.1, 100, "%")
    if (liquid is None) == (dry is None):
        raise RangeError("ai_lb_per_gal", "nothing, or both strengths", "the product's strength by gallon or by weight")
    active = batch * _WATER_LB_PER_GAL * wanted / 100
    also: dict[str, float | str] = {"active_lb": active}
    if liquid is not None:
        unit, product, how = "floz", active / liquid * 128, f"{pencil(liquid)} lb a gallon x 128"
        also["tsp_per_gal"] = convert(product, "floz", "tsp") / batch
    else:
        assert dry is not None
        unit, product, how = "oz", active / (dry / 100) * 16, f"{pencil(dry / 100)} x 16"
    inputs = {"wanted_percent": wanted, "batch_gal": batch, "ai_lb_per_gal": liquid, "ai_percent": dry}
    return Figure(
        "percent_active_spray",
        "product in the batch",
        product,
        unit,
        {k: v for k, v in inputs.items() if v is not None},
        (
            Step(f"active ingredient = {pencil(batch)} gal x 8.345 lb x {pencil(wanted)} / 100 = {pencil(active)} lb"),
            Step(f"product = {pencil(active)} lb / {how} = {pencil(product)} {unit}"),
        ),
        "product = batch x 8.345 x percent / 100 / strength",
        "University of Missouri Extension G7510: Pesticide dilution table",
        also,
        ("The strength is the one you read; the label is the law. Wear what it asks for.",),
    )
