"""Our conversion factors against pint (the outside check), and quantities as people write them."""

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.units import UNITS, convert, parse_quantity
from kb.errors import UnitError

PINT = pint.UnitRegistry()
IN_PINT = {
    "ft": "foot",
    "in": "inch",
    "yd": "yard",
    "m": "meter",
    "cm": "centimeter",
    "mm": "millimeter",
    "sqft": "foot**2",
    "sqin": "inch**2",
    "sqyd": "yard**2",
    "acre": "acre",
    "sqm": "meter**2",
    "ha": "hectare",
    "lb": "pound",
    "oz": "ounce",
    "ton": "short_ton",
    "kg": "kilogram",
    "g": "gram",
    "gal": "gallon",
    "qt": "quart",
    "pt": "pint",
    "cup": "cup",
    "floz": "fluid_ounce",
    "tbsp": "tablespoon",
    "tsp": "teaspoon",
    "L": "liter",
    "mL": "milliliter",
    "m3": "meter**3",
    "cuft": "foot**3",
    "cuyd": "yard**3",
    "F": "degF",
    "C": "degC",
}
FIRST = {"length": "ft", "area": "sqft", "mass": "lb", "volume": "gal", "temperature": "F"}


@pytest.mark.parametrize("unit", UNITS)
def test_a_factor_is_pints(unit):
    """Every unit converts as pint converts it (the survey acre differs by two parts in a million)."""
    to = FIRST[UNITS[unit][0]]
    expected = PINT.Quantity(7.5, IN_PINT[unit]).to(IN_PINT[to]).magnitude
    assert convert(7.5, unit, to) == pytest.approx(expected, rel=5e-6)


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("1/2 acre", "sqft", 21780),
        ("40x60 ft", "sqft", 2400),
        ("40 x 60", "sqft", 2400),
        ("3 m", "ft", 9.8425),
        ("25 kg", "lb", 55.1156),
        ("2 1/2 gal", "gal", 2.5),
        ("12,000", "sqft", 12000),
        ("72F", "F", 72),
        ("20 C", "F", 68),
        ("-5", "F", -5),
        ("1 pint", "floz", 16),
        ("5 ft 6 in", "ft", 5.5),
    ],
)
def test_a_quantity_is_read_as_written(text, unit, value):
    """Fractions, commas, sides and metric units; a bare number is in the unit asked for."""
    assert parse_quantity(text, unit) == pytest.approx(value, rel=1e-4)


@pytest.mark.parametrize("text", ["5 furlongs", "ten", "", "5 lb", "x", "1/0", "12,34", "1,2,3", "2.5 1/2", "9" * 400])
def test_what_cannot_be_read_is_refused(text):
    """An unknown unit, another quantity, no number or a division by zero: an error, never a guess."""
    with pytest.raises(UnitError):
        parse_quantity(text, "ft", "height_ft")


@given(st.sampled_from(sorted(UNITS)), st.sampled_from(sorted(UNITS)), st.floats(-1e6, 1e6))
def test_there_and_back_again(one, other, value):
    """Converting to another unit of the same quantity and back changes nothing."""
    if UNITS[one][0] == UNITS[other][0]:
        back = convert(convert(value, one, other), other, one)
        assert math.isclose(back, value, rel_tol=1e-9, abs_tol=1e-6)
