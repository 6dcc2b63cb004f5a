"""Amounts in a letter ("bout 40 x 60", "6 inch trunk", "pH 5.4"), each tied to what it measures.

Not here: quantities (quantities.py), what one measures (roles.py), ages and temperatures (a module each), which amounts
a rule needs (kb/rules).
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

from answers.reading.ages import age
from answers.reading.amount_patterns import PATTERNS
from answers.reading.numbers import NUMBER
from answers.reading.quantities import Quantity, follows, number_starts, quantities, sides
from answers.reading.reading import Measurement, Mention
from answers.reading.roles import NOTHING, Roles, features, may_measure, name_of, worth
from answers.reading.screen import Screen
from answers.reading.temperatures import temperature
from answers.reading.weights import A_ROLE

_AT_MOST = {"trunk_diameter_in": 240, "depth_in": 240, "spacing_in": 1200, "height_ft": 380, "slope_percent": 200}
_PH = {"soil_ph": (3.0, 10.0), "target_ph": (3.5, 8.5), "buffer_ph": (4.0, 8.0)}
_COMPILED = tuple(  # a pattern that starts with a number is tried only where a number begins
    (re.compile(pattern, re.IGNORECASE), pattern.startswith(NUMBER), make) for pattern, make in PATTERNS
)
_SCREEN = Screen(pattern for pattern, _ in PATTERNS)
_LESS = re.compile(
    r"\b(?:less|minus|subtract\w*|tak(?:e|es|ing|en) (?:off|away))\b(?! (?:than|on|of|for|in)\b)[^.;?!\n]{0,40}\Z",
    re.IGNORECASE,
)
_LEAST_TAKEN_OFF = 100  # square feet: "minus 3" is no house
_A_BOX_IN_FEET = 4.0  # the most that a bare third side is in feet, unless the box is a cube
_NEXT_WORDS = re.compile(r"(?:[ \t-]+[A-Za-z'’]+){1,2}")


@dataclass(frozen=True)
class Told:
    """The numbers of a letter: where they stand, those in a fixed form, sides ("40 x 60"), the other quantities."""

    starts: list[int]
    fixed: dict[str, Measurement]
    pairs: list[tuple[Quantity, Quantity]]
    loose: list[Quantity]


def told(text: str) -> Told:
    """Every number in `text` by the form it is told in, without its meaning."""
    starts = number_starts(text)
    fixed: dict[str, Measurement] = {}
    taken: list[tuple[int, int]] = []
    for pattern, led, make in (_COMPILED[i] for i in _SCREEN.possible(text)):
        for match in (pattern.match(text, at) for at in starts) if led else pattern.finditer(text):
            if match:
                taken.append(match.span())  # "on 5-10-24" gives no amount, and its numbers are none
                values, words = make(match), match.group().strip()
                fixed = {**{name: Measurement(name, value, words) for name, value in values.items()}, **fixed}
    found = [q for q in quantities(text, starts) if not any(s < q.end and q.start < e for s, e in taken)]
    pairs = sides(text, found)
    paired = {side.start for pair in pairs for side in pair}
    thirds = {q.start: pair for pair, q in product(pairs, found) if follows(text, pair[1], q)}
    loose = [_third(q, thirds[q.start]) if q.start in thirds else q for q in found if q.start not in paired]
    return Told(starts, fixed, pairs, loose)


def _third(side: Quantity, others: tuple[Quantity, Quantity]) -> Quantity:
    """The third side of a box: "4 x 4 x 4" is feet three times, "4 x 8 x 12" is twelve inches."""
    feet = not side.unit and (side.value <= _A_BOX_IN_FEET or side.value == min(q.value for q in others))
    return replace(side, third=True, unit="ft" if feet else side.unit)


def measurements(
    text: str, roles: Roles, plants: Sequence[Mention] = (), year: int | None = None
) -> dict[str, Measurement]:
    """Every amount in `text` whose meaning is plain, by name; of two for one name the surer is kept.

    `roles` tells what a quantity measures; `plants` are those named in it; `year` is the letter's, so that
    "planted in 2019" is an age.
    """
    numbers = told(text)
    found = dict(numbers.fixed)
    if numbers.pairs:
        found |= _of_sides(text, *numbers.pairs[0])
    off = _taken_off(text, numbers)
    for measurement in _in_their_roles(text, [q for q in numbers.loose if q not in off], roles, plants):
        found.setdefault(measurement.name, measurement)
    length, width = found.get("length_ft"), found.get("width_ft")
    if "area_sqft" not in found and length and width:
        area = float(length.value) * float(width.value)
        words = length.words if length.words == width.words else f"{length.words} ... {width.words}"
        found["area_sqft"] = Measurement("area_sqft", area, words, length.about or width.about)
    if off and "area_sqft" in found:
        found["area_sqft"] = _less(text, found["area_sqft"], off)
    found |= {m.name: m for m in (age(text, plants, year), temperature(text, numbers.starts)) if m}
    return found


def _taken_off(text: str, numbers: Told) -> list[Quantity]:
    """Areas that are not of the garden: "80 x 120 less the house, which is 1,600 square feet"."""
    areas = [
        q
        for q in numbers.loose
        if q.dimension == "area" or (numbers.pairs and not q.unit and q.value >= _LEAST_TAKEN_OFF)
    ]
    off = [q for q in areas if _LESS.search(text[: q.start])]
    return off if numbers.pairs or len(off) < len(areas) else []


def _less(text: str, area: Measurement, off: Sequence[Quantity]) -> Measurement:
    """What is left of an area; the area itself when more would be taken off than there is."""
    left = float(area.value) - sum(q.size("sqft") for q in off)
    words = " ... ".join([area.words, *(text[q.start : q.end].rstrip(".") for q in off)])
    return replace(area, value=left, words=words) if left > 0 else area


def _of_sides(text: str, first: Quantity, second: Quantity) -> dict[str, Measurement]:
    low, high = sorted((first.size("ft"), second.size("ft")))
    if not _plausible("width_ft", low):
        return {}
    side = Measurement("length_ft", high, text[first.start : second.end], first.about or second.about)
    return {"length_ft": side, "width_ft": replace(side, name="width_ft", value=low)}


def _in_their_roles(text: str, found: Sequence[Quantity], roles: Roles, plants: Sequence[Mention]) -> list[Measurement]:
    """What the quantities measure, the surest first; each has one role, and each role one quantity."""
    chances = [
        (-chance, place, role)
        for place, near in enumerate(features(text, found, plants, roles.alike))
        for role, chance in (roles.chances(near) if near else {}).items()
        if chance >= A_ROLE and role != NOTHING and role in may_measure(found[place])
    ]
    given: dict[str, Measurement] = {}
    used: set[int] = set()
    for _, place, role in sorted(chances):
        quantity, name = found[place], name_of(role)
        value = worth(quantity, role)
        if name not in given and place not in used and _plausible(name, value):
            given[name] = Measurement(name, value, _words(text, quantity), quantity.about)
            used.add(place)
    return list(given.values())


def _plausible(name: str, value: float) -> bool:
    """Whether anybody could mean it: "a trunk 55 feet from the fence" is no trunk of 660 inches."""
    if name in _PH:
        return _PH[name][0] <= value <= _PH[name][1]
    return math.isfinite(value) and 0 < value <= _AT_MOST.get(name, math.inf)


def _words(text: str, quantity: Quantity) -> str:
    """The quantity as told, with the next two words of the sentence."""
    more = _NEXT_WORDS.match(text, quantity.end)
    return text[quantity.start : more.end() if more else quantity.end].strip()
