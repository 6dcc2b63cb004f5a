"""The commands as a person or a script runs them."""

import json
import os
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from kb.load import load

DEMO = Path(__file__).parents[3] / "demo_questions"


def trug(*arguments, cwd, **env):
    return subprocess.run(
        [sys.executable, "-c", "from answers.cli import main; main()", *map(str, arguments)],
        capture_output=True,
        text=True,
        cwd=cwd,
        env={**os.environ, **env},
        check=False,
    )


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    """A store with the demonstration letters drafted."""
    folder = tmp_path_factory.mktemp("desk")
    assert trug("intake", DEMO / "letters.mbox", cwd=folder).returncode == 0
    assert trug("draft", "--today", "2026-04-20", cwd=folder).returncode == 0
    return folder


def first_id(desk):
    return json.loads(trug("sort", "--json", cwd=desk).stdout.splitlines()[-1])["id"]


def test_intake_twice_adds_nothing_twice(desk):
    """The second run finds every letter already here."""
    again = trug("intake", DEMO / "letters.mbox", cwd=desk)
    assert again.stdout.startswith("0 new letters")


def test_sort_puts_emergencies_first(desk):
    """The first line is what cannot wait."""
    lines = [json.loads(x) for x in trug("sort", "--json", cwd=desk).stdout.splitlines()]
    assert lines[0]["urgency"] == "emergency"


def test_every_line_of_the_list_says_what_about(desk):
    """An emergency names whom to call, a letter in another language that language, one that is unsure what leads."""
    lines = trug("sort", cwd=desk).stdout.splitlines()
    told = [json.loads(x) for x in trug("sort", "--json", cwd=desk).stdout.splitlines()]
    assert any("the poison centre" in line for line in lines if line.startswith("emergency"))
    told = [(line, one) for line, one in zip(lines, told, strict=True) if one["urgency"] != "emergency"]
    unsure = [(line, one) for line, one in told if one["problem"] and not one["decided"]]
    names = load().problems
    assert unsure
    assert all(names[one["problem"]].name[:32] in line or "in Spanish" in line for line, one in unsure)


def test_edit_clear_and_export(desk):
    """An edited draft is kept, is not overwritten by drafting again, and is exported once cleared."""
    id_ = first_id(desk)
    editor = f"{sys.executable} -c \"import sys; open(sys.argv[1], 'a').write('PS by hand')\""
    assert trug("edit", id_, cwd=desk, EDITOR=editor, VISUAL="").returncode == 0
    trug("draft", "--today", "2026-04-20", cwd=desk)
    assert "PS by hand" in trug("show", id_, cwd=desk).stdout
    assert trug("export", cwd=desk).stdout == ""
    assert trug("clear", id_, "--by", "Ann", cwd=desk).returncode == 0
    exported = json.loads(trug("export", cwd=desk).stdout)
    assert exported["cleared_by"] == "Ann"
    assert "PS by hand" in exported["email"]


def test_an_editor_that_fails_changes_nothing(desk):
    """A failing editor leaves the draft as it was, and says so."""
    id_ = first_id(desk)
    before = trug("show", id_, cwd=desk).stdout
    assert trug("edit", id_, cwd=desk, EDITOR="false", VISUAL="").returncode == 2
    assert trug("show", id_, cwd=desk).stdout == before


def test_answer_prints_json_lines_without_a_store(tmp_path):
    """One object a line, and no file left behind."""
    run = trug("answer", DEMO / "letters.mbox", "--today", "2026-04-20", cwd=tmp_path)
    lines = [json.loads(x) for x in run.stdout.splitlines()]
    assert len(lines) >= 25
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (("answer", "none.mbox"), "none.mbox: no such file"),
        (("answer", "."), "is a folder; give the files in it"),
        (("answer", "empty.mbox"), "the file is empty"),
        (("answer", "x.docx"), "unknown kind of file"),
        (("answer", "bad.jsonl"), "bad.jsonl:1: not JSON"),
        (("answer", "ok.jsonl", "--today", "soon"), "--today"),
        (("answer", "ok.jsonl", "--place", "atlantis"), "'atlantis' is not a place"),
        (("calc", "no_such"), "is not one; known:"),
        (("calc", "nutrient_product", "area_sqft=5 furlongs"), "area_sqft"),
        (("calc", "bulk_volume", "area_sqft=100", "depth_in=900"), "depth_in: 900 in is not allowed"),
        (("show", "nobody#1"), "no draft of that id"),
        (("station", "none.csv"), "none.csv"),
        (("station", "ok.jsonl"), "ok.jsonl"),
    ],
)
def test_bad_input_gives_one_clear_line(tmp_path, arguments, message):
    """A non-zero exit and one line that names what is wrong; no traceback."""
    (tmp_path / "empty.mbox").touch()
    (tmp_path / "x.docx").write_text("x")
    (tmp_path / "bad.jsonl").write_text("{")
    (tmp_path / "ok.jsonl").write_text('{"body": "hello"}\n')
    run = trug(*arguments, cwd=tmp_path)
    assert run.returncode in (2, 3)
    assert message in run.stderr
    assert len(run.stderr.strip().splitlines()) == 1


def test_a_file_that_is_no_store_is_left_alone(tmp_path):
    """Somebody else's file is refused and not touched."""
    other = tmp_path / "letter.txt"
    other.write_text("not a database at all")
    run = trug("sort", "--store", other, cwd=tmp_path)
    assert run.returncode == 3
    assert other.read_text() == "not a database at all"


def test_a_locked_store_is_reported_and_unharmed(desk):
    """Another writer holds it: reading goes on, writing gives one line, and what it held is still there."""
    held = sqlite3.connect(desk / "trug.db", isolation_level=None)
    held.execute("begin exclusive")
    assert trug("sort", cwd=desk).returncode == 0
    run = trug("set", "minutes=26", cwd=desk)
    held.execute("rollback")
    held.close()
    assert run.returncode == 3
    assert "locked" in run.stderr
    assert trug("sort", cwd=desk).stdout


def test_calc_lists_explains_runs_and_shows_its_steps(tmp_path):
    """The list, one calculator's units, and a figure with its working."""
    assert "nutrient_product" in trug("calc", cwd=tmp_path).stdout
    assert "Run it with:" in trug("calc", "bulk_volume", cwd=tmp_path).stdout
    run = trug("calc", "bulk_volume", "area_sqft=10x20 ft", "depth_in=3", "--steps", cwd=tmp_path)
    assert "1.85 cu yd" in run.stdout
    assert "source:" in run.stdout
    figure = json.loads(trug("calc", "bulk_volume", "area_sqft=200", "depth_in=3", "--json", cwd=tmp_path).stdout)
    assert figure["also"]["cubic_feet"] == 50


def test_kb_check_passes_on_what_ships(tmp_path):
    """Exit code 0 and a count."""
    run = trug("kb", "check", cwd=tmp_path)
    assert run.returncode == 0
    assert "No faults" in run.stdout


def test_demo_shows_what_is_urgent_and_drafts(tmp_path):
    """The page a newcomer sees first."""
    run = trug("demo", cwd=tmp_path)
    assert run.returncode == 0, run.stderr
    assert "Call now" in run.stdout
    assert "Dear " in run.stdout
