"""The text model at work against scikit-learn's own vectorisers and classifier (the outside check)."""

import time
from concurrent.futures import ThreadPoolExecutor

import numpy as np
import pytest

from answers.reading import kept, model
from answers.reading.asked_of import AskedOf
from answers.reading.reading import Mention
from answers.reading.spoken_of import SpokenOf
from answers.reading.train import fit_kinds, fit_problems, fit_roles, fit_urgent, likeness
from answers.reading.words import pairs
from kb.entries import AmountLetter

PAIRS = [
    ("orange spots on the leaves of my tree", "rust"),
    ("leaves have rusty orange dots underneath", "rust"),
    ("white powder over the leaves", "mildew"),
    ("looks like flour on the lilac leaves", "mildew"),
    ("how much lime for my lawn", "lime"),
    ("soil test says it needs lime, how many pounds", "lime"),
]
TEXTS = ["orange dots, and a white powder!", "LIME for lawn?", "", "x", "nothing alike 12345", "ünïcode leaves"]


@pytest.mark.parametrize("longest", [1, 2])
@pytest.mark.parametrize("text", TEXTS)
def test_grams_are_scikit_learns(text, longest):
    """Our words and pairs are the very features scikit-learn counted."""
    from sklearn.feature_extraction.text import TfidfVectorizer

    words = TfidfVectorizer(ngram_range=(1, longest)).build_analyzer()
    assert sorted(model.word_grams(text, longest)) == sorted(words(text))


def test_scores_are_scikit_learns():
    """The numpy score of a text equals the decision function of an equal pipeline."""
    from sklearn.feature_extraction.text import TfidfVectorizer
    from sklearn.linear_model import LogisticRegression
    from sklearn.pipeline import make_pipeline

    texts, labels = zip(*PAIRS, strict=True)
    pipeline = make_pipeline(
        TfidfVectorizer(ngram_range=(1, 2), sublinear_tf=True),
        LogisticRegression(C=12.0, max_iter=400, class_weight="balanced"),
    ).fit(texts, labels)
    ours = fit_kinds(PAIRS)
    for text in TEXTS:
        expected = dict(zip(pipeline.classes_, pipeline.decision_function([text])[0], strict=True))
        assert ours.logits(text) == pytest.approx(expected, abs=1e-4)


def test_plain_words_score_as_scikit_learns():
    """The same for the support vector machine on problems."""
    from sklearn.feature_extraction.text import TfidfVectorizer
    from sklearn.pipeline import make_pipeline
    from sklearn.svm import LinearSVC

    texts, labels = zip(*PAIRS, strict=True)
    pipeline = make_pipeline(
        TfidfVectorizer(sublinear_tf=True), LinearSVC(C=0.5, class_weight="balanced", random_state=0)
    ).fit(texts, labels)
    ours = fit_problems(PAIRS)
    for text in TEXTS:
        assert ours.scores(text) == pytest.approx(pipeline.decision_function([text])[0], abs=1e-4)


def two_by_two(text):
    """Pairs of the words of a text."""
    return pairs(text.split())


def test_kept_models_come_back_and_stale_ones_do_not(tmp_path):
    """The file round-trips; another rule base's file, or a damaged one, is not used."""
    path = tmp_path / "m.npz"
    table = likeness(PAIRS, str.split)
    told = {"a tree 20 feet tall": {"height_ft": 20.0}, "plants 6 inches apart": {"spacing_in": 6.0}, "at no 5": {}}
    letters = [AmountLetter(text, text, amounts) for text, amounts in told.items()]
    roles = fit_roles(letters, lambda _: [], {"tall": ["high", "tall"]})
    looks = likeness([("red berries", "holly"), ("blue", "juniper")], str.split)
    urgent = fit_urgent({"urgent": ["he ate it"], "not-urgent": ["deer ate it"]}, ["a leaf"])
    of = AskedOf({"rust": {"apple": 3, "none": 1}}, {"rust": {"apple": (4, 3)}}, frozenset({"tree"}))
    spoken_of = SpokenOf(("before my", "after <plant>"), np.array([1.5, -0.5], dtype=np.float32), -0.25)
    plain, kinds = fit_problems(PAIRS), fit_kinds(PAIRS)
    made = model.Models(table, likeness(PAIRS, two_by_two), plain, of, kinds, urgent, roles, spoken_of, looks)
    classes = model.OF_PROBLEMS | model.OF_QUESTIONS
    kept.save(path, "abc", made._asdict())
    loaded = kept.load(path, "abc", classes)
    assert loaded is not None
    back = model.Models(**loaded)
    assert back.plain.scores("orange dots") == pytest.approx(made.plain.scores("orange dots"))
    assert back.urgent.logits("ate it") == pytest.approx(made.urgent.logits("ate it"))
    assert back.kind.logits("orange dots") == pytest.approx(made.kind.logits("orange dots"))
    assert back.problem.scores(["orange", "dots"]) == pytest.approx(made.problem.scores(["orange", "dots"]))
    assert back.pairs.scores(["orange spot"]) == pytest.approx(made.pairs.scores(["orange spot"]))
    assert back.asked_of.plant("rust", "apple") == of.plant("rust", "apple")
    assert back.asked_of.sort("rust", "none") == of.sort("rust", "none")
    assert back.asked_of.when_named("rust", "apple") == of.when_named("rust", "apple")
    assert back.role.chances({"is <length>": 1.0}) == pytest.approx(roles.chances({"is <length>": 1.0}))
    assert back.role.alike == roles.alike
    my_oak = [Mention("oak", "oak", 3, 6)]
    assert back.spoken_of.scores("my oak", my_oak) == spoken_of.scores("my oak", my_oak) == [1.25]
    assert back.looks.scores(["berries"]) == pytest.approx(made.looks.scores(["berries"]))
    assert kept.load(path, "other", classes) is None
    assert (back.asked_of.wide, back.plain.labels) == (of.wide, plain.labels)  # as the types they were
    for damage in (b"not a model", b"", path.read_bytes()[:5000]):
        path.write_bytes(damage)
        assert kept.load(path, "abc", classes) is None
    assert kept.load(tmp_path / "none.npz", "abc", classes) is None


def test_two_that_want_the_same_models_make_them_once(tmp_path):
    """The second waits for the first; a folder that cannot be written is no hindrance."""
    made = []

    def make():
        made.append(1)
        time.sleep(0.2)
        return {"kind": fit_kinds(PAIRS)}

    def wanted(folder):
        return kept.kept_or_made(folder / "m.npz", "abc", {"kind": model.LinearText}, make)["kind"].labels

    with ThreadPoolExecutor(2) as pool:
        assert list(pool.map(wanted, [tmp_path, tmp_path])) == [("lime", "mildew", "rust")] * 2
    assert len(made) == 1
    (tmp_path / "file").write_text("")
    assert wanted(tmp_path / "file") == ("lime", "mildew", "rust")
