"""What each quantity in a letter measures (a height, a spacing, a count of plants, nothing of ours), from its words.

A linear model on the words around a quantity, their places and its unit, fitted on letters whose amounts are known
(kb/amount_letters.yaml). Not here: finding quantities (quantities.py), fitting (train.py).
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import takewhile
from typing import Any

from answers.calculators.units import UNITS
from answers.reading.quantities import Quantity
from answers.reading.reading import Mention
from answers.reading.words import stem

NOTHING = "nothing"
# What a quantity of each dimension may measure: our name -> (unit, factor). A girth is told, a diameter is ours.
_LENGTHS = {
    "height_ft": ("ft", 1.0),
    "length_ft": ("ft", 1.0),
    "width_ft": ("ft", 1.0),
    "depth_in": ("in", 1.0),
    "spacing_in": ("in", 1.0),
    "trunk_diameter_in": ("in", 1.0),
    "girth:trunk_diameter_in": ("in", 1 / math.pi),
    "crown_spread_ft": ("ft", 1.0),
    "half:crown_spread_ft": ("ft", 2.0),
}
_OTHERS = {
    "area": {"area_sqft": ("sqft", 1.0)},
    "mass": {"product_lb": ("lb", 1.0)},
    "volume": {"tank_gal": ("gal", 1.0)},
    "percent": {"slope_percent": ("percent", 1.0)},
    "length": {**_LENGTHS, "area_sqft": ("ft", 1.0)},  # "4,000 feet of sod"
}
_UNSAID = {
    name: ("", factor)
    for names in _OTHERS.values()
    for name, (_, factor) in names.items()
    if not name.startswith("half:")
} | dict.fromkeys(("count", "soil_ph", "target_ph", "buffer_ph"), ("", 1.0))
_NEAR = 0.02  # two parts in a hundred
_REACH = 12  # words looked at on either side, in the sentence
_NEAR_BY = 7  # of which so many count by themselves, the nearer the more
_PLACED, _WITH_UNIT, _LIKES_PLACED = 3, 5, 2  # and so many by their place, with the unit, their likes by their place
_WORD = re.compile(r"[a-z]+(?:'[a-z]+)?|\d[\d.,/]*|[.!?;\n]|[,:()$#×]", re.IGNORECASE)
_ENDS = frozenset(".!?;\n")


def may_measure(quantity: Quantity) -> Mapping[str, tuple[str, float]]:
    """The roles open to a quantity of its dimension, with the unit and factor that turn it into ours."""
    return _OTHERS.get(quantity.dimension, {}) if quantity.unit else _UNSAID


def worth(quantity: Quantity, role: str) -> float:
    """What the quantity says in that role, in our unit for it."""
    unit, factor = may_measure(quantity)[role]
    return (quantity.size(unit) if unit in UNITS else quantity.value) * factor


def name_of(role: str) -> str:
    """The measurement that a role gives: a girth gives a trunk's diameter."""
    return role.rpartition(":")[2]


def roles_told(quantity: Quantity, amounts: Mapping[str, float]) -> list[str]:
    """The roles in which a quantity would give one of these known `amounts`."""
    return [
        role
        for role in may_measure(quantity)
        if name_of(role) in amounts
        and abs(worth(quantity, role) - amounts[name_of(role)]) <= _NEAR * abs(amounts[name_of(role)]) + 1e-9
    ]


@dataclass(frozen=True)
class Roles:
    """The fitted model: `weights` has a row for each feature and a column for each role."""

    labels: tuple[str, ...]
    names: tuple[str, ...]
    weights: Any
    bias: Any
    alike: Mapping[str, Sequence[str]]  # see `features`

    @cached_property
    def _row(self) -> dict[str, int]:
        return {name: i for i, name in enumerate(self.names)}

    def chances(self, features: Mapping[str, float]) -> dict[str, float]:
        """The probability of each role."""
        import numpy as np

        find = self._row.get
        known = [(row, value) for name, value in features.items() if (row := find(name)) is not None]
        score = self.bias.astype(np.float64)
        if known:
            rows, values = zip(*known, strict=True)
            score = score + np.array(values) @ self.weights[list(rows)]
        powers = np.exp(score - score.max())
        return dict(zip(self.labels, (powers / powers.sum()).tolist(), strict=True))


def stems_alike(lists: Mapping[str, Sequence[str]]) -> dict[str, list[str]]:
    """The lists of words that say the same, turned about: stem -> the lists in which it stands."""
    found: dict[str, list[str]] = {}
    for name, members in lists.items():
        for member in sorted({stem(word) for word in members}):
            found.setdefault(member, []).append(name.upper())
    return found


def features(
    text: str, found: Sequence[Quantity], plants: Sequence[Mention], alike: Mapping[str, Sequence[str]]
) -> list[dict[str, float]]:
    """For each quantity, the words around it and their likes, the plants told of, the other quantities.

    Nothing for one that has no role to play ("three weeks").
    `alike` gives the lists of kb/amount_words.yaml in which a word of a stem stands, and for "plant:pear" its groups.
    """
    words, places = _words(text, found, plants)
    of_letter = {f"letter {like}": 0.6 for word in set(words) for like in alike.get(word, ())}
    of_letter |= {f"plants {group}": 1.0 for plant in plants for group in alike.get(f"plant:{plant.id}", ())}
    units = [words[place] for place in places]
    given: list[dict[str, float]] = []
    for nth, (place, quantity) in enumerate(zip(places, found, strict=True)):
        if not may_measure(quantity):
            given.append({})
            continue
        wide = of_letter | _beside(units, nth) | _nearest(quantity, plants, alike)
        given.append(wide | {f"{units[nth]} {name}": value for name, value in wide.items()})
        given[-1] |= _around(words, place, quantity, alike)
    return given


def _beside(units: Sequence[str], nth: int) -> dict[str, float]:
    """The other quantities of the letter, and which of its like this one is."""
    others = [*units[:nth], *units[nth + 1 :]]
    given = {f"beside {unit}": 1.0 for unit in others} | {f"number {units[:nth].count(units[nth])}": 1.0}
    return given if units[nth] in others else given | {"alone": 1.0}


def _nearest(quantity: Quantity, plants: Sequence[Mention], alike: Mapping[str, Sequence[str]]) -> dict[str, float]:
    """The group of the plant named nearest to a quantity."""
    near = min(plants, key=lambda m: min(abs(m.start - quantity.end), abs(quantity.start - m.end)), default=None)
    groups = alike.get(f"plant:{near.id}", ()) if near else ()
    return {f"near {groups[0] if groups else 'none'}": 1.0}


def _words(text: str, found: Sequence[Quantity], plants: Sequence[Mention]) -> tuple[list[str], list[int]]:
    """The letter as stems and marks, with quantities and plants as one word each; where each quantity stands in it."""
    low = text.lower().replace("’", "'")
    spans = [(q.start, q.end, f"<{_kind(q)}>") for q in found]
    spans += [
        (m.start, m.end, "<plants>" if m.words.lower().endswith("s") else "<plant>")
        for m in plants
        if not any(q.start < m.end and m.start < q.end for q in found)
    ]
    words: list[str] = []
    places: list[int] = []
    at = 0
    for start, end, word in [*sorted(spans), (len(low), len(low), "")]:
        for match in _WORD.finditer(low, at, max(at, start)):
            plain = match.group()
            words.append(stem(plain.split("'")[0]) if plain[0].isalpha() else "0" if plain[0].isdigit() else plain)
        if word.startswith("<") and not word.startswith("<plant"):
            places.append(len(words))
        if word:
            words.append(word)
        at = max(at, end)
    return words, places


def _kind(quantity: Quantity) -> str:
    """How a quantity stands in the words: small lengths apart from large ones."""
    return {"in": "inches", "cm": "inches", "mm": "inches"}.get(quantity.unit, quantity.dimension or "number")


def _around(
    words: Sequence[str], place: int, quantity: Quantity, alike: Mapping[str, Sequence[str]]
) -> dict[str, float]:
    unit = words[place]
    size = str(math.floor(math.log2(quantity.value) + 1e-3)) if quantity.value > 0 else "none"
    given = {f"is {unit}": 1.0, f"is {unit} {size}": 1.0, f"unit {quantity.unit}": 1.0}
    given |= {"spelt": 1.0} if quantity.spelt else {}
    given |= {"fraction": 1.0} if quantity.value % 1 else {}
    given |= {"third": 1.0, f"third {unit}": 1.0} if quantity.third else {}
    before = _sentence(reversed(words[max(0, place - _REACH) : place]))
    after = _sentence(iter(words[place + 1 : place + 1 + _REACH]))
    for side, all_ in (("before", before), ("after", after)):
        given |= _close(unit, side, all_[:_NEAR_BY], alike) | _in_the_clause(unit, side, all_, alike)
    given[f"between {before[0]} {after[0]}"] = given[f"{unit} between {before[0]} {after[0]}"] = 1.0
    return given


def _close(unit: str, side: str, near: Sequence[str], alike: Mapping[str, Sequence[str]]) -> dict[str, float]:
    """The nearest words by their place and, the nearer the more, by themselves; and their likes."""
    given = {f"{side} {' '.join(near[:2])}": 1.0}
    for far in reversed(range(len(near))):  # of two alike the nearer counts
        given |= _near_word(unit, side, far, near[far], tuple(alike.get(near[far], ())))
    return given


@lru_cache(maxsize=50_000)
def _near_word(unit: str, side: str, far: int, word: str, likes: Sequence[str]) -> dict[str, float]:
    nearness = 1 / (1 + 0.25 * far)
    given = {f"{side} {word}": nearness}
    if far < _PLACED:
        given |= {f"{side} {far} {word}": 1.0, f"{unit} {side} {far} {word}": 1.0}
    if far < _WITH_UNIT:
        given[f"{unit} {side} {word}"] = 0.7
    for like in likes:
        given |= {f"{side} {like}": nearness, f"{unit} {side} {like}": nearness}
        if far < _LIKES_PLACED:
            given[f"{unit} {side} {far} {like}"] = 1.0
    return given


def _in_the_clause(unit: str, side: str, words: Sequence[str], alike: Mapping[str, Sequence[str]]) -> dict[str, float]:
    """The words of the quantity's own clause, however far, with their likes; and the first like of the sentence."""
    first = next((alike[word] for word in words if word in alike), ())
    given = {f"{how}{side} first {like}": 1.0 for like in first for how in ("", f"{unit} ")}
    clause = list(takewhile(_of_the_clause, words))
    for word in clause:
        given |= _clause_word(unit, side, word, tuple(alike.get(word, ())))
    return given | {f"clause {side} of {min(len(clause), _PLACED)}": 1.0}


@lru_cache(maxsize=50_000)
def _clause_word(unit: str, side: str, word: str, likes: Sequence[str]) -> dict[str, float]:
    of_likes = {f"{how}clause {side} {like}": 1.0 for like in likes for how in ("", f"{unit} ")}
    return {f"clause {side} {word}": 1.0} | of_likes


def _of_the_clause(word: str) -> bool:
    """Whether a word is no mark, no other quantity: these end a clause."""
    return word[0].isalnum() or word.startswith("<plant")


def _sentence(words: Any) -> list[str]:
    """The words up to the end of the sentence, which is marked."""
    near: list[str] = []
    for word in words:
        if word in _ENDS:
            break
        near.append(word)
    return [*near, "|"]
