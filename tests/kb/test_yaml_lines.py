"""YAML 1.2 scalars (https://yaml.org/spec/1.2.2/#103-core-schema) and line numbers."""

import pytest

from kb.yaml_lines import read_yaml


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("no", "no"),
        ("on", "on"),
        ("NO", "NO"),
        ("010", 10),
        ("12:30", "12:30"),
        ("1e3", 1000.0),
        ("true", True),
        ("~", None),
        ("'5'", "5"),
        ("2026-11-25", "2026-11-25"),
        ("05-15", "05-15"),
    ],
)
def test_scalars_follow_the_1_2_core_schema(text, value):
    """Words, octals, times and dates are not turned into something the horticulturist did not write."""
    problems = []
    read = read_yaml(f"a: {text}", "x.yaml", problems)["a"]
    assert (read, type(read)) == (value, type(value))
    assert problems == []


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("a: 1\nb: 2\na: 3\n", "x.yaml:3 a: given twice"),
        ("a: [1,\nb: 2", "x.yaml:3 YAML:"),
        ("a: 'open", "x.yaml:1 YAML:"),
    ],
)
def test_faults_name_file_and_line(text, fault):
    """A repeated key or broken YAML is reported with its place, never swallowed."""
    problems = []
    read_yaml(text, "x.yaml", problems)
    assert len(problems) == 1
    assert fault in problems[0]


def test_mappings_remember_their_lines():
    """Each entry and key knows where it stands."""
    entries = read_yaml("- id: a\n  x: 1\n\n- id: b\n", "x.yaml", [])
    assert [e.line for e in entries] == [1, 4]
    assert entries[0].lines["x"] == 2
