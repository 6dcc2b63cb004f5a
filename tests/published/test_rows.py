"""Every row of the published examples beside this file comes out of its calculator, and each calculator has two."""

from pathlib import Path

import pytest
import yaml

from answers.calculators.catalogue import run

FOLDER = Path(__file__).parent
ROWS = [
    (path.stem, number, row)
    for path in sorted(FOLDER.glob("*.yaml"))
    if path.name != "worked_examples.yaml"
    for number, row in enumerate(yaml.safe_load(path.read_text("utf-8")) or [], start=1)
]
FIELDS = {"calculator", "inputs", "expect", "tolerance_abs", "tolerance_rel", "source", "seen", "note"}
SEEN = {"read", "reference file", "hand-derived", "from memory"}


@pytest.mark.parametrize(("file", "number", "row"), ROWS, ids=[f"{f}-{n}-{r['calculator']}" for f, n, r in ROWS])
def test_a_published_row_comes_out(file, number, row):
    """The figure equals the printed one within the rounding of its source."""
    assert set(row) <= FIELDS
    assert row["seen"] in SEEN
    assert row["source"]
    figure = run(row["calculator"], row["inputs"])
    for part, expected in row["expect"].items():
        got = figure.value if part == "value" else figure.also[part]
        if isinstance(expected, str):
            assert got == expected, row["source"]
        else:
            tolerance = row.get("tolerance_abs", 0.0) + abs(expected) * row.get("tolerance_rel", 1e-9) + 1e-9
            assert got == pytest.approx(expected, abs=tolerance), row["source"]
