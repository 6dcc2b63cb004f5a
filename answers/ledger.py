"""Who did what to which letter: claims, edits, clearing, and each step's way back. Every write is atomic.

Not here: letters and drafts themselves (store.py), whether a text is fit to be cleared (clearing.py).
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from datetime import UTC, date, datetime, timedelta
from typing import Any, NamedTuple

from answers.store import Store, draft_columns
from kb.errors import ConflictError, RangeError, StepError

PART_NAMES = {"email": "e-mail reply", "cue_card": "cue card", "phone": "phone script"}
PARTS = tuple(PART_NAMES)
WAITING = ("drafted", "edited")
CLEARED = ("cleared", "sent", "aired")  # somebody stands by the texts
CLAIM_HOLDS = timedelta(minutes=30)
LONGEST_TEXT = 20_000  # characters
# What may become of a letter from each state; a cleared text that is changed is edited again.
MOVES: dict[str, tuple[str, ...]] = {
    "drafted": ("held over", "handed on", "not for us"),
    "edited": ("held over", "handed on", "not for us"),
    "cleared": ("sent", "aired", "edited"),
    "sent": ("aired",),
    "aired": ("sent",),
    "held over": ("edited", "handed on", "not for us"),
    "handed on": ("edited",),
    "not for us": ("edited",),
}


class Change(NamedTuple):
    """New columns for one stored answer, as seen at `version` (None: whatever it is now)."""

    question_id: str
    columns: Mapping[str, Any]
    version: int | None = None


class Ledger:
    """Steps taken by people, on one store."""

    def __init__(self, store: Store) -> None:
        self.store = store

    def edit(self, question_id: str, part: str, text: str, by: str, now: datetime, version: int | None = None) -> None:
        """Replace one text of a draft; a cleared one goes back to edited.

        Raises:
            RangeError: for an unknown part, or a text that is empty or over LONGEST_TEXT characters.
            ConflictError: when it was changed since `version`, or somebody else has claimed it.
        """
        if part not in PARTS:
            raise RangeError("part", part, f"one of {', '.join(PARTS)}")
        text = fit_text(text)
        columns = {part: text, "state": "edited", "cleared_by": None}
        self.step([Change(question_id, columns, version)], by, f"edited the {PART_NAMES[part]}", now)

    def move(
        self, question_id: str, state: str, by: str, now: datetime, note: str = "", until: date | None = None
    ) -> None:
        """Hold over (until a day), hand on, set aside as not for us, mark as sent or aired, or take up again.

        Raises: StepError when that cannot follow from the state it is in.
        """
        row = self.store.one(question_id)
        if state not in MOVES[row["state"]]:
            may = ", ".join(MOVES[row["state"]])
            raise StepError(f"{question_id}: is {row['state']}, so it cannot be {state}; it can be {may}")
        columns: dict[str, Any] = {"state": state, "note": note.strip(), "until": until.isoformat() if until else ""}
        if state == "edited":  # open again; a draft that nobody has changed is a draft still
            own = all(row[part] == row["worked"]["draft"][part] for part in PARTS)
            columns |= {"state": "drafted" if own else "edited", "cleared_by": None}
        self.step([Change(question_id, columns, row["version"])], by, state, now)

    def step(self, changes: Iterable[Change], by: str, did: str, now: datetime) -> int:
        """Take one step with some letters, all or none, and keep the way back. Returns the step's number.

        Raises:
            RangeError: when nobody is named.
            ConflictError: when one was changed since its version, or somebody else has claimed it.
        """
        if not by.strip():
            raise RangeError("by", repr(by), "the name of the person who does it")

        def work() -> int:
            step = 1 + (self.store.ask("select max(step) n from history")[0]["n"] or 0)
            for change in changes:
                self._take(change, step, by, did, now)
            return step

        return self.store.write(work)

    def _take(self, change: Change, step: int, by: str, did: str, now: datetime) -> None:
        columns = ", ".join(f'"{name}"' for name in (*change.columns, "version"))
        found = self.store.ask(f"select {columns} from answers where question_id = ?", [change.question_id])
        if not found:
            self.store.one(change.question_id)  # raises, in words
        before = found[0]
        version = before.pop("version")
        if change.version is not None and version != change.version:
            last = [h for h in self.history(change.question_id)[:1] if h["version"] == version]
            who = f"{last[0]['by']} {last[0]['did']}" if last else "it was worked out anew"
            raise ConflictError(f"{change.question_id}: {who} since you opened it; nothing of theirs was overwritten")
        holder = self.respect(change.question_id, by, now)
        if holder and change.columns.get("state") in ("edited", "drafted", None):
            self.claim(change.question_id, by, now)  # it holds on from here
        elif holder:
            self.release(change.question_id, by)
        self.store.db.table("answers").update(change.question_id, {**change.columns, "version": version + 1})
        self.store.db.table("history").insert(
            {
                "step": step,
                "question_id": change.question_id,
                "at": now.isoformat(timespec="seconds"),
                "by": by,
                "did": did,
                "before": json.dumps(before),
                "version": version + 1,
                "undone": 0,
            }
        )

    def undo(self, by: str, now: datetime) -> str:
        """Take back the last step that `by` took and that still stands; all its letters or none. Says what it was.

        Raises:
            StepError: when there is none.
            ConflictError: when somebody has changed one of its letters since.
        """
        last = self.store.ask("select max(step) n from history where by = ? and undone = 0", [by])[0]["n"]
        if last is None:
            raise StepError(f"{by} has taken no step that could be taken back")
        rows = self.store.ask("select * from history where step = ?", [last])

        def work() -> None:
            step = 1 + self.store.ask("select max(step) n from history")[0]["n"]
            for row in rows:
                standing = next(h for h in self.history(row["question_id"]) if not h["undone"])
                if standing["id"] != row["id"]:
                    words = f"{standing['by']} {standing['did']} since; that would have to be taken back first"
                    raise ConflictError(f"{row['question_id']}: {words}")
                before = {**json.loads(row["before"]), "drafted_on": ""}  # a draft of then is soon made again
                self._take(Change(row["question_id"], before), step, by, f"took back: {row['did']}", now)
            self.store.db.execute("update history set undone = 1 where step in (?, ?)", [last, step])

        self.store.write(work)
        return str(rows[0]["did"]) + (f" ({len(rows)} letters)" if len(rows) > 1 else "")

    def history(self, question_id: str) -> list[dict[str, Any]]:
        """What was done to a question, the last first: at, by, did, before."""
        return self.store.ask("select * from history where question_id = ? order by id desc", [question_id])

    def claim(self, what: str, by: str, now: datetime, take_over: bool = False) -> None:
        """Say that `by` is at work on a question (or a sheaf). A claim holds half an hour from its last use.

        Raises: ConflictError when somebody else holds it and `take_over` is false.
        """
        if not take_over:
            self.respect(what, by, now)
        row = {"what": what, "by": by, "at": now.isoformat(timespec="seconds")}
        self.store.write(lambda: self.store.db.table("claims").upsert(row, pk="what"))

    def release(self, what: str, by: str) -> None:
        """Give up a claim of one's own."""
        self.store.write(lambda: self.store.db.table("claims").delete_where("what = ? and by = ?", [what, by]))

    def claimed_by(self, what: str, now: datetime) -> str:
        """Who is at work on it; "" when nobody is."""
        since = (now - CLAIM_HOLDS).isoformat(timespec="seconds")
        found = self.store.ask("select by from claims where what = ? and at > ?", [what, since])
        return str(found[0]["by"]) if found else ""

    def respect(self, what: str, by: str, now: datetime) -> str:
        """Who is at work on it: `by`, or "" for nobody.

        Raises: ConflictError when it is somebody else.
        """
        holder = self.claimed_by(what, now)
        if holder and holder != by:
            raise ConflictError(f"{what}: {holder} is at work on it; take it over first")
        return holder

    def accept(self, question_id: str, part: str, mark: str, reason: str, by: str, now: datetime) -> None:
        """Let a mark of the proof stand, for a reason that is kept.

        Raises: RangeError without a reason of at least three letters; ConflictError when somebody else has claimed it.
        """
        if len(reason.strip()) < 3:
            raise RangeError("reason", repr(reason), "why it may stand, in a few words")
        row = self.store.one(question_id)
        held = {**json.loads(row["accepted"]), f"{part}|{mark}": {"reason": reason.strip(), "by": by}}
        change = Change(question_id, {"accepted": json.dumps(held)}, row["version"])
        self.step([change], by, f"let a mark stand ({mark}): {reason.strip()}", now)

    def tell(
        self, row: Mapping[str, Any], told: Mapping[str, Any], worked: Mapping[str, Any], by: str, now: datetime
    ) -> None:
        """Keep what a person says of a question, with what was worked out from it: texts too, if nobody changed them.

        Args:
            row: the stored answer that `worked` was made from.
            told: `problem` and `plant`, or `values` by name (None forgets one); what is not given stays as it was.
            worked: `Answer.kept` with all of it.

        Raises: ConflictError when it was changed since `row` was read, or somebody else has claimed it.
        """
        held = json.loads(row["told"])
        values = {**held.get("values", {}), **told.get("values", {})}
        kept = {**held, **told, "values": {name: value for name, value in values.items() if value is not None}}
        columns = {"told": json.dumps(kept), **draft_columns(worked, row)}
        said = [f"{name} is {'no longer told' if v is None else v}" for name, v in told.get("values", {}).items()]
        did = f"said that {', '.join(said)}" if said else f"said that it is about {told.get('problem')}"
        self.step([Change(row["question_id"], columns, row["version"])], by, did, now)


def accepted(row: Mapping[str, Any]) -> dict[tuple[str, str], str]:
    """(part, mark's key) of a stored answer -> why it may stand, and who says so."""
    held = json.loads(row["accepted"]).items()
    return {(name.partition("|")[0], name.partition("|")[2]): f"{v['reason']} ({v['by']})" for name, v in held}


def fit_text(text: str) -> str:
    """A text as it is kept: line ends alike, one at its end.

    Raises: RangeError when it is empty, longer than LONGEST_TEXT characters, or holds signs that no text has.
    """
    text = text.replace("\r\n", "\n").strip() + "\n"
    if not text.strip() or len(text) > LONGEST_TEXT:
        raise RangeError("text", f"{len(text.strip())} characters", f"1 to {LONGEST_TEXT:,} characters")
    if strange := [c for c in text if ord(c) < 32 and c not in "\n\t"]:
        raise RangeError("text", repr(strange[0]), "letters, figures and signs")
    return text


def utc_now() -> datetime:
    """This moment; asked for by commands and the server only."""
    return datetime.now(UTC)
