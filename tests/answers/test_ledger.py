"""Every step by a person is kept with its way back, and nobody's words are overwritten without a word."""

from datetime import UTC, date, datetime, timedelta

import pytest

from answers.ledger import MOVES, PARTS, Ledger, accepted
from kb.errors import ConflictError, RangeError, StepError

TODAY = date(2026, 5, 20)
NOW = datetime(2026, 5, 20, 14, 0, tzinfo=UTC)

ANN = "ann-1#1"


@pytest.fixture
def ledger(lime_store):
    return Ledger(lime_store)


def test_an_edit_is_kept_and_can_be_taken_back(ledger):
    """The text, the state and who did it; taking it back gives all three as they were."""
    before = ledger.store.one(ANN)
    ledger.edit(ANN, "email", "Dear Ann,\r\nby hand", "Ida", NOW)
    after = ledger.store.one(ANN)
    assert (after["email"], after["state"]) == ("Dear Ann,\nby hand\n", "edited")
    assert ledger.history(ANN)[0]["did"] == "edited the e-mail reply"
    assert ledger.undo("Ida", NOW) == "edited the e-mail reply"
    again = ledger.store.one(ANN)
    assert {k: again[k] for k in (*PARTS, "state")} == {k: before[k] for k in (*PARTS, "state")}


def test_steps_are_taken_back_one_by_one_until_none_is_left(ledger):
    """Two steps back, then a plain word that there is no more."""
    first = ledger.store.one(ANN)["email"]
    ledger.edit(ANN, "email", "one", "Ida", NOW)
    ledger.edit(ANN, "email", "two", "Ida", NOW)
    ledger.undo("Ida", NOW)
    assert ledger.store.one(ANN)["email"] == "one\n"
    ledger.undo("Ida", NOW)
    assert ledger.store.one(ANN)["email"] == first
    with pytest.raises(StepError, match="no step"):
        ledger.undo("Ida", NOW)


def test_a_step_under_anothers_is_not_taken_back(ledger):
    """What somebody did since stands, and is named."""
    ledger.edit(ANN, "email", "Ida's", "Ida", NOW)
    ledger.edit(ANN, "email", "Joel's", "Joel", NOW)
    with pytest.raises(ConflictError, match="Joel edited the e-mail reply"):
        ledger.undo("Ida", NOW)
    assert ledger.store.one(ANN)["email"] == "Joel's\n"


def test_what_was_changed_since_it_was_opened_is_not_overwritten(ledger):
    """The second of two people is told whose words stand."""
    version = ledger.store.one(ANN)["version"]
    ledger.edit(ANN, "email", "Joel's", "Joel", NOW, version)
    with pytest.raises(ConflictError, match="Joel edited the e-mail reply"):
        ledger.edit(ANN, "email", "Ida's", "Ida", NOW, version)
    assert ledger.store.one(ANN)["email"] == "Joel's\n"


def test_a_step_with_several_letters_is_whole_or_not_at_all(ledger):
    """One letter that cannot be changed leaves the others as they were."""
    from answers.ledger import Change

    stale = [Change(ANN, {"state": "edited"}, 0), Change("bert-2#1", {"state": "edited"}, 7)]
    with pytest.raises(ConflictError):
        ledger.step(stale, "Ida", "tried", NOW)
    assert ledger.store.one(ANN)["state"] == "drafted"
    assert ledger.history(ANN) == []


def test_a_claim_is_seen_respected_taken_over_and_runs_out(ledger):
    """Another cannot write while it holds; half an hour after its last use it is gone."""
    ledger.claim(ANN, "Ida", NOW)
    assert ledger.claimed_by(ANN, NOW) == "Ida"
    with pytest.raises(ConflictError, match="Ida is at work"):
        ledger.edit(ANN, "email", "Joel's", "Joel", NOW)
    with pytest.raises(ConflictError, match="Ida is at work"):
        ledger.claim(ANN, "Joel", NOW)
    assert ledger.claimed_by(ANN, NOW + timedelta(minutes=31)) == ""
    ledger.claim(ANN, "Joel", NOW, take_over=True)
    ledger.release(ANN, "Ida")
    assert ledger.claimed_by(ANN, NOW) == "Joel"


@pytest.mark.parametrize(
    ("path", "allowed"),
    [
        (["held over", "edited", "handed on"], True),
        (["not for us", "edited", "held over"], True),
        (["sent"], False),
        (["handed on", "held over"], False),
    ],
)
def test_a_letters_way(ledger, path, allowed):
    """Held over, handed on or set aside, and taken up again; never sent before it is cleared."""

    def walk():
        for state in path:
            ledger.move(ANN, state, "Ida", NOW, "why", date(2026, 9, 1) if state == "held over" else None)

    if allowed:
        walk()
        assert ledger.store.one(ANN)["state"] == path[-1]
    else:
        with pytest.raises(StepError, match="cannot be"):
            walk()


def test_every_state_that_may_follow_is_a_state():
    """The table of moves leads nowhere unknown."""
    assert {after for moves in MOVES.values() for after in moves} <= set(MOVES)


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"part": "letterhead"}, "part"),
        ({"text": "  \n "}, "text"),
        ({"text": "x" * 20_001}, "text"),
        ({"by": " "}, "by"),
    ],
)
def test_bad_input_names_the_field(ledger, change, field):
    """And nothing is changed."""
    given = {"part": "email", "text": "fine", "by": "Ida", **change}
    with pytest.raises(RangeError, match=field):
        ledger.edit(ANN, given["part"], given["text"], given["by"], NOW)
    assert ledger.history(ANN) == []


def test_a_mark_stands_for_a_reason_that_is_kept(ledger):
    """Who said so is kept with it; without a reason it does not stand."""
    ledger.accept(ANN, "email", "unsourced number: 7", "the lab told me", "Ida", NOW)
    assert accepted(ledger.store.one(ANN)) == {("email", "unsourced number: 7"): "the lab told me (Ida)"}
    ledger.undo("Ida", NOW)
    assert accepted(ledger.store.one(ANN)) == {}
    with pytest.raises(RangeError, match="reason"):
        ledger.accept(ANN, "email", "x", " ", "Ida", NOW)


def test_what_a_person_tells_is_a_step_that_can_be_taken_back(ledger, engine):
    """Numbers and what it is about: kept, worked out anew, and both as they were after undo."""
    from answers.drafting import At, keep_told

    before = ledger.store.one(ANN)
    keep_told(ledger, engine, ANN, {"values": {"area_sqft": 4800.0}}, "Ida", At(NOW, TODAY))
    assert "4,800 square feet" in ledger.store.one(ANN)["email"]
    keep_told(ledger, engine, ANN, {"problem": "soil-testing", "plant": "lawn"}, "Ida", At(NOW, TODAY))
    assert ledger.store.told(ANN) == ("soil-testing", "lawn", {"area_sqft": 4800.0})
    assert ledger.store.corrections() == [(before["text"], "soil-testing", "lawn")]
    assert "it is about soil-testing" in ledger.history(ANN)[0]["did"]
    ledger.undo("Ida", NOW)
    ledger.undo("Ida", NOW)
    after = ledger.store.one(ANN)
    assert {k: after[k] for k in ("email", "worked", "sheaf", "told")} == {
        k: before[k] for k in ("email", "worked", "sheaf", "told")
    }
    assert ledger.store.corrections() == []


def test_a_number_no_calculator_takes_is_not_kept(ledger, engine):
    """The range is said, and nothing has changed."""
    from answers.drafting import At, keep_told

    with pytest.raises(RangeError, match="soil_ph"):
        keep_told(ledger, engine, ANN, {"values": {"soil_ph": 17.0}}, "Ida", At(NOW, TODAY))
    assert ledger.history(ANN) == []


def test_drafts_of_an_earlier_day_are_made_again_unless_somebody_changed_them(ledger, engine):
    """The dates in an untouched draft are those of today; a person's words stay."""
    from answers.drafting import fresh

    ledger.edit("bert-2#1", "email", "Bert's own", "Ida", NOW)
    rows = [ledger.store.one(ANN), ledger.store.one("bert-2#1")]
    later = date(2026, 9, 10)
    ann, bert = fresh(ledger.store, engine, rows, later)
    assert "open now" in ann["email"]
    assert "open now" not in rows[0]["email"]
    assert bert["email"] == "Bert's own\n"
    assert [id_ for id_, _ in ledger.store.waiting(later)] == ["cleo-3#1", "dov-4#1", "edda-5#1"]


def test_an_edited_text_is_proofed_against_the_dates_of_today(ledger, engine):
    """Words that were true while the window was open are marked once it has closed."""
    from answers.clearing import clear
    from answers.drafting import fresh

    open_day, later = date(2026, 9, 10), date(2027, 6, 10)
    row = fresh(ledger.store, engine, [ledger.store.one(ANN)], open_day)[0]
    assert "open now, until about" in row["email"]
    ledger.edit(ANN, "email", row["email"].replace("Dear Ann,", "Dear Ann, good day,"), "Ida", NOW)
    fresh(ledger.store, engine, [ledger.store.one(ANN)], later)
    with pytest.raises(StepError, match="open now: it is not"):
        clear(ledger, ANN, "Ida", NOW)


def test_what_is_cleared_is_so_no_longer_when_its_numbers_change(ledger, engine):
    """Nobody stands by a figure that was worked again."""
    from answers.clearing import clear
    from answers.drafting import At, keep_told

    clear(ledger, ANN, "Ida", NOW)
    keep_told(ledger, engine, ANN, {"values": {"area_sqft": 4800.0}}, "Joel", At(NOW, TODAY))
    row = ledger.store.one(ANN)
    assert (row["state"], row["cleared_by"]) == ("drafted", None)
    assert "4,800 square feet" in row["email"]


def test_only_the_texts_that_people_changed_are_kept(ledger, engine):
    """The e-mail by hand stays; cue card and phone script follow the numbers."""
    from answers.drafting import At, keep_told

    ledger.edit(ANN, "email", "Dear Ann, by hand", "Ida", NOW)
    phone = ledger.store.one(ANN)["phone"]
    keep_told(ledger, engine, ANN, {"values": {"area_sqft": 4800.0}}, "Ida", At(NOW, TODAY))
    row = ledger.store.one(ANN)
    assert (row["email"], row["state"]) == ("Dear Ann, by hand\n", "edited")
    assert row["phone"] != phone


def test_a_draft_of_today_does_not_overwrite_what_is_being_cleared(ledger, engine):
    """Its version rises with its words, so a page of yesterday clears nothing unseen."""
    from answers.clearing import clear
    from answers.drafting import fresh

    seen = ledger.store.one(ANN)
    fresh(ledger.store, engine, [seen], date(2026, 9, 10))
    with pytest.raises(ConflictError, match="worked out anew"):
        clear(ledger, ANN, "Ida", NOW, seen["version"])


def test_an_acceptance_lapses_when_the_figure_becomes_another(ledger, engine):
    """ "150 pounds" was let stand against 205, not against 410."""
    from answers.clearing import accept, clear, marks
    from answers.drafting import At, keep_told

    email = ledger.store.one(ANN)["email"].replace("about 205 pounds", "about 150 pounds")
    ledger.edit(ANN, "email", email, "Ida", NOW)
    for found in marks(ledger.store.one(ANN)):
        accept(ledger, ANN, found.part, found.mark.key, "the laboratory's", "Ida", NOW)
    keep_told(ledger, engine, ANN, {"values": {"area_sqft": 4800.0}}, "Ida", At(NOW, TODAY))
    with pytest.raises(StepError, match="150 pounds"):
        clear(ledger, ANN, "Ida", NOW)


def test_the_programs_own_draft_can_be_laid_again_and_that_taken_back(ledger):
    """Both texts can be had."""
    from answers.drafting import lay_again

    own = ledger.store.one(ANN)["email"]
    ledger.edit(ANN, "email", "by hand", "Ida", NOW)
    lay_again(ledger, ANN, "Ida", NOW)
    assert (ledger.store.one(ANN)["email"], ledger.store.one(ANN)["state"]) == (own, "drafted")
    ledger.undo("Ida", NOW)
    assert ledger.store.one(ANN)["email"] == "by hand\n"


def test_a_draft_got_back_by_undo_follows_the_day(ledger, engine):
    """Its dates are soon those of today, as those of a draft that was never touched."""
    from answers.drafting import fresh

    ledger.edit(ANN, "email", "by hand", "Ida", NOW)
    fresh(ledger.store, engine, [ledger.store.one(ANN)], date(2026, 9, 10))
    ledger.undo("Ida", NOW)
    assert "open now" in fresh(ledger.store, engine, [ledger.store.one(ANN)], date(2026, 9, 10))[0]["email"]


def test_a_letter_opened_again_is_a_draft_still_when_nobody_changed_it(ledger):
    """Held over and taken up again, it goes on following the day."""
    ledger.move(ANN, "held over", "Ida", NOW, "", date(2026, 9, 1))
    ledger.move(ANN, "edited", "Ida", NOW)
    assert ledger.store.one(ANN)["state"] == "drafted"
