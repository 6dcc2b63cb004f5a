"""Linear text models at work, for problems and kinds of question, and all models as a data-only file of numbers.

Not here: fitting it (train.py and plants_learnt.py, which alone need scikit-learn). Reading needs numpy alone, so that
one letter is answered quickly from a cold start; tests compare the result with scikit-learn's own.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from pathlib import Path
from typing import Any, NamedTuple

from answers.reading.asked_of import AskedOf
from answers.reading.likeness import Likeness
from answers.reading.roles import Roles
from answers.reading.spoken_of import SpokenOf

FORMAT = 15
_TOKEN = re.compile(r"(?u)\b\w\w+\b")


def word_grams(text: str, longest: int) -> list[str]:
    """Single words, and pairs for 2, as scikit-learn's `word` analyser with ngram_range (1, `longest`) makes them."""
    words = _TOKEN.findall(text.lower())
    return words + [f"{a} {b}" for a, b in pairwise(words)] if longest > 1 else words


@dataclass(frozen=True)
class LinearText:
    """A linear classifier on TF-IDF of words, or words and pairs; `weights` has a row a feature, a column a label."""

    labels: tuple[str, ...]
    words: tuple[str, ...]
    longest: int  # 1 for words, 2 for words and pairs
    idf: Any
    weights: Any
    bias: Any

    @cached_property
    def _row(self) -> dict[str, int]:
        return {word: i for i, word in enumerate(self.words)}

    def logits(self, text: str) -> dict[str, float]:
        """Label -> score."""
        return dict(zip(self.labels, self.scores(text).tolist(), strict=True))

    def scores(self, text: str) -> Any:
        """A score for each label, as scikit-learn's `decision_function` gives it."""
        import numpy as np

        find = self._row.get
        counts = Counter([row for gram in word_grams(text, self.longest) if (row := find(gram)) is not None])
        total = self.bias
        if counts:
            once = np.array(list(counts))
            value = (1.0 + np.log(list(counts.values()))) * self.idf[once]
            total = total + (value / np.sqrt((value**2).sum())) @ self.weights[once]
        return total


_TABLES = ("problem", "pairs", "looks")
_TEXTS = ("plain", "kind", "urgent")
_TEXT_HEAD = ("labels", "words", "longest")
_WORDS = ("idf", "weights", "bias")
_HEAD = ("labels", "names")
_TABLE = ("rarity", "starts", "columns", "values", "each")
_ROLES = ("weights", "bias")


class Models(NamedTuple):
    """What the reader needs: the words of problems, of kinds of question, of what quantities measure, of plants."""

    problem: Likeness
    pairs: Likeness  # of words, for problems
    plain: LinearText  # every word as it is written, for problems
    asked_of: AskedOf
    kind: LinearText
    urgent: LinearText
    role: Roles
    spoken_of: SpokenOf
    looks: Likeness


def save(path: Path, fingerprint: str, models: Models) -> None:
    """Write the models as plain arrays and JSON, atomically."""
    import os
    import tempfile

    import numpy as np

    head: dict[str, Any] = {"format": FORMAT, "fingerprint": fingerprint}
    arrays: dict[str, Any] = {}
    head["asked of"] = {
        "asked": models.asked_of.asked,
        "named": models.asked_of.named,
        "wide": sorted(models.asked_of.wide),
    }
    for part, table in zip(_TABLES, (models.problem, models.pairs, models.looks), strict=True):
        head[part] = {key: getattr(table, key) for key in _HEAD}
        arrays |= {f"{part}.{key}": getattr(table, key) for key in _TABLE}
    for part, words in zip(_TEXTS, (models.plain, models.kind, models.urgent), strict=True):
        head[part] = {key: getattr(words, key) for key in _TEXT_HEAD}
        arrays |= {f"{part}.{key}": getattr(words, key) for key in _WORDS}
    head["role"] = {"labels": models.role.labels, "names": models.role.names, "alike": models.role.alike}
    arrays |= {f"role.{key}": getattr(models.role, key) for key in _ROLES}
    head["spoken of"] = {"names": models.spoken_of.names, "bias": models.spoken_of.bias}
    arrays["spoken of.weights"] = models.spoken_of.weights
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
            problem, pairs, looks = (
                Likeness(
                    *(tuple(head[part][key]) for key in _HEAD),
                    *(file[f"{part}.{key}"] for key in _TABLE),
                )
                for part in _TABLES
            )
            plain, kind, urgent = (
                LinearText(
                    tuple(head[part]["labels"]),
                    tuple(head[part]["words"]),
                    head[part]["longest"],
                    *(file[f"{part}.{key}"] for key in _WORDS),
                )
                for part in _TEXTS
            )
            role = head["role"]
            weights, bias = (file[f"role.{key}"] for key in _ROLES)
            of_roles = Roles(tuple(role["labels"]), tuple(role["names"]), weights, bias, role["alike"])
            of_names = head["spoken of"]
            spoken_of = SpokenOf(tuple(of_names["names"]), file["spoken of.weights"], of_names["bias"])
            told = head["asked of"]
            asked_of = AskedOf(told["asked"], told["named"], frozenset(told["wide"]))
            return Models(problem, pairs, plain, asked_of, kind, urgent, of_roles, spoken_of, looks)
    except (OSError, KeyError, ValueError, zipfile.BadZipFile):
        return None
