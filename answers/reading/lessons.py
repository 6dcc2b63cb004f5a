"""What people's corrections taught, kept as JSON in the user's data folder: texts and what they are about, no model.

Not here: recording a correction (answers/store.py), making the models from them (train.py). Lessons on problems
that the rule base no longer has are passed over, so an old file does no harm.
"""

from __future__ import annotations

import json
import os
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from kb.whole import written_whole

FORMAT = 2
_WITHOUT_PLANTS = 1  # the format before plants were kept


class Lesson(NamedTuple):
    """A letter's text and what a person says it is about; `plant` is "" when that was not told."""

    text: str
    problem: str
    plant: str = ""


def lessons_file() -> Path:
    """$TRUG_DATA/lessons.json, else in the user's data folder."""
    if chosen := os.environ.get("TRUG_DATA"):
        return Path(chosen) / "lessons.json"
    from platformdirs import user_data_path

    return user_data_path("trug") / "lessons.json"


def load_lessons() -> tuple[Lesson, ...]:
    """The lessons kept, or none when there is no file or it cannot be read."""
    try:
        content = json.loads(lessons_file().read_text("utf-8"))
        if content["format"] not in (FORMAT, _WITHOUT_PLANTS):
            return ()
        return tuple(Lesson(*map(str, lesson)) for lesson in content["lessons"])
    except (OSError, ValueError, KeyError, TypeError):
        return ()


def keep_lessons(lessons: Sequence[Lesson]) -> Path:
    """Replace the lessons, whole or not at all."""
    path = lessons_file()
    content = {"format": FORMAT, "lessons": [list(lesson) for lesson in lessons]}
    with written_whole(path) as file:
        file.write(json.dumps(content, ensure_ascii=False).encode())
    return path
