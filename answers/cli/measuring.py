"""`trug measure`: how well a file of gold letters is read, beside a plain baseline.

Not here: the marks (answers/measuring).
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path

import typer

from answers.letters.letter import Question
from answers.measuring.baseline import Baseline
from answers.measuring.gold import read_gold
from answers.measuring.marks import mark
from answers.measuring.page import as_page, rows
from answers.reading.read import Reader
from answers.reading.reading import Reading
from kb.load import load

_ROUNDS = 5


def measure(file: Path, page: Path | None, baseline: bool) -> None:
    """Read every letter in `file`, mark the readings, and print them (and write a page)."""
    gold = read_gold(file)
    knowledge = load()
    reader = Reader(knowledge)
    questions = [g.question() for g in gold]
    for question in questions:  # what is made on first use is made before the clock starts
        reader.read(question)
    ours, speed = _timed(lambda q: [reader.read(one) for one in q], questions)
    memory = _peak_megabytes()
    plain, plain_speeds = None, (0.0, 0.0)
    if baseline:
        other = Baseline(knowledge)
        other.read(questions)
        _, one_by_one = _timed(lambda q: [other.read([one])[0] for one in q], questions)
        read, together = _timed(other.read, questions)
        plain_speeds = (one_by_one, together)
        plain = mark(list(zip(gold, read, strict=True)))
    marks = mark(list(zip(gold, ours, strict=True)))
    typer.echo(f"{len(gold)} letters{'':23}{'Trug':>10}{'baseline' if plain else '':>12}")
    for what, mine, theirs in rows(marks, plain, speed, plain_speeds):
        typer.echo(f"{what:34}{mine:>10}{theirs:>12}")
    if memory is not None:
        typer.echo(f"{'peak memory, reading alone':34}{memory:>7.0f} MB")
    if page:
        page.write_text(as_page(f"Reading of {file.name}", marks, plain, speed, plain_speeds), "utf-8")
        typer.echo(f"Written to {page}")


def _peak_megabytes() -> float | None:
    """What this process has needed at most so far; None where the system does not tell."""
    if sys.platform == "win32":
        return None
    import resource

    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / (1024 if sys.platform != "darwin" else 1024**2)


def _timed(read: Callable[[list[Question]], list[Reading]], questions: list[Question]) -> tuple[list[Reading], float]:
    """The readings, and letters a second of a core in the quickest of several rounds."""
    quickest = float("inf")
    for _ in range(_ROUNDS):
        start = time.process_time()
        found = read(questions)
        quickest = min(quickest, time.process_time() - start)
    return found, len(questions) / quickest
