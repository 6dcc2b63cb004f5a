"""Files of every kind into letters, and the small functions on the way.

Not here: letters meant to break intake (tests/hostile).
"""

from __future__ import annotations

import io
import unicodedata
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from answers.letters.attachments import LARGEST, keep, safe_name
from answers.letters.letter import Letter
from answers.letters.mailbox import letter_from
from answers.letters.plain_text import clean, html_to_text, own_words
from answers.letters.privacy import first_name, private_strings, public_text, writer_of
from answers.letters.reader import read_letters
from answers.letters.split import questions
from kb.errors import LetterError

HEAD = b"From: Jane Doe <jane@example.org>\n"


@given(st.text())
def test_clean_leaves_no_control(text: str) -> None:
    """Whatever comes in, no control, direction or escape character comes out."""
    assert not [c for c in clean(text) if c != "\n" and unicodedata.category(c) in ("Cc", "Cf", "Cs")]


@given(st.text())
def test_safe_name_is_one_name(name: str) -> None:
    """A safe name never holds a folder mark and is never empty or too long."""
    made = safe_name(name)
    assert 0 < len(made) <= 80
    assert not set(made) & set("/\\\0:")
    assert made not in (".", "..")


@given(st.binary(max_size=400))
def test_any_bytes_make_a_letter(data: bytes) -> None:
    """Random bytes as a message give a letter with an id, never an exception."""
    assert letter_from(data, "x.eml").id


@pytest.mark.parametrize(
    ("headers", "sort"),
    [
        (b"Subject: Oak\n", "letter"),
        (b"Subject: Oak\nAuto-Submitted: auto-replied\n", "auto-reply"),
        (b"Subject: Out of office until May\n", "auto-reply"),
        (b"Subject: News\nList-Id: <n.example.org>\n", "newsletter"),
        (b"Subject: Offer\nList-Unsubscribe: <x>\n", "newsletter"),
        (b"Subject: Failed\nContent-Type: multipart/report; boundary=b\n", "bounce"),
    ],
)
def test_sorts(headers: bytes, sort: str) -> None:
    """The headers of a message say what sort it is."""
    letter = letter_from(HEAD + headers + b"\nWhy are my oak leaves brown?\n", "x.eml")
    assert letter.sort == sort
    assert bool(questions(letter)) == (sort == "letter")


@pytest.mark.parametrize(("subject", "sort"), [(b"", "empty"), (b"When do I prune roses?", "letter")])
def test_empty_body(subject: bytes, sort: str) -> None:
    """An empty body is an empty letter only when the subject asks nothing."""
    assert letter_from(HEAD + b"Subject: " + subject + b"\n\n", "x.eml").sort == sort


def test_follows() -> None:
    """A reply names the letter it follows."""
    assert letter_from(HEAD + b"In-Reply-To: <first@example.org>\n\nIt died.\n", "x.eml").follows == "first@example.org"


@pytest.mark.parametrize("mark", [",", ";", "\t", "|"])
def test_csv_any_order(tmp_path: Path, mark: str) -> None:
    """A form export is read whatever its column order and delimiter."""
    path = tmp_path / "form.csv"
    rows = [
        ["Question", "Last Name", "First Name", "Date", "City"],
        ["Why brown oak?", "Doe", "Jane", "6/1/2026", "Elm"],
    ]
    path.write_text("\n".join(mark.join(r) for r in rows))
    letter = next(read_letters([path]))
    assert (letter.body, letter.sent, letter.writer.town) == ("Why brown oak?", date(2026, 6, 1), "Elm")
    assert (letter.writer.first_name, letter.writer.full_name) == ("Jane", "Jane Doe")


def test_ids_differ_between_files(tmp_path: Path) -> None:
    """Two files of the same name in two folders do not hide each other's letters, and ids do not change."""
    paths = [tmp_path / "a" / "form.csv", tmp_path / "b" / "form.csv"]
    for path, plant in zip(paths, ("oak", "elm"), strict=True):
        path.parent.mkdir()
        path.write_text(f"name,question\nJane,Why is my {plant} brown?\n")
    letters = list(read_letters(paths))
    assert [x.sort for x in letters] == ["letter", "letter"]
    assert [x.id for x in letters] == [x.id for x in read_letters(paths)]


def test_duplicate_is_marked(tmp_path: Path) -> None:
    """The same row twice is a letter and a duplicate."""
    path = tmp_path / "form.csv"
    path.write_text("name,question\nJane,Why is my oak brown?\nJane,Why is my oak brown?\n")
    assert [x.sort for x in read_letters([path])] == ["letter", "duplicate"]


@pytest.mark.parametrize("between", ["\n-----\n", "\n=====\n", "\n\n"])
def test_notes(tmp_path: Path, between: str) -> None:
    """Call notes parted by a rule or a blank line and a new caller come apart."""
    path = tmp_path / "calls.txt"
    path.write_text(f"Caller: Ann\nTown: Elm\n\nOak is brown?{between}Caller: Bob\n\nElm is brown?\n")
    assert [x.writer.first_name for x in read_letters([path])] == ["Ann", "Bob"]


@pytest.mark.parametrize(
    ("name", "text", "words"),
    [
        ("a.csv", "x,y\n1,2\n", "question"),
        ("a.jsonl", '{"body": "x"}\n{oops\n', "a.jsonl:2"),
        ("a.jsonl", '{"id": "1"}\n', "body"),
        ("a.xyz", "hello", "unknown"),
        ("a.txt", "", "empty"),
    ],
)
def test_faults_are_named(tmp_path: Path, name: str, text: str, words: str) -> None:
    """A file that cannot be read says which, and where."""
    (tmp_path / name).write_text(text)
    with pytest.raises(LetterError, match=words) as fault:
        list(read_letters([tmp_path / name]))
    assert "\n" not in str(fault.value)


@pytest.mark.parametrize(
    ("name", "first"), [("Doe, Jane", "Jane"), ("Mrs. Jane Doe", "Jane"), ("Doe Family", ""), ("JANE DOE", "Jane")]
)
def test_first_name(name: str, first: str) -> None:
    """The name to greet by."""
    assert first_name(name) == first


def test_private_details_go() -> None:
    """Surname, street, phone and address are blotted out; first name and town stay."""
    text = "Jane Doe, 12 Oak Street, Elmford, WI 53000, 555-123-4567, jane@example.org"
    writer = writer_of("Jane Doe", "jane@example.org", text)
    shown = public_text(text, private_strings(writer, text))
    assert "Jane" in shown
    assert not [s for s in ("Doe", "12 Oak", "555", "@") if s in shown]


@pytest.mark.parametrize(
    ("body", "count"),
    [
        ("1) Why is my oak brown?\n2) When do I prune roses?", 2),
        ("Why is my oak brown? Also, when should I prune roses?", 2),
        ("We moved in May. The oak was fine. Then it went brown. Why is that?", 1),
    ],
)
def test_split(body: str, count: int) -> None:
    """Several questions come apart and one story stays one."""
    assert len(questions(Letter("1", None, "Question", body))) == count


def test_quoted_reply_goes() -> None:
    """A quoted letter below the writer's own words comes off; a letter that is all quote stays."""
    said = own_words("It got worse.\n\nOn Mon, Jun 1, 2026 at 9:00 AM Show <s@example.org> wrote:\n> Water it.\n")
    assert "worse" in said
    assert "Water" not in said
    assert "Oak" in own_words("> Oak is brown?")


def test_white_on_dark_stays() -> None:
    """White words are hidden on white paper only."""
    assert "oak" in html_to_text("<div style='background:#000'><p style='color:#fff'>oak</p></div>")


def test_photo_loses_camera_data() -> None:
    """A photo is drawn anew without its camera data, and one too large is left out with a note."""
    out, exif = io.BytesIO(), Image.Exif()
    exif[0x010F] = "Camera"
    Image.new("RGB", (8, 8)).save(out, "JPEG", exif=exif)
    photo, large = keep([("a.jpg", "image/jpeg", out.getvalue()), ("a.jpg", "image/jpeg", b"x" * (LARGEST + 1))])
    assert not dict(Image.open(io.BytesIO(photo.data)).getexif())
    assert (large.data, large.name) == (b"", "a-2.jpg")
    assert "too large" in large.note
