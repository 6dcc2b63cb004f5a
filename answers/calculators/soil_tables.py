"""Looking a number up in the soil tables, and between two of their rows.

Not here: the numbers and their sources (kb/tables/soil.yaml).
"""

from __future__ import annotations

from functools import cache
from typing import Any


@cache
def soil_table(name: str) -> Any:
    """One table of kb/tables/soil.yaml."""
    from importlib.resources import files

    from kb.yaml_lines import read_yaml

    return read_yaml((files("kb") / "tables" / "soil.yaml").read_text("utf-8"), "soil.yaml", [])[name]


def between(x: float, xs: list[float], ys: list[float]) -> float:
    """Straight-line interpolation in an ascending table; x is within it."""
    for i in range(len(xs) - 1):
        if xs[i] <= x <= xs[i + 1]:
            return ys[i] + (ys[i + 1] - ys[i]) * (x - xs[i]) / (xs[i + 1] - xs[i])
    raise AssertionError(f"{x} was let past its range check")
