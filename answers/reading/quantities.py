"""Numbers with their units as they stand in a letter: "bout 40 x 60", "6'2\"", "third of an acre", "inch and a half".

Not here: numbers alone (numbers.py), what a quantity measures (roles.py).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from answers.calculators.units import UNITS, convert
from answers.reading.numbers import FIRST_WORDS, NUMBER, ONE, number
from answers.reading.sentence import HEDGE, INSTEAD, words_of

_ONE = re.compile(ONE, re.IGNORECASE)
_DIGIT = re.compile(r"[\d½¼¾⅓⅔]|\.(?=\d)")
_SQUARE = r"(?:sq\.?|square)[\s-]*"
_SPELLINGS = {  # our unit, or a word for what is no unit of ours -> how it is written
    "sqft": rf"{_SQUARE}(?:feet\b|foot\b|ft\b|')\.?|sf\b|ft2\b|ft²",
    "sqyd": rf"{_SQUARE}y(?:ar)?ds?\b",
    "sqm": rf"{_SQUARE}m(?:et(?:er|re)s?)?\b|m2\b|m²",
    "acre": r"acres?\b|ac\b",
    "ha": r"hectares?\b|ha\b",
    "in": r"inch(?:es)?\b|in\b\.?(?! (?:number|the|my|our|an?|its?|this|that|all|each|every|one|two|three|four|five|"
    r"ten|full|front|back)\b)|\"|''|”|″",
    "ft": r"feet\b|foot(?:ers?)?\b|ft\b\.?|['’′](?![a-z])",
    "yd": r"yards?\b|yds?\b\.?",
    "cm": r"cms?\b|centimet(?:er|re)s?\b",
    "mm": r"mm\b|millimet(?:er|re)s?\b",
    "m": r"met(?:er|re)s?\b|m\b(?!')",
    "lb": r"lbs?\b\.?|pound(?:er)?s?\b|#",
    "kg": r"kgs?\b|kilo(?:gram)?s?\b",
    "oz": r"ounces?\b|oz\b\.?",
    "ton": r"tons?\b",
    "gal": r"gal(?:lon)?s?\b\.?",
    "L": r"lit(?:er|re)s?\b|l\b",
    "qt": r"quarts?\b|qts?\b",
    "pt": r"pints?\b",
    "cup": r"cups?\b",
    "tbsp": r"tablespoons?\b|tbsp?s?\b",
    "tsp": r"teaspoons?\b|tsp\b",
    "cuyd": r"(?:cubic|cu\.?)[\s-]*y(?:ar)?ds?\b",
    "cuft": r"(?:cubic|cu\.?)[\s-]*(?:feet|foot|ft)\b",
    "percent": r"%|percent\b|per cent\b|pct\b",
    "degree": r"degrees?\b|°|º|deg\b",
    "time": r"(?:years?|yrs?|months?|weeks?|wks?|days?|hours?|hrs?|minutes?|mins?|seasons?|summers?|winters?|springs?|"
    r"falls|nights?|mornings?|times|decades?|o'clock|[ap]\.?m)\b",
    "other": r"(?:miles?|blocks?|dollars?|bucks?|cents?|people|(?:grand)?kids?|(?:grand)?children)\b",
}
_UNIT = re.compile(
    r"[\s-]*(?:(?:of\s+)?an?\s+)?(?:" + "|".join(f"(?P<{name}>{spelt})" for name, spelt in _SPELLINGS.items()) + ")",
    re.IGNORECASE,
)
_TOLD = re.compile(NUMBER, re.IGNORECASE)
_PARTS = {"half": 2, "third": 3, "quarter": 4, "fifth": 5, "sixth": 6, "eighth": 8, "tenth": 10}
_NAMED_UNITS = ("acre", "foot", "inch", "yard", "gallon", "pound", "meter", "metre", "hectare")
_NAMED = rf"(?:{'|'.join(_NAMED_UNITS)})\b"
_WITHOUT_A_NUMBER = re.compile(  # "an inch", "foot and a half", "two-thirds of an acre"
    rf"\b(?:(?P<tops>a|one|two|three)[\s-]+)?(?P<part>{'|'.join(_PARTS)})s?[\s-]+(?:of\s+)?(?:an?\s+)?(?={_NAMED})|"
    rf"\b(?:an?|one)[\s-]+(?={_NAMED})|(?<![\w-])(?={_NAMED}[ -]and[ -]a[ -](?:half|quarter)\b)",
    re.IGNORECASE,
)
_AND_A_PART = re.compile(r"[\s-]+and[\s-]+an?[\s-]+(?P<part>half|quarter|third)\b", re.IGNORECASE)
_NOT_BEFORE = re.compile(r"(?:[a-wyz]|\d[.,/:-]?|#|[$£€]\s?)\Z", re.IGNORECASE)
_BETWEEN_SIDES = re.compile(
    r"[\s-]*(?:(?:wide|long|deep|across|(?:along|on|down) (?:the|my|our) \w+),?\s+)?(?:x|×|by)[\s-]*"
    r"(?:about\s+|maybe\s+)?\Z",
    re.IGNORECASE,
)
_SQUARE_WITH = re.compile(r"[\s-]*square\b(?! (?:feet|foot|ft|yard|met))", re.IGNORECASE)
_OF_ONE_UNIT = re.compile(
    r"[\s-]*(?:(?:wide|long|tall|high|deep),?\s+)?(?:x|×|by|and|or|to)\s*(?:about\s+|maybe\s+)?\Z", re.IGNORECASE
)


@dataclass(frozen=True)
class Quantity:
    """A number and its unit: ours ("ft", "lb"), "percent", "degree", "time", "other" or, unsaid, "" ."""

    value: float  # as told; the middle of a range
    unit: str
    start: int
    end: int
    spelt: bool  # in words
    about: bool  # a range, or hedged
    third: bool = False  # after two sides: "4 x 8 x 2"

    @property
    def dimension(self) -> str:
        """length, area, mass or volume; else the unit itself."""
        return UNITS[self.unit][0] if self.unit in UNITS else self.unit

    def size(self, unit: str) -> float:
        """The value in `unit`, one of ours; an unsaid unit is taken to be it."""
        return convert(self.value, self.unit, unit) if self.unit else self.value


def number_starts(text: str) -> list[int]:
    """The places in `text` where a number begins; "2 1/2" is one."""
    digits = [match.start() for match in _DIGIT.finditer(text)]
    words = [start for word, start, _ in words_of(text) if word in FIRST_WORDS]
    starts, end = [], 0
    for at in sorted(digits + words):
        if at >= end and (match := _ONE.match(text, at)):
            starts.append(at)
            end = match.end()
    return starts


def quantities(text: str, starts: list[int]) -> list[Quantity]:
    """Every quantity in `text` in order; `starts` are the places where a number may begin."""
    found: list[Quantity] = []
    for quantity in _told(text, starts):
        last = found[-1] if found else None
        if last and last.unit == "ft" and quantity.value < 12 and _feet_and_inches(text, last, quantity):
            feet_and_inches = last.value + quantity.value / 12
            found[-1] = replace(last, value=feet_and_inches, end=quantity.end)
        else:
            found.append(quantity)
    for at, (first, second) in reversed(list(enumerate(pairwise(found)))):
        box = second.unit == "in" and at > 0 and follows(text, found[at - 1], first)  # "4 x 8 x 12 inches": feet, feet
        of_one = second.dimension == "length" and _OF_ONE_UNIT.match(text[first.end : second.start])
        if not first.unit and of_one and not box:
            found[at] = replace(first, unit=found[at + 1].unit)
    return _as_meant(text, found)


def _feet_and_inches(text: str, feet: Quantity, more: Quantity) -> bool:
    """ "6 feet 2 inches", "5'4"."""
    between = text[feet.end : more.start].strip(" -")
    return between in ("", "and") if more.unit == "in" else not (more.unit or between) and text[feet.end - 1] in "'’′"


def _as_meant(text: str, found: list[Quantity]) -> list[Quantity]:
    """Without the numbers that are taken back for another, which stands in their place."""
    meant: list[Quantity] = []
    for quantity in found:
        last = meant[-1] if meant else None
        if last and quantity.unit in ("", last.unit) and INSTEAD.match(text[last.end : quantity.start]):
            meant[-1] = replace(last, value=quantity.value, end=quantity.end)
        else:
            meant.append(quantity)
    return meant


def sides(text: str, found: list[Quantity]) -> list[tuple[Quantity, Quantity]]:
    """Pairs of lengths with "x" or "by" between: "40 x 60"; of "4 x 8 x 12" the first two; "4 feet square" is one."""
    pairs = [(q, q) for q in found if q.dimension == "length" and _SQUARE_WITH.match(text, q.end)]
    for first, second in pairwise(found):
        lengths = all(q.dimension in ("length", "") for q in (first, second))
        idiom = first.spelt and first.value == second.value and not second.unit  # "one by one"
        if lengths and not idiom and follows(text, first, second) and (not pairs or pairs[-1][1] != first):
            pairs.append((first, second if second.unit else replace(second, unit=first.unit)))
    return pairs


def follows(text: str, side: Quantity, other: Quantity) -> bool:
    """Whether `other` comes after `side` with "x" or "by" between."""
    return bool(_BETWEEN_SIDES.match(text[side.end : other.start]))


def _told(text: str, starts: list[int]) -> Iterator[Quantity]:
    units = any(word in _NAMED_UNITS for word, _, _ in words_of(text))
    wordy = [(match.start(), match) for match in _WITHOUT_A_NUMBER.finditer(text)] if units else []
    plain = [(at, None) for at in starts if not _NOT_BEFORE.search(text[max(0, at - 2) : at])]
    end = 0
    for at, match in sorted([*wordy, *plain], key=lambda found: (found[0], found[1] is None)):
        if at < end:
            continue
        quantity = _worded(text, match) if match else _numbered(text, at)
        if quantity:
            end = quantity.end
            yield quantity


def _worded(text: str, match: re.Match[str]) -> Quantity:
    part = _PARTS[match["part"].lower()] if match["part"] else 1
    return _with_unit(text, match.start(), match.end(), number(match["tops"] or "a") / part, spelt=True, ranged=False)


def _numbered(text: str, at: int) -> Quantity | None:
    match = _TOLD.match(text, at)
    if not match:
        return None
    low, end = number(match["n"]), match.end()
    high = number(match["m"]) if match["m"] else low
    if match["m"] and high <= low:  # "from 7.4 to 6.5" is no range
        high, end = low, match.end("n")
    end -= text[at:end].endswith(",")
    spelt = not any(c.isdigit() or c in "½¼¾⅓⅔" for c in text[at:end])
    return _with_unit(text, at, end, (low + high) / 2, spelt, ranged=high > low)


def _with_unit(text: str, start: int, end: int, value: float, spelt: bool, ranged: bool) -> Quantity:
    unit = _UNIT.match(text, end)
    if unit:
        end = unit.end()
    more = _AND_A_PART.match(text, end) if unit else None
    if more:
        value, end = value + 1 / _PARTS[more["part"].lower()], more.end()
    about = ranged or bool(HEDGE.search(text[max(0, start - 20) : start].lower()))
    return Quantity(value, str(unit.lastgroup) if unit else "", start, end, spelt, about)
