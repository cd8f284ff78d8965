"""Formulas that learners write, computed by us: numbers, given names, + - * / ^, a few functions."""

from __future__ import annotations

import ast
import math
import operator
import re
from collections.abc import Callable, Mapping
from typing import Any

from pint import DimensionalityError, OffsetUnitCalculusError

from twostroke.errors import TwoStrokeError

LONGEST = 200
LARGEST_POWER = 6
_MOST_PARTS = 60
_SIGNS = {
    "×": "*",
    "·": "*",
    "÷": "/",
    ":": "/",
    "−": "-",
    "–": "-",
    "^": "**",
    "½": "(1/2)",
    "π": "pi",
    "√": "sqrt",
}


class FormulaError(TwoStrokeError):
    """A formula that cannot be read or computed; the text says why."""


def _power(base: Any, exponent: Any) -> Any:
    exponent = _plain(exponent, "a power")
    if abs(exponent) > LARGEST_POWER:
        raise FormulaError(
            f"the power {exponent:g} is larger than {LARGEST_POWER}; no shop formula needs that"
        )
    return base**exponent


def _plain(value: Any, what: str) -> float:
    """Return the value as a plain number, or say that it has a unit."""
    if isinstance(value, float):
        return value
    if value.dimensionless:
        return float(value.to("").magnitude)
    raise FormulaError(f"{what} must be a plain number, and this one has the unit {value.units:~P}")


_BINARY: dict[type, Callable[[Any, Any], Any]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: _power,
}
_UNARY: dict[type, Callable[[Any], Any]] = {ast.UAdd: operator.pos, ast.USub: operator.neg}
FUNCTIONS: dict[str, Callable[[Any], Any]] = {
    "sqrt": lambda value: value**0.5,
    "abs": abs,
    "sin": lambda value: math.sin(_plain(value, "the angle of sin")),
    "cos": lambda value: math.cos(_plain(value, "the angle of cos")),
    "exp": lambda value: math.exp(_plain(value, "what stands in exp")),
    "ln": lambda value: math.log(_plain(value, "what stands in ln")),
}
CONSTANTS = {"pi": math.pi}


class Expression:
    """One formula as text, read once and computed for any set of values.

    Parameters
    ----------
    text : str
        For example "fuel / ratio"; ×, ÷, ^ and a decimal comma are understood.
    names : collection of str
        The names that may stand in it.
    shown : str, optional
        What messages quote in place of the text.

    Raises
    ------
    FormulaError
        When it holds anything but numbers, these names, + - * / ^, brackets and the listed functions.

    Examples
    --------
    >>> Expression("fuel ÷ ratio", {"fuel", "ratio"}).value({"fuel": 5000.0, "ratio": 50.0})
    100.0
    >>> Expression("fuel.ratio", {"fuel"})
    Traceback (most recent call last):
        ...
    twostroke.lab.expression.FormulaError: "fuel.ratio": only numbers, the given names, + - * / ^ and brackets
    """

    def __init__(self, text: str, names: Any, shown: str = ""):
        self.text = text.strip()
        self._shown = shown.strip() or self.text
        self._names = set(names)
        if not self.text or len(self.text) > LONGEST:
            raise FormulaError(f"a formula has 1 to {LONGEST} characters; this one has {len(self.text)}")
        try:
            self._tree = ast.parse(_python(self.text), mode="eval").body
        except (SyntaxError, ValueError, RecursionError, MemoryError):
            raise FormulaError(
                f'"{self._short}" is not a whole formula: look for a missing bracket, sign or name'
            ) from None
        self.used: set[str] = set()
        self._parts = 0
        self._inspect(self._tree)

    @property
    def _short(self) -> str:
        return self._shown if len(self._shown) <= 60 else self._shown[:57] + "…"

    def _inspect(self, node: ast.AST) -> None:
        self._parts += 1
        if self._parts > _MOST_PARTS:
            raise FormulaError(f'"{self._short}" has too many parts; one line will do')
        if isinstance(node, ast.BinOp) and type(node.op) in _BINARY:
            self._inspect(node.left)
            self._inspect(node.right)
        elif isinstance(node, ast.UnaryOp) and type(node.op) in _UNARY:
            self._inspect(node.operand)
        elif isinstance(node, ast.Name):
            if node.id not in self._names and node.id not in CONSTANTS:
                given = ", ".join(sorted(self._names))
                raise FormulaError(f'"{self._short}": "{node.id}" is not given; given are: {given}')
            self.used.add(node.id)
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in FUNCTIONS:
            if len(node.args) != 1 or node.keywords:
                raise FormulaError(f'"{self._short}": {node.func.id} takes one value in brackets')
            self._inspect(node.args[0])
        elif isinstance(node, ast.Constant) and isinstance(node.value, int | float):
            if isinstance(node.value, bool):
                raise FormulaError(f'"{self._short}" holds a word that is no reading')
            if not abs(float(node.value)) <= 1e12:
                raise FormulaError(f'"{self._short}" holds a number that is too large')
        else:
            raise FormulaError(f'"{self._short}": only numbers, the given names, + - * / ^ and brackets')

    def value(self, given: Mapping[str, Any]) -> Any:
        """Compute the formula.

        Parameters
        ----------
        given : mapping
            Name -> float or quantity; None for a reading that is missing.

        Returns
        -------
        float, quantity or None
            None when a missing reading is needed.

        Raises
        ------
        FormulaError
            When units do not fit, something is divided by zero, or the result is no finite number.
        """
        if any(given[name] is None for name in self.used if name in given):
            return None
        try:
            result = self._compute(self._tree, given)
            size = getattr(result, "magnitude", result)
            finite = isinstance(size, float) and math.isfinite(size)
        except ZeroDivisionError:
            raise FormulaError(f'"{self._short}" divides by zero here') from None
        except (DimensionalityError, OffsetUnitCalculusError):
            raise FormulaError(f'"{self._short}": the units do not fit; only like is added to like') from None
        except (ArithmeticError, ValueError, TypeError) as error:
            if isinstance(error, FormulaError):
                raise
            raise FormulaError(f'"{self._short}" cannot be computed with these values') from None
        if not finite:
            raise FormulaError(f'"{self._short}" gives no finite number here')
        return result

    def _compute(self, node: Any, given: Mapping[str, Any]) -> Any:
        if isinstance(node, ast.BinOp):
            return _BINARY[type(node.op)](self._compute(node.left, given), self._compute(node.right, given))
        if isinstance(node, ast.UnaryOp):
            return _UNARY[type(node.op)](self._compute(node.operand, given))
        if isinstance(node, ast.Call):
            return FUNCTIONS[node.func.id](self._compute(node.args[0], given))  # type: ignore[attr-defined]
        if isinstance(node, ast.Name):
            return given[node.id] if node.id in given else CONSTANTS[node.id]
        return float(node.value)


def _python(text: str) -> str:
    """Turn shop signs into those of Python; a decimal comma between digits becomes a point."""
    for sign, python in _SIGNS.items():
        text = text.replace(sign, python)
    return re.sub(r"(?<=[0-9]),(?=[0-9])", ".", text)
