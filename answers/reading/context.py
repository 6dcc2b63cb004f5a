"""Is a name in a letter beside the point: a neighbour's plant, one that is well, not there, or of a trouble long past?

Not here: finding the names (names_in_text.py), negated words (words.py).
"""

from __future__ import annotations

import re

from answers.reading.reading import Mention
from answers.reading.sentence import TAKEN_BACK

_BEFORE = 70  # characters looked back, to the start of the sentence at most
_AFTER = 50
_SOMEBODY_ELSES = re.compile(
    r"\b(?:neighbou?r\w*|next door|across the (?:street|road|fence)|(?:sister|brother|mother|father|mom|dad|friend|"
    r"aunt|cousin|daughter|son|boss)(?:'s|s')|unlike|swears by(?: planting)?|slices? of)\W+(?:\w+\W+){0,2}$"
)
_IS_SOMEBODY_ELSES = re.compile(  # "the bermuda is the neighbor's"
    r"^\W+(?:(?:is|are) (?:the |my |our )?(?:neighbou?r\w*|sister|brother|mother|father|mom|dad|friend|son|daughter)"
    r"(?:'s|s')|belongs? to )(?!\W*(?:fault|idea|doing|favou?rite|pride))"
)
_RULED_OUT = re.compile(
    r"\b(?:instead of|not (?:the|my|our|on the)|other than|no|no more|neither|except|besides|but not|"
    r"(?:doesn't|don't|does not|won't|no longer|can't) (?:allow|sell|want|have|grow)|"
    r"lost|removed|took out|take out|pulled (?:out|up)|ripped out|cut down|replac\w+|grew|had|died)"
    r"\W+(?:\w+\W+){0,2}$"
)
_TAKEN_BACK_AFTER = re.compile(rf"^\W*{TAKEN_BACK}")
_VERY = r"(?:all |just |perfectly |quite |still |both |doing )?"
_WELL = re.compile(
    rf"^(?:\W+\w+){{0,6}}?\W+(?:(?:(?:is|are|looks?|seems?|and|(?P<was>was|were|looked))\W+{_VERY}"
    r"(?:fine|ok|okay|well|healthy|untouched|happy|unaffected|great|perfect|gorgeous|loaded|thriving|flourishing|"
    r"multiplying|crisp|spotless|unharmed|unscathed|wonderful|lovely|marvelou?s|splendid|normal|alright|all right|"
    r"dandy|in (?:perfect|good|fine) (?:health|shape))|(?:isn't|aren't|wasn't|weren't|is not|are not|hasn't(?: been)?|"
    r"haven't(?: been)?) (?:affected|touched|bothered|wilted|suffered|spotted|hurt)|(?:do|does|doing|did|grow\w*|"
    rf"bloom\w*|came (?:up|in|through)) {_VERY}(?:fine|well|great|nice|strong|beautifully)|"
    r"(?:doesn't|don't|didn't|never) (?:have it|get it|got it|mind|bat an eye)|looks? like (?:a|the) (?:magazine|"
    r"picture|postcard|catalog\w*|million)|"
    r"(?P<bare>ok|okay|fine|all right|alright)(?: so far| too| yet)?(?=\W*$)))\b"
)
_SIGN_OF_SEASON = re.compile(
    r"^\W+(?:isn'?t|aren'?t|is|are|is not|are not|was|were)\W+(?:quite |just |barely )?out\b(?! of)"
)
_BUT_ILL = re.compile(
    r"^\W+(?:but|except|only|yet) (?:it|they|the (?:leaves|fruit|flowers|blooms?|buds|lower|bottom|tips|tops?)|no|not|"
    r"never|won't|has|have|don't|doesn't|didn't|for)\b"
)
_BUT_NOW = re.compile(r"\b(?:now|today|this morning|suddenly|overnight|all at once|and then)\b")
_GONE = re.compile(
    r"^(?:\W+\w+){0,3}?\W+(?:died(?! (?:back|down|off|over|on)\b)|(?:is|are|was|were|has been|have been|we|i) "
    r"(?:just )?(?:gone|out|done|finished|removed|ripped out|pulled|cut down|taken (?:out|down))|came (?:out|down)|"
    r"(?:we|i|they) (?:just )?(?:removed|ripped|cut|took|pulled|dug)|"
    r"(?:we|i) (?:have )?already (?:ate|eaten|picked|pulled|harvested|took|dug|cut))\b"
)
_PART_OF = re.compile(
    r"\b(?:side|half|part|third|quarter|top|branch(?:es)?|limbs?|most|one|some|several) of\W+(?:\w+\W+){0,2}$"
)
_PAST = re.compile(
    r"\b(?:last (?:year|season|summer|spring|fall|autumn)|years? ago|(?:the )?year before|used to|in the past|"
    r"once had)\b"
)
_NOW = re.compile(r"\b(?:now|again|this (?:year|season|spring|summer|fall|week)|today|still)\b")
_ASKED = re.compile(  # "my trouble is with the", "I'm asking about our"
    r"\b(?:(?:my|the|our) (?:real |main |only )?(?:trouble|question|problem|concern|worry) (?:is|was|here is)|"
    r"(?:i'm|i am|we're|i was) (?:really |mainly |mostly |just |only |actually )?(?:asking|calling|writing|worried|"
    r"concerned)|(?:i|we) (?:worry|care|wonder)(?: (?:most|more))?)(?: (?:with|about|for|on|over))?\W+"
    r"(?:(?:the|my|our|this|that|these|those|his|her)\W+)(?:[\w'-]+\W+){0,2}$"
)
_ASKED_AFTER = re.compile(  # "it's the phlox I care about", "tomatoes are what I'm asking about"
    r"^(?:\W+\w+)?\W+(?:(?:is|are) (?:what|the ones?) )?(?:that )?(?:i'm|i am|i|we|we're) (?:really |mainly |mostly |"
    r"actually |most |more )?(?:care about|worry about|worried about|concerned (?:about|for)|asking (?:about|after)|"
    r"calling about|writing about|mean(?=\W*$)|meant\b)"
)


def asked_about(text: str, mention: Mention) -> bool:
    """Whether the writer says in so many words that this is the plant the letter is about."""
    before, after = _around(text, mention)
    return bool(_ASKED.search(before) or _ASKED_AFTER.search(after))


def beside_the_point(text: str, mention: Mention) -> bool:
    """Whether a plant is named that is somebody else's, that is well, or whose bloom tells the season."""
    before, after = _around(text, mention)
    well = _WELL.search(after)
    until_now = well and well["was"] and _BUT_NOW.search(after, well.end())
    asked = well and well["bare"] and text[mention.end + len(after) :][:1] not in ("", ".", "!", ";", "\n")
    ill = well and _BUT_ILL.search(after[well.end() :])
    return bool(
        _SOMEBODY_ELSES.search(before)
        or _IS_SOMEBODY_ELSES.search(after)
        or _SIGN_OF_SEASON.search(after)
        or (well and not until_now and not asked and not ill)
    )


def not_there(text: str, mention: Mention) -> bool:
    """Whether a plant is named as one that is not meant, or no longer there: ruled out, taken back, lost, cut down."""
    before, after = _around(text, mention)
    next_words = text[mention.end : mention.end + _AFTER].lower().replace("’", "'")
    gone = _GONE.search(after) and not _PART_OF.search(before)
    return bool(_RULED_OUT.search(before) or gone or _TAKEN_BACK_AFTER.search(next_words))


def long_past(text: str, mention: Mention) -> bool:
    """Whether a trouble is named as last year's, with nothing in the sentence that brings it to the present."""
    before, after = _around(text, mention)
    return bool(_PAST.search(before) or _PAST.search(after)) and not _NOW.search(before + after)


def _around(text: str, mention: Mention) -> tuple[str, str]:
    """The sentence's words before and after a mention, in lower case."""
    before = text[max(0, mention.start - _BEFORE) : mention.start].lower().replace("’", "'")
    after = text[mention.end : mention.end + _AFTER].lower().replace("’", "'")
    return re.split(r"[.!?;\n]", before)[-1], re.split(r"[.!?;\n]", after)[0]
