"""The ways people tell an amount ("a 2 inch trunk", "runs some sixty feet", "18 below"), each with what it measures.

Not here: numbers (numbers.py), looking for these in a letter (amounts.py). The first pattern that gives a name wins.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable

from answers.reading.numbers import NUMBER, ONE, number

_LENGTHS = {"inch": 1 / 12, "foot": 1.0, "yard": 3.0, "metre": 1 / 0.3048, "cm": 1 / 30.48}
_LENGTH = r"(?P<{0}>inch(?:es)?|in\b\.?|\"|''|”|feet|foot|ft\b\.?|'|’|yards?|yds?\b|met(?:er|re)s?|m\b|cm\b|centimet(?:er|re)s?)"
_GAP = r"[\s-]*"
_FILL = r"(?:\s+(?:is|are|was|at|of|about|around|maybe|bout|roughly|approx\w*|only|just|measures?|measured|came back|tested|tests|test|reads?|says?|showed|=|:|it's|now)|\s*[:=])*\s*"


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
    return {"length_ft": max(length, width), "width_ft": min(length, width), "area_sqft": length * width}


def _inches(name: str, factor: float = 1.0) -> _Maker:
    return lambda match, n: {name: n * _feet(match["u"]) * 12 * factor}


def _in_feet(name: str, factor: float = 1.0) -> _Maker:
    return lambda match, n: {name: n * _feet(match["u"]) * factor}


def _plain(name: str) -> _Maker:
    return lambda _, n: {name: n}


def _analysis(match: re.Match[str], _: float) -> _Values:
    n, p, k = (float(match[g]) for g in ("p1", "p2", "p3"))
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


def _label_rate(match: re.Match[str], n: float) -> _Values:
    per = match["per"].lower()
    base = "gal" if per.startswith("gal") else "acre" if per.startswith("ac") else "1000sqft"
    return {"label_rate": n, "label_rate_unit": f"{_SPOONS[match['u'].lower()[:2]]}/{base}"}


_PARTS = {"third": 3, "quarter": 4, "fifth": 5, "eighth": 8, "tenth": 10}
_TRUNK = r"(?:trunk|diameter|caliper|calliper|dbh|across|thick|through)"
_U = _LENGTH.format("u")
PATTERNS: tuple[tuple[str, _Maker], ...] = (
    (
        rf"(?P<a>{ONE}){_GAP}(?:{_LENGTH.format('u1')})?\s*(?:x|×|by)\s*(?:about\s+)?(?P<b>{ONE})(?:{_GAP}{_LENGTH.format('u2')})?(?!\d|[.-]\d)",
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
    (r"(?<![\d-])(?P<p1>\d{1,2})-(?P<p2>\d{1,2})-(?P<p3>\d{1,2})(?![\d-])", _analysis),
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
    # Lengths of rows, hedges and lines; heights; ages; temperatures, as told without their names.
    (
        rf"{NUMBER}{_GAP}{_U}{_GAP}(?:long\b|(?:of\s+)?(?:\w+\s+)?(?:row|hedge|fence|line|border|strip)\b|in length)",
        _in_feet("length_ft"),
    ),
    (
        rf"\b(?:rows?|hedge|border|fence ?line)(?:\s+(?:is|are|of|runs?|some|about|each)|\s*,)*\s+{NUMBER}{_GAP}{_U}",
        _in_feet("length_ft"),
    ),
    (rf"\b(?:runs?|stretch\w*)\s+(?:some\s+|about\s+)?{NUMBER}{_GAP}{_U}(?:\s+along)?", _in_feet("length_ft")),
    (rf"{NUMBER}{_GAP}foot(?:er|ers)\b", lambda m, n: {"height_ft": n}),
    (
        rf"\b(?:tree|trees|shrubs?|bush(?:es)?|it|it's|they|they're|plants?|palms?|pines?)(?:'s)?\s+(?:is|are|was|were|now|about|maybe|already|over|up to|nearly|\s)*\s*{NUMBER}{_GAP}(?P<u>feet|foot|ft\b\.?)(?!{_GAP}(?:from|away|row|long|wide|of|by|x|apart|deep|around|across|off|through|in))",
        _in_feet("height_ft"),
    ),
    (
        rf",\s+(?:about|maybe|some)?\s*{NUMBER}{_GAP}(?P<u>feet|foot|ft\b\.?)(?:\s+or so)?(?=[.,;!?]|$)",
        _in_feet("height_ft"),
    ),
    (rf",\s+{NUMBER}\s+(?:tall|high)\b", lambda m, n: {"height_ft": n}),
    (rf"\b(?:put|laid|spread|piled|dumped|lay)\s+(?:down\s+|on\s+|about\s+)*{NUMBER}{_GAP}{_U}", _inches("depth_in")),
    (
        rf"{NUMBER}{_GAP}{_U}{_GAP}of\s+(?:\w+\s+){{0,2}}(?:mulch|compost|soil|fill|dirt|topsoil|stuff|thatch|it\b|straw|chips|manure|leaves)",
        _inches("depth_in"),
    ),
    (
        rf"{NUMBER}{_GAP}(?P<u>inch(?:es)?|in\b\.?){_GAP}(?:tall|high)(?=[^.]{{0,40}}\bbeds?\b)|(?:\bbeds?\b[^.]{{0,30}})",
        lambda m, n: {"depth_in": n} if m["n"] else {},
    ),
    (rf"\bspac\w*\s+(?:\w+\s+)?(?P<n>a|{ONE}){_GAP}{_U}", _inches("spacing_in")),
    (rf"\b(?:girth|circumference)\b[^.\d]{{0,25}}?\b{NUMBER}{_GAP}{_U}", _inches("trunk_diameter_in", 1 / math.pi)),
    (
        r"\bsoil\b[^.\d]{0,30}(?<!buffer )\b(?:said|says|came back|tests?|tested|test|is|at|reads?|report says)\s+(?:at\s+|about\s+)?(?P<n>[3-9]\.\d)",
        _plain("soil_ph"),
    ),
    (
        r"\b(?P<n>[4-8](?:\.\d)?)\s+for\s+(?:\w+\s+)?(?:azaleas?|rhod\w+|blueberr\w+|hydrangeas?|camellias?)|\bwant(?:ed)?\s+it\s+(?:at\s+|around\s+|about\s+|near\s+)?(?P<t>[4-8](?:\.\d)?)\b",
        lambda m, n: {"target_ph": float(m["n"] or m["t"])},
    ),
    (rf"\b(?:sack|bag)s?\b[^.]{{0,40}}?\b{NUMBER}{_GAP}(?:lbs?\b\.?|pounds?|#)", _plain("product_lb")),
    (r"\b(?P<n>\d{1,2})\s+(?:degrees\s+)?below\b", lambda m, n: {"temperature_f": -n}),
    (
        r"\b(?:down to|got to|dropped to|fell to|low of|hit|get to|been)\s+(?:about\s+)?(?P<n>zero|\d{1,3})\b(?!\s*(?:feet|ft|inch|%|percent|years?|lbs?|dollars?|of|acres?|by|x|weeks?|days?\b|times))",
        _plain("temperature_f"),
    ),
    (
        r"\b(?:days are|highs? (?:of|are|is)|in the sun at|temps? (?:of|at|in the))\s+(?:about\s+)?(?P<n>\d{2,3})\b",
        _plain("temperature_f"),
    ),
    (
        r"(?:^|[.,!]\s+)(?P<n>1[01]\d|[89]\d)\s+(?:today|yesterday|here|outside|(?:\w+\s+)?days\b)",
        _plain("temperature_f"),
    ),
    (rf"{NUMBER}{_GAP}(?:years?|yrs?)\s+(?:planted|in the ground|now)", _plain("age_years")),
    (
        rf"\b(?:tree|it|plant|established|shrub|bush)(?:'s)?\s+(?:is\s+|maybe\s+|about\s+)*{NUMBER}{_GAP}(?:years?|yrs?)\b",
        _plain("age_years"),
    ),
    (
        rf"(?<![\d.,/$-]){NUMBER}\s+(?:(?!years?|yrs?|feet|foot|ft|inch)[a-z'-]+\s+){{0,2}}(?:mounds|vines|beds|tubs|cells|baskets|starts|transplants|canes|jugs|caterpillars|roses|palms|rows)\b",
        _plain("count"),
    ),
    (
        rf"\b(?:i have|i've|we have|got|i set out|we've|planted)\s+(?P<n>{ONE})\s+(?:of (?:them|those)|yesterday|in all)",
        _plain("count"),
    ),
    # Wider ways of saying the same: sides apart, corners of an acre, adjectives between a number and what it counts.
    (rf"{NUMBER}{_GAP}{_U}{_GAP}wide\b(?!{_GAP}(?:crown|canopy|spread))", _in_feet("width_ft")),
    (rf"\b(?:width|wide)\s+(?:is|of|about)\s+{NUMBER}{_GAP}{_U}", _in_feet("width_ft")),
    (rf"\b(?:length|long)\s+(?:is|of|about)\s+{NUMBER}{_GAP}{_U}", _in_feet("length_ft")),
    (
        r"\b(?P<n>an?|one)\s+acre\s+and\s+a\s+(?P<h>half|quarter)\b",
        lambda m, n: {"area_sqft": 43560.0 * (1.5 if m["h"] == "half" else 1.25)},
    ),
    (
        r"\b(?:a\s+)?(?P<h>third|quarter|fifth|eighth|tenth)\s+(?:of\s+an?\s+)?acre\b",
        lambda m, n: {"area_sqft": 43560.0 / _PARTS[m["h"].lower()]},
    ),
    (
        rf"{NUMBER}{_GAP}(?:inch(?:es)?|in\b\.?|\"|”){_GAP}(?:caliper|calliper|dbh|trunk|oak|maple|elm|ash|pine|tree|sapling)s?\b",
        lambda m, n: {"trunk_diameter_in": n},
    ),
    (
        rf"\b(?:trunk|trunks|stem|base)(?:'s|\s+is|\s+are)?\s+(?:about\s+|maybe\s+|around\s+|roughly\s+|only\s+|now\s+)*{NUMBER}{_GAP}{_U}",
        _inches("trunk_diameter_in"),
    ),
    (
        r"\b(?:as\s+)?(?:a|one)\s+foot\s+(?:deep|of\s+(?:mulch|compost|soil|topsoil|chips|leaves|straw|manure|fill))",
        lambda m, n: {"depth_in": 12.0},
    ),
    (rf"\b(?:depth|layer)\s+(?:is\s+|of\s+|about\s+)*{NUMBER}{_GAP}{_U}", _inches("depth_in")),
    (rf"{NUMBER}{_GAP}{_U}{_GAP}(?:layer|down|below|under(?:ground)?)\b", _inches("depth_in")),
    (r"\b(?:a|one)\s+foot\s+apart\b", lambda m, n: {"spacing_in": 12.0}),
    (rf"\b(?:every|spaced?\s+at|set\s+at)\s+{NUMBER}{_GAP}{_U}", _inches("spacing_in")),
    (r"(?P<n>\d(?:\.\d+)?)\s+p\.?h\b", _plain("soil_ph")),
    (r"\bph\b[^.\d?!]{0,40}?\b(?P<n>[3-9](?:\.\d+)?)\b(?!\s*(?:feet|ft|inch|x|by|%|lb|year))", _plain("soil_ph")),
    (r"\b(?:soil|lab|test|report|results?|kit)\b[^.\d?!]{0,40}?\b(?P<n>[3-9]\.\d)\b", _plain("soil_ph")),
    (
        r"\b(?:lime|get|bring|raise|drop|lower|aim\w*|shoot\w*|up|down)\b[^.\d?!]{0,20}?\b(?:to|for)\s+(?:about\s+|around\s+)?(?P<n>[4-8]\.\d)\b",
        _plain("target_ph"),
    ),
    (r"\b(?:buffer|lime)\s+(?:ph|index|value|reading)\b[^.\d?!]{0,20}?(?P<n>[5-8](?:\.\d+)?)", _plain("buffer_ph")),
    (
        rf"{NUMBER}{_GAP}(?:lbs?\b\.?|pounds?){_GAP}of\s+(?:\w+\s+)?(?:fertili[sz]er|\d|lime|sulfur|sulphur|seed|urea|gypsum|compost|manure)",
        _plain("product_lb"),
    ),
    (rf"\b(?:sprayer|tank|pump)\b[^.\d?!]{{0,20}}?{NUMBER}{_GAP}gal", _plain("tank_gal")),
    (
        rf"{NUMBER}{_GAP}gal(?:lons?)?\b\.?{_GAP}(?:hand|pump|back ?pack|garden|hose)?{_GAP}(?:sprayer|pump|tank)",
        _plain("tank_gal"),
    ),
    (
        r"\bminus\s+(?P<n>\d{1,2})\b|(?<![\w-])-(?P<t>\d{1,2})\s*(?:degrees|°|f\b)",
        lambda m, n: {"temperature_f": -float(m["n"] or m["t"])},
    ),
    (
        r"\b(?:dipped|plunged|sank|falls?|drops?|dropping|going|got|goes|went)\s+(?:down\s+)?(?:to|under|below)\s+(?:about\s+)?(?P<n>\d{1,3})\b(?!\s*(?:feet|ft|inch|%|years?))",
        _plain("temperature_f"),
    ),
    (
        r"\b(?:was|is|it's|at|hit|near|about)\s+(?P<n>\d{2,3})\s+(?:last night|this morning|overnight|yesterday|in the shade|outside|out there)",
        _plain("temperature_f"),
    ),
    (
        rf"{NUMBER}{_GAP}(?:year|yr)s?{_GAP}old|{NUMBER.replace('<n>', '<t>').replace('<m>', '<o>')}-year-old",
        lambda m, n: {"age_years": n} if m["n"] else {"age_years": number(m["t"])},
    ),
    (
        rf"\b(?:planted|put in|set out|in the ground|here|had (?:it|them|this))\b[^.\d?!]{{0,20}}?(?:for\s+)?{NUMBER}{_GAP}(?:years?|yrs?)\b",
        _plain("age_years"),
    ),
    (rf"\b(?:slope|grade|hill|bank)\b[^.\d?!]{{0,25}}?{NUMBER}{_GAP}(?:%|percent|per cent)", _plain("slope_percent")),
    (
        rf"(?<![\d.,/$-]){NUMBER}\s+(?:(?!years?|yrs?|feet|foot|ft|inch|of\b|in\b|by\b|x\b)[a-z'-]+\s+){{0,3}}(?:plants|bushes|shrubs|trees|bulbs|pots|seedlings|saplings|evergreens|clumps|crowns|corms|tubers|cloves|slips|sets|containers|planters|buckets|barrels|flats|cuttings|stems)\b",
        _plain("count"),
    ),
)
