"""Where readings, plant traits, place data and stated defaults meet calculator arguments; nowhere else.

Not here: the arithmetic (answers/calculators) or the wording of the draft (compose.py).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from answers.calculators.figure import Figure, pencil
from answers.calculators.units import UNITS, convert, unit_named
from kb.entries import Calculation, Input, Place, Plant, Rule
from kb.errors import TrugError

_METRIC = {"length": "m", "area": "sqm", "mass": "kg", "volume": "L"}
_METRIC_WORDS = {"m": "meters", "sqm": "square meters", "kg": "kilograms", "L": "liters", "m3": "cubic meters"}
Run = Callable[[str, Mapping[str, Any]], Figure]


@dataclass(frozen=True)
class Worked:
    """A calculation of a rule that was run: the figure, its sentence, and what had to be assumed."""

    calculation: Calculation
    figure: Figure
    sentence: str
    assumed: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()


@dataclass(frozen=True)
class Inputs:
    """Every figure of a rule that could be worked, and a plain line for each that could not."""

    worked: tuple[Worked, ...] = ()
    refused: tuple[str, ...] = field(default=())


def work(rule: Rule, amounts: Mapping[str, Any], plant: Plant | None, place: Place | None, run: Run) -> Inputs:
    """Run the rule's calculators on the writer's numbers. Nothing is clamped: a refusal becomes a line in `refused`.

    `amounts` holds measurements by name; "figure.input" names one input of one figure, and goes before everything.
    """
    done: dict[str, Worked] = {}
    refused: list[str] = []
    for calculation in rule.figures:
        if any(need not in amounts for need in calculation.needs):
            continue
        given: dict[str, Any] = {}
        assumed: list[str] = []
        sources: list[str] = []
        for name, source in calculation.inputs.items():
            value = amounts.get(f"{calculation.id}.{name}")
            if value is None:
                value = _value(source, amounts, plant, place, done)
            if value is None and source.default is not None:
                value = source.default
                assumed.append(source.default_words)
            if value is not None:
                given[name] = value
                sources += [source.source] if isinstance(source.source, str) else source.source
        try:
            figure = run(calculation.calculator, given)
        except TrugError as error:
            refused.append(str(error))
            continue
        done[calculation.id] = Worked(
            calculation,
            figure,
            sentence(calculation.say, figure, given) + (in_metric(figure) if place and place.country != "US" else ""),
            tuple(dict.fromkeys(a for a in assumed if a)),
            tuple(s for s in sources if s),
        )
    return Inputs(tuple(done.values()), tuple(refused))


def _value(
    source: Input, amounts: Mapping[str, Any], plant: Plant | None, place: Place | None, done: Mapping[str, Worked]
) -> Any:
    if source.reading and source.reading in amounts:
        return amounts[source.reading]
    if source.trait and plant is not None and source.trait in plant.traits:
        return plant.traits[source.trait]
    if source.place and place is not None:
        return getattr(place, source.place, None)
    if source.figure:
        id_, _, part = source.figure.partition(".")
        if id_ not in done:
            return None
        figure = done[id_].figure
        return figure.also.get(part) if part else figure.value
    return source.value


def in_metric(figure: Figure) -> str:
    """The figure once more in metric units, for a writer outside the United States; empty when it has none."""
    unit = unit_named(figure.unit)
    quantity = UNITS[unit][0] if unit else ""
    if unit is None or quantity not in _METRIC or not isinstance(figure.value, int | float):
        return ""
    to = "m3" if unit in ("cuft", "cuyd") else _METRIC[quantity]
    return f" That is about {pencil(convert(figure.value, unit, to))} {_METRIC_WORDS[to]}."


def sentence(say: str, figure: Figure, given: Mapping[str, Any], say_number: Callable[[float], str] = pencil) -> str:
    """The rule's sentence with the figure's numbers in it, rounded as a person would write them."""
    values: dict[str, Any] = {**figure.inputs, **given, **figure.also, "value": figure.value, "unit": figure.unit}
    shown = {
        k: say_number(float(v)) if isinstance(v, int | float) and not isinstance(v, bool) else str(v)
        for k, v in values.items()
    }
    try:
        return say.format_map(shown)
    except (KeyError, ValueError, IndexError) as fault:
        raise TrugError(
            f"figure {figure.name}: the sentence {say!r} asks for {fault}, which it does not have"
        ) from fault
