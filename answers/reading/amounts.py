"""Amounts in a letter ("bout 40 x 60", "6 inch trunk", "pH 5.4"), each tied to what it measures.

Not here: the ways of telling one (amount_patterns.py), which amounts a rule needs (kb/rules).
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from answers.reading.amount_patterns import PATTERNS
from answers.reading.numbers import NUMBER, ONE, number
from answers.reading.reading import Measurement, Mention

_HEDGE = re.compile(r"\b(?:about|bout|'bout|abt|around|roughly|approx\w*|maybe|say|nearly|almost|guess)\s*$|~\s*$")
_MAY_BE_NIL = ("n_percent", "p_percent", "k_percent", "temperature_f")
_SIZE_BEFORE_A_PLANT = re.compile(
    rf"(?P<n>{ONE})[\s-]*(?:foot|feet|ft\b\.?|')[\s-]*(?:tall[\s-]*)?(?:[a-z'-]+\s+){{0,2}}$", re.I
)
_BEFORE_A_PLANT = re.compile(
    rf"(?<![\d.,/-])(?P<n>{ONE})\s+(?:(?!inch|feet|foot|ft\b|year|yr|month|week|day|hour|lb|pound|gallon|bag|percent|times?)[a-z'-]+\s+){{0,3}}$",
    re.I,
)
_LED_BY_A_NUMBER = (NUMBER, f"(?P<a>{ONE})")  # tried only where a number begins
_COMPILED = tuple(
    (re.compile(pattern, re.IGNORECASE), pattern.startswith(_LED_BY_A_NUMBER), make) for pattern, make in PATTERNS
)
_A_NUMBER = re.compile(ONE, re.IGNORECASE)


def measurements(text: str, plants: Sequence[Mention] = ()) -> dict[str, Measurement]:
    """Every amount in `text` whose meaning is plain, by name; the first one said of each name is kept.

    `plants` are the plants named in it, so that "five old rhododendrons" is a count.
    """
    found: dict[str, Measurement] = {}
    numbers = [match.start() for match in _A_NUMBER.finditer(text)]
    for pattern, led, make in _COMPILED:
        if led:
            tried = (pattern.match(text, at) for at in numbers)
            matches = [match for match in tried if match]
        else:
            matches = list(pattern.finditer(text))
        for match in matches:
            value, ranged = _amount(match)
            about = ranged or bool(_HEDGE.search(text[: match.start()].lower()))
            for name, result in make(match, value).items():
                if isinstance(result, str) or (math.isfinite(result) and (result > 0 or name in _MAY_BE_NIL)):
                    found.setdefault(name, Measurement(name, result, match.group().strip(), about))
    sides = [found[side].value for side in ("length_ft", "width_ft") if side in found]
    if "area_sqft" not in found and len(sides) == 2 and all(isinstance(v, float) for v in sides):
        words = f"{found['length_ft'].words} ... {found['width_ft'].words}"
        found["area_sqft"] = Measurement("area_sqft", float(sides[0]) * float(sides[1]), words)
    found |= {m.name: m for m in _of_plants(text, plants) if m.name not in found}
    if "count" not in found and (counted := _count_of_plants(text, plants)):
        found["count"] = counted
    return found


def _of_plants(text: str, plants: Sequence[Mention]) -> list[Measurement]:
    """A size just before a plant's name: "a 40-foot oak" is its height, "a 60 foot hedge" a length."""
    found = []
    for plant in plants:
        match = _SIZE_BEFORE_A_PLANT.search(text[max(0, plant.start - 40) : plant.start])
        if match:
            name = "length_ft" if "hedge" in plant.words.lower() else "height_ft"
            found.append(Measurement(name, number(match["n"]), match.group().strip() + " " + plant.words))
    return found


def _count_of_plants(text: str, plants: Sequence[Mention]) -> Measurement | None:
    for plant in plants:
        before = text[max(0, plant.start - 40) : plant.start]
        if match := _BEFORE_A_PLANT.search(before):
            value = number(match["n"])
            if value == int(value) and 2 <= value <= 2000:
                return Measurement("count", value, text[plant.start - len(before) + match.start() : plant.end])
    return None


def _amount(match: re.Match[str]) -> tuple[float, bool]:
    """The number a match holds, the middle of a range; and whether it was a range."""
    groups = match.groupdict()
    if not groups.get("n") or groups["n"].lower() == "acre":
        return 0.0, False
    low = number(groups["n"])
    if groups.get("m"):
        high = number(groups["m"])
        if high > low:
            return (low + high) / 2, True
    return low, False
