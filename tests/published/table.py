"""The table of calculators in DEVELOPERS.md, made from their docstrings and the published rows.

Run `python tests/published/table.py` after changing a calculator; a test fails while the table is out of date.
"""

from __future__ import annotations

import re
from collections import defaultdict
from pathlib import Path

import yaml

from answers.calculators.catalogue import catalogue

FOLDER = Path(__file__).parent
GUIDE = FOLDER.parents[1] / "DEVELOPERS.md"
START, END = "<!-- calculators: made by tests/published/table.py -->", "<!-- end of calculators -->"


def part(text: str, name: str, following: str) -> str:
    """One section of a docstring, on one line."""
    found = re.search(rf"^{name}:(.*?)(?=^(?:{following}):|\Z)", text, re.S | re.M)
    return " ".join(found[1].split()).replace("|", "/") if found else ""


def checks() -> dict[str, set[str]]:
    """Calculator -> the sources of its published rows."""
    found: dict[str, set[str]] = defaultdict(set)
    given = {r["id"]: r for r in yaml.safe_load((FOLDER / "worked_examples.yaml").read_text("utf-8"))["entries"]}
    mapped = re.findall(r'"([a-z0-9-]+)",\s*"[a-z0-9_]+",\s*"([a-z_]+)"', (FOLDER / "test_published.py").read_text())
    for row, calculator in mapped:
        if row in given:
            found[calculator].add(given[row]["source"]["title"])
    for path in FOLDER.glob("*.yaml"):
        if path.name != "worked_examples.yaml":
            for row in yaml.safe_load(path.read_text("utf-8")):
                found[row["calculator"]].add(row["source"])
    return found


def table() -> str:
    """The table, between its two markers."""
    sources = checks()
    lines = [
        START,
        "",
        "| calculator | formula | source | valid range | published checks |",
        "| --- | --- | --- | --- | --- |",
    ]
    for name, entry in catalogue().items():
        ranges = part(entry.help, "Args", "Returns|Raises|Formula|Source").rstrip(".")
        formula = part(entry.help, "Formula", "Source|Raises|Returns")
        source = part(entry.help, "Source", "Formula|Raises|Returns")
        lines.append(f"| {entry.family}: `{name}` | {formula} | {source} | {ranges} | {len(sources[name])} |")
    return "\n".join([*lines, "", END])


def main() -> None:
    """Put the table into the contributor guide."""
    text = GUIDE.read_text("utf-8")
    before, _, rest = text.partition(START)
    after = rest.partition(END)[2]
    GUIDE.write_text(before.rstrip() + "\n\n" + table() + (after or "\n"), "utf-8")


if __name__ == "__main__":
    main()
