"""`trug kb coverage`: plants x problems x months as text, and as a picture.

Not here: the counting (kb/coverage.py).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from html import escape

from kb.coverage import ALL_YEAR, Coverage, PlantCoverage
from kb.load import Knowledge

_CELL, _LEFT, _TOP = 13, 170, 190
_SHADES = ((0, "#f3efe6"), (4, "#dcebc9"), (8, "#b4d492"), (14, "#7fb069"), (99, "#3f7d4e"))
_GAP = "#c8553d"


def as_text(found: Coverage, k: Knowledge) -> Iterator[str]:
    """A line for each group, a figure for each month, and the gaps."""
    groups: dict[str, list[PlantCoverage]] = defaultdict(list)
    for row in found.plants:
        groups[row.plant.group].append(row)
    yield f"{'group':24}{'plants':>7}{'problems':>9}   problems answered a plant, January to December"
    for group in sorted(groups):
        rows = groups[group]
        problems = {p for row in rows for p in row.months}
        months = [sum(len(row.in_month(m)) for row in rows) / len(rows) for m in ALL_YEAR]
        yield f"{group:24}{len(rows):7}{len(problems):9}   " + " ".join(f"{m:4.0f}" for m in months)
    yield ""
    yield from _gaps("Problems that no rule answers", [p.id for p in found.unanswered])
    yield from _gaps("Plants that only rules for their group answer", [p.id for p in found.only_general])
    bare = [row.plant.id for row in found.plants if not row.months]
    yield from _gaps("Plants that no rule answers", bare)
    yield from _gaps("Groups without a plant", [g for g in k.groups if g not in groups and g not in _wider(k)])


def _wider(k: Knowledge) -> set[str]:
    return {wider for wider in k.groups.values() if wider}


def _gaps(title: str, names: list[str]) -> Iterator[str]:
    yield f"{title}: {len(names)}" + (f" ({', '.join(names)})" if names else "")


def as_svg(found: Coverage, k: Knowledge) -> str:
    """Rows are plants by group; left block the months shaded by problems answered, right block a dot a problem."""
    rows = sorted(found.plants, key=lambda r: (k.lineage(r.plant.group)[::-1], r.plant.common))
    problems = sorted(k.problems, key=lambda p: (k.problems[p].sort, p))
    across = _LEFT + 13 * _CELL
    width, height = across + len(problems) * _CELL + 20, _TOP + len(rows) * _CELL + 20
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" '
        'font-family="sans-serif" font-size="9">',
        "<title>Plants x problems x months that a rule answers</title>",
        f'<rect width="{width}" height="{height}" fill="#fffdf8"/>',
    ]
    for i, letter in enumerate("JFMAMJJASOND"):
        parts.append(f'<text x="{_LEFT + i * _CELL + 3}" y="{_TOP - 4}">{letter}</text>')
    for i, problem in enumerate(problems):
        x = across + i * _CELL + 9
        fill = "#333" if problem in k.rules_by_problem else _GAP
        parts.append(f'<text transform="translate({x},{_TOP - 4}) rotate(-90)" fill="{fill}">{escape(problem)}</text>')
    for j, row in enumerate(rows):
        parts += _svg_row(row, _TOP + j * _CELL, across, problems)
    return "\n".join([*parts, "</svg>", ""])


def _svg_row(row: PlantCoverage, y: int, across: int, problems: list[str]) -> Iterator[str]:
    fill = "#333" if row.months else _GAP
    yield f'<text x="{_LEFT - 6}" y="{y + 10}" text-anchor="end" fill="{fill}">{escape(row.plant.common)}</text>'
    for i, month in enumerate(ALL_YEAR):
        count = len(row.in_month(month))
        shade = next(color for most, color in _SHADES if count <= most)
        yield (
            f'<rect x="{_LEFT + i * _CELL}" y="{y}" width="{_CELL - 1}" height="{_CELL - 1}" fill="{shade}">'
            f"<title>{escape(row.plant.common)}, month {month}: {count} problems</title></rect>"
        )
    for i, problem in enumerate(problems):
        if problem in row.months:
            yield f'<circle cx="{across + i * _CELL + 6}" cy="{y + 6}" r="3.5" fill="#3f7d4e"/>'
