"""What a sprayer or a spreader really puts out, from a measured test run.

Not here: how much product then goes in the tank (sprayer.py), or how much nutrient is wanted (fertilizer.py).
"""

from __future__ import annotations

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within
from kb.errors import RangeError

FAMILY = "spray"

_CAUTION = "Calibrate with clean water, at the pace and pressure of the real job, and again when either changes."
_MOST_OFF = 0.05  # a nozzle this far from the mean is worn or plugged; common practice is 5 to 10 percent


def sprayer_calibration(*, water_used_floz: float, test_width_ft: float, test_length_ft: float) -> Figure:
    """Output of a hand-held or backpack sprayer over a measured strip.

    Args:
        water_used_floz: water it took, 0.5 to 10,000 fl oz.
        test_width_ft: width sprayed, 0.5 to 100 ft.
        test_length_ft: length walked, 3 to 5,000 ft.

    Returns: gallons per 1,000 sq ft; also gal_per_acre, area_sqft, and course_ft (the length at this width over which
        the ounces used are the gallons an acre, 1/128 acre).
    Raises: RangeError outside these ranges, or when the output comes to over 100 gal per 1,000 sq ft.
    Formula: output = ounces / 128 / (width x length) x 1000.
    Source: North Carolina State University, Backpack Sprayer Calibration Worksheet; Virginia Cooperative Extension
        456-502 (as cited by North American Fruit Explorers).
    """
    water = within("water_used_floz", water_used_floz, 0.5, 10_000, "fl oz")
    width = within("test_width_ft", test_width_ft, 0.5, 100, "ft")
    length = within("test_length_ft", test_length_ft, 3, 5000, "ft")
    area = width * length
    output = water / 128 / area * 1000
    within("water_used_floz", output, 0, 100, "gal per 1,000 sq ft")
    return Figure(
        "sprayer_calibration",
        "sprayer output",
        output,
        "gal per 1,000 sq ft",
        {"water_used_floz": water, "test_width_ft": width, "test_length_ft": length},
        (
            Step(f"strip = {pencil(width)} ft x {pencil(length)} ft = {pencil(area)} sq ft"),
            Step(f"output = {pencil(water)} fl oz / 128 / {pencil(area)} x 1,000 = {pencil(output)} gal"),
            Step(f"an acre = {pencil(output)} gal x 43.56 = {pencil(output * 43.56)} gal"),
        ),
        "output = water / (width x length)",
        "North Carolina State University: Backpack Sprayer Calibration Worksheet",
        {"gal_per_acre": output * 43.56, "area_sqft": area, "course_ft": 43560 / 128 / width},
        (_CAUTION,),
    )


def boom_sprayer_output(*, nozzle_catches_floz: str, speed_mph: float, nozzle_spacing_in: float) -> Figure:
    """Output of a boom sprayer from what its nozzles put out in one minute.

    Args:
        nozzle_catches_floz: fluid ounces caught in one minute from each nozzle, such as "30 31 29"; each 0.5 to 640.
        speed_mph: ground speed, 0.5 to 15 miles an hour.
        nozzle_spacing_in: between nozzles, or the width of one spray band, 2 to 720 in.

    Returns: gallons per acre; also gal_per_1000sqft, mean_floz, worst_off_percent, nozzles_to_check.
    Raises: RangeError outside these ranges, or when a catch is no number.
    Formula: GPA = 5940 x gallons a minute / (mph x inches).
    Source: University of Florida IFAS Extension, Calibration of Herbicide Applicators, WG013, equation 1.
    """
    speed = within("speed_mph", speed_mph, 0.5, 15, "mph")
    spacing = within("nozzle_spacing_in", nozzle_spacing_in, 2, 720, "in")
    catches = [
        within("nozzle_catches_floz", _number(text), 0.5, 640, "fl oz")
        for text in nozzle_catches_floz.replace(",", " ").split()
    ]
    if not catches:
        raise RangeError("nozzle_catches_floz", "nothing", "one catch for each nozzle")
    mean = sum(catches) / len(catches)
    gallons = mean / 128
    acre = 5940 * gallons / (speed * spacing)
    off = [abs(c - mean) / mean for c in catches]
    return Figure(
        "boom_sprayer_output",
        "boom sprayer output",
        acre,
        "gal per acre",
        {"nozzle_catches_floz": nozzle_catches_floz, "speed_mph": speed, "nozzle_spacing_in": spacing},
        (
            Step(f"one nozzle = {pencil(mean)} fl oz / 128 = {pencil(gallons)} gal a minute"),
            Step(f"output = 5,940 x {pencil(gallons)} / ({pencil(speed)} x {pencil(spacing)}) = {pencil(acre)} gal"),
        ),
        "GPA = 5940 x gallons a minute / (mph x inches)",
        "University of Florida IFAS Extension WG013: Calibration of Herbicide Applicators",
        {
            "gal_per_1000sqft": acre / 43.56,
            "mean_floz": mean,
            "worst_off_percent": max(off) * 100,
            "nozzles_to_check": sum(o > _MOST_OFF + 1e-9 for o in off),
        },
        (_CAUTION,),
    )


def spreader_calibration(
    *, product_caught_lb: float, swath_ft: float, run_ft: float, wanted_lb_per_1000sqft: float | None = None
) -> Figure:
    """What a drop or rotary spreader puts out at one setting.

    Args:
        product_caught_lb: product that came out over the run, 0.01 to 500 lb.
        swath_ft: width covered (a rotary spreader: the effective width), 0.5 to 60 ft.
        run_ft: length pushed, 3 to 2,000 ft.
        wanted_lb_per_1000sqft: product wanted, 0.05 to 200 lb per 1,000 sq ft.

    Returns: pounds of product per 1,000 sq ft; also area_sqft, and percent_of_wanted when that is given.
    Raises: RangeError outside these ranges, or when the output comes to over 1,000 lb per 1,000 sq ft.
    Formula: output = caught / (swath x run) x 1000.
    Source: Consumer Reports, How to calibrate a drop spreader (2006); Louisiana State University AgCenter, broadcast
        spreader calibration, steps 3 to 5.
    """
    caught = within("product_caught_lb", product_caught_lb, 0.01, 500, "lb")
    swath, run = within("swath_ft", swath_ft, 0.5, 60, "ft"), within("run_ft", run_ft, 3, 2000, "ft")
    area = swath * run
    output = caught / area * 1000
    within("product_caught_lb", output, 0, 1000, "lb per 1,000 sq ft")
    inputs = {"product_caught_lb": caught, "swath_ft": swath, "run_ft": run}
    also: dict[str, float | str] = {"area_sqft": area}
    steps = [
        Step(f"strip = {pencil(swath)} ft x {pencil(run)} ft = {pencil(area)} sq ft"),
        Step(f"output = {pencil(caught)} lb / {pencil(area)} x 1,000 = {pencil(output)} lb per 1,000 sq ft"),
    ]
    if wanted_lb_per_1000sqft is not None:
        wanted = within("wanted_lb_per_1000sqft", wanted_lb_per_1000sqft, 0.05, 200, "lb")
        inputs["wanted_lb_per_1000sqft"] = wanted
        also["percent_of_wanted"] = output / wanted * 100
        turn = "close the setting" if output > wanted * 1.05 else "open it" if output < wanted * 0.95 else "it is right"
        steps.append(
            Step(f"{pencil(output)} / {pencil(wanted)} = {pencil(output / wanted * 100)} % of what is wanted: {turn}")
        )
    return Figure(
        "spreader_calibration",
        "spreader output",
        output,
        "lb per 1,000 sq ft",
        inputs,
        tuple(steps),
        "output = caught / (swath x run)",
        "Consumer Reports: How to calibrate a drop spreader (2006)",
        also,
        ("Half the rate each way, crosswise, evens out streaks. Sweep up what falls on paving.",),
    )


def spray_for_plants(*, plant_water_floz: float, plants: float) -> Figure:
    """Spray to wet a number of like plants, from the water that wets one.

    Args:
        plant_water_floz: water caught in the time it takes to wet one plant, 0.1 to 2,000 fl oz.
        plants: plants to spray, 1 to 100,000.

    Returns: gallons of spray.
    Raises: RangeError outside these ranges.
    Formula: spray = water a plant x plants / 128.
    Source: Pesticide Environmental Stewardship, Hose-end Sprayer Calibration.
    """
    each = within("plant_water_floz", plant_water_floz, 0.1, 2000, "fl oz")
    count = within("plants", plants, 1, 100_000)
    spray = each * count / 128
    return Figure(
        "spray_for_plants",
        "spray needed",
        spray,
        "gal",
        {"plant_water_floz": each, "plants": count},
        (Step(f"spray = {pencil(each)} fl oz x {pencil(count)} / 128 = {pencil(spray)} gal"),),
        "spray = water a plant x plants / 128",
        "Pesticide Environmental Stewardship: Hose-end Sprayer Calibration",
        {},
        (_CAUTION,),
    )


def _number(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise RangeError("nozzle_catches_floz", repr(text), "numbers with spaces between, such as 30 31 29") from None
