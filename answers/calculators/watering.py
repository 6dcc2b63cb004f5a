"""Water for new and established trees by their trunk, and for a lawn or bed by depth.

Not here: how often, from the weather and the soil (irrigation.py), or what the rules say.
"""

from __future__ import annotations

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within
from answers.calculators.units import convert

FAMILY = "water"

GAL_PER_SQFT_INCH = 144 / 231  # exact: 144 cubic inches in 231 to the gallon, 0.623


def tree_watering(
    *, trunk_diameter_in: float, gal_per_in: float = 10.0, hose_gal_per_min: float | None = None
) -> Figure:
    """Water for an established tree at one watering.

    Args:
        trunk_diameter_in: trunk, 0.25 to 60 in.
        gal_per_in: gallons an inch of trunk, 0.5 to 20.
        hose_gal_per_min: the hose's flow, 0.1 to 30 gal a minute.

    Returns: gallons; also liters, and minutes when the flow is known.
    Raises: RangeError outside these ranges.
    Formula: water = trunk x gallons per inch.
    Source: Colorado State University Extension, Winter Watering (as cited by T4 Tree Service), 10 gal an inch.
    """
    trunk = within("trunk_diameter_in", trunk_diameter_in, 0.25, 60, "in")
    per_inch = within("gal_per_in", gal_per_in, 0.5, 20, "gal")
    water = trunk * per_inch
    steps = [Step(f"water = {pencil(trunk)} in x {pencil(per_inch)} gal = {pencil(water)} gal")]
    also: dict[str, float | str] = {"liters": convert(water, "gal", "L")}
    inputs = {"trunk_diameter_in": trunk, "gal_per_in": per_inch}
    if hose_gal_per_min is not None:
        flow = inputs["hose_gal_per_min"] = within("hose_gal_per_min", hose_gal_per_min, 0.1, 30, "gal/min")
        also["minutes"] = water / flow
        steps.append(Step(f"time = {pencil(water)} gal / {pencil(flow)} gal a minute = {pencil(water / flow)} minutes"))
    return Figure(
        "tree_watering",
        "water",
        water,
        "gal",
        inputs,
        tuple(steps),
        "water = trunk x gallons per inch",
        "Colorado State University Extension, as cited by T4 Tree Service: Winter Watering",
        also,
    )


def new_tree_watering(*, trunk_diameter_in: float, gal_per_in: float = 1.5, days_between: float = 1.0) -> Figure:
    """Water for a newly planted tree, whose roots are still in the ball it came with.

    The ball holds only so much, so a longer wait does not call for more at a time.

    Args:
        trunk_diameter_in: trunk, 0.25 to 12 in.
        gal_per_in: gallons an inch of trunk at each watering, 0.25 to 5.
        days_between: days from one watering to the next, 1 to 14.

    Returns: gallons at each watering; also gal_per_week, waterings_a_week, liters.
    Raises: RangeError outside these ranges.
    Formula: water = trunk x gallons an inch; a week = water x 7 / days between.
    Source: eXtension Trees for Energy Conservation, How much should I water my new tree? (1.5 gal an inch a day);
        University of Minnesota Extension (1 to 1.5 gal an inch at each watering).
    """
    trunk = within("trunk_diameter_in", trunk_diameter_in, 0.25, 12, "in")
    rate = within("gal_per_in", gal_per_in, 0.25, 5, "gal")
    between = within("days_between", days_between, 1, 14, "days")
    each = trunk * rate
    week = each * 7 / between
    return Figure(
        "new_tree_watering",
        "water at each watering",
        each,
        "gal",
        {"trunk_diameter_in": trunk, "gal_per_in": rate, "days_between": between},
        (
            Step(f"each watering = {pencil(trunk)} in x {pencil(rate)} gal = {pencil(each)} gal"),
            Step(f"a week = {pencil(each)} gal x 7 / {pencil(between)} days = {pencil(week)} gal"),
        ),
        "water = trunk x gallons an inch",
        "eXtension Trees for Energy Conservation: How much should I water my new tree?",
        {"gal_per_week": week, "waterings_a_week": 7 / between, "liters": convert(each, "gal", "L")},
        ("Feel the root ball first: water on soggy soil drowns a new tree. Rain counts.",),
    )


def lawn_watering(
    *, area_sqft: float, inches: float = 1.0, rate_in_per_hr: float | None = None, waterings: float = 1.0
) -> Figure:
    """Gallons for a depth of water over an area.

    Args:
        area_sqft: area, 1 to 10,000,000 sq ft.
        inches: depth of water, 0.05 to 4 in.
        rate_in_per_hr: what the sprinkler puts down, 0.05 to 6 in an hour (from a catch-can test).
        waterings: in how many waterings to give it, 1 to 14.

    Returns: gallons; also liters, and minutes when the rate is known; inches_each and minutes_each when split.
    Raises: RangeError outside these ranges.
    Formula: gallons = area x depth x 144 / 231.
    Source: California model water-efficient landscape ordinance (factor 0.62); geometry.
    """
    area = within("area_sqft", area_sqft, 1, 10_000_000, "sq ft")
    depth = within("inches", inches, 0.05, 4, "in")
    times = within("waterings", waterings, 1, 14)
    water = area * depth * GAL_PER_SQFT_INCH
    steps = [Step(f"water = {pencil(area)} sq ft x {pencil(depth)} in x 0.623 = {pencil(water)} gal")]
    also: dict[str, float | str] = {"liters": convert(water, "gal", "L")}
    inputs = {"area_sqft": area, "inches": depth, "waterings": times}
    if times > 1:
        also["inches_each"] = depth / times
        steps.append(Step(f"each time = {pencil(depth)} in / {pencil(times)} = {pencil(depth / times)} in"))
    if rate_in_per_hr is not None:
        rate = inputs["rate_in_per_hr"] = within("rate_in_per_hr", rate_in_per_hr, 0.05, 6, "in/h")
        also["minutes"] = minutes = depth / rate * 60
        steps.append(Step(f"time = {pencil(depth)} in / {pencil(rate)} in an hour x 60 = {pencil(minutes)} min"))
        if times > 1:
            also["minutes_each"] = minutes / times
    return Figure(
        "lawn_watering",
        "water",
        water,
        "gal",
        inputs,
        tuple(steps),
        "gallons = area x depth x 144 / 231",
        "City of Colton: Water Efficient Landscape Ordinance O-008-14 (2014)",
        also,
    )
