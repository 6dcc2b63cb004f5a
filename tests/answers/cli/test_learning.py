"""Correcting a reading, learning from corrections, and measuring, as a person runs them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from answers.cli import app
from answers.reading.lessons import Lesson, keep_lessons, lessons_file, load_lessons
from kb.compiled import cache_folder
from kb.errors import TrugError

ROOT = Path(__file__).parents[3]


@pytest.fixture(autouse=True)
def folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, engine: object) -> Path:
    """Data and store in an empty folder, and a cache that begins with the models that `engine` was made with."""
    (tmp_path / "cache").mkdir()
    for file in (*cache_folder().glob("*.npz"), *cache_folder().glob("*.json")):
        (tmp_path / "cache" / file.name).symlink_to(file)
    monkeypatch.setenv("TRUG_CACHE", str(tmp_path / "cache"))
    monkeypatch.setenv("TRUG_DATA", str(tmp_path / "data"))
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*arguments: str) -> tuple[int, str]:
    """Exit code and output of `trug ...`."""
    done = CliRunner().invoke(app, list(arguments))
    if done.exception and not isinstance(done.exception, SystemExit):
        raise done.exception
    return done.exit_code, done.output


def _store(folder: Path, texts: list[str]) -> list[str]:
    """A store of these letters, drafted; the ids of their questions."""
    rows = [{"id": f"n{i}", "sent": "2026-05-01", "place": "", "subject": "", "body": t} for i, t in enumerate(texts)]
    (folder / "in.jsonl").write_text("\n".join(map(json.dumps, rows)))
    run("intake", "in.jsonl")
    run("draft", "--today", "2026-05-01")
    return [json.loads(line)["id"] for line in run("sort", "--json")[1].splitlines()]


def test_a_correction_is_drafted_anew_and_learnt(folders: Path) -> None:
    """A phrase that meant nothing to the reading is known after one lesson of it."""
    letters = [
        f"The zorkle on my roses is back, number {n}. What now?" for n in ("one", "two", "three", "four", "five")
    ]
    ids = _store(folders, letters)
    for id_ in ids:
        assert "black spot" in run("correct", id_, "--problem", "black-spot", "--plant", "rose", "--by", "Ann")[1]
    emails = [json.loads(line)["email"] for line in run("export", "--all")[1].splitlines()]
    assert all("black spot" in email.lower() for email in emails)
    code, text = run("learn")
    assert code == 0
    assert "4 corrections learnt from; of 1 kept out" in text
    assert len(load_lessons()) == 4
    answered = run("answer", "in.jsonl")[1].splitlines()
    assert all(json.loads(line)["problem"]["id"] == "black-spot" for line in answered)


def test_lessons_that_make_it_worse_are_refused(folders: Path) -> None:
    """Four wrong corrections do not replace a reading that the kept letters say was better."""
    words = "black spots yellow leaves drop off the rose"
    ids = _store(folders, [f"{words}, {words}, number {n}" for n in range(12)])
    for id_ in ids:
        run("correct", id_, "--problem", "bamboo-control", "--by", "Ann")
    kept = [{"text": f"{words}, {w}", "problem": "black-spot"} for w in "abcdefghijklmnop"]
    Path("kept.jsonl").write_text("\n".join(map(json.dumps, kept)))
    code, text = run("learn", "--kept", "kept.jsonl")
    assert code == 1
    assert "nothing was changed" in text
    assert load_lessons() == ()


@pytest.mark.parametrize(
    ("arguments", "fault"),
    [
        (("--problem", "no-such", "--by", "Ann"), "problem: no-such is not allowed"),
        (("--problem", "black-spot", "--plant", "no-such", "--by", "Ann"), "plant: no-such is not allowed"),
        (("--problem", "black-spot", "--by", " "), "--by"),
    ],
)
def test_a_bad_correction_is_refused(folders: Path, arguments: tuple[str, ...], fault: str) -> None:
    """An unknown problem or plant, or nobody's name, changes nothing."""
    (id_,) = _store(folders, ["My roses have spots"])
    with pytest.raises(TrugError, match=fault):
        run("correct", id_, *arguments)
    assert run("learn")[1].startswith("Nothing to learn")


@pytest.mark.parametrize("damage", ["", "[]", '{"format": 9, "lessons": []}', '{"format": 1, "lessons": [1]}'])
def test_damaged_lessons_are_none(damage: str) -> None:
    """A torn or foreign file of lessons is passed over."""
    keep_lessons([Lesson("a", "black-spot", "rose")])
    assert load_lessons() == (("a", "black-spot", "rose"),)
    lessons_file().write_text(damage)
    assert load_lessons() == ()


def test_lessons_kept_before_plants_were_are_still_read() -> None:
    """The first format held texts and problems alone."""
    keep_lessons([])
    lessons_file().write_text('{"format": 1, "lessons": [["a", "black-spot"]]}')
    assert load_lessons() == (Lesson("a", "black-spot", plant=""),)


def test_measure_prints_and_draws(folders: Path) -> None:
    """Marks beside the baseline's, and a page."""
    lines = (ROOT / "tests/gold/dev.jsonl").read_text("utf-8").splitlines()[:12]
    Path("gold.jsonl").write_text("\n".join(lines), "utf-8")
    code, text = run("measure", "gold.jsonl", "--page", "page.html", "--no-baseline")
    assert code == 0
    assert "problem right" in text
    assert Path("page.html").read_text("utf-8").startswith("<!doctype html>")
