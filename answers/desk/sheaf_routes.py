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
from answers.drafts.compose import cite
from answers.sheaf_answer import AT_ONCE, Laid, clear_sheaf, keep_text, lay, rule_of, text_of, waiting_in
from answers.sheaves import Sheaf
from kb.entries import Rule
from kb.errors import StepError

if TYPE_CHECKING:
    from starlette.responses import Response

PER_PAGE = 25


def opening(asked: Asked) -> Response:
    """The season: every sheaf that waits, the emergencies above, what closes first next."""
    calendar = asked.desk.calendar()
    return asked.page("season.html", season=season(asked.desk.store, calendar), place=calendar.place)


def sheaf(asked: Asked) -> Response:
    """One sheaf's worksheet."""
    name = asked.request.path_params["key"]
    page = max(1, int(asked.request.query_params.get("page", "1") or 1)) if _whole(asked) else 1
    return _show(asked, name, page)


def _whole(asked: Asked) -> bool:
    return asked.request.query_params.get("page", "1").isdigit()


def _show(asked: Asked, name: str, page: int, aside: list[Laid] | None = None) -> Response:
    desk, ledger, about, k = asked.desk, asked.desk.ledger, Sheaf.named(name), asked.desk.engine.knowledge
    rows = desk.fresh(waiting_in(ledger, name, desk.now(), PER_PAGE, (page - 1) * PER_PAGE))
    waits = "select count(*) n from answers where sheaf = ? and state in ('drafted', 'edited')"
    count = desk.store.ask(waits, [name])[0]["n"]
    rule = k.rules.get(about.about) if about.sort == "rule" else None
    matter: dict[str, Any] = {
        "letters": [_OnPage(row, "", marked(row["text"], row["worked"]["evidence"])) for row in rows]
    }
    if rule:
        text, version = text_of(desk.store, rule, k)
        laid = lay(rows, text, desk.calendar().usual_state(about), asked.by)
        first = next((one for one in laid if not one.aside), None)
        matter = {
            "letters": [_on_page(asked, one, rule) for one in laid],
            "preview": first,
            "marks": marks({**first.row, "email": first.text}, ("email",)) if first else [],
            "text": text,
            "version": version,
            "sources": _sources(asked, rule),
            "dates": desk.calendar().dates(about),
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
        aside=aside or [],
        **matter,
    )


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

    name, desk = asked.request.path_params["key"], asked.desk
    rule_of(name, desk.engine.knowledge)
    rows = waiting_in(desk.ledger, name, desk.now(), PER_PAGE)
    text = asked.form.get("text", "").replace("\r\n", "\n")
    laid = lay(rows, text, desk.calendar().usual_state(Sheaf.named(name)), asked.by)
    first = next((one for one in laid if not one.aside), None)
    found = marks({**first.row, "email": first.text}, ("email",)) if first else []
    made = [{"sort": m.mark.sort, "message": m.mark.message, "start": -1, "end": -1} for m in found]
    return JSONResponse({"marks": made, "filled": first.text if first else "", "seconds": None})


def write(asked: Asked) -> Response:
    """Keep the shared text; and, when asked to, give it to the letters, or clear them with it.

    Raises: ConflictError when somebody else has changed the shared text since this page was made.
    """
    name, done = asked.request.path_params["key"], asked.form.get("do", "keep")
    desk, now, k = asked.desk, asked.desk.now(), asked.desk.engine.knowledge
    rule, seen = rule_of(name, k), asked.form.get("version", "0")
    if done == "clear" and not asked.may("clear"):
        raise StepError("only a checker clears; give the text to the letters, and a checker will")
    text = keep_text(desk.store, rule, k, asked.form.get("text", ""), asked.by, now, int(seen) if seen.isdigit() else 0)
    if done == "keep":
        return asked.back(_address(name))
    laid = lay(
        desk.fresh(waiting_in(desk.ledger, name, now)), text, desk.calendar().usual_state(Sheaf.named(name)), asked.by
    )
    aside = clear_sheaf(desk.ledger, laid, asked.by, now, edit_only=done != "clear")
    return _show(asked, name, 1, aside) if aside else asked.back(_address(name))


def claim(asked: Asked) -> Response:
    """Say that one is at work on the sheaf, take it over from somebody, or give it up."""
    name = asked.request.path_params["key"]
    if asked.form.get("do") == "release":
        asked.desk.ledger.release(name, asked.by)
    else:
        asked.desk.ledger.claim(name, asked.by, asked.desk.now(), asked.form.get("do") == "take over")
    return asked.back(_address(name))


def _sources(asked: Asked, rule: Rule) -> list[tuple[str, str]]:
    """(citation, how it was seen) of every source of a rule."""
    k = asked.desk.engine.knowledge
    said = [rule.what, *rule.do, *rule.avoid]
    ids = dict.fromkeys(s for say in said for s in ([say.source] if isinstance(say.source, str) else say.source))
    return [(cite(k.sources[s]), k.sources[s].seen) for s in ids]


def _address(name: str) -> str:
    return f"/sheaf/{quote(name, safe=':')}"
