"""The table of words and problems against naive Bayes by scikit-learn, BM25 by hand, and its own plain properties."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.reading import weights
from answers.reading.conformal import threshold
from answers.reading.train import Counting, likeness

PAIRS = [
    ("orange spot leaf plant:apple plant:apple plant:apple plant:apple", "rust"),
    ("orange dot leaf", "rust"),
    ("white powder leaf", "mildew"),
    ("lime lawn", "lime"),
]


@pytest.fixture(scope="module")
def table():
    """Made from the pairs above."""
    return likeness(PAIRS, str.split)


def test_what_is_told_too_seldom_is_left_out() -> None:
    """What all texts together have once tells nothing when it must be had twice."""
    assert likeness(PAIRS, str.split, times=2).names == ("leaf", "orange", "plant:apple")


def test_bm25_by_hand(table) -> None:
    """One word's worth, worked with a pencil from Robertson and Zaragoza's formula (2009; from memory)."""
    lengths = {"rust": 10, "mildew": 3, "lime": 2}
    mean = sum(lengths.values()) / 3
    rarity = math.log(1 + (3 - 1 + 0.5) / (1 + 0.5))  # "orange" stands in one of three problems
    saturated = 2 * 2.2 / (2 + 1.2 * (1 - 0.6 + 0.6 * lengths["rust"] / mean))
    bayes = math.log(2.1 / 0.1)
    expected = weights.LIKENESS * rarity * saturated + weights.BAYES * bayes
    rust, lime = table.labels.index("rust"), table.labels.index("lime")
    assert table.worth(["orange", "unheard-of"], rust, lime) == pytest.approx([expected, 0.0], rel=1e-5)


def test_the_bayes_part_is_scikit_learns() -> None:
    """With BM25 switched off, differences between problems are those of scikit-learn's multinomial naive Bayes."""
    from sklearn.feature_extraction.text import CountVectorizer
    from sklearn.naive_bayes import MultinomialNB

    table = likeness(PAIRS, str.split, Counting(bm25=0.0, bayes=1.0, saturation=1.2, unseen=0.1))
    pools = {label: " ".join(t for t, x in PAIRS if x == label) for label in table.labels}
    counter = CountVectorizer(analyzer=str.split)
    nb = MultinomialNB(alpha=0.1, fit_prior=False).fit(counter.fit_transform(pools.values()), list(pools))
    words = ["orange", "leaf", "lime"]
    theirs = sum(nb.feature_log_prob_[:, counter.vocabulary_[w]] for w in words)
    length = math.sqrt(sum(float(table.rarity[table.names.index(w)]) ** 2 for w in words))
    ours = table.scores(words) * length
    assert np.diff(ours) == pytest.approx(np.diff(theirs), abs=1e-4)


def test_own_words_win(table) -> None:
    """A problem's own words score highest for it; unknown words change no order."""
    for text, label in PAIRS:
        for words in (text.split(), [*text.split(), "qqzzx"]):
            assert table.labels[int(np.argmax(table.scores(words)))] == label


def test_known_share(table) -> None:
    """The share of words the rule base uses; plants do not count."""
    assert table.known_share(["orange", "qqzzx", "plant:apple"]) == 0.5
    assert table.known_share([]) == 1.0


@given(st.lists(st.sampled_from(["orange", "leaf", "white", "xx", "plant:apple"]), max_size=12))
def test_order_and_repeats_do_not_matter(words: list[str]) -> None:
    """A letter that says a thing twice, or in another order, says the same."""
    table = likeness(PAIRS, str.split)
    assert table.scores(words) == pytest.approx(table.scores(sorted(words) * 2))


@pytest.mark.parametrize(("coverage", "expected"), [(0.9, 0.1), (0.5, 0.5), (0.2, 0.8), (0.99, 0.0)])
def test_conformal_threshold_by_hand(coverage: float, expected: float) -> None:
    """Nine letters whose truth has 0.1 to 0.9: the floor((9 + 1) x (1 - coverage))-th smallest is the bar."""
    chances = np.array([[p / 10, 1 - p / 10] for p in range(1, 10)])
    assert threshold(chances, np.zeros(9, int), coverage) == pytest.approx(expected)


def test_conformal_sets_cover() -> None:
    """Sets at the bar from one half hold the truth in the stated share of the other half, on average over drawings."""
    held = []
    for seed in range(40):  # fixed: one drawing of two thousand strays by 0.0135, their mean by 0.002
        rng = np.random.default_rng(seed)
        chances = rng.dirichlet(np.full(5, 0.5), size=2000)
        truth = np.array([rng.choice(5, p=row) for row in chances])
        bar = threshold(chances[:1000], truth[:1000], 0.9)
        held.append((chances[1000:][np.arange(1000), truth[1000:]] >= bar).mean())
    assert np.mean(held) == pytest.approx(0.9, abs=0.01)
