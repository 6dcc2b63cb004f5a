"""`trug kb ...` as a colleague runs it: show, find, coverage, new."""

from __future__ import annotations

import re
import shutil
import xml.etree.ElementTree as ET
from importlib.resources import files
from pathlib import Path

import pytest
from typer.testing import CliRunner

from answers.cli import app
from answers.cli.entry_page import page
from kb.errors import TrugError
from kb.load import load


def run(*arguments: str) -> tuple[int, str]:
    """Exit code and output of `trug kb ...`."""
    done = CliRunner().invoke(app, ["kb", *arguments])
    if isinstance(done.exception, TrugError):
        raise done.exception
    return done.exit_code, done.output


@pytest.mark.parametrize("table", ["rules", "problems", "plants", "places", "sources"])
def test_every_entry_can_be_shown(table: str) -> None:
    """No entry of the rule base fails to print, and each page says where it is written."""
    k = load()
    for entry in getattr(k, table).values():
        assert entry.where in page(entry, k)


def test_a_rule_page_numbers_its_sources() -> None:
    """Every number in brackets in the text is explained at the foot, and the advice stands in full."""
    code, text = run("show", "black-spot-of-rose")
    assert code == 0
    body, foot = text.split("\nSources\n")
    for number in set(re.findall(r"\[(\d+)\]", body)):
        assert f"[{number}]" in foot
    assert "What not to do" in body


def test_an_unknown_id_names_its_neighbours() -> None:
    """A slip of the pen is answered with what was probably meant."""
    with pytest.raises(TrugError, match="black-spot"):
        run("show", "black-spots")


def test_find_prints_ids() -> None:
    """What is found can be shown by its id."""
    code, text = run("find", "lilac")
    assert code == 0
    assert "lilac" in text
    assert run("find", "qqzzx")[0] == 1


def test_coverage_is_printed_and_drawn(tmp_path: Path) -> None:
    """The gaps are named; the picture is an SVG with a row for every plant."""
    code, text = run("coverage", "--picture", str(tmp_path / "c.svg"))
    assert code == 0
    assert "Problems that no rule answers: 0" in text
    drawn = ET.parse(tmp_path / "c.svg").getroot()
    labels = {t.text for t in drawn.iter("{http://www.w3.org/2000/svg}text")}
    assert {p.common for p in load().plants.values()} <= labels


def test_new_starts_an_entry_and_says_where(tmp_path: Path) -> None:
    """The file named in the answer holds the entry's id."""
    shutil.copytree(str(files("kb")), tmp_path / "kb")
    code, text = run("new", "problem", "odd-spots", "--family", "woody", "--folder", str(tmp_path / "kb"))
    assert code == 0
    assert "woody.yaml" in text.replace("\n", "")
    assert "- id: odd-spots" in (tmp_path / "kb" / "problems" / "woody.yaml").read_text()


@pytest.mark.parametrize(("sort", "folder"), [("weather", ""), ("rule", "nowhere")])
def test_new_refuses_what_it_cannot_start(tmp_path: Path, sort: str, folder: str) -> None:
    """An unknown sort of entry and a folder that is no rule base are refused."""
    with pytest.raises(TrugError):
        run("new", sort, "x", "--family", "woody", *(("--folder", str(tmp_path / folder)) if folder else ()))
