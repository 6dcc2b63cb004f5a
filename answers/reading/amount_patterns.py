"""The ways people tell an amount ("a 2 inch trunk", "runs some sixty feet", "18 below"), each with what it measures.

Not here: numbers (numbers.py), looking for these in a letter (amounts.py). The first pattern that gives a name wins.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable

from answers.calculators.units import convert
from answers.reading.numbers import NUMBER, ONE, number

_LENGTHS = {"inch": 1 / 12, "foot": 1.0, "yard": 3.0, "metre": 1 / 0.3048, "cm": 1 / 30.48}
_LENGTH = r"(?P<{0}>inch(?:es)?|in\b\.?|\"|''|”|feet|foot|ft\b\.?|'|’|yards?|yds?\b|met(?:er|re)s?|m\b|cm\b|centimet(?:er|re)s?)"
GAP = r"[\s-]*"
FILL = r"(?:\s+(?:is|are|was|at|of|about|around|maybe|bout|roughly|approx\w*|only|just|measures?|measured|came back|tested|tests|test|reads?|says?|showed|=|:|it's|now)|\s*[:=])*\s*"


def feet(unit: str | None) -> float:
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
_AREA = r"(?P<u>acres?\b|ac\b|hectares?|ha\b|(?:sq\.?|square)[\s-]*(?:feet|foot|ft|yards?|yds?|met(?:er|re)s?|m)\b\.?|sq\.?\s*'|sf\b|ft2\b|m2\b|ft²|m²)"


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


Values = dict[str, float | str]
Maker = Callable[[re.Match[str], float], Values]


def _by(match: re.Match[str], _: float) -> Values:
    second = match["u2"] or match["u1"]
    length = number(match["a"]) * feet(match["u1"] or second)
    width = number(match["b"]) * feet(second)
    return {"length_ft": max(length, width), "width_ft": min(length, width), "area_sqft": length * width}


def _area(match: re.Match[str], n: float) -> Values:
    """An area; "14 grubs in one square foot" is a sample of one."""
    area = n * _square_feet(match["u"])
    return {"area_sqft": area} if area > 1 else {}


def inches(name: str, factor: float = 1.0) -> Maker:
    """A length told in any unit, as inches times `factor`."""
    return lambda match, n: {name: n * feet(match["u"]) * 12 * factor}


def in_feet(name: str, factor: float = 1.0) -> Maker:
    """A length told in any unit, as feet times `factor`."""
    return lambda match, n: {name: n * feet(match["u"]) * factor}


def plain(name: str) -> Maker:
    """The number itself."""
    return lambda _, n: {name: n}


def _analysis(match: re.Match[str], _: float) -> Values:
    n, p, k = (number(match[g]) for g in ("p1", "p2", "p3"))
    dated = re.search(r"\b(?:on|sent|since|dated|of)\s+$", match.string[: match.start()].lower())
    if dated and 0 < n <= 12 and 0 < p <= 31 and 20 <= k <= 39:
        return {}
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


def _label_rate(match: re.Match[str], n: float) -> Values:
    per = match["per"].lower()
    base = "gal" if per.startswith("gal") else "acre" if per.startswith("ac") else "1000sqft"
    return {"label_rate": n, "label_rate_unit": f"{_SPOONS[match['u'].lower()[:2]]}/{base}"}


PARTS = {"third": 3, "quarter": 4, "fifth": 5, "eighth": 8, "tenth": 10}


def across(match: re.Match[str], n: float) -> Values:
    """Feet across is a crown, inches across a trunk."""
    wide, before = n * feet(match["u"]), match.string[max(0, match.start() - 40) : match.start()].lower()
    if _OF_A_BED.search(before):
        return {"width_ft": wide, "length_ft": wide}
    thick = (
        wide < 3
        or re.search(r"\b(?:stump|trunk)\b", before) is not None
        or match["u"].lower().startswith(("in", '"', "”", "c"))
    )
    return {"trunk_diameter_in": wide * 12} if thick else {"crown_spread_ft": wide}


_SPELT = r"\b(?:zero|three|four|five|six|seven|eight|nine|ten|twelve|fifteen|twenty)"
_NUTRIENTS = ("n_percent", "p_percent", "k_percent")
_PERCENT = r"(?:%|percent\b|per cent\b|pct\b\.?)"
_SIDE_TO_SIDE = (
    r"(?:(?:branch\s+)?tips?\s+to\s+(?:branch\s+)?tips?|drip ?line\s+to\s+drip ?line|(?:one\s+)?(?:side|edge)\s+"
    r"(?:of\s+the\s+\w+\s+)?to\s+(?:the\s+other|side|edge))"
)
_VOLUME = r"(?P<u>gal\b\.?|gallons?|lit(?:er|re)s?|l\b)"
_SPRAYER = r"(?:sprayer|tank|pump|backpack|knapsack|jug)(?:'?s)?"
WEIGHT = r"(?P<u>lbs?\b\.?|pounds?|#|kg\b|kilos?|kilograms?)"
_SACK = r"(?:bags?|sacks?|pails?|boxe?s?)"


def _nutrient(match: re.Match[str], n: float) -> Values:
    first = match["w"][0].lower()
    name = "n_percent" if first == "n" else "k_percent" if match["w"].lower().startswith(("k", "pot")) else "p_percent"
    return {name: n}


def _gallons(match: re.Match[str], n: float) -> Values:
    return {"tank_gal": convert(n, "L", "gal") if match["u"].lower().startswith("l") else n}


def pounds(match: re.Match[str], n: float) -> Values:
    """A weight told in pounds or kilos, in pounds."""
    return {"product_lb": convert(n, "kg", "lb") if match["u"].lower().startswith("k") else n}


_OF_A_BED = re.compile(r"\b(?:bed|circle|plot|ring|patch|island|garden)\W+(?:\w+\W+){0,2}$")
_OF_WOOD = re.compile(r"\b(?:trunk|stump|tree|limb|branch|vine|stem|cane|log|root)s?\b")
_LAID = re.compile(r"\b(?:mulch\w*|leaves|compost|straw|chips|manure|gravel|thatch|layer|hay)\b")


def _thick(match: re.Match[str], n: float) -> Values:
    """Inches thick: mulch is when it is spoken of and no wood just before, else a trunk."""
    before, text = match.string[max(0, match.start() - 50) : match.start()].lower(), match.string.lower()
    laid = match["by"].lower() == "thick" and _LAID.search(text) and not _OF_WOOD.search(before)
    return {"depth_in" if laid else "trunk_diameter_in": n * feet(match["u"]) * 12}


_TRUNK = (
    r"(?P<by>trunk|diameter|caliper|calliper|dbh|d\.b\.h|thick|through|(?:across|at) the (?:trunk|butt|base|stump))"
)
U = _LENGTH.format("u")
PATTERNS: tuple[tuple[str, Maker], ...] = (
    (
        rf"(?P<a>{ONE}){GAP}(?:{_LENGTH.format('u1')})?[\s-]*(?:x|×|by)[\s-]*(?:about\s+)?(?P<b>{ONE})(?:{GAP}{_LENGTH.format('u2')})?(?!\d|[.-]\d)",
        _by,
    ),
    (rf"{NUMBER}{GAP}(?:of\s+an?\s+|an?\s+)?{_AREA}", _area),
    (
        r"\b(?P<n>an?|one|two|three|four|five|\d+)\s+acres?\s+and\s+a\s+(?P<h>half|quarter)\b|\b(?P<k>two|three|four|five)\s+and\s+a\s+half\s+acres",
        lambda m, n: {"area_sqft": 43560.0 * (number(m["n"] or m["k"]) + (0.25 if m["h"] == "quarter" else 0.5))},
    ),
    (
        r"\b(?:(?P<n>two|three|a|one)[\s-]+)?(?P<h>third|quarter|fifth|eighth|tenth)s?\s+(?:of\s+)?(?:an?\s+)?acre\b",
        lambda m, n: {"area_sqft": 43560.0 * number(m["n"] or "a") / PARTS[m["h"].lower()]},
    ),
    (r"\ban\s+(?P<w>acre)\b", lambda m, n: {"area_sqft": 43560.0}),
    (rf"\bbuffer(?:\s+ph)?{FILL}(?P<n>\d(?:\.\d+)?)", plain("buffer_ph")),
    (
        rf"\b(?:target|want|raise\w*|get|bring|lower|up|down)\b[^.\d]{{0,25}}\bph{FILL}(?:to\s+)?(?P<n>\d(?:\.\d+)?)",
        plain("target_ph"),
    ),
    (r"\bph\b[^.\d]{0,15}\b(?:down|up)\s+to\s+(?P<n>\d(?:\.\d+)?)", plain("target_ph")),
    (
        rf"\bp\.?h\.?(?:\s+level)?(?:\s+of\s+(?:my|our|the)\s+soil)?{FILL}(?P<n>\d{{1,2}}(?:\.\d+)?)(?!\d|%)",
        plain("soil_ph"),
    ),
    (r"\b(?P<w>clay|gumbo|adobe)\b(?! pots?\b| pigeons?\b| bowl)", lambda m, n: {"texture": "clay loam"}),
    (r"\b(?P<w>sandy|sand)\b(?!\s*(?:box|paper|bag|stone|cherry|bur))", lambda m, n: {"texture": "sandy loam"}),
    (r"\b(?P<w>loamy?|silt loam)\b", lambda m, n: {"texture": "loam"}),
    (r"(?<![\d-])(?P<p1>\d{1,2})-(?P<p2>\d{1,2})-(?P<p3>\d{1,2})(?!\d|-\d)", _analysis),
    (rf"(?P<p1>{_SPELT})[ -](?P<p2>{_SPELT})[ -](?P<p3>{_SPELT})\b(?!\s+hundred)", _analysis),
    (r"\btriple[\s-]+(?P<n>ten|thirteen|sixteen|\d\d?)\b", lambda m, n: dict.fromkeys(_NUTRIENTS, n)),
    (rf"{NUMBER}{GAP}{_PERCENT}\s+(?P<w>nitrogen|n\b|phosph\w+|p2o5|p\b|potash|potassium|k2o|k\b)", _nutrient),
    (rf"\b(?P<w>nitrogen|phosph\w+|potash|potassium)\b[^.\d]{{0,15}}{NUMBER}{GAP}{_PERCENT}", _nutrient),
    (
        rf"{NUMBER}{GAP}{U}{GAP}(?:around|round the trunk|in girth|in circumference|circumference)",
        inches("trunk_diameter_in", 1 / math.pi),
    ),
    (rf"{NUMBER}{GAP}(?P<u>inch(?:es)?|in\b\.?|\"|”){GAP}round\b", inches("trunk_diameter_in", 1 / math.pi)),
    (rf"\btape\b[^.;?!\d]{{0,45}}?\b{NUMBER}{GAP}{U}", inches("trunk_diameter_in", 1 / math.pi)),
    (
        rf"\b(?:straw|mulch|chips|leaves|thatch|compost|layer|manure|gravel|soil)(?:'s)?\b[^.\d]{{0,15}}?\b{NUMBER}{GAP}{U}{GAP}"
        r"(?:thick|deep)",
        inches("depth_in"),
    ),
    (rf"{NUMBER}{GAP}{U}{GAP}(?:in\s+|wide\s+)?{_TRUNK}", _thick),
    (rf"\b(?:trunk|diameter|caliper|dbh){FILL}{NUMBER}{GAP}{U}(?!{GAP}around)", inches("trunk_diameter_in")),
    (rf"{NUMBER}{GAP}{U}{GAP}(?:from\s+)?{_SIDE_TO_SIDE}", in_feet("crown_spread_ft")),
    (rf"\b{_SIDE_TO_SIDE}\b[^.\d]{{0,20}}?\b{NUMBER}{GAP}{U}", in_feet("crown_spread_ft")),
    (
        rf"{NUMBER}{GAP}{U}{GAP}(?:wide\s+)?(?:crown|canopy|spread|branch spread|wide at the branches)",
        in_feet("crown_spread_ft"),
    ),
    (
        rf"\b(?:crown|canopy|spread|branches|limbs)\b[^.\d]{{0,25}}{NUMBER}{GAP}{U}{GAP}(?:across|wide)?(?!{GAP}(?:out|from))",
        in_feet("crown_spread_ft"),
    ),
    (
        rf"{NUMBER}{GAP}{U}{GAP}(?:out\s+)?(?:from the trunk )?to the (?:drip ?line|branch tips?|end of the branches)",
        in_feet("crown_spread_ft", 2.0),
    ),
    (rf"{NUMBER}{GAP}{U}{GAP}(?:tall|high|in height)", in_feet("height_ft")),
    (
        rf"{NUMBER}{GAP}{U}{GAP}(?:deep|depth|thick layer|of (?:mulch|compost|soil|fill|dirt|topsoil|clay|wood ?chips|bark))",
        inches("depth_in"),
    ),
    (rf"{NUMBER}{GAP}{U}{GAP}(?:apart|spacing|on center|on centre|o\.?c\b)", inches("spacing_in")),
    (rf"\bapart\b[^.?!\d]{{0,40}}?\b{NUMBER}{GAP}{U}", inches("spacing_in")),
    (rf"{NUMBER}{GAP}{_PERCENT}{GAP}(?:slope|grade|incline)", plain("slope_percent")),
    (
        rf"\b(?:slope|grade|bank|hill|drops?|falls?|steep)\b[^.\d]{{0,40}}?\b{NUMBER}{GAP}{_PERCENT}(?! of)",
        plain("slope_percent"),
    ),
    (rf"{NUMBER}{GAP}{_VOLUME}(?!\s+of\b)[^.;?!]{{0,25}}?\b{_SPRAYER}\b", _gallons),
    (rf"\b{_SPRAYER}\b[^.;?!]{{0,25}}?\b{NUMBER}{GAP}{_VOLUME}(?!\s+(?:of|per)\b)", _gallons),
    (
        rf"{NUMBER}{GAP}(?P<u>tbsp|tablespoons?|tbs|tsp|teaspoons?|fl\.?\s*oz|oz\b|ounces?|pints?|pt\b|quarts?|qt\b|lbs?\b|pounds?)\.?\s*(?:per|to the|to a|to each|an?|/|for each|in a)\s*(?P<per>gal\w*|acre|1,?000\s*(?:sq\.?|square)?\s*(?:ft|feet|foot)?)",
        _label_rate,
    ),
    (rf"{NUMBER}{GAP}{WEIGHT}{GAP}(?:(?:a|per|in a|\w+)\s+)?{_SACK}\b", pounds),
    (
        rf"{NUMBER}\s+(?:(?!(?:and|foot|ft|feet|inch)\b)\w+\s+)?(?:plants|bushes|shrubs|trees|bulbs|hills|pots|seedlings)\b",
        plain("count"),
    ),
)
