"""Marks as a table to print and as a page with pictures: reliability, and what was decided wrongly.

Not here: the marks (marks.py).
"""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from answers.measuring.marks import Bin, Marks

_ROWS = (
    ("plant right", "plant", True),
    ("plant in the first three", "plant_in_three", True),
    ("problem right", "problem", True),
    ("problem in the first three", "problem_in_three", True),
    ("both right", "both", True),
    ("both in the first three", "both_in_three", True),
    ("kind right", "kind", True),
    ("decided", "decided", True),
    ("wrong among the decided", "wrong_of_decided", True),
    ("expected calibration error", "calibration_error", True),
    ("candidate set holds the problem", "covered", True),
    ("problems in a candidate set", "set_size", False),
    ("amounts found", "amounts_found", True),
    ("amounts right", "amounts_right", True),
    ("emergencies", "emergencies", False),
    ("emergencies missed", "emergencies_missed", False),
    ("false alarms", "false_alarms", False),
)
_NOT_READ = ("amounts_found", "amounts_right", "emergencies_missed", "false_alarms")


def rows(
    ours: Marks, plain: Marks | None, speed: float, plain_speeds: tuple[float, float]
) -> Iterator[tuple[str, str, str]]:
    """(what, Trug's mark, the baseline's mark) in words. Speeds are letters a second.

    Trug reads one letter at a time; the baseline's speeds are for one at a time, as Trug is asked, and for all at once.
    """
    for title, name, share in _ROWS:
        yield title, _say(ours, name, share), "" if plain is None or name in _NOT_READ else _say(plain, name, share)
    yield "letters a second, one by one", f"{speed:.0f}", f"{plain_speeds[0]:.0f}" if plain else ""
    if plain:
        yield "letters a second, all at once", f"{speed:.0f}", f"{plain_speeds[1]:.0f}"


def _say(marks: Marks, name: str, share: bool) -> str:
    value = getattr(marks, name)
    if value is None:
        return ""
    return f"{value:.1%}" if share else f"{value:.2f}".rstrip("0").rstrip(".")


def as_page(title: str, ours: Marks, plain: Marks | None, speed: float, plain_speeds: tuple[float, float]) -> str:
    """A page that stands by itself: no script, nothing fetched."""
    table = "".join(
        f"<tr><th scope=row>{escape(what)}</th><td>{a}</td><td>{b}</td></tr>"
        for what, a, b in rows(ours, plain, speed, plain_speeds)
    )
    wrong = "".join(
        f"<li>{escape(g.problem or 'none of ours')} read as {escape(r.problem or '')} at {r.confidence:.2f}: "
        f"{escape(g.text)}</li>"
        for g, r in ours.wrong
    )
    return (
        f"<!doctype html><html lang=en><meta charset=utf-8><title>{escape(title)}</title><meta name=viewport "
        'content="width=device-width"><style>body{font:16px/1.5 sans-serif;max-width:60rem;margin:2rem auto;'
        "padding:0 1rem;color:#222;background:#fffdf8}td,th{padding:.2rem .8rem;text-align:right}"
        "th{text-align:left;font-weight:400}"
        f"</style><h1>{escape(title)}</h1><p>{ours.letters} letters.</p><table><thead><tr><th>mark<td>Trug<td>baseline"
        f"<tbody>{table}</table><h2>Is it right as often as it says?</h2>{_reliability(ours.bins)}"
        f"<h2>Decided and wrong</h2><ol>{wrong}</ol></html>\n"
    )


def _reliability(bins: tuple[Bin, ...]) -> str:
    """Confidence across, share right up; the line is what it should be, the circles' area the letters."""
    dots = "".join(
        f'<circle cx="{40 + b.confidence * 300:.1f}" cy="{320 - b.right * 300:.1f}" r="{2 + b.count**0.5:.1f}" '
        f'fill="#3f7d4e" fill-opacity=".7"><title>{b.count} letters, {b.confidence:.2f} sure, {b.right:.2f} right'
        "</title></circle>"
        for b in bins
    )
    return (
        '<svg viewBox="0 0 360 350" width="360" role="img" aria-label="Reliability: share right against confidence">'
        '<rect x="40" y="20" width="300" height="300" fill="none" stroke="#999"/>'
        f'<line x1="40" y1="320" x2="340" y2="20" stroke="#999" stroke-dasharray="4"/>{dots}'
        '<text x="190" y="345" text-anchor="middle" font-size="12">confidence, 0 to 1</text>'
        '<text transform="translate(28,170) rotate(-90)" text-anchor="middle" font-size="12">share right, 0 to 1</text>'
        "</svg>"
    )
