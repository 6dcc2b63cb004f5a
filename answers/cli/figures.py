"""`trug calc`: list, explain or run the calculators.

Not here: any arithmetic (answers/calculators).
"""

from __future__ import annotations

import json

import typer

from answers.calculators.catalogue import catalogue, run
from answers.calculators.figure import pencil
from kb.errors import TrugError


def calc(name: str, inputs: list[str], steps: bool, as_json: bool) -> None:
    """Without a name: the list. With a name alone: its inputs and units. With inputs: the figure."""
    if not name:
        for entry in catalogue().values():
            typer.echo(f"{entry.family:15} {entry.name:20} {entry.summary}")
        return
    if name in catalogue() and not inputs:
        entry = catalogue()[name]
        typer.echo(entry.help)
        needed = " ".join(f"{a.name}=..." for a in entry.inputs if a.required)
        typer.echo(f"\nRun it with: trug calc {name} {needed}".rstrip())
        return
    figure = run(name, dict(_pair(text) for text in inputs))
    if as_json:
        typer.echo(json.dumps(figure.as_json()))
        return
    value = pencil(figure.value) if isinstance(figure.value, int | float) else figure.value
    typer.echo(f"{figure.label}: {value} {figure.unit}".rstrip())
    for key, more in figure.also.items():
        typer.echo(f"  {key}: {pencil(more) if isinstance(more, int | float) else more}")
    if steps:
        for step in figure.steps:
            typer.echo(f"  {step.words}")
        typer.echo(f"  formula: {figure.formula}\n  source: {figure.source}")
    for caution in figure.cautions:
        typer.echo(f"  Note: {caution}")


def _pair(text: str) -> tuple[str, str]:
    key, equals, value = text.partition("=")
    if not equals or not key or not value:
        raise TrugError(f"{text!r}: give each input as key=value, such as area_sqft=40x60")
    return key.strip(), value.strip()
