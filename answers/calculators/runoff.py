"""Rain running off: the peak flow from an area, and the swale that carries it.

Not here: watering (watering.py). Anything that could flood a house or a neighbor is for an engineer.
"""

from __future__ import annotations

import math

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within
from kb.errors import RangeError

FAMILY = "space"
_CAUTION = ("Water sent toward a building, a neighbor or a road is for an engineer and the local code.",)


def peak_runoff(*, area_sqft: float, rain_in_per_hr: float, coefficient: float = 0.35) -> Figure:
    """Peak runoff by the rational method.

    Args:
        area_sqft: area that drains to the point, 10 to 8,712,000 sq ft (200 acres, the method's usual limit).
        rain_in_per_hr: design storm, 0.1 to 15 in an hour.
        coefficient: share that runs off, 0.05 (sandy lawn) to 1 (roof).

    Returns: cubic feet a second; also gal_per_min.
    Raises: RangeError outside these ranges.
    Formula: Q = C i A with A in acres (1.008 exact, taken as 1).
    Source: the rational method as in highway and soil-conservation handbooks; from memory.
    """
    area = within("area_sqft", area_sqft, 10, 8_712_000, "sq ft")
    rain = within("rain_in_per_hr", rain_in_per_hr, 0.1, 15, "in/h")
    share = within("coefficient", coefficient, 0.05, 1)
    flow = share * rain * area / 43560
    return Figure(
        "peak_runoff",
        "peak runoff",
        flow,
        "cu ft/s",
        {"area_sqft": area, "rain_in_per_hr": rain, "coefficient": share},
        (Step(f"Q = {pencil(share)} x {pencil(rain)} in/h x {pencil(area / 43560)} acres = {pencil(flow)} cu ft/s"),),
        "Q = C i A",
        "The rational method (from memory)",
        {"gal_per_min": flow * 60 * 1728 / 231},
        _CAUTION,
    )


def swale(
    *,
    bottom_width_ft: float,
    depth_ft: float,
    side_slope_ratio: float = 3.0,
    bed_slope_percent: float = 1.0,
    roughness: float = 0.035,
) -> Figure:
    """Flow that a trapezoidal swale carries, by Manning's equation.

    Args:
        bottom_width_ft: width of the bed, 0 to 50 ft.
        depth_ft: depth of water, 0.05 to 6 ft.
        side_slope_ratio: level feet for one foot of height of the side, 0.5 to 10.
        bed_slope_percent: fall along the swale, 0.05 to 20 %.
        roughness: Manning's n, 0.01 (concrete) to 0.4 (tall grass).

    Returns: cubic feet a second; also velocity_ft_s, shear_lb_sqft, top_width_ft.
    Raises: RangeError outside these ranges.
    Formula: Q = 1.486 / n x A x R^(2/3) x S^(1/2); shear = 62.4 x depth x S.
    Source: North Carolina Department of Environmental Quality, Addendum to erosion control calculations (2021).
    """
    bottom = within("bottom_width_ft", bottom_width_ft, 0, 50, "ft")
    depth = within("depth_ft", depth_ft, 0.05, 6, "ft")
    side = within("side_slope_ratio", side_slope_ratio, 0.5, 10)
    fall = within("bed_slope_percent", bed_slope_percent, 0.05, 20, "%") / 100
    n = within("roughness", roughness, 0.01, 0.4)
    area = (bottom + side * depth) * depth
    radius = area / (bottom + 2 * depth * math.hypot(1, side))
    flow = 1.486 / n * area * radius ** (2 / 3) * math.sqrt(fall)
    return Figure(
        "swale",
        "flow carried",
        flow,
        "cu ft/s",
        {
            "bottom_width_ft": bottom,
            "depth_ft": depth,
            "side_slope_ratio": side,
            "bed_slope_percent": fall * 100,
            "roughness": n,
        },
        (
            Step(
                f"water's cross-section = ({pencil(bottom)} + {pencil(side)} x {pencil(depth)}) x {pencil(depth)}"
                f" = {pencil(area)} sq ft"
            ),
            Step(f"hydraulic radius = {pencil(area)} / wetted edge = {pencil(radius)} ft"),
            Step(
                f"Q = 1.486 / {pencil(n)} x {pencil(area)} x {pencil(radius)}^(2/3) x {pencil(fall)}^(1/2)"
                f" = {pencil(flow)} cu ft/s"
            ),
        ),
        "Q = 1.486 / n x A x R^(2/3) x S^(1/2)",
        "North Carolina Department of Environmental Quality: Addendum to erosion control calculations (2021)",
        {
            "velocity_ft_s": flow / area,
            "shear_lb_sqft": 62.4 * depth * fall,
            "top_width_ft": bottom + 2 * side * depth,
        },
        _CAUTION,
    )


def swale_depth(
    *,
    flow_cu_ft_s: float,
    bottom_width_ft: float,
    side_slope_ratio: float = 3.0,
    bed_slope_percent: float = 1.0,
    roughness: float = 0.035,
    freeboard_ft: float = 0.5,
) -> Figure:
    """Depth of water in a swale at a flow, and the height its berm needs.

    Args:
        flow_cu_ft_s: flow to carry, 0.01 to 500 cu ft a second (from peak_runoff).
        bottom_width_ft: width of the bed, 0 to 50 ft.
        side_slope_ratio: level feet for one foot of height of the side, 0.5 to 10.
        bed_slope_percent: fall along the swale, 0.05 to 20 %.
        roughness: Manning's n, 0.01 to 0.4.
        freeboard_ft: dry height kept above the water, 0 to 3 ft.

    Returns: depth of water in ft; also berm_height_ft, velocity_ft_s, top_width_ft.
    Raises: RangeError outside these ranges, or when more than 6 ft of water would stand.
    Formula: Manning's equation (see swale), solved for the depth by halving.
    Source: North Carolina Department of Environmental Quality, Addendum to erosion control calculations (2021).
    """
    flow = within("flow_cu_ft_s", flow_cu_ft_s, 0.01, 500, "cu ft/s")
    freeboard = within("freeboard_ft", freeboard_ft, 0, 3, "ft")
    shape = {
        "bottom_width_ft": bottom_width_ft,
        "side_slope_ratio": side_slope_ratio,
        "bed_slope_percent": bed_slope_percent,
        "roughness": roughness,
    }
    low, high = 0.05, 6.0
    if float(swale(depth_ft=high, **shape).value) < flow:
        raise RangeError("flow_cu_ft_s", f"{flow:g}", "a flow this swale carries at 6 ft or less; widen it")
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (middle, high) if float(swale(depth_ft=middle, **shape).value) < flow else (low, middle)
    found = swale(depth_ft=high, **shape)
    return Figure(
        "swale_depth",
        "depth of water",
        high,
        "ft",
        {"flow_cu_ft_s": flow, **shape, "freeboard_ft": freeboard},
        (
            Step(f"by trial, water {pencil(high)} ft deep carries {pencil(flow)} cu ft/s"),
            *found.steps,
            Step(f"berm = {pencil(high)} ft + {pencil(freeboard)} ft = {pencil(high + freeboard)} ft"),
        ),
        found.formula,
        found.source,
        {
            "berm_height_ft": high + freeboard,
            "velocity_ft_s": found.also["velocity_ft_s"],
            "top_width_ft": found.also["top_width_ft"],
        },
        _CAUTION,
    )
