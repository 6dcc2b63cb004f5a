"""`trug kb ...`: the rule base's own commands.

Not here: the checks (kb/check.py).
"""

from __future__ import annotations

import typer


def check() -> None:
    """Print every fault, or how much there is and that it is sound."""
    from collections import Counter

    from answers.calculators.catalogue import catalogue
    from kb.check import check as faults_in
    from kb.load import load

    knowledge = load()
    calculators = {name: {a.name for a in entry.inputs} for name, entry in catalogue().items()}
    faults = faults_in(knowledge, calculators)
    for fault in faults:
        typer.echo(fault)
    if faults:
        raise typer.Exit(1)
    seen = Counter(s.seen for s in knowledge.sources.values())
    typer.echo(
        f"{len(knowledge.rules)} rules, {len(knowledge.plants)} plants, {len(knowledge.problems)} problems, "
        f"{len(knowledge.places)} places, {len(knowledge.sources)} sources ({seen['read']} read). No faults."
    )
