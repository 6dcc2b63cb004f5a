"""YAML 1.2 files as plain values that remember their line numbers; repeated keys and odd types are refused.

Not here: what the values mean (load.py). PyYAML's own constructor speaks YAML 1.1 (`no` is false, `12:30` is 750),
so the nodes are built here with the 1.2 core schema.
"""

from __future__ import annotations

import re
from typing import Any

_INT = re.compile(r"[-+]?[0-9]+")
_FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")


class LineDict(dict[str, Any]):
    """A mapping that knows the line it starts on and the line of each key (from 1)."""

    line: int
    lines: dict[str, int]


def read_yaml(text: str, name: str, problems: list[str]) -> Any:
    """The values in `text`. Faults are appended to `problems` as `name:line field: message`; the value is then None."""
    import yaml

    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    try:
        node = yaml.compose(text, Loader=loader)
    except yaml.MarkedYAMLError as fault:
        line = fault.problem_mark.line + 1 if fault.problem_mark else 1
        problems.append(f"{name}:{line} YAML: {fault.problem}")
        return None
    except yaml.YAMLError as fault:
        problems.append(f"{name}:1 YAML: {fault}")
        return None
    return None if node is None else _value(node, name, problems)


def _value(node: Any, name: str, problems: list[str]) -> Any:
    line = node.start_mark.line + 1
    if node.id == "scalar":
        return _scalar(node)
    if node.id == "sequence":
        return [_value(child, name, problems) for child in node.value]
    mapping = LineDict()
    mapping.line, mapping.lines = line, {}
    for key_node, value_node in node.value:
        key, key_line = str(key_node.value), key_node.start_mark.line + 1
        if key in mapping:
            problems.append(f"{name}:{key_line} {key}: given twice in one entry")
        mapping[key] = _value(value_node, name, problems)
        mapping.lines[key] = key_line
    return mapping


def _scalar(node: Any) -> Any:
    text = node.value
    if node.style in ("'", '"', "|", ">"):
        return text
    if text in ("", "~", "null", "Null", "NULL"):
        return None
    if text in ("true", "True", "TRUE"):
        return True
    if text in ("false", "False", "FALSE"):
        return False
    if _INT.fullmatch(text):
        return int(text, 10)
    if _FLOAT.fullmatch(text):
        return float(text)
    return text
