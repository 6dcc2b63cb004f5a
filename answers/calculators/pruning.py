"""How much may come off: live crown, fruit to leave on a branch, and distances in an orchard.

Not here: roots (root_protection.py) or when to prune (kb/rules).
"""

from __future__ import annotations

import math

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within
from kb.errors import RangeError

FAMILY = "space"


def fruit_to_leave(*, branch_in: float, spacing_in: float) -> Figure:
    """Fruit to leave on a branch when thinning.

    Args:
        branch_in: length of fruiting branch, 2 to 600 in.
        spacing_in: distance between fruits, 2 to 12 in (4 to 8 is usual for tree fruit).

    Returns: whole fruits; also exact.
    Raises: RangeError outside these ranges.
    Formula: fruits = branch / spacing, rounded to whole fruits, at least one.
    Source: North Carolina State University, Fruit tree thinning; Sunset, Thinning fruit trees.
    """
    branch = within("branch_in", branch_in, 2, 600, "in")
    spacing = within("spacing_in", spacing_in, 2, 12, "in")
    exact = branch / spacing
    fruits = max(1, math.floor(exact + 1e-9))
    return Figure(
        "fruit_to_leave",
        "fruits to leave",
        fruits,
        "fruits",
        {"branch_in": branch, "spacing_in": spacing},
        (Step(f"{pencil(branch)} in / {pencil(spacing)} in = {pencil(exact)}, so leave {fruits}"),),
        "fruits = branch / spacing",
        "North Carolina State University: Fruit tree thinning, quick reference",
        {"exact": exact},
    )


def crown_removed(*, live_crown_ft: float, removed_ft: float, height_ft: float) -> Figure:
    """Live crown left after raising the lowest branches of a tree.

    Args:
        live_crown_ft: from lowest live branch to top now, 1 to 300 ft, not more than the height.
        removed_ft: how much of its length is to come off from below, 0 to live_crown_ft.
        height_ft: height of the tree, 2 to 350 ft.

    Returns: percent of the live crown removed; also live_crown_ratio (share of the height left in crown).
    Raises: RangeError outside these ranges.
    Formula: removed / crown; ratio = (crown - removed) / height.
    Source: the quarter-of-the-crown limit and the two-thirds crown ratio are common practice (American National
        Standard A300 gives 25 percent in a season as a usual ceiling; from memory).
    """
    height = within("height_ft", height_ft, 2, 350, "ft")
    crown = within("live_crown_ft", live_crown_ft, 1, min(300, height), "ft")
    removed = within("removed_ft", removed_ft, 0, crown, "ft")
    share, ratio = 100 * removed / crown, (crown - removed) / height
    cautions = ["Leave large limbs and anything off a ladder to an insured arborist."]
    if share > 25:
        cautions.insert(0, "More than a quarter of the live crown in a year: spread it over several years.")
    if ratio < 2 / 3:
        cautions.insert(0, "Less than two thirds of the height would carry leaves: raise it no further.")
    return Figure(
        "crown_removed",
        "live crown removed",
        share,
        "percent",
        {"live_crown_ft": crown, "removed_ft": removed, "height_ft": height},
        (
            Step(f"removed = 100 x {pencil(removed)} / {pencil(crown)} = {pencil(share)} %"),
            Step(
                f"crown left = ({pencil(crown)} - {pencil(removed)}) / {pencil(height)} = {pencil(ratio)} of the height"
            ),
        ),
        "removed / crown",
        "common practice (25 percent in a season; ANSI A300, from memory)",
        {"live_crown_ratio": ratio},
        tuple(cautions),
    )


def orchard_spacing(*, area_sqft: float, spacing_ft: float, row_spacing_ft: float | None = None) -> Figure:
    """Trees on an orchard's grid, and the place for a filler in the middle of four.

    Args:
        area_sqft: area, 10 to 10,000,000 sq ft.
        spacing_ft: between trees in the row, 2 to 100 ft.
        row_spacing_ft: between rows, 2 to 100 ft; the same when not given.

    Returns: trees (by area); also filler_ft, the distance from a tree to the middle of four.
    Raises: RangeError outside these ranges, or when one tree's ground is larger than the area.
    Formula: trees = area / (spacing x row spacing); filler = half the diagonal.
    Source: Apple Growing, Rectangular orchard layout; Macmillan, Farm and Garden Rule-Book.
    """
    area = within("area_sqft", area_sqft, 10, 10_000_000, "sq ft")
    spacing = within("spacing_ft", spacing_ft, 2, 100, "ft")
    rows = spacing if row_spacing_ft is None else within("row_spacing_ft", row_spacing_ft, 2, 100, "ft")
    trees, diagonal = area / (spacing * rows), math.hypot(spacing, rows)
    if trees < 1:
        raise RangeError("area_sqft", f"{area:g} sq ft", f"at least {spacing * rows:g} sq ft, one tree's ground")
    return Figure(
        "orchard_spacing",
        "trees",
        trees,
        "trees",
        {"area_sqft": area, "spacing_ft": spacing, "row_spacing_ft": rows},
        (
            Step(f"trees = {pencil(area)} sq ft / ({pencil(spacing)} x {pencil(rows)}) = {pencil(trees)}"),
            Step(f"middle of four = half of {pencil(diagonal)} ft = {pencil(diagonal / 2)} ft"),
        ),
        "trees = area / (spacing x row spacing)",
        "Macmillan: Farm and Garden Rule-Book; Apple Growing: Rectangular orchard layout",
        {"filler_ft": diagonal / 2},
    )
