"""Amounts told in a fixed form: a fertilizer's analysis, a label's rate, the texture of a soil.

Not here: quantities whose meaning hangs on the words around them (roles.py), looking for these (amounts.py).
"""

from __future__ import annotations

import re
from collections.abc import Callable

from answers.reading.numbers import NUMBER, ONE, number

Values = dict[str, float | str]
Maker = Callable[[re.Match[str]], Values]
_GAP = r"[\s-]*"
_SPELT = r"\b(?:zero|three|four|five|six|seven|eight|nine|ten|twelve|fifteen|twenty)"
_NUTRIENTS = ("n_percent", "p_percent", "k_percent")
_PERCENT = r"(?:%|percent\b|per cent\b|pct\b\.?)"
_DATED = re.compile(r"\b(?:on|sent|since|dated|of)\s+$")
_LEAST_PH, _MOST_PH = 3.5, 9.0
_SOIL = re.compile(r"\b(?:soil|ph|lime\w*|sulfur|test\w*|lab|paper|report)\b", re.I)
_BANK = re.compile(r"\b(?:slop\w*|banks?|ditch|grade|hill(?:side)?|steep|terrace\w*|erosion)\b", re.I)
_NO_UNIT = r"(?![\d.]*\d|\s*(?:feet|foot|ft|in\b|inch|'|\"|%|percent|years?|yrs?|weeks?|days?|lbs?|pounds?|gal))"
_FEW = r"(?:[2-9]|10|two|three|four|five|six|seven|eight|nine|ten)"
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
    "qu": "qt",
    "qt": "qt",
    "lb": "lb",
    "po": "lb",
}


def _analysis(match: re.Match[str]) -> Values:
    n, p, k = (number(match[g]) for g in ("p1", "p2", "p3"))
    dated = _DATED.search(match.string[: match.start()].lower())
    if dated and 0 < n <= 12 and 0 < p <= 31 and 20 <= k <= 39:
        return {}
    return {"n_percent": n, "p_percent": p, "k_percent": k} if 0 < n + p + k <= 100 else {}


def _nutrient(match: re.Match[str]) -> Values:
    first = match["w"].lower()
    name = "n_percent" if first.startswith("n") else "k_percent" if first.startswith(("k", "pot")) else "p_percent"
    return {name: number(match["n"])}


def _from_ph_to_ph(match: re.Match[str]) -> Values:
    now, wanted = number(match["n"]), number(match["m"])
    both = all(_LEAST_PH <= ph <= _MOST_PH for ph in (now, wanted))
    return {"soil_ph": now, "target_ph": wanted} if both and (now % 1 or wanted % 1) else {}


def _buffer(match: re.Match[str]) -> Values:
    ph = number(match["n"])
    return {"buffer_ph": ph} if _LEAST_PH <= ph <= _MOST_PH and _SOIL.search(match.string) else {}


def _slope(match: re.Match[str]) -> Values:
    rise, run = number(match["n"]), number(match["m"])
    return {"slope_percent": round(100 * rise / run, 1)} if 0 < rise <= 2 * run else {}


def _ratio(match: re.Match[str]) -> Values:
    """ "1 in 4" is a slope in a letter about a bank; of apples with worms it is none."""
    return _slope(match) if _BANK.search(match.string) else {}


def _as_wide(match: re.Match[str]) -> Values:
    height = number(match["n"])
    return {"height_ft": height, "crown_spread_ft": height}


def _label_rate(match: re.Match[str]) -> Values:
    per = match["per"].lower()
    base = "gal" if per.startswith("gal") else "acre" if per.startswith("ac") else "1000sqft"
    return {"label_rate": number(match["n"]), "label_rate_unit": f"{_SPOONS[match['u'].lower()[:2]]}/{base}"}


PATTERNS: tuple[tuple[str, Maker], ...] = (
    (r"\b(?P<w>clay|gumbo|adobe)\b(?! pots?\b| pigeons?\b| bowl)", lambda _: {"texture": "clay loam"}),
    (r"\b(?P<w>sandy|sand)\b(?!\s*(?:box|paper|bag|stone|cherry|bur))", lambda _: {"texture": "sandy loam"}),
    (r"\b(?P<w>loamy?|silt loam)\b", lambda _: {"texture": "loam"}),
    (r"(?<![\d-])(?P<p1>\d{1,2})-(?P<p2>\d{1,2})-(?P<p3>\d{1,2})(?!\d|-\d)", _analysis),
    (rf"(?P<p1>{_SPELT})[ -](?P<p2>{_SPELT})[ -](?P<p3>{_SPELT})\b(?!\s+hundred)", _analysis),
    (r"\btriple[\s-]+(?P<n>ten|thirteen|sixteen|\d\d?)\b", lambda m: dict.fromkeys(_NUTRIENTS, number(m["n"]))),
    (rf"{NUMBER}{_GAP}{_PERCENT}\s+(?P<w>nitrogen|n\b|phosph\w+|p2o5|p\b|potash|potassium|k2o|k\b)", _nutrient),
    (rf"\b(?P<w>nitrogen|phosph\w+|potash|potassium)\b[^.\d]{{0,15}}(?P<n>{ONE}){_GAP}{_PERCENT}", _nutrient),
    (
        rf"\bfrom (?:about |a )?(?P<n>{ONE})\s+(?:down |up |back )?to (?:about |a )?(?P<m>{ONE}){_NO_UNIT}",
        _from_ph_to_ph,
    ),
    (rf"\bto (?:about |a )?(?P<m>{ONE}) from (?:about |a )?(?P<n>{ONE}){_NO_UNIT}", _from_ph_to_ph),
    (
        r"\bbuffer(?:ed|ing|['’]s)?(?: (?:ph|index|value|reading|test|number|line))*(?:['’\",:=(]|\s|\b(?:is|was|of|at|says?|reads|"
        rf"the paper|comes?|came|back|in|it)\b){{1,6}}(?P<n>{ONE}){_NO_UNIT}",
        _buffer,
    ),
    (rf"(?P<n>{ONE}) (?:(?:for|on|is|as|was|in) the|as) buffer\b", _buffer),
    (rf"\b(?P<n>1|one) in (?P<m>{_FEW})\b(?! (?:feet|ft|inch))", _ratio),
    (rf"\b(?P<m>{_FEW})(?: to |:)(?P<n>1|one)\b", _ratio),
    (
        rf"\b(?:drops?|falls?|rises?|climbs?) (?:about )?(?P<n>{ONE}){_GAP}(?:feet|foot|ft\.?|['’]) (?:in|over|for every|per)"
        rf" (?:about )?(?P<m>{ONE})(?!\s*(?:min|hour|day|year|week|month))",
        _slope,
    ),
    (
        rf"{NUMBER}{_GAP}(?:feet|foot|ft\.?|['’])[\s-]*(?:tall|high)?,? (?:and|by) (?:about |almost |nearly |just |every bit |"
        r"probably )?(?:as (?:wide|broad|far across|big around)|the same (?:wide|across|around))\b",
        _as_wide,
    ),
    (
        rf"{NUMBER}{_GAP}(?P<u>tbsp|tablespoons?|tbs|tsp|teaspoons?|fl\.?\s*oz|oz\b|ounces?|pints?|pt\b|quarts?|qt\b|lbs?\b"
        r"|pounds?)\.?\s*(?:per|to the|to a|to each|an?|/|for each|in a)\s*"
        r"(?P<per>gal\w*|acre|1,?000\s*(?:sq\.?|square)?\s*(?:ft|feet|foot)?)",
        _label_rate,
    ),
)
