"""Finding entries by their words, counting what is covered, starting a new entry."""

from __future__ import annotations

import shutil
from datetime import date
from importlib.resources import files
from pathlib import Path

import pytest

from kb.coverage import coverage
from kb.errors import EntryError, RangeError
from kb.find import find
from kb.load import Knowledge, load
from kb.new_entry import start

TODAY = date(2026, 11, 25)


@pytest.fixture(scope="module")
def k() -> Knowledge:
    """The shipped rule base."""
    return load()


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("lilac pruning", "pruning-spring-bloomers"),
        ("pruned lilacs", "pruning-spring-bloomers"),  # stems, not letters
        ("blackspot", "black-spot"),
        ('quote " and * star', ""),
        ("Syringa", "lilac"),
    ],
)
def test_find(k: Knowledge, words: str, expected: str) -> None:
    """Words in any form find their entry; SQLite's own signs do no harm."""
    found = [f.id for f in find(words, k)]
    assert not expected or expected in found


def test_nothing_to_find(k: Knowledge) -> None:
    """Blank or unknown words find nothing."""
    assert find("", k) == []
    assert find("qqzzx", k) == []


def test_coverage_counts(k: Knowledge) -> None:
    """Hand-counted: roses have black spot, in the problem's own months, and every plant and gap is named once."""
    found = coverage(k)
    rose = next(row for row in found.plants if row.plant.id == "rose")
    assert "black-spot" in rose.months
    assert len(found.plants) == len(k.plants)
    lettuce = next(row for row in found.plants if row.plant.id == "lettuce")
    assert "black-spot" not in lettuce.months
    for row in found.plants:
        for month in range(1, 13):
            assert row.in_month(month) == [p for p, months in row.months.items() if month in months]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the rule base."""
    shutil.copytree(str(files("kb")), tmp_path / "kb")
    return tmp_path / "kb"


@pytest.mark.parametrize("sort", ["rule", "plant", "problem"])
@pytest.mark.parametrize("family", ["woody", "quite-new"])
def test_a_new_entry_asks_to_be_filled(k: Knowledge, folder: Path, sort: str, family: str) -> None:
    """The skeleton is good YAML at the end of the file, and loading it names the fields still blank."""
    path = start(sort, "brand-new-thing", family, folder, k, TODAY)
    assert path.read_text().rstrip().splitlines()[-1].startswith("  ")
    with pytest.raises(EntryError) as refused:
        load(folder)
    assert all(f"{path.parent.name}/{family}.yaml" in line for line in refused.value.problems)


@pytest.mark.parametrize(
    ("entry_id", "family", "fault"),
    [("Bad Id", "woody", RangeError), ("good", "../etc", RangeError), ("lilac", "woody", EntryError)],
)
def test_a_bad_start_is_refused(k: Knowledge, folder: Path, entry_id: str, family: str, fault: type[Exception]) -> None:
    """Ids that are not ids, families that are paths, and ids in use are refused, and nothing is written."""
    before = {p: p.read_bytes() for p in folder.rglob("*.yaml")}
    with pytest.raises(fault):
        start("plant", entry_id, family, folder, k, TODAY)
    assert {p: p.read_bytes() for p in folder.rglob("*.yaml")} == before
