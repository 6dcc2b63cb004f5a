"""The contributor guide's table of calculators is current."""

import importlib.util
from pathlib import Path


def test_the_table_in_the_guide_is_current():
    """Changing a calculator without `python tests/published/table.py` fails here."""
    spec = importlib.util.spec_from_file_location("table", Path(__file__).with_name("table.py"))
    table = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(table)
    assert table.table() in table.GUIDE.read_text("utf-8")


def test_every_calculator_has_two_published_sources():
    """One agreement may be luck."""
    spec = importlib.util.spec_from_file_location("table", Path(__file__).with_name("table.py"))
    table = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(table)
    sources = table.checks()
    assert {name for name in table.catalogue() if len(sources[name]) < 2} == set()
