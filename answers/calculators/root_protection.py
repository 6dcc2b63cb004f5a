"""A tree's critical root zone, and the share of it lost to a trench, a bed, paving or fill of any outline.

Not here: feeding (tree_size.py). The geometry is shapely's.
"""

from __future__ import annotations

import math
from typing import Any

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within
from kb.errors import RangeError

FAMILY = "space"
WARN_AT, STOP_AT = 10.0, 25.0  # percent of the zone lost: watch it, and ask an arborist first; common practice
_SIDES = 64  # quarter-circle segments: the polygon's area is within 0.01 % of the circle's


def critical_root_zone(
    *, trunk_diameter_in: float | None = None, height_ft: float | None = None, factor_ft_per_in: float = 1.0
) -> Figure:
    """Critical root zone of a tree, by trunk, or by height for narrow crowns.

    Args:
        trunk_diameter_in: trunk at 4.5 ft, 0.5 to 120 in.
        height_ft: height, 1 to 350 ft; used when the trunk is not given.
        factor_ft_per_in: radius an inch of trunk, 0.5 to 1.5 ft.

    Returns: radius in ft; also area_sqft.
    Raises: RangeError outside these ranges, or with neither measurement.
    Formula: radius = trunk x factor; or 0.4 x height.
    Source: Vancouver (Washington) Municipal Code 20.170.100; Southwest Journal, Protect trees from construction (2003);
        University of Minnesota Extension, Protecting Trees from Construction Damage (height).
    """
    factor = within("factor_ft_per_in", factor_ft_per_in, 0.5, 1.5, "ft/in")
    height = None if height_ft is None else within("height_ft", height_ft, 1, 350, "ft")
    if trunk_diameter_in is not None:
        trunk = within("trunk_diameter_in", trunk_diameter_in, 0.5, 120, "in")
        radius, how = trunk * factor, f"{pencil(trunk)} in x {pencil(factor)} ft"
    elif height is not None:
        trunk, radius, how = None, 0.4 * height, f"0.4 x {pencil(height)} ft"
    else:
        raise RangeError("trunk_diameter_in", "nothing", "the trunk diameter or the height")
    area = math.pi * radius**2
    given = {"trunk_diameter_in": trunk, "height_ft": height, "factor_ft_per_in": factor}
    return Figure(
        "critical_root_zone",
        "critical root zone, radius",
        radius,
        "ft",
        {k: v for k, v in given.items() if v is not None},
        (
            Step(f"radius = {how} = {pencil(radius)} ft"),
            Step(f"area = 3.1416 x {pencil(radius)}^2 = {pencil(area)} sq ft"),
        ),
        "radius = trunk x factor, or 0.4 x height",
        "Vancouver (Washington) Municipal Code 20.170.100; University of Minnesota Extension",
        {"area_sqft": area},
    )


def root_zone_lost(*, radius_ft: float, outline: str, depth_in: float = 12.0) -> Figure:
    """Share of a root zone taken by a trench, bed, paving or fill.

    Args:
        radius_ft: radius of the critical root zone, 1 to 180 ft.
        outline: corners of what takes it, in feet east and north of the trunk, as "x,y x,y x,y"; 3 to 200 corners.
        depth_in: how deep it cuts or covers, 0.5 to 240 in (shown, not reckoned with).

    Returns: percent of the zone; also lost_sqft, nearest_ft (to the trunk).
    Raises: RangeError outside these ranges, or for an outline that crosses itself.
    Formula: area of outline within the circle / area of the circle.
    Source: geometry (shapely). Warning levels of 10 and 25 percent: common practice.
    """
    radius = within("radius_ft", radius_ft, 1, 180, "ft")
    depth = within("depth_in", depth_in, 0.5, 240, "in")
    from shapely.geometry import Point, Polygon

    shape: Any = Polygon(_corners(outline))
    if not shape.is_valid or shape.area == 0:
        raise RangeError("outline", outline, "an outline that encloses ground and does not cross itself")
    circle: Any = Point(0, 0).buffer(radius, quad_segs=_SIDES)
    lost = float(circle.intersection(shape).area)
    share = 100 * lost / float(circle.area)
    cautions: tuple[str, ...] = ("Have buried lines marked before you dig.",)
    if share >= STOP_AT:
        cautions = ("A quarter or more of the root zone: a qualified arborist must judge this first.", *cautions)
    elif share >= WARN_AT:
        cautions = ("More than a tenth of the root zone: go around it if you can, and water in drought.", *cautions)
    return Figure(
        "root_zone_lost",
        "root zone lost",
        share,
        "percent",
        {"radius_ft": radius, "outline": outline, "depth_in": depth},
        (
            Step(f"root zone = 3.1416 x {pencil(radius)}^2 = {pencil(math.pi * radius**2)} sq ft"),
            Step(f"of it within the outline = {pencil(lost)} sq ft = {pencil(share)} %"),
        ),
        "outline within the circle / circle",
        "geometry; warning levels: common practice",
        {"lost_sqft": lost, "nearest_ft": float(shape.distance(Point(0, 0)))},
        cautions,
    )


def _corners(outline: str) -> list[tuple[float, float]]:
    expected = 'corners as "x,y x,y x,y", in feet from the trunk, each within 1,000 ft'
    corners = []
    for pair in outline.split():
        try:
            x, y = (float(number) for number in pair.split(","))
        except ValueError:
            raise RangeError("outline", repr(pair), expected) from None
        if not (abs(x) <= 1000 and abs(y) <= 1000):
            raise RangeError("outline", repr(pair), expected)
        corners.append((x, y))
    if not 3 <= len(corners) <= 200:
        raise RangeError("outline", f"{len(corners)} corners", "3 to 200 corners")
    return corners
