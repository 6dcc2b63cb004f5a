"""Amounts in a letter ("bout 40 x 60", "6 inch trunk", "pH 5.4"), each tied to what it measures.

Not here: the ways of telling one (amount_patterns.py), which amounts a rule needs (kb/rules).
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from answers.reading import amount_patterns, loose_patterns
from answers.reading.ages import age
from answers.reading.numbers import NUMBER, ONE, number
from answers.reading.reading import Measurement, Mention
from answers.reading.screen import Screen
from answers.reading.sentence import HEDGE
from answers.reading.temperatures import temperature

_AT_MOST = {"trunk_diameter_in": 240, "depth_in": 240, "spacing_in": 1200, "height_ft": 380}
_MAY_BE_NIL = ("n_percent", "p_percent", "k_percent")
_SIZE_BEFORE_A_PLANT = re.compile(
    rf"(?P<n>{ONE})[\s-]*(?P<u>foot|feet|ft\b\.?|'|inch(?:es)?|\"|”)[\s-]*(?:tall[\s-]*|cal\w*\s+)?(?:(?!between|from|of\b|off|apart|to\b|on\b)[a-z'-]+\s+){{0,2}}$",
    re.I,
)
_BEFORE_A_PLANT = re.compile(
    rf"(?<![\d.,/x$-])(?:{ONE}\s+(?:out\s+)?of\s+(?:my|our|the|these|those)\s+)?{NUMBER}\s+"
    rf"(?:of\s+(?:my|our|the|these|those)\s+)?(?:(?!acres?\b|ac\b|sq|of\b|inch|feet|foot|ft\b|year|yr|month|week|day|hour|lb|pound|gallon|bag|percent|times?)[a-z'-]+\s+){{0,3}}$",
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
_AFTER_PLANTS = re.compile(
    rf"\s*[,.(:]?\s+\(?(?:there's\s+|there are\s+|that makes\s+|about\s+|all\s+|x\s?)?{NUMBER}"
    rf"(?=[,.;)](?!\d)|\s+of\s+(?:them|'?em)\b|\s+in all\b|\s+total\b)",
    re.I,
)
_OF_SO_MANY = re.compile(
    rf"\b(?:out\s+of|{ONE}\s+(?:\w+\s+)?of)\s+(?:the\s+|my\s+|our\s+)?{NUMBER}(?=\s*(?:[.,;!?](?!\d)|so far|total|$))",
    re.I,
)
_AND_A_HALF = re.compile(
    r"\b(?:(?:an?|one)[ -])?(?P<u>inch|foot|yard|gallon)[ -]and[ -]a[ -](?P<part>half|quarter)\b", re.I
)
_FEET_AND_INCHES = re.compile(
    rf"(?P<feet>{ONE})[ -]*(?:feet|foot|ft\b\.?|'|’)[ -]*(?P<inches>{ONE})[ -]*(?:inch(?:es)?\b|in\b\.?|\"|”)", re.I
)
_MAY_BE_BOTH = re.compile(r"(?:feet|foot|ft\.?|['’])[ -]*[a-z\d]+[ -]*(?:in|\"|”)", re.I)
_A_DATE = re.compile(r"(?:19|20)\d\d$")
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
    told, text = text, _in_one_unit(text)
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
            about = ranged or bool(HEDGE.search(text[max(0, match.start() - 20) : match.start()].lower()))
            for name, result in make(match, value).items():
                if isinstance(result, str) or _plausible(name, result):
                    found.setdefault(name, Measurement(name, result, told[slice(*match.span())].strip(), about))
                    used.append(match.span())
    sides = [found[side].value for side in ("length_ft", "width_ft") if side in found]
    if "area_sqft" not in found and len(sides) == 2 and all(isinstance(v, float) for v in sides):
        words = f"{found['length_ft'].words} ... {found['width_ft'].words}"
        found["area_sqft"] = Measurement("area_sqft", float(sides[0]) * float(sides[1]), words)
    found |= {m.name: m for m in _of_plants(text, plants) if m.name not in found}
    if "height_ft" not in found and plants and (height := _bare_feet(text, numbers, used)):
        found["height_ft"] = height
    found |= {m.name: m for m in (age(told, plants, year), temperature(told, numbers)) if m}
    if "count" not in found and (counted := _count_of_plants(text, plants)):
        found["count"] = counted
    return found


def _in_one_unit(text: str) -> str:
    """ "A foot and a half" as 1.5 foot and 5'6" as 66", with spaces to the same length, so that places stay."""
    if " and a " in text or "-and-a-" in text:
        text = _AND_A_HALF.sub(lambda m: f"{1.5 if m['part'] == 'half' else 1.25} {m['u']}".ljust(len(m[0])), text)
    if _MAY_BE_BOTH.search(text):
        text = _FEET_AND_INCHES.sub(
            lambda m: f'{number(m["feet"]) * 12 + number(m["inches"]):g}"'.ljust(len(m[0]))[: len(m[0])], text
        )
    return text


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
            counts = value == int(value) and 2 <= value <= 2000
            if counts and not match["n"].endswith(",") and not _A_DATE.match(match["n"]):
                words = text[plant.start - len(before) + match.start() : plant.end]
                return Measurement("count", value, words, ranged)
        if plant.words.endswith("s") and (match := _AFTER_PLANTS.match(text, plant.end)) and _amount(match)[0] >= 2:
            return Measurement("count", _amount(match)[0], text[plant.start : match.end()], _amount(match)[1])
    so_many = _OF_SO_MANY.search(text) if plants else None  # "3 gone out of thirty-five"
    if so_many and _amount(so_many)[0] >= 2:
        return Measurement("count", _amount(so_many)[0], so_many.group().strip(), _amount(so_many)[1])
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
