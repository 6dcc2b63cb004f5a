"""How cold or warm a letter says it is: "got down to 27", "low 20s", "18 below", "38 C", in degrees Fahrenheit.

A number is a temperature when a degree sign or word follows, or when it could be one, nothing it counts follows, and
the words close by in its sentence are of weather, soil or a room. Not here: other amounts (amounts.py).
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from answers.reading.numbers import NUMBER, ONE, number
from answers.reading.reading import Measurement
from answers.reading.sentence import HEDGE, INSTEAD, around, word_set, words_back

_COLDEST, _HOTTEST = -60.0, 180.0
_LEAST_OF_A_PLACE = 20.0  # "soil at 6" and "the meter reads 6" are no temperatures
_Told = tuple[float, int, bool]  # degrees, where its words end, about
_NUMBER = re.compile(NUMBER, re.I)
_PART = r"(?:low(?:er)?|mid(?:dle)?|upper|high|hi)"
_TENS = ("teen", "twent", "thirt", "fort", "fift", "sixt", "sevent", "eight", "ninet")
_MAY_BE_ROUND = re.compile(r"0'?s\b|ties\b|teens\b|single dig", re.I)
_ROUND = re.compile(  # "the upper 30s", "mid to high twenties"
    rf"\b(?P<parts>{_PART}[\s-]+(?:(?:to|"
    rf"and)\s+(?:the\s+)?{_PART}[\s-]+)?)?(?:of\s+)?(?:the\s+)?'?(?:(?<!\d)(?P<digits>[1-9]0)'?s|(?P<tens>teen)s|"
    rf"(?P<spelt>{'|'.join(_TENS[1:])})ies|(?P<single>single\s+digits))\b",
    re.I,
)
_WITHIN_TEN = {"l": 2.0, "m": 5.0, "u": 8.0, "h": 8.0}
_DEGREES = re.compile(
    r"(?:[\s-]*(?P<mark>degrees?\b|deg\b\.?|°|º))?(?:\s*(?P<scale>(?:c|f|cels\w+|centigrade|fahr\w+)\b(?!')))?"
)
_BELOW = re.compile(
    r"\s+below\b(?! (?:the|ground|grade|normal|my|our|it|that|them|this one|are|is|look)\b)(?P<frost> freezing)?"
)
_NO_HEAT = re.compile(r"\s*(?:of (?:frost|slope)|angles?|bend|slope|pitch|(?:warm|cool|cold|hott?)er|of difference)\b")
_MINUS = re.compile(r"(?:\b(?:minus|negative)\s+|(?:^|[\s(])[-−–])$")
_PART_OF_MORE = re.compile(
    r"[$#/×.,:'\d]$|\d\s?[x-]$|\bx\s?$|\b(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|"
    r"aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\.?\s+$"
)
_CLOCK = re.compile(r"\b(?:at|by|till?|until|before|after)\s+(?:about\s+)?$")
_NO_DEGREES = re.compile(r"\bp\.?h\b|\b(?:meter|kit|tests?|tested|score|count)\b")
_NO_WEATHER = re.compile(
    r"\b(?:built|planted|born|since|bought|dates|back in)\b|\b(?:his|her|my|their|from|man|"
    r"woman)\s+(?:in\s+)?(?:the\s+)?$"
)
_CUES = word_set(  # before the number, with none but small words between: "dropped all the way down to about ..."
    "bottomed hit hits hitting registered hover hovers hovered hovering thermometer temp temps temperature "
    "temperatures low lows high highs forecast weather weatherman freeze froze frost frosty nipped heat heatwave hot "
    "cold chill chilly warm night nights nighttime overnight morning mornings afternoon afternoons evenings tonight "
    "tonite calling saying expecting expected predicting predicted digits outside outdoors daytime colder ac"
)
_MOVES = word_set(  # with a direction: "got down to"
    "got get gets getting goes go going went gone cooled warmed supposed shot dip dips dipped dipping drop drops "
    "dropped dropping fall falls fell falling plunged plunges sank sinks plummeted climb climbs climbed rises rose "
    "soared woke wake warm warms cools turned"
)
_TOWARDS = word_set("to down up below under above over past into near be from")
_PLACES = word_set(  # of which other numbers are told too
    "soil ground dirt probe mat room bedroom closet house basement cellar garage greenhouse porch fridge kitchen "
    "sunroom attic air water thermostat reads read reading says said showed shows stay stays stayed staying hold holds "
    "held holding keep keeps kept radio sign been days shade sun reach reached reaches topped tops topping touched"
)
_FILL = _TOWARDS | word_set(
    "a m p about again all balmy stuck sitting than we're mild chilly hard record set snap warning wave almost "
    "already and are around as at barely between by close damp day dry even every for gives had has have he here "
    "humid in index is it it's its just last like maybe me mostly nearly now of off on only our out right "
    "roughly ran runs sat sits some so still that the then there they they're this through today us was we week "
    "weekend were when will with yesterday yet you your monday tuesday wednesday thursday friday saturday sunday "
    "january february march april june july august september october november december"
)
_DAY = r"(?:(?:mon|tues|wednes|thurs|fri|satur|sun)day|(?:mon|tue|tues|wed|thur|thurs|fri|sat|sun)\b)"
_WHEN = (  # a cue after the number
    rf"(?:last (?:night|week(?:end)?|evening|winter|january|february|december|{_DAY})|this (?:morning|afternoon|week|"
    rf"am)|tonight|tonite|for {_DAY}|today|yesterday|tomorrow|overnight|in (?:january|february|march|december)|"
    rf"in the (?:shade|sun|greenhouse|garage|house|basement|shed|kitchen|soil|dirt|ground)|(?:down|in|out|up|back) "
    rf"(?:there|here)|(?:the|a whole) (?:week(?:end)?|day|night|month)|outside|outdoors|inside|out(?! of)|here|"
    rf"for (?:an?|about|\w+) (?:\w+ )?"
    rf"(?:hours?|days?|nights?|weeks?)|(?:at|before|by) (?:dawn|sun-?up|sunrise|daybreak|daylight|noon|"
    rf"breakfast)|on (?:the|our|my) (?:\w+ )?(?:porch|patio|deck|step|thermometer|mat)|by the (?:barn|house|door|"
    rf"window)|(?:\w+ )?(?:days?|nights?) (?:running|straight|in a row)|all (?!told|in|of)\w+|(?:at|by|during the|in "
    rf"the) (?:night|day)(?:time)?|predicted|expected|forecast)\b"
)
_AFTERWARDS = re.compile(
    rf"\+? and (?:dropping|falling|rising|climbing)\b|\+?(?: (?:and|but) (?:clear|windy|sunny|still|calm|humid))?,? *"
    rf"(?:here |or so )?(?:(?:on )?{_DAY} |at \w+ )?{_WHEN}"
)
_BEGINS = re.compile(
    r"(?:^|[,:(–—]|\b(?:was|is|it's|its|at|and|then|about|(?:we|it|we've) had|only|between|near|around|over|gets?|"
    r"says?|hears?|heard))\s*$"
)
_MAY_FOLLOW = re.compile(  # no noun that it counts, no unit
    rf"\s*(?:$|[,:()&–—]|-\s|\+|\.+(?!\d)|-?ish\b|{_WHEN}|{_DAY}|daytime\b|(?:\w+ )?(?:nights?|mornings?)\b|(?:on|at|"
    rf"for|last|this|out|most|every|and(?! a half)|but|with|when|before|after|as|or|so|again|already|now|that|right|"
    rf"straight|"
    rf"during|until|til|till|since|because|even|just|yet|then|where|while|though|tops|some|down|there|here|twice|"
    rf"without|no|not|the|i|we|they|he|she|it|is|my|our|if|per|anyway)\b|in\b(?!\.| (?:deep|thick|long|tall|wide|"
    rf"apart|across|high|all)\b)|(?:by|to)\b(?! \d))"
)
_AND = re.compile(rf"\s+and\s+(?P<m>{ONE})", re.I)
_BY_ITSELF = re.compile(r"\+? (?:at night|tonight|tonite|overnight|daytime|in the shade)\b")
_SITS = word_set("sitting stuck mild balmy damp")
_SUMMER = re.compile(r"\b(?:rain|dry|drought|heat\w*|hot|summer|sun|swelter\w*|tassels?|july|august)\b")
_HEAT = (85.0, 125.0)
_BY_THERMOMETER = re.compile(r"\bthermometer\b.{0,40}\b(?:got|reads?|reading|show(?:ed|s)|sa(?:id|ys)|is|was|at)\s+$")
_HOT = re.compile(r"\b(?:hot(?: as \w+)?|heat\w*|swelter\w*|scorch\w*|blaz\w+)\s*[,:–—-]?\s*$")
_ON_A_DAY = re.compile(r" (?:on |last |this )?(?:mon|tues|wednes|thurs|fri|satur|sun)day\b")
_PAST = re.compile(r"(?:^|[,.]\s|\b(?:and|was|is|it's|been|hit|at|or)\s)(?:over|above|past|pushing|near|close to)\s+$")


def temperature(text: str, starts: Sequence[int]) -> Measurement | None:
    """The first temperature told in `text`, -60 to 180 F, or None; `starts` are the places where a number may begin."""
    found = [m for m in (_NUMBER.match(text, at) for at in starts) if m]
    if _MAY_BE_ROUND.search(text):
        found = sorted([*_ROUND.finditer(text), *found], key=lambda m: m.start())
    single = None
    for place, match in enumerate(found):
        told = _round(text, match) if match.re is _ROUND else _number(text, match)
        told = told and _as_meant(text, told, found[place + 1 : place + 2])
        if told and _COLDEST <= told[0] <= _HOTTEST:
            measurement = Measurement("temperature_f", told[0], text[match.start() : told[1]].strip(), told[2])
            if match.re is not _ROUND or not match["single"]:
                return measurement
            single = single or measurement
    return single  # "single digits" counts only when no number is told


def _as_meant(text: str, told: _Told, following: Sequence[re.Match[str]]) -> _Told:
    """ "Forty-one, no wait, forty-three": the second."""
    for match in following:
        alone = match.re is _NUMBER and _MAY_FOLLOW.match(text[match.end() :].lower())  # it counts nothing
        if alone and INSTEAD.match(text[told[1] : match.start()]):
            return number(match["n"]), match.end(), told[2]
    return told


def _round(text: str, match: re.Match[str]) -> _Told | None:
    """The upper 30s are 38, the thirties 35, single digits 5."""
    before, after = around(text, *match.span())
    if _NO_WEATHER.search(before) or not (match["parts"] or match["single"] or _cued(before, after, _HOTTEST)):
        return None
    if match["single"]:
        return 5.0, match.end(), True
    tens = float(match["digits"] or 10 * (1 + _TENS.index((match["tens"] or match["spelt"]).lower())))
    within = [_WITHIN_TEN[part[0]] for part in re.findall(_PART, (match["parts"] or "mid").lower())]
    return tens + sum(within) / len(within), match.end(), True


def _number(text: str, match: re.Match[str]) -> _Told | None:
    end = match.end() - match.group().endswith(",")
    before, after = around(text, match.start(), end)
    minus = _MINUS.search(before)
    before = before[: minus.start()] if minus else before
    if not minus and _PART_OF_MORE.search(before):
        return None
    low, high = number(match["n"]), number(match["m"] or match["n"])
    if re.search(r"\b(?:between|from) $", before) and not match["m"] and (more := _AND.match(text, end)):
        high, end, after = number(more["m"]), more.end(), after[len(more.group()) :]
    value = (low + high) / 2 if high > low else high if before.endswith("from ") else low
    about = high > low or bool(HEDGE.search(before))
    degrees = _DEGREES.match(after)
    assert degrees  # all its parts are optional
    below = _BELOW.match(after, degrees.end())
    if below:
        return 32 - value if below["frost"] else -value, end + below.end(), about
    if degrees.end() and not _NO_HEAT.match(after, degrees.end()):
        value = -value if minus else value
        return value * 1.8 + 32 if (degrees["scale"] or "").startswith("c") else value, end + degrees.end(), about
    if degrees.end() or low != int(low) or not _MAY_FOLLOW.match(after):
        return None
    if not (minus and minus.group().endswith(" ")) and not _cued(before, after, value):
        return None
    return -value if minus else value, end, about


def _cued(before: str, after: str, value: float) -> bool:
    """Whether the words close by are of weather, soil or a room."""
    word, passed = words_back(before, _FILL)
    if (_CLOCK.search(before) and value <= 12) or (_NO_DEGREES.search(before) and value < _LEAST_OF_A_PLACE):
        return False
    if word in _PLACES and value < _LEAST_OF_A_PLACE:
        return words_back(before, _FILL | _PLACES)[0] in _CUES
    if word in _CUES or word in _PLACES:
        return True
    sits = not word and not _SITS.isdisjoint(passed)
    if value >= _LEAST_OF_A_PLACE and (sits or _BY_ITSELF.match(after) or _BY_THERMOMETER.search(before)):
        return True
    if _HEAT[0] <= value <= _HEAT[1]:
        if _PAST.search(before) and _SUMMER.search(f"{before} {after}"):
            return True
        if _HOT.search(before) and _ON_A_DAY.match(after):
            return True
    if word in _MOVES or (not word and ("down" in passed or "above" in passed)):
        return any(p in _TOWARDS for p in passed)
    return (value > 12 or not value) and bool(_BEGINS.search(before) and _AFTERWARDS.match(after))
