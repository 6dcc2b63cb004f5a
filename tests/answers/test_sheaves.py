"""A sheaf's one text becomes each letter's own; a letter whose facts differ is put aside with the reason."""

import re
from datetime import UTC, date, datetime

import pytest

from answers.drafting import At
from answers.drafts.compose import shared_text
from answers.drafts.shared import fill, places_left_open
from answers.ledger import Ledger
from answers.letters.letter import Question, Writer
from answers.sheaf_answer import answer_sheaf, lay, letters
from answers.sheaves import Sheaf, put_aside, sheaf_of
from kb.errors import RangeError

TODAY = date(2026, 5, 20)
NOW = datetime(2026, 5, 20, 14, 0, tzinfo=UTC)
AT = At(NOW, TODAY)

SHEAF = "rule:lime-for-acid-soil"


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({}, "rule:r"),
        ({"urgency": "emergency"}, "emergency"),
        ({"language": "Spanish"}, "language:Spanish"),
        ({"rule": None, "hand_off": [{"id": "arborist"}]}, "hand-off:arborist"),
        ({"rule": None, "kind": "not-a-question"}, "nothing asked"),
        ({"rule": None, "problem": {"id": "rust"}}, "unsure:rust"),
        ({"rule": None}, "unsure"),
    ],
)
def test_where_a_letter_is_laid(changes, key):
    """Emergencies before all; what no rule answers goes with its likeliest problem."""
    worked = {"urgency": "any time", "language": "", "rule": "r", "hand_off": [], "kind": "rate", "problem": None}
    found = sheaf_of({**worked, **changes})
    assert found.key == key
    assert Sheaf.named(key) == found


def test_the_shared_text_filled_is_the_letters_own_draft(lime_store, engine, lime):
    """For every letter of the sheaf the untouched shared text gives the e-mail that was drafted for it."""
    text = shared_text(engine.knowledge.rules["lime-for-acid-soil"], engine.knowledge)
    rows = letters(Ledger(lime_store), engine, SHEAF, AT)
    assert [r["writer"]["first_name"] for r in rows] == [name for name, _ in lime]
    for row in rows:
        filled = fill(text, row["worked"], row["writer"]["first_name"])
        assert filled.lacking == ()
        assert filled.text == row["email"]


def test_the_shared_text_of_every_rule_gives_its_own_draft(engine):
    """Over the whole rule base: the first example of each rule, answered alone and from the shared text.

    An e-mail that had to be shortened says less than the shared text; no e-mail says more.
    """
    place, same, shortened = engine.knowledge.places["larkspur-county"], 0, []
    for rule in engine.knowledge.rules.values():
        question = Question("x", 1, rule.letters[0], TODAY, Writer(first_name="Ann"))
        answer = engine.answer(question, TODAY, place)
        worked = answer.kept()
        if answer.rule is None or put_aside({"worked": worked}, ""):
            continue
        filled = fill(shared_text(answer.rule, engine.knowledge), worked, "Ann")
        own, shared = answer.draft.email.splitlines(), filled.text.splitlines()
        assert set(own) <= set(shared) or set(_sentences(own)) <= set(_sentences(shared)), answer.rule.id
        same += own == shared
        shortened += [rule.id] if own != shared else []
    assert same > 200, shortened


def _sentences(lines):
    return [s.strip() for line in lines for s in re.split(r"(?<=[.!?]) |^\d+\. |^[A-Z][a-z ]+: ", line) if s.strip()]


def test_a_mistyped_place_is_refused():
    """It would otherwise go out in square brackets."""
    with pytest.raises(RangeError, match="fgure"):
        places_left_open("Dear [name], put down [fgure lime].")


def test_a_paragraph_of_places_left_empty_is_dropped(lime_store):
    """No date, nothing to ask: no empty label stays behind."""
    worked = {**lime_store.one("ann-1#1")["worked"], "passages": [], "assumed": []}
    filled = fill("Dear [name],\n\nWhen: [dates]\n\nIt would help: [questions]\n\nGood luck.", worked, "Ann")
    assert filled.text == "Dear Ann,\n\nGood luck.\n"
    assert filled.lacking == ()


def test_a_letter_that_lacks_a_figure_among_words_is_put_aside(lime_store):
    """ "Spread [figure x] this week" cannot go to a writer who gave no area."""
    worked = {**lime_store.one("ann-1#1")["worked"], "passages": [], "refused": []}
    assert fill("Spread [figure lime] this week.", worked, "Ann").lacking == ("gives no number for the figure lime",)


@pytest.mark.parametrize(
    ("changes", "worked", "reason"),
    [
        ({}, {}, ""),
        ({"claimed": "Joel"}, {}, "Joel is at work"),
        ({"claimed": "Ida"}, {}, ""),
        ({"asked": 2}, {}, "asks 2 things"),
        ({}, {"hand_off": [{"who": "a soil laboratory"}]}, "a soil laboratory"),
        ({}, {"refused": ["soil_ph: 14"]}, "soil_ph: 14"),
        ({}, {"window": {"state": "closed", "words": "closed about 1 May"}}, "closed about 1 May"),
    ],
)
def test_why_a_letter_is_put_aside(changes, worked, reason):
    """Each reason in words that a volunteer can act on."""
    whole = {"hand_off": [], "refused": [], "window": {"state": "open", "words": "open now"}, **worked}
    row = {"worked": whole, "asked": 1, "claimed": "", **changes}
    found = put_aside(row, "open", "Ida")
    assert reason in found
    assert bool(found) == bool(reason)


def test_a_text_written_by_hand_is_put_aside_unless_it_is_this_very_text(lime_store, engine):
    """A checker can clear what a writer gave to the sheaf; a letter edited by itself keeps its words."""
    ledger = Ledger(lime_store)
    rows = letters(ledger, engine, SHEAF, AT)
    text = "Dear [name], [figure lime]\n"
    laid = lay(rows, text, "", "Ida", proofed=False)
    ledger.edit(rows[0]["question_id"], "email", laid[0].text, "Ida", NOW)
    ledger.edit(rows[1]["question_id"], "email", "something else", "Ida", NOW)
    again = lay(letters(ledger, engine, SHEAF, AT), text, "", "Joel", proofed=False)
    assert [one.aside for one in again] == ["", "somebody has edited its text already", "", "", ""]


def test_what_was_given_on_one_day_is_cleared_on_another(lime_store, engine):
    """A writer gives a text of her own; a checker clears it later, with the dates of that day."""
    ledger, rule = Ledger(lime_store), engine.knowledge.rules["lime-for-acid-soil"]
    text = shared_text(rule, engine.knowledge).replace("With good wishes", "With all good wishes")
    answer_sheaf(ledger, engine, SHEAF, text, "", "Wanda", AT, clears=False)
    later = At(NOW, date(2026, 9, 10))
    count, aside = answer_sheaf(ledger, engine, SHEAF, text, "", "Chet", later)
    assert (count, aside) == (5, [])
    assert all("open now" in row["email"] and "all good wishes" in row["email"] for row in lime_store.rows())


def test_a_letter_that_belongs_elsewhere_by_now_is_not_answered_here(lime_store, engine):
    """Its sheaf is that of its reading, not the one it lay in yesterday."""
    lime_store.db.execute("update answers set sheaf = 'rule:planting-spring-bulbs', drafted_on = ''")
    lime_store.db.conn.commit()
    assert letters(Ledger(lime_store), engine, "rule:planting-spring-bulbs", AT) == []
    assert len(letters(Ledger(lime_store), engine, SHEAF, AT)) == 5


def test_letters_put_aside_do_not_keep_the_others_waiting(lime_store, engine, monkeypatch):
    """When the oldest all are put aside, those behind them are reached."""
    from answers import sheaf_answer

    monkeypatch.setattr(sheaf_answer, "AT_ONCE", 2)
    ledger, rule = Ledger(lime_store), engine.knowledge.rules["lime-for-acid-soil"]
    for id_ in ("ann-1#1", "bert-2#1"):
        ledger.claim(id_, "Joel", NOW)
    count, aside = answer_sheaf(ledger, engine, SHEAF, shared_text(rule, engine.knowledge), "", "Ida", AT)
    assert (count, len(aside)) == (2, 2)
