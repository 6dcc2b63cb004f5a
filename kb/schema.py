"""The published JSON Schema of the rule-base files, made from entries.py, so that editors can complete and check them.

Not here: the loader's own checks (build.py). `python -m kb.schema` rewrites the files.
"""

from __future__ import annotations

import dataclasses
import json
import types
from pathlib import Path
from typing import Any, Union, get_args, get_origin, get_type_hints

from kb.load import ENTRIES
from kb.metric import TO_US

_PLAIN = {str: "string", float: "number", int: "integer", bool: "boolean", type(None): "null"}


def schema(table: str) -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a file in `kb/<table>/`."""
    items = _of(ENTRIES[table])
    if table == "places":
        _or_metric(items)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"Trug rule base: {table}",
        "type": "array",
        "items": items,
    }


def _or_metric(items: dict[str, Any]) -> None:
    """A place's climate may be given in metric fields instead; one of each pair is required."""
    items["allOf"] = [{"oneOf": [{"required": [us]}, {"required": [metric]}]} for metric, (us, _) in TO_US.items()]
    for metric, (us, _) in TO_US.items():
        items["properties"][metric] = items["properties"][us]
        items["required"].remove(us)


def _of(kind: Any) -> dict[str, Any]:
    origin, args = get_origin(kind), get_args(kind)
    if dataclasses.is_dataclass(kind) and isinstance(kind, type):
        hints = get_type_hints(kind)
        fields = [f for f in dataclasses.fields(kind) if f.name != "where"]
        required = [
            f.name for f in fields if f.default is dataclasses.MISSING and f.default_factory is dataclasses.MISSING
        ]
        return {
            "type": "object",
            "description": (kind.__doc__ or "").strip(),
            "properties": {f.name: _of(hints[f.name]) for f in fields},
            "required": required,
            "additionalProperties": False,
        }
    if origin in (Union, types.UnionType):
        return {"anyOf": [_of(a) for a in args]}
    if origin is tuple:
        return {"type": "array", "items": _of(args[0])}
    if origin is dict:
        return {"type": "object", "additionalProperties": _of(args[1])}
    return {"type": _PLAIN[kind]} if kind in _PLAIN else {}


def main() -> None:
    """Write every schema beside the rule base."""
    folder = Path(__file__).parent / "schema"
    for table in ENTRIES:
        (folder / f"{table}.json").write_text(json.dumps(schema(table), indent=1) + "\n", "utf-8")


if __name__ == "__main__":
    main()
