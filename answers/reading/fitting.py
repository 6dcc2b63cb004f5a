"""A classifier fitted on features by name. Not here: what the features are (roles.py, spoken_of.py)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any


def fit_on(pairs: Iterable[tuple[Mapping[str, float], Any]], classifier: Any) -> tuple[str, ...]:
    """Fit a scikit-learn classifier on (features, label) pairs, and give the features' names in its order.

    The pairs are taken one by one: all together they need a hundred megabytes.
    """
    from sklearn.feature_extraction import DictVectorizer

    labels: list[Any] = []

    def features() -> Iterator[Mapping[str, float]]:
        for given, label in pairs:
            labels.append(label)
            yield given

    vectors = DictVectorizer()
    seen = vectors.fit_transform(features())
    classifier.fit(seen, labels)
    return tuple(map(str, vectors.feature_names_))
