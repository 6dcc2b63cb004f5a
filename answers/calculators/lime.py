"""Lime to raise soil pH: by texture, by tested acidity, or by the Sikora, SMP, Mehlich or Adams-Evans buffer.

Not here: lowering pH (acidify.py); the tables' numbers and sources (kb/tables/soil.yaml).
"""

from __future__ import annotations

import math
from typing import Any

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import one_of, within
from answers.calculators.soil_tables import between, soil_table
from kb.errors import RangeError

FAMILY = "soil"

TEXTURES = ("sandy loam", "loam", "clay loam")
_METHODS = {"sikora": "lime_buffer", "smp": "lime_smp", "mehlich": "lime_mehlich", "adams-evans": "lime_adams_evans"}
_LB_PER_1000 = 2000 / 43.56  # tons an acre to lb per 1,000 sq ft
_MONTHS_APART = 6


def lime_requirement(
    *,
    area_sqft: float,
    soil_ph: float,
    target_ph: float = 6.5,
    texture: str = "loam",
    buffer_ph: float | None = None,
    buffer_method: str = "sikora",
    cce_percent: float = 100.0,
    pass_20_percent: float = 100.0,
    pass_60_percent: float = 100.0,
    pass_100_percent: float = 100.0,
    depth_in: float | None = None,
    established_turf: bool = False,
    most_lb_per_1000sqft: float = 50.0,
    acidity_meq: float | None = None,
) -> Figure:
    """Ground limestone to raise soil pH, by the laboratory's buffer pH if tested, else by texture.

    Args:
        area_sqft: area, 1 to 10,000,000 sq ft.
        soil_ph: tested pH, 4.5 to 7.0 by texture, 3.5 to 7.0 by buffer (Mehlich: below 6.6), below the target.
        target_ph: pH wanted, 5.0 to 6.5 by texture; Sikora 5.6 to 7.2, SMP 6.0 to 6.8, Mehlich 5.0 to 6.6,
            Adams-Evans 5.0 to 7.0.
        texture: sandy loam, loam or clay loam; used when there is no buffer pH.
        buffer_ph: buffer pH: Sikora 4.8 to 6.9, SMP 6.0 to 6.9, Mehlich 4.0 to 6.6, Adams-Evans 7.0 to 7.99.
        buffer_method: sikora, smp, mehlich or adams-evans; the laboratory's report names it.
        cce_percent: calcium carbonate equivalent of the product, 40 to 180 %.
        pass_20_percent: product through a 20-mesh sieve, 20 to 100 %.
        pass_60_percent: product through a 60-mesh sieve, 0 % to that through 20 mesh.
        pass_100_percent: product through a 100-mesh sieve, 0 % to that through 60 mesh.
        depth_in: depth to lime, 1 to 12 in; the depth the method assumes when not given.
        established_turf: True to split into what turf bears at one time.
        most_lb_per_1000sqft: what turf bears at one time, 10 to 100 lb per 1,000 sq ft.
        acidity_meq: exchangeable acidity on the report, 2.0 to 25.7 meq per 100 g, target 6.0 to 7.0; used when
            there is no buffer pH.

    Returns: pounds of limestone; also lb_per_1000sqft, tons_per_acre, effective_percent, applications,
        lb_per_application.
    Raises: RangeError outside these ranges; when no lime is needed.
    Formula: table value x depth / depth of the method x 100 / (CCE x fineness) x area; fineness = share through
        100 mesh + 0.8 x (60 to 100 mesh) + 0.4 x (20 to 60 mesh). Mehlich: 4 x (6.6 - buffer) x (target - pH) /
        (6.6 - pH) tons an acre. Adams-Evans: 1,000 lb x 8 x (8 - buffer) x (1 - s2 / s1) x 1.5, where
        pH = 7.79 - 5.55 s + 2.27 s^2. SMP: a straight line of the buffer pH for each target.
    Source: kb/tables/soil.yaml (Agroconection; Oregon State University Extension EM 9585, table 1; Penn State,
        Lime Recommendations for Turf, table 1; Tri-State Fertilizer Recommendations E-2567; North Carolina Department
        of Agriculture; Adams and Evans 1962); fineness by Cornell University; CCE by Penn State.
    """
    area = within("area_sqft", area_sqft, 1, 10_000_000, "sq ft")
    one_of("texture", texture, TEXTURES)
    one_of("buffer_method", buffer_method, tuple(_METHODS))
    limit = within("most_lb_per_1000sqft", most_lb_per_1000sqft, 10, 100, "lb per 1,000 sq ft")
    effective, ground = _effective(cce_percent, pass_20_percent, pass_60_percent, pass_100_percent)
    ph = within("soil_ph", soil_ph, 4.5 if buffer_ph is None else 3.5, 7.0)
    if acidity_meq is not None:
        low, *_, high = soil_table("lime_acidity")["acidity"]
        acidity_meq = within("acidity_meq", acidity_meq, low, high, "meq per 100 g")
    if buffer_ph is None and acidity_meq is not None:
        table = soil_table("lime_acidity")
        target = within("target_ph", target_ph, table["target_ph"][0], table["target_ph"][-1])
        _must_rise(ph, target)
        column = [between(target, table["target_ph"], row) for row in table["lb"]]
        tons = between(acidity_meq, table["acidity"], column) / _LB_PER_1000
        how = f"table for acidity {pencil(acidity_meq)} meq, pH goal {pencil(target)}"
    elif buffer_ph is None:
        table = soil_table("lime_texture")
        target = within("target_ph", target_ph, 5.0, table["target_ph"])
        _must_rise(ph, target)
        need = [between(x, table["soil_ph"], table[texture]) for x in (ph, target)]
        tons = (need[0] - need[1]) * 10 / _LB_PER_1000
        how = f"table for {texture}: from pH {pencil(ph)} to {pencil(target)}"
    else:
        table = soil_table(_METHODS[buffer_method])
        buffer = within("buffer_ph", buffer_ph, table["buffer_ph"][0], table["buffer_ph"][-1])
        target = within("target_ph", target_ph, table["target_ph"][0], table["target_ph"][-1])
        _must_rise(ph, target)
        tons, how = _by_buffer(buffer_method, table, buffer, ph, target)
    depth = float(table["depth_in"]) if depth_in is None else within("depth_in", depth_in, 1, 12, "in")
    base = tons * _LB_PER_1000
    deep = base * depth / table["depth_in"]
    per_1000 = deep * 100 / effective
    total = per_1000 * area / 1000
    applications = max(1, math.ceil(round(per_1000 / limit, 9))) if established_turf else 1
    return Figure(
        "lime_requirement",
        "ground limestone",
        total,
        "lb",
        {"area_sqft": area, "soil_ph": ph, "target_ph": target, "texture": texture, "buffer_ph": buffer_ph}
        | {"buffer_method": buffer_method, "cce_percent": cce_percent, "pass_20_percent": pass_20_percent}
        | {"pass_60_percent": pass_60_percent, "pass_100_percent": pass_100_percent, "depth_in": depth}
        | ({} if acidity_meq is None else {"acidity_meq": acidity_meq})
        | {"established_turf": established_turf, "most_lb_per_1000sqft": limit},
        (
            Step(f"{how}: {pencil(tons)} tons an acre = {pencil(base)} lb per 1,000 sq ft"),
            Step(f"depth {pencil(depth)} in / {pencil(table['depth_in'])} in: {pencil(deep)} lb per 1,000 sq ft"),
            Step(ground),
            Step(f"{pencil(deep)} lb x 100 / {pencil(effective)} = {pencil(per_1000)} lb per 1,000 sq ft"),
            Step(f"in all = {pencil(per_1000)} lb x {pencil(area)} sq ft / 1,000 = {pencil(total)} lb"),
            Step(
                f"applications = {applications}"
                + (f", {_MONTHS_APART} months apart" if applications > 1 else "")
                + (f", at most {pencil(limit)} lb per 1,000 sq ft each" if established_turf else "")
            ),
        ),
        "lime = table value x depth / method's depth x 100 / (CCE x fineness) x area",
        f"{table['source']}; fineness: {soil_table('lime_fineness')['source']}",
        {
            "lb_per_1000sqft": per_1000,
            "tons_per_acre": per_1000 / _LB_PER_1000,
            "effective_percent": effective,
            "applications": applications,
            "lb_per_application": total / applications,
        },
        (
            "Published lime tables differ by 20 to 50 percent; your laboratory's recommendation comes first.",
            "A buffer pH is only good with the method it was measured by.",
        ),
    )


def _must_rise(ph: float, target: float) -> None:
    if ph >= target:
        raise RangeError("soil_ph", f"{ph:g}", f"less than the target pH of {target:g}; no lime is needed")


def _effective(cce_percent: float, through_20: float, through_60: float, through_100: float) -> tuple[float, str]:
    """Effective calcium carbonate equivalent in percent, and how it was reached."""
    cce = within("cce_percent", cce_percent, 40, 180, "%")
    p20 = within("pass_20_percent", through_20, 20, 100, "%")
    p60 = within("pass_60_percent", through_60, 0, 100, "%")
    p100 = within("pass_100_percent", through_100, 0, 100, "%")
    if p60 > p20:
        raise RangeError("pass_60_percent", f"{p60:g} %", f"no more than passes 20 mesh, {p20:g} %")
    if p100 > p60:
        raise RangeError("pass_100_percent", f"{p100:g} %", f"no more than passes 60 mesh, {p60:g} %")
    share = soil_table("lime_fineness")
    fine = p100 * share["through_100"] + (p60 - p100) * share["through_60"] + (p20 - p60) * share["through_20"]
    effective = cce * fine / 100
    return effective, (
        f"fineness = {pencil(p100)} + {share['through_60']} x {pencil(p60 - p100)} + {share['through_20']} x"
        f" {pencil(p20 - p60)} = {pencil(fine)} %; effective value = {pencil(cce)} x {pencil(fine)} / 100"
        f" = {pencil(effective)} %"
    )


def _by_buffer(method: str, table: Any, buffer: float, ph: float, target: float) -> tuple[float, str]:
    """Tons an acre of pure, fine lime at the method's own depth, and how it was reached."""
    if method == "sikora":
        rows = [between(target, table["target_ph"], row) for row in table["tons"]]
        tons = between(buffer, table["buffer_ph"], rows)
        return tons, f"Sikora table, buffer pH {pencil(buffer)} to pH {pencil(target)}"
    if method == "smp":
        lines = [a - b * 10 * buffer for a, b in zip(table["start"], table["slope"], strict=True)]
        tons = max(0.0, between(target, table["target_ph"], lines))
        ends = "; ".join(
            f"to pH {t}: {a} - {b} x {pencil(10 * buffer)} = {pencil(line)}"
            for t, a, b, line in zip(table["target_ph"], table["start"], table["slope"], lines, strict=True)
        )
        return tons, f"SMP lines, {ends}; read at pH {pencil(target)}"
    if method == "mehlich":
        acidity = 4 * (6.6 - buffer)
        within("soil_ph", ph, 3.5, 6.5)
        tons = acidity * (target - ph) / (6.6 - ph)
        return tons, (
            f"acidity = 4 x (6.6 - {pencil(buffer)}) = {pencil(acidity)}; x ({pencil(target)} - {pencil(ph)})"
            f" / (6.6 - {pencil(ph)})"
        )
    hydrogen = 8 * (8 - buffer)
    within("soil_ph", ph, 4.5, 7.0)
    s1, s2 = _saturation(ph), _saturation(target)
    tons = 1000 * hydrogen * (1 - s2 / s1) * 1.5 / 2000
    return tons, (
        f"hydrogen = 8 x (8 - {pencil(buffer)}) = {pencil(hydrogen)}; saturation {s1:.3f} at pH {pencil(ph)}, {s2:.3f}"
        f" at pH {pencil(target)}; 1,000 x {pencil(hydrogen)} x (1 - {s2:.3f} / {s1:.3f}) x 1.5 / 2,000"
    )


def _saturation(ph: float) -> float:
    """Hydrogen saturation (0 to 1) at a pH on the Adams-Evans curve: the smaller root of the quadratic."""
    return (5.55 - math.sqrt(5.55**2 - 4 * 2.27 * (7.79 - ph))) / (2 * 2.27)
