"""One text for every letter that asks the same: each place left open is filled from the letter's own reading.

Not here: the text to begin with (compose.shared_text), which letters ask the same (answers/sheaves.py).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from kb.errors import RangeError

_OPEN = re.compile(r"\[(name|topic|dates|assumed|questions|sources|figure [a-z0-9-]+)\]")
_LOOKS_OPEN = re.compile(r"\[[^\]\n]*\]?")
_LABEL = re.compile(r"^[^.!?:\n]{0,60}:\s*$")  # "For your place:", which says nothing by itself
_ASSUMED = re.compile(r"^\(.*\)$")  # the sentence about assumptions stands in brackets


@dataclass(frozen=True)
class Filled:
    """The text for one letter; `lacking` says why it cannot stand as it is."""

    text: str
    lacking: tuple[str, ...] = ()


def places_left_open(text: str) -> list[str]:
    """What a shared text leaves open, each once, in order.

    Raises: RangeError for anything else in square brackets, as when a place is mistyped.
    """
    for found in _LOOKS_OPEN.findall(text):
        if not _OPEN.fullmatch(found):
            allowed = "[name], [topic], [dates], [figure ID], [assumed], [questions] or [sources]"
            raise RangeError("shared text", found, allowed)
    return list(dict.fromkeys(_OPEN.findall(text)))


def values_of(worked: Mapping[str, Any], first_name: str) -> dict[str, str]:
    """What a letter gives for each place left open; "" where it gives nothing."""

    def said(part: str) -> list[str]:
        return [p["text"] for p in worked["passages"] if p["part"] == part]

    figures = {
        f"figure {p['basis'].rpartition('/')[2]}": p["text"] for p in worked["passages"] if p["part"] == "figure"
    }
    unread = ("common-practice", "from-memory")  # named last, as in the letter's own draft
    sources = [s["text"] for s in sorted(worked["sources"], key=lambda s: s["id"] in unread)]
    arithmetic = [f"Arithmetic: {f['source']}" for f in worked["figures"]]
    return {
        "name": first_name or "friend",
        "topic": worked["topic"],
        "dates": " ".join(said("window")),
        "assumed": ", and ".join(worked["assumed"]),
        "questions": " ".join(said("ask")),
        "sources": "\n- ".join(dict.fromkeys([*sources, *arithmetic])),
        **figures,
    }


def fill(text: str, worked: Mapping[str, Any], first_name: str) -> Filled:
    """`text` with this letter's own name, dates and figures.

    A line that holds nothing but places left empty, or a label before them, is left out. Where an empty place stands
    among other words, the letter lacks it.

    Raises: RangeError as `places_left_open`.
    """
    places_left_open(text)
    values, lacking, kept = values_of(worked, first_name), [], []
    for line in text.strip().splitlines():
        places = _OPEN.findall(line)
        empty = [place for place in places if not values.get(place)]
        around = _OPEN.sub("", line).strip()
        stands_alone = not around or bool(_LABEL.match(around)) or bool("assumed" in empty and _ASSUMED.match(around))
        if empty and stands_alone and len(empty) == len(places):
            continue
        if not stands_alone:
            lacking += [_lacks(place, worked) for place in empty]
        filled = _OPEN.sub(lambda m: values.get(m[1], ""), line)
        kept.append(re.sub(r" {2,}", " ", filled).strip() if empty else filled)
    return Filled(re.sub(r"\n{3,}", "\n\n", "\n".join(kept)).strip() + "\n", tuple(dict.fromkeys(lacking)))


def _lacks(place: str, worked: Mapping[str, Any]) -> str:
    if place.startswith("figure "):
        refused = "; ".join(worked["refused"])
        return f"gives no number for the figure {place.removeprefix('figure ')}" + (f" ({refused})" if refused else "")
    words = {"dates": "no dates at its place", "questions": "nothing left to ask"}
    return words.get(place, f"nothing for [{place}]")
