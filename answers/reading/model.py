"""The kind model at work (diagnosis, rate, timing ...), and both text models as a data-only file of numbers.

Not here: fitting it (train.py, the only place that needs scikit-learn). Reading needs numpy alone, so that one
letter is answered quickly from a cold start; tests compare the result with scikit-learn's own.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import pairwise
from pathlib import Path
from typing import Any, NamedTuple

from answers.reading.likeness import Likeness

FORMAT = 5
_TOKEN = re.compile(r"(?u)\b\w\w+\b")
CHAR_SIZES = (3, 4, 5)


def word_grams(text: str) -> list[str]:
    """Single words and pairs, as scikit-learn's `word` analyser with ngram_range (1, 2) makes them."""
    words = _TOKEN.findall(text.lower())
    return words + [f"{a} {b}" for a, b in pairwise(words)]


def char_grams(word: str) -> list[str]:
    """Runs of 3 to 5 characters inside a padded word, as scikit-learn's `char_wb` analyser makes them."""
    grams, padded = [], f" {word} "
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
    def _word_rows(self) -> dict[str, int]:
        return {word: i for i, word in enumerate(self.words)}

    @cached_property
    def _char_rows(self) -> Callable[[str], Any]:
        """Word -> the rows of its runs of characters; a word is cut up once."""
        import numpy as np

        index = {run: i for i, run in enumerate(self.chars)}
        return lru_cache(maxsize=20_000)(
            lambda word: np.array([index[run] for run in char_grams(word) if run in index], dtype=np.int32)
        )

    def logits(self, text: str) -> dict[str, float]:
        """Label -> log-odds score (before softmax)."""
        import numpy as np

        words, none = self._word_rows, np.array([], dtype=np.int32)
        of_words = np.array([words[gram] for gram in word_grams(text) if gram in words], dtype=np.int32)
        of_chars = np.concatenate([none, *map(self._char_rows, text.lower().split())])
        total = self.bias + self._part(of_words, self.word_idf, 0) + self._part(of_chars, self.char_idf, len(words))
        return dict(zip(self.labels, map(float, total), strict=True))

    def _part(self, rows: Any, idf: Any, offset: int) -> Any:
        import numpy as np

        if not len(rows):
            return 0.0
        counts = np.bincount(rows)
        once = counts.nonzero()[0]
        value = (1.0 + np.log(counts[once])) * idf[once]
        value /= np.sqrt((value**2).sum())
        return value @ self.weights[once + offset]


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
