"""Every calculator by name, found from its signature, and run with inputs as people write them.

Not here: any formula. A module beside this one that says `FAMILY = "soil"` adds its public functions by itself.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from importlib import import_module
from pkgutil import iter_modules
from typing import Any, get_type_hints

import answers.calculators
from answers.calculators.figure import Figure
from answers.calculators.units import UNITS, number_written, parse_quantity
from kb.errors import RangeError, TrugError, UnitError

FAMILIES = ("soil", "spray", "season", "water", "space")
_SUFFIXES = {"f": "F", "percent": ""} | {u.lower(): u for u in UNITS if len(u) > 1}


@dataclass(frozen=True)
class Argument:
    """One input: its name, the unit its name ends in ("" for a plain number or a word), and its default."""

    name: str
    unit: str
    required: bool
    default: Any
    type: str  # number, text, yes/no, date


@dataclass(frozen=True)
class Calculator:
    """A calculator as listed: `run` is the function itself."""

    name: str
    family: str
    summary: str
    help: str
    inputs: tuple[Argument, ...]
    function: Callable[..., Figure]


@cache
def catalogue() -> dict[str, Calculator]:
    """Calculator name -> Calculator, in family order."""
    names = sorted(module.name for module in iter_modules(answers.calculators.__path__) if module.name != "catalogue")
    modules = [import_module(f"answers.calculators.{name}") for name in names]
    found = {}
    for family in FAMILIES:
        for module in (m for m in modules if getattr(m, "FAMILY", "") == family):
            for name, function in vars(module).items():
                if _is_calculator(function, module.__name__):
                    text = inspect.getdoc(function) or ""
                    found[name] = Calculator(name, family, text.split("\n")[0], text, _arguments(function), function)
    return found


def _is_calculator(function: Any, module: str) -> bool:
    """A public function of the module itself that takes keywords only and gives a Figure."""
    if not inspect.isfunction(function) or function.__module__ != module or function.__name__.startswith("_"):
        return False
    parameters = inspect.signature(function).parameters.values()
    returns = function.__annotations__.get("return")
    return returns in ("Figure", Figure) and all(p.kind is p.KEYWORD_ONLY for p in parameters)


def run(name: str, given: Mapping[str, Any]) -> Figure:
    """Run a calculator on numbers, or on texts such as "1/2 acre" and "2026-05-15".

    Raises:
        TrugError: for an unknown calculator or input, a missing one, an unreadable unit or a value out of range.
    """
    if name not in catalogue():
        raise TrugError(f"calculator: {name!r} is not one; known: {', '.join(catalogue())}")
    calculator = catalogue()[name]
    arguments = {a.name: a for a in calculator.inputs}
    for key in given:
        if key not in arguments:
            raise TrugError(f"{key}: {name} has no such input; it takes {', '.join(arguments)}")
    values = {key: _read(arguments[key], value) for key, value in given.items()}
    for key, argument in arguments.items():
        if argument.required and key not in given:
            raise RangeError(key, "nothing", f"a {argument.type}{' in ' + argument.unit if argument.unit else ''}")
    return calculator.function(**values)


def _arguments(function: Callable[..., Figure]) -> tuple[Argument, ...]:
    hints = get_type_hints(function)
    made = []
    for name, parameter in inspect.signature(function).parameters.items():
        kind = str(hints[name])
        sort = "yes/no" if "bool" in kind else "date" if "date" in kind else "text" if "str" in kind else "number"
        required = parameter.default is inspect.Parameter.empty
        unit = _SUFFIXES.get(name.rsplit("_", 1)[-1], "") if "_per_" not in name and sort == "number" else ""
        made.append(Argument(name, unit, required, None if required else parameter.default, sort))
    return tuple(made)


def _read(argument: Argument, value: Any) -> Any:
    if not isinstance(value, str) or argument.type == "text":
        return value
    text = value.strip()
    if argument.type == "date":
        try:
            return date.fromisoformat(text)
        except ValueError:
            raise UnitError(argument.name, value, "a date as YYYY-MM-DD") from None
    if argument.type == "yes/no":
        if text.lower() not in ("yes", "no", "true", "false"):
            raise UnitError(argument.name, value, "yes or no")
        return text.lower() in ("yes", "true")
    if argument.unit:
        return parse_quantity(text, argument.unit, argument.name)
    return number_written(text.removesuffix("%"), argument.name)
