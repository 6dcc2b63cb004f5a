"""Dates as a draft or a person's edit says them: "April 3", "Apr. 3rd", "4/3/2026", "mid-May", "first week of June".

Not here: which of them a window allows (proof.py), amounts of days and weeks (numbers_said.py).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

_STARTS = re.compile(r"([^\W\d_]+)|\d{1,4}|[½¼¾⅓⅔]|\.\d")
_MONTHS = (
    *("january", "february", "march", "april", "may", "june"),
    *("july", "august", "september", "october", "november", "december"),
)
_FULL = "|".join(_MONTHS)
_MONTH = rf"(?:(?:{_FULL})\b|(?:jan|feb|mar|apr|jun|jul|aug|sept|sep|oct|nov|dec)\b\.?)"
_DAY = r"(?P<{0}>\d{{1,2}})(?:st|nd|rd|th)?(?!\d|\w|[.,]\d|-\d)"
_MORE = rf"(?:\s*(?:to|or|and|through|until|-|–)\s*(?:the )?{_DAY.format('d2')})?(?!\s*{_MONTH})"
_PART = r"(?P<part>early|mid|middle|late|first|second|third|fourth|last|beginning|start|end)"
_DATE = re.compile(
    rf"(?P<iso>\b\d{{4}}-\d\d-\d\d\b)"
    rf"|(?P<us>(?<![\d/])\d{{1,2}}/\d{{1,2}}/(?:\d{{4}}|\d\d)(?![\d/])|(?<=\bon )\d{{1,2}}/\d{{1,2}}(?![\d/]))"
    rf"|\b(?P<m1>{_MONTH})\s+(?:the )?{_DAY.format('d1')}{_MORE}(?:,? \d{{4}}\b)?"
    rf"|\b(?:(?P<d4>\d{{1,2}})(?:st|nd|rd|th)?\s*(?:to|or|and|-|–)\s*)?{_DAY.format('d3')}\s+(?:of )?(?P<m2>{_MONTH})"
    rf"|\b{_PART}(?:[\s-]|\s+(?:week|weeks|half|part|days?)\s+(?:of|in)\s|\s+of\s)(?P<m3>(?:{_FULL})\b)"
    rf"|(?P<m4>\b(?:{_FULL})\b)",
    re.IGNORECASE,
)
_DATE_WORDS = frozenset(re.findall("[a-z]+", f"{_MONTH} {_PART}"))
_LED = re.compile(
    r"\b(?:in|by|until|til|till|through|during|before|after|since|for|around|about|this|next|last|every|each|from|of|late"
    rf"|between)\s+$|\b(?:{_FULL})(?:\s*(?:to|through|and|or|until|-|–|,)\s*)$",
    re.IGNORECASE,
)
_FOLLOWED = re.compile(rf"\s*(?:to|through|and|or|until|-|–)\s*(?:early |mid-?\s?|late )?(?:{_FULL})\b", re.IGNORECASE)
_SPANS = {
    **dict.fromkeys(("early", "beginning", "start"), (1, 10)),
    **dict.fromkeys(("mid", "middle"), (11, 20)),
    **dict.fromkeys(("late", "end"), (21, 31)),
    "first": (1, 7),
    "second": (8, 14),
    "third": (15, 21),
    "fourth": (22, 28),
    "last": (25, 31),
}


@dataclass(frozen=True)
class Day:
    """A date without its year, or a part of a month: (month, day) of its first and last day."""

    first: tuple[int, int]
    last: tuple[int, int]
    words: str
    start: int
    end: int


def led_by(words: frozenset[str], pattern: re.Pattern[str], text: str) -> Iterator[re.Match[str]]:
    """What `pattern.finditer` gives, tried only at digits and at `words`: many times as fast."""
    end = 0
    for start in _STARTS.finditer(text):
        if start.lastindex and start[0].lower() not in words:
            continue
        at = start.start()
        if at >= end and (match := pattern.match(text, at)):
            end = match.end()
            yield match


@lru_cache(maxsize=512)
def dates(text: str, names: tuple[str, ...] = ()) -> tuple[Day, ...]:
    """Every date and named part of a month, in order; `names` are people's names that may look like months.

    A month alone counts where a word before it says that it is a time ("in July", "May to June"); "may" and "march"
    count only with a capital letter.
    """
    found: list[Day] = []
    for match in led_by(_DATE_WORDS, _DATE, text):
        group = match.groupdict()
        name = group["m1"] or group["m2"] or group["m3"] or group["m4"]
        if name and name in ("may", "march", "mar", "sep", "dec", "jan"):
            continue
        if group["m4"] and (
            name in names
            or not (_LED.search(text[max(0, match.start() - 25) : match.start()]) or _FOLLOWED.match(text, match.end()))
        ):
            continue
        found += [
            Day(first, last, match[0], match.start(), match.end()) for first, last in _days(group, name) if _real(first)
        ]
    return tuple(found)


def _days(group: dict[str, str | None], name: str | None) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    if name is None:
        parts = [int(p) for p in re.split(r"[-/]", group["iso"] or group["us"] or "")]
        month, day = parts[1:] if group["iso"] else parts[:2]
        if month > 12:
            month, day = day, month
        return [((month, day), (month, day))]
    month = next(i for i, m in enumerate(_MONTHS, 1) if m.startswith(name.lower().rstrip(".")[:3]))
    said = [int(d) for key in ("d1", "d2", "d4", "d3") if (d := group[key])]
    if said:
        return [((month, d), (month, d)) for d in said]
    first, last = _SPANS[group["part"].lower()] if group["part"] else (1, 31)
    return [((month, first), (month, last))]


def _real(day: tuple[int, int]) -> bool:
    try:
        date(2024, *day)
    except ValueError:
        return False
    return True


def within(day: Day, opens: date, closes: date) -> bool:
    """Whether any of a date's days lies within a window, which comes back each year."""
    if (closes - opens).days >= 365:
        return True
    start, end = (opens.month, opens.day), (closes.month, closes.day)
    if start <= end:
        return day.first <= end and day.last >= start
    return day.last >= start or day.first <= end
