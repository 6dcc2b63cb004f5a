"""Amounts as a draft or a person's edit says them: "2 1/2 lb", "three to four weeks", "pH of 6.5".

Not here: which are sourced (proof.py), dates (dates_said.py), what a writer's amount measures (reading/amounts.py).
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache

from answers.calculators.figure import pencil
from answers.calculators.units import UNITS, convert, unit_named
from answers.drafts.dates_said import dates, led_by
from answers.reading.numbers import ONE, number
from kb.errors import UnitError

WRITTEN_OFF = 0.03  # share of an amount that rounding may take or add, whatever its digits
_DAYS = {"minute": 1 / 1440, "hour": 1 / 24, "day": 1.0, "week": 7.0, "month": 30.4, "year": 365.0}
_COUNTED = "bag|sack|part|time|handful|scoop|shovelful|bushel|drop|application|packet|bucket|feeding|spray"
_PLURALS = {f"{w}s": w for w in (*_DAYS, *_COUNTED.split("|"))}
_OWN = {**{w: w for w in _PLURALS.values()}, **_PLURALS, "percent": "%", "per cent": "%", "%": "%", "ph": "pH"}
_OWN |= {"degrees": "F", "degree": "F", "deg": "F", "°": "F", "ppm": "ppm", "zone": "zone", "hr": "hour", "hrs": "hour"}
_OWN |= {"yr": "year", "yrs": "year", "wk": "week", "wks": "week", "min": "minute", "$": "$", "²": "sqft"}
_ARTICLE = (
    r"\ban?(?=\s(?:inch|foot|yard|pound|ounce|gallon|quart|pint|cup|tablespoon|teaspoon|kilo(?:gram)?|gram|liter)\b)"
)
_SHARES = {"half": 2, "third": 3, "fourth": 4, "quarter": 4, "eighth": 8}
_SHARE = r"\b(?P<top>one|two|three)[ -](?P<share>half|third|fourth|quarter|eighth)s?\b(?:\sof\san?\b)?"
_NO_AMOUNT = (  # an address, a time of day, a telephone number, a year
    r"(?P<none>https?://\S+|\d{1,2}:\d\d\b"
    r"|(?<![\d-])(?:1[ .-]\(?)?\d{3}(?:[ .-]|\) ?)\d{3}[ .-]\d{4}(?![\d-])"
    r"|(?<![\w.,])(?:19|20)\d\d(?!\w|[.,]\d|\s*(?:x|sq|square|feet|foot|ft|lb|pound|gal|plants?)\b))"
)
_AMOUNT = re.compile(
    rf"{_NO_AMOUNT}|(?P<analysis>(?<![\w-])\d+-\d+-\d+(?![\w-]))|{_SHARE}|(?:\d/\d(?![\d/])|{ONE}|{_ARTICLE})",
    re.IGNORECASE,
)
_NUMBER_WORDS = frozenset(re.findall("[a-z]+", ONE)) | {"a", "an", "http", "https"} - {"and", "of", "point"}
_UNIT = re.compile(
    r"[\s-]*(?:full |level |heaping |more )?(?P<u>(?:degrees?|deg\.?|°)\s?(?:C\b|F\b|celsius\b|fahrenheit\b)"
    r"|(?:square|cubic|fluid|(?:sq|cu|fl)\b\.?)[\s-]?[a-z]+\b|per cent\b|[a-z]+\d?\b|[°%²'’\"”#])",
    re.IGNORECASE,
)
_IN = re.compile(r"\s*(?:$|[^\w\s¤]|x\b|by\b|of\b|deep|wide|thick|tall|high|apart|long|across|diameter)")
_BEFORE = re.compile(r"(?:\b(pH)(?: level| value)?(?: of| to| is| at| near| about| around| below| above|=|:)*"
                     r"|\b(zone)s?|(\$))\s*$", re.IGNORECASE)  # fmt: skip
_JOINER = re.compile(r"[\s-]*(?:to|or|and|by|x|×|-|–|—)[\s-]*", re.IGNORECASE)
_LIST_NUMBER = re.compile(r"^[ \t]*\d+[.)](?=\s)", re.MULTILINE)


@dataclass(frozen=True)
class Amount:
    """A number with the unit beside it ("" when there is none). `slack` is half of the last place written.

    `loose` is a number word below ten without a unit ("two of you"), or an article ("a pound"): no amount by itself.
    """

    value: float
    unit: str
    words: str
    start: int = -1
    end: int = -1
    slack: float = 0.0
    loose: bool = False


def exact(value: float, unit: str) -> Amount:
    """An amount that was worked out or typed in, not read in a text."""
    return Amount(value, unit, f"{pencil(value)} {unit}".strip())


def unit_said(text: str) -> str:
    """Our name of a unit, or of what is counted ("bag", "week", "pH"); "" for any other word."""
    plain = " ".join(text.lower().replace(".", "").replace("-", " ").split())
    if re.match(r"deg|°", plain):
        return "C" if plain.endswith(("c", "celsius")) else "F"
    return _OWN.get(plain) or unit_named(text.strip()) or ""


def unit_in(name: str) -> str:
    """The unit in an input's or result's name: "lb" of "rate_lb_per_1000sqft"; "" when there is none."""
    return next((u for part in reversed(name.split("_per_")[0].split("_")) if (u := unit_said(part))), "")


@lru_cache(maxsize=512)
def amounts(text: str) -> tuple[Amount, ...]:
    """Every amount in a text, in order. The first of "3 to 4 lb" has the unit too; "2 lb 5 oz" is one amount."""
    text = _LIST_NUMBER.sub(lambda m: "¤" * len(m[0]), text)
    for day in dates(text):
        text = text[: day.start] + "¤" * (day.end - day.start) + text[day.end :]
    found: list[Amount] = []
    for match in led_by(_NUMBER_WORDS, _AMOUNT, text):
        start, before = match.start(), text[match.start() - 1 : match.start()]
        if match["none"] or (before and (before.isalnum() or before in "._") and not re.search(r"\dx$", text[:start])):
            continue
        if match["analysis"]:
            found.append(Amount(number(match[0].split("-")[0]), match[0], match[0], start, match.end()))
            continue
        one = _one(text, match)
        if one is None:
            continue
        if found:
            between = text[found[-1].end : start]
            if not found[-1].unit and one.unit and _JOINER.fullmatch(between):
                found[-1] = replace(found[-1], unit=one.unit, loose=False)
            elif (joined := _joined(found[-1], one, between, text)) is not None:
                found[-1] = joined
                continue
        found.append(one)
    return tuple(found)


def _one(text: str, match: re.Match[str]) -> Amount | None:
    said, end = match[0].rstrip(","), match.start() + len(match[0].rstrip(","))
    digits = any(c.isdigit() or c in "½¼¾⅓⅔" for c in said)
    unit = ""
    if led := _BEFORE.search(text, max(0, match.start() - 30), match.start()):
        unit = unit_said(led[1] or led[2] or led[3])
    elif tail := _UNIT.match(text, end):
        word = tail["u"]
        near = tail.start("u") == end
        quoted = text[match.start() - 1 : match.start()] in ("'", '"', "“", "‘")
        takes = True
        if word.lower() == "in":
            takes = digits and bool(_IN.match(text, tail.end()))
        elif len(word) == 1 and word.isalpha():
            takes = digits and word in "mgLlFC"
        elif word in ("'", '"', "’", "”"):
            takes = near and digits and not quoted
        unit = unit_said(word) if takes else ""
        end = tail.end() if unit else end
    if digits and not unit and text[end : end + 1].isalpha() and not re.match(r"x\d|k\b", text[end : end + 2]):
        return None  # "15th", "5b"
    value = number(match["top"]) / _SHARES[match["share"].lower()] if match["top"] else number(said)
    idiom = said.lower() in ("a hundred", "a thousand", "hundred", "thousand")
    loose = said.lower() in ("a", "an") or (not digits and not unit and (value < 10 or idiom))
    return Amount(
        value, unit, " ".join(text[match.start() : end].split()), match.start(), end, _slack(said, value), loose
    )


def _slack(said: str, value: float) -> float:
    """Half of the last place that was written: 0.05 of "2.3", 5 of "210" and of "twenty", 1/8 of "2 1/4"."""
    if bottom := re.search(r"/(\d)$", said):
        return 0.5 / max(1, int(bottom[1]))
    if decimals := re.search(r"\.(\d+)$", said):
        return float(0.5 * 10.0 ** -len(decimals[1]))
    if value != int(value):
        return 0.125
    zeros = len(str(int(value))) - len(str(int(value)).rstrip("0")) if value else 0
    return float(0.5 * 10**zeros)


def _joined(first: Amount, second: Amount, between: str, text: str) -> Amount | None:
    """ "2 lb 5 oz", "5 ft 6 in": one amount of two units of a quantity, the smaller one last."""
    if not re.fullmatch(r",?\s*(?:and\s+)?", between) or {first.unit, second.unit} - set(UNITS):
        return None
    (one, size), (other, smaller) = UNITS[first.unit], UNITS[second.unit]
    if one != other or smaller >= size or one not in ("mass", "length", "volume"):
        return None
    value = first.value + convert(second.value, second.unit, first.unit)
    slack = convert(second.slack, second.unit, first.unit)
    return Amount(value, first.unit, text[first.start : second.end], first.start, second.end, slack)


def quantity(unit: str) -> str:
    """What a unit measures: mass, time ...; the unit itself when it converts to no other."""
    return UNITS[unit][0] if unit in UNITS else "time" if unit in _DAYS else "analysis" if "-" in unit else unit


def in_unit(amount: Amount, unit: str) -> float | None:
    """An amount's value in a unit, or None when it is of another quantity. An ounce may be a fluid one."""
    if amount.unit == unit or {amount.unit, unit} == {"oz", "floz"}:
        return amount.value
    if amount.unit in _DAYS and unit in _DAYS:
        return amount.value * _DAYS[amount.unit] / _DAYS[unit]
    tried = "floz" if unit == "oz" and quantity(amount.unit) == "volume" else unit
    given = "floz" if amount.unit == "oz" and quantity(unit) == "volume" else amount.unit
    try:
        return convert(amount.value, given, tried)
    except UnitError:
        return None


def agree(said: Amount, known: Amount) -> bool:
    """Whether an amount is the known one, within the rounding written and in any unit of the quantity.

    Said without a unit, it agrees with the number whatever its unit; said with one, the known one must have one too.
    """
    value = known.value if not said.unit else in_unit(known, said.unit)
    if value is None:
        return False
    return abs(said.value - value) <= max(1e-9, min(said.slack, WRITTEN_OFF * abs(value)))
