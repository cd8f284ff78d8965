"""Reading YAML strictly: every error names the file, the row with its line, and the cure."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable
from pathlib import Path
from typing import Any, TypeVar

import yaml
from pydantic import BaseModel, ValidationError

from twostroke.errors import TwoStrokeError

Model = TypeVar("Model", bound=BaseModel)
Location = tuple[str | int, ...]
SHOWN = 12
FEW = 8


class TableError(TwoStrokeError):
    """A table or scenario file cannot be used as it stands."""


def unknown(kind: str, name: object, known: Iterable[str]) -> TableError:
    """Error for a name that is not in the table, with the names nearest to it.

    Examples
    --------
    >>> print(unknown("test", "spark_cld", ["spark_cold", "plug_look"]))
    'spark_cld' is no test of this table; did you mean spark_cold? known are spark_cold, plug_look
    """
    known = list(known)
    near = difflib.get_close_matches(str(name), known, n=3, cutoff=0.5)
    hint = f"did you mean {' or '.join(near)}?" if near else ""
    if not near or len(known) <= FEW:
        hint = f"{hint} known are {', '.join(known) or 'none'}".strip()
    return TableError(f"{name!r} is no {kind} of this table; {hint}")


class _Loader(yaml.SafeLoader):
    """Safe loader that takes only true and false for truth values, and no text for a date."""


_LEFT_OUT = ("tag:yaml.org,2002:bool", "tag:yaml.org,2002:timestamp")
_Loader.yaml_implicit_resolvers = {
    letter: [(tag, rule) for tag, rule in rules if tag not in _LEFT_OUT]
    for letter, rules in yaml.SafeLoader.yaml_implicit_resolvers.items()
}
_Loader.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile(r"^(?:true|false)$"), list("tf"))


def read_yaml(path: str | Path) -> tuple[Any, dict[Location, int]]:
    """Content of a YAML file, and the line of every row in it.

    Parameters
    ----------
    path : str or Path
        The file.

    Returns
    -------
    content : object
        Plain dicts, lists, texts and numbers.
    lines : dict
        Path of keys and indices to line number, counted from 1.

    Raises
    ------
    TableError
        The file is missing, is not YAML, or gives a key twice.
    """
    path = Path(path)
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        raise TableError(f"{path}: there is no such file; check the folder and the name") from None
    except (OSError, UnicodeDecodeError) as error:
        raise TableError(f"{path}: cannot be read ({error}); save it as a UTF-8 text file") from None
    return parse_yaml(text, path.name)


def parse_yaml(text: str, name: str) -> tuple[Any, dict[Location, int]]:
    """As :func:`read_yaml`, for text already read; `name` is used in messages."""
    try:
        loader = _Loader(text)
        try:
            node = loader.get_single_node()
            if node is None:
                raise TableError(f"{name}: the file is empty")
            lines: dict[Location, int] = {}
            _walk(node, (), lines, name, set())
            return loader.construct_document(node), lines
        finally:
            loader.dispose()
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line = f", line {mark.line + 1}" if mark else ""
        raise TableError(
            f"{name}{line}: this is not readable YAML ({error.problem}); look at brackets, colons, indents"
        ) from None
    except yaml.YAMLError as error:
        raise TableError(f"{name}: this is not readable YAML ({error})") from None


def _walk(
    node: yaml.Node, path: Location, lines: dict[Location, int], name: str, open_nodes: set[int]
) -> None:
    line = node.start_mark.line + 1
    lines.setdefault(path, line)
    if id(node) in open_nodes:
        raise TableError(f"{name}, line {line}: an alias (*) refers to the row that it stands in")
    open_nodes.add(id(node))
    if isinstance(node, yaml.MappingNode):
        keys: dict[str, int] = {}
        for key, value in node.value:
            if key.value in keys and key.value != "<<":
                raise TableError(
                    f"{name}, line {key.start_mark.line + 1}: '{key.value}' is given twice in "
                    f"{_spell(path) or 'the file'} (first in line {keys[key.value]}); keep one of them"
                )
            keys[key.value] = key.start_mark.line + 1
            lines[(*path, key.value)] = key.start_mark.line + 1
            _walk(value, (*path, key.value), lines, name, open_nodes)
    elif isinstance(node, yaml.SequenceNode):
        for index, value in enumerate(node.value):
            _walk(value, (*path, index), lines, name, open_nodes)
    open_nodes.discard(id(node))


def build(model: type[Model], content: Any, lines: dict[Location, int], name: str) -> Model:
    """An instance of `model` from plain content; errors name file, row and cure.

    Raises
    ------
    TableError
        Listing every row that cannot be used, at most twelve of them in full.
    """
    if not isinstance(content, dict):
        raise TableError(
            f"{name}: should hold rows of the form 'key: value', and holds {type(content).__name__}"
        )
    try:
        return model.model_validate(content)
    except ValidationError as error:
        raise complain(name, lines, [(item["loc"], _cure(item, model)) for item in error.errors()]) from None


def complain(name: str, lines: dict[Location, int], breaches: list[tuple[Location, str]]) -> TableError:
    """One error out of all breaches found in a file."""
    shown = []
    for path, message in breaches[:SHOWN]:
        line = _line(path, lines)
        at = f" (line {line})" if line else ""
        shown.append(f"{name}, {_spell(path)}{at}: {message}")
    if len(breaches) > SHOWN:
        shown.append(f"… and {len(breaches) - SHOWN} more")
    return TableError("\n".join(shown))


def _spell(path: Location) -> str:
    words = [f"row {part + 1}" if isinstance(part, int) else str(part) for part in path if part != "[key]"]
    return " › ".join(words)


def _line(path: Location, lines: dict[Location, int]) -> int | None:
    while path and path not in lines:
        path = path[:-1]
    return lines.get(path)


_CURES = {
    "missing": "is missing; add it",
    "extra_forbidden": "is not a key of this form; check the spelling or take it out",
    "string_pattern_mismatch": "must be a plain name: small letters, digits and _, beginning with a letter",
    "string_type": "must be a word; put it in quotes",
    "float_type": "must be a number, without quotes",
    "int_type": "must be a whole number, without quotes",
    "bool_type": "must be true or false",
    "list_type": "must be a list in square brackets",
    "dict_type": "must hold rows of the form 'key: value'",
    "model_type": "must hold rows of the form 'key: value'",
}


def _cure(item: Any, model: type[BaseModel]) -> str:
    value = item.get("input")
    given = f"{value!r} " if isinstance(value, str | int | float | bool) or value is None else ""
    kind = item["type"]
    if kind == "missing":
        return _CURES[kind]
    if kind == "extra_forbidden":
        return _CURES[kind] + _nearest_key(model, item["loc"])
    if kind in _CURES:
        return given + _CURES[kind]
    limits = item.get("ctx", {})
    if "ge" in limits or "gt" in limits or "le" in limits or "lt" in limits:
        return f"{given}is outside what is allowed ({item['msg'].lower()}); correct the number"
    return f"{given}cannot be used: {item['msg']}"


def _nearest_key(model: type[BaseModel], path: Location) -> str:
    names: set[str] = set()
    pending: list[Any] = [model]
    while pending:
        current = pending.pop()
        for key, info in current.model_fields.items():
            names.add(key)
            pending.extend(_models_in(info.annotation))
    near = difflib.get_close_matches(str(path[-1]), sorted(names), n=1, cutoff=0.6)
    return f" (did you mean '{near[0]}'?)" if near else ""


def _models_in(annotation: Any) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [found for inner in getattr(annotation, "__args__", ()) for found in _models_in(inner)]
