"""Refusing numbers a formula is not good for: out of range is an error with the field, the value and what is allowed.

Not here: any formula.
"""

from __future__ import annotations

import math

from kb.errors import RangeError


def within(field: str, value: float, low: float, high: float, unit: str = "") -> float:
    """`value` when low <= value <= high, as a float.

    Raises:
        RangeError: outside, or not a finite number.
    """
    tail = f" {unit}" if unit else ""
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise RangeError(field, value, f"a number from {low:g} to {high:g}{tail}")
    if not low <= value <= high:
        raise RangeError(field, f"{value:g}{tail}", f"{low:g} to {high:g}{tail}")
    return float(value)


def one_of(field: str, value: str, allowed: tuple[str, ...]) -> str:
    """`value` when it is one of `allowed`.

    Raises:
        RangeError: otherwise, listing them.
    """
    if value not in allowed:
        raise RangeError(field, repr(value), "one of " + ", ".join(allowed))
    return value
