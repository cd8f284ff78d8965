"""A JupyterLab of our own on loopback, and a page of Debian's chromium that may not leave it."""

from __future__ import annotations

import json
import os
import re
import secrets
import shutil
import signal
import subprocess
import sys
import time
import urllib.request
import warnings
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from twostroke import server, workspace

CHROMIUM = "/usr/bin/chromium"
PATIENCE = 120  # s; waiting costs nothing when it comes, and a busy machine is slow
_FLAGS = [
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
]
_READY = """() => {
    const panel = document.querySelector('.jp-NotebookPanel:not(.lm-mod-hidden)');
    const name = panel && panel.querySelector('.jp-Toolbar-kernelName');  // not there on a narrow screen
    if (!panel || (name && name.textContent.includes('No Kernel'))) return false;
    const context = window.jupyterapp.shell.currentWidget.sessionContext;
    return context && context.session && context.session.kernel && context.session.kernel.status === 'idle';
}"""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if Path(__file__).parent in Path(str(item.path)).parents:
            item.add_marker(pytest.mark.browser)


@dataclass
class Lab:
    """A running JupyterLab and the workspace that it serves."""

    workspace: Path
    port: int
    token: str

    def url(self, path: str) -> str:
        """Address of a file in the lab, with a fresh layout."""
        return f"http://127.0.0.1:{self.port}/lab/tree/{path}?token={self.token}&reset"

    def api(self, path: str, method: str = "GET") -> Any:
        """Ask the server's own interface."""
        address = f"http://127.0.0.1:{self.port}/api/{path}"
        request = urllib.request.Request(
            address, headers={"Authorization": f"token {self.token}"}, method=method
        )
        with urllib.request.urlopen(request, timeout=PATIENCE) as reply:
            return json.loads(reply.read() or "null")

    @property
    def progress(self) -> Path:
        """The learner's record."""
        return self.workspace / "my_progress.json"


@dataclass
class Tab:
    """A browser page with a lesson in it, and every address that it asked for."""

    page: Any
    lab: Lab
    asked: list[str] = field(default_factory=list)

    def open(self, path: str) -> None:
        """Open a notebook and wait until its kernel is truly there."""
        self.page.goto(self.lab.url(path))
        self.page.wait_for_selector("#jupyterlab-splash", state="detached")
        self.page.wait_for_selector(".jp-NotebookPanel:not(.lm-mod-hidden) .jp-Notebook")
        self.page.wait_for_function(_READY)
        idle, until = 0, time.monotonic() + PATIENCE
        while idle < 2:
            sessions = self.lab.api("sessions")
            quiet = sessions and all(one["kernel"]["execution_state"] == "idle" for one in sessions)
            idle = idle + 1 if quiet else 0
            assert time.monotonic() < until, f"the kernel does not come to rest: {sessions}"
            time.sleep(0.1)

    def run_all(self) -> None:
        """Run all cells; returns when they are done."""
        self.page.evaluate("() => window.jupyterapp.commands.execute('notebook:run-all-cells')")

    def strangers(self) -> list[str]:
        """Addresses asked for that are not on loopback."""
        allowed = {"127.0.0.1", "localhost", ""}
        return [
            one
            for one in self.asked
            if urlsplit(one).hostname not in allowed and one.startswith(("http", "ws"))
        ]


@pytest.fixture(scope="module")
def chromium() -> Iterator[Any]:
    """Debian's chromium driven by playwright; missing, it is a loud skip.

    Not for longer than one file: as long as playwright lives it holds the event loop of this thread, and no
    other test could run one.
    """
    if not Path(CHROMIUM).is_file():
        warnings.warn(f"BROWSER TESTS NOT RUN: {CHROMIUM} is missing; apt-get install chromium", stacklevel=1)
        pytest.skip(f"{CHROMIUM} is missing: apt-get install chromium")
    playwright = pytest.importorskip(
        "playwright.sync_api", reason="playwright is missing: pip install playwright"
    )
    playwright.expect.set_options(timeout=1000 * PATIENCE)
    with playwright.sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=CHROMIUM, args=_FLAGS, timeout=1000 * PATIENCE)
        yield browser
        browser.close()


@pytest.fixture
def new_context(chromium) -> Iterator[Callable[..., Any]]:
    """Makes fresh browser contexts that wait long for what is to come, and closes them."""
    made = []

    def make(width: int, height: int, **settings: Any) -> Any:
        made.append(chromium.new_context(viewport={"width": width, "height": height}, **settings))
        made[-1].set_default_timeout(1000 * PATIENCE)
        return made[-1]

    yield make
    for context in made:
        context.close()


@pytest.fixture(scope="session")
def jupyter(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Lab]:
    """JupyterLab as a learner gets it, on a free loopback port, with its own folders."""
    place = tmp_path_factory.mktemp("learner") / "two-stroke-course"
    workspace.lay_out(place)
    token = secrets.token_hex(16)
    words = [
        *server.command(place, browser=False, port=0),
        f"--IdentityProvider.token={token}",
        "--LabApp.expose_app_in_browser=True",
    ]
    log = place.parent / "jupyter.log"
    clean = {
        name: value for name, value in os.environ.items() if not name.startswith(("JUPYTER", "TWOSTROKE"))
    }
    settings = server.settle(place)
    with log.open("w") as output:
        process = subprocess.Popen(
            words, env={**clean, **settings}, cwd=place, stdout=output, stderr=subprocess.STDOUT
        )
    try:
        note = Path(settings["JUPYTER_RUNTIME_DIR"]) / f"jpserver-{process.pid}.json"
        yield Lab(place, _port(note, process, log), token)
    finally:
        _end(process, signal.SIGTERM)


def _port(note: Path, process: subprocess.Popen[Any], log: Path) -> int:
    """The port on which JupyterLab says it listens, once it answers there."""
    until = time.monotonic() + PATIENCE
    while True:
        try:
            said = json.loads(note.read_text(encoding="utf-8"))
            with urllib.request.urlopen(f"{said['url']}api", timeout=PATIENCE):
                return int(said["port"])
        except (OSError, ValueError):
            if process.poll() is not None or time.monotonic() > until:
                raise AssertionError(f"JupyterLab did not start:\n{log.read_text()[-3000:]}") from None
            time.sleep(0.2)


def _end(process: subprocess.Popen[Any], number: int) -> None:
    process.send_signal(number)
    try:
        process.wait(60)
    except subprocess.TimeoutExpired:
        process.kill()
        process.wait()


@dataclass
class Bench:
    """The page of `twostroke bench` that is being served, and the folder of its jobs."""

    url: str
    folder: Path

    @property
    def root(self) -> str:
        """The address without its token."""
        return self.url.partition("?")[0]


@pytest.fixture(scope="session")
def _bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    place = tmp_path_factory.mktemp("bench")
    words = [sys.executable, "-m", "twostroke", "bench", "--no-browser", "--folder", str(place / "jobs")]
    process = subprocess.Popen(words, stdout=subprocess.PIPE, text=True, cwd=place)
    try:
        line = process.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:\d+/\?token=\S+", line)
        assert found, f"the command said {line!r}"
        yield Bench(found.group(), place / "jobs")
    finally:
        _end(process, signal.SIGINT)
        process.stdout.close()


@pytest.fixture
def bench(_bench: Bench) -> Bench:
    """The bench as its command serves it, without jobs; all that it knows of jobs lies in its folder."""
    shutil.rmtree(_bench.folder, ignore_errors=True)
    return _bench


@pytest.fixture
def kernels(jupyter: Lab) -> Iterator[None]:
    """Ends the kernels that a test has started, so that the next one begins without what they remember."""
    yield
    for session in jupyter.api("sessions"):
        jupyter.api(f"sessions/{session['id']}", method="DELETE")


@pytest.fixture
def new_tab(kernels, new_context, jupyter: Lab) -> Iterator[Callable[..., Tab]]:
    """Makes tabs in fresh browser contexts; afterwards no request may have left loopback."""
    made = []

    def make(width: int = 1280, height: int = 900) -> Tab:
        context = new_context(width, height)
        tab = Tab(context.new_page(), jupyter)
        context.on("request", lambda request: tab.asked.append(request.url))
        made.append(tab)
        return tab

    yield make
    strangers = [address for tab in made for address in tab.strangers()]
    assert not strangers, f"requests left loopback: {strangers}"


@pytest.fixture
def fresh(jupyter: Lab) -> Iterator[Lab]:
    """The workspace without a record of progress or jobs, and lessons as they were laid out."""
    lessons = jupyter.workspace / "lessons"
    before = {file: file.read_bytes() for file in lessons.glob("*.ipynb")}
    yield jupyter
    jupyter.progress.unlink(missing_ok=True)
    for file, content in before.items():
        file.write_bytes(content)
    for folder in ("to_hand_in", "bench_jobs"):
        shutil.rmtree(jupyter.workspace / folder, ignore_errors=True)
