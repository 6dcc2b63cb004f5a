"""Amounts as people write them ("bout 40 x 60", "6 inch trunk", "pH 5.4"), each tied to what it measures.

Not here: which amounts a rule needs (kb/rules) or what is done with them (drafts/inputs.py).
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable

from answers.reading.reading import Measurement

_WORDS = {
    **{
        w: float(i)
        for i, w in enumerate(
            ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
        )
    },
    "fifteen": 15.0,
    "twenty": 20.0,
    "thirty": 30.0,
    "forty": 40.0,
    "fifty": 50.0,
    "sixty": 60.0,
    "hundred": 100.0,
    "a hundred": 100.0,
    "a thousand": 1000.0,
    "a dozen": 12.0,
    "half a dozen": 6.0,
    "a couple": 2.0,
    "a couple of": 2.0,
    "half": 0.5,
    "half a": 0.5,
    "half an": 0.5,
    "a half": 0.5,
    "one half": 0.5,
    "a quarter": 0.25,
    "quarter": 0.25,
    "a quarter of an": 0.25,
    "quarter of an": 0.25,
    "three quarters of an": 0.75,
    "a third of an": 1 / 3,
    "a": 1.0,
    "an": 1.0,
}
_FRACTIONS = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3}
_DIGITS = r"\d[\d,]*(?:\.\d+)?k?(?:\s*[½¼¾⅓⅔]|(?:\s+|-)\d/\d)?|\d/\d|\.\d+|[½¼¾⅓⅔]"
_SPELT = "|".join(sorted((re.escape(w) for w in _WORDS if w not in ("a", "an")), key=len, reverse=True))
_ONE = rf"(?:{_DIGITS}|\b(?:{_SPELT})\b)"
NUMBER = rf"(?P<n>{_ONE})(?:\s*(?:to|or|-|–)\s*(?P<m>{_ONE}))?"
_HEDGE = re.compile(r"\b(?:about|bout|'bout|abt|around|roughly|approx\w*|maybe|say|nearly|almost|guess)\s*$|~\s*$")

_LENGTHS = {"inch": 1 / 12, "foot": 1.0, "yard": 3.0, "metre": 1 / 0.3048, "cm": 1 / 30.48}
_LENGTH = r"(?P<{0}>inch(?:es)?|in\b\.?|\"|''|”|feet|foot|ft\b\.?|'|’|yards?|yds?\b|met(?:er|re)s?|m\b|cm\b|centimet(?:er|re)s?)"
_GAP = r"[\s-]*"
_FILL = r"(?:\s+(?:is|are|was|at|of|about|around|maybe|bout|roughly|approx\w*|only|just|measures?|measured|came back|tested|tests|test|reads?|says?|showed|=|:|it's|now)|\s*[:=])*\s*"


def number(text: str) -> float:
    """The value of a number as written: "1,200", "2 1/2", "½", "half a dozen", "5k"."""
    text = text.strip().lower()
    if text in _WORDS:
        return _WORDS[text]
    thousands = text.endswith("k")
    text = text.removesuffix("k").replace(",", "").replace("-", " ")
    for sign, value in _FRACTIONS.items():
        text = text.replace(sign, f" {value}")
    total = 0.0
    for part in text.split():
        top, _, bottom = part.partition("/")
        total += float(top) / float(bottom or 1) if float(bottom or 1) else 0.0
    return total * 1000 if thousands else total


def _feet(unit: str | None) -> float:
    """Feet in one of the unit as written; feet when unsaid."""
    unit = (unit or "ft").strip(". ").lower()
    if unit.startswith(("in", '"', "''", "”")):
        return _LENGTHS["inch"]
    if unit.startswith("y"):
        return _LENGTHS["yard"]
    if unit in ("m",) or unit.startswith("met"):
        return _LENGTHS["metre"]
    if unit.startswith("c"):
        return _LENGTHS["cm"]
    return _LENGTHS["foot"]


_AREAS = {"acre": 43560.0, "hectare": 107639.104, "yard": 9.0, "metre": 10.7639104, "foot": 1.0}
_AREA = r"(?P<u>acres?\b|ac\b|hectares?|ha\b|(?:sq\.?|square)\s*(?:feet|foot|ft|yards?|yds?|met(?:er|re)s?|m)\b\.?|sq\.?\s*'|sf\b|ft2\b|m2\b|ft²|m²)"


def _square_feet(unit: str) -> float:
    unit = unit.lower()
    if unit.startswith("ac"):
        return _AREAS["acre"]
    if unit.startswith("h"):
        return _AREAS["hectare"]
    if "y" in unit:
        return _AREAS["yard"]
    if re.search(r"met|m2|m²|sq\.?\s*m|square\s*m", unit):
        return _AREAS["metre"]
    return _AREAS["foot"]


_Values = dict[str, float | str]
_Maker = Callable[[re.Match[str], float], _Values]


def _by(match: re.Match[str], _: float) -> _Values:
    second = match["u2"] or match["u1"]
    length = number(match["a"]) * _feet(match["u1"] or second)
    width = number(match["b"]) * _feet(second)
    return {"length_ft": length, "width_ft": width, "area_sqft": length * width}


def _inches(name: str, factor: float = 1.0) -> _Maker:
    return lambda match, n: {name: n * _feet(match["u"]) * 12 * factor}


def _in_feet(name: str, factor: float = 1.0) -> _Maker:
    return lambda match, n: {name: n * _feet(match["u"]) * factor}


def _plain(name: str) -> _Maker:
    return lambda _, n: {name: n}


def _analysis(match: re.Match[str], _: float) -> _Values:
    n, p, k = (float(match[g]) for g in ("p1", "p2", "p3"))
    return {"n_percent": n, "p_percent": p, "k_percent": k} if 0 < n + p + k <= 100 else {}


_SPOONS = {
    "tb": "tbsp",
    "ta": "tbsp",
    "ts": "tsp",
    "te": "tsp",
    "fl": "floz",
    "oz": "floz",
    "ou": "floz",
    "pi": "pt",
    "pt": "pt",
}
_SPOONS |= {"qu": "qt", "qt": "qt", "lb": "lb", "po": "lb"}


def _label_rate(match: re.Match[str], n: float) -> _Values:
    per = match["per"].lower()
    base = "gal" if per.startswith("gal") else "acre" if per.startswith("ac") else "1000sqft"
    return {"label_rate": n, "label_rate_unit": f"{_SPOONS[match['u'].lower()[:2]]}/{base}"}


_TRUNK = r"(?:trunk|diameter|caliper|calliper|dbh|across|thick|through)"
_U = _LENGTH.format("u")
_PATTERNS: tuple[tuple[str, _Maker], ...] = (
    (
        rf"(?P<a>{_ONE}){_GAP}(?:{_LENGTH.format('u1')})?\s*(?:x|×|by)\s*(?:about\s+)?(?P<b>{_ONE})(?:{_GAP}{_LENGTH.format('u2')})?(?![\d.-])",
        _by,
    ),
    (rf"{NUMBER}{_GAP}(?:of\s+an?\s+|an?\s+)?{_AREA}", lambda m, n: {"area_sqft": n * _square_feet(m["u"])}),
    (r"\ban\s+(?P<n>acre)\b", lambda m, n: {"area_sqft": 43560.0}),
    (rf"\bbuffer(?:\s+ph)?{_FILL}(?P<n>\d(?:\.\d+)?)", _plain("buffer_ph")),
    (
        rf"\b(?:target|want|raise\w*|get|bring|lower|up|down)\b[^.\d]{{0,25}}\bph{_FILL}(?:to\s+)?(?P<n>\d(?:\.\d+)?)",
        _plain("target_ph"),
    ),
    (r"\bph\b[^.\d]{0,15}\b(?:down|up)\s+to\s+(?P<n>\d(?:\.\d+)?)", _plain("target_ph")),
    (
        rf"\bp\.?h\.?(?:\s+level)?(?:\s+of\s+(?:my|our|the)\s+soil)?{_FILL}(?P<n>\d{{1,2}}(?:\.\d+)?)(?!\d|%)",
        _plain("soil_ph"),
    ),
    (r"(?<![\d-])(?<!on )(?<!sent )(?P<p1>\d{1,2})-(?P<p2>\d{1,2})-(?P<p3>\d{1,2})(?![\d-])", _analysis),
    (
        rf"{NUMBER}{_GAP}{_U}{_GAP}(?:around|in girth|in circumference|circumference)",
        _inches("trunk_diameter_in", 1 / math.pi),
    ),
    (rf"{NUMBER}{_GAP}{_U}{_GAP}(?:in\s+|wide\s+)?{_TRUNK}", _inches("trunk_diameter_in")),
    (rf"\b(?:trunk|diameter|caliper|dbh){_FILL}{NUMBER}{_GAP}{_U}(?!{_GAP}around)", _inches("trunk_diameter_in")),
    (
        rf"{NUMBER}{_GAP}{_U}{_GAP}(?:wide\s+)?(?:crown|canopy|spread|branch spread|wide at the branches)",
        _in_feet("crown_spread_ft"),
    ),
    (
        rf"\b(?:crown|canopy|spread|branches|limbs)\b[^.\d]{{0,25}}{NUMBER}{_GAP}{_U}{_GAP}(?:across|wide)?(?!{_GAP}(?:out|from))",
        _in_feet("crown_spread_ft"),
    ),
    (
        rf"{NUMBER}{_GAP}{_U}{_GAP}(?:out\s+)?(?:from the trunk )?to the (?:drip ?line|branch tips?|end of the branches)",
        _in_feet("crown_spread_ft", 2.0),
    ),
    (rf"{NUMBER}{_GAP}{_U}{_GAP}(?:tall|high|in height)", _in_feet("height_ft")),
    (
        rf"{NUMBER}{_GAP}{_U}{_GAP}(?:deep|depth|thick layer|of (?:mulch|compost|soil|fill|dirt|topsoil|clay|wood ?chips|bark))",
        _inches("depth_in"),
    ),
    (rf"{NUMBER}{_GAP}{_U}{_GAP}(?:apart|spacing|on center|on centre)", _inches("spacing_in")),
    (rf"{NUMBER}{_GAP}(?:%|percent|per cent){_GAP}(?:slope|grade|incline)", _plain("slope_percent")),
    (rf"\b(?:slope|grade|bank|hill)\b[^.\d]{{0,20}}{NUMBER}{_GAP}(?:%|percent)", _plain("slope_percent")),
    (
        rf"{NUMBER}{_GAP}(?:gal\b\.?|gallons?){_GAP}(?:\w+\s+)?(?:sprayer|tank|pump|backpack|jug)",
        _plain("tank_gal"),
    ),
    (
        rf"{NUMBER}{_GAP}(?P<u>tbsp|tablespoons?|tbs|tsp|teaspoons?|fl\.?\s*oz|oz\b|ounces?|pints?|pt\b|quarts?|qt\b|lbs?\b|pounds?)\.?\s*(?:per|to the|to a|to each|an?|/|for each|in a)\s*(?P<per>gal\w*|acre|1,?000\s*(?:sq\.?|square)?\s*(?:ft|feet|foot)?)",
        _label_rate,
    ),
    (rf"{NUMBER}{_GAP}(?:lbs?\b\.?|pounds?|#){_GAP}(?:bags?|sacks?)", _plain("product_lb")),
    (rf"{NUMBER}{_GAP}(?:degrees?|deg\b|°)\s*(?:f\b|fahrenheit)?", _plain("temperature_f")),
    (rf"{NUMBER}{_GAP}(?:years?|yrs?)(?:{_GAP}old|\s+ago)", _plain("age_years")),
    (rf"{NUMBER}\s+(?:\w+\s+)?(?:plants|bushes|shrubs|trees|bulbs|hills|pots|seedlings)\b", _plain("count")),
)
_COMPILED = tuple((re.compile(pattern, re.IGNORECASE), make) for pattern, make in _PATTERNS)


def measurements(text: str) -> dict[str, Measurement]:
    """Every amount in `text` whose meaning is plain, by name; the first one said of each name is kept."""
    found: dict[str, Measurement] = {}
    for pattern, make in _COMPILED:
        for match in pattern.finditer(text):
            value, ranged = _amount(match)
            about = ranged or bool(_HEDGE.search(text[: match.start()].lower()))
            for name, result in make(match, value).items():
                if isinstance(result, str) or (math.isfinite(result) and result > 0):
                    found.setdefault(name, Measurement(name, result, match.group().strip(), about))
    return found


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
