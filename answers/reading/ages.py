"""How old a plant is, in years: "planted in 2019", "nine years in the ground", "third summer for ...", "since '09".

Not here: ages of people and houses, and how long a trouble has lasted, which are told alike and left alone; other
amounts (amounts.py).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from answers.reading.numbers import NUMBER, number
from answers.reading.reading import Measurement, Mention
from answers.reading.screen import Scan
from answers.reading.sentence import HEDGE, around

_OLDEST = 500.0
_FIRST_DATE = 1000  # "in year 2019" is a date
_Told = tuple[int, int, int, float, bool]  # how weakly told, its span in the text, years, about
_UNIT = re.compile(
    r"(?<![a-z])(?P<unit>years?|yrs?|decades?|century|centuries|(?P<season>winters?|summers?|springs?|autumns?|"
    r"falls?|seasons?|christmases)|(?P<leaf>leaf)|months?(?=[\s-]+old\b))\b(?P<half> and a half\b)?"
    r"(?P<or_two> or two\b)?(?:\.(?= ?old\b))?",
    re.I,
)
_YEARS = {"d": 10.0, "c": 100.0, "m": 1 / 12}
_HOW_MANY = re.compile(
    rf"(?:{NUMBER}|\b(?P<one>an?)|\b(?P<couple>(?:a\s+)?couple))(?P<loose>(?:[\s-]*(?:odd|some|plus|\+|or so|or more|"
    rf"ish|good|growing|full|long|whole|of an?)(?![a-z]))*)[\s-]*$",
    re.I,
)
_NTH = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
_ORDINAL = re.compile(rf"\b(?P<nth>{'|'.join(_NTH)}|\d\d?(?:st|nd|rd|th))\s+(?:full\s+|growing\s+)?$", re.I)
_YEAR_SO_MANY = re.compile(rf"\b(?:in|into|on|their|its) year {NUMBER}\b", re.I)  # "in year four"
_OF_A_PLANT = re.compile(
    r"\s*(?:now )?(?:(?:bed|patch|plants?|planting|trees?)\b|"
    r"for (?:the|my|our|this|that|these|those|them|it)\b(?! (?:problem|same|trouble))|"
    r"with (?:it|them|this|these)|in (?:the|this|that|its|a) (?:ground|garden|yard|bed|pot|spot)|from seed|since "
    r"(?:planting|(?:we|i) (?:put|set|planted|bought|got)))"
)
_ITS = re.compile(r"\b(?:its|their|his|her|entering (?:the|a)|into (?:the|a)|in)\s+$")
_PLANTED = re.compile(
    r"\b(?:(?:re|trans)?plant(?:ed|ing)?\b(?! (?:is|are|has|looks|was))|(?:set|put)\b(?: [\w',-]+){0,5} (?:in|out)\b|"
    r"went in|installed|stuck|sow(?:ed|n)|seeded|sodded|grafted|rooted|dug (?:it|them|up)|moved\b(?! (?:here|in\b|"
    r"away|out|to ))|bought\b(?! (?:the|this|our|a) (?:house|place|property|home|farm|bag))|(?:got|brought|gave|given|"
    r"picked|started) (?:it|them|him|her|this|that|these|those|me|us|my|our|a|the|home|up|from)\b|gift|inherited|"
    r"from (?:an? )?(?:seed|pit|cutting|acorn|stone|slip|whip)|(?:grew|grown) (?:it |them )?from|"
    r"c[ao]me (?:with (?:us|the)|from))"
)
_STOOD = re.compile(
    r"\b(?:been (?:here|there|in|at|by|on|around|mine|ours|alive|growing|standing|with)|(?:has|have|it'?s|"
    r"had) (?:stood|lived|survived|thrived|bloomed)|in (?:the )?ground|established|stood|survived|outlived|"
    r"babied|nursed|tended|kept|keeping|c[ao]me (?:through|up|back)|made it|(?:tree|vine|bush|shrub|hedge|plant|bed|"
    r"orchard)s? of|had (?:for|it|him|her|this|that|these|them|the|my|our|a|one)|owned|gotten .{1,20} off|in since|"
    r"there since)\b"
)
_TROUBLE = re.compile(
    r"n't|\b(?:not|never|no|without|trouble|problems?|fight\w*|fought|battl\w*|same thing|issues?|(?:we|i)(?:'ve| "
    r"have) (?:lived|been))\b"
)
_OLD = re.compile(r"[\s-]*(?:old|of age)\b")
_AT = re.compile(r"(?:^|\s)at $")
_ESTIMATED = re.compile(r"\b(?:estimat\w+|guess\w*|reckon\w*|put(?:s|ting)? (?:it|them)|dated?) at $")
_AGO = re.compile(r"\s*(?:or so |now )?(?:ago|back|since)\b")
_STANDING = re.compile(
    r"\s*(?:or so )?(?:planted|established|along|standing|(?:in|at|by|on) (?:the|this|that|its|our|my|a (?:pot|"
    r"tub))\b(?! (?:past|future|making))|in(?=\s*(?:$|[,.)(:–—-]))|there\b|here\b)"
)
_NO_AGE_AFTER = re.compile(
    r"\s*(?:running|straight|in a row|later|from now|of (?!age)|warranty|guarantee|to (?:come|go|get|grow|bear)|at "
    r"(?:least|most)|apart)\b"
)
_YIELD = r"\b(?:bloom|flower|blossom|fruit|bor|bear|pod|berr|nut|apple|pear|peach|plum|cherr|fig|bract|bud)"
_NOT_YET = re.compile(  # "eight years and not one apple", "never a bloom in nine years"
    rf"\b(?:never|not (?:one|an?|once)|nary|nothing|exactly one)\b.*{_YIELD}|n'?t\b.*{_YIELD}.*\bonce\b"
)
_WAITED = re.compile(r"\b(?:in|for|after|been|of waiting)\s+(?:about |almost |nearly |all |over )?$|^\W*$")
_WAITING = re.compile(r"\s*(?:and\b|on\b|[,:;.]|$|i(?:'ve| have) waited|we(?:'ve| have) waited|now\b|old\b)")
_EVERY = re.compile(r"\b(?:every|each|within|takes?|next|in)\s+(?:about )?$")
_GOVERNED = re.compile(  # "for three years", "the past 2 years", "another year": how long something lasted
    r"\b(?:for|in|every|each|after|past|last|next|within|takes?|took|another|than|these|those|the|until|before|per|"
    r"lasts?|lasted|of|over|only|first|and|again|from)\s+(?:about |some |over |maybe |at least |good )*$"
)
_CLAUSE = re.compile(  # what years stand after when nothing else is said of them
    r"(?:^|[,:(–—&-]|\b(?:is|are|it's|'s|was|be|at|about|around|maybe|say|roughly|nearly|almost|guess|suppose|going on|"
    r"good|both|each|all))\s*$"
)
_CLAUSES = re.compile(r"[,(:–—]\s|\s(?:and|but|so)\s")
_ENDS = re.compile(
    r"\s*(?:$|[,.:)(–—&-]|(?:now|or (?:so|more|better)|i think|i'd|i guess|anyhow|maybe|give or take|if|in\b(?! a "
    r"row))\b)"
)
_PEOPLE = (
    r"(?:(?:grand)?(?:sons?|daughters?|kids?|child|children|mother|father|ma|pa)|boys?|girls?|baby|toddler|nephew|"
    r"niece|cousin|husband|wife|mom|dad|man|woman|lady|guy|neighbou?r|friend|pupil|dogs?|cats?|pupp(?:y|ies)|horses?|"
    r"lab|hens?|twins?)"
)
_THINGS = r"(?:house|home|roof|deck|fence|shed|barn|septic|sidewalk|driveway|mower|tiller|sprayer|truck|car|warranty)"
_SOMEBODY = re.compile(
    rf"\b(?:i'm|i am|i was|he's|he is|we're|{_PEOPLE}(?:'s| is| are| was| who is|,)?|{_THINGS}(?:'s| is| was)?)\s+"
    rf"(?:about |only |now |almost )?$"
)
_SOMEBODYS = re.compile(rf"(?:,? [\w'-]+)?[\s-]+(?:{_PEOPLE}|{_THINGS}|bags?|seeds?|manure|compost)\b")
_A_CHILD = re.compile(r"\b(?:an?|my|our|her|his|their)\s+$")
_NO_NOUN = re.compile(
    r"\s*(?:$|[,.)(]|(?:and|who|just|ate|is|has|was|got|chewed|swallowed|in|loves?|likes?|picked|pulled|thinks|says|"
    r"wants?|helped|did|will|can)\b)"
)
_A_YEAR = re.compile(
    r"(?<![\d$,.#-])(?:(?P<full>(?:18|19|20)\d\d)|['’](?P<short>\d\d))\b(?!['’]?s\b|[\d%]|,\d|\s*(?:sq|f(?:ee|oo)?t|"
    r"acre|plants))",
    re.I,
)
_SINCE = re.compile(r"\bsince\b[\w' ]{0,30}$")
_LAST = re.compile(
    r"\b(?:(?P<two>(?:year|spring|summer|fall|autumn|season) before last)|last (?:year|yr|spring|summer|fall|autumn|"
    r"winter))\b(?!')",
    re.I,
)
_SET_OUT = re.compile(
    r"\b(?:(?:trans)?planted|set (?:it |them )?out|put (?:it |them )?in|went in|stuck|"
    r"new (?:lawn|bed|tree|hedge|sod|orchard|turf))\b"
)
_BARE = re.compile(  # "the fig is 30", "the peace lily from Mom's funeral is two now"
    rf"(?:\s+(?:tree|bush|plant|vine|shrub))?(?: from(?: [\w'’]+){{1,3}}?(?= is\b| are\b))?(?:(?<=['’]s)|['’]s|"
    rf"\s+(?:is|are|turned|just turned|turns|(?:must|has to|would) be))(?:,?\s+(?:oh|about|maybe|now|only|nearly|"
    rf"almost|probably|easily|going on)\b,?)*\s+{NUMBER}(?=\s+(?:or so|this year|now)\b|[.,;!?)](?!\d)|$)",
    re.I,
)
_BARE_FIRST = re.compile(rf"{NUMBER},\s+(?:the|my|our|that|this)\s+(?:\w+\s+)?\Z", re.I)
_BORN = re.compile(  # "the year our daughter was born, she just turned 9"
    r"\bthe (?:very )?(?:year|spring|summer|fall|autumn|winter|month|week|day) (?:that )?(?:[\w']+ ){1,3}(?:was|were) "
    r"born\b[^.!?]{0,40}?\b(?:turned|turns|turning|i am|i'm|(?:he|she|they) (?:is|are)|he's|she's|they're)\s+"
    rf"(?:just |now |about |almost )*{NUMBER}(?=\s*(?:$|[.,;!?)](?!\d)|(?:years?|now|this|last|in|and)\b))",
    re.I,
)
_SCAN = Scan(_UNIT, _YEAR_SO_MANY, _A_YEAR, _LAST, _BORN)


def age(text: str, plants: Sequence[Mention] = (), year: int | None = None) -> Measurement | None:
    """A plant's age told in `text`, up to 500 years, or None; the plainest way of telling goes first, then the first.

    `plants` are those named in it ("the plum is nine"); `year` is the letter's, for "planted in 2019".
    """
    units, so_many, dates, lasts, born = _SCAN.matches(text)
    every = (
        *_counted(text, units, bool(plants)),
        *_so_many(so_many),
        *_dated(text, dates, year),
        *_lately(text, lasts),
        *_as_old_as(text, born),
        *_bare(text, plants),
    )
    told = [t for t in every if 0 < t[3] <= _OLDEST]
    if not told:
        return None
    _, start, end, years, about = min(told)
    return Measurement("age_years", years, text[start:end].strip(), about)


def _counted(text: str, units: Iterable[re.Match[str]], of_plants: bool) -> Iterator[_Told]:
    """Years, decades and summers, with how many or which of them."""
    for unit in units:
        from_ = max(0, unit.start() - 40)
        lead = text[from_ : unit.start()]
        if nth := _ORDINAL.search(lead):
            before, after = around(text, from_ + nth.start(), unit.end())
            aside = of_plants and before.endswith(", ") and after[:1] in ("", ",", ")")  # "asparagus, third year, ..."
            said = _ITS.search(before) or (not unit["leaf"] and (aside or _OF_A_PLANT.match(after)))
            if said and not _NO_AGE_AFTER.match(after):
                word = nth["nth"].lower()
                which = _NTH.index(word) + 1.0 if word in _NTH else float(word[:-2])
                yield 0, from_ + nth.start(), unit.end(), which, False
        elif not unit["leaf"] and (many := _HOW_MANY.search(lead)):
            start = from_ + many.start()
            before, after = around(text, start, unit.end())
            weak = _weakness(before, after, unit)
            if weak is not None:
                value, about = _how_many(many, unit)
                told = _OLD.match(after) or _AGO.match(after)
                end = unit.end() + (told.end() if told else 0)
                yield weak, start, end, value, about or bool(HEDGE.search(before))


def _so_many(years: Iterable[re.Match[str]]) -> Iterator[_Told]:
    """ "In year four", which is no date."""
    for match in years:
        if number(match["n"]) < _FIRST_DATE:
            yield 1, match.start("n"), match.end("n"), number(match["n"]), False


def _how_many(many: re.Match[str], unit: re.Match[str]) -> tuple[float, bool]:
    """Years, and whether they are told roughly."""
    low = 1.0 if many["one"] else 2.0 if many["couple"] else number(many["n"])
    high = number(many["m"]) if many["m"] else low + 1.0 if unit["or_two"] else low
    value = ((low + high) / 2 if high > low else low) + (0.5 if unit["half"] else 0.0)
    years = 1.0 if unit["season"] else _YEARS.get(unit["unit"][0].lower(), 1.0)
    return value * years, high > low or bool(many["loose"])


def _weakness(before: str, after: str, unit: re.Match[str]) -> int | None:
    """0 when years so told are plainly a plant's age, 1 when they may well be, 2 when it has borne nothing so long.

    None when they are something else's.
    """
    if _NO_AGE_AFTER.match(after):
        return None
    if old := _OLD.match(after):
        rest = after[old.end() :]
        child = not unit["unit"].endswith("s") and _A_CHILD.search(before) and _NO_NOUN.match(rest)
        at = _AT.search(before) and not _ESTIMATED.search(before)  # "at 81 years of age"
        somebody = at or _SOMEBODY.search(before) or _SOMEBODYS.match(rest)
        return None if child or somebody else 0
    if _AGO.match(after):
        stood = _STOOD.search(before) and not _TROUBLE.search(before)
        return 0 if stood or _PLANTED.search(before) or _PLANTED.search(after) else None
    clause = re.split(r"[,(]| and ", after, maxsplit=1)[0]
    of_years = _CLAUSES.split(before)[-1]
    if (_STOOD.search(before) or _STOOD.search(clause)) and not _TROUBLE.search(of_years + " " + clause):
        return 0
    governed = _GOVERNED.search(before)
    if _STANDING.match(after) and not _EVERY.search(before) and not (unit["season"] and governed):
        return 0
    if _NOT_YET.search(f"{before} {after}") and _WAITED.search(before) and _WAITING.match(after):
        return 2
    alone = _CLAUSE.search(before) and _ENDS.match(after) and not governed and not unit["season"]
    return 1 if alone and not _SOMEBODY.search(before) else None


def _dated(text: str, dates: Iterable[re.Match[str]], year: int | None) -> Iterator[_Told]:
    """The year of planting, when the letter's own is known."""
    for match in dates if year else ():
        assert year
        before, after = around(text, *match.span())
        then = int(match["full"] or 0) or (2000 if int(match["short"]) <= year % 100 else 1900) + int(match["short"])
        if _SINCE.search(before):
            told = bool(_STOOD.search(before) or _STOOD.search(after)) and not _TROUBLE.search(before)
        else:
            told = bool(_PLANTED.search(before) or _PLANTED.search(after[:50]))
        if told:
            yield 0, match.start(), match.end(), float(year - then), bool(HEDGE.search(before))


def _lately(text: str, lasts: Iterable[re.Match[str]]) -> Iterator[_Told]:
    """Planted last spring."""
    for match in lasts:
        before, after = around(text, *match.span())
        if (_SET_OUT.search(before[-45:]) and "where" not in before) or _SET_OUT.search(after[:20]):
            yield 0, match.start(), match.end(), 2.0 if match["two"] else 1.0, False


def _as_old_as(text: str, births: Iterable[re.Match[str]]) -> Iterator[_Told]:
    """Planted when somebody was born whose age is told."""
    for match in births:
        if _PLANTED.search(around(text, *match.span())[0]):
            yield 0, match.start("n"), match.end("n"), number(match["n"]), False


def _bare(text: str, plants: Sequence[Mention]) -> Iterator[_Told]:
    """A number with no unit said of a plant: "the orchid's seven", "nine, the plum is"."""
    for plant in plants:
        match = _BARE.match(text, plant.end)
        if not match and re.match(r" (?:is|are)\b", text[plant.end : plant.end + 4]):
            match = _BARE_FIRST.search(text, max(0, plant.start - 30), plant.start)
        if match and number(match["n"]) >= 2:
            yield 1, match.start("n"), match.end("n"), number(match["n"]), True
