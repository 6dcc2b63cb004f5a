"""The season and each sheaf's worksheet: one answer written for every letter that asks the same.

Not here: what becomes of a letter (clearing.py), how the pages look (templates/).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, NamedTuple
from urllib.parse import quote

from answers.clearing import marks
from answers.desk.desk import Asked
from answers.desk.letter_page import Field, Piece, Rival, fields, in_a_hundred, marked, rivals
from answers.desk.season import season, title_of
from answers.drafts.compose import cite, shared_text
from answers.drafts.proof import PRIVATE
from answers.ledger import WAITING
from answers.sheaf_answer import (
    AT_ONCE,
    Laid,
    answer_sheaf,
    keep_text,
    lay,
    letters,
    private_words,
    rule_of,
    text_before,
    text_of,
)
from answers.sheaves import Sheaf
from kb.entries import Rule
from kb.errors import RangeError, StepError, TrugError
from kb.load import Knowledge

if TYPE_CHECKING:
    from starlette.responses import Response

PER_PAGE = 25
_LAST_PAGE = 100_000


def opening(asked: Asked) -> Response:
    """The season: every sheaf that waits, the emergencies above, what closes first next."""
    calendar = asked.desk.calendar()
    return asked.page("season.html", season=season(asked.desk.store, calendar), place=calendar.place)


def sheaf(asked: Asked) -> Response:
    """One sheaf's worksheet."""
    name, text = asked.request.path_params["key"], asked.request.query_params.get("page", "1")
    page = min(_LAST_PAGE, max(1, int(text))) if text.isdecimal() and len(text) < 7 else 1
    desk, ledger, about, k = asked.desk, asked.desk.ledger, Sheaf.named(name), asked.desk.engine.knowledge
    rows = letters(ledger, desk.engine, name, desk.at(), PER_PAGE, (page - 1) * PER_PAGE)
    waits = f"select count(*) n from answers where sheaf = ? and state in ({', '.join('?' * len(WAITING))})"
    count = desk.store.ask(waits, [name, *WAITING])[0]["n"]
    rule = k.rules.get(about.about) if about.sort == "rule" else None
    matter: dict[str, Any] = {
        "letters": [_OnPage(row, "", marked(row["text"], row["worked"]["evidence"])) for row in rows]
    }
    if rule:
        shared, version, writer = text_of(desk.store, rule, k)
        laid = lay(rows, shared, desk.calendar().usual_state(about), asked.by)
        matter = {
            "letters": [_on_page(asked, one, rule) for one in laid],
            "aside": sum(bool(one.aside) for one in laid),
            "text": shared,
            "version": version,
            "text_by": writer,
            "sources": _sources(asked, rule),
            "dates": desk.calendar().dates(about),
            **_preview(laid, shared, rule, k),
        }
    return asked.page(
        "sheaf.html",
        key=name,
        sheaf=about,
        rule=rule,
        title=title_of(about, k),
        count=count,
        number=page,
        pages=max(1, -(-count // PER_PAGE)),
        per_page=PER_PAGE,
        at_once=AT_ONCE,
        claimed=ledger.claimed_by(name, desk.now()),
        **matter,
    )


def _preview(laid: list[Laid], text: str, rule: Rule, knowledge: Knowledge) -> dict[str, Any]:
    """The text as one writer will read it: the first it fits, else the first; with what the proof says of it."""
    first = next((one for one in laid if not one.aside), laid[0] if laid else None)
    found = marks({**first.row, "email": first.text}, ("email",)) if first else []
    said = [(m.mark.sort, m.mark.message) for m in found if not m.reason]
    told = private_words(text, [one.row for one in laid], rule, knowledge)
    return {"preview": first, "marks": [*said, *((PRIVATE, f"{word}: belongs to one writer alone") for word in told)]}


class _OnPage(NamedTuple):
    """One letter of the sheaf as the page shows it."""

    row: Mapping[str, Any]
    aside: str
    words: list[Piece]
    sure: str = ""
    rivals: tuple[Rival, ...] = ()
    fields: tuple[Field, ...] = ()


def _on_page(asked: Asked, one: Laid, rule: Rule) -> _OnPage:
    k, row, worked = asked.desk.engine.knowledge, one.row, one.row["worked"]
    told = asked.desk.store.told(row["question_id"])
    return _OnPage(
        row,
        one.aside,
        marked(row["text"], worked["evidence"]),
        "a person says so" if told[0] else in_a_hundred(worked["confidence"]),
        tuple(rivals(worked, k)),
        tuple(fields(rule, worked, told[2], k)),
    )


def margin(asked: Asked) -> Response:
    """The shared text as typed, filled for the first letter that goes with it, and its proof; nothing is kept."""
    from starlette.responses import JSONResponse

    name, desk, k = asked.request.path_params["key"], asked.desk, asked.desk.engine.knowledge
    text = asked.form.get("text", "").replace("\r\n", "\n")
    try:
        rule = rule_of(name, k)
        rows = letters(desk.ledger, desk.engine, name, desk.at(), PER_PAGE)
        laid = lay(rows, text, desk.calendar().usual_state(Sheaf.named(name)), asked.by, proofed=False)
    except TrugError as fault:
        return JSONResponse({"fault": str(fault)}, 422)
    made = _preview(laid, text, rule, k)
    found = [{"sort": sort, "message": words, "start": -1, "end": -1, "key": words} for sort, words in made["marks"]]
    return JSONResponse({"marks": found, "filled": made["preview"].text if made["preview"] else "", "seconds": None})


def write(asked: Asked) -> Response:
    """Keep the shared text; and, when asked to, give it to the letters, or clear them with it.

    Raises:
        RangeError: when asked for anything else, or for a text that cannot be kept.
        ConflictError: when somebody else has changed the text since this page was made, or is at work on the sheaf.
    """
    name, done = asked.request.path_params["key"], asked.form.get("do", "keep")
    desk, k = asked.desk, asked.desk.engine.knowledge
    rule = rule_of(name, k)
    if done not in ("keep", "give", "clear", "before", "own"):
        raise RangeError("do", done, "keep, give, clear, before or own")
    if done == "clear" and not asked.may("clear"):
        raise StepError("only a checker clears; give the text to the letters, and a checker will")
    text = asked.form.get("text", "")
    if done in ("before", "own"):
        text = text_before(desk.store, rule, k) if done == "before" else shared_text(rule, k)
    text = keep_text(desk.ledger, rule, k, text, asked.by, desk.now(), asked.version or 0)
    if done in ("give", "clear"):
        usual = desk.calendar().usual_state(Sheaf.named(name))
        answer_sheaf(desk.ledger, desk.engine, name, text, usual, asked.by, desk.at(), clears=done == "clear")
    return asked.back(f"/sheaf/{quote(name, safe=':')}")


def claim(asked: Asked) -> Response:
    """Say that one is at work on the sheaf, take it over from somebody, or give it up."""
    name = asked.request.path_params["key"]
    if asked.form.get("do") == "release":
        asked.desk.ledger.release(name, asked.by)
    else:
        asked.desk.ledger.claim(name, asked.by, asked.desk.now(), asked.form.get("do") == "take over")
    return asked.back(f"/sheaf/{quote(name, safe=':')}")


def _sources(asked: Asked, rule: Rule) -> list[tuple[str, str]]:
    """(citation, how it was seen) of every source of a rule."""
    k = asked.desk.engine.knowledge
    said = [rule.what, *rule.do, *rule.avoid]
    ids = dict.fromkeys(s for say in said for s in ([say.source] if isinstance(say.source, str) else say.source))
    return [(cite(k.sources[s]), k.sources[s].seen) for s in ids]
