"""Every benchmark works and holds what is no time: each is run once, untimed, so that none breaks unseen."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent
SHORT = (
    "test_ignition_speed.py", "test_isolation_speed.py", "test_bench_speed.py", "test_bench_panel_speed.py",
    "test_speed_calculations.py",
)  # fmt: skip


@pytest.mark.slow
def test_does_every_short_benchmark_run(tmp_path):
    variables = {name: value for name, value in os.environ.items() if not name.startswith("PYTEST_")}
    words = [sys.executable, "-m", "pytest", *(str(HERE / name) for name in SHORT), "--all", "-q"]
    words += ["-p", "no:xdist", "-p", "no:cacheprovider", "--benchmark-disable"]
    words += ["-o", "addopts=--import-mode=importlib"]  # the usual options leave benchmarks out
    done = subprocess.run(words, capture_output=True, text=True, cwd=HERE.parents[1], env=variables)
    assert done.returncode == 0, done.stdout[-4000:] + done.stderr[-2000:]
    assert int(re.search(r"(\d+) passed", done.stdout).group(1)) >= 24
