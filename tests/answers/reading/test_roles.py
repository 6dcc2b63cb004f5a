"""What a quantity measures: the model at work against scikit-learn's own classifier (the outside check)."""

import pytest

from answers.reading.amounts import told
from answers.reading.reading import Mention
from answers.reading.roles import NOTHING, features, may_measure, name_of, roles_told, stems_alike, worth
from answers.reading.train import fit_roles
from kb.entries import AmountLetter

LETTERS = [
    AmountLetter(text, text, amounts)
    for text, amounts in (
        ("the maple is 20 feet tall", {"height_ft": 20.0}),
        ("an oak 30 feet high", {"height_ft": 30.0}),
        ("set them 18 inches apart", {"spacing_in": 18.0}),
        ("plants 2 feet apart", {"spacing_in": 24.0}),
        ("it is 5 miles to town", {}),
        ("paid 3 dollars for 12 roses", {"count": 12.0}),
        ("we have 3 at number 40", {}),
    )
]
WORDS = {"tall": ("tall", "high", "taller"), "apart": ("apart", "spacing")}
ALIKE = stems_alike(WORDS)


def _none(_):
    return []


def test_chances_are_scikit_learns():
    """The numpy probabilities equal those of the classifier that was fitted."""
    from sklearn.feature_extraction import DictVectorizer
    from sklearn.linear_model import LogisticRegression

    rows = [(f, q, told.amounts) for told in LETTERS for q, f in zip(*_with_features(told.letter), strict=True) if f]
    labels = [(roles_told(q, amounts) or [NOTHING])[0] for _, q, amounts in rows]
    vectors = DictVectorizer()
    theirs = LogisticRegression(C=1.0, tol=5e-4, max_iter=400, solver="newton-cg")
    theirs.fit(vectors.fit_transform([f for f, _, _ in rows]), labels)
    ours = fit_roles(LETTERS, _none, ALIKE)
    for text in ("a spruce 40 feet tall", "10 inches apart", "7 geese"):
        for near in _with_features(text)[1]:
            expected = dict(zip(theirs.classes_, theirs.predict_proba(vectors.transform([near]))[0], strict=True))
            assert ours.chances(near) == pytest.approx(expected, abs=1e-4)


def _with_features(text):
    loose = told(text).loose
    return loose, features(text, loose, [], ALIKE)


@pytest.mark.parametrize(
    ("text", "role", "value"),
    [
        ("girth 66 inches", "girth:trunk_diameter_in", 21.008),
        ("22 feet out from the trunk", "half:crown_spread_ft", 44.0),
        ("5 meters tall", "height_ft", 16.404),
        ("40 kg", "product_lb", 88.185),
        ("10 liters", "tank_gal", 2.642),
        ("4,000 feet of sod", "area_sqft", 4000.0),
        ("12 of them", "count", 12.0),
    ],
)
def test_a_role_turns_a_quantity_into_our_unit(text, role, value):
    """A girth gives a diameter, half a crown a whole one, metric units ours."""
    (quantity,) = told(text).loose
    assert role in may_measure(quantity)
    assert worth(quantity, role) == pytest.approx(value, rel=1e-3)
    assert roles_told(quantity, {name_of(role): value})


def test_plants_and_other_quantities_are_words_of_their_own():
    """The model learns from "<plants>" after a number, whichever plants they are."""
    text = "12 roses 3 feet tall"
    loose = told(text).loose
    first, second = features(text, loose, [Mention("rose", "roses", 3, 8)], {})
    assert "after 0 <plants>" in first
    assert "before 0 <plants>" in second
    assert "after 1 <length>" in first


def test_a_word_counts_as_its_likes():
    """ "Higher", which no letter has, stands with "tall" by its stem; a word may stand in two lists."""
    assert stems_alike({"tall": ["tall", "high"], "far": ["high"]}) == {"high": ["TALL", "FAR"], "tall": ["TALL"]}
    (near,) = features("7 feet high", told("7 feet high").loose, [], ALIKE)
    assert "after TALL" in near
