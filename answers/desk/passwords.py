"""Passwords: which are allowed, and how they are kept and compared (argon2id).

Not here: whose they are, and how many wrong ones are borne (people.py).
"""

from __future__ import annotations

import base64
import secrets
import unicodedata
from typing import TYPE_CHECKING

from kb.errors import RangeError

if TYPE_CHECKING:
    from argon2 import PasswordHasher

# NIST SP 800-63B asks for at least 8 characters in revision 3 (2017), and for 15 in revision 4 (2025) where nothing but
# the password is asked (both from memory). 12 stands between them: wrong ones are limited, the desk is no public site.
SHORTEST, LONGEST = 12, 128


class Passwords:
    """Makes and compares kept passwords, at one cost."""

    def __init__(self, hasher: PasswordHasher | None = None) -> None:
        """`hasher` has the library's advised cost when it is not given."""
        from argon2 import PasswordHasher

        self.hasher = hasher or PasswordHasher()

    def kept(self, password: str, name: str) -> str:
        """A new password as it is kept.

        Raises: RangeError unless it is SHORTEST to LONGEST characters and not the person's name.
        """
        plain = _plain(password)
        allowed = f"{SHORTEST} to {LONGEST} characters, and not the name"
        if not SHORTEST <= len(plain) <= LONGEST:
            raise RangeError("password", f"one of {len(plain)} characters", allowed)
        if plain.casefold() == name.casefold():
            raise RangeError("password", "the name", allowed)
        return self.hasher.hash(plain)

    def fits(self, kept: str, password: str) -> bool:
        """Whether it is the password that was kept; nothing fits one that cannot be read."""
        from argon2.exceptions import InvalidHashError, VerificationError

        try:
            return self.hasher.verify(kept, _plain(password))
        except (VerificationError, InvalidHashError):
            return False

    def renewed(self, kept: str, password: str) -> str:
        """`kept`, made again if it was made at another cost than is used now."""
        return self.hasher.hash(_plain(password)) if self.hasher.check_needs_rehash(kept) else kept

    def nobodys(self) -> str:
        """One that no password fits, and that takes as long to compare as any."""
        h = self.hasher
        salt, digest = (base64.b64encode(secrets.token_bytes(n)).decode().rstrip("=") for n in (h.salt_len, h.hash_len))
        return f"$argon2id$v=19$m={h.memory_cost},t={h.time_cost},p={h.parallelism}${salt}${digest}"


def _plain(password: str) -> str:
    """One spelling of what different keyboards type, as NIST SP 800-63B advises; what no keyboard types is replaced."""
    return unicodedata.normalize("NFKC", password.encode("utf-8", "replace").decode())
