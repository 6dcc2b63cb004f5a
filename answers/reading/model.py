"""The kind model at work (diagnosis, rate, timing ...), and both text models as a data-only file of numbers.

Not here: fitting it (train.py, the only place that needs scikit-learn). Reading needs numpy alone, so that one
letter is answered quickly from a cold start; tests compare the result with scikit-learn's own.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from pathlib import Path
from typing import Any, NamedTuple

from answers.reading.likeness import Likeness

FORMAT = 5
_TOKEN = re.compile(r"(?u)\b\w\w+\b")
_SPACES = re.compile(r"\s\s+")
CHAR_SIZES = (3, 4, 5)


def word_grams(text: str) -> list[str]:
    """Single words and pairs, as scikit-learn's `word` analyser with ngram_range (1, 2) makes them."""
    words = _TOKEN.findall(text.lower())
    return words + [f"{a} {b}" for a, b in pairwise(words)]


def char_grams(text: str) -> list[str]:
    """Runs of 3 to 5 characters inside padded words, as scikit-learn's `char_wb` analyser makes them."""
    grams = []
    for word in _SPACES.sub(" ", text.lower()).split():
        padded = f" {word} "
        for size in CHAR_SIZES:
            if len(padded) <= size:
                grams.append(padded)
                break
            grams += [padded[i : i + size] for i in range(len(padded) - size + 1)]
    return grams


@dataclass(frozen=True)
class LinearText:
    """A linear classifier on TF-IDF of word and character runs. `weights` has a row a feature, a column a label."""

    labels: tuple[str, ...]
    words: tuple[str, ...]
    chars: tuple[str, ...]
    word_idf: Any
    char_idf: Any
    weights: Any
    bias: Any

    @cached_property
    def _index(self) -> tuple[dict[str, int], dict[str, int]]:
        return {w: i for i, w in enumerate(self.words)}, {c: i for i, c in enumerate(self.chars)}

    def logits(self, text: str) -> dict[str, float]:
        """Label -> log-odds score (before softmax)."""
        total = self.bias.copy()
        words, chars = self._index
        for grams, index, idf, offset in (
            (word_grams(text), words, self.word_idf, 0),
            (char_grams(text), chars, self.char_idf, len(words)),
        ):
            total = total + self._part(grams, index, idf, offset)
        return dict(zip(self.labels, map(float, total), strict=True))

    def _part(self, grams: list[str], index: dict[str, int], idf: Any, offset: int) -> Any:
        import numpy as np

        counts: dict[int, int] = {}
        for gram in grams:
            at = index.get(gram)
            if at is not None:
                counts[at] = counts.get(at, 0) + 1
        if not counts:
            return 0.0
        rows = np.fromiter(counts, dtype=np.int64)
        tf = 1.0 + np.log(np.fromiter(counts.values(), dtype=np.float64))
        value = tf * idf[rows]
        value /= np.sqrt((value**2).sum())
        return value @ self.weights[rows + offset]


_WORDS = ("word_idf", "char_idf", "weights", "bias")
_TABLE = ("rarity", "starts", "columns", "values", "each")


class Models(NamedTuple):
    """What the reader needs: the words of problems, and of kinds of question."""

    problem: Likeness
    kind: LinearText


def save(path: Path, fingerprint: str, models: Models) -> None:
    """Write the models as plain arrays and JSON, atomically."""
    import os
    import tempfile

    import numpy as np

    head: dict[str, Any] = {"format": FORMAT, "fingerprint": fingerprint}
    arrays: dict[str, Any] = {}
    table = models.problem
    head["problem"] = {"labels": table.labels, "names": table.names, "usual": table.usual}
    arrays |= {f"problem.{key}": getattr(table, key) for key in _TABLE}
    head["kind"] = {"labels": models.kind.labels, "words": models.kind.words, "chars": models.kind.chars}
    arrays |= {f"kind.{key}": getattr(models.kind, key) for key in _WORDS}
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, temporary = tempfile.mkstemp(dir=path.parent, suffix=".npz")
    with os.fdopen(handle, "wb") as file:
        np.savez(file, head=np.frombuffer(json.dumps(head).encode(), dtype=np.uint8), **arrays)
    os.replace(temporary, path)


def load(path: Path, fingerprint: str) -> Models | None:
    """The models in `path`, or None when there is no file, or it was made from another rule base."""
    import zipfile

    import numpy as np

    try:
        with np.load(path, allow_pickle=False) as file:
            head = json.loads(file["head"].tobytes())
            if head["format"] != FORMAT or head["fingerprint"] != fingerprint:
                return None
            problem = Likeness(
                *(tuple(head["problem"][key]) for key in ("labels", "names", "usual")),
                *(file[f"problem.{key}"] for key in _TABLE),
            )
            kind = head["kind"]
            words = (tuple(kind[key]) for key in ("labels", "words", "chars"))
            return Models(problem, LinearText(*words, *(file[f"kind.{key}"] for key in _WORDS)))
    except (OSError, KeyError, ValueError, zipfile.BadZipFile):
        return None
