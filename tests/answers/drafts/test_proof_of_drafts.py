"""The proof over real drafts: of every demonstration letter and every rule, as they are and changed at random."""

import re
from datetime import date
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from answers.calculators.figure import pencil
from answers.drafts.dates_said import dates
from answers.drafts.numbers_said import amounts
from answers.drafts.proof import DOSE, proof
from answers.drafts.standing import sentences
from answers.letters.letter import Question, Writer
from answers.letters.reader import read_letters
from answers.letters.split import questions

DEMO = Path(__file__).parents[3] / "demo_questions"
TODAY = date(2026, 4, 20)
PARTS = ("email", "cue_card", "phone")


@pytest.fixture(scope="module")
def of_rules(engine):
    """What is kept of every rule's first example letter."""
    place, writer = engine.knowledge.places["larkspur-county"], Writer(first_name="Ann", town="Elmford")
    asked = [Question("x", 1, rule.letters[0], TODAY, writer) for rule in engine.knowledge.rules.values()]
    return [engine.answer(question, TODAY, place).kept() for question in asked]


def test_an_unedited_draft_of_any_demonstration_letter_has_no_mark(engine):
    """All letters, all three texts."""
    place, seen = engine.knowledge.places["larkspur-county"], 0
    files = [DEMO / "letters.mbox", *sorted((DEMO / "eml").glob("*.eml")), DEMO / "call_notes.csv"]
    for question in (q for letter in read_letters(files) for q in questions(letter)):
        kept = engine.answer(question, question.sent or TODAY, place).kept()
        writer = {"first_name": question.writer.first_name, "town": question.writer.town}
        for part in PARTS:
            own = kept["draft"][part]
            assert proof(f"{own}\n", own, kept, question.private, writer) == []  # not the very same, so it is looked at
        seen += 1
    assert seen > 50


def test_a_draft_with_every_sentence_touched_has_no_mark(of_rules):
    """Nothing of a rule's draft is taken for unsourced when each sentence has words added that say nothing new."""
    writer = {"first_name": "Ann", "town": "Elmford"}
    for kept in of_rules:
        for part in PARTS:
            drafted = kept["draft"][part]
            assert proof(f"{drafted}\n", drafted, kept, (), writer) == []
            touched = drafted
            for start, end in reversed(list(sentences(drafted))):
                touched = touched[:start] + touched[start:end].rstrip(".") + ", as we say." + touched[end:]
            found = proof(touched, drafted, kept, (), writer)
            assert found == [], (kept["rule"], part, touched)


ANY = st.integers(0, 10_000)  # which of a list


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(rule=ANY, figure=ANY, number=ANY, factor=st.floats(0.05, 0.95) | st.floats(1.06, 40))
def test_a_figure_changed_by_more_than_its_rounding_is_always_marked(of_rules, rule, figure, number, factor):
    """Any number of any figure's sentence in an e-mail."""
    with_figures = [k for k in of_rules if k["figures"]]
    kept = with_figures[rule % len(with_figures)]
    figures = [p["text"] for p in kept["passages"] if p["part"] == "figure"]
    said, email = figures[figure % len(figures)], kept["draft"]["email"]
    spans = [m.span() for m in re.finditer(r"\d[\d,]*(?:\.\d+)?", said)]
    start, end = spans[number % len(spans)]
    old = float(said[start:end].replace(",", ""))
    new = pencil(max(old * factor, 0.01))
    assume(abs(float(new.replace(",", "")) - old) > 0.05 * old)
    edited = email.replace(said, said[:start] + new + said[end:])
    assert any(m.sort == DOSE for m in proof(edited, email, kept, (), {"first_name": "Ann"})), (said, new)


WORDS = ["garden", "lovely", "you", "may", "march", "thank", "dear", "roses", "second", "not", "never", "spray", "bees"]
WORDS += ["spring", "hope", "at", "point", "and", "of", "pounds", "inches", "week", "sat", "pound", "degrees", "again"]


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(rule=ANY, place=ANY, words=st.lists(st.sampled_from(WORDS), min_size=1, max_size=15))
def test_a_new_sentence_without_numbers_is_never_marked(of_rules, rule, place, words):
    """Wherever it is put between the draft's own sentences."""
    kept = of_rules[rule % len(of_rules)]
    email = kept["draft"]["email"]
    ends = [end for _, end in sentences(email) if email[end - 1 : end] in (".", "!", "?")]
    at = ends[place % len(ends)]
    edited = f"{email[:at]} {' '.join(words).capitalize()}.{email[at:]}"
    assert proof(edited, email, kept, (), {"first_name": "Ann", "town": "Elmford"}) == []


@settings(max_examples=300)
@given(st.text(alphabet="0123456789.,/-½ ab°%\"'x\nMay pound inches$()", max_size=60))
def test_amounts_and_dates_are_read_from_any_text(text):
    """No text is an error, and what is found stands where it says, each apart from the next."""
    found = amounts(text)
    assert all(a.words == " ".join(text[a.start : a.end].split()) for a in found)
    assert all(a.end <= b.start for a, b in pairwise(found))
    assert all(text[d.start : d.end] == d.words for d in dates(text))
