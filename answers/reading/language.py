"""The language of a letter that does not look like English.

Not here: translating it. The model is py3langid's, kept inside that package.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any

NAMES = {
    "ar": "Arabic",
    "de": "German",
    "es": "Spanish",
    "fr": "French",
    "hi": "Hindi",
    "ht": "Haitian Creole",
    "it": "Italian",
    "ja": "Japanese",
    "ko": "Korean",
    "nl": "Dutch",
    "pl": "Polish",
    "pt": "Portuguese",
    "ru": "Russian",
    "so": "Somali",
    "sv": "Swedish",
    "tl": "Tagalog",
    "uk": "Ukrainian",
    "vi": "Vietnamese",
    "zh": "Chinese",
}
_SURE = 0.9  # probability below which a language is not named
_SHORTEST = 15  # letters of the alphabet; fewer tell nothing


@lru_cache(maxsize=1)
def _identifier() -> Any:
    from py3langid.langid import MODEL_FILE, LanguageIdentifier

    return LanguageIdentifier.from_model_file(MODEL_FILE, norm_probs=True)


def language_of(text: str) -> str:
    """The language's English name when it is surely not English; "" for English, or when unsure."""
    if sum(c.isalpha() for c in text) < _SHORTEST:
        return ""
    code, probability = _identifier().classify(text)
    return NAMES.get(code, f"language {code!r}") if code != "en" and probability >= _SURE else ""
