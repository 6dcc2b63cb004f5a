"""Fertilizer dissolved in irrigation water: parts per million, and the concentrate for an injector.

Not here: dry fertilizer for an area (fertilizer.py), pesticide in a tank (sprayer.py).
"""

from __future__ import annotations

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within
from answers.calculators.units import convert

FAMILY = "spray"

# one ounce of a nutrient in 100 gallons is this many mg a liter: 74.9, printed as 75
_PPM_PER_OZ = convert(1, "oz", "g") * 1000 / (100 * convert(1, "gal", "L"))
_CAUTION = "Water lines with an injector need backflow prevention; a licensed plumber or the code office says which."
_MANY = 1000.0  # ppm


def fertilizer_for_ppm(*, ppm: float, analysis_percent: float, water_gal: float) -> Figure:
    """Fertilizer to dissolve for a strength in parts per million.

    Args:
        ppm: nutrient wanted in the water, 1 to 1,000 ppm.
        analysis_percent: that nutrient in the fertilizer, 0.5 to 100 % by weight.
        water_gal: water, 0.1 to 10,000 gal.

    Returns: ounces by weight; also grams, oz_per_100gal.
    Raises: RangeError outside these ranges.
    Formula: ounces = ppm / (74.9 x analysis / 100) x gallons / 100.
    Source: University of Massachusetts Amherst, Fertilizer Calculations for Greenhouse Crops (factor printed as 75).
    """
    wanted = within("ppm", ppm, 1, _MANY, "ppm")
    share = within("analysis_percent", analysis_percent, 0.5, 100, "%") / 100
    water = within("water_gal", water_gal, 0.1, 10_000, "gal")
    per_100 = wanted / (_PPM_PER_OZ * share)
    ounces = per_100 * water / 100
    return Figure(
        "fertilizer_for_ppm",
        "fertilizer to dissolve",
        ounces,
        "oz",
        {"ppm": wanted, "analysis_percent": share * 100, "water_gal": water},
        (
            Step(f"one ounce in 100 gal gives 74.9 x {pencil(share)} = {pencil(_PPM_PER_OZ * share)} ppm"),
            Step(f"for {pencil(wanted)} ppm: {pencil(wanted)} / that = {pencil(per_100)} oz in 100 gal"),
            Step(f"in {pencil(water)} gal: {pencil(per_100)} x {pencil(water)} / 100 = {pencil(ounces)} oz"),
        ),
        "ounces = ppm / (74.9 x analysis) x gallons / 100",
        "University of Massachusetts Amherst: Fertilizer Calculations for Greenhouse Crops",
        {"grams": convert(ounces, "oz", "g"), "oz_per_100gal": per_100},
        ("Phosphate and potash on the bag are oxides: P is 0.44 of P2O5, K is 0.83 of K2O.",),
    )


def injector_concentrate(
    *, ppm: float, analysis_percent: float, injector_ratio: float, concentrate_gal: float = 1.0
) -> Figure:
    """Fertilizer for a stock tank, for an injector of a given ratio.

    Args:
        ppm: nutrient wanted in the water delivered, 1 to 1,000 ppm.
        analysis_percent: that nutrient in the fertilizer, 0.5 to 100 % by weight.
        injector_ratio: gallons delivered for one gallon of concentrate (100 for 1:100), 10 to 1,000.
        concentrate_gal: concentrate to make, 0.1 to 1,000 gal.

    Returns: ounces by weight in the concentrate; also lb, oz_per_gal, delivered_gal.
    Raises: RangeError outside these ranges, or when over 5 lb would have to dissolve in a gallon.
    Formula: ounces = ppm / (74.9 x analysis / 100) x ratio x gallons / 100.
    Source: University of Massachusetts Amherst, Ratios and Concentrations for Using Water Soluble Fertilizers (2011).
    """
    wanted = within("ppm", ppm, 1, _MANY, "ppm")
    share = within("analysis_percent", analysis_percent, 0.5, 100, "%") / 100
    ratio = within("injector_ratio", injector_ratio, 10, 1000)
    batch = within("concentrate_gal", concentrate_gal, 0.1, 1000, "gal")
    per_gal = wanted / (_PPM_PER_OZ * share) * ratio / 100
    within("oz per gal of concentrate", per_gal, 0, 80, "oz (more will not dissolve)")
    ounces = per_gal * batch
    return Figure(
        "injector_concentrate",
        "fertilizer in the stock tank",
        ounces,
        "oz",
        {"ppm": wanted, "analysis_percent": share * 100, "injector_ratio": ratio, "concentrate_gal": batch},
        (
            Step(f"one ounce in 100 gal gives 74.9 x {pencil(share)} = {pencil(_PPM_PER_OZ * share)} ppm"),
            Step(f"in 100 gal delivered: {pencil(wanted)} / that = {pencil(per_gal * 100 / ratio)} oz"),
            Step(f"a gallon of concentrate delivers {pencil(ratio)} gal, so it holds {pencil(per_gal)} oz"),
            Step(f"in {pencil(batch)} gal of concentrate: {pencil(ounces)} oz"),
        ),
        "ounces = ppm / (74.9 x analysis) x ratio x gallons / 100",
        "University of Massachusetts Amherst: Ratios and Concentrations for Using Water Soluble Fertilizers (2011)",
        {"lb": ounces / 16, "oz_per_gal": per_gal, "delivered_gal": batch * ratio},
        (_CAUTION, "Calcium salts and phosphates or sulfates in one concentrate set hard; give each its own tank."),
    )


def ppm_delivered(*, fertilizer_oz: float, analysis_percent: float, water_gal: float) -> Figure:
    """Parts per million that a weight of fertilizer gives in a volume of water.

    Args:
        fertilizer_oz: fertilizer, 0.001 to 20,000 oz by weight.
        analysis_percent: the nutrient in it, 0.5 to 100 % by weight.
        water_gal: water, 0.1 to 100,000 gal.

    Returns: ppm of the nutrient; also nutrient_oz.
    Raises: RangeError outside these ranges, or when the result is over 10,000 ppm.
    Formula: ppm = 74.9 x analysis / 100 x ounces x 100 / gallons.
    Source: Texas A&M University, Texas greenhouse management notes, Nutrition and Fertility (factor printed as 75).
    """
    ounces = within("fertilizer_oz", fertilizer_oz, 0.001, 20_000, "oz")
    share = within("analysis_percent", analysis_percent, 0.5, 100, "%") / 100
    water = within("water_gal", water_gal, 0.1, 100_000, "gal")
    ppm = _PPM_PER_OZ * share * ounces * 100 / water
    within("fertilizer_oz", ppm, 0, 10_000, "ppm")
    return Figure(
        "ppm_delivered",
        "nutrient in the water",
        ppm,
        "ppm",
        {"fertilizer_oz": ounces, "analysis_percent": share * 100, "water_gal": water},
        (
            Step(f"nutrient = {pencil(ounces)} oz x {pencil(share)} = {pencil(ounces * share)} oz"),
            Step(f"strength = 74.9 x {pencil(ounces * share)} x 100 / {pencil(water)} gal = {pencil(ppm)} ppm"),
        ),
        "ppm = 74.9 x analysis x ounces x 100 / gallons",
        "Texas A&M University: Texas greenhouse management notes, Nutrition and Fertility",
        {"nutrient_oz": ounces * share},
    )


def injector_check(*, concentrate_used_floz: float, delivered_gal: float) -> Figure:
    """The ratio an injector really gives, from what it drew and what came out.

    Args:
        concentrate_used_floz: concentrate drawn, 0.1 to 10,000 fl oz.
        delivered_gal: solution that came out of the hose meanwhile, 0.1 to 10,000 gal.

    Returns: the ratio (100 for 1:100); also percent.
    Raises: RangeError outside these ranges, or for a ratio outside 1:2 to 1:5,000.
    Formula: ratio = delivered / concentrate.
    Source: University of Massachusetts Amherst, Ratios and Concentrations for Using Water Soluble Fertilizers (2011).
    """
    used = within("concentrate_used_floz", concentrate_used_floz, 0.1, 10_000, "fl oz")
    out = within("delivered_gal", delivered_gal, 0.1, 10_000, "gal")
    ratio = out * 128 / used
    within("delivered_gal", ratio, 2, 5000, "times the concentrate")
    return Figure(
        "injector_check",
        "injector ratio, one to",
        ratio,
        "",
        {"concentrate_used_floz": used, "delivered_gal": out},
        (Step(f"ratio = {pencil(out)} gal x 128 / {pencil(used)} fl oz = {pencil(ratio)}, that is 1:{pencil(ratio)}"),),
        "ratio = delivered / concentrate",
        "University of Massachusetts Amherst: Ratios and Concentrations for Using Water Soluble Fertilizers (2011)",
        {"percent": 100 / ratio},
        (_CAUTION,),
    )
