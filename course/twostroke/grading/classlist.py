"""The class list: who is in the class, and by which other names their files arrive."""

from __future__ import annotations

import re
import tomllib
import unicodedata
from pathlib import Path

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from twostroke.grading.policy import DueTime, LabKey, Policy, School
from twostroke.grading.states import GradingError

_SAFE = re.compile(r"[A-Za-z0-9][A-Za-z0-9._@-]{0,63}")


def fold(text: str) -> str:
    """Return a name without case, accents, spaces and punctuation, for comparison only.

    Parameters
    ----------
    text : str
        Any name.

    Returns
    -------
    str
        Letters and digits in lower case.

    Examples
    --------
    >>> fold(" Learner-01 ") == fold("LEARNER 01")
    True
    """
    plain = unicodedata.normalize("NFKD", text).casefold()
    return "".join(c for c in plain if c.isalnum())


def safe_id(text: str) -> str:
    """Return an identifier that is safe as a folder name, made from any text.

    Examples
    --------
    >>> safe_id("../Learner 7")
    'Learner-7'
    """
    plain = unicodedata.normalize("NFKC", text)
    kept = re.sub(r"[^A-Za-z0-9._@-]+", "-", plain).strip("-.")[:64].rstrip("-.")
    return kept or "unnamed"


class Learner(BaseModel):
    """One line of the class list.

    Parameters
    ----------
    id : str
        Identifier used in folders and the gradebook; letters, digits, ``. _ @ -``.
    name : str
        Name to show; may stay empty.
    also : list of str
        Other names under which files of this learner arrive (school account, number, "Lastname Firstname").
    """

    model_config = ConfigDict(extra="forbid", frozen=True)
    id: str
    name: str = ""
    also: tuple[str, ...] = ()

    def names(self) -> set[str]:
        """Every name in comparable form."""
        return {fold(each) for each in (self.id, self.name, *self.also) if fold(each)}


class ClassList(BaseModel):
    """A class and its settings.

    Parameters
    ----------
    course : str
        Name shown on reports.
    gradebook : str
        Address of the gradebook; empty for the file in the autograde folder.
    policy : Policy
        Hand-ins that are marked, which counts, what late work costs.
    school : School
        Identifiers of the school's own system.
    due : dict of str to datetime
        When labs are due, with the zone.
    learner : list of Learner
        The class; empty when there is no list, and then the place of a file alone says whose it is.
    """

    model_config = ConfigDict(extra="forbid")
    course: str = "Two-stroke course"
    gradebook: str = ""
    policy: Policy = Policy()
    school: School = School()
    due: dict[LabKey, DueTime] = Field(default_factory=dict)
    learner: tuple[Learner, ...] = Field(default_factory=tuple)

    def find(self, text: str) -> Learner | None:
        """Return the learner with this identifier or other name, or None.

        Examples
        --------
        >>> ClassList(learner=(Learner(id="learner-01", also=("s1001",)),)).find("S1001").id
        'learner-01'
        """
        wanted = fold(text)
        return next((each for each in self.learner if wanted in each.names()), None) if wanted else None

    def name_of(self, learner: str) -> str:
        """Return the name to show beside an identifier; empty where the class list has none."""
        found = self.find(learner)
        return found.name if found is not None else ""

    def asked(self, learner: str, name: str | None) -> bool:
        """Whether this learner is asked for: by any of their names, or all are, where no name is given.

        Examples
        --------
        >>> names = ClassList(learner=(Learner(id="learner-01", also=("s1001",)),))
        >>> [names.asked("learner-01", name) for name in (None, "S1001", "learner-02")]
        [True, True, False]
        """
        if name is None or fold(learner) == fold(name):
            return True
        found = self.find(learner)
        return found is not None and fold(name) in found.names()


def read_class(path: Path) -> ClassList:
    """Read a class list; a list without learners when there is no file.

    Parameters
    ----------
    path : Path
        A TOML file, see ``autograde/class.example.toml``.

    Returns
    -------
    ClassList
        Checked: identifiers are safe and no name belongs to two learners.

    Raises
    ------
    GradingError
        When the file cannot be read or two learners share a name.
    """
    if not path.is_file():
        return ClassList()
    try:
        found = ClassList.model_validate(tomllib.loads(path.read_text(encoding="utf-8")))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise GradingError(f"class list {path.name}: cannot be read ({error}); mend that line") from None
    except ValidationError as error:
        first = error.errors()[0]
        place = ".".join(str(part) for part in first["loc"])
        raise GradingError(
            f"class list {path.name}: {place}: {first['msg']}; see class.example.toml for the form"
        ) from None
    owner: dict[str, str] = {}
    for each in found.learner:
        if not _SAFE.fullmatch(each.id):
            raise GradingError(
                f"class list {path.name}: id {each.id!r} is used as a folder name; write letters, digits, "
                ". _ @ - only"
            )
        for name in each.names():
            if owner.setdefault(name, each.id) != each.id:
                raise GradingError(
                    f"class list {path.name}: {name!r} belongs to {owner[name]} and to {each.id}; give "
                    "each its own"
                )
    return found
