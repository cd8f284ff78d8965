"""A seal on a record: each entry's digest, signed, so that a change is noticed and the entry named.

A chain of hashes alone can be worked out anew by whoever changes the record, so the digests are signed
(Ed25519, RFC 8032, by the library ``cryptography``). One digest an entry, and not one for the whole, lets
somebody who has only the file say which entry was changed. The private key lies beside the gradebook as
``record.key`` and never leaves it; the public key travels in the record and its fingerprint stands on the
page, to be compared by telephone with the shop that issued it.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey

from twostroke.grading.files import write_once
from twostroke.grading.place import Course
from twostroke.grading.states import GradingError

KEY_FILE = "record.key"
METHOD = "Ed25519 over the SHA-256 of each entry"
_ARROW = " > "


def canonical(value: Any) -> bytes:
    """Return JSON that is the same for the same content, as UTF-8."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode("utf-8")


def fingerprint(public: str) -> str:
    """Return a short form of a public key to read out: three groups of eight.

    Examples
    --------
    >>> fingerprint("00" * 32)
    '66687aad-f862bd77-6c8fc18b'
    """
    digest = hashlib.sha256(bytes.fromhex(public)).hexdigest()[:24]
    return "-".join(digest[start : start + 8] for start in range(0, 24, 8))


class Key:
    """The key of a class with which its records are sealed.

    Parameters
    ----------
    private : Ed25519PrivateKey
    """

    def __init__(self, private: Ed25519PrivateKey):
        self._private = private
        raw = private.public_key().public_bytes(serialization.Encoding.Raw, serialization.PublicFormat.Raw)
        self.public = raw.hex()

    @classmethod
    def of(cls, course: Course) -> Key:
        """Return the key of a class; it is made at the first call, readable to its owner only.

        Raises
        ------
        GradingError
            When the key file is damaged.
        """
        file = course.home / KEY_FILE
        if not file.exists():
            _make(file)
        try:
            private = serialization.load_pem_private_key(file.read_bytes(), password=None)
        except ValueError:
            private = None
        if not isinstance(private, Ed25519PrivateKey):
            raise GradingError(
                f"{file}: no key that seals records; put back a copy of it, or take it away for a new one: "
                "records sealed until now then count as sealed by another shop"
            )
        return cls(private)

    @classmethod
    def known(cls, course: Course) -> Key | None:
        """The key of a class where it has one."""
        return cls.of(course) if (course.home / KEY_FILE).exists() else None

    def sign(self, data: bytes) -> str:
        """Return the signature, as digits."""
        return self._private.sign(data).hex()


def _make(file: Path) -> None:
    data = Ed25519PrivateKey.generate().private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
    write_once(file, data)


def signed_by(public: str, data: bytes, signature: str) -> bool:
    """Whether a signature is the one of this key over these bytes."""
    try:
        Ed25519PublicKey.from_public_bytes(bytes.fromhex(public)).verify(bytes.fromhex(signature), data)
    except (InvalidSignature, ValueError, TypeError):
        return False
    return True


def entries(content: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[str, Any]]:
    """Yield each entry of nested content with its place, such as "person > name".

    Examples
    --------
    >>> dict(entries({"a": {"b": 1}, "c": []}))
    {'a > b': 1, 'c': []}
    """
    parts = (
        content.items()
        if isinstance(content, dict)
        else ((str(number), each) for number, each in enumerate(content, start=1))
        if isinstance(content, list)
        else ()
    )
    empty = True
    for name, value in parts:
        empty = False
        yield from entries(value, (*path, str(name)))
    if empty:
        yield _ARROW.join(path), content


def _digest(place: str, value: Any) -> str:
    return hashlib.sha256(canonical([place, value])).hexdigest()


def seal(content: dict[str, Any], key: Key) -> dict[str, Any]:
    """Return the content with its seal.

    Parameters
    ----------
    content : dict
        Plain data; names of entries do not hold " > ".
    key : Key

    Returns
    -------
    dict
        ``content`` and ``seal`` (method, key, digests, signature).

    Examples
    --------
    >>> key = Key(Ed25519PrivateKey.generate())
    >>> check(seal({"points": 5}, key)).changes
    []
    """
    made = {
        "method": METHOD,
        "key": key.public,
        "digests": {place: _digest(place, value) for place, value in entries(content)},
    }
    return {"content": content, "seal": {**made, "signature": key.sign(canonical(made))}}


@dataclass(frozen=True)
class Checked:
    """What looking at a seal found.

    Parameters
    ----------
    changes : list of str
        Entries that are not as sealed, in words; empty where all are.
    key : str
        Public key of the seal; empty where the seal itself was changed.
    """

    changes: list[str]
    key: str


def check(sealed: Any) -> Checked:
    """Compare content with its seal.

    Parameters
    ----------
    sealed : object
        As read from a file; anything.

    Returns
    -------
    Checked
    """
    try:
        content, found = sealed["content"], sealed["seal"]
        signature = found["signature"]
        made = {name: value for name, value in found.items() if name != "signature"}
        digests, public = dict(made["digests"]), str(made["key"])
        now = {place: (value, _digest(place, value)) for place, value in entries(content)}
    except (KeyError, TypeError, ValueError, AttributeError, RecursionError):
        return Checked(["the seal is missing or is no seal of this course"], "")
    if set(sealed) != {"content", "seal"} or made.get("method") != METHOD:
        return Checked(["something was added outside the sealed entries"], "")
    if not signed_by(public, canonical(made), str(signature)):
        return Checked(["the seal itself was changed: none of the entries can be relied upon"], "")
    changes = [
        f"{place}: now {_short(value)}, which was not sealed" if place in digests else f"{place}: added"
        for place, (value, digest) in now.items()
        if digests.get(place) != digest
    ]
    changes += [f"{place}: taken out" for place in digests if place not in now]
    return Checked(changes, public)


def _short(value: Any) -> str:
    text = json.dumps(value, ensure_ascii=False)
    return text if len(text) <= 60 else text[:57] + "..."
