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
    "a couple hundred": 200.0,
    "couple hundred": 200.0,
    "couple of": 2.0,
    "couple": 2.0,
    "a pair of": 2.0,
    "a pair": 2.0,
    "a trio of": 3.0,
    "pair of": 2.0,
    "pair": 2.0,
    "both": 2.0,
    "single": 1.0,
    "solitary": 1.0,
    "lone": 1.0,
    "half": 0.5,
    "half a": 0.5,
    "half an": 0.5,
    "a half": 0.5,
    "one half": 0.5,
    "a quarter": 0.25,
    "quarter": 0.25,
    "a": 1.0,
    "an": 1.0,
}
_FRACTIONS = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3}
_DIGITS = (
    r"\d/\d(?![/\d])|\d[\d,]*(?:\.\d+)?(?: and a (?:half|quarter)\b|k\b|\s+(?:thousand|dozen)\b)?"
    r"(?:\s*[½¼¾⅓⅔]|(?:\s+|-)\d/\d)?|\.\d+|[½¼¾⅓⅔]"
)
_UNITS = "|".join(_ONES)
_LOW = "|".join(sorted((*_TEENS, *_ONES), key=len, reverse=True))
_BELOW_100 = rf"(?:(?:{'|'.join(_TENS)})(?:[ -](?:{_UNITS}))?|{_LOW})"
_AND_MORE = rf"(?:[ -]and)?[ -]{_BELOW_100}(?![ -](?:hundred|thousand|dozen))"
_ROUND = rf"(?:(?:a|{_BELOW_100})[ -])?(?:hundred|thousand)(?:{_AND_MORE})?"
_OTHER = "|".join(
    sorted(
        (re.escape(w).replace(r"\ ", "[ -]") for w in _WORDS if " " in w and w.split()[0] not in _TENS),
        key=len,
        reverse=True,
    )
)
_SPELT = (
    rf"(?:(?:(?:a[ ]baker's|half[ ]a|a[ ]half|half|a|{_BELOW_100})[ -])?dozen|"
    rf"{_ROUND}|{_OTHER}|{_BELOW_100}|zero|half|quarter|both|pair|couple|single|solitary|lone)"
    rf"(?:[ ]point[ ](?:{'|'.join(_ONES)})|[ -]and[ -]a[ -](?:half|quarter))?"
)
ONE = rf"(?:{_DIGITS}|\b(?:{_SPELT})\b)(?:-(?:odd|some|ish))?"
FIRST_WORDS = frozenset(w.split()[0] for w in _WORDS) | {"hundred", "thousand", "dozen"}  # of numbers in words
NUMBER = rf"(?P<n>{ONE})(?:\s*(?:to|or|-|–)\s*(?P<m>{ONE}))?"


def number(text: str) -> float:
    """The value of a number as written."""
    text = " ".join(
        text.strip()
        .lower()
        .removesuffix("-odd")
        .removesuffix("-some")
        .removesuffix("-ish")
        .replace("-", " ")
        .replace("a baker's dozen", "13")
        .split()
    )
    if text in _WORDS:
        return _WORDS[text]
    for part, value in ((" and a half", 0.5), (" and a quarter", 0.25)):
        if text.endswith(part):
            whole = text.removesuffix(part)
            return number(whole) + value * (12 if whole.endswith("dozen") else 1)
    if " point " in text:
        whole, _, tenths = text.partition(" point ")
        return number(whole) + number(tenths) / 10
    for word, size in (("thousand", 1000), ("hundred", 100), ("dozen", 12)):
        before, found, after = text.partition(word)
        if found:
            more = after.strip().removeprefix("and ")
            return number(before or "a") * size + (number(more) if more else 0.0)
    text = text.replace(",", "")
    for sign, value in _FRACTIONS.items():
        text = text.replace(sign, f" {value}")
    total = 0.0
    for part in text.split():
        top, _, bottom = part.removesuffix("k").partition("/")
        size = 1000 if part.endswith("k") else 1
        total += size * float(top) / float(bottom or 1) if float(bottom or 1) else 0.0
    return total
