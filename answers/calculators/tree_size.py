"""A tree's root zone and the fertilizer for it: on the surface, in drilled holes or by liquid injection.

Not here: watering (watering.py), lawns (fertilizer.py), roots to protect (root_protection.py).
"""

from __future__ import annotations

import math

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import one_of, within
from answers.calculators.soil_tables import soil_table
from kb.errors import RangeError

FAMILY = "soil"

_METHODS = ("surface", "drill-hole", "injection")
_MARK_LINES = "Have buried lines marked before you drill or push a probe in."
_OFF_PAVING = "Keep fertilizer off paving and away from water."


def tree_root_zone(
    *,
    crown_spread_ft: float | None = None,
    trunk_diameter_in: float | None = None,
    radius_multiple: float = 1.0,
    paved_sqft: float = 0.0,
) -> Figure:
    """Root-zone area of a tree, from the crown if known, else from the trunk at 1 ft of radius an inch.

    Args:
        crown_spread_ft: crown from branch tip to branch tip, 1 to 150 ft.
        trunk_diameter_in: trunk at 4.5 ft, 0.5 to 120 in; used when the crown is not given.
        radius_multiple: root radius as a multiple of the crown's radius, 0.5 to 3.
        paved_sqft: paving and buildings within the zone, 0 sq ft to less than the zone.

    Returns: sq ft; also radius_ft, gross_sqft.
    Raises: RangeError outside these ranges, or with neither measurement.
    Formula: area = 3.1416 x radius^2 - paving.
    Source: University of Kentucky, Fertilization (root area from the crown); Vancouver (Washington) Municipal Code
        20.170.100 (1 ft of radius an inch of trunk).
    """
    multiple = within("radius_multiple", radius_multiple, 0.5, 3)
    if trunk_diameter_in is not None:
        trunk_diameter_in = within("trunk_diameter_in", trunk_diameter_in, 0.5, 120, "in")
    if crown_spread_ft is not None:
        spread = within("crown_spread_ft", crown_spread_ft, 1, 150, "ft")
        radius = spread / 2 * multiple
        how = f"radius = {pencil(spread)} ft / 2 x {pencil(multiple)} = {pencil(radius)} ft"
    elif trunk_diameter_in is not None:
        radius = trunk_diameter_in * multiple
        how = f"radius = {pencil(trunk_diameter_in)} in x 1 ft per inch x {pencil(multiple)} = {pencil(radius)} ft"
    else:
        raise RangeError("crown_spread_ft", "nothing", "the crown spread or the trunk diameter")
    gross = math.pi * radius**2
    paved = within("paved_sqft", paved_sqft, 0, gross * 0.999, "sq ft")
    inputs = {"crown_spread_ft": crown_spread_ft, "trunk_diameter_in": trunk_diameter_in}
    return Figure(
        "tree_root_zone",
        "root zone",
        gross - paved,
        "sq ft",
        {k: v for k, v in inputs.items() if v is not None} | {"radius_multiple": multiple, "paved_sqft": paved},
        (
            Step(how),
            Step(
                f"area = 3.1416 x {pencil(radius)} ft x {pencil(radius)} ft - {pencil(paved)} sq ft paved"
                f" = {pencil(gross - paved)} sq ft"
            ),
        ),
        "area = 3.1416 x radius^2 - paving",
        "University of Kentucky: Fertilization; Vancouver (Washington) Municipal Code 20.170.100",
        {"radius_ft": radius, "gross_sqft": gross},
    )


def tree_fertilizer(
    *,
    root_zone_sqft: float,
    rate_lb_n_per_1000sqft: float,
    n_percent: float,
    method: str = "surface",
    hole_spacing_ft: float = 2.0,
    mix_lb_per_100gal: float = 20.0,
    flow_gal_per_min: float = 2.0,
) -> Figure:
    """Fertilizer for a root zone, with the holes or injection points if it goes into the ground.

    Args:
        root_zone_sqft: area to feed, 1 to 100,000 sq ft.
        rate_lb_n_per_1000sqft: nitrogen, 0.1 to 6 lb per 1,000 sq ft (6 is the historic upper limit).
        n_percent: nitrogen in the product, 1 to 100 %.
        method: surface, drill-hole or injection.
        hole_spacing_ft: distance between holes or points, 1 to 4 ft.
        mix_lb_per_100gal: for injection, product in 100 gallons of water, 1 to 100 lb.
        flow_gal_per_min: for injection, flow of the probe, 0.2 to 10 gal a minute.

    Returns: pounds of product; also n_lb, lb_per_1000sqft, and holes, lb_per_hole, oz_per_hole (drill-hole) or
        points, gallons, gal_per_point, seconds_per_point, pressure_psi (injection; a range in words).
    Raises: RangeError outside these ranges.
    Formula: product = rate x area / 1000 / (N % / 100); holes or points = area / spacing^2;
        gallons = product / mix x 100; seconds = gallons a point / flow x 60.
    Source: The Washington Post, Defeating Deficiencies (University of Illinois shade tree trials, 1977) for the
        product; Garden Guides, How to Inject Liquid Fertilizer for Adult Trees, for injection; hole grid by
        geometry; pressure and hole depth by common practice (kb/tables/soil.yaml).
    """
    area = within("root_zone_sqft", root_zone_sqft, 1, 100_000, "sq ft")
    rate = within("rate_lb_n_per_1000sqft", rate_lb_n_per_1000sqft, 0.1, 6, "lb N per 1,000 sq ft")
    n = within("n_percent", n_percent, 1, 100, "%")
    one_of("method", method, _METHODS)
    spacing = within("hole_spacing_ft", hole_spacing_ft, 1, 4, "ft")
    mix = within("mix_lb_per_100gal", mix_lb_per_100gal, 1, 100, "lb in 100 gallons")
    flow = within("flow_gal_per_min", flow_gal_per_min, 0.2, 10, "gallons a minute")
    n_lb = rate * area / 1000
    product = n_lb / (n / 100)
    steps = [
        Step(f"nitrogen = {pencil(rate)} lb x {pencil(area)} sq ft / 1,000 = {pencil(n_lb)} lb"),
        Step(f"product = {pencil(n_lb)} lb / {pencil(n / 100)} = {pencil(product)} lb"),
    ]
    inputs = {"root_zone_sqft": area, "rate_lb_n_per_1000sqft": rate, "n_percent": n, "method": method}
    also: dict[str, float | str] = {"n_lb": n_lb, "lb_per_1000sqft": product / area * 1000}
    cautions = [_OFF_PAVING, *([_MARK_LINES] if method != "surface" else [])]
    holes = max(1, round(area / spacing**2))
    grid = f"{pencil(area)} sq ft / ({pencil(spacing)} ft x {pencil(spacing)} ft) = {holes}"
    trade = soil_table("tree_feeding")
    if method == "drill-hole":
        low, high = trade["hole_depth_in"]
        inputs["hole_spacing_ft"] = spacing
        also |= {"holes": holes, "lb_per_hole": product / holes, "oz_per_hole": product / holes * 16}
        steps.append(Step(f"holes, {low} to {high} in deep = {grid}"))
        steps.append(Step(f"a hole = {pencil(product)} lb / {holes} = {pencil(product / holes * 16)} oz"))
    elif method == "injection":
        low, high = trade["pressure_psi"]
        gallons = product / mix * 100
        point = gallons / holes
        inputs |= {"hole_spacing_ft": spacing, "mix_lb_per_100gal": mix, "flow_gal_per_min": flow}
        also |= {"points": holes, "gallons": gallons, "gal_per_point": point, "seconds_per_point": point / flow * 60}
        also["pressure_psi"] = f"{low} to {high}"
        steps.append(Step(f"mix = {pencil(product)} lb / {pencil(mix)} lb x 100 gal = {pencil(gallons)} gal"))
        steps.append(Step(f"points = {grid}"))
        steps.append(
            Step(
                f"a point = {pencil(gallons)} gal / {holes} = {pencil(point)} gal; at {pencil(flow)} gal a minute"
                f" {pencil(point / flow * 60)} seconds, at {low} to {high} psi"
            )
        )
        cautions.append("Injection at pressure is a tradesman's job: eye protection, sound hoses, no one near the tip.")
    if rate > 4:
        cautions.append("More than 4 lb of nitrogen per 1,000 sq ft in a year is above present advice.")
    return Figure(
        "tree_fertilizer",
        "fertilizer for the root zone",
        product,
        "lb",
        inputs,
        tuple(steps),
        "product = rate x area / 1000 / (N % / 100); holes or points = area / spacing^2",
        "The Washington Post: Defeating Deficiencies (University of Illinois shade tree trials, 1977)"
        + ("; Garden Guides: How to Inject Liquid Fertilizer for Adult Trees" if method == "injection" else "")
        + (f"; {trade['source']}" if method != "surface" else ""),
        also,
        tuple(cautions),
    )


def tree_fertilizer_by_trunk(*, trunk_diameter_in: float, lb_per_in: float, n_percent: float) -> Figure:
    """Fertilizer for a tree by the old rule of pounds of product an inch of trunk.

    Args:
        trunk_diameter_in: trunk at 4.5 ft, 0.5 to 60 in.
        lb_per_in: product an inch of trunk, 0.1 to 8 lb (5 of a low-nitrogen product is published).
        n_percent: nitrogen in the product, 1 to 46 %.

    Returns: pounds of product; also n_lb, n_lb_per_1000sqft over a zone of 1 ft of radius an inch.
    Raises: RangeError outside these ranges.
    Formula: product = lb an inch x diameter.
    Source: WKBW television, Fertilizing Trees (5 lb of a low-nitrogen product an inch).
    """
    trunk = within("trunk_diameter_in", trunk_diameter_in, 0.5, 60, "in")
    each = within("lb_per_in", lb_per_in, 0.1, 8, "lb an inch")
    n = within("n_percent", n_percent, 1, 46, "%")
    product = trunk * each
    n_lb = product * n / 100
    zone = math.pi * trunk**2
    density = n_lb / zone * 1000
    return Figure(
        "tree_fertilizer_by_trunk",
        "fertilizer by trunk",
        product,
        "lb",
        {"trunk_diameter_in": trunk, "lb_per_in": each, "n_percent": n},
        (
            Step(f"product = {pencil(each)} lb x {pencil(trunk)} in = {pencil(product)} lb"),
            Step(f"nitrogen = {pencil(product)} lb x {pencil(n)} / 100 = {pencil(n_lb)} lb"),
            Step(f"over 3.1416 x {pencil(trunk)} ft x {pencil(trunk)} ft: {pencil(density)} lb N per 1,000 sq ft"),
        ),
        "product = lb an inch x diameter",
        "WKBW television: Fertilizing Trees",
        {"n_lb": n_lb, "n_lb_per_1000sqft": density},
        (
            "An old rule that overfeeds small trees; the root-zone area is the better base.",
            *(["That is above the present limit for a year; use the root-zone area."] if density > 4 else []),
            _OFF_PAVING,
        ),
    )


def tree_nitrogen_left(
    *,
    root_zone_sqft: float,
    given_this_year_lb_n_per_1000sqft: float = 0.0,
    given_earlier_lb_n_per_1000sqft: float = 0.0,
    yearly_limit_lb_n_per_1000sqft: float = 4.0,
    period_limit_lb_n_per_1000sqft: float = 6.0,
    period_years: float = 4.0,
) -> Figure:
    """Nitrogen a tree may still be given under a yearly and a multi-year limit.

    Args:
        root_zone_sqft: area to feed, 1 to 100,000 sq ft.
        given_this_year_lb_n_per_1000sqft: nitrogen given this year, 0 to 20 lb per 1,000 sq ft.
        given_earlier_lb_n_per_1000sqft: nitrogen in the earlier years of the period, 0 to 60 lb per 1,000 sq ft.
        yearly_limit_lb_n_per_1000sqft: most in a year, 0.5 to 6 lb (4 by default, from memory of trade practice).
        period_limit_lb_n_per_1000sqft: most in the period, 1 to 24 lb (6 by default, from memory of trade practice).
        period_years: length of the period, 2 to 10 years.

    Returns: pounds of nitrogen per 1,000 sq ft left; also n_lb, left_this_year, left_in_period.
    Raises: RangeError outside these ranges.
    Formula: left = the smaller of (yearly limit - this year) and (period limit - this year - earlier), not below 0.
    Source: arithmetic; limits from memory of the tree-care trade's fertilizing standard: check the current edition.
    """
    area = within("root_zone_sqft", root_zone_sqft, 1, 100_000, "sq ft")
    now = within("given_this_year_lb_n_per_1000sqft", given_this_year_lb_n_per_1000sqft, 0, 20, "lb")
    earlier = within("given_earlier_lb_n_per_1000sqft", given_earlier_lb_n_per_1000sqft, 0, 60, "lb")
    year = within("yearly_limit_lb_n_per_1000sqft", yearly_limit_lb_n_per_1000sqft, 0.5, 6, "lb")
    period = within("period_limit_lb_n_per_1000sqft", period_limit_lb_n_per_1000sqft, 1, 24, "lb")
    years = within("period_years", period_years, 2, 10, "years")
    this_year, in_period = max(0.0, year - now), max(0.0, period - now - earlier)
    left = min(this_year, in_period)
    return Figure(
        "tree_nitrogen_left",
        "nitrogen still allowed",
        left,
        "lb per 1,000 sq ft",
        {"root_zone_sqft": area, "given_this_year_lb_n_per_1000sqft": now}
        | {"given_earlier_lb_n_per_1000sqft": earlier, "yearly_limit_lb_n_per_1000sqft": year}
        | {"period_limit_lb_n_per_1000sqft": period, "period_years": years},
        (
            Step(f"this year: {pencil(year)} - {pencil(now)} leaves {pencil(this_year)} lb"),
            Step(
                f"in {pencil(years)} years: {pencil(period)} - {pencil(now)} - {pencil(earlier)} leaves"
                f" {pencil(in_period)} lb"
            ),
            Step(f"the smaller, {pencil(left)} lb x {pencil(area)} sq ft / 1,000 = {pencil(left * area / 1000)} lb"),
        ),
        "left = smaller of yearly limit - this year and period limit - this year - earlier",
        soil_table("tree_feeding")["source"],
        {"n_lb": left * area / 1000, "left_this_year": this_year, "left_in_period": in_period},
        ("Feed a tree only when it needs it; count what the lawn over its roots was given.",),
    )
