"""`trug kb ...`: the rule base's own commands.

Not here: the checks (kb/check.py), the search (kb/find.py), the counting (kb/coverage.py).
"""

from __future__ import annotations

from collections import Counter
from datetime import date
from pathlib import Path

import typer

from kb.errors import TrugError
from kb.load import Knowledge, load


def check() -> None:
    """Print every fault, or how much there is and that it is sound."""
    from answers.calculators.catalogue import catalogue
    from kb.check import check as faults_in

    knowledge = load()
    calculators = {name: {a.name for a in entry.inputs} for name, entry in catalogue().items()}
    faults = faults_in(knowledge, calculators)
    for fault in faults:
        typer.echo(fault)
    if faults:
        raise typer.Exit(1)
    k = knowledge
    typer.echo(
        f"{len(k.rules)} rules, {len(k.plants)} plants, {len(k.problems)} problems, {len(k.places)} places, "
        f"{len(k.sources)} sources. No faults."
    )
    kinds = Counter(s.seen for s in k.sources.values())
    typer.echo("Sources: " + ", ".join(f"{n} {seen}" for seen, n in kinds.most_common()))
    statements = Counter(_how_seen(k, s.source) for r in k.rules.values() for s in (r.what, *r.do, *r.avoid))
    typer.echo("Statements: " + ", ".join(f"{n} {seen}" for seen, n in statements.most_common()))


def _how_seen(k: Knowledge, sources: str | tuple[str, ...]) -> str:
    """The best footing of a statement: read, common practice, or from memory."""
    names = (sources,) if isinstance(sources, str) else sources
    order = ("read", "common practice", "from memory")
    return min((k.sources[name].seen for name in names), key=order.index)


def coverage(picture: Path | None) -> None:
    """Print what is covered and the gaps; draw it as SVG when asked."""
    from answers.cli.coverage import as_svg, as_text
    from kb.coverage import coverage as covered

    knowledge = load()
    found = covered(knowledge)
    for line in as_text(found, knowledge):
        typer.echo(line)
    if picture:
        picture.write_text(as_svg(found, knowledge), "utf-8")
        typer.echo(f"Drawn in {picture}")


def show(entry_id: str) -> None:
    """Print one entry; an id that several tables hold shows each."""
    from answers.cli.entry_page import page
    from kb.find import find as search

    k = load()
    found = [t[entry_id] for t in (k.rules, k.problems, k.plants, k.places, k.sources) if entry_id in t]
    if not found:
        near = ", ".join(f.id for f in search(entry_id.replace("-", " "), k, 5))
        raise TrugError(f"id: no entry is called {entry_id!r}" + (f"; near it are {near}" if near else ""))
    typer.echo("\n\n".join(page(entry, k) for entry in found))


def find(words: list[str]) -> None:
    """Print the entries that hold the words, best first."""
    from kb.find import find as search

    found = search(" ".join(words), load())
    if not found:
        typer.echo("Nothing found.")
        raise typer.Exit(1)
    for entry in found:
        typer.echo(f"{entry.table:8} {entry.id:32} {entry.title}")
        typer.echo(f"         {' '.join(entry.snippet.split())}")


def new(sort: str, entry_id: str, family: str, folder: Path | None) -> None:
    """Start an entry in the rule base's own files and say where."""
    from kb.errors import RangeError
    from kb.new_entry import SORTS, start

    if sort not in SORTS:
        raise RangeError("sort", sort, " | ".join(SORTS))
    where = folder or Path(__file__).parents[2] / "kb"
    if not (where / SORTS[sort]).is_dir():
        raise TrugError(f"folder: {where} holds no {SORTS[sort]}; give the kb folder of a checkout with --folder")
    path = start(sort, entry_id, family, where, load(), date.today())
    typer.echo(f"Started {entry_id} at the end of {path}. Fill it in; `trug kb check` says what is missing.")
