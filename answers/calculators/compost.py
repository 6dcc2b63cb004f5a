"""Compost: a recipe by carbon, nitrogen and moisture, and compost or organic matter for a bed.

Not here: volumes of mulch or soil (mulch.py), fertilizer (fertilizer.py, soil_test.py).
"""

from __future__ import annotations

import re

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within
from kb.errors import RangeError

FAMILY = "soil"

_CORNELL = "Cornell Waste Management Institute: Moisture and carbon/nitrogen ratio calculations (1996)"
_LB_PER_GAL_WATER = 8.345
_PILE_CAUTION = "Contents of carbon and nitrogen vary much from load to load; judge the pile by heat and smell."


def compost_mix(*, ingredients: str) -> Figure:
    """Carbon to nitrogen ratio and moisture of a mix, by balance of mass.

    Args:
        ingredients: weight, carbon %, nitrogen % (both of the dry weight) and moisture % of each, with commas
            between: "10 45 2.4 77, 10 50 0.75 35"; one to eight, in any one unit of weight.

    Returns: the ratio; also moisture_percent, weight, carbon, nitrogen.
    Raises: RangeError for a text it cannot read or values out of range (weight 0.01 to 1,000,000, carbon 1 to 70 %,
        nitrogen 0.02 to 20 %, moisture 0 to 95 %).
    Formula: R = sum Q C (100 - M) / sum Q N (100 - M); moisture = sum Q M / sum Q.
    Source: Cornell Waste Management Institute, Moisture and carbon/nitrogen ratio calculations (1996).
    """
    rows = [
        [float(word) for word in re.findall(r"\d+(?:\.\d+)?", part)]
        for part in ingredients.split(",")
        if re.fullmatch(r"\s*\d+(?:\.\d+)?(?:\s+\d+(?:\.\d+)?){3}\s*", part)
    ]
    if not 1 <= len(rows) <= 8 or len(rows) != len(ingredients.split(",")):
        raise RangeError("ingredients", repr(ingredients), 'weight, carbon, nitrogen, moisture: "10 45 2.4 77, ..."')
    carbon = nitrogen = water = weight = 0.0
    steps = []
    for q, c, n, m in rows:
        within("ingredients", q, 0.01, 1_000_000, "of weight")
        within("ingredients", c, 1, 70, "% carbon")
        within("ingredients", n, 0.02, 20, "% nitrogen")
        within("ingredients", m, 0, 95, "% moisture")
        dry = q * (100 - m) / 100
        carbon, nitrogen = carbon + dry * c / 100, nitrogen + dry * n / 100
        water, weight = water + q * m / 100, weight + q
        steps.append(
            Step(
                f"{pencil(q)} x (100 - {pencil(m)}) / 100 = {pencil(dry)} dry: carbon {pencil(dry * c / 100)},"
                f" nitrogen {pencil(dry * n / 100)}"
            )
        )
    ratio, moisture = carbon / nitrogen, water / weight * 100
    return Figure(
        "compost_mix",
        "carbon to nitrogen",
        ratio,
        "to 1",
        {"ingredients": ingredients},
        (
            *steps,
            Step(f"ratio = {pencil(carbon)} / {pencil(nitrogen)} = {pencil(ratio)} to 1"),
            Step(f"moisture = {pencil(water)} / {pencil(weight)} = {pencil(moisture)} %"),
        ),
        "R = sum Q C (100 - M) / sum Q N (100 - M)",
        _CORNELL,
        {"moisture_percent": moisture, "weight": weight, "carbon": carbon, "nitrogen": nitrogen},
        (_PILE_CAUTION,),
    )


def compost_recipe(
    *,
    first_lb: float,
    first_carbon_percent: float,
    first_nitrogen_percent: float,
    second_carbon_percent: float,
    second_nitrogen_percent: float,
    first_moisture_percent: float = 0.0,
    second_moisture_percent: float = 0.0,
    target_ratio: float = 30.0,
) -> Figure:
    """Second material to bring a first one to a carbon to nitrogen ratio, by balance of mass.

    Args:
        first_lb: first material as it lies, 0.1 to 1,000,000 lb.
        first_carbon_percent: its carbon, 1 to 70 % of dry weight.
        first_nitrogen_percent: its nitrogen, 0.02 to 20 % of dry weight.
        second_carbon_percent: carbon of the second, 1 to 70 % of dry weight.
        second_nitrogen_percent: nitrogen of the second, 0.02 to 20 % of dry weight.
        first_moisture_percent: moisture of the first, 0 to 95 %.
        second_moisture_percent: moisture of the second, 0 to 95 %.
        target_ratio: ratio wanted, 15 to 60 (25 to 35 is usual).

    Returns: pounds of the second material; also moisture_percent of the mix, first_ratio, second_ratio.
    Raises: RangeError outside these ranges, or when both materials lie on the same side of the target.
    Formula: Q2 = Q1 N1 (R - C1 / N1) (100 - M1) / (N2 (C2 / N2 - R) (100 - M2)).
    Source: Cornell Waste Management Institute, Moisture and carbon/nitrogen ratio calculations (1996).
    """
    q1 = within("first_lb", first_lb, 0.1, 1_000_000, "lb")
    c1 = within("first_carbon_percent", first_carbon_percent, 1, 70, "%")
    n1 = within("first_nitrogen_percent", first_nitrogen_percent, 0.02, 20, "%")
    c2 = within("second_carbon_percent", second_carbon_percent, 1, 70, "%")
    n2 = within("second_nitrogen_percent", second_nitrogen_percent, 0.02, 20, "%")
    m1 = within("first_moisture_percent", first_moisture_percent, 0, 95, "%")
    m2 = within("second_moisture_percent", second_moisture_percent, 0, 95, "%")
    target = within("target_ratio", target_ratio, 15, 60)
    r1, r2 = c1 / n1, c2 / n2
    if (r1 - target) * (r2 - target) >= 0:
        raise RangeError(
            "target_ratio", f"{target:g}", f"a ratio between those of the materials, {r1:.3g} and {r2:.3g}"
        )
    top, bottom = n1 * (target - r1) * (100 - m1), n2 * (r2 - target) * (100 - m2)
    q2 = q1 * top / bottom
    moisture = (q1 * m1 + q2 * m2) / (q1 + q2)
    return Figure(
        "compost_recipe",
        "second material",
        q2,
        "lb",
        {"first_lb": q1, "first_carbon_percent": c1, "first_nitrogen_percent": n1, "first_moisture_percent": m1}
        | {"second_carbon_percent": c2, "second_nitrogen_percent": n2, "second_moisture_percent": m2}
        | {"target_ratio": target},
        (
            Step(f"ratios: {pencil(c1)} / {pencil(n1)} = {pencil(r1)}; {pencil(c2)} / {pencil(n2)} = {pencil(r2)}"),
            Step(f"{pencil(n1)} x ({pencil(target)} - {pencil(r1)}) x (100 - {pencil(m1)}) = {pencil(top)}"),
            Step(f"{pencil(n2)} x ({pencil(r2)} - {pencil(target)}) x (100 - {pencil(m2)}) = {pencil(bottom)}"),
            Step(f"second = {pencil(q1)} lb x {pencil(top)} / {pencil(bottom)} = {pencil(q2)} lb"),
            Step(f"the mix is {pencil(moisture)} % water"),
        ),
        "Q2 = Q1 N1 (R - C1/N1) (100 - M1) / (N2 (C2/N2 - R) (100 - M2))",
        _CORNELL,
        {"moisture_percent": moisture, "first_ratio": r1, "second_ratio": r2},
        (_PILE_CAUTION,),
    )


def compost_moisture(
    *,
    weight_lb: float,
    moisture_percent: float,
    target_percent: float = 55.0,
    added_moisture_percent: float = 100.0,
) -> Figure:
    """Water, or a drier or wetter material, to bring a compost pile to a moisture.

    Args:
        weight_lb: the pile as it lies, 0.1 to 1,000,000 lb.
        moisture_percent: its moisture, 0 to 95 %.
        target_percent: moisture wanted, 40 to 65 % (55 to 60 is the usual upper limit).
        added_moisture_percent: moisture of what is added, 0 to 100 %; 100 is water.

    Returns: pounds to add; also gallons when it is water.
    Raises: RangeError outside these ranges, or when what is added cannot bring the pile there.
    Formula: added = Q (G - M) / (M2 - G).
    Source: Cornell Waste Management Institute, Moisture and carbon/nitrogen ratio calculations (1996).
    """
    weight = within("weight_lb", weight_lb, 0.1, 1_000_000, "lb")
    moisture = within("moisture_percent", moisture_percent, 0, 95, "%")
    target = within("target_percent", target_percent, 40, 65, "%")
    other = within("added_moisture_percent", added_moisture_percent, 0, 100, "%")
    if (target - moisture) * (other - target) <= 0:
        raise RangeError(
            "added_moisture_percent", f"{other:g} %", f"beyond {target:g} % on the other side from {moisture:g} %"
        )
    added = weight * (target - moisture) / (other - target)
    return Figure(
        "compost_moisture",
        "to add",
        added,
        "lb",
        {"weight_lb": weight, "moisture_percent": moisture, "target_percent": target, "added_moisture_percent": other},
        (
            Step(
                f"{pencil(weight)} lb x ({pencil(target)} - {pencil(moisture)}) / ({pencil(other)} - {pencil(target)})"
                f" = {pencil(added)} lb"
            ),
            *([Step(f"= {pencil(added / _LB_PER_GAL_WATER)} gal of water")] if other == 100 else []),
        ),
        "added = Q (G - M) / (M2 - G)",
        _CORNELL,
        {"gallons": added / _LB_PER_GAL_WATER} if other == 100 else {},
        ("A pile wetter than about 60 percent turns sour; one drier than 35 stops.",),
    )


def organic_matter_rise(
    *,
    area_sqft: float,
    now_percent: float,
    target_percent: float,
    depth_in: float = 6.0,
    compost_organic_percent: float = 50.0,
    compost_dry_lb_per_cuyd: float = 600.0,
    soil_lb_per_cuft: float = 80.0,
) -> Figure:
    """Compost to raise the organic matter of a soil, by balance of dry weight.

    Args:
        area_sqft: area, 1 to 1,000,000 sq ft.
        now_percent: organic matter on the soil test, 0 to 15 % of dry weight.
        target_percent: organic matter wanted, up to 20 %, above now_percent.
        depth_in: depth it is dug in, 2 to 12 in.
        compost_organic_percent: organic matter of the compost, 20 to 90 % of dry weight.
        compost_dry_lb_per_cuyd: dry weight of a cubic yard of compost, 200 to 1,200 lb.
        soil_lb_per_cuft: dry weight of a cubic foot of soil, 50 to 110 lb.

    Returns: cubic yards of compost; also compost_dry_lb, layer_in, share_percent by volume.
    Raises: RangeError outside these ranges.
    Formula: compost = soil x (target - now) / (compost's organic matter - target), all dry.
    Source: balance of mass (hand-derived); densities are common practice.
    """
    area = within("area_sqft", area_sqft, 1, 1_000_000, "sq ft")
    now = within("now_percent", now_percent, 0, 15, "%")
    target = within("target_percent", target_percent, 0.1, 20, "%")
    depth = within("depth_in", depth_in, 2, 12, "in")
    rich = within("compost_organic_percent", compost_organic_percent, 20, 90, "%")
    dense = within("compost_dry_lb_per_cuyd", compost_dry_lb_per_cuyd, 200, 1200, "lb")
    heavy = within("soil_lb_per_cuft", soil_lb_per_cuft, 50, 110, "lb")
    if target <= now or target >= rich:
        raise RangeError("target_percent", f"{target:g} %", f"more than {now:g} % and less than {rich:g} %")
    soil = area * depth / 12 * heavy
    compost = soil * (target - now) / (rich - target)
    yards = compost / dense
    layer = yards * 27 * 12 / area
    share = layer / (layer + depth) * 100
    return Figure(
        "organic_matter_rise",
        "compost to dig in",
        yards,
        "cu yd",
        {"area_sqft": area, "now_percent": now, "target_percent": target, "depth_in": depth}
        | {"compost_organic_percent": rich, "compost_dry_lb_per_cuyd": dense, "soil_lb_per_cuft": heavy},
        (
            Step(f"soil = {pencil(area)} sq ft x {pencil(depth)} in / 12 x {pencil(heavy)} lb = {pencil(soil)} lb"),
            Step(
                f"dry compost = {pencil(soil)} lb x ({pencil(target)} - {pencil(now)}) / ({pencil(rich)} -"
                f" {pencil(target)}) = {pencil(compost)} lb"
            ),
            Step(f"{pencil(compost)} lb / {pencil(dense)} lb = {pencil(yards)} cu yd, {pencil(layer)} in deep"),
        ),
        "compost = soil x (target - now) / (compost's organic matter - target)",
        "balance of mass; densities by common practice",
        {"compost_dry_lb": compost, "layer_in": layer, "share_percent": share},
        (
            "Above about one part compost to four of soil, spread it over years and watch salts and phosphorus.",
            "Organic matter burns away again; a small dressing each year keeps it up.",
        ),
    )
