"""A letter into its questions: "1) ... 2) ..." and "Also, ..." come apart; a story around one question stays one.

Not here: what a question means (answers/reading).
"""

from __future__ import annotations

import re

from answers.letters.letter import Letter, Question

_NUMBERED = re.compile(r"(?:^|\n)\s*(?:\(?[1-9][.)]|question (?:one|two|three|[1-9])\b[:.]?|q[1-9][:.])\s+", re.I)
_SECOND = re.compile(
    r"(?:^|(?<=[.?!]\s)|\n)\s*(?=(?:(?:my )?(?:second|other|another|next) question|one more (?:thing|question)"
    r"|also,? (?:how|when|what|why|can|is|should|my|our|the|i (?:have|would|want))|and another thing|on another (?:note|subject)"
    r"|p\.?s\.?[ :,])\b)",
    re.I,
)
_GREETING = re.compile(
    r"^\s*(?:dear|hi|hello|hey|good (?:morning|afternoon|evening)|greetings)\b[^\n,!.]{0,40}[,!.:]*\s*", re.I
)
_SIGN_OFF = re.compile(
    r"\n\s*(?:thanks?(?: you)?(?: so much| very much| in advance| again)?|(?:many|with) thanks|sincerely(?: yours)?|regards|best(?: wishes| regards)?"
    r"|yours(?: truly)?|cheers|respectfully|warmly|gracias)\s*[,.!]*\s*(?:\n[^\n]{0,60}){0,5}\s*$",
    re.I,
)
_SUBJECT_NOISE = re.compile(r"^(?:(?:re|fwd?|aw|wg|sv|tr|rv)\s*:\s*)+", re.I)
_DULL = {
    "",
    "question",
    "garden question",
    "gardening question",
    "help",
    "hello",
    "hi",
    "question for the show",
    "none",
    "(no subject)",
    "no subject",
}
FEWEST_WORDS = 4  # a piece shorter than this joins the one before


def questions(letter: Letter) -> list[Question]:
    """The questions of a letter; none when it is an auto-reply, bounce, newsletter, duplicate or empty."""
    if letter.sort != "letter":
        return []
    subject = _SUBJECT_NOISE.sub("", letter.subject).strip()
    body = _SIGN_OFF.sub("", _GREETING.sub("", letter.body)).strip() or letter.body.strip()
    pieces = _pieces(body)
    lead = "" if subject.lower().strip(" ?!.") in _DULL or subject.lower() in body.lower() else subject
    if len(pieces) <= 1:
        pieces = ["\n".join(p for p in (lead, body) if p)]
    elif lead and len(pieces) > 1 and pieces[0]:
        pieces = [f"{lead}\n{pieces[0]}", *pieces[1:]]
    has_photo = any(a.media_type.startswith("image/") and a.data for a in letter.attachments)
    return [
        Question(letter.id, part, text, letter.sent, letter.writer, letter.sort, has_photo, letter.private)
        for part, text in enumerate((p for p in pieces if p.strip()), start=1)
    ]


def _pieces(body: str) -> list[str]:
    numbered = _NUMBERED.split(body)
    if len(numbered) > 2:
        first, *rest = (p.strip() for p in numbered)
        return rest if len(first.split()) < 25 and "?" not in first else [first, *rest]
    made: list[str] = []
    for piece in (p.strip() for p in _SECOND.split(body)):
        if made and (len(piece.split()) < FEWEST_WORDS or "?" not in made[-1]):
            made[-1] = f"{made[-1]} {piece}"  # nothing was asked yet: still the same story
        elif piece:
            made.append(piece)
    if len(made) > 1 and "?" not in made[-1] and not re.search(r"\b(how|when|what|why|should|can)\b", made[-1], re.I):
        last = made.pop()
        made[-1] = f"{made[-1]} {last}"
    return made
