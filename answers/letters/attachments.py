"""Files that came with a letter, under safe names, within limits, photos without their camera position.

Not here: reading the mail they came in (mailbox.py).
"""

from __future__ import annotations

import io
import re
import unicodedata
import warnings
from collections.abc import Iterable

from answers.letters.letter import Attachment

LARGEST = 10 * 1024 * 1024  # bytes for one file
LARGEST_ALL = 25 * 1024 * 1024  # bytes for one letter's files
_RESERVED = {"con", "prn", "aux", "nul", *(f"{p}{n}" for p in ("com", "lpt") for n in range(1, 10))}


def safe_name(name: str, taken: Iterable[str] = ()) -> str:
    """A file name without folders, control characters or reserved words, at most 80 characters, not in `taken`."""
    plain = unicodedata.normalize("NFKC", name).replace("\\", "/").rsplit("/", 1)[-1]
    plain = re.sub(r"[^\w.() -]", "_", plain).strip(" .") or "file"
    stem, dot, ending = plain.rpartition(".")
    stem, ending = (stem, ending[:10]) if dot and stem else (plain, "")
    if stem.lower() in _RESERVED:
        stem = "_" + stem
    made, count, used = "", 1, {t.lower() for t in taken}
    while not made or made.lower() in used:
        tail = f"-{count}" if count > 1 else ""
        made = stem[: 80 - len(ending) - len(tail) - 1] + tail + (f".{ending}" if ending else "")
        count += 1
    return made


def keep(files: Iterable[tuple[str, str, bytes]]) -> tuple[Attachment, ...]:
    """(name, media type, data) as Attachments; what is too large or broken is left out, with a note saying so."""
    kept: list[Attachment] = []
    total = 0
    for name, media_type, data in files:
        safe = safe_name(name or "file", [a.name for a in kept])
        total += len(data)
        if len(data) > LARGEST or total > LARGEST_ALL:
            kept.append(Attachment(safe, media_type, b"", f"left out: {len(data) / 1048576:.1f} MB is too large"))
        elif media_type.startswith("image/"):
            kept.append(_photo(safe, media_type, data))
        else:
            kept.append(Attachment(safe, media_type, data))
    return tuple(kept)


def _photo(name: str, media_type: str, data: bytes) -> Attachment:
    """The picture drawn anew, which leaves camera position and every other note in the file behind."""
    from PIL import Image, ImageOps

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(io.BytesIO(data)) as picture:
                upright = ImageOps.exif_transpose(picture)
                fresh = Image.new("RGB", upright.size)
                fresh.paste(upright.convert("RGB"))
        out = io.BytesIO()
        png = media_type == "image/png"
        fresh.save(out, "PNG" if png else "JPEG", **({} if png else {"quality": 90}))
    except Exception as fault:  # a broken or hostile picture may fail anywhere in the decoder
        return Attachment(name, media_type, b"", f"left out: not a readable picture ({type(fault).__name__})")
    return Attachment(name, media_type if png else "image/jpeg", out.getvalue(), "drawn anew without camera data")
