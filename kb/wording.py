"""Is the text of a rule fit to be read by a worried gardener? Numbers, reading level, banned matter.

Not here: whether entries fit together (check.py), whether rules conflict or have aged (upkeep.py).
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from functools import cache
from importlib.resources import files

from kb.entries import Rule

HARDEST_GRADE = 10.0  # US school grade a rule's text may ask for; aim for eight
_NUMBER = r"(?:\d[\d,.]*|half|one|two|three|four|five|six|eight|ten|fifteen|twenty|fifty|hundred)"
_QUANTITY = re.compile(  # what a calculator works out from the writer's own numbers, so never a number in the prose
    rf"\b{_NUMBER}(?: (?:to|or|and) {_NUMBER})?(?: and a half)? (?:pounds?|lbs?|ounces?|gallons?|bags?|cups?|quarts?"
    r"|tablespoons?|teaspoons?|cubic (?:feet|yards?)|kilos?|kg|grams?|liters?)\b",
    re.I,
)
_HOME_BREW = re.compile(
    r"\b(?:spray|pour|mix|use|apply|sprinkle|drench|dab)\b(?:\W+\w+){0,6}?\W+(?:dish ?soap|dishwashing|detergent|"
    r"vinegar|bleach|tobacco|ammonia|gasoline|kerosene|diesel|moth ?balls|baking soda|(?:table|rock) salt|mouthwash)\b",
    re.I,
)
_REFUSED = re.compile(r"\b(?:not|never|don't|nor|no|instead of|skip|rather than)\b", re.I)


def brand_digest(name: str) -> str:
    """The twelve hexadecimal digits by which a brand name is known here."""
    return hashlib.sha256(name.lower().encode()).hexdigest()[:12]


def grade(text: str) -> float:
    """US school grade by the Automated Readability Index: 4.71 letters a word + 0.5 words a sentence - 21.43.

    Source: Smith and Senter, Automated Readability Index, AMRL-TR-66-220, 1967 (from memory).
    """
    words = re.findall(r"[A-Za-z0-9'-]+", text)
    if not words:
        return 0.0
    sentences = max(1, len(re.findall(r"[.!?]+(?=\s|$)", text)))
    letters = sum(len(re.sub(r"\W", "", w)) for w in words)
    return 4.71 * letters / len(words) + 0.5 * len(words) / sentences - 21.43


@cache
def _brand_digests() -> frozenset[str]:
    return frozenset((files("kb") / "tables" / "brand_digests.txt").read_text("utf-8").split())


def brands(text: str) -> list[str]:
    """Words of the text that are trade names, or carry a trade mark's sign.

    Trade names are not written in the project itself: tables/brand_digests.txt holds the `brand_digest` of each.
    """
    found = [w for w in re.findall(r"[A-Za-z][A-Za-z0-9-]+", text) if brand_digest(w) in _brand_digests()]
    return found + re.findall(r"\w+\s?[®™]", text)


def faults(rule: Rule) -> Iterator[str]:
    """What is wrong with a rule's words, each as `file:line field: message`."""
    advice = [rule.what.say, *(s.say for s in rule.do), rule.spoken]
    written = [*advice, *(s.say for s in rule.avoid)]
    for text in written:
        for quantity in _QUANTITY.finditer(text):
            yield f"{rule.where} say: {quantity.group()!r} is a quantity a calculator works out; make it a figure"
        for brand in brands(text):
            yield f"{rule.where} say: {brand!r} is a brand name; write the active ingredient"
    for text in (s for part in advice for s in re.split(r"(?<=[.!?;])\s+", part)):
        if (found := _HOME_BREW.search(text)) and not _REFUSED.search(text):
            yield f"{rule.where} say: {found.group()!r} is a home-brew pesticide; it may stand under avoid only"
    for name, text in (("spoken", rule.spoken), ("say", " ".join([rule.what.say, *(s.say for s in rule.do)]))):
        if (hard := grade(text)) > HARDEST_GRADE:
            yield f"{rule.where} {name}: reads at grade {hard:.0f}; expected {HARDEST_GRADE:.0f} or lower"
    yield from _unsourced(rule)


def _unsourced(rule: Rule) -> Iterator[str]:
    """Digits spoken on the air must stand in a sourced sentence, window or input of the same rule."""
    told: list[object] = [s.say for s in (rule.what, *rule.do, *rule.avoid)]
    for w in rule.windows:
        told += [w.months, w.dates, w.frost, w.degree_days, w.soil_temp_f]
    for given in (i for f in rule.figures for i in f.inputs.values()):
        told += [given.value, given.default, given.default_words]
    known = set(re.findall(r"\d+(?:\.\d+)?", " ".join(map(str, told))))
    for number in re.findall(r"\d+(?:\.\d+)?", rule.spoken):
        if number not in known:
            yield f"{rule.where} spoken: the number {number} stands in no sourced sentence of the rule"
