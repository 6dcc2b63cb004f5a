"""Numbers as people write them: "1,200", "2 1/2", "½", "half a dozen", "forty-five", "two hundred", "5k".

Not here: what a number measures (amounts.py).
"""

from __future__ import annotations

import re

_ONES = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_TEENS = ("ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen")
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_WORDS = {
    "zero": 0.0,
    **{w: float(i) for i, w in enumerate(_ONES, 1)},
    **{w: float(i) for i, w in enumerate(_TEENS, 10)},
    **{w: float(i) * 10 for i, w in enumerate(_TENS, 2)},
    **{f"{t} {w}": i * 10.0 + j for i, t in enumerate(_TENS, 2) for j, w in enumerate(_ONES, 1)},
    "hundred": 100.0,
    "a hundred": 100.0,
    "a thousand": 1000.0,
    "a dozen": 12.0,
    "dozen": 12.0,
    "two dozen": 24.0,
    "half a dozen": 6.0,
    "a couple": 2.0,
    "a couple of": 2.0,
    "a pair of": 2.0,
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
_DIGITS = r"\d[\d,]*(?:\.\d+)?(?:k\b|\s+thousand\b)?(?:\s*[½¼¾⅓⅔]|(?:\s+|-)\d/\d)?|\d/\d|\.\d+|[½¼¾⅓⅔]"
_SPELT = "|".join(
    sorted((re.escape(w).replace(r"\ ", "[ -]") for w in _WORDS if w not in ("a", "an")), key=len, reverse=True)
)
_SPELT = rf"(?:{_SPELT})(?:[ ](?:hundred|thousand)|[ ]and a (?:half|quarter))?"
ONE = rf"(?:{_DIGITS}|\b(?:{_SPELT})\b)"
NUMBER = rf"(?P<n>{ONE})(?:\s*(?:to|or|-|–)\s*(?P<m>{ONE}))?"


def number(text: str) -> float:
    """The value of a number as written."""
    text = " ".join(text.strip().lower().replace("-", " ").split())
    if text in _WORDS:
        return _WORDS[text]
    for word, size in ((" hundred", 100), (" thousand", 1000)):
        if text.endswith(word):
            return number(text.removesuffix(word)) * size
    for part, value in ((" and a half", 0.5), (" and a quarter", 0.25)):
        if text.endswith(part):
            return number(text.removesuffix(part)) + value
    thousands = text.endswith("k")
    text = text.removesuffix("k").replace(",", "")
    for sign, value in _FRACTIONS.items():
        text = text.replace(sign, f" {value}")
    total = 0.0
    for part in text.split():
        top, _, bottom = part.partition("/")
        total += float(top) / float(bottom or 1) if float(bottom or 1) else 0.0
    return total * 1000 if thousands else total
