"""What the desk's pages answer to bad addresses and bad forms: a plain page, the right number, nothing changed."""

import html
from datetime import UTC, date, datetime

import httpx
import pytest

from answers.desk.app import ADDRESSES
from answers.desk.letter_page import Field, in_a_hundred, label, marked, values_told
from answers.desk.people import RIGHTS
from answers.desk.season import Calendar, season
from answers.sheaves import Sheaf

NOW = datetime(2026, 5, 20, 14, 0, tzinfo=UTC)
TODAY = date(2026, 5, 20)
ANN = "/letter/ann-1%231"
SHEAF = "/sheaf/rule:lime-for-acid-soil"


@pytest.fixture
def client(lime_store, engine, served):
    with served(lime_store.path, engine, "Ida") as address, httpx.Client(base_url=address, timeout=30) as opened:
        yield opened


@pytest.fixture
def token(client):
    """The csrf of the one session."""
    page = client.get(ANN).text
    return page.split('name="csrf" value="')[1].split('"')[0]


@pytest.mark.parametrize(
    ("path", "status", "words"),
    [
        ("/letter/nobody%231", 404, "no draft of that id"),
        ("/sheaf/rule:no-such-rule", 200, "0 waiting"),
        ("/sheaf/rule:lime-for-acid-soil?page=x", 200, "5 waiting"),
        ("/sheaf/rule:lime-for-acid-soil?page=²", 200, "5 waiting"),
        ("/sheaf/rule:lime-for-acid-soil?page=" + "9" * 24, 200, "5 waiting"),
        ("/sheaf/rule:lime-for-acid-soil?page=99", 200, "No letter of this sheaf waits"),
        ("/programme?day=yesterday", 400, "a date as YYYY-MM-DD"),
        ("/find?words=%25", 200, "0 found"),
        ("/find?words=acre", 200, "1 found"),
        ("/nowhere", 404, "Not Found"),
    ],
)
def test_addresses(client, path, status, words):
    """An address that leads nowhere says so."""
    answer = client.get(path)
    assert answer.status_code == status
    assert words in answer.text


@pytest.mark.parametrize(
    ("path", "given", "status", "words"),
    [
        (f"{ANN}/edit", {"part": "email", "text": " "}, 400, "1 to 20,000 characters"),
        (f"{ANN}/edit", {"part": "banner", "text": "x"}, 400, "email, cue_card, phone"),
        (f"{ANN}/edit", {"part": "email", "text": "x", "version": "7"}, 409, "since you opened it"),
        (f"{ANN}/move", {"state": "sent"}, 422, "cannot be sent"),
        (f"{ANN}/move", {"state": "held over", "until": "soon"}, 400, "YYYY-MM-DD"),
        (f"{ANN}/correct", {"problem": "no such trouble"}, 400, "no such trouble"),
        (f"{ANN}/correct", {"problem": "soil-acidity", "plant": "triffid"}, 400, "triffid"),
        (f"{ANN}/accept", {"part": "email", "mark": "x", "reason": "because"}, 400, "a mark that the proof makes"),
        (f"{ANN}/tell", {"area_sqft": "9" * 80}, 400, "at most 60"),
        (f"{ANN}/margin", {"part": "banner", "text": ""}, 422, "email, cue_card, phone"),
        (f"{SHEAF}/write", {"text": "Dear [nmae]", "version": "0"}, 400, "[nmae]"),
        (f"{SHEAF}/write", {"text": "Dear [Name]", "version": "0"}, 400, "[Name]"),
        (f"{SHEAF}/write", {"text": "Dear [name", "version": "0"}, 400, "[name"),
        (f"{SHEAF}/write", {"text": "Dear x", "do": "sing"}, 400, "sing"),
        (f"{ANN}/edit", {"part": "email", "text": "a\0b"}, 400, "letters, figures and signs"),
        (f"{ANN}/again", {}, 422, "only an edited text"),
        (f"{SHEAF}/write", {"text": "", "version": "0"}, 400, "1 to 20,000 characters"),
        (f"{SHEAF}/write", {"text": "x", "version": "4"}, 409, "since you opened it"),
        ("/sheaf/unsure/write", {"text": "x"}, 422, "no rule in common"),
        ("/programme", {"do": "put on", "id": "ann-1#1", "day": "2026-05-23"}, 422, "only a cleared answer"),
        ("/people", {"do": "juggle"}, 400, "juggle"),
        ("/people/place", {"place": "atlantis"}, 400, "atlantis"),
        ("/people/place", {"minutes": "999"}, 400, "1 to 240"),
        ("/undo", {}, 422, "no step"),
    ],
)
def test_bad_forms_change_nothing(client, token, lime_store, path, given, status, words):
    """The field, the value and what is allowed are said; no step is taken."""
    answer = client.post(path, data={"csrf": token, **given})
    assert answer.status_code == status, answer.text
    assert words in answer.text.replace("&#39;", "'")
    assert lime_store.ask("select count(*) n from history")[0]["n"] == 0
    assert lime_store.ask("select count(*) n from shared_texts")[0]["n"] == 0


def test_every_address_asks_for_a_right_and_a_reader_may_change_nothing():
    """Each POST needs more than reading, but for what is only tried and not kept."""
    tried = {"/letter/{id:path}/figures", "/letter/{id:path}/margin", "/sheaf/{key:path}/margin"}
    for method, path, right, _ in ADDRESSES:
        assert any(right in rights for rights in RIGHTS.values())
        assert method == "GET" or right != "read" or path in tried, path


def test_what_is_claimed_by_another_is_said_on_the_sheaf(client, lime_store):
    """A letter that somebody is at work on is put aside, not cleared under their hands."""
    from answers.ledger import Ledger

    Ledger(lime_store).claim("bert-2#1", "Joel", NOW)
    assert "Joel is at work on it" in client.get(SHEAF).text


def test_a_sheaf_cleared_with_one_letter_that_differs(client, token, lime_store):
    """Four are cleared; the one whose numbers do not work is put aside with the reason."""
    text = client.get(SHEAF).text.split('name="text"')[1].split(">", 1)[1].split("</textarea>")[0]
    worked = lime_store.one("dov-4#1")["worked"]
    lime_store.save_draft("dov-4#1", {**worked, "refused": ["soil_ph: 14 is not allowed"]})
    answer = client.post(f"{SHEAF}/write", data={"csrf": token, "version": "0", "text": text, "do": "clear"})
    assert answer.status_code == 303
    after = client.get(SHEAF).text
    assert "1 of the 1 on this page is put aside" in after
    assert "soil_ph: 14 is not allowed" in after
    states = {r["question_id"]: r["state"] for r in lime_store.rows()}
    assert states.pop("dov-4#1") == "drafted"
    assert set(states.values()) == {"cleared"}


def test_the_season_lays_sheaves_by_what_closes_first(lime_store, engine, take_in):
    """Open windows by their close, then those that open later, each on the strip where its dates are."""
    take_in(lime_store, engine, [("Fay", "When do I put down crabgrass preventer?"), ("Gus", "aphids on my roses")])
    calendar = Calendar(engine.knowledge, engine.knowledge.places["larkspur-county"], date(2026, 5, 2))
    shown = season(lime_store, calendar)
    keys = [row.sheaf.key for row in shown.sheaves]
    assert keys.index("rule:crabgrass-prevention") == 0
    assert shown.waiting == 7
    assert shown.months[:2] == ("Apr", "May")
    assert 0 < shown.today_at < 100
    for row in shown.sheaves:
        for bar in row.bars:
            assert 0 <= bar.start < bar.start + bar.length <= 100.01


def test_without_a_place_no_window_is_dated(engine):
    """Nothing is guessed."""
    assert Calendar(engine.knowledge, None, TODAY).dates(Sheaf("rule", "crabgrass-prevention")) == ()


@pytest.mark.parametrize(
    ("text", "words", "pieces"),
    [
        ("Soil and soiled soil.", ["soil"], [("Soil", 1), (" and soiled ", 0), ("soil", 1), (".", 0)]),
        ("nothing here", ["soil"], [("nothing here", 0)]),
        ("a+b", ["a+b"], [("a+b", 1)]),
        ("x", [], [("x", 0)]),
    ],
)
def test_deciding_words_are_marked_where_they_stand(text, words, pieces):
    """Whole words only, whatever their capitals."""
    assert [(p.text, int(p.mark)) for p in marked(text, words)] == pieces


@pytest.mark.parametrize(
    ("text", "word", "whole"),
    [("pH 5.4", "5", True), ("5,000 sq ft", "000", True), ("20-0-10", "0", True), ("10-foot", "foot", False)],
)
def test_a_number_is_not_cut_in_two(text, word, whole):
    """Half a number decides nothing."""
    assert (marked(text, [word]) == [(text, False)]) is whole


@pytest.mark.parametrize(("typed", "kept"), [("1,500", 1500.0), ("1,5", "1,5"), ("1/2 acre", "1/2 acre"), ("", None)])
def test_a_comma_parts_thousands_and_nothing_else(typed, kept):
    """What is no plain number is left for the calculator to read or refuse."""
    assert values_told({"area_sqft": typed}, [Field("area_sqft", "area", "7", "the letter")]) == {"area_sqft": kept}


@pytest.mark.parametrize(("chance", "words"), [(0.0, "less than 1"), (0.5, "50 in 100"), (1.0, "over 99")])
def test_a_chance_is_never_said_to_be_nought_or_certain(chance, words):
    """A probability in plain words."""
    assert words in in_a_hundred(chance)


@pytest.mark.parametrize(
    ("name", "words"), [("area_sqft", "area (sq ft)"), ("soil_ph", "soil pH"), ("texture", "texture")]
)
def test_a_measurement_is_named_in_words(name, words):
    """With its unit where the name has one."""
    assert label(name) == words


def test_one_writers_name_does_not_go_to_the_others(client, token, lime_store):
    """A shared text that names a surname of the sheaf is refused, though it is another writer's."""
    text = shared_text_of(client) + "\nPS Mrs. Quillfeather asked the same.\n"
    answer = client.post(f"{SHEAF}/write", data={"csrf": token, "version": "0", "text": text, "do": "clear"})
    assert answer.status_code == 422
    assert "Quillfeather" in answer.text
    assert {r["state"] for r in lime_store.rows()} == {"drafted"}


def test_a_claimed_sheaf_is_left_to_who_claimed_it(client, token, lime_store):
    """Until it is taken over."""
    from answers.ledger import Ledger

    Ledger(lime_store).claim("rule:lime-for-acid-soil", "Joel", NOW)
    form = {"csrf": token, "version": "0", "text": shared_text_of(client), "do": "clear"}
    assert "Joel is at work" in client.post(f"{SHEAF}/write", data=form).text
    client.post(f"{SHEAF}/claim", data={"csrf": token, "do": "take over"})
    assert client.post(f"{SHEAF}/write", data=form).status_code == 303


def test_the_texts_of_a_sheaf_before_can_be_had_again(client, token, lime_store):
    """The one before, and the rule's own; each is kept as a text of its own."""
    own = shared_text_of(client)
    for version, given in enumerate(("First [name]", "Second [name]")):
        client.post(f"{SHEAF}/write", data={"csrf": token, "version": str(version), "text": given})
    client.post(f"{SHEAF}/write", data={"csrf": token, "version": "2", "do": "before"})
    assert shared_text_of(client).strip() == "First [name]"
    client.post(f"{SHEAF}/write", data={"csrf": token, "version": "3", "do": "own"})
    assert shared_text_of(client) == own
    assert lime_store.ask("select count(*) n from shared_texts")[0]["n"] == 4


def shared_text_of(client):
    """The shared text as the page shows it."""
    page = client.get(SHEAF).text
    return html.unescape(page.split('name="text"')[1].split(">", 1)[1].split("</textarea>")[0])


def test_a_fault_of_the_desk_itself_gives_back_what_was_typed(client, token, monkeypatch):
    """No blank page; the words are there to copy."""
    from answers.desk import letter_routes

    monkeypatch.setattr(letter_routes, "MOVES", None)  # the letter's page cannot be made
    answer = client.get(ANN)
    assert answer.status_code == 500
    assert "Something is wrong with the desk itself" in answer.text
