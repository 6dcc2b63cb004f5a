"""Slopes: steepness said three ways, the ground along them, terraces, steps, and whether mowing is safe.

Not here: water running down them (runoff.py) or plants to hold them (planting.py).
"""

from __future__ import annotations

import math

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within

FAMILY = "space"
STEEPEST_TO_MOW = 33.0  # percent, 3 to 1: the usual limit for mowing; common practice


def slope(*, rise_ft: float, run_ft: float, width_ft: float = 1.0) -> Figure:
    """Steepness of a slope and the ground along it.

    Args:
        rise_ft: height from foot to top, 0.01 to 2,000 ft.
        run_ft: level distance from foot to top, 0.1 to 10,000 ft.
        width_ft: width across the slope, 0.1 to 10,000 ft.

    Returns: percent; also degrees, ratio (run to one of rise), length_ft, surface_sqft.
    Raises: RangeError outside these ranges.
    Formula: percent = 100 x rise / run; length = sqrt(rise^2 + run^2).
    Source: The Tech Edvocate, How to Calculate Slope Percent; geometry. Mowing limit of 3 to 1: common practice.
    """
    rise = within("rise_ft", rise_ft, 0.01, 2000, "ft")
    run = within("run_ft", run_ft, 0.1, 10_000, "ft")
    width = within("width_ft", width_ft, 0.1, 10_000, "ft")
    percent, length = 100 * rise / run, math.hypot(rise, run)
    steep = percent > STEEPEST_TO_MOW
    return Figure(
        "slope",
        "slope",
        percent,
        "percent",
        {"rise_ft": rise, "run_ft": run, "width_ft": width},
        (
            Step(f"percent = 100 x {pencil(rise)} ft / {pencil(run)} ft = {pencil(percent)}"),
            Step(f"along the ground = square root of ({pencil(rise)}^2 + {pencil(run)}^2) = {pencil(length)} ft"),
        ),
        "percent = 100 x rise / run",
        "The Tech Edvocate: How to Calculate Slope Percent",
        {
            "degrees": math.degrees(math.atan2(rise, run)),
            "ratio": run / rise,
            "length_ft": length,
            "surface_sqft": length * width,
        },
        ("Steeper than 3 to 1: too steep to mow safely; plant it instead.",) if steep else (),
    )


def terraces(*, rise_ft: float, run_ft: float, terrace_height_ft: float = 2.0) -> Figure:
    """Terraces for a slope.

    Args:
        rise_ft: height of the slope, 0.5 to 200 ft.
        run_ft: level length of the slope, 0.5 to 2,000 ft.
        terrace_height_ft: height of one wall, 0.25 to 4 ft (higher walls are for an engineer).

    Returns: whole terraces; also depth_ft (level ground on each), wall_height_ft.
    Raises: RangeError outside these ranges.
    Formula: terraces = rise / height, rounded up; depth = run / terraces.
    Source: How to terrace a hill landscape (garden article, in the given reference file).
    """
    rise = within("rise_ft", rise_ft, 0.5, 200, "ft")
    run = within("run_ft", run_ft, 0.5, 2000, "ft")
    height = within("terrace_height_ft", terrace_height_ft, 0.25, 4, "ft")
    count = math.ceil(round(rise / height, 9))
    return Figure(
        "terraces",
        "terraces",
        count,
        "terraces",
        {"rise_ft": rise, "run_ft": run, "terrace_height_ft": height},
        (
            Step(f"terraces = {pencil(rise)} ft / {pencil(height)} ft, rounded up = {count}"),
            Step(f"depth of each = {pencil(run)} ft / {count} = {pencil(run / count)} ft"),
        ),
        "terraces = rise / height, rounded up; depth = run / terraces",
        "How to terrace a hill landscape (garden article)",
        {"depth_ft": run / count, "wall_height_ft": rise / count},
        ("Walls that hold back more than a few feet of soil, or a slope that moves, are work for an engineer.",),
    )


def steps(*, rise_ft: float, run_ft: float, riser_in: float = 6.0) -> Figure:
    """Garden steps for a slope.

    Args:
        rise_ft: height to climb, 0.3 to 200 ft.
        run_ft: level distance, 0.3 to 1,000 ft.
        riser_in: height of one step, 3 to 9 in.

    Returns: whole steps; also exact, tread_in, riser_in.
    Raises: RangeError outside these ranges.
    Formula: steps = rise / riser, rounded up; tread = run / steps.
    Source: eHow UK, How to build outdoor steps on a steep incline.
    """
    rise = within("rise_ft", rise_ft, 0.3, 200, "ft")
    run = within("run_ft", run_ft, 0.3, 1000, "ft")
    riser = within("riser_in", riser_in, 3, 9, "in")
    exact = rise * 12 / riser
    count = math.ceil(round(exact, 9))
    return Figure(
        "steps",
        "steps",
        count,
        "steps",
        {"rise_ft": rise, "run_ft": run, "riser_in": riser},
        (
            Step(f"steps = {pencil(rise * 12)} in / {pencil(riser)} in = {pencil(exact)}, rounded up to {count}"),
            Step(f"tread = {pencil(run * 12)} in / {count} = {pencil(run * 12 / count)} in"),
        ),
        "steps = rise / riser, rounded up; tread = run / steps",
        "eHow UK: How to build outdoor steps on a steep incline",
        {"exact": exact, "tread_in": run * 12 / count, "even_riser_in": rise * 12 / count},
    )
