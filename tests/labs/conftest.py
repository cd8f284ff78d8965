"""What tests of labs share lies beside them."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.append(str(Path(__file__).parent))


@pytest.fixture(scope="module")
def place(tmp_path_factory):
    """An examination whose secret the test knows."""
    from exam_helpers import made

    return made(tmp_path_factory.mktemp("exam") / "examination")


@pytest.fixture(scope="module")
def running(place):
    """Its service, in a process of its own."""
    from exam_helpers import Service

    found = Service(place)
    yield found
    found.kill()
