"""Numbers with their units, as people write them."""

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.reading.amounts import told
from answers.reading.numbers import FIRST_WORDS, ONE
from answers.reading.quantities import number_starts, quantities, sides


def found(text):
    """(value, unit) of each quantity in `text`."""
    return [(pytest.approx(q.value), q.unit) for q in every(text)]


def every(text):
    """The quantities in `text`."""
    return quantities(text, number_starts(text))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("40 feet from the well, 10 of them", [(40, "ft"), (10, "")]),
        ("bout 40 x 60", [(40, ""), (60, "")]),
        ("two-thirds of an acre", [(2 / 3, "acre")]),
        ("a third of an acre or 1/4 acre", [(1 / 3, "acre"), (0.25, "acre")]),
        ("an acre and a half", [(1.5, "acre")]),
        ("6'2\" tall", [(6 + 2 / 12, "ft")]),
        ("five foot 2 inches", [(5 + 2 / 12, "ft")]),
        ("as tall as me (5'4) and as wide", [(5 + 4 / 12, "ft")]),
        ("it is 5' 40 of them", [(5, "ft"), (40, "")]),
        ("my single pear", [(1, "")]),
        ("3 and a half inches at the ground, 2 and a quarter ft", [(3.5, "in"), (2.25, "ft")]),
        ("forty foot and thirteen inches thick", [(40, "ft"), (13, "in")]),  # thirteen inches are no part of a foot
        ("foot and a half wide, inch and a half deep", [(1.5, "ft"), (1.5, "in")]),
        ("an inch, a foot", [(1, "in"), (1, "ft")]),
        ("from 7.4 to 6.5", [(7.4, ""), (6.5, "")]),  # no range: it falls
        ("40 or 50 feet", [(45, "ft")]),
        ("4 1/2 m by 3 m", [(4.5, "m"), (3, "m")]),
        ("four by eight feet", [(4, "ft"), (8, "ft")]),
        ("a couple hundred feet", [(200, "ft")]),
        ("1,500 sq. ft. and 200 square metres", [(1500, "sqft"), (200, "sqm")]),
        ("one in three", [(1, ""), (3, "")]),  # no inch
        ("seven currant bushes", [(7, "")]),  # no cubic anything
        ("$150 and #3", []),
        ("a gallon-and-a-half sprayer", [(1.5, "gal")]),
        ("both pears, a pair of figs, the couple by the door", [(2, ""), (2, ""), (2, "")]),
        ("nothing here", []),
    ],
)
def test_a_quantity_is_a_number_and_its_unit(text, expected):
    """Fractions, ranges, feet with inches, unsaid numbers and metric units; prices are left out."""
    assert found(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("4x8 bed 12 inches deep", [(4, 8)]),
        ("16' by 4', made", [(16, 4)]),
        ("20 ft. long by 4 wide", [(20, 4)]),
        ("2 metres by 5", [(2, 5)]),
        ("a bin 4 ft square", [(4, 4)]),
        ("a six-by-nine plot", [(6, 9)]),
        ("4 square feet", []),
        ("leaves come off one by one", []),  # a way of speaking
        ("three plants and 5 feet", []),
    ],
)
def test_sides_have_an_x_or_by_between(text, expected):
    """The two sides of a bed or lawn; a square has two alike."""
    assert [(a.value, b.value) for a, b in sides(text, every(text))] == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Twenty pound sack. No, twenty-five.", [(25, "lb")]),
        ("it reads 6.6, no wait, 6.1", [(6.1, "")]),
        ("a trunk of 9 inches, I mean 12 inches", [(12, "in")]),
        ("ten, make that eleven, roses", [(11, "")]),
        ("3 trees, no 9 footers among them", [(3, ""), (9, "ft")]),  # another unit: nothing is taken back
        ("there were 8 figs. No fruit in 4 summers", [(8, ""), (4, "time")]),
    ],
)
def test_a_number_taken_back_gives_way_to_the_one_meant(text, expected):
    """As people correct themselves on the telephone; the words around the first still tell what it measures."""
    assert found(text) == expected


@pytest.mark.parametrize(("text", "third"), [("3 x 6 x 10 inches", [10]), ("5 by 5 by 4", [4]), ("4 x 8, 12 in.", [])])
def test_a_third_side_is_known_as_one(text, third):
    """A box's third side is its height or depth; roles.py learns which."""
    assert [q.value for q in told(text).loose if q.third] == third


def test_a_hedge_or_a_range_makes_it_rough():
    """A guess stays a guess."""
    assert [q.about for q in every("bout 40 feet, 6 or 8 feet, 9 feet")] == [True, True, False]


@given(st.text(max_size=200))
def test_any_text_gives_quantities_in_order(text):
    """Finite values, in order, that do not overlap."""
    end = 0
    for quantity in every(text):
        assert math.isfinite(quantity.value)
        assert end <= quantity.start < quantity.end <= len(text)
        end = quantity.end


_PIECES = sorted(FIRST_WORDS | {"12", "1/2", "½", ".5", "1,200", "4x8", "of", "forty-five", "an oak", "pH", "x", "and"})


@given(st.lists(st.sampled_from(_PIECES), max_size=12).map(" ".join))
def test_numbers_begin_where_a_search_for_them_finds_one(text):
    """The very places that a search of the whole text by the standard library finds."""
    assert number_starts(text) == [match.start() for match in re.finditer(ONE, text, re.IGNORECASE)]
