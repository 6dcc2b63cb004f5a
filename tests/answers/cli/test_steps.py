"""The command line takes every step that the desk's page takes: season, sheaf, proof, claim, undo, programme."""

import io
import json
import re
import sys
from contextlib import redirect_stderr, redirect_stdout
from types import SimpleNamespace

import pytest

from answers.cli import main

ANN = "ann-1#1"
SHEAF = "rule:lime-for-acid-soil"


@pytest.fixture
def trug(lime_store, tmp_path, monkeypatch):
    """`trug(words...)` runs the command on the store of five letters about lime, as Ida, and gives what it printed."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("TRUG_STORE", str(lime_store.path))

    def run(*words, given="", by="Ida"):
        monkeypatch.setenv("TRUG_BY", by)
        monkeypatch.setattr(sys, "argv", ["trug", *words])
        monkeypatch.setattr(sys, "stdin", io.StringIO(given))
        out, err, code = io.StringIO(), io.StringIO(), 0
        with redirect_stdout(out), redirect_stderr(err):
            try:
                main()
            except SystemExit as ended:
                code = int(ended.code or 0)
        return SimpleNamespace(returncode=code, stdout=out.getvalue(), stderr=err.getvalue())

    return run


def test_the_season_and_a_sheaf_from_its_text_to_cleared(trug, lime_store):
    """Listed, shown, given another text, cleared; and taken back."""
    listed = [json.loads(line) for line in trug("sheaves", "--today", "2026-05-20", "--json").stdout.splitlines()]
    assert [(row["key"], row["waiting"]) for row in listed] == [(SHEAF, 5)]
    shown = trug("sheaf", SHEAF, "--today", "2026-05-20").stdout
    assert "Dear [name]," in shown
    assert shown.count("goes with it") == 5
    text = shown.split("\nann-1#1")[0].replace("With good wishes", "With all good wishes")
    cleared = trug("sheaf", SHEAF, "--text", "-", "--do", "clear", "--today", "2026-05-20", given=text)
    assert "5 letters cleared" in cleared.stdout, cleared.stderr
    assert {(r["state"], r["cleared_by"]) for r in lime_store.rows()} == {("cleared", "Ida")}
    assert "(5 letters)" in trug("undo").stdout
    assert {r["state"] for r in lime_store.rows()} == {"drafted"}


def test_a_changed_dose_is_shown_accepted_and_cleared(trug, lime_store, tmp_path):
    """`clear` refuses until each mark stands for a reason."""
    assert "No open mark" in trug("proof", ANN, "--today", "2026-05-20").stdout
    email = lime_store.one(ANN)["email"].replace("about 205 pounds", "about 999 pounds")
    (tmp_path / "new.txt").write_text(email)
    assert trug("edit", ANN, "--text", "new.txt").returncode == 0
    proof = trug("proof", ANN, "--today", "2026-05-20")
    assert proof.returncode == 1
    assert "changed dose" in proof.stdout
    assert trug("clear", ANN, "--by", "Ida", "--today", "2026-05-20").returncode == 2
    assert trug("accept", ANN, "email", "no such mark", "--reason", "because").returncode == 2
    for part, mark in re.findall(r"to let it stand: (\w+) '(.*)'", proof.stdout):
        assert trug("accept", ANN, part, mark, "--reason", "the laboratory said so").returncode == 0
    assert trug("clear", ANN, "--by", "Ida", "--today", "2026-05-20").returncode == 0
    assert lime_store.one(ANN)["state"] == "cleared"
    assert trug("undo").returncode == 0
    assert trug("again", ANN).returncode == 0
    assert "205 pounds" in lime_store.one(ANN)["email"]


def test_a_claim_holds_others_off(trug):
    """Joel cannot set aside what Ida is at work on, until he takes it over."""
    assert trug("claim", ANN).returncode == 0
    assert "Ida is at work" in trug("move", ANN, "not for us", by="Joel").stderr
    assert "Ida is at work" in trug("claim", ANN, by="Joel").stderr
    assert trug("claim", ANN, "--take-over", by="Joel").returncode == 0
    assert trug("claim", ANN, "--release", by="Joel").returncode == 0
    assert trug("move", ANN, "held over", "--until", "2026-09-01", "--note", "dry soil").returncode == 0
    assert trug("move", ANN, "held over", "--until", "later").returncode == 2
    assert "Ida held over" in trug("history", ANN).stdout
    assert json.loads(trug("history", ANN, "--json").stdout)["did"] == "held over"


def test_numbers_told_work_the_figure_again(trug, lime_store):
    """Twice the lawn; a number that no calculator takes, or that no figure asks for, is refused."""
    assert "4,800 square feet" in trug("tell", ANN, "area_sqft=4800", "--today", "2026-05-20").stdout
    assert "4,800 square feet" in lime_store.one(ANN)["email"]
    assert trug("tell", ANN, "soil_ph=17").returncode == 2
    assert "area_sqft" in trug("tell", ANN, "shoe_size=9").stderr
    assert "2,400 square feet" in trug("tell", ANN, "area_sqft=", "--today", "2026-05-20").stdout


def test_the_programme_and_the_settings(trug):
    """A cleared card on the rundown, timed; the place and minutes are checked."""
    assert trug("rundown", "2026-05-23", "--put-on", ANN).returncode == 2
    assert trug("clear", ANN, "--by", "Ida", "--today", "2026-05-20").returncode == 0
    assert ANN in trug("rundown", "2026-05-23", "--put-on", ANN).stdout
    assert "0:00 in all" in trug("rundown", "2026-05-23", "--off", ANN).stdout
    assert "minutes: 26" in trug("set", "minutes=26", "programme=The Potting Bench").stdout
    assert "1 to 240" in trug("set", "minutes=0").stderr
    assert "larkspur-county" in trug("set", "place=atlantis").stderr


def test_an_older_draft_is_read_once_more_before_it_is_cleared(trug, lime_store):
    """On another day the dates are others, so what is cleared is not what was read."""
    assert "read it once more" in trug("clear", ANN, "--by", "Ida", "--today", "2026-09-10").stderr
    assert trug("clear", ANN, "--by", "Ida", "--today", "2026-09-10").returncode == 0
    assert "open now" in lime_store.one(ANN)["email"]


def test_finding_a_letter(trug):
    """By its words, with signs that SQL reads taken as themselves."""
    assert trug("find", "quarter acre").stdout.startswith("cleo-3#1")
    assert trug("find", "100%").stdout == ""
    assert trug("find", "first_name").stdout == ""
    assert trug("find", "--state", "drafted").stdout.count("drafted") == 5


def test_people_sign_in_only_when_added(trug):
    """A desk elsewhere than on this computer does not start while nobody could sign in."""
    assert "nobody could sign in" in trug("desk", "--host", "0.0.0.0").stderr
    assert "nobody could sign in" in trug("desk", "--name", "desk.example").stderr  # behind a proxy on this computer
    added = trug("people", "add", "Kit", "--role", "keeper", "--password-stdin", given="nine green beans 9\n")
    assert added.returncode == 0, added.stderr
    assert "Kit" in trug("people", "list").stdout
    assert "12 to 128" in trug("people", "add", "Lee", "--role", "writer", "--password-stdin", given="short\n").stderr
    assert trug("people", "role", "Kit", "--role", "writer").returncode == 2
    assert "clear" in trug("people", "roles").stdout
    assert trug("desk", "--port", "80").returncode == 2
