"""Every way in which a person's name can stand in a file, as one pattern to search and to blank by."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from html.entities import codepoint2name
from urllib.parse import quote

BLANK = "erased"
"""What stands in place of a name where the text around it belongs to somebody else."""
_JOINT = r"(?:[\s_,.+'’\u2010-\u2015-]|%[0-9A-Fa-f]{2}|\\u[0-9A-Fa-f]{4}|\\[nrt]|&\#?\w{1,8};){0,4}?"
"""What may stand between the parts of a name: nothing that ends a value, so that blanking breaks no file."""
_BEFORE = re.compile(r"(?:(?<![^\W_])|(?<=\\[nrtbf])|(?<=%[0-9A-Fa-f]{2})|(?<=\\u[0-9A-Fa-f]{4}))")
_AFTER = r"(?![^\W_])"
_SHORT = 4
"""A single word of fewer letters and digits is looked for as a whole value only: it stands in other words."""


class Spellings:
    """The spellings of one person.

    Parameters
    ----------
    names : iterable of str
        Identifier, name, other names, pseudonym.

    Notes
    -----
    A name is found whatever its case, with or without accents, with anything between its parts (space, comma,
    underscore, hyphen, nothing), in either order of two parts, and as JSON, HTML and addresses write it.

    Examples
    --------
    >>> ann = Spellings(["learner-01", "Ann Demo"])
    >>> ann.found("Demo_Ann_4711 handed LEARNER%2001 in, and so did learner-011")
    ['Demo_Ann', 'LEARNER%2001']
    >>> ann.blank('{"typed": "ann  demo"}')
    '{"typed": "erased"}'
    """

    def __init__(self, names: Iterable[str]):
        self.names = tuple(dict.fromkeys(name for name in names if _words(name)))
        parts: list[str] = []
        whole: list[str] = []
        for name in self.names:
            words = _words(name)
            orders = [words] if len(words) != 2 else [words, words[::-1]]
            patterns = [_JOINT.join(_letters(word) for word in order) for order in orders]
            short = len(words) == 1 and len(words[0]) < _SHORT
            (whole if short else parts).extend(patterns)
        parts.sort(key=len, reverse=True)
        self.short = tuple(name for name in self.names if len("".join(_words(name))) < _SHORT)
        inside = [each + _AFTER for each in parts]
        self._loose = re.compile("|".join(parts) or r"(?!)", re.IGNORECASE)
        alone = [rf"(?<=[\"'>,/\n\t=]){each}(?=[\"'<,/\n\t])" for each in whole]
        self._pattern = re.compile("|".join([*inside, *alone]) or r"(?!)", re.IGNORECASE)
        self._whole = re.compile("|".join([*parts, *whole]) or r"(?!)", re.IGNORECASE)

    def found(self, text: str) -> list[str]:
        """Spellings that stand in a text, as they stand there."""
        return list(dict.fromkeys(match.group() for match in self._matches(text)))

    def within(self, text: str) -> bool:
        """Whether any stands in a text."""
        return next(self._matches(text), None) is not None

    def _matches(self, text: str) -> Iterator[re.Match[str]]:
        """Where names stand that do not begin inside another word; looked at last, for speed."""
        return (match for match in self._pattern.finditer(text) if _BEFORE.match(text, match.start()))

    def count(self, text: str) -> int:
        """How often names stand in a text, beginnings and ends of words aside: for bytes, which have none."""
        return sum(1 for _ in self._loose.finditer(text))

    def named(self, text: str) -> bool:
        """Whether a name of a file or folder speaks of the person: by itself, or as a part of it."""
        return self.is_all(text) or self.is_all(text.rpartition(".")[0]) or self.within(text)

    def is_all(self, text: str) -> bool:
        """Whether a text is a spelling and nothing else."""
        return self._whole.fullmatch(text.strip()) is not None

    def blank(self, text: str) -> str:
        """Return a text with each spelling replaced."""
        made, end = [], 0
        for match in self._matches(text):
            made += [text[end : match.start()], BLANK]
            end = match.end()
        return "".join([*made, text[end:]])

    def blank_value(self, text: str) -> str:
        """The same for a whole value, where a short name is told by standing alone."""
        return BLANK if self.is_all(text) else self.blank(text)


def _words(name: str) -> list[str]:
    """Runs of letters and digits of a name."""
    return re.findall(r"[^\W_]+", unicodedata.normalize("NFC", name))


def _letters(word: str) -> str:
    return "".join(_letter(letter) for letter in word)


def _letter(letter: str) -> str:
    """A letter in all its forms: composed, decomposed, without accent, escaped in JSON, HTML, addresses."""
    if letter.isascii():
        return re.escape(letter)
    apart = unicodedata.normalize("NFD", letter)
    forms = {letter, letter.lower(), letter.upper(), apart, apart[0]}
    forms |= {unicodedata.normalize("NFKD", letter)}
    escaped = set()
    for each in (letter.lower(), letter.upper()):
        escaped |= {f"\\u{ord(one):04x}" for one in each if len(each) == 1}
        escaped |= {quote(each), f"&#{ord(each[0])};", f"&#x{ord(each[0]):x};"}
        entity = codepoint2name.get(ord(each[0])) if len(each) == 1 else None
        escaped |= {f"&{entity};"} if entity else set()
    options = sorted(forms | escaped, key=len, reverse=True)
    return "(?:" + "|".join(re.escape(each) for each in options) + ")"
