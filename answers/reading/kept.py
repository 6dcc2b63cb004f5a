"""Fitted models kept as a data-only file of arrays and JSON: nothing in it is ever run, and a stale one is not used.

Not here: the models themselves (likeness.py, model.py, roles.py, spoken_of.py, asked_of.py), making them (train.py
and plants_learnt.py).
"""

from __future__ import annotations

import contextlib
import json
import sys
from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields
from pathlib import Path
from typing import Any

from kb.whole import written_whole

FORMAT = 16
_ARRAY = "Any"  # the type that every model gives its arrays
_PATIENCE = 120  # seconds
_BACK = {"tuple": tuple, "frozenset": frozenset}  # types that JSON has only lists for


def kept_or_made(
    path: Path, fingerprint: str, classes: Mapping[str, type], make: Callable[[], dict[str, Any]], notice: str = ""
) -> dict[str, Any]:
    """The models in `path`, else made now and kept there; two processes that want the same ones make them once.

    `notice` is for a person who waits at a terminal meanwhile.
    """
    models = load(path, fingerprint, classes)
    if models is not None:
        return models
    with _alone(path):
        models = load(path, fingerprint, classes)  # another process may have made them meanwhile
        if models is None:
            if notice and sys.stderr.isatty():
                print(notice, file=sys.stderr)
            models = make()
            with contextlib.suppress(OSError):  # a read-only home: they are simply made again next time
                save(path, fingerprint, models)
    return models


@contextlib.contextmanager
def _alone(path: Path) -> Iterator[None]:
    """Hold a lock beside `path`, for which others wait two minutes; none where the folder cannot be written."""
    from filelock import FileLock

    with contextlib.ExitStack() as held:
        with contextlib.suppress(OSError, NotImplementedError):  # a lock's timeout is an OSError too
            path.parent.mkdir(parents=True, exist_ok=True)
            held.enter_context(FileLock(path.with_suffix(".lock"), timeout=_PATIENCE))
        yield


def save(path: Path, fingerprint: str, models: Mapping[str, Any]) -> None:
    """Write models, dataclasses each, under their names; atomically."""
    import numpy as np

    head: dict[str, Any] = {"format": FORMAT, "fingerprint": fingerprint}
    arrays: dict[str, Any] = {}
    for name, held in models.items():
        values = {field: getattr(held, field) for field in _types(type(held))}
        arrays |= {f"{name}.{field}": values.pop(field) for field in _arrays_of(type(held))}
        head[name] = {field: sorted(v) if isinstance(v, frozenset) else v for field, v in values.items()}
    with written_whole(path) as file:
        np.savez(file, head=np.frombuffer(json.dumps(head).encode(), dtype=np.uint8), **arrays)


def load(path: Path, fingerprint: str, classes: Mapping[str, type]) -> dict[str, Any] | None:
    """The models in `path` under these names, or None when there is no such file, or it was made from other words."""
    import zipfile

    import numpy as np

    try:
        with path.open("rb") as kept, np.load(kept, allow_pickle=False) as file:
            head = json.loads(file["head"].tobytes())
            if head["format"] != FORMAT or head["fingerprint"] != fingerprint:
                return None
            return {
                name: made(
                    **{field: _back(made, field, value) for field, value in head[name].items()},
                    **{field: file[f"{name}.{field}"] for field in _arrays_of(made)},
                )
                for name, made in classes.items()
            }
    except (OSError, EOFError, KeyError, ValueError, TypeError, AttributeError, RuntimeError, zipfile.BadZipFile):
        return None


def _types(made: type) -> dict[str, str]:
    return {field.name: str(field.type) for field in fields(made)}


def _arrays_of(made: type) -> list[str]:
    return [field for field, kind in _types(made).items() if kind == _ARRAY]


def _back(made: type, field: str, value: Any) -> Any:
    """The value as its field's own type: JSON has only lists. What is within it stays as JSON gives it."""
    return _BACK.get(_types(made)[field].partition("[")[0], lambda same: same)(value)
