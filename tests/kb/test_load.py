"""Loading a rule base: shape faults are all reported, with file, line and field."""

from pathlib import Path

import pytest

from kb.errors import EntryError
from kb.load import load

GOOD = "- id: oak\n  common: oak\n  group: tree\n  aliases: [oaks]\n"


def folder(tmp_path: Path, **files: str) -> Path:
    for name, text in files.items():
        (tmp_path / f"{name}.yaml").write_text(text, "utf-8")
    return tmp_path


def test_a_good_entry_is_loaded_with_its_place(tmp_path):
    """An entry knows the file and line it came from."""
    k = load(folder(tmp_path, plants=GOOD, groups="tree: null\n"))
    assert k.plants["oak"].aliases == ("oaks",)
    assert k.plants["oak"].where == "plants.yaml:1"


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("- id: oak\n  common: oak\n", "plants.yaml:1 group: missing"),
        (GOOD + "  colour: green\n", "plants.yaml:5 colour: unknown field"),
        ("- id: oak\n  common: 7\n  group: tree\n", "plants.yaml:2 common: expected text, got 7"),
        ("- id: oak\n  common: oak\n  group: tree\n  aliases: oaks\n", "plants.yaml:4 aliases: expected a list"),
        (GOOD + GOOD, "plants.yaml:5 id: 'oak' is already used at plants.yaml:1"),
        ("oak: {}\n", "plants.yaml:1 file: expected a list"),
    ],
)
def test_a_fault_names_file_line_and_field(tmp_path, text, fault):
    """Whoever edits the rule base is told exactly where to look."""
    with pytest.raises(EntryError) as error:
        load(folder(tmp_path, plants=text))
    assert fault in str(error.value)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("- id: a1\n  amounts: {count: 3}\n", "amount_letters.yaml:1 letter: missing"),
        (
            "- id: a1\n  letter: x\n  amounts: {count: three}\n",
            "amount_letters.yaml:3 amounts.count: expected a number",
        ),
        ("- id: a1\n  letter: x\n  count: 3\n", "amount_letters.yaml:3 count: unknown field"),
    ],
)
def test_a_faulty_amount_letter_is_named_too(tmp_path, text, fault):
    """What teaches the reading is checked like every other entry."""
    with pytest.raises(EntryError) as error:
        load(folder(tmp_path, amount_letters=text))
    assert fault in str(error.value)


def test_every_fault_is_reported_in_one_run(tmp_path):
    """Two broken files give two lines, not one and then another."""
    with pytest.raises(EntryError) as error:
        load(folder(tmp_path, plants="- id: oak\n", problems="- id: rust\n"))
    assert {p.split(":")[0] for p in error.value.problems} == {"plants.yaml", "problems.yaml"}


def test_the_fingerprint_changes_with_any_file(tmp_path):
    """A changed word anywhere makes a kept text model stale."""
    first = load(folder(tmp_path, plants=GOOD)).fingerprint
    assert load(folder(tmp_path, plants=GOOD.replace("oaks", "oakes"))).fingerprint != first
