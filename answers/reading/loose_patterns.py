"""Looser ways of telling an amount, tried after those of amount_patterns.py: "runs some sixty feet", "18 below".

Not here: looking for them in a letter (amounts.py).
"""

from __future__ import annotations

import math

from answers.reading.amount_patterns import FILL, GAP, WEIGHT, Maker, U, across, feet, in_feet, inches, plain, pounds
from answers.reading.numbers import NUMBER, ONE, number

PH = r"(?:[3-9]\.\d|(?:four|five|six|seven|eight)\s+point\s+(?:one|two|three|four|five|six|seven|eight|nine))"
PATTERNS: tuple[tuple[str, Maker], ...] = (
    (
        rf"{ONE}{GAP}(?:x|×|by)\s*{ONE}{GAP}(?:x|×|by)\s*(?P<n>{ONE})(?:{GAP}{U})?(?!\d|[.-]\d)",
        lambda m, n: {
            "depth_in" if feet(m["u"]) < 1 else "height_ft": n * (12 * feet(m["u"]) if feet(m["u"]) < 1 else 1)
        },
    ),
    (
        rf"{NUMBER}{GAP}(?P<u>feet|foot|ft\b\.?|'|met(?:er|re)s?|m\b){GAP}square\b",
        lambda m, n: {"length_ft": n * feet(m["u"]), "width_ft": n * feet(m["u"])},
    ),
    (r"\b(?:goal|target|aiming for)\s+(?:of\s+|is\s+|ph\s+)*(?P<n>[4-8](?:\.\d)?)\b", plain("target_ph")),
    (
        rf"{NUMBER}{GAP}(?:%|percent|per cent)\s+(?:\w+\s+)?(?:hillside|hill|slope|grade|bank|incline)",
        plain("slope_percent"),
    ),
    (rf"\bon\s+{NUMBER}{GAP}{U}{GAP}centers?\b", inches("spacing_in")),
    (rf"(?P<n>{ONE})[\s-]*pounders?\b", plain("product_lb")),
    (rf"\bno\s+(?:bigger|thicker|fatter)(?:\s+a?round)?\s+than\s+{NUMBER}{GAP}{U}", inches("trunk_diameter_in")),
    # Lengths of rows, hedges and lines; heights; ages; temperatures, as told without their names.
    (
        rf"{NUMBER}{GAP}{U}{GAP}(?:long\b|(?:of\s+)?(?:\w+\s+)?(?:row|hedge|fence|line|border|strip)\b|in length)",
        in_feet("length_ft"),
    ),
    (
        rf"\b(?:rows?|hedge|border|fence ?line)(?:\s+(?:is|are|of|runs?|some|about|each)|\s*,)*\s+{NUMBER}{GAP}{U}",
        in_feet("length_ft"),
    ),
    (rf"{NUMBER}{GAP}foot(?:er|ers)\b", lambda m, n: {"height_ft": n}),
    (
        rf"\b(?:tree|trees|shrubs?|bush(?:es)?|it|it's|he's|she's|they|they're|plants?)(?:'s)?\s+(?:is|are|was|were|now|about|maybe|already|over|up to|nearly|\s)*\s*{NUMBER}{GAP}(?P<u>feet|foot|ft\b\.?|met(?:er|re)s)(?!{GAP}(?:from|away|row|long|wide|of|by|x|apart|deep|around|across|off|through|in))",
        in_feet("height_ft"),
    ),
    (
        rf",\s+(?:about|maybe|some)?\s*{NUMBER}{GAP}(?P<u>feet|foot|ft\b\.?)(?:\s+or so)?(?=[.,;!?]|$)",
        in_feet("height_ft"),
    ),
    (r"\b(?:a|one)\s+foot\s+(?P<w>tall|high)\b", lambda m, n: {"height_ft": 1.0}),
    (rf",\s+{NUMBER}\s+(?:tall|high)\b", lambda m, n: {"height_ft": n}),
    (rf"\b(?:put|laid|spread|piled|dumped|lay)\s+(?:down\s+|on\s+|about\s+)*{NUMBER}{GAP}{U}", inches("depth_in")),
    (
        rf"{NUMBER}{GAP}{U}{GAP}of\s+(?:\w+\s+){{0,2}}(?:mulch|compost|soil|fill|dirt|topsoil|stuff|thatch|it\b|straw|chips|manure|leaves)",
        inches("depth_in"),
    ),
    (rf"{NUMBER}{GAP}(?P<u>inch(?:es)?|in\b\.?){GAP}(?:tall|high)(?=[^.]{{0,40}}\bbeds?\b)", inches("depth_in")),
    (rf"\bbeds?\b[^.]{{0,30}}?{NUMBER}{GAP}(?P<u>inch(?:es)?|in\b\.?){GAP}(?:tall|high)", inches("depth_in")),
    (rf"\bthin(?:ned|ning)?\s+(?:[\w']+\s+){{0,4}}?to\s+{NUMBER}{GAP}{U}", inches("spacing_in")),
    (rf"\bspac\w*\s+(?:\w+\s+)?(?P<n>a|{ONE}){GAP}{U}", inches("spacing_in")),
    (rf"\b(?:girth|circumference)\b[^.\d]{{0,25}}?\b{NUMBER}{GAP}{U}", inches("trunk_diameter_in", 1 / math.pi)),
    (
        r"\bwant(?:ed)?\s+it\s+(?:at\s+|around\s+|about\s+|near\s+)?(?P<n>[4-8](?:\.\d)?)\b",
        plain("target_ph"),
    ),
    (rf"\b(?:sack|bag)s?\b[^.]{{0,40}}?\b{NUMBER}{GAP}{WEIGHT}", pounds),
    (rf"{NUMBER}{GAP}{WEIGHT}\s+of\s+[^.;?!]{{0,30}}?\d\d?-\d\d?-\d\d?\b", pounds),
    (
        rf"(?<![\d.,/$-]){NUMBER}\s+(?:(?!years?|yrs?|feet|foot|ft|inch)[a-z'-]+\s+){{0,2}}(?:mounds|vines|beds|tubs|cells|baskets|starts|transplants|canes|rows)\b",
        plain("count"),
    ),
    (
        rf"\b(?:i have|i've|we have|got|i set out|we've|planted)\s+(?P<n>{ONE})\s+(?:of (?:them|those)|yesterday|in all)",
        plain("count"),
    ),
    # Wider ways of saying the same: sides apart, corners of an acre, adjectives between a number and what it counts.
    (rf"{NUMBER}{GAP}{U}{GAP}wide\b(?!{GAP}(?:crown|canopy|spread))", in_feet("width_ft")),
    (
        r"\b(?:as\s+)?(?:a|one)\s+foot\s+(?:deep|of\s+(?:mulch|compost|soil|topsoil|chips|leaves|straw|manure|fill))",
        lambda m, n: {"depth_in": 12.0},
    ),
    (rf"\b(?:depth|layer)\s+(?:is\s+|of\s+|about\s+)*{NUMBER}{GAP}{U}", inches("depth_in")),
    (r"\b(?:a|one)\s+foot\s+apart\b", lambda m, n: {"spacing_in": 12.0}),
    (rf"\b(?:every|spaced?\s+at|set\s+at)\s+{NUMBER}{GAP}{U}", inches("spacing_in")),
    (r"(?P<n>\d(?:\.\d+)?)\s+p\.?h\b", plain("soil_ph")),
    (rf"\b(?P<n>{PH})\b[^.\d]{{0,20}}\b(?:that's|is|was)\s+(?:my|our|the)\s+p\.?h\b", plain("soil_ph")),
    (
        rf"\b(?:tested|tests|measured|reads)\s+(?:it\s+)?(?:at\s+|out\s+at\s+|as\s+|about\s+)?(?P<n>{PH})\b",
        plain("soil_ph"),
    ),
    (
        rf"\b(?P<n>{PH})\s+(?:on|by|with|from|according to)\s+(?:the|my|our|a)\s+(?:\w+\s+)?(?:meter|kit|lab|test|strip)",
        plain("soil_ph"),
    ),
    (
        rf"\b(?:lab|report|county|agent|book|they)\s+(?:recommends?|suggests?|wants?|advises?)\s+(?:it\s+)?(?:at\s+)?(?P<n>{PH}|[4-8])(?![\d-]|\s*(?:lbs?|pounds?|bags?|feet|inch|%))",
        plain("target_ph"),
    ),
    (rf"\b(?:soil|ground|sod|lawn|bed|grass)\b[^.\d?!]{{0,12}}\bat\s+(?P<n>{PH})\b", plain("soil_ph")),
    (r"\bph\b[^.\d?!]{0,40}?\b(?P<n>[3-9](?:\.\d+)?)\b(?!\s*(?:feet|ft|inch|x|by|%|lb|year))", plain("soil_ph")),
    (
        r"\b(?:soil|lab|test|report|results?|kit|meter|probe|strip)\b[^.\d?!]{0,40}?\b(?P<n>[3-9]\.\d)\b",
        plain("soil_ph"),
    ),
    (
        r"\b(?:lime|get|bring|raise|drop|lower|aim\w*|shoot\w*|up|down)\b[^.\d?!]{0,20}?\b(?:to|for)\s+(?:about\s+|around\s+)?(?P<n>[4-8]\.\d)\b",
        plain("target_ph"),
    ),
    (r"\b(?:buffer|lime)\s+(?:ph|index|value|reading)\b[^.\d?!]{0,20}?(?P<n>[5-8](?:\.\d+)?)", plain("buffer_ph")),
    (
        rf"{NUMBER}{GAP}(?:lbs?\b\.?|pounds?){GAP}of\s+(?:\w+\s+)?(?:fertili[sz]er|seed|\d)",
        plain("product_lb"),
    ),
    (
        rf"(?<![\d.,/$-]){NUMBER}\s+(?:(?!years?|yrs?|feet|foot|ft|inch|of\b|in\b|by\b|x\b|and\b)[a-z'-]+\s+){{0,3}}(?:plants|bushes|shrubs|trees|bulbs|pots|seedlings|saplings|evergreens|clumps|crowns|corms|tubers|cloves|slips|sets|containers|planters|buckets|barrels|flats|cuttings|stems)\b",
        plain("count"),
    ),
    (rf"{NUMBER}{GAP}{U}{GAP}(?:across|in spread)\b", across),
    (rf"\bspreads?(?:\s+(?:of|is|about|some))*\s+{NUMBER}{GAP}(?:{U})?", in_feet("crown_spread_ft")),
    (rf"\bshades?\s+(?:a\s+good\s+|about\s+|some\s+)?{NUMBER}{GAP}{U}", in_feet("crown_spread_ft")),
    (
        rf"(?:tall|high)(?:,|\s+and|\s+by)\s+(?:about\s+|maybe\s+|nearly\s+)?{NUMBER}{GAP}(?:{U}{GAP})?(?:wide|across)\b",
        in_feet("crown_spread_ft"),
    ),
    (
        rf"\b(?:ht|height|stands|grown to|up to|climbs)(?:\s+(?:of|is|about|near|nearly|almost))*\s+{NUMBER}{GAP}(?:{U})?(?:{GAP}(?:tall|high))?",
        in_feet("height_ft"),
    ),
    (rf"\b(?:length|long)\b{FILL}{NUMBER}(?:{GAP}{U})?", in_feet("length_ft")),
    (rf"\bwidth\b{FILL}{NUMBER}(?:{GAP}{U})?", in_feet("width_ft")),
    (rf"{NUMBER}{GAP}(?:(?:feet|foot|ft)\s+)?long\b", lambda m, n: {"length_ft": n}),
    (rf"\blong,?\s+(?:by|x)\s+(?:about\s+)?{NUMBER}(?:{GAP}{U})?", in_feet("width_ft")),
    (
        rf"(?P<a>{ONE}){GAP}{U}{GAP}deep\s+(?:and|by)\s+(?P<b>{ONE}){GAP}(?:feet|foot|ft)\b\.?\s*(?:across|wide|along)",
        lambda m, n: {"width_ft": number(m["a"]) * feet(m["u"]), "length_ft": number(m["b"])},
    ),
    (rf"{NUMBER}\s+wide\b", lambda m, n: {"width_ft": n}),
    (
        rf"{NUMBER}{GAP}{U}{GAP}(?:rows?|trellis|pergola|trench|wire|fence|walk|strip|bed|border|drive|run|stretch)\b",
        in_feet("length_ft"),
    ),
    (
        rf"\b(?:windbreak|screen|hedge|fence|walk|border|edging)\b[^.\d]{{0,25}}?\b{NUMBER}{GAP}{U}(?!{GAP}(?:tall|high|apart))",
        in_feet("length_ft"),
    ),
    (rf"{NUMBER}{GAP}{U}{GAP}(?:of it\b|across the front)", in_feet("length_ft")),
    (rf"{NUMBER}{GAP}{U}{GAP}(?:between|in the row)\b", inches("spacing_in")),
    (rf"\binch(?:es)?\s+deep,\s+{NUMBER}\s+apart\b", lambda m, n: {"spacing_in": n}),
    (rf"\bat\s+{NUMBER}{GAP}(?P<u>inch(?:es)?|in\b\.?)", inches("spacing_in")),
    (
        r"\b(?P<n>an?|one|a quarter|half an?|a half)[\s-]+inch\s+(?:deep|under|down|of)\b|\bdrilled\s+(?:it\s+)?(?P<h>a quarter|half an?|an?)\s+inch",
        lambda m, n: {"depth_in": number((m["n"] or m["h"]).removesuffix(" an"))},
    ),
    (rf"{NUMBER}{GAP}(?P<u>inch(?:es)?|in\b\.?|cm){GAP}(?:under|below|down)\b", inches("depth_in")),
    (
        r"\b(?:soil|ground|dirt|bed)\b(?:'s)?(?:\s+(?:is|tests?|tested|at|runs|reads|ph|the|came|back))*\s+(?P<n>[3-9]\.\d|(?:four|five|six|seven|eight)\s+point\s+\w+|(?:four|five|six|seven|eight)\s+and\s+a\s+half)",
        plain("soil_ph"),
    ),
    (
        r"\bp\.?h\b(?:\s+(?:is|of|about|at|level|tests?|reads?))*\s+(?P<n>(?:four|five|six|seven|eight)(?:\s+point\s+\w+|\s+and\s+a\s+half)?)\b",
        plain("soil_ph"),
    ),
    (
        r"\b(?:test|report|lab)\b[^.\d]{0,25}?(?P<n>(?:four|five|six|seven|eight)\s+(?:point\s+\w+|and\s+a\s+half))",
        plain("soil_ph"),
    ),
    (r"\bwants?\s+(?:it\s+)?(?:\w+\s+){0,2}?(?P<n>[4-8]\.\d)\b", plain("target_ph")),
    (
        rf"(?:^|[.!?]\s+)(?P<n>{ONE})\s+(?:[a-z'-]+\s+){{1,4}}ones\b",
        lambda m, n: {"count": n} if n == int(n) and n >= 2 else {},
    ),
    (r"\b(?P<w>both)\s+(?:my|our|of)\b", lambda m, n: {"count": 2.0}),
    (rf"\b(?P<n>{ONE})\s+of\s+(?:them|'?em)\b", plain("count")),
    (
        rf"^(?:\W*(?:got|have|i|we|i've|we've|my|our|about|some|planted|bought|ordered|the)\s+){{0,3}}{NUMBER}\s+(?:(?!of|to|by|acres?|feet|foot|inch|years?|yrs?|below|this|growing|square|sq|gallons?|pounds?|lbs?|degrees?|weeks?|days?|months?|hours?|percent|times|people)[a-z'-]+\s+){{0,2}}(?!this\b|quarters|acres|inches|years|yrs|summers|winters|springs|falls|seasons|christmases|yards|gallons|pounds|degrees|weeks|days|months|hours|times|kids|people|dogs|cats|bags|sacks|loads|miles|fellows|holes|limbs|branches|spots|leaves|men|guys|dollars|bucks|minutes)[a-z'-]+s\b",
        lambda m, n: {"count": n} if n == int(n) and n >= 2 else {},
    ),
    (
        r"\bfrom\s+(?:a\s+|ph\s+)*(?P<n>[3-9]\.\d)\s+(?:down\s+|up\s+)?to\s+(?P<t>[3-9](?:\.\d)?)\b",
        lambda m, n: {"soil_ph": n, "target_ph": float(m["t"])},
    ),
    (r"(?P<n>\d)\s?'\s?(?P<i>\d{1,2})\s?(?:\"|”|'')", lambda m, n: {"height_ft": n + number(m["i"]) / 12}),
    (r"\b(?:a|one)\s+foot\s+(?P<w>wide|across)\b", lambda m, n: {"width_ft": 1.0}),
    (rf"{NUMBER}{GAP}{U}{GAP}swath\b", in_feet("width_ft")),
    (rf"\bwide\s+by\s+{NUMBER}{GAP}{U}", in_feet("length_ft")),
    (
        rf"\btrunk\b[^.?!\d]{{0,40}}?\b{NUMBER}{GAP}{U}(?!{GAP}(?:from|off|away|up|above|tall|high))",
        inches("trunk_diameter_in"),
    ),
    (
        r"\b(?:slope|bank|hill|grade|steep)\b[^.?!\d]{0,25}\b(?P<n>[2-9])\s*(?:to|:)\s*1\b",
        lambda m, n: {"slope_percent": 100 / n},
    ),
    (
        rf"{NUMBER}{GAP}{U}{GAP}(?:of\s+(?:\w+\s+){{0,2}}(?:gravel|stone|stones|rock|dirt|soil|chips|straw)|on top|over the top)\b",
        inches("depth_in"),
    ),
    (rf"\b(?:deep|depth)\b[^.!]{{0,40}}?\b{NUMBER}{GAP}(?P<u>inch(?:es)?|in\b\.?|cm)", inches("depth_in")),
    (
        r"\b(?P<q>half|a quarter|quarter)\s+(?:of\s+)?an\s+inch\b(?=[^.?!]{0,20}(?:deep|down|under)?)(?<!\d)",
        lambda m, n: {"depth_in": 0.5 if m["q"] == "half" else 0.25},
    ),
    (r"\b(?<!an )(?<!one )inch\s+and\s+a\s+(?P<n>half|quarter)\b", lambda m, n: {"depth_in": 1 + n}),
    (
        rf"\b(?:mulch|compost|topsoil)\b[^.!\d]{{0,60}}?\b{NUMBER}{GAP}(?P<u>inch(?:es)?|in\b\.?)(?!{GAP}(?:wide|across|tall|apart))",
        inches("depth_in"),
    ),
    (
        r"\b(?:just|only|have|having|got|own)\s+(?:the\s+|a\s+)?(?P<w>one|single|1)\s+(?:[a-z'-]+\s+){0,3}"
        r"(?:tree|plant|bush|shrub|vine|pot|rose|hedge)\b",
        lambda m, n: {"count": 1.0},
    ),
    (rf"{NUMBER}\s+or\s+so\s+of\s+(?:them|'?em)\b", plain("count")),
    (rf"\blength\b[^.?!\d]{{0,30}}?\b{NUMBER}{GAP}{U}", in_feet("length_ft")),
    (
        rf"{NUMBER}{GAP}{U}\s+(?:of\s+(?:\w+\s+){{0,2}}(?:fence|link|wall|trellis|border|row|rows|hedge|edging)|"
        r"to\s+(?:fill|cover|screen|plant|hide))\b",
        in_feet("length_ft"),
    ),
    (rf"\brows?\s+(?:at|of|about)\s+{NUMBER}{GAP}{U}", in_feet("length_ft")),
    (rf"\b(?:and|,)\s+(?:maybe\s+|about\s+)?{NUMBER}\s+(?:tall|high)\b", lambda m, n: {"height_ft": n}),
    (rf"{NUMBER}{GAP}{U}\s+of\s+width\b", in_feet("width_ft")),
)
