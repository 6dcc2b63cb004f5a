"""Who may do what at the desk, with which password, for how long, and how often one may be wrong."""

from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta

import pytest
import typer
from argon2 import PasswordHasher
from hypothesis import given
from hypothesis import strategies as st

from answers.cli import people as command
from answers.desk.passwords import Passwords
from answers.desk.people import ACTS, RIGHTS, ROLES, People, may, tidy_name
from answers.store import Store
from kb.errors import RangeError, StepError, StoreError

NOW = datetime(2026, 5, 5, 9, 0, tzinfo=UTC)
CHEAP = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
DEARER = PasswordHasher(time_cost=2, memory_cost=8, parallelism=1)
PASSWORD, WRONG = "a barrow of leaf mould", "a barrow of bark chips"
HERE = "address:192.0.2.7"


def later(**span):
    return NOW + timedelta(**span)


@pytest.fixture
def store(tmp_path):
    with Store(tmp_path / "trug.db") as opened:
        yield opened


@pytest.fixture
def people(store):
    known = People(store, CHEAP)
    known.add("Ana", "keeper", PASSWORD, NOW)
    known.add("Bo Li", "writer", PASSWORD, NOW)
    return known


def failed(people, times, name="Ana", who=HERE, at=NOW):
    for _ in range(times):
        assert people.check(name, WRONG, who, at) is None


ALLOWED = {
    "writer": "read draft",
    "checker": "read draft clear",
    "producer": "read plan",
    "keeper": "read draft clear plan keep",
}


@pytest.mark.parametrize("role", ROLES)
def test_each_role_may_do_its_own_acts_and_no_others(role):
    """Only a checker or keeper clears, only a producer or keeper plans, only a keeper keeps people and place."""
    assert {act for act in ACTS if may(role, act)} == set(ALLOWED[role].split())


def test_an_unknown_role_may_do_nothing_and_an_unknown_act_is_a_mistake():
    """A role that a newer program wrote gives no rights; a mistyped act is told, not taken for a no."""
    assert not any(may("visitor", act) for act in ACTS)
    with pytest.raises(RangeError, match="act: 'celar' is not allowed; give one of read, draft"):
        may("keeper", "celar")
    assert set(RIGHTS) == set(ALLOWED)


@pytest.mark.parametrize(
    ("name", "role", "password", "told"),
    [
        ("Cy", "boss", PASSWORD, "role: 'boss' is not allowed; give one of writer, checker, producer, keeper"),
        ("  ", "writer", PASSWORD, "name: '' is not allowed; give 1 to 60 printable characters"),
        ("C" * 61, "writer", PASSWORD, "1 to 60 printable"),
        ("C\x00y", "writer", PASSWORD, "1 to 60 printable"),
        ("C\u202ey", "writer", PASSWORD, "1 to 60 printable"),
        ("Cy", "writer", "x" * 11, "password: one of 11 characters is not allowed; give 12 to 128 characters"),
        ("Cy", "writer", "x" * 129, "password: one of 129 characters is not allowed"),
        ("Cy of the Meadow", "writer", "cy of the meadow", "password: the name is not allowed"),
    ],
)
def test_who_cannot_be_added_is_told_which_field_and_what_it_may_be(people, name, role, password, told):
    """Nobody is added by halves, and no password is repeated in the fault."""
    with pytest.raises(RangeError, match=told) as fault:
        people.add(name, role, password, NOW)
    assert password not in str(fault.value)
    assert [p.name for p in people.all()] == ["Ana", "Bo Li"]


@given(st.text(max_size=80))
def test_a_name_is_kept_tidy_or_refused(name):
    """What is kept is short, printable and single-spaced, and stays as it is when tidied again."""
    try:
        kept = tidy_name(name)
    except RangeError:
        return
    assert 1 <= len(kept) <= 60
    assert kept.isprintable()
    assert tidy_name(kept) == kept


@given(st.text(min_size=1, max_size=40))
def test_only_the_same_password_fits(password):
    """Whatever is typed can be compared; only what was kept fits."""
    passwords = Passwords(CHEAP)
    kept = passwords.kept("leaf mould " + password, "Ana")
    assert passwords.fits(kept, "leaf mould " + password)
    assert not passwords.fits(kept, "leaf mould " + password + ".")


@pytest.mark.parametrize(
    ("chosen", "typed"),
    [("cafe\u0301 au potager", "caf\u00e9 au potager"), ("\ufb01g and quince", "fig and quince")],
)
def test_a_password_typed_on_another_keyboard_fits(chosen, typed):
    """An accent as a mark of its own, or two letters joined in one, is the same password."""
    passwords = Passwords(CHEAP)
    assert passwords.fits(passwords.kept(chosen, "Ana"), typed)


def test_the_usual_cost_is_argon2id_and_a_spoilt_password_fits_nothing():
    """Without a hasher the library's own advice is taken: 64 MiB, three passes."""
    assert Passwords().kept(PASSWORD, "Ana").startswith("$argon2id$v=19$m=65536,t=3,p=4$")
    assert not Passwords(CHEAP).fits("spoilt", PASSWORD)


def test_a_password_is_not_kept_as_it_is(people, store):
    """The database holds neither a password nor a session's token."""
    token, _ = people.start("Ana", NOW)
    kept = "\n".join(store.db.conn.iterdump())
    assert PASSWORD not in kept
    assert token not in kept


@pytest.mark.parametrize("name", ["Ana", "ana", " ANA ", "bo  li"])
def test_the_right_password_lets_a_person_in_whatever_the_capitals(people, name):
    """Phones write a capital first, and people type a space too many."""
    person = people.check(name, PASSWORD, HERE, NOW)
    assert person.name.casefold() == " ".join(name.split()).casefold()
    assert person.since == NOW


@pytest.mark.parametrize(("name", "password"), [("Ana", WRONG), ("Nobody", PASSWORD), ("", ""), ("Ana", "")])
def test_a_wrong_password_and_an_unknown_name_are_told_alike(people, name, password):
    """Neither gets in, and neither is told which of the two was wrong."""
    assert people.check(name, password, HERE, NOW) is None


def test_an_unknown_name_costs_as_much_as_a_known_one(people, monkeypatch):
    """A password is compared at the same cost, so that the time taken does not tell who is here."""
    compared = []
    monkeypatch.setattr(people.passwords, "fits", lambda kept, password: compared.append(kept))
    people.check("Ana", WRONG, HERE, NOW)
    people.check("Nobody", WRONG, HERE, NOW)
    known, unknown = (kept.rsplit("$", 2) for kept in compared)
    assert known[0] == unknown[0]
    assert [len(part) for part in known] == [len(part) for part in unknown]
    assert known[1:] != unknown[1:]


def test_a_password_is_kept_anew_when_the_cost_has_changed(people, store):
    """At the next sign-in, with the same password."""
    before = store.db.table("people").get("Ana")["password"]
    assert People(store, CHEAP).check("Ana", PASSWORD, HERE, NOW)
    assert store.db.table("people").get("Ana")["password"] == before
    assert People(store, DEARER).check("Ana", PASSWORD, HERE, NOW)
    assert ",t=2," in store.db.table("people").get("Ana")["password"]
    assert People(store, DEARER).check("Ana", PASSWORD, HERE, NOW)


@pytest.mark.parametrize("name", ["Ana", "Nobody"])
def test_after_five_failed_tries_a_name_waits_though_the_password_be_right(people, name):
    """Known or not, from wherever it comes, whatever the capitals; the minutes left are told."""
    for number in range(5):
        failed(people, 1, name, f"address:192.0.2.{number}", later(minutes=number))
    with pytest.raises(StepError, match=r"5 failed tries from this name within 15 minutes; try again in 11 minutes$"):
        people.check(name.upper(), PASSWORD, "address:192.0.2.99", later(minutes=4))
    with pytest.raises(StepError, match=r"try again in 1 minute$"):
        people.check(name, PASSWORD, HERE, later(minutes=14, seconds=59))


def test_the_wait_is_over_after_fifteen_minutes_and_old_tries_are_dropped(people, store):
    """Counted from the failed tries themselves: trying again meanwhile does not make it longer."""
    failed(people, 5)
    with pytest.raises(StepError):
        people.check("Ana", PASSWORD, HERE, later(minutes=14))
    assert people.check("Ana", PASSWORD, HERE, later(minutes=15))
    assert store.db.table("attempts").count == 0


def test_after_twenty_failed_tries_an_address_waits(people):
    """Whatever the names; other addresses do not wait."""
    for number in range(20):
        failed(people, 1, f"guess {number}")
    with pytest.raises(StepError, match="20 failed tries from this address"):
        people.check("Ana", PASSWORD, HERE, NOW)
    assert people.check("Ana", PASSWORD, "address:192.0.2.8", NOW)


def test_signing_in_forgets_the_names_failed_tries_but_not_the_addresses(people, store):
    """Somebody who has a password of their own cannot use it to go on guessing."""
    failed(people, 4)
    assert people.check("Ana", PASSWORD, HERE, NOW)
    failed(people, 4)
    assert store.db.execute("select count(*) from attempts where who = ?", [HERE]).fetchone() == (8,)


def test_tries_at_the_same_moment_are_counted_too(people, tmp_path):
    """Of twelve at once, five are looked at and seven refused."""

    def attempt(_):
        with Store(tmp_path / "trug.db") as own:
            try:
                return People(own, CHEAP).check("Ana", WRONG, HERE, NOW)
            except StepError:
                return "refused"

    with ThreadPoolExecutor(6) as pool:
        told = list(pool.map(attempt, range(12)))
    assert (told.count(None), told.count("refused")) == (5, 7)


def test_a_clock_that_was_set_back_keeps_nobody_out(people):
    """Tries that lie in the future count for nothing."""
    failed(people, 5, at=later(days=300))
    assert people.check("Ana", PASSWORD, HERE, NOW)


@pytest.mark.parametrize(
    ("uses", "asked", "there"),
    [
        ([], {"hours": 11, "minutes": 59}, True),
        ([], {"hours": 12}, False),
        ([{"hours": 11}], {"hours": 22}, True),
        ([{"hours": 11}], {"hours": 23}, False),
        ([{"hours": 10 * n} for n in range(1, 17)], {"hours": 167, "minutes": 59}, True),
        ([{"hours": 10 * n} for n in range(1, 17)], {"days": 7}, False),
    ],
)
def test_a_session_ends_after_twelve_hours_without_use_and_after_seven_days(people, uses, asked, there):
    """Use makes it longer, but never past seven days."""
    token, csrf = people.start("Bo Li", NOW)
    for used in uses:
        assert people.person_of(token, later(**used))
    session = people.person_of(token, later(**asked))
    assert bool(session) is there
    if session:
        assert (session.name, session.role, session.csrf, session.signed_in) == ("Bo Li", "writer", csrf, True)


def test_sessions_that_are_over_are_dropped_at_the_next_sign_in(people, store):
    """The table does not grow for ever; the session of a desk without sign-in stays."""
    people.alone("Ana", NOW)
    for hours in (0, 20, 40):
        people.start("Ana", later(hours=hours))
    assert store.db.table("sessions").count == 2


@pytest.mark.parametrize("token", ["", "x" * 43, "alone", "é"])
def test_a_token_that_nobody_was_given_is_nobodys(people, token):
    """Ending it is no error either."""
    people.start("Ana", NOW)
    people.alone("Ana", NOW)
    assert people.person_of(token, NOW) is None
    people.end(token)


@pytest.mark.parametrize("act", ["end", "password", "remove"])
def test_signing_out_a_new_password_and_going_away_end_sessions(people, act):
    """Of that person only; somebody of the same name later does not get them back."""
    token, _ = people.start("Bo Li", NOW)
    other, _ = people.start("Ana", NOW)
    if act == "end":
        people.end(token)
    elif act == "password":
        people.set_password("bo li", WRONG)
        assert people.check("Bo Li", WRONG, HERE, NOW)
        assert not people.check("Bo Li", PASSWORD, HERE, NOW)
    else:
        people.remove("Bo Li")
        people.add("Bo Li", "keeper", WRONG, NOW)
    assert people.person_of(token, NOW) is None
    assert people.person_of(other, NOW).name == "Ana"


def test_a_new_password_lets_a_person_in_who_was_kept_out(people):
    """A keeper can help at once, without waiting for the minutes to pass."""
    failed(people, 5)
    people.set_password("Ana", WRONG)
    assert people.check("Ana", WRONG, HERE, NOW)


def test_another_role_counts_in_a_session_that_is_open(people):
    """Nobody has to sign in again for it."""
    token, _ = people.start("Bo Li", NOW)
    people.set_role("Bo Li", "checker")
    assert people.person_of(token, NOW).role == "checker"


@pytest.mark.parametrize("act", [lambda p: p.remove("Ana"), lambda p: p.set_role("Ana", "producer")])
def test_the_last_keeper_stays(people, act):
    """Somebody can always look after people; with a second keeper the first may go."""
    with pytest.raises(StepError, match="Ana is the only keeper; make somebody else a keeper first"):
        act(people)
    people.set_role("Ana", "keeper")
    people.set_role("Bo Li", "keeper")
    act(people)
    assert [p.name for p in people.all() if p.role == "keeper"] == ["Bo Li"]


@pytest.mark.parametrize(
    "act",
    [
        lambda p: p.set_role("Nobody", "writer"),
        lambda p: p.set_password("Nobody", PASSWORD),
        lambda p: p.remove("Nobody"),
        lambda p: p.start("Nobody", NOW),
    ],
)
def test_nobody_can_be_changed_who_is_not_here(people, act):
    """The fault says where the names are listed."""
    with pytest.raises(RangeError, match="trug people list"):
        act(people)


def test_a_name_is_given_once_whatever_the_capitals(people):
    """Two people whose names look alike would sign each other's work."""
    with pytest.raises(StepError, match="Ana is here already"):
        people.add("ANA", "writer", PASSWORD, NOW)


def test_a_desk_without_sign_in_has_one_session_that_lasts(people, store):
    """A page left open over the weekend can be saved; whoever is there is a keeper."""
    first = people.alone(" Cy ", NOW)
    assert (first.name, first.role, first.signed_in) == ("Cy", "keeper", False)
    assert People(store, CHEAP).alone("Cy", later(days=30)) == first
    assert len(first.csrf) >= 43
    with pytest.raises(RangeError, match="name"):
        people.alone("", NOW)


def test_a_database_that_cannot_be_used_is_told_as_a_fault_of_the_store(people, store):
    """Not as a fault of the library's."""
    store.db.execute("drop table attempts")
    with pytest.raises(StoreError, match="unharmed"):
        people.check("Ana", PASSWORD, HERE, NOW)


def test_the_commands_add_list_change_and_remove(tmp_path, monkeypatch, capsys):
    """From the first keeper to the last line; passwords come from standard input or are asked for."""
    path = tmp_path / "trug.db"
    monkeypatch.setattr("answers.desk.passwords.Passwords.__init__", lambda self, _: setattr(self, "hasher", CHEAP))
    monkeypatch.setattr("sys.stdin.readline", lambda: PASSWORD + "\r\n", raising=False)
    monkeypatch.setattr(typer, "prompt", lambda words, **how: WRONG if all(how.values()) else "")
    command.add("Bo", "writer", True, path)
    assert "Nobody is keeper yet" in capsys.readouterr().out
    command.add("Ana", "keeper", False, path)
    command.role("Bo", "checker", path)
    command.password("Ana", True, path)
    command.remove("Bo", path)
    capsys.readouterr()
    command.show(path, False)
    assert capsys.readouterr().out.split()[::2] == ["keeper", "Ana"]
    command.show(path, True)
    assert '"role": "keeper"' in capsys.readouterr().out
    command.roles()
    assert "checker    read, draft, clear\n" in capsys.readouterr().out
    with Store(path) as store:
        assert People(store, CHEAP).check("Ana", PASSWORD, HERE, NOW)
