"""How a plant is spoken of where it is named: plain cases, and scikit-learn's own pipeline (the outside check)."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.letters.letter import Question
from answers.reading.read import Reader
from answers.reading.spoken_of import features
from answers.reading.train import fit_spoken_of
from kb.load import load

KNOWLEDGE = load()
READER = Reader(KNOWLEDGE)
LETTERS = [
    ("My pear has black spots. It stands beside the oak.", "pear"),
    ("Under the oak my roses will not bloom. Why?", "rose"),
    ("Moles tunnel under the hostas, past the lilacs.", "none"),
    ("The tree, a pin oak, is yellow. The maple is not.", "oak"),
]


@pytest.mark.parametrize(
    ("text", "asked", "passing"),
    [
        ("My quince has a gummy bark. It grows beside the holly.", "quince", "holly"),
        ("Next to the holly my quince drops its leaves. Why?", "quince", "holly"),
        ("Caller says her viburnum is full of holes, the bed under it is all pachysandra", "viburnum", "pachysandra"),
        ("It came up between the salvia and the fence, our bean has lacy leaves. Spray?", "bean", "salvia"),
        ("Is it too late to cut back my elderberry? It shades the salvia along the path.", "elderberry", "salvia"),
    ],
)
def test_the_plant_asked_about_sounds_more_like_it_than_one_in_passing(text, asked, passing):
    """Cases in words of the trade, none of them among the letters that teach it."""
    every = READER.plants_in(text)
    scores: dict[str, float] = {}
    for mention, score in zip(every, READER._spoken_of.scores(text, every), strict=True):
        scores[mention.id] = max(score, scores.get(mention.id, score))
    assert scores[asked] > scores[passing]


def test_scores_are_scikit_learns():
    """Each name's score equals the decision function of an equal pipeline."""
    from sklearn.feature_extraction import DictVectorizer
    from sklearn.linear_model import LogisticRegression
    from sklearn.pipeline import make_pipeline

    rows, asked = [], []
    for text, plant in LETTERS:
        every = READER.plants_in(text)
        for mention, around in zip(every, features(text, every), strict=True):
            if (plant, mention.id) != ("oak", "tree"):  # the wider name of the plant asked about teaches nothing
                rows.append(around)
                asked.append(mention.id == plant)
    pipeline = make_pipeline(DictVectorizer(), LogisticRegression(C=0.3, max_iter=500, class_weight="balanced"))
    pipeline.fit(rows, asked)
    ours = fit_spoken_of(LETTERS, KNOWLEDGE, READER)
    for text in ("My elm is sick. Beside the oak?", "Roses, and the pear.", *(text for text, _ in LETTERS)):
        every = READER.plants_in(text)
        expected = pipeline.decision_function(features(text, every))
        assert np.array(ours.scores(text, every)) == pytest.approx(expected, abs=1e-4)


def test_what_is_looked_at():
    """Words by nearness, the nearest two by place, other plants as one word, the sentence and whether it asks."""
    text = "Hello. Can I prune my pear near the oak?"
    pear, oak = features(text, READER.plants_in(text))
    assert pear["before my"] == 1.0
    assert pear["before prune"] == pytest.approx(1 / 1.5)
    assert pear["before 0 my"] == pear["before my prune"] == pear["between my near"] == 1.0
    assert pear["after <plant>"] == pytest.approx(1 / 2)
    assert pear["asks"] == pear["sentence 1"] == pear["last sentence"] == 1.0
    assert oak["after |"] == 1.0


@given(st.lists(st.sampled_from(["My pear", "the oak", ".", "?", "\n", "3 roses", "  ", "—", "it's", "…", ")"])))
def test_any_letter_can_be_looked_at(pieces):
    """As many rows as plants are named, whatever stands around them."""
    text = " ".join(pieces)
    every = READER.plants_in(text)
    assert len(features(text, every)) == len(every)


@pytest.mark.parametrize(
    ("text", "plant"),
    [
        ("Yellow wasps fly in and out of a hole in the ground by the lilacs. What do I do at night?", None),
        ("Past the pachysandra our viburnum has sticky leaves with ants running up. What are the bumps?", "viburnum"),
    ],
)
def test_a_plant_in_passing_is_not_what_a_letter_is_about(text, plant):
    """The reading as a whole."""
    assert READER.read(Question("q", 1, text, None)).plant == plant
