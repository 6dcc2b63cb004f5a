"""The rules every file keeps: short modules, no knowledge in code, nothing heavy at start-up."""

import re
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import pytest

MODULES = sorted(p for package in ("kb", "answers") for p in Path(str(files(package))).rglob("*.py"))


@pytest.mark.parametrize("path", MODULES, ids=lambda p: f"{p.parent.name}/{p.name}")
def test_a_module_is_short_and_says_what_is_inside(path):
    """At most 300 lines, a docstring first, and no catch-all names."""
    text = path.read_text("utf-8")
    assert len(text.splitlines()) <= 300
    assert text.startswith('"""')
    assert path.stem not in ("utils", "helpers", "common", "core", "misc")


def test_no_plant_or_problem_is_named_in_code():
    """Knowledge is data: no id of a plant, problem or rule stands as a string in a module."""
    from kb.load import load

    k = load()
    ids = {i for i in (*k.plants, *k.problems, *k.rules) if len(i) > 3} - set(k.groups)
    for path in MODULES:
        strings = set(re.findall(r"[\"']([a-z][a-z-]+)[\"']", path.read_text("utf-8")))
        assert not strings & ids, path


def test_help_loads_nothing_heavy(tmp_path):
    """`trug --help` must not pay for the libraries that reading a letter needs."""
    code = (
        "import sys; from answers.cli import app\n"
        "heavy = {'sklearn', 'numpy', 'scipy', 'sqlite_utils', 'jinja2', 'yaml', 'bs4', 'PIL'} & set(sys.modules)\n"
        "sys.exit(', '.join(sorted(heavy)) or 0)"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False, cwd=tmp_path)
    assert run.returncode == 0, run.stderr
