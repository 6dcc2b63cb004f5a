"""Exact conversion factors, and quantities as people write them: "1/2 acre", "40x60 ft", "25 kg".

Not here: which amount in a letter means what (answers/reading/amounts.py). Factors: NIST SP 811 (2008), appendix B.
"""

from __future__ import annotations

import re

from kb.errors import UnitError

# unit -> (quantity, size in the quantity's first unit)
_FT, _LB, _GAL = 0.3048, 0.45359237, 3.785411784
UNITS: dict[str, tuple[str, float]] = {
    **{
        u: ("length", f)
        for u, f in {"ft": 1.0, "in": 1 / 12, "yd": 3.0, "m": 1 / _FT, "cm": 0.01 / _FT, "mm": 0.001 / _FT}.items()
    },
    **{u: ("area", f) for u, f in {"sqft": 1.0, "sqin": 1 / 144, "sqyd": 9.0, "acre": 43560.0}.items()},
    **{u: ("area", f) for u, f in {"sqm": 1 / _FT**2, "ha": 10000 / _FT**2}.items()},
    **{u: ("mass", f) for u, f in {"lb": 1.0, "oz": 1 / 16, "ton": 2000.0, "kg": 1 / _LB, "g": 0.001 / _LB}.items()},
    **{
        u: ("volume", f)
        for u, f in {"gal": 1.0, "qt": 0.25, "pt": 0.125, "cup": 1 / 16, "floz": 1 / 128, "tbsp": 1 / 256}.items()
    },
    **{u: ("volume", f) for u, f in {"tsp": 1 / 768, "L": 1 / _GAL, "mL": 0.001 / _GAL, "m3": 1000 / _GAL}.items()},
    **{u: ("volume", f) for u, f in {"cuft": 1728 / 231, "cuyd": 27 * 1728 / 231}.items()},
    "F": ("temperature", 1.0),
    "C": ("temperature", 1.8),
}
_SPELLINGS = {
    **dict.fromkeys(("feet", "foot", "'", "’"), "ft"),
    **dict.fromkeys(("inch", "inches", '"', "”"), "in"),
    **dict.fromkeys(("yard", "yards", "yds"), "yd"),
    **dict.fromkeys(("meter", "meters", "metre", "metres"), "m"),
    **dict.fromkeys(("sq ft", "square feet", "square foot", "sf", "ft2"), "sqft"),
    **dict.fromkeys(("sq yd", "square yards", "square yard"), "sqyd"),
    **dict.fromkeys(("sq m", "square meters", "square metres", "m2"), "sqm"),
    **dict.fromkeys(("acres", "ac"), "acre"),
    **dict.fromkeys(("hectare", "hectares"), "ha"),
    **dict.fromkeys(("pound", "pounds", "lbs", "#"), "lb"),
    **dict.fromkeys(("ounce", "ounces"), "oz"),
    **dict.fromkeys(("gram", "grams"), "g"),
    **dict.fromkeys(("kilo", "kilos", "kilogram", "kilograms", "kgs"), "kg"),
    **dict.fromkeys(("tons",), "ton"),
    **dict.fromkeys(("gallon", "gallons", "gals"), "gal"),
    **dict.fromkeys(("quart", "quarts", "qts"), "qt"),
    **dict.fromkeys(("pint", "pints", "pts"), "pt"),
    **dict.fromkeys(("cups",), "cup"),
    **dict.fromkeys(("fl oz", "fluid ounce", "fluid ounces"), "floz"),
    **dict.fromkeys(("tablespoon", "tablespoons", "tbs"), "tbsp"),
    **dict.fromkeys(("teaspoon", "teaspoons"), "tsp"),
    **dict.fromkeys(("l", "liter", "liters", "litre", "litres"), "L"),
    **dict.fromkeys(("ml", "milliliter", "milliliters", "millilitres"), "mL"),
    **dict.fromkeys(("cu ft", "cubic feet", "cubic foot", "ft3"), "cuft"),
    **dict.fromkeys(("cu yd", "cubic yards", "cubic yard", "yd3"), "cuyd"),
    **dict.fromkeys(("°f", "f", "fahrenheit"), "F"),
    **dict.fromkeys(("°c", "c", "celsius"), "C"),
}
_NUMBER = r"(?:\d{1,6}/\d{1,6}|(?:\d{1,3}(?:,\d{3})+|\d{1,12})(?:[ -]\d{1,6}/\d{1,6}|\.\d+)?|\.\d+)"
_FEET_INCHES = re.compile(rf"({_NUMBER})\s*(?:ft|feet|foot|'|’)\s*({_NUMBER})\s*(?:in|inch|inches|\"|”)")
_BY = re.compile(rf"({_NUMBER})\s*([a-z'\"’”]*)\s*(?:x|×|by)\s*({_NUMBER})\s*([a-z'\"’” ]*)")
_ONE = re.compile(rf"([+-]?{_NUMBER})\s*(.*)")


def number_written(text: str, field: str = "value") -> float:
    """A number without a unit, as written: "1,500", "2 1/2". A comma parts thousands and nothing else.

    Raises:
        UnitError: naming `field` and the text.
    """
    one = _ONE.fullmatch(text.strip())
    if one is None or one[2]:
        raise UnitError(field, text, "a number")
    return _number(one[1])


def unit_named(text: str) -> str | None:
    """Our name of a unit as written, or None."""
    text = " ".join(text.replace(".", "").split())
    return text if text in UNITS else _SPELLINGS.get(text.lower(), text.lower() if text.lower() in UNITS else None)


def convert(value: float, from_unit: str, to_unit: str) -> float:
    """`value` in another unit of the same quantity.

    Raises:
        UnitError: for an unknown unit or one of another quantity.
    """
    for unit in (from_unit, to_unit):
        if unit not in UNITS:
            raise UnitError("unit", unit, "one of " + ", ".join(UNITS))
    quantity, size = UNITS[from_unit]
    if quantity != UNITS[to_unit][0]:
        raise UnitError(from_unit, f"{value} {from_unit}", f"a unit of {UNITS[to_unit][0]}, such as {to_unit}")
    if from_unit == to_unit:
        return value
    if quantity == "temperature":
        return value * 1.8 + 32 if to_unit == "F" else (value - 32) / 1.8
    return value * size / UNITS[to_unit][1]


def parse_quantity(text: str, to_unit: str, field: str = "value") -> float:
    """A quantity as written, in `to_unit`; a bare number is taken to be in it already.

    Raises:
        UnitError: naming `field`, the text and what was expected.
    """
    if to_unit not in UNITS:
        raise UnitError("unit", to_unit, "one of " + ", ".join(UNITS))
    plain = text.strip().lower()
    expected = f"a number, or a number with a unit of {UNITS[to_unit][0]} ({to_unit})"
    by = _BY.fullmatch(plain)
    if by and UNITS[to_unit][0] == "area":
        second = (
            unit_named(by[4]) or (unit_named(by[2]) if not by[4].strip() else None) or ("ft" if not by[4] else None)
        )
        first = unit_named(by[2]) if by[2] else second
        if first and second and UNITS[first][0] == UNITS[second][0] == "length":
            sides = convert(_number(by[1]), first, "ft") * convert(_number(by[3]), second, "ft")
            return convert(sides, "sqft", to_unit)
    both = _FEET_INCHES.fullmatch(plain)
    if both and UNITS[to_unit][0] == "length":
        return convert(_number(both[1]) + _number(both[2]) / 12, "ft", to_unit)
    one = _ONE.fullmatch(plain)
    if one is None:
        raise UnitError(field, text, expected)
    value = _number(one[1])
    if not one[2]:
        return value
    unit = unit_named(one[2]) or unit_named(text.strip()[len(one[1]) :].strip())
    if unit is None or UNITS[unit][0] != UNITS[to_unit][0]:
        raise UnitError(field, text, expected)
    return convert(value, unit, to_unit)


def _number(text: str) -> float:
    sign = -1.0 if text.startswith("-") else 1.0
    total = 0.0
    for part in re.split(r"[ -]", text.lstrip("+-").replace(",", "")):
        top, _, bottom = part.partition("/")
        if bottom and float(bottom) == 0:
            raise UnitError("number", text, "a fraction that does not divide by zero")
        total += float(top) / float(bottom or 1)
    return sign * total
