"""From a clone to the first answered question, as the README tells a newcomer to begin.

By hand, on a quiet machine with the package index in reach:
`pytest --long -s tests/benchmarks/test_first_question.py`.
The clone, the environment and the home folder are new; packages may come from the installer's own cache.
"""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

pytestmark = [pytest.mark.long, pytest.mark.browser]

CHROMIUM = "/usr/bin/chromium"
FLAGS = ["--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"]
TOP = Path(__file__).resolve().parents[2]
ADDRESS = re.compile(r"http://127\.0\.0\.1:\S+token=\w+")
NOTEBOOK = ".jp-NotebookPanel:not(.lm-mod-hidden) .jp-Notebook"
KERNEL = """() => {
    const panel = document.querySelector('.jp-NotebookPanel:not(.lm-mod-hidden)');
    const name = panel && panel.querySelector('.jp-Toolbar-kernelName');
    const light = panel && panel.querySelector('.jp-Notebook-ExecutionIndicator');
    return name && !name.textContent.includes('No Kernel') && light && light.dataset.status === 'idle';
}"""
RUNS = 3
"""Starts in the same clone: the first installs, the others find everything in place."""


class Clock:
    """Seconds, one line a stage."""

    def __init__(self) -> None:
        self.lines: list[tuple[str, float]] = []
        self._start = self._last = time.monotonic()

    def stage(self, name: str) -> None:
        now = time.monotonic()
        self.lines.append((name, now - self._last))
        self._last = now

    def total(self) -> float:
        return self._last - self._start


def answer_one(page, clock: Clock) -> str:
    """Run the open lesson's cells and answer its first question; returns what it says."""
    page.wait_for_selector(NOTEBOOK, timeout=120_000)
    page.wait_for_function(KERNEL, timeout=120_000)
    clock.stage("page with a live kernel")
    page.wait_for_timeout(500)
    clock.stage("a rest before the press")
    page.get_by_role("menuitem", name="Run", exact=True).click()
    page.get_by_role("menuitem", name="Run All Cells", exact=True).click()
    box = page.get_by_role("region", name=re.compile("^Question: A hedge trimmer will not start"))
    box.get_by_role("radio").first.wait_for(timeout=120_000)
    clock.stage("first question on screen")
    box.get_by_role("radio").first.check()
    box.get_by_role("button").first.click()
    said = box.locator(".tsb-parts")
    said.get_by_text(re.compile("Right|Look again")).first.wait_for(timeout=60_000)
    clock.stage("answered")
    return said.inner_text()


def start(clone: Path, home: Path, clock: Clock, driver) -> str:
    """`python3 course` in the clone, until the first question is answered."""
    kept = {name: text for name, text in os.environ.items() if not name.startswith(("JUPYTER", "TWOSTROKE"))}
    kept.pop("VIRTUAL_ENV", None)
    words = [getattr(sys, "_base_executable", sys.executable), "-u", "course", "open", "--no-browser"]
    process = subprocess.Popen(
        words, cwd=clone, env={**kept, "HOME": str(home), "PIP_CACHE_DIR": cache()}, text=True,
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
    )  # fmt: skip
    try:
        heard = []
        for line in process.stdout:
            heard.append(line)
            if "Set-up done" in line:
                clock.stage("set-up")
            if found := ADDRESS.search(line):
                break
        else:
            raise AssertionError("no address was printed:\n" + "".join(heard[-20:]))
        clock.stage("JupyterLab serves")
        browser = driver.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        page = browser.new_page(viewport={"width": 1280, "height": 900})
        page.goto(found.group())
        said = answer_one(page, clock)
        browser.close()
    finally:
        process.send_signal(signal.SIGTERM)
        try:
            process.wait(30)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()
    return said


def cache() -> str:
    """The installer's cache of the person who measures."""
    return os.environ.get("PIP_CACHE_DIR", str(Path.home() / ".cache" / "pip"))


def test_how_long_from_clone_to_first_answered_question(tmp_path):
    driver = pytest.importorskip("playwright.sync_api", reason="pip install playwright")
    clone, home = tmp_path / "clone", tmp_path / "home"
    home.mkdir()
    said = []
    with driver.sync_playwright() as play:
        for run in range(RUNS):
            clock = Clock()
            if run == 0:
                subprocess.run(["git", "clone", "-q", str(TOP), str(clone)], check=True)
                clock.stage("clone")
            said.append(start(clone, home, clock, play))
            print(f"\nstart {run + 1}: {clock.total():.1f} s")
            for name, seconds in clock.lines:
                print(f"  {name:26} {seconds:6.1f} s")
    assert all(said)
