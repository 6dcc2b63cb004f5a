"""Writing a file whole or not at all. Not here: what is written."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO


@contextmanager
def written_whole(path: Path) -> Iterator[BinaryIO]:
    """A file to write, which takes `path`'s place once all is written; else `path` stays as it was.

    Raises:
        OSError: when the folder cannot be made or written.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, suffix=".part")
    try:
        with os.fdopen(handle, "wb") as file:
            yield file
        os.replace(name, path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
