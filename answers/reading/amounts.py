"""Amounts in a letter ("bout 40 x 60", "6 inch trunk", "pH 5.4"), each tied to what it measures.

Not here: the ways of telling one (amount_patterns.py), which amounts a rule needs (kb/rules).
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from answers.reading import amount_patterns, loose_patterns
from answers.reading.numbers import NUMBER, ONE, number
from answers.reading.reading import Measurement, Mention
from answers.reading.screen import Screen

_HEDGE = re.compile(r"\b(?:about|bout|'bout|abt|around|roughly|approx\w*|maybe|say|nearly|almost|guess)\s*$|~\s*$")
_AT_MOST = {"trunk_diameter_in": 240, "depth_in": 240, "spacing_in": 1200, "height_ft": 380, "temperature_f": 150}
_MAY_BE_NIL = ("n_percent", "p_percent", "k_percent", "temperature_f")
_SIZE_BEFORE_A_PLANT = re.compile(
    rf"(?P<n>{ONE})[\s-]*(?P<u>foot|feet|ft\b\.?|'|inch(?:es)?|\"|”)[\s-]*(?:tall[\s-]*|cal\w*\s+)?(?:[a-z'-]+\s+){{0,2}}$",
    re.I,
)
_BEFORE_A_PLANT = re.compile(
    rf"(?<![\d.,/x-]){NUMBER}\s+(?:of\s+(?:my|our|the|these|those)\s+)?(?:(?!acres?\b|ac\b|sq|of\b|inch|feet|foot|ft\b|year|yr|month|week|day|hour|lb|pound|gallon|bag|percent|times?)[a-z'-]+\s+){{0,3}}$",
    re.I,
)
_NOT_A_HEIGHT = (
    r"from|away|of\b|in\b|rows?|apart|by|x|wide|long|deep|square|down|up|off|behind|on|between|centers?|around|"
    r"through|to|across|back|below"
)
_BARE_FEET = re.compile(
    rf"(?<!within )(?<!every )(?<!by )(?<!x )(?<![\d.]){NUMBER}[\s-]*(?P<u>feet|foot|ft\b\.?|'|met(?:er|re)s?)"
    rf"(?![\s-]*(?:{_NOT_A_HEIGHT}))",
    re.I,
)
_PLANTED_IN = re.compile(
    r"\b(?:planted|set out|put in|went in|started|bought)\s+(?:(?:[\w'-]+\s+){0,8}?in\s+)?(?P<year>(?:19|20)\d\d)\b",
    re.I,
)
_STARTS = (ONE, NUMBER, f"(?P<a>{ONE})", f"(?P<n>{ONE})", rf"\b(?P<n>{ONE})", rf"(?<![\d.,/$-]){NUMBER}")
_PATTERNS = (*amount_patterns.PATTERNS, *loose_patterns.PATTERNS)
_COMPILED = tuple(  # a pattern that starts with a number is tried only where a number begins
    (re.compile(pattern, re.IGNORECASE), pattern.startswith(_STARTS), make) for pattern, make in _PATTERNS
)
_SCREEN = Screen(pattern for pattern, _ in _PATTERNS)
_A_NUMBER = re.compile(rf"(?=[\d.½¼¾⅓⅔]|\b[adefhnoqstz]){ONE}", re.IGNORECASE)  # with what a number may begin


def measurements(text: str, plants: Sequence[Mention] = (), year: int | None = None) -> dict[str, Measurement]:
    """Every amount in `text` whose meaning is plain, by name; the first one said of each name is kept.

    `plants` are the plants named in it, so that five of one is a count; `year` is the letter's, so that
    "planted in 2019" is an age.
    """
    found: dict[str, Measurement] = {}
    used: list[tuple[int, int]] = []
    numbers = [match.start() for match in _A_NUMBER.finditer(text)]
    for pattern, led, make in (_COMPILED[i] for i in _SCREEN.possible(text)):
        if led:
            tried = (pattern.match(text, at) for at in numbers)
            matches = [match for match in tried if match]
        else:
            matches = list(pattern.finditer(text))
        for match in matches:
            value, ranged = _amount(match)
            about = ranged or bool(_HEDGE.search(text[max(0, match.start() - 20) : match.start()].lower()))
            for name, result in make(match, value).items():
                if isinstance(result, str) or _plausible(name, result):
                    found.setdefault(name, Measurement(name, result, match.group().strip(), about))
                    used.append(match.span())
    sides = [found[side].value for side in ("length_ft", "width_ft") if side in found]
    if "area_sqft" not in found and len(sides) == 2 and all(isinstance(v, float) for v in sides):
        told = f"{found['length_ft'].words} ... {found['width_ft'].words}"
        found["area_sqft"] = Measurement("area_sqft", float(sides[0]) * float(sides[1]), told)
    found |= {m.name: m for m in _of_plants(text, plants) if m.name not in found}
    if "height_ft" not in found and plants and (height := _bare_feet(text, numbers, used)):
        found["height_ft"] = height
    if year and "age_years" not in found and (planted := _PLANTED_IN.search(text)):
        age = year - int(planted["year"])
        if 0 < age <= 150:
            found["age_years"] = Measurement("age_years", float(age), planted.group())
    if "count" not in found and (counted := _count_of_plants(text, plants)):
        found["count"] = counted
    return found


def _plausible(name: str, value: float) -> bool:
    """Whether anybody could mean it: "a trunk 55 feet from the fence" is no trunk of 660 inches."""
    return math.isfinite(value) and (value > 0 or name in _MAY_BE_NIL) and value <= _AT_MOST.get(name, math.inf)


def _bare_feet(text: str, numbers: Sequence[int], used: Sequence[tuple[int, int]]) -> Measurement | None:
    """Feet that no other way of telling claims: a plant's height, as in "it is 22 ft, needles purple"."""
    for match in filter(None, (_BARE_FEET.match(text, at) for at in numbers)):
        if any(start < match.end() and match.start() < end for start, end in used):
            continue
        value, ranged = _amount(match)
        feet = value / 0.3048 if match["u"].lower().startswith("m") else value
        if 0.5 <= feet <= 200:
            return Measurement("height_ft", feet, match.group().strip(), ranged)
    return None


def _of_plants(text: str, plants: Sequence[Mention]) -> list[Measurement]:
    """A size just before a plant's name: a 40-foot one is that tall, a 2-inch one that thick, a 60-foot hedge long."""
    found = []
    for plant in plants:
        match = _SIZE_BEFORE_A_PLANT.search(text[max(0, plant.start - 40) : plant.start])
        if match:
            thick = match["u"].lower().startswith(("i", '"', "”"))
            name = "trunk_diameter_in" if thick else "length_ft" if "hedge" in plant.words.lower() else "height_ft"
            found.append(Measurement(name, number(match["n"]), f"{match.group().strip()} {plant.words}"))
    return found


def _count_of_plants(text: str, plants: Sequence[Mention]) -> Measurement | None:
    for plant in plants:
        before = text[max(0, plant.start - 40) : plant.start]
        if match := _BEFORE_A_PLANT.search(before):
            value, ranged = _amount(match)
            if value == int(value) and 2 <= value <= 2000:
                words = text[plant.start - len(before) + match.start() : plant.end]
                return Measurement("count", value, words, ranged)
    return None


def _amount(match: re.Match[str]) -> tuple[float, bool]:
    """The number a match holds, the middle of a range; and whether it was a range."""
    groups = match.groupdict()
    if not groups.get("n"):
        return 0.0, False
    low = number(groups["n"])
    if groups.get("m"):
        high = number(groups["m"])
        if high > low:
            return (low + high) / 2, True
    return low, False
