"""The proof: what in a person's edit no longer agrees with the draft, its figures, dates, cautions and sources.

Not here: how amounts, dates and a warning are read in a text (numbers_said.py, dates_said.py, standing.py), accepting
a mark with a reason (answers/ledger.py).
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any, NamedTuple

from answers.drafts.dates_said import dates, within
from answers.drafts.numbers_said import Amount, agree, amounts, exact, in_unit, quantity, unit_in, unit_said
from answers.drafts.standing import LIST_MARK, sentences, standing, turned
from answers.letters.privacy import EMAIL, PHONE, STREET
from kb.wording import brands

DOSE, CAUTION, DATE = "changed dose", "dropped caution", "date outside the window"
PRIVATE, TRADE_NAME, UNSOURCED = "private detail", "trade name", "unsourced number"
SORTS = (DOSE, CAUTION, DATE, PRIVATE, TRADE_NAME, UNSOURCED)
SAME_SENTENCE = 75.0  # likeness in percent, numbers left out, from which a sentence is an edit of a drafted one
_SHUT = ("closed", "opens later", "none here")
_OPEN_NOW = re.compile(r"\bopen (?:right )?now\b", re.I)
_MULTIPLE = re.compile(
    r"\b(?:half|halve|double|twice|triple|three times)\s+(?:\w+\s+){0,3}?(?:dose|rate|amount|strength|quantity)\b", re.I
)


@dataclass(frozen=True)
class Mark:
    """One finding. `words` stand at `start` to `end` of the edited text; `start` is -1 for something missing."""

    sort: str  # one of SORTS
    words: str  # for a dropped caution, the caution's
    start: int
    end: int
    message: str

    @property
    def key(self) -> str:
        """What an acceptance is kept under: the same while sort, words and what they should agree with are."""
        against = hashlib.sha256(self.message.encode()).hexdigest()[:6]
        return f"{self.sort}: {' '.join(self.words.split())} #{against}"


def proof(
    text: str, drafted: str, worked: Mapping[str, Any], private: Sequence[str], writer: Mapping[str, str]
) -> list[Mark]:
    """Every mark in `text`, what is missing first, then in the order of the text; none in an empty one.

    Args:
        text: an e-mail, cue card or phone script as a person left it.
        drafted: the program's own text for that part; what stands in it needs no other source.
        worked: `Answer.kept()`.
        private: strings of the letter that must not be published.
        writer: who wrote; `first_name` and `town` may be said.
    """
    if not text.strip() or text == drafted:
        return []  # nothing is said, or nothing but what the program vouches for
    own = _own_words(drafted, worked)
    found = [*_private(text, own, private, writer), *_trade_names(text, drafted)]
    taken = [(m.start, m.end) for m in found]
    changed = list(_changed(text, drafted))
    if changed:
        found += _dates(text, changed, own, worked, writer)
        doses = _doses(text, changed, drafted, own, worked)
        found += [m for m in doses if not any(start <= m.start < end for start, end in taken)]
    found += _cautions(text, drafted, worked)
    return sorted(found, key=lambda m: (m.start, m.sort))


def _own_words(drafted: str, worked: Mapping[str, Any]) -> tuple[str, ...]:
    """All that the program itself says: the texts, passages, sources and working."""
    figures = worked["figures"]
    told = [drafted, *worked["draft"].values(), *(s["text"] for s in worked["sources"])]
    told += [p["text"] for p in worked["passages"] if p["text"] not in drafted]
    for f in figures:
        dated = [f["value"], *f["also"].values(), *f["inputs"].values()]
        told += ["\n".join([*f["steps"], f["label"], f["source"], *f["cautions"], *(d for d in dated if _word(d))])]
    return tuple(dict.fromkeys(told))


def _word(value: object) -> bool:
    return isinstance(value, str)


def _plain(sentence: str) -> str:
    return " ".join(LIST_MARK.sub("", sentence).lower().split()).rstrip(".!:")


def _changed(text: str, drafted: str) -> Iterator[tuple[int, int]]:
    """The sentences of `text` that do not stand in the draft word for word."""
    stood = {_plain(drafted[start:end]) for start, end in sentences(drafted)}
    return ((start, end) for start, end in sentences(text) if _plain(text[start:end]) not in stood)


def _private(text: str, own: Iterable[str], private: Sequence[str], writer: Mapping[str, str]) -> Iterator[Mark]:
    public = "\n".join(own)
    allowed = {writer.get("first_name", "").lower(), writer.get("town", "").lower()}
    town = writer.get("town", "")
    read = re.sub(rf"\b{re.escape(town)}\b", lambda m: "¤" * len(m[0]), text, flags=re.I) if town else text
    secret = [*private, *(writer.get(k, "") for k in ("zip_code", "email", "phone", "street"))]
    exactly = sorted({s for s in secret if s and s.lower() not in allowed}, key=len, reverse=True)
    patterns = [re.compile(rf"(?<!\w){re.escape(s)}(?!\w)", re.I) for s in exactly]
    ends = 0
    spans = sorted({m.span() for pattern in (*patterns, EMAIL, PHONE, STREET) for m in pattern.finditer(read)})
    for start, end in sorted(spans, key=lambda span: (span[0], -span[1])):
        end -= text[start:end].endswith(".")  # of the sentence, or of "St."
        words = text[start:end]
        if start < ends or words in public or re.sub(r"\D", "", words)[-10:] in _telephones(words, public):
            continue
        ends = end
        yield Mark(PRIVATE, words, start, end, f"{words}: a private detail; only the first name and the town may stand")


def _telephones(words: str, public: str) -> set[str]:
    """The last ten digits of each telephone number that the program itself gives, if `words` is one at all."""
    if not PHONE.fullmatch(words):
        return set()
    return {re.sub(r"\D", "", m[0])[-10:] for m in PHONE.finditer(public)}


def _trade_names(text: str, drafted: str) -> Iterator[Mark]:
    said = set(brands(text))
    for name in said - set(brands(drafted)) if said else ():
        for m in re.finditer(rf"(?<![\w-]){re.escape(name)}(?![\w-])", text):
            yield Mark(TRADE_NAME, name, *m.span(), f"{name}: a trade name; say what it is made of")


def _dates(
    text: str,
    changed: Sequence[tuple[int, int]],
    own: Iterable[str],
    worked: Mapping[str, Any],
    writer: Mapping[str, str],
) -> Iterator[Mark]:
    if worked["windows"] and all(w["state"] in _SHUT for w in worked["windows"]):
        said = "; ".join(f"to {w['action']}: {w['words']}" for w in worked["windows"])
        for m in _OPEN_NOW.finditer(text):
            yield Mark(DATE, m[0], *m.span(), f"{m[0]}: it is not; the time {said}")
    names = (writer.get("first_name", ""),)
    new = [d for d in dates(text, names) if any(start <= d.start < end for start, end in changed)]
    if not new:
        return
    known = {(d.first, d.last) for told in own for d in dates(told)}
    windows = [w for w in worked["windows"] if w["opens"] and w["closes"]]
    asked = {(d.first, d.last) for d in dates(worked["text"])}
    for day in new:
        if (day.first, day.last) in known:
            continue
        if not windows:
            if day.first == day.last and (day.first, day.last) not in asked:
                message = f"{day.words}: no date like it stands in the draft, its sources or the letter"
                yield Mark(UNSOURCED, day.words, day.start, day.end, message)
        elif not any(within(day, date.fromisoformat(w["opens"]), date.fromisoformat(w["closes"])) for w in windows):
            said = "; ".join(f"to {w['action']}: {w['words']}" for w in windows)
            yield Mark(DATE, day.words, day.start, day.end, f"{day.words}: outside the time {said}")


def _doses(
    text: str, changed: Sequence[tuple[int, int]], drafted: str, own: Iterable[str], worked: Mapping[str, Any]
) -> Iterator[Mark]:
    """Amounts, and multiples of them, in changed sentences that nothing vouches for."""
    for start, end in changed:
        for m in _MULTIPLE.finditer(text, start, end):
            if not any(m[0].lower() in told.lower() for told in own):
                yield Mark(DOSE, m[0], *m.span(), f"{m[0]}: nothing in the draft or its sources says so")
    new = _with_amounts(text, changed)
    if not new:
        return
    figures = list(_worked_out(worked))
    known = [*figures, *_given(worked), *(a for told in (*own, worked["text"]) for a in amounts(told))]
    stood = _with_amounts(drafted, sentences(drafted))
    for sentence in new:
        before = _edited_from(sentence, stood)
        if before is None:
            yield from _unvouched([a for a in sentence.said if not a.loose], known, figures, worked)
            continue
        start, end = sentence.said[0].start, sentence.said[-1].end
        if turned(before.text, sentence.text):
            yield Mark(DOSE, text[start:end], start, end, f"Turned round: the draft says “{before.text.strip()}”")
        for amount, was in zip(sentence.said, before.said, strict=True):
            pronoun = amount.loose and was.loose and not amount.unit and 1.0 in (amount.value, was.value)
            if not pronoun and not any(agree(amount, k) and agree(was, k) for k in (was, *figures)):
                of_figure = any(agree(was, f) for f in figures if f.unit)
                yield _changed_dose(amount, f"the {'figure' if of_figure else 'draft'} says {was.words}")


def _changed_dose(amount: Amount, why: str) -> Mark:
    return Mark(DOSE, amount.words, amount.start, amount.end, f"{amount.words}: {why}")


def _unvouched(
    said: Iterable[Amount], known: Sequence[Amount], figures: Sequence[Amount], worked: Mapping[str, Any]
) -> Iterator[Mark]:
    for amount in said:
        if any(agree(amount, k) for k in known):
            continue
        steps = [a for p in worked["passages"] if p["part"] in ("figure", "do") for a in amounts(p["text"]) if a.unit]
        of_figures = _nearest(amount, figures)
        nearest = of_figures or _nearest(amount, steps)
        if nearest is not None:
            yield _changed_dose(amount, f"the {'figure' if of_figures else 'draft'} says {nearest.words}")
        else:
            message = f"{amount.words}: stands in no figure, source or passage, and not in the letter"
            yield Mark(UNSOURCED, amount.words, amount.start, amount.end, message)


def _nearest(amount: Amount, doses: Sequence[Amount]) -> Amount | None:
    """The dose it may have been: of the same quantity, the nearest; or the same number in another unit."""
    if not amount.unit:
        return None
    same = [(abs(amount.value - v), d) for d in doses if (v := in_unit(d, amount.unit)) is not None]
    same += [(0.0, d) for d in doses if d.unit and agree(replace(amount, unit=""), d)]
    if quantity(amount.unit) == "analysis":
        same = [(abs(amount.value - d.value), d) for d in doses if quantity(d.unit) == "analysis"]
    return min(same, key=lambda pair: pair[0])[1] if same else None


def _worked_out(worked: Mapping[str, Any]) -> Iterator[Amount]:
    """The figures' values and further results."""
    for figure in worked["figures"]:
        if not _word(figure["value"]):
            unit = unit_said(figure["unit"]) or unit_said(re.split(r"[ /]", figure["unit"])[0])
            yield exact(float(figure["value"]), unit)
        for name, value in figure["also"].items():
            if not _word(value):
                yield exact(float(value), unit_in(name))


def _given(worked: Mapping[str, Any]) -> Iterator[Amount]:
    """What the figures were worked from, and what was measured in the letter."""
    given = [item for figure in worked["figures"] for item in figure["inputs"].items()]
    given += [(name, m["value"]) for name, m in worked["measurements"].items()]
    for name, value in given:
        if isinstance(value, int | float) and not isinstance(value, bool):
            yield exact(float(value), unit_in(name))


class _Sentence(NamedTuple):
    """A sentence, the same without its amounts, and those."""

    text: str
    bare: str
    said: list[Amount]


def _with_amounts(text: str, spans: Iterable[tuple[int, int]]) -> list[_Sentence]:
    """The sentences that hold an amount."""
    said, found = amounts(text), []
    for start, end in spans:
        here = [a for a in said if start <= a.start < end]
        cuts = [start, *(at for a in here for at in (a.start, a.end)), end]
        bare = "#".join(text[a:b] for a, b in zip(cuts[::2], cuts[1::2], strict=True))
        if here:
            found.append(_Sentence(text[start:end], _plain(bare), here))
    return found


def _edited_from(sentence: _Sentence, stood: Iterable[_Sentence]) -> _Sentence | None:
    """The drafted sentence, with as many amounts, that this one was made of."""
    from rapidfuzz import fuzz

    alike = [
        (fuzz.ratio(sentence.bare, one.bare), i, one)
        for i, one in enumerate(stood)
        if len(one.said) == len(sentence.said)
    ]
    best = max(alike, default=None)
    return best[2] if best and best[0] >= SAME_SENTENCE else None


def _cautions(text: str, drafted: str, worked: Mapping[str, Any]) -> Iterator[Mark]:
    must = {"caution", "hand-off"} if worked["urgency"] == "emergency" else {"caution"}
    for passage in worked["passages"]:
        if passage["part"] not in (*must, "avoid") or passage["text"] not in drafted:
            continue
        for start, end in sentences(passage["text"]):
            said = passage["text"][start:end]
            stands = standing(said, text)
            if stands is None or (passage["part"] == "avoid" and not stands.turned):
                continue  # a warning without a danger may go, but not say the opposite
            message = f"{said}: {stands.why}"
            yield Mark(CAUTION, said, stands.start, stands.end, message)
