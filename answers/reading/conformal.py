"""Candidate sets of stated coverage by split conformal prediction.

Not here: the probabilities themselves (read.py). Source (from memory): Sadinle, Lei and Wasserman (2019), Least
ambiguous set-valued classifiers with bounded error levels, J. American Statistical Association 114: 223-234.
"""

from __future__ import annotations

from typing import Any


def threshold(chances: Any, truth: Any, coverage: float) -> float:
    """The probability from which a label belongs to the set, so that sets hold the truth in `coverage` of new letters.

    Args:
        chances: letters x labels, each row adding to 1, from letters not used in fitting.
        truth: the index of each letter's true label.
        coverage: 0 to 1; the bound holds on average over letters like these.

    Returns: 0 to 1; 0 when there are too few letters for so high a coverage.
    """
    import numpy as np

    held = np.sort(chances[np.arange(len(truth)), truth])
    rank = int(np.floor((len(held) + 1) * (1 - coverage) + 1e-9))
    return float(held[rank - 1]) if rank >= 1 else 0.0
