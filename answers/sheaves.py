"""Sheaves: the letters that ask the same thing, and why a letter does not go with the others.

Not here: keeping them (store.py), the text they share (drafts/shared.py).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple


class Sheaf(NamedTuple):
    """What a sheaf is about: the sort, and the rule, hand-off, problem or language that all its letters share."""

    sort: str  # emergency, rule, hand-off, unsure, language or nothing asked
    about: str = ""

    @classmethod
    def named(cls, key: str) -> Sheaf:
        """The sheaf of a key as the store keeps it: "rule:tree-feeding"."""
        sort, _, about = key.partition(":")
        return cls(sort, about)

    @property
    def key(self) -> str:
        """The words by which the store keeps it."""
        return f"{self.sort}:{self.about}" if self.about else self.sort


def sheaf_of(worked: Mapping[str, Any]) -> Sheaf:
    """Where a question belongs: emergencies first; one that no rule surely answers goes with its likeliest problem."""
    if worked["urgency"] == "emergency":
        return Sheaf("emergency")
    if worked["language"]:
        return Sheaf("language", worked["language"])
    if worked["rule"]:
        return Sheaf("rule", worked["rule"])
    if worked["hand_off"]:
        return Sheaf("hand-off", worked["hand_off"][0]["id"])
    if worked["kind"] == "not-a-question":
        return Sheaf("nothing asked")
    return Sheaf("unsure", worked["problem"]["id"] if worked["problem"] else "")


def put_aside(row: Mapping[str, Any], usual: str, by: str = "") -> str:
    """Why one letter of a sheaf must be answered by itself, in words; "" when it goes with the others.

    Args:
        row: the stored answer (Store.rows): its `worked`, `asked` (questions in the letter), `claimed`.
        usual: what the window's state is at the desk's own place: "open", "opens later", "closed" or "".
        by: who is asking; a claim of their own does not count.
    """
    worked = row["worked"]
    if row.get("claimed") and row["claimed"] != by:
        return f"{row['claimed']} is at work on it"
    if row.get("asked", 1) > 1:
        return f"asks {row['asked']} things in one letter"
    if worked["hand_off"]:
        return f"also needs somebody else: {', '.join(h['who'] for h in worked['hand_off'])}"
    if worked["refused"]:
        return f"its numbers do not work: {'; '.join(worked['refused'])}"
    state = worked["window"]["state"] if worked["window"] else ""
    if usual and state and state != usual:
        return f"at its place the time is another: {worked['window']['words']}"
    return ""
