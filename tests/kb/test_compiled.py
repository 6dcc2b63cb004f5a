"""The compiled rule base is the same as the one read from YAML, and is never used when a file has changed."""

from __future__ import annotations

import dataclasses
import json
import sys
from pathlib import Path

import pytest

from kb import compiled
from kb.load import ENTRIES, load


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty cache folder."""
    monkeypatch.setenv("TRUG_CACHE", str(tmp_path / "cache"))
    return tmp_path / "cache"


def test_compiled_equals_read(folder: Path) -> None:
    """Every entry, list and number comes back from the compiled file as it was read."""
    first = load()
    assert (folder / "rule-base.json").exists()
    second = load()
    for field in dataclasses.fields(first):
        assert getattr(second, field.name) == getattr(first, field.name), field.name


def test_used_when_nothing_changed(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With a compiled file in place no YAML is read."""
    load()
    monkeypatch.setattr(sys.modules["kb.load"], "read_yaml", lambda *_: pytest.fail("YAML was read"))
    assert load().rules


@pytest.mark.parametrize("damage", ["", "{", "[]", '{"fingerprint": 1}'])
def test_damaged_or_stale_is_read_again(folder: Path, damage: str) -> None:
    """A torn, foreign or old compiled file is put aside and written again."""
    expected = load().rules
    kept = folder / "rule-base.json"
    kept.write_text(damage)
    assert load().rules == expected
    assert json.loads(kept.read_text())["tables"]


def test_another_fingerprint_is_refused(folder: Path) -> None:
    """What was compiled from other files is never given out."""
    load()
    assert compiled.kept("another", ENTRIES) is None


def test_a_new_field_changes_the_shape() -> None:
    """A program whose entries gained a field does not read the older program's compiled file."""

    @dataclasses.dataclass
    class Entry:
        id: str

    before = compiled.shape_of([Entry])
    Entry.__annotations__["height"] = "float"
    assert compiled.shape_of([Entry]) != before


def test_a_folder_that_cannot_be_written(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A read-only or missing home is no reason to fail."""
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("TRUG_CACHE", str(tmp_path / "file" / "below"))
    assert load().rules
