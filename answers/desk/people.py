"""The people of a desk: who may do what, their sessions, and the limit on failed tries. Every write is atomic.

Not here: which passwords are allowed and how they are kept (passwords.py); cookies, forms and pages (sign_in.py).
"""

from __future__ import annotations

import hashlib
import secrets
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, Any

from answers.desk.passwords import Passwords
from answers.store import Store
from kb.errors import RangeError, StepError

if TYPE_CHECKING:
    from argon2 import PasswordHasher

ACTS = ("read", "draft", "clear", "plan", "keep")
# draft: claim, edit, correct, hold over, hand on, undo. clear: clear, accept marks. plan: the rundown.
# keep: people and place.
RIGHTS: Mapping[str, tuple[str, ...]] = {
    "writer": ("read", "draft"),
    "checker": ("read", "draft", "clear"),
    "producer": ("read", "plan"),
    "keeper": ACTS,
}
ROLES = tuple(RIGHTS)
LONGEST_NAME = 60  # characters
UNUSED, AT_MOST = timedelta(hours=12), timedelta(days=7)  # how long a session lasts without use, and in all
NOTED = timedelta(minutes=1)  # use is noted no oftener, so that reading a page seldom writes
WINDOW = timedelta(minutes=15)  # in which failed tries are counted
TRIES_PER_NAME, TRIES_PER_ADDRESS = 5, 20
ALONE = "alone"  # where a desk without sign-in keeps its session; no token has this digest


@dataclass(frozen=True)
class Person:
    """Somebody who may sign in; `since` is when they were added, in UTC."""

    name: str
    role: str
    since: datetime


@dataclass(frozen=True)
class Session:
    """Who is at the desk; `csrf` must come back with every form. Not `signed_in`: a desk without sign-in."""

    name: str
    role: str
    csrf: str
    signed_in: bool = True


def may(role: str, act: str) -> bool:
    """Whether a role may do an act; an unknown role may do nothing.

    Raises: RangeError for an act not in ACTS.
    """
    if act not in ACTS:
        raise RangeError("act", repr(act), f"one of {', '.join(ACTS)}")
    return act in RIGHTS.get(role, ())


def tidy_name(name: str) -> str:
    """A name as it is kept, with single spaces.

    Raises: RangeError unless it is 1 to LONGEST_NAME printable characters.
    """
    tidy = _single_spaced(name)
    if not 1 <= len(tidy) <= LONGEST_NAME or not tidy.isprintable():
        raise RangeError("name", repr(tidy[:LONGEST_NAME]), f"1 to {LONGEST_NAME} printable characters")
    return tidy


class People:
    """People, sessions and failed tries in a store. Names are told apart whatever their capitals.

    `now` is a time in UTC everywhere. Every method raises StoreError as any use of the store.
    """

    def __init__(self, store: Store, hasher: PasswordHasher | None = None) -> None:
        """`hasher` as Passwords."""
        self.store, self.db, self.passwords = store, store.db, Passwords(hasher)

    def add(self, name: str, role: str, password: str, now: datetime) -> None:
        """Let somebody sign in.

        Raises:
            RangeError: for a name, role or password that is not allowed.
            StepError: when somebody of that name is here.
        """
        name = tidy_name(name)
        row = {"name": name, "role": _role(role), "password": self.passwords.kept(password, name), "since": _stamp(now)}
        with self.store.whole():
            if found := self._row(name):
                raise StepError(f"name: {found['name']} is here already; give another name")
            self.db.table("people").insert(row)

    def set_role(self, name: str, role: str) -> None:
        """Give somebody another role; it counts at once, in open sessions too.

        Raises: RangeError for an unknown name or role; StepError when no keeper would be left.
        """
        _role(role)
        with self.store.whole():
            row = self._known(name)
            if role != "keeper":
                self._keeper_stays(row)
            self.db.table("people").update(row["name"], {"role": role})

    def set_password(self, name: str, password: str) -> None:
        """Give somebody another password; their sessions end, and their failed tries are forgotten.

        Raises: RangeError for an unknown name or a password that is not allowed.
        """
        kept = self.passwords.kept(password, self._known(name)["name"])
        with self.store.whole():
            name = self._known(name)["name"]
            self.db.table("people").update(name, {"password": kept})
            self.db.table("sessions").delete_where("name = ?", [name])
            self.db.table("attempts").delete_where("who = ?", [_who(name)])

    def remove(self, name: str) -> None:
        """Let somebody sign in no longer; their sessions end. What they did stays in the history.

        Raises: RangeError for an unknown name; StepError when no keeper would be left.
        """
        with self.store.whole():
            row = self._known(name)
            self._keeper_stays(row)
            self.db.table("people").delete(row["name"])
            self.db.table("sessions").delete_where("name = ?", [row["name"]])

    def all(self) -> list[Person]:
        """Everybody, by name."""
        return sorted((_person(row) for row in self.store.ask("select * from people")), key=lambda p: p.name.casefold())

    def check(self, name: str, password: str, who: str, now: datetime) -> Person | None:
        """The person if name and password fit, else None. `who` is where it comes from: "address:192.0.2.7".

        It takes as long for an unknown name. A try is counted before the password is looked at, so that tries at the
        same moment are counted too, and is taken back when the password fits.

        Raises: StepError after too many failed tries, with the minutes left, though the password be right.
        """
        counted = self._count({_who(name): TRIES_PER_NAME, who: TRIES_PER_ADDRESS}, now)
        row = self._row(name)
        kept = row["password"] if row else self.passwords.nobodys()
        if not self.passwords.fits(kept, password) or row is None:
            return None
        renewed = self.passwords.renewed(kept, password)
        with self.store.whole():
            given = [renewed, row["name"], kept]
            self.db.execute("update people set password = ? where name = ? and password = ?", given)
            self.db.table("attempts").delete_where("who = ? or rowid = ?", [_who(name), counted[who]])
        return _person(row)

    def start(self, name: str, now: datetime) -> tuple[str, str]:
        """(token, csrf) of a new session; only the token's digest is kept. Sessions that are over are dropped.

        Raises: RangeError for an unknown name.
        """
        token, csrf = secrets.token_urlsafe(32), secrets.token_urlsafe(32)
        sessions = self.db.table("sessions")
        with self.store.whole():
            over = "digest <> ? and (substr(at, 1, 25) <= ? or substr(at, 27) <= ?)"
            sessions.delete_where(over, [ALONE, _stamp(now - AT_MOST), _stamp(now - UNUSED)])
            name = self._known(name)["name"]
            sessions.insert({"digest": _digest(token), "name": name, "csrf": csrf, "at": _span(now, now)})
        return token, csrf

    def person_of(self, token: str, now: datetime) -> Session | None:
        """Whose session a token is; None when there is none, or it was not used for UNUSED, or is AT_MOST old."""
        found = self.store.ask(
            "select p.name, p.role, s.csrf, s.at from sessions s join people p on p.name = s.name where s.digest = ?",
            [_digest(token)],
        )
        if not found:
            return None
        row = found[0]
        begun, used = (datetime.fromisoformat(at) for at in row["at"].split("/"))
        if now - used >= UNUSED or now - begun >= AT_MOST:
            return None
        if now - used >= NOTED:
            with self.store.whole():
                given = [_span(begun, now), _digest(token)]
                self.db.execute("update sessions set at = ? where digest = ?", given)
        return Session(row["name"], row["role"], row["csrf"])

    def end(self, token: str) -> None:
        """Sign out; a token that nobody has is no error."""
        with self.store.whole():
            self.db.table("sessions").delete_where("digest = ?", [_digest(token)])

    def alone(self, name: str, now: datetime) -> Session:
        """The one session of a desk without sign-in, where whoever is at this computer is `name`, a keeper.

        It is kept and does not end, so that a page left open overnight can still be saved.

        Raises: RangeError for a name that is not allowed.
        """
        name, ask = tidy_name(name), "select csrf from sessions where digest = ?"
        if not self.store.ask(ask, [ALONE]):
            row = {"digest": ALONE, "name": "", "csrf": secrets.token_urlsafe(32), "at": _span(now, now)}
            with self.store.whole():
                self.db.table("sessions").insert(row, ignore=True)
        return Session(name, "keeper", self.store.ask(ask, [ALONE])[0]["csrf"], signed_in=False)

    def _row(self, name: str) -> dict[str, Any] | None:
        return next((row for row in self.store.ask("select * from people") if _who(row["name"]) == _who(name)), None)

    def _known(self, name: str) -> dict[str, Any]:
        if row := self._row(name):
            return row
        raise RangeError("name", repr(name[:LONGEST_NAME]), "the name of somebody that `trug people list` lists")

    def _keeper_stays(self, row: Mapping[str, Any]) -> None:
        if row["role"] == "keeper" and len(self.store.ask("select 1 from people where role = 'keeper'")) == 1:
            raise StepError(f"role: {row['name']} is the only keeper; make somebody else a keeper first")

    def _count(self, most: Mapping[str, int], now: datetime) -> dict[str, int]:
        """Count a try against each of `most`, and give the rows to take back; old tries are dropped."""
        attempts = self.db.table("attempts")
        with self.store.whole():
            attempts.delete_where("at <= ? or at > ?", [_stamp(now - WINDOW), _stamp(now + WINDOW)])
            for who, limit in most.items():
                last = self.store.ask("select at from attempts where who = ? order by at desc limit ?", [who, limit])
                if len(last) == limit:
                    left = datetime.fromisoformat(last[-1]["at"]) + WINDOW - now
                    minutes = -(-left // timedelta(minutes=1))
                    raise StepError(
                        f"sign-in: {limit} failed tries from this {who.partition(':')[0]} within "
                        f"{WINDOW // timedelta(minutes=1)} minutes; try again in {minutes} minute{'s'[: minutes > 1]}"
                    )
            return {who: attempts.insert({"who": who, "at": _stamp(now)}).last_rowid or 0 for who in most}


def _role(role: str) -> str:
    if role not in ROLES:
        raise RangeError("role", repr(role), f"one of {', '.join(ROLES)}")
    return role


def _person(row: Mapping[str, Any]) -> Person:
    return Person(row["name"], row["role"], datetime.fromisoformat(row["since"]))


def _single_spaced(name: str) -> str:
    return " ".join(unicodedata.normalize("NFC", name[:1000]).split())


def _who(name: str) -> str:
    return f"name:{_single_spaced(name).casefold()}"


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()


def _stamp(at: datetime) -> str:
    return at.astimezone(UTC).isoformat(timespec="seconds")


def _span(begun: datetime, used: datetime) -> str:
    """When a session began and was last used, as ISO 8601 writes a span of time: two stamps with a slash between."""
    return f"{_stamp(begun)}/{_stamp(used)}"
