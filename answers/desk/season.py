"""The opening page's matter: sheaves of waiting letters laid on a year's strip of their windows at the desk's place.

Not here: the page's look (templates/season.html).
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from functools import cached_property
from typing import Any, NamedTuple

from answers.answering import timings
from answers.ledger import WAITING
from answers.sheaves import Sheaf
from answers.store import Store
from kb.entries import Place
from kb.load import Knowledge
from kb.schedule import Dates

MONTHS_SHOWN = 12
_NEVER = 999
_ORDER = {"open": 0, "opens later": 1, "closed": 2, "none here": 3, "": 4}
_STATES = "select state, count(*) n from answers where state not in"
_OTHERS = ("unsure", "hand-off", "language", "nothing asked")


class Bar(NamedTuple):
    """One window on the strip: where it begins and how long it is, both in percent of the strip's length."""

    start: float
    length: float
    words: str
    state: str


class Row(NamedTuple):
    """One sheaf on the page; `state` and `days` are those of the window that presses most."""

    sheaf: Sheaf
    title: str
    waiting: int
    this_week: int
    state: str  # open, opens later, closed, none here, or "" without a window
    days: int  # until it closes (open) or opens
    words: str
    bars: tuple[Bar, ...]


class Season(NamedTuple):
    """The whole page: the strip's months, where today is on it, and the sheaves in the order they press."""

    months: tuple[str, ...]
    today_at: float
    waiting: int
    emergencies: Row | None
    sheaves: tuple[Row, ...]
    others: dict[str, tuple[Row, ...]]  # by sort: unsure, hand-off, language, nothing asked
    due: list[dict[str, Any]]  # held over until today or before
    elsewhere: dict[str, int]  # how many are cleared, held over, handed on ...: all that do not wait


class Calendar:
    """The windows of every rule at one place, seen from one day; each is worked out once."""

    def __init__(self, knowledge: Knowledge, place: Place | None, today: date) -> None:
        self.knowledge, self.place, self.today = knowledge, place, today
        self._known: dict[str, tuple[Dates, ...]] = {}

    @cached_property
    def first(self) -> date:
        """Where the strip begins: the first of the month before this one."""
        return (self.today.replace(day=1) - timedelta(days=1)).replace(day=1)

    def dates(self, sheaf: Sheaf) -> tuple[Dates, ...]:
        """The windows of a sheaf's rule at the desk's place, in the rule's order."""
        rule = self.knowledge.rules.get(sheaf.about) if sheaf.sort == "rule" else None
        if rule is None:
            return ()
        if rule.id not in self._known:
            self._known[rule.id] = tuple(t.dates for t in timings(rule, None, self.place, self.today))
        return self._known[rule.id]

    def usual_state(self, sheaf: Sheaf) -> str:
        """The state of a sheaf's first window at the desk's own place; "" when it has none."""
        return next((d.state for d in self.dates(sheaf)), "")

    def at(self, day: date) -> float:
        """Percent along the strip; below 0 or over 100 when the day lies off it."""
        return round(100 * (day - self.first).days / (_month(self.first, MONTHS_SHOWN) - self.first).days, 2)

    def bar(self, dates: Dates) -> Bar | None:
        """A window on the strip; None when it lies off it."""
        if dates.opens is None or dates.closes is None:
            return None
        start, end = max(0.0, self.at(dates.opens)), min(100.0, self.at(dates.closes + timedelta(days=1)))
        return Bar(start, round(end - start, 2), dates.words, dates.state) if end > start else None


def season(store: Store, calendar: Calendar) -> Season:
    """What waits, from the store's counts and the rule base's windows."""
    counted: dict[str, list[int]] = {}
    states = ", ".join("?" * len(WAITING))
    by_urgency = f"select sheaf, urgency, count(*) n from answers where state in ({states}) group by sheaf, urgency"
    for found in store.ask(by_urgency, WAITING):
        count = counted.setdefault(found["sheaf"], [0, 0])
        count[0] += found["n"]
        count[1] += found["n"] if found["urgency"] == "this week" else 0
    rows = [_row(Sheaf.named(key), count, calendar) for key, count in counted.items()]
    rows.sort(key=lambda r: (_ORDER[r.state], r.days, -r.waiting))  # what closes first, then what opens first
    due = "where a.state = 'held over' and a.until <> '' and a.until <= ? order by a.until limit 50"
    return Season(
        months=tuple(f"{_month(calendar.first, i):%b}" for i in range(MONTHS_SHOWN)),
        today_at=calendar.at(calendar.today),
        waiting=sum(r.waiting for r in rows),
        emergencies=next((r for r in rows if r.sheaf.sort == "emergency"), None),
        sheaves=tuple(r for r in rows if r.sheaf.sort == "rule"),
        others={sort: tuple(r for r in rows if r.sheaf.sort == sort) for sort in _OTHERS},
        due=store.stored(due, [calendar.today.isoformat()]),
        elsewhere={
            r["state"]: r["n"] for r in store.ask(f"{_STATES} ({states}) group by state order by state", WAITING)
        },
    )


def title_of(sheaf: Sheaf, knowledge: Knowledge) -> str:
    """What a sheaf's letters ask, in words."""
    if sheaf.sort == "rule" and sheaf.about in knowledge.rules:
        return knowledge.rules[sheaf.about].title
    if sheaf.sort == "unsure":
        known = knowledge.problems.get(sheaf.about)
        return f"perhaps {known.name}" if known else "nothing of ours that fits"
    if sheaf.sort == "hand-off" and sheaf.about in knowledge.hand_offs:
        return f"for {knowledge.hand_offs[sheaf.about].who}"
    if sheaf.sort == "language":
        return f"in {sheaf.about}"
    return {"emergency": "Emergencies", "nothing asked": "thank-yous and the like"}.get(sheaf.sort, sheaf.about)


def _row(sheaf: Sheaf, count: Sequence[int], calendar: Calendar) -> Row:
    dates = calendar.dates(sheaf)
    press = min(dates, key=lambda d: (_ORDER[d.state], d.days), default=None)
    bars = tuple(bar for d in dates if (bar := calendar.bar(d)))
    title, known = (
        title_of(sheaf, calendar.knowledge),
        (press.state, press.days, press.words) if press else ("", _NEVER, ""),
    )
    return Row(sheaf, title, count[0], count[1], *known, bars)


def _month(first: date, more: int) -> date:
    months = first.month - 1 + more
    return date(first.year + months // 12, months % 12 + 1, 1)
