"""The text models from the rule base's own words, kept as numbers in the user's cache folder.

Not here: what teaches which plant is meant (plants_learnt.py), the file (kept.py), using them (likeness.py, model.py).
Scikit-learn is needed to make them, and for the baseline of `trug measure`; reading does without it.
"""

from __future__ import annotations

import hashlib
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import cache
from typing import Any, NamedTuple

from answers.reading import model, weights
from answers.reading.amounts import told
from answers.reading.fitting import fit_on
from answers.reading.kept import kept_or_made
from answers.reading.lessons import Lesson
from answers.reading.likeness import Likeness
from answers.reading.model import LinearText, Models
from answers.reading.plants_learnt import Naming, asked_of, fit_spoken_of, looks_told, whose_plant_is_known
from answers.reading.reading import Mention
from answers.reading.roles import NOTHING, Roles, features, roles_told, stems_alike
from answers.reading.words import pairs
from kb.compiled import cache_folder
from kb.entries import NOT_URGENT, URGENT, AmountLetter
from kb.load import Knowledge

OTHER = "other"  # the label of letters the rule base does not answer
_STRENGTH = 12.0  # inverse regularisation of the kind model, chosen by cross-validation on the examples
_URGENT_STRENGTH = 1.0  # that of the model of urgent letters, chosen by cross-validation on them
_PLAIN_STRENGTH = 0.5  # that of the model of problems on plain words, chosen on the development letters
_ROLE_STRENGTH = 1.0  # that of the model of roles, chosen so too
_ROLE_TOLERANCE = 5e-4  # five times scikit-learn's usual one: half the time, the same readings
_LENGTH = 0.6  # BM25's length correction; a usual value
# Raise the first figure when the fitting changes, so that kept models are made again.
_RECIPE = f"45-{weights.LIKENESS}-{weights.BAYES}-{weights.PLANT_WORD}"
_NOTICE = "Learning to read from the rule base's letters: half a minute, once for every change of it."
Tokens = Callable[[str], list[str]]


class Counting(NamedTuple):
    """How a table of words and labels is made from counts."""

    bm25: float  # worth of its BM25 part
    bayes: float  # worth of its naive Bayes part
    saturation: float  # BM25's k1: how much a word said often counts
    unseen: float  # naive Bayes' count for a word that a label never has


_OF_PROBLEMS = Counting(weights.LIKENESS, weights.BAYES, 1.2, 0.1)
_OF_LOOKS = Counting(8.0, 1.4, 8.0, 1.0)  # chosen by cross-validation on the development letters


def texts(knowledge: Knowledge) -> list[tuple[str, str]]:
    """(text, problem id) of everything the rule base says about, or hears of, a problem that a rule answers."""
    found: list[tuple[str, str]] = []
    for rule in knowledge.rules.values():
        advice = " ".join([rule.title + ".", rule.what.say, *(s.say for s in rule.do), rule.spoken])
        found += [(text, rule.problem) for text in (*rule.letters, advice)]
    for problem in knowledge.problems.values():
        if problem.id in knowledge.rules_by_problem:
            found += [(". ".join(words), problem.id) for words in ((problem.name, *problem.synonyms), problem.phrases)]
        found += [
            (f"{look.name} {look.sign}", look.problem)
            for look in problem.look_alikes
            if look.problem in knowledge.rules_by_problem
        ]
    return found + [(text, OTHER) for text in knowledge.other_letters]


def likeness(
    labelled: Iterable[tuple[str, str]], tokens: Tokens, counting: Counting = _OF_PROBLEMS, times: int = 1
) -> Likeness:
    """The table of words and problems: BM25 over each problem's pooled texts, and naive Bayes on the same counts.

    What all texts together have fewer than `times` times is left out.

    Source (from memory): Robertson and Zaragoza (2009), The Probabilistic Relevance Framework: BM25 and Beyond;
    with idf ln(1 + (N - n + 0.5) / (n + 0.5)).
    """
    import numpy as np
    from scipy import sparse
    from sklearn.feature_extraction.text import CountVectorizer

    pools: dict[str, list[str]] = {}
    for text, label in labelled:
        pools.setdefault(label, []).append(text)
    labels = tuple(sorted(pools))
    counter = CountVectorizer(analyzer=lambda pool: [token for text in pool for token in tokens(text)])
    counts = counter.fit_transform([pools[label] for label in labels]).astype(float)
    often = np.asarray(counts.sum(axis=0)).ravel() >= times
    names = counter.get_feature_names_out()[often]
    counts = counts[:, often].tocoo()
    length = np.asarray(counts.sum(axis=1)).ravel()
    seen_in = np.asarray((counts.tocsc() > 0).sum(axis=0)).ravel()
    rarity = np.log(1 + (len(labels) - seen_in + 0.5) / (seen_in + 0.5))
    k1, unseen = counting.saturation, counting.unseen
    saturated = (
        counts.data * (k1 + 1) / (counts.data + k1 * (1 - _LENGTH + _LENGTH * length[counts.row] / length.mean()))
    )
    bayes = np.log((counts.data + unseen) / unseen)
    values = counting.bm25 * rarity[counts.col] * saturated + counting.bayes * bayes
    of_plants = np.array([name.startswith("plant:") for name in names])
    values[of_plants[counts.col]] *= weights.PLANT_WORD
    never = np.log(unseen / (length + unseen * counts.shape[1]))
    table = sparse.csr_matrix((values, (counts.col, counts.row)), shape=counts.shape[::-1])
    table.sort_indices()
    return Likeness(
        labels,
        tuple(map(str, names)),
        rarity,
        table.indptr,
        table.indices,
        table.data.astype(np.float32),
        counting.bayes * (never - never.mean()),
    )


def fit_kinds(labelled: Sequence[tuple[str, str]]) -> LinearText:
    """Logistic regression on the words and pairs of (text, kind) pairs; the same pairs give the same model."""
    from sklearn.linear_model import LogisticRegression

    return _fitted(labelled, 2, LogisticRegression(C=_STRENGTH, max_iter=400, class_weight="balanced"))


def fit_problems(labelled: Sequence[tuple[str, str]]) -> LinearText:
    """A support vector machine on the words of (text, problem) pairs as they stand, small words too.

    "How", "when" and "can I" tell a question of timing from one of diseases; the tables of likeness leave them out.
    """
    from sklearn.svm import LinearSVC

    return _fitted(labelled, 1, LinearSVC(C=_PLAIN_STRENGTH, class_weight="balanced", random_state=0))


def fit_urgent(letters: Mapping[str, Sequence[str]], others: Iterable[str]) -> LinearText:
    """A support vector machine that tells urgent letters from those that only sound so, and from all `others`."""
    from sklearn.svm import LinearSVC

    labelled = [(text, which) for which, texts in letters.items() for text in texts]
    labelled += [(text, NOT_URGENT) for text in others]
    return _fitted(labelled, 2, LinearSVC(C=_URGENT_STRENGTH, class_weight="balanced", random_state=0), seen_in=2)


def _fitted(labelled: Sequence[tuple[str, str]], longest: int, classifier: Any, seen_in: int = 1) -> LinearText:
    import numpy as np
    from sklearn.feature_extraction.text import TfidfVectorizer

    texts, labels = zip(*labelled, strict=True)
    vectors = TfidfVectorizer(ngram_range=(1, longest), sublinear_tf=True, min_df=seen_in)
    classifier.fit(vectors.fit_transform(texts), labels)
    coefficients, bias = classifier.coef_.T, classifier.intercept_
    if len(classifier.classes_) == 2:
        coefficients, bias = np.hstack([-coefficients, coefficients]) / 2, np.hstack([-bias, bias]) / 2
    return LinearText(
        tuple(map(str, classifier.classes_)),
        tuple(map(str, vectors.get_feature_names_out())),
        longest,
        vectors.idf_,
        coefficients.astype(np.float32),
        bias,
    )


def fit_roles(
    letters: Iterable[AmountLetter], plants_in: Callable[[str], list[Mention]], alike: Mapping[str, Sequence[str]]
) -> Roles:
    """The model of what a quantity measures, from letters and the amounts told in them; for `alike` see roles.py.

    A quantity that gives one of a letter's amounts has that role, one that gives none measures nothing of ours; what
    would give two is left out.
    """
    import numpy as np
    from sklearn.linear_model import LogisticRegression

    def pairs_of(told_in: AmountLetter) -> Iterator[tuple[Mapping[str, float], str]]:
        loose = told(told_in.letter).loose
        near_each = features(told_in.letter, loose, plants_in(told_in.letter), alike)
        for quantity, near in zip(loose, near_each, strict=True):
            fitting = roles_told(quantity, told_in.amounts)
            if near and len(fitting) < 2:
                yield near, fitting[0] if fitting else NOTHING

    classifier = LogisticRegression(C=_ROLE_STRENGTH, tol=_ROLE_TOLERANCE, max_iter=400, solver="newton-cg")
    names = fit_on((pair for told_in in letters for pair in pairs_of(told_in)), classifier)
    return Roles(
        tuple(map(str, classifier.classes_)),
        names,
        classifier.coef_.T.astype(np.float32),
        classifier.intercept_,
        alike,
    )


def cached_models(knowledge: Knowledge, names: Naming, lessons: Sequence[Lesson] = ()) -> Models:
    """All models: from the cache folder, else made now and kept there if possible.

    `lessons` are texts that people have corrected; those on problems unknown to the rule base are left out.
    """
    known = [lesson for lesson in lessons if lesson.problem in knowledge.rules_by_problem or lesson.problem == OTHER]
    rules = f"{knowledge.fingerprint}-{_RECIPE}"
    taught = f"{rules}-{hashlib.sha256(repr(known).encode()).hexdigest()[:12]}"
    folder = cache_folder()
    file = "problems-taught.npz" if known else "problems.npz"
    of_problems = kept_or_made(
        folder / file, taught, model.OF_PROBLEMS, lambda: _of_problems(knowledge, names, known), _NOTICE
    )
    others = kept_or_made(folder / "questions.npz", rules, model.OF_QUESTIONS, lambda: _of_questions(knowledge, names))
    return Models(**of_problems, **others)


def _of_questions(knowledge: Knowledge, names: Naming) -> dict[str, Any]:
    """The models of questions whatever they are about, which people's corrections do not teach."""
    kinds = [(names.mask(text), kind) for kind, letters in knowledge.kind_letters.items() for text in letters]
    told = [text for rule in knowledge.rules.values() for text in rule.letters]
    told += [amounts.letter for amounts in knowledge.amount_letters.values()]
    urgent = set(knowledge.urgent_letters[URGENT])  # some of the rules' own examples are
    others = [text for text in (*told, *knowledge.other_letters) if text not in urgent and not names.urgent_signs(text)]
    alike = stems_alike(knowledge.amount_words)
    alike |= {f"plant:{plant.id}": list(knowledge.lineage(plant.group)) for plant in knowledge.plants.values()}
    return {
        "kind": fit_kinds(kinds),
        "urgent": fit_urgent(knowledge.urgent_letters, others),
        "role": fit_roles(knowledge.amount_letters.values(), names.plants_in, alike),
        "looks": likeness(looks_told(knowledge, names), str.split, _OF_LOOKS),
    }


def _of_problems(knowledge: Knowledge, names: Naming, lessons: Sequence[Lesson]) -> dict[str, Any]:
    """The models of problems, and of which plant is asked about, which corrections teach too."""
    labelled = [*texts(knowledge), *((lesson.text, lesson.problem) for lesson in lessons)]
    plain = fit_problems(labelled)  # needs the most memory: made before the words of every text are held

    @cache
    def tokens(text: str) -> list[str]:
        return [sys.intern(token) for token in names.token_names(text)]

    return {
        "problem": likeness(labelled, tokens),
        "pairs": likeness(labelled, lambda text: pairs(tokens(text)), times=2),
        "plain": plain,
        "asked_of": asked_of(knowledge, names, lessons),
        "spoken_of": fit_spoken_of(whose_plant_is_known(knowledge, names, lessons), knowledge, names),
    }
