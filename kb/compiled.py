"""The rule base kept as one JSON file in the user's cache folder, so that a start need not read YAML again.

Not here: reading the YAML (load.py). The file holds data only, and is used only when its fingerprint, made from
every rule-base file's text and the entries' own fields, is the one wanted: it cannot be stale.
"""

from __future__ import annotations

import contextlib
import dataclasses
import json
import os
import types
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any, Union, get_args, get_origin, get_type_hints

from kb.whole import written_whole

Reader = Callable[[Any], Any]


def cache_folder() -> Path:
    """Where fitted models and the compiled rule base are kept: $TRUG_CACHE, else the user's cache folder."""
    if chosen := os.environ.get("TRUG_CACHE"):
        return Path(chosen)
    from platformdirs import user_cache_path

    return user_cache_path("trug")


def shape_of(classes: list[type]) -> str:
    """Words that change when any class, or one it holds, gains, loses or retypes a field."""
    return repr([(c.__name__, sorted((k, str(v)) for k, v in get_type_hints(c).items())) for c in _all(classes)])


def keep(fingerprint: str, tables: dict[str, dict[str, Any]], lists: dict[str, Any]) -> None:
    """Write the compiled file; a folder that cannot be written is left alone, and YAML is read again next time."""
    content = {
        "fingerprint": fingerprint,
        "tables": {name: [_plain(entry) for entry in table.values()] for name, table in tables.items()},
        "lists": lists,
    }
    with contextlib.suppress(OSError), written_whole(cache_folder() / "rule-base.json") as file:
        file.write(json.dumps(content, ensure_ascii=False).encode())


def kept(fingerprint: str, entries: dict[str, type]) -> tuple[dict[str, dict[str, Any]], dict[str, Any]] | None:
    """The tables and lists compiled from exactly these files, or None."""
    try:
        content = json.loads((cache_folder() / "rule-base.json").read_text("utf-8"))
        if content["fingerprint"] != fingerprint:
            return None
        tables = {
            name: {entry.id: entry for entry in map(_maker(cls), content["tables"][name])}
            for name, cls in entries.items()
        }
        return tables, content["lists"]
    except (OSError, ValueError, KeyError, TypeError):
        return None


def _all(classes: list[type]) -> list[type]:
    found: list[type] = []

    def add(kind: Any) -> None:
        if dataclasses.is_dataclass(kind) and isinstance(kind, type) and kind not in found:
            found.append(kind)
            for inner in get_type_hints(kind).values():
                add(inner)
        for inner in get_args(kind):
            add(inner)

    for cls in classes:
        add(cls)
    return found


def _plain(value: Any) -> Any:
    """A dataclass as a mapping without the fields that hold their default."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        found = {}
        for f in dataclasses.fields(value):
            held = getattr(value, f.name)
            default = f.default_factory() if f.default_factory is not dataclasses.MISSING else f.default
            if held != default:
                found[f.name] = _plain(held)
        return found
    if isinstance(value, dict):
        return {str(k): _plain(v) for k, v in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(v) for v in value]
    return value


@cache
def _maker(cls: type) -> Reader:
    readers = {name: r for name, kind in get_type_hints(cls).items() if (r := _reader(kind)) is not None}

    def make(value: dict[str, Any]) -> Any:
        for name, read in readers.items():
            if name in value:
                value[name] = read(value[name])
        return cls(**value)

    return make


def _reader(kind: Any) -> Reader | None:
    """What turns JSON's lists and text keys back into a field's own type; None when JSON's value will do."""
    origin, args = get_origin(kind), get_args(kind)
    if dataclasses.is_dataclass(kind):
        return _maker(kind)  # type: ignore[arg-type]
    if origin is tuple:
        inner = _reader(args[0])
        return tuple if inner is None else lambda v: tuple(map(inner, v))
    if origin in (Union, types.UnionType):
        return (lambda v: tuple(v) if isinstance(v, list) else v) if any(get_origin(a) is tuple for a in args) else None
    if origin is dict:
        item = _reader(args[1]) or (lambda v: v)
        return lambda v: {args[0](key): item(held) for key, held in v.items()}
    return None
