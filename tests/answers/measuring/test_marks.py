"""Marks worked by hand on a few readings; the baseline and the page."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from answers.measuring.gold import Gold, read_gold
from answers.measuring.marks import Bin, mark, reliability
from answers.measuring.page import as_page, rows
from answers.reading.reading import Candidate, Measurement, Reading
from kb.errors import LetterError


def _reading(plant, problem, chance, decided=True, others=(), amounts=None, emergency=False) -> Reading:
    pairs = (Candidate(plant, problem, chance), *(Candidate(plant, p, 0.1) for p in others))
    return Reading("rate", plant, problem, pairs, chance, decided, emergency, measurements=amounts or {})


PAIRS = [
    (Gold("1", "a", "rose", "black-spot", "rate"), _reading("rose", "black-spot", 0.95)),
    (Gold("2", "b", "rose", "rust", "rate"), _reading("rose", "black-spot", 0.85, others=["rust"])),
    (Gold("3", "c", "oak", "galls", "timing", also=("scale",)), _reading("tree", "scale", 0.75)),
    (Gold("4", "d", None, None, "rate"), _reading("rose", "rust", 0.65, decided=False)),
    (Gold("5", "e", None, None, "safety", emergency=True), _reading(None, None, 0.0, False)),
    (
        Gold("6", "f", "lawn", "lime", "rate", amounts={"width_ft": 40, "soil_ph": 5.4, "count": 3}),
        _reading("lawn", "lime", 0.95, amounts={
            "length_ft": Measurement("length_ft", 40.0, "40"), "width_ft": Measurement("width_ft", 60.0, "60"),
            "soil_ph": Measurement("soil_ph", 6.4, "6.4"),
        }),
    ),
]  # fmt: skip


def test_marks_by_hand() -> None:
    """Four letters are asked about a problem of ours; three of their problems and two of their plants are right."""
    found = mark(PAIRS)
    assert (found.letters, found.problem, found.problem_in_three) == (6, 0.75, 1.0)
    assert (found.plant, found.both) == (0.75, 0.5)
    assert found.decided == 1.0
    assert found.wrong_of_decided == 0.25
    assert [g.id for g, _ in found.wrong] == ["2"]
    assert (found.emergencies, found.emergencies_missed, found.false_alarms) == (1, 1, 0)
    assert (found.amounts_found, found.amounts_right) == pytest.approx((2 / 3, 1 / 3))
    assert found.set_size == 1.25
    assert found.kind == pytest.approx(4 / 6)


def test_kinds_that_are_not_told_are_not_marked() -> None:
    """A file of letters without kinds leaves that line of the table empty; one letter without is left out."""
    untold = (Gold("7", "g", "rose", "rust"), _reading("rose", "rust", 0.9))
    assert mark([*PAIRS, untold]).kind == pytest.approx(4 / 6)
    assert mark([untold]).kind is None
    assert ("kind right", "", "") in list(rows(mark([untold]), None, 1.0, (0.0, 0.0)))


def test_calibration_by_hand() -> None:
    """Bins of ten: two at 0.95 both right, one each at 0.85 wrong, 0.75 right and 0.65 wrong."""
    found = mark(PAIRS)
    assert found.calibration_error == pytest.approx((2 * 0.05 + 0.85 + 0.25 + 0.65) / 5)
    assert reliability([(1.0, True)]) == (Bin(1, 1.0, 1.0),)


def test_calibration_error_is_scikit_learns() -> None:
    """The bins' means are those of scikit-learn's calibration_curve."""
    import numpy as np
    from sklearn.calibration import calibration_curve

    rng = np.random.default_rng(1)
    sure = rng.random(500)
    right = rng.random(500) < sure
    theirs = calibration_curve(right, sure, n_bins=10)
    ours = reliability(list(zip(sure.tolist(), right.tolist(), strict=True)))
    assert [b.right for b in ours] == pytest.approx(theirs[0].tolist())
    assert [b.confidence for b in ours] == pytest.approx(theirs[1].tolist())


def test_the_page_is_whole_and_harmless() -> None:
    """Letters are shown as text, whatever they hold; every mark of the table is on the page."""
    nasty = Gold("9", "<script>alert(1)</script>", "rose", "rust")
    page = as_page("Marks", mark([*PAIRS, (nasty, _reading("rose", "black-spot", 0.9))]), None, 100.0, (0.0, 0.0))
    assert "<script>" not in page
    assert "&lt;script&gt;" in page
    for what, mine, _ in rows(mark(PAIRS), None, 100.0, (0.0, 0.0)):
        assert what in page
        assert mine


@pytest.mark.parametrize(
    ("line", "fault"),
    [("not json", "gold.jsonl:1"), ('{"plant": "rose"}', "text"), ("[1]", "gold.jsonl:1"), ("", "holds no letters")],
)
def test_a_bad_gold_file_names_its_line(tmp_path: Path, line: str, fault: str) -> None:
    """Nothing is guessed about a line that is not a gold letter."""
    path = tmp_path / "gold.jsonl"
    path.write_text(line)
    with pytest.raises(LetterError, match=fault):
        read_gold(path)


@pytest.mark.parametrize(
    ("half", "least"),
    [
        *(("dev", 200), ("test", 200), ("later", 100), ("last", 80)),
        *(("plants", 100), ("mixed", 180), ("varied", 270), ("fresh", 90), ("post", 120), ("county", 80), ("bag", 88)),
        ("neighbors", 90),
    ],
)
def test_the_gold_letters_are_sound(half: str, least: int) -> None:
    """Every line is a letter on plants and problems that exist."""
    from kb.load import load

    k = load()
    letters = read_gold(Path(__file__).parents[2] / "gold" / f"{half}.jsonl")
    assert len(letters) >= least
    for g in letters:
        assert g.text.strip()
        assert g.problem is None or g.problem in k.rules_by_problem
        assert g.plant is None or g.plant in k.plants


def test_the_halves_are_apart() -> None:
    """No letter for measuring stands in what the reading learns from, in the development half or the demonstration."""
    from kb.load import load

    root = Path(__file__).parents[3]
    kept = [
        line
        for name in ("test", "later", "last", "fresh", "county", "neighbors", "urgent")
        for line in (root / f"tests/gold/{name}.jsonl").read_text().splitlines()
    ]
    grams = [_eights(json.loads(line)["text"]) for line in kept]
    k = load()
    seen: set[str] = set()
    for text in (
        *(json.loads(line)["text"] for line in (root / "tests/gold/dev.jsonl").read_text().splitlines()),
        *(e for r in k.rules.values() for e in r.letters),
        *k.other_letters,
        *(told.letter for told in k.amount_letters.values()),
        *(letter for letters in k.urgent_letters.values() for letter in letters),
        *(letter for letters in k.plant_letters.values() for letter in letters),
        *(words for looks in k.looks.values() for words in looks.told),
        (root / "demo_questions/letters.mbox").read_text(),
    ):
        seen |= _eights(text)
    assert [next(iter(g & seen)) for g in grams if g & seen] == []


def _eights(text: str) -> set[str]:
    words = text.lower().split()
    return {" ".join(words[i : i + 8]) for i in range(len(words) - 7)}
