"""Plain values into the dataclasses of entries.py, with every fault named by file, line and field.

Not here: finding and reading the files (load.py).
"""

from __future__ import annotations

import dataclasses
import types
from functools import cache
from typing import Any, Union, get_args, get_origin, get_type_hints

from kb.yaml_lines import LineDict


@cache
def _shape(cls: type) -> dict[str, tuple[Any, bool]]:
    """Field name -> (type, required)."""
    hints = get_type_hints(cls)
    return {
        f.name: (hints[f.name], f.default is dataclasses.MISSING and f.default_factory is dataclasses.MISSING)
        for f in dataclasses.fields(cls)
    }


def build(cls: type, value: Any, file: str, line: int, problems: list[str], path: str = "") -> Any:
    """`value` as a `cls`, or None with the reasons appended to `problems`."""
    if not isinstance(value, dict):
        problems.append(f"{file}:{line} {path or cls.__name__}: expected a mapping, got {value!r}")
        return None
    lines = value.lines if isinstance(value, LineDict) else {}
    line = getattr(value, "line", line)
    shape = _shape(cls)
    before = len(problems)
    made: dict[str, Any] = {}
    for key, item in value.items():
        field = f"{path}.{key}" if path else key
        if key not in shape or key == "where":
            known = ", ".join(k for k in shape if k != "where")
            problems.append(f"{file}:{lines.get(key, line)} {field}: unknown field; known: {known}")
        else:
            made[key] = _convert(shape[key][0], item, file, lines.get(key, line), problems, field)
    for name, (_, required) in shape.items():
        if required and name not in value:
            problems.append(f"{file}:{line} {path + '.' if path else ''}{name}: missing")
    if "where" in shape:
        made["where"] = f"{file}:{line}"
    return cls(**made) if len(problems) == before else None


def _convert(kind: Any, value: Any, file: str, line: int, problems: list[str], field: str) -> Any:
    origin, args = get_origin(kind), get_args(kind)

    def fault(expected: str) -> None:
        problems.append(f"{file}:{line} {field}: expected {expected}, got {value!r}")

    if kind is Any:
        return value
    if origin in (Union, types.UnionType):
        if value is None and type(None) in args:
            return None
        if isinstance(value, list):
            args = tuple(a for a in args if get_origin(a) is tuple)
        else:
            args = tuple(a for a in args if get_origin(a) is not tuple and a is not type(None))
        for arg in args:
            trial: list[str] = []
            made = _convert(arg, value, file, line, trial, field)
            if not trial:
                return made
        return fault(" or ".join(getattr(a, "__name__", str(a)) for a in get_args(kind)))
    if dataclasses.is_dataclass(kind):
        return build(kind, value, file, line, problems, field)  # type: ignore[arg-type]
    if origin is tuple:
        if not isinstance(value, list):
            return fault("a list")
        return tuple(_convert(args[0], v, file, line, problems, f"{field}[{i}]") for i, v in enumerate(value))
    if origin is dict:
        if not isinstance(value, dict):
            return fault("a mapping")
        return {args[0](k): _convert(args[1], v, file, line, problems, f"{field}.{k}") for k, v in value.items()}
    if kind is float and isinstance(value, int | float) and not isinstance(value, bool):
        return float(value)
    if kind is str and isinstance(value, str):
        return value.strip()
    if kind in (int, bool) and type(value) is kind:
        return value
    return fault({str: "text", float: "a number", int: "a whole number", bool: "true or false"}.get(kind, str(kind)))
