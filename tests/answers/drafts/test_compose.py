"""Drafts: the writer's numbers, cautions and sources are in them; unsure ones advise nothing."""

from datetime import date

import pytest

from answers.answering import load_engine
from answers.drafts.spoken import seconds
from answers.letters.letter import Question, Writer

TODAY = date(2026, 5, 20)


@pytest.fixture(scope="module")
def engine():
    return load_engine()


def ask(engine, text, **writer):
    question = Question("x", 1, text, TODAY, Writer(**writer))
    return engine.answer(question, TODAY, engine.knowledge.places["larkspur-county"])


def test_a_decided_draft_greets_advises_warns_and_cites(engine):
    """The e-mail has a greeting by first name, numbered steps, the rule's cautions and its sources."""
    answer = ask(engine, "A huge green caterpillar with a horn is stripping my tomato plants", first_name="Marta")
    email = answer.draft.email
    assert answer.rule is not None
    assert email.startswith("Dear Marta,")
    assert "1. " in email
    assert all(engine.knowledge.cautions[c].text in email for c in answer.rule.cautions)
    assert "Where this comes from:" in email


def test_an_unknown_question_gets_a_question_back(engine):
    """Nothing the rule base knows: no advice, no cue card."""
    answer = ask(engine, "Why is my zzz qqq doing that?", first_name="Lee")
    assert answer.rule is None
    assert answer.draft.cue_card == ""
    assert "not sure" in answer.draft.email


@pytest.mark.parametrize("hostile", ["{{ 7*7 }}", "{% for x in y %}", "{value}", "%s", "<script>alert(1)</script>"])
def test_template_syntax_in_a_letter_stays_inert(engine, hostile):
    """A letter's text or a writer's name is data, never a template."""
    answer = ask(engine, f"hornworms on my tomato {hostile}", first_name=hostile)
    assert f"Dear {hostile}," in answer.draft.email
    assert "49" not in answer.draft.email.split("\n")[0]


def test_every_rule_can_be_spoken_in_45_to_75_seconds(engine):
    """Each rule's own first example gives a card of the right length, whatever it was read as."""
    for rule in engine.knowledge.rules.values():
        answer = ask(engine, rule.letters[0], first_name="Ann", town="Elmford")
        if answer.draft.cue_card:
            assert 44 <= seconds(answer.draft.cue_card) <= 77, (rule.id, answer.draft.cue_card)


@pytest.mark.parametrize(
    ("text", "topic"),
    [
        ("Edges of the leaves went crisp and brown on the windy side after ten days over 98. No spots.", "leaf scorch"),
        ("My maple's leaf edges went crisp and brown after ten days over 98. No spots.", "leaf scorch (maple)"),
    ],
)
def test_a_plant_nobody_named_is_not_told_the_writer(engine, text, topic):
    """A likely plant helps to find the rule; only one that is named, or surely described, stands in the draft."""
    answer = ask(engine, text)
    assert answer.reading.problem == "leaf-scorch"
    assert answer.draft.topic == topic


def test_passages_name_what_they_rest_on(engine):
    """Every sentence of advice is tied to a rule, figure or caution."""
    answer = ask(engine, "A huge green caterpillar with a horn is stripping my tomato plants")
    assert answer.draft.passages
    assert all(p.basis for p in answer.draft.passages)


def test_a_letter_in_another_language_is_set_aside(engine):
    """Its language is named, and no advice is drafted."""
    text = "Mis rosas tienen manchas negras en las hojas y se caen, ¿qué puedo hacer con ellas?"
    answer = engine.answer(Question("x", 1, text, None), date(2026, 5, 1))
    assert "Spanish" in answer.draft.email
    assert (answer.draft.cue_card, answer.draft.phone, answer.rule) == ("", "", None)
