"""One letter's worksheet and every step that may be taken on it.

Not here: what the worksheet holds (letter_page.py), the steps themselves (ledger.py, clearing.py).
"""

from __future__ import annotations

from dataclasses import asdict
from datetime import date
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from answers import clearing
from answers.answering import Answer
from answers.desk.desk import Asked
from answers.desk.letter_page import fields, in_a_hundred, marked, rivals, values_told
from answers.desk.sign_in import local_path
from answers.drafting import keep_told, lay_again, work_out
from answers.drafts.spoken import seconds
from answers.ledger import MOVES, PART_NAMES, PARTS, WAITING, fit_text
from kb.errors import RangeError, TrugError, UnitError

if TYPE_CHECKING:
    from starlette.responses import Response

_NEXT = (  # the letter of the same sheaf that waits behind this one, or else the first
    f"select question_id, (select rowid from answers where question_id = ?) this from answers where sheaf = ? "
    f"and state in ({', '.join('?' * len(WAITING))}) and rowid <> this order by rowid < this, rowid limit 1"
)


def letter(asked: Asked) -> Response:
    """One letter: its words, the reading, the figures, the texts and their proof, and what was done so far."""
    return _show(asked, _id(asked))


def _show(asked: Asked, id_: str) -> Response:
    desk, ledger, k = asked.desk, asked.desk.ledger, asked.desk.engine.knowledge
    row = desk.fresh(desk.store.one(id_))
    worked, told = row["worked"], desk.store.told(id_)
    rule, found_marks = k.rules.get(worked["rule"] or ""), clearing.marks(row)
    joined = "questions q join answers a on a.question_id = q.id"
    others = f"select a.question_id from {joined} where q.letter_id = ? and q.id <> ?"
    return asked.page(
        "letter.html",
        id=id_,
        row=row,
        worked=worked,
        letter_words=marked(row["text"], worked["evidence"]),
        rivals=rivals(worked, k),
        rule=rule,
        fields=fields(rule, worked, told[2], k),
        corrected=bool(told[0]),
        parts=[
            (part, PART_NAMES[part].capitalize(), row[part] or "", [m for m in found_marks if m.part == part])
            for part in PARTS
        ],
        open_marks=sum(not m.reason for m in found_marks),
        airtime=round(seconds(row["cue_card"])) if row["cue_card"] else 0,
        waits=row["state"] in WAITING,
        moves=MOVES[row["state"]],
        choices=desk.choices,
        claimed=ledger.claimed_by(id_, desk.now()),
        history=ledger.history(id_),
        next_in_sheaf=next((r["question_id"] for r in desk.store.ask(_NEXT, [id_, row["sheaf"], *WAITING])), ""),
        parts_of_letter=[r["question_id"] for r in desk.store.ask(others, [row["letter_id"], id_])],
        in_a_hundred=in_a_hundred,
    )


def edit(asked: Asked) -> Response:
    """Keep one text."""
    asked.desk.ledger.edit(
        _id(asked), asked.form.get("part", ""), asked.form.get("text", ""), asked.by, asked.desk.now(), asked.version
    )
    return asked.back(_address(asked))


def clear(asked: Asked) -> Response:
    """Clear the letter as it was shown."""
    asked.desk.fresh(asked.desk.store.one(_id(asked)))
    clearing.clear(asked.desk.ledger, _id(asked), asked.by, asked.desk.now(), asked.version)
    return asked.back(_address(asked))


def move(asked: Asked) -> Response:
    """Hold over, hand on, set aside, mark as sent or aired, or take up again."""
    form, until = asked.form, None
    if form.get("state") == "held over" and form.get("until"):
        try:
            until = date.fromisoformat(form["until"])
        except ValueError:
            raise UnitError("until", form["until"], "a date as YYYY-MM-DD") from None
    note = " ".join(x for x in (form.get("to", ""), form.get("note", "")) if x.strip())
    asked.desk.ledger.move(_id(asked), form.get("state", ""), asked.by, asked.desk.now(), note, until)
    return asked.back(_address(asked))


def accept(asked: Asked) -> Response:
    """Let a mark stand, for a reason."""
    form = asked.form
    clearing.accept(
        asked.desk.ledger,
        _id(asked),
        form.get("part", ""),
        form.get("mark", ""),
        form.get("reason", ""),
        asked.by,
        asked.desk.now(),
    )
    return asked.back(_address(asked))


def claim(asked: Asked) -> Response:
    """Say that one is at work on it, take it over from somebody, or give it up."""
    ledger, id_ = asked.desk.ledger, _id(asked)
    if asked.form.get("do") == "release":
        ledger.release(id_, asked.by)
    else:
        ledger.claim(id_, asked.by, asked.desk.now(), asked.form.get("do") == "take over")
    return asked.back(_address(asked))


def correct(asked: Asked) -> Response:
    """Say what the letter is about: it is worked out anew, and `trug learn` learns from it.

    Raises: RangeError for a problem or plant that the rule base does not have.
    """
    k = asked.desk.engine.knowledge
    problem = _chosen(asked, "problem", asked.desk.choices["problems"])
    plant = _chosen(asked, "plant", asked.desk.choices["plants"])
    if problem not in k.rules_by_problem:
        raise RangeError("problem", asked.form.get("problem", ""), "a problem that a rule answers, by its name or id")
    _keep(asked, {"problem": problem, "plant": plant or None})
    return asked.back(_page_before(asked))


def _chosen(asked: Asked, name: str, choices: list[tuple[str, str]]) -> str:
    """The id that a person chose, by id or by name; "" for none."""
    text = asked.form.get(name, "").strip()
    found = next((id_ for id_, words in choices if text.lower() in (id_, words.lower())), "")
    if text and not found:
        raise RangeError(name, text, f"a {name} of the rule base, by its name or id")
    return found


def again(asked: Asked) -> Response:
    """Lay the program's own draft again over what was written."""
    lay_again(asked.desk.ledger, _id(asked), asked.by, asked.desk.now())
    return asked.back(_address(asked))


def tell(asked: Asked) -> Response:
    """Keep the numbers that a person gives, and work the figures again.

    Raises: RangeError or UnitError when a calculator refuses one; nothing is then kept.
    """
    changed = values_told(asked.form, _fields(asked))
    if changed:
        _keep(asked, {"values": changed})
    return asked.back(_page_before(asked))


def _keep(asked: Asked, told: dict[str, Any]) -> None:
    desk = asked.desk
    keep_told(desk.ledger, desk.engine, _id(asked), told, asked.by, desk.at())


def figures(asked: Asked) -> Response:
    """What the figures would come to with the numbers as typed so far, or why not; nothing is kept."""
    from starlette.responses import JSONResponse

    try:
        answer = _tried(asked, values_told(asked.form, _fields(asked)))
    except TrugError as fault:
        return JSONResponse({"fault": str(fault)}, 422)
    made: dict[str, Any] = {
        "figures": [
            {"id": w.calculation.id, "words": w.sentence, "steps": [s.words for s in w.figure.steps]}
            for w in answer.inputs.worked
        ],
        "refused": list(answer.inputs.refused),
    }
    return JSONResponse(made)


def margin(asked: Asked) -> Response:
    """The proof of a text as typed so far, or why it could not be kept; nothing is kept."""
    from starlette.responses import JSONResponse

    part, text = asked.form.get("part", "email"), asked.form.get("text", "").replace("\r\n", "\n")
    try:
        if part not in PARTS:
            raise RangeError("part", part, f"one of {', '.join(PARTS)}")
        fit_text(text)
        found = clearing.marks({**asked.desk.store.one(_id(asked)), part: text}, (part,))
    except TrugError as fault:
        return JSONResponse({"fault": str(fault)}, 422)
    made = [{**asdict(m.mark), "key": m.mark.key, "reason": m.reason} for m in found]
    return JSONResponse({"marks": made, "seconds": round(seconds(text)) if part == "cue_card" else None})


def card(asked: Asked) -> Response:
    """The cue card alone, large, to be printed or read from a screen."""
    row = asked.desk.store.one(_id(asked))
    return asked.page("card.html", row=row, airtime=round(seconds(row["cue_card"] or "")), id=_id(asked))


def reply(asked: Asked) -> Response:
    """The e-mail reply alone, to be printed or copied."""
    return asked.page("reply.html", row=asked.desk.store.one(_id(asked)), id=_id(asked))


def _fields(asked: Asked) -> Any:
    store, k = asked.desk.store, asked.desk.engine.knowledge
    worked = store.one(_id(asked))["worked"]
    return fields(k.rules.get(worked["rule"] or ""), worked, store.told(_id(asked))[2], k)


def _tried(asked: Asked, changed: dict[str, Any]) -> Answer:
    return work_out(asked.desk.store, asked.desk.engine, _id(asked), asked.desk.today(), {"values": changed})


def _id(asked: Asked) -> str:
    return str(asked.request.path_params["id"])


def _page_before(asked: Asked) -> str:
    """The page that the form stood on: a sheaf's, or the letter's own."""
    back = asked.form.get("back", "")
    return local_path(back) if back else _address(asked)


def _address(asked: Asked) -> str:
    return f"/letter/{quote(_id(asked), safe='')}"
