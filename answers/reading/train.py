"""Fit the text models to the rules' example letters with scikit-learn, and keep them in the user's cache folder.

Not here: using them (model.py).
"""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Sequence

from answers.reading import model
from answers.reading.model import CHAR_SIZES, LinearText
from kb.compiled import cache_folder
from kb.load import Knowledge

OTHER = "other"  # the label of letters the rule base does not answer
_STRENGTH = 12.0  # inverse regularisation, chosen by cross-validation on the examples
_RECIPE = "1"  # raise when the fitting below changes, so that kept models are refitted


def examples(knowledge: Knowledge) -> list[tuple[str, str]]:
    """(text, problem id) of everything the rule base says people write."""
    found = [(text, rule.problem) for rule in knowledge.rules.values() for text in rule.examples]
    for problem in knowledge.problems.values():
        if problem.id in knowledge.rules_by_problem:
            found += [(text, problem.id) for text in (problem.name, *problem.synonyms, *problem.phrases)]
    return found + [(text, OTHER) for text in knowledge.other_letters]


def fit(pairs: Sequence[tuple[str, str]]) -> LinearText:
    """A linear text model fitted to (text, label) pairs; the same pairs give the same model."""
    import numpy as np
    from sklearn.feature_extraction.text import TfidfVectorizer
    from sklearn.linear_model import LogisticRegression
    from sklearn.pipeline import FeatureUnion

    texts, labels = zip(*pairs, strict=True)
    vectors = FeatureUnion(
        [
            ("words", TfidfVectorizer(ngram_range=(1, 2), sublinear_tf=True, min_df=1)),
            (
                "chars",
                TfidfVectorizer(
                    analyzer="char_wb", ngram_range=(CHAR_SIZES[0], CHAR_SIZES[-1]), sublinear_tf=True, min_df=2
                ),
            ),
        ]
    )
    matrix = vectors.fit_transform(texts)
    classifier = LogisticRegression(C=_STRENGTH, max_iter=400, class_weight="balanced")
    classifier.fit(matrix, labels)
    words, chars = (part for _, part in vectors.transformer_list)
    weights, bias = classifier.coef_.T, classifier.intercept_
    if len(classifier.classes_) == 2:
        weights, bias = np.hstack([-weights, weights]) / 2, np.hstack([-bias, bias]) / 2
    return LinearText(
        tuple(map(str, classifier.classes_)),
        tuple(words.get_feature_names_out()),
        tuple(chars.get_feature_names_out()),
        words.idf_,
        chars.idf_,
        weights.astype(np.float32),
        bias,
    )


def cached_models(knowledge: Knowledge, mask: Callable[[str], str]) -> dict[str, LinearText]:
    """The fitted models for this rule base: from the cache folder, else fitted now and kept there if possible."""
    fingerprint = f"{knowledge.fingerprint}-{_RECIPE}"
    path = cache_folder() / "text-model.npz"
    kept = model.load(path, fingerprint)
    if kept is not None:
        return kept
    models = {
        "problem": fit([(mask(text), label) for text, label in examples(knowledge)]),
        "kind": fit([(mask(text), kind) for kind, texts in knowledge.kind_letters.items() for text in texts]),
    }
    with contextlib.suppress(OSError):  # a read-only home: the model is simply fitted again next time
        model.save(path, fingerprint, models)
    return models
