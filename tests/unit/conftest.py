"""The set-up's files are modules of no package: they are loaded as they stand."""

from __future__ import annotations

import importlib.util
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest


@pytest.fixture
def loaded() -> Callable[[Path], ModuleType]:
    """Gives a fresh copy of a module from its file."""

    def load(file: Path) -> ModuleType:
        spec = importlib.util.spec_from_file_location(f"course_{file.stem}", file)
        module = importlib.util.module_from_spec(spec)
        spec.loader.exec_module(module)
        return module

    return load
