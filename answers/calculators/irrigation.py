"""How much and how often to water: from the weather, the planting, the soil's store, and what the sprinklers put down.

Not here: the day's evapotranspiration (evapotranspiration.py), trees by their trunk (watering.py).
"""

from __future__ import annotations

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within
from answers.calculators.watering import GAL_PER_SQFT_INCH
from kb.errors import RangeError

FAMILY = "water"

_BEST_EFFICIENCY = 100.0


def landscape_water(
    *,
    et_in: float,
    species_factor: float = 0.5,
    density_factor: float = 1.0,
    microclimate_factor: float = 1.0,
    area_sqft: float = 1000.0,
    rain_in: float = 0.0,
    efficiency_percent: float = 75.0,
) -> Figure:
    """Water a planting uses, by crop coefficient or by the landscape coefficient of three factors.

    Args:
        et_in: reference evapotranspiration over the time, 0.001 to 120 in (a day, a week or a year).
        species_factor: the plants' own factor or crop coefficient, 0.05 to 1.4.
        density_factor: 0.5 for sparse to 1.3 for dense and layered planting.
        microclimate_factor: 0.5 for shade and shelter to 1.4 beside paving and wind.
        area_sqft: area, 1 to 10,000,000 sq ft.
        rain_in: rain that soaked in over the time, 0 to 120 in.
        efficiency_percent: of the water let out, the share the roots get, 30 to 100 %.

    Returns: inches the planting needs, before losses and after rain; also coefficient, use_in, applied_in, gallons
        to let out.
    Raises: RangeError outside these ranges.
    Formula: use = ET x species x density x microclimate; let out = (use - rain) / efficiency.
    Source: University of California Cooperative Extension and California Department of Water Resources, A Guide to
        Estimating Irrigation Water Needs of Landscape Plantings (2000), landscape coefficient method.
    """
    et = within("et_in", et_in, 0.001, 120, "in")
    species = within("species_factor", species_factor, 0.05, 1.4)
    density = within("density_factor", density_factor, 0.5, 1.3)
    climate = within("microclimate_factor", microclimate_factor, 0.5, 1.4)
    area = within("area_sqft", area_sqft, 1, 10_000_000, "sq ft")
    rain = within("rain_in", rain_in, 0, 120, "in")
    efficiency = within("efficiency_percent", efficiency_percent, 30, _BEST_EFFICIENCY, "%")
    coefficient = species * density * climate
    use = et * coefficient
    need = max(0.0, use - rain)
    applied = need / efficiency * 100
    gallons = applied * area * GAL_PER_SQFT_INCH
    return Figure(
        "landscape_water",
        "water needed",
        need,
        "in",
        {"et_in": et, "species_factor": species, "density_factor": density, "microclimate_factor": climate}
        | {"area_sqft": area, "rain_in": rain, "efficiency_percent": efficiency},
        (
            Step(f"coefficient = {pencil(species)} x {pencil(density)} x {pencil(climate)} = {pencil(coefficient)}"),
            Step(f"use = {pencil(et)} in x {pencil(coefficient)} = {pencil(use)} in; less rain = {pencil(need)} in"),
            Step(f"let out = {pencil(need)} in / {pencil(efficiency)} % = {pencil(applied)} in"),
            Step(f"in all = {pencil(applied)} in x {pencil(area)} sq ft x 0.623 = {pencil(gallons)} gal"),
        ),
        "need = ET x species x density x microclimate - rain",
        "UC Cooperative Extension and California DWR: A Guide to Estimating Irrigation Water Needs (2000)",
        {"coefficient": coefficient, "use_in": use, "applied_in": applied, "gallons": gallons},
        ("An estimate to start from: look at the plants and the soil, and adjust.",),
    )


def root_zone_water(*, layers: str, depletion_percent: float = 50.0) -> Figure:
    """Water the soil holds for roots, layer by layer.

    Args:
        layers: thickness in inches @ inches of available water per foot, such as "8@1.5 12@1.9"; 1 to 10 layers of
            0.5 to 120 in holding 0.1 to 4 in per foot.
        depletion_percent: share to let dry out before watering, 5 to 95 %.

    Returns: inches held in all; also irrigate_with_in, depth_in.
    Raises: RangeError outside these ranges, or for a layer that cannot be read.
    Formula: sum of thickness / 12 x water per foot; watering = that x depletion.
    Source: University of California Santa Cruz, Teaching Organic Farming and Gardening, unit 2.1, example 1.
    """
    depletion = within("depletion_percent", depletion_percent, 5, 95, "%")
    total = depth = 0.0
    steps = []
    for text in layers.replace(",", " ").split():
        thick_text, _, held_text = text.partition("@")
        thick = within("layers", _number("layers", thick_text, "such as 8@1.5 12@1.9"), 0.5, 120, "in")
        held = within("layers", _number("layers", held_text, "such as 8@1.5 12@1.9"), 0.1, 4, "in per ft")
        water = thick / 12 * held
        total, depth = total + water, depth + thick
        steps.append(Step(f"{pencil(thick)} in / 12 x {pencil(held)} in per ft = {pencil(water)} in"))
    if not 1 <= len(steps) <= 10:
        raise RangeError("layers", f"{len(steps)} layers", "1 to 10 layers, such as 8@1.5 12@1.9")
    steps.append(Step(f"in all {pencil(total)} in; {pencil(depletion)} % of it = {pencil(total * depletion / 100)} in"))
    return Figure(
        "root_zone_water",
        "water the root zone holds",
        total,
        "in",
        {"layers": layers, "depletion_percent": depletion},
        tuple(steps),
        "sum of thickness / 12 x water per foot",
        "University of California Santa Cruz: Teaching Organic Farming and Gardening, unit 2.1",
        {"irrigate_with_in": total * depletion / 100, "depth_in": depth},
    )


def irrigation_schedule(
    *,
    available_water_in_per_ft: float,
    root_depth_in: float,
    et_in_per_day: float,
    coefficient: float = 1.0,
    depletion_percent: float = 50.0,
    efficiency_percent: float = 75.0,
    rate_in_per_hr: float | None = None,
) -> Figure:
    """Days between waterings, and the run time of each.

    Args:
        available_water_in_per_ft: water the soil holds for roots, 0.2 to 4 in per foot.
        root_depth_in: depth of roots, 1 to 120 in.
        et_in_per_day: reference evapotranspiration, 0.01 to 0.6 in a day.
        coefficient: crop or landscape coefficient, 0.05 to 1.4.
        depletion_percent: share of the soil's water to use before watering, 5 to 95 %.
        efficiency_percent: of the water let out, the share the roots get, 30 to 100 %.
        rate_in_per_hr: what the sprinklers put down, 0.05 to 6 in an hour.

    Returns: days between waterings; also held_in, net_in, applied_in, and minutes when the rate is known.
    Raises: RangeError outside these ranges.
    Formula: days = water per foot x depth / 12 x depletion / (ET x coefficient).
    Source: University of Florida IFAS, FAWN crop irrigation tables (1 inch per foot); University of California Santa
        Cruz, unit 2.1.
    """
    held_per_ft = within("available_water_in_per_ft", available_water_in_per_ft, 0.2, 4, "in per ft")
    depth = within("root_depth_in", root_depth_in, 1, 120, "in")
    et = within("et_in_per_day", et_in_per_day, 0.01, 0.6, "in a day")
    k = within("coefficient", coefficient, 0.05, 1.4)
    depletion = within("depletion_percent", depletion_percent, 5, 95, "%")
    efficiency = within("efficiency_percent", efficiency_percent, 30, _BEST_EFFICIENCY, "%")
    rate = None if rate_in_per_hr is None else within("rate_in_per_hr", rate_in_per_hr, 0.05, 6, "in/h")
    held = held_per_ft * depth / 12
    net = held * depletion / 100
    use = et * k
    days, applied = net / use, net / efficiency * 100
    steps = [
        Step(f"soil holds {pencil(held_per_ft)} in x {pencil(depth)} / 12 = {pencil(held)} in"),
        Step(f"use {pencil(depletion)} % of it = {pencil(net)} in before watering"),
        Step(f"plants use {pencil(et)} x {pencil(k)} = {pencil(use)} in a day, so water every {pencil(days)} days"),
        Step(f"let out = {pencil(net)} / {pencil(efficiency)} % = {pencil(applied)} in"),
    ]
    also: dict[str, float | str] = {"held_in": held, "net_in": net, "applied_in": applied}
    inputs = {"available_water_in_per_ft": held_per_ft, "root_depth_in": depth, "et_in_per_day": et, "coefficient": k}
    inputs |= {"depletion_percent": depletion, "efficiency_percent": efficiency}
    if rate is not None:
        inputs["rate_in_per_hr"] = rate
        also["minutes"] = applied / rate * 60
        steps.append(
            Step(f"run = {pencil(applied)} in / {pencil(rate)} in an hour x 60 = {pencil(applied / rate * 60)} min")
        )
    return Figure(
        "irrigation_schedule",
        "days between waterings",
        days,
        "days",
        inputs,
        tuple(steps),
        "days = water held x depletion / daily use",
        "University of Florida IFAS, FAWN: crop irrigation tables, 1 inch per foot",
        also,
        ("If water runs off before the time is up, split the run and let it soak between.", "Keep to local limits."),
    )


def sprinkler_uniformity(*, catches: str, minutes: float = 15.0, wanted_in: float | None = None) -> Figure:
    """Distribution uniformity of sprinklers from a catch-can test (mean of the lowest quarter over the mean of all).

    Args:
        catches: inches caught in each can, such as "0.30 0.32 0.35 0.38"; 4 to 200 cans of 0 to 10 in.
        minutes: how long the sprinklers ran, 1 to 600.
        wanted_in: depth to give the drier parts, 0.05 to 4 in.

    Returns: uniformity from 0 to 1; also average_in, low_quarter_in, rate_in_per_hr, multiplier, and run_minutes when
        a depth is wanted.
    Raises: RangeError outside these ranges, or when a catch is no number.
    Formula: DU = mean of lowest quarter / mean; run time multiplier = 1 / (0.4 + 0.6 DU).
    Source: New Mexico State University, How to Perform a Catch Can Irrigation Audit, H-510; multiplier: Irrigation
        Association, Landscape Irrigation Scheduling (from memory).
    """
    ran = within("minutes", minutes, 1, 600, "min")
    wanted = None if wanted_in is None else within("wanted_in", wanted_in, 0.05, 4, "in")
    depths = sorted(
        within("catches", _number("catches", text, "numbers, such as 0.30 0.32"), 0, 10, "in")
        for text in catches.replace(",", " ").split()
    )
    if not 4 <= len(depths) <= 200 or sum(depths) == 0:
        raise RangeError("catches", f"{len(depths)} cans", "4 to 200 cans with water in them")
    average = sum(depths) / len(depths)
    quarter = depths[: max(1, round(len(depths) / 4))]
    low = sum(quarter) / len(quarter)
    uniformity, rate = low / average, average / ran * 60
    multiplier = 1 / (0.4 + 0.6 * uniformity)
    also: dict[str, float | str] = {"average_in": average, "low_quarter_in": low, "rate_in_per_hr": rate}
    also["multiplier"] = multiplier
    steps = [
        Step(f"mean of {len(depths)} cans = {pencil(average)} in; of the lowest {len(quarter)} = {pencil(low)} in"),
        Step(f"uniformity = {pencil(low)} / {pencil(average)} = {pencil(uniformity)}"),
        Step(f"rate = {pencil(average)} in / {pencil(ran)} min x 60 = {pencil(rate)} in an hour"),
    ]
    inputs: dict[str, float | str] = {"catches": catches, "minutes": ran}
    if wanted is not None:
        inputs["wanted_in"] = wanted
        also["run_minutes"] = wanted / rate * 60 * multiplier
        steps.append(
            Step(f"run = {pencil(wanted)} / {pencil(rate)} x 60 x {pencil(multiplier)} = {also['run_minutes']:.3g} min")
        )
    return Figure(
        "sprinkler_uniformity",
        "distribution uniformity, low quarter",
        uniformity,
        "",
        inputs,
        tuple(steps),
        "DU = mean of lowest quarter / mean of all",
        "New Mexico State University H-510: How to Perform a Catch Can Irrigation Audit",
        also,
        ("Under about 0.6, mend heads and spacing before watering longer.",),
    )


def water_allowance(
    *, et_in_per_year: float, landscape_sqft: float, special_sqft: float = 0.0, et_adjustment: float = 0.55
) -> Figure:
    """Maximum applied water allowance (MAWA) of a landscape in a year.

    Args:
        et_in_per_year: reference evapotranspiration of a year, 10 to 120 in.
        landscape_sqft: irrigated landscape, the special part in it, 1 to 50,000,000 sq ft.
        special_sqft: edible, recreational or reclaimed-water part, 0 to landscape_sqft.
        et_adjustment: the ordinance's factor, 0.3 to 1 (0.55 homes, 0.45 other, 0.7 before 2015).

    Returns: gallons a year; also hcf (hundred cubic feet), gal_per_sqft.
    Raises: RangeError outside these ranges.
    Formula: ET x 0.62 x (factor x landscape + (1 - factor) x special).
    Source: California Model Water Efficient Landscape Ordinance (as enacted by San Diego and Ventura; City of Colton
        O-008-14 for the factor 0.7).
    """
    et = within("et_in_per_year", et_in_per_year, 10, 120, "in")
    area = within("landscape_sqft", landscape_sqft, 1, 50_000_000, "sq ft")
    special = within("special_sqft", special_sqft, 0, area, "sq ft")
    factor = within("et_adjustment", et_adjustment, 0.3, 1.0)
    weighed = factor * area + (1 - factor) * special
    gallons = et * 0.62 * weighed
    return Figure(
        "water_allowance",
        "water allowed in a year",
        gallons,
        "gal",
        {"et_in_per_year": et, "landscape_sqft": area, "special_sqft": special, "et_adjustment": factor},
        (
            Step(
                f"weighed area = {pencil(factor)} x {pencil(area)} + {pencil(1 - factor)} x {pencil(special)}"
                f" = {pencil(weighed)} sq ft"
            ),
            Step(f"allowance = {pencil(et)} in x 0.62 x {pencil(weighed)} = {pencil(gallons)} gal"),
        ),
        "ET x 0.62 x (factor x landscape + (1 - factor) x special)",
        "California Model Water Efficient Landscape Ordinance",
        {"hcf": gallons / 748, "gal_per_sqft": gallons / area},
        ("The rule of one state; use your own town's factor and limits.",),
    )


def _number(field: str, text: str, expected: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise RangeError(field, repr(text), expected) from None
