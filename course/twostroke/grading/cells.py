"""Cells run one after the other in an IPython shell; outputs are caught, cut to size, handed on at once."""

from __future__ import annotations

import contextlib
import io
import os
import signal
import sys
from collections.abc import Callable
from typing import Any

from IPython.core.displayhook import DisplayHook
from IPython.core.displaypub import DisplayPublisher
from IPython.core.interactiveshell import InteractiveShell
from traitlets import Type
from traitlets.config import Config

CUT = "\n… output cut here: too long …\n"
_RICH_KB = 1024


class CellTimeout(BaseException):
    """The cell's time is up."""


class Sink:
    """Outputs of one cell, in order, up to a size.

    Parameters
    ----------
    text_limit : int
        Characters of text kept for a cell.
    """

    def __init__(self, text_limit: int):
        self.text_limit = text_limit
        self.outputs: list[dict[str, Any]] = []
        self._left = text_limit
        self._rich_left = _RICH_KB * 1024

    def clear(self) -> None:
        """Begin a new cell."""
        self.outputs = []
        self._left = self.text_limit

    def stream(self, name: str, text: str) -> None:
        """Add text of stdout or stderr."""
        if self._left < 0 or not text:
            return
        self._left -= len(text)
        if self._left < 0:
            text = text[: self._left] + CUT
        if self.outputs and self.outputs[-1].get("name") == name:
            self.outputs[-1]["text"] += text
        else:
            self.outputs.append({"output_type": "stream", "name": name, "text": text})

    def rich(self, kind: str, data: dict[str, Any]) -> None:
        """Add a result or a display; forms that are too large or no text are left out, plain text is cut."""
        kept = {}
        for mime, value in data.items():
            if not isinstance(value, str):
                continue
            if mime == "text/plain" and len(value) > self.text_limit:
                value = value[: self.text_limit] + CUT
            if mime == "text/plain" or len(value) <= self._rich_left:
                self._rich_left -= 0 if mime == "text/plain" else len(value)
                kept[mime] = value
        output: dict[str, Any] = {"output_type": kind, "data": kept, "metadata": {}}
        if kind == "execute_result":
            output["execution_count"] = None
        if len(self.outputs) < 200:
            self.outputs.append(output)

    def error(self, name: str, value: str, traceback: list[str]) -> None:
        """Add an error."""
        lines = [line[: self.text_limit] for line in traceback[:100]]
        self.outputs.append(
            {
                "output_type": "error",
                "ename": name[:200],
                "evalue": value[: self.text_limit],
                "traceback": lines,
            }
        )


class _Stream(io.TextIOBase):
    """Stands for sys.stdout or sys.stderr."""

    def __init__(self, name: str, sink: Sink):
        self._name, self._sink = name, sink

    @property
    def encoding(self) -> str:  # type: ignore[override]
        return "utf-8"

    def writable(self) -> bool:
        return True

    def write(self, text: str) -> int:
        if not isinstance(text, str):
            raise TypeError(f"write() argument must be str, not {type(text).__name__}")
        self._sink.stream(self._name, text)
        return len(text)

    def fileno(self) -> int:
        return 1 if self._name == "stdout" else 2


class _Hook(DisplayHook):
    def write_output_prompt(self) -> None:
        pass

    def write_format_data(self, format_dict: dict[str, Any], md_dict: dict[str, Any] | None = None) -> None:
        self.shell.sink.rich("execute_result", format_dict)  # type: ignore[union-attr]

    def finish_displayhook(self) -> None:
        pass


class _Publisher(DisplayPublisher):
    def publish(self, data: dict[str, Any], *args: Any, **kwargs: Any) -> None:
        self.shell.sink.rich("display_data", data)  # type: ignore[union-attr]

    def clear_output(self, wait: bool = False) -> None:
        pass


class Shell(InteractiveShell):
    """IPython without history, prompts and terminal; its outputs go to a `Sink`."""

    displayhook_class = Type(_Hook)
    display_pub_class = Type(_Publisher)
    sink: Sink = Sink(65536)

    def _showtraceback(self, etype: Any, evalue: Any, stb: Any) -> None:
        name = getattr(etype, "__name__", "error")
        text = ""
        with contextlib.suppress(Exception):
            text = str(evalue)
        self.sink.error(str(name), text, [str(line) for line in stb])

    def init_io(self) -> None:
        pass

    def ask_exit(self) -> None:
        raise SystemExit(0)


def make_shell() -> Shell:
    """Return the process's one shell, without files of its own."""
    config = Config()
    config.HistoryManager.enabled = False
    config.InteractiveShell.colors = "nocolor"
    config.InteractiveShell.cache_size = 0
    config.InteractiveShell.xmode = "Plain"
    shell = Shell.instance(config=config)
    assert isinstance(shell, Shell)
    return shell


def rehearse(shell: Shell, sources: list[str]) -> None:
    """Run the trusted lab as handed out, so that everything it loads is loaded before the first fork."""
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        for source in sources:
            shell.sink.clear()
            shell.run_cell(source, store_history=False)
    shell.sink.clear()
    shell.reset(new_session=True)


def run_cells(
    shell: Shell,
    cells: list[tuple[int, str]],
    seconds: float,
    output_kb: int,
    send: Callable[[dict[str, Any]], None],
) -> None:
    """Run the cells and send a frame before and after each.

    Parameters
    ----------
    shell : Shell
    cells : list of (int, str)
        Place in the notebook and source.
    seconds : float
        Time for each cell.
    output_kb : int
        Text kept for each cell.
    send : callable
        Takes one frame.
    """
    sink = shell.sink = Sink(output_kb * 1024)
    raw = os.memfd_create("output")
    os.set_inheritable(raw, True)
    for number in (1, 2):
        os.dup2(raw, number)
    sys.stdout, sys.stderr = _Stream("stdout", sink), _Stream("stderr", sink)  # type: ignore[assignment]
    sys.__stdout__, sys.__stderr__ = sys.stdout, sys.stderr  # type: ignore[misc, assignment]
    signal.signal(signal.SIGALRM, _time_up)
    myself = os.getpid()
    for place, source in cells:
        send({"cell": place, "status": "start"})
        sink.clear()
        status = _run(shell, source, seconds)
        if os.getpid() != myself:  # a fork made by the cell came out of it too
            os._exit(0)
        send({"cell": place, "status": status, "outputs": _take(sink, raw)})
    send({"end": True})


def _time_up(number: int, frame: Any) -> None:
    raise CellTimeout


def _run(shell: Shell, source: str, seconds: float) -> str:
    try:
        signal.setitimer(signal.ITIMER_REAL, seconds, 0.25)
        result = shell.run_cell(source, store_history=False)
        error = result.error_before_exec or result.error_in_exec
        status = "timeout" if isinstance(error, CellTimeout) else "error" if error is not None else "ok"
    except BaseException as raised:  # whatever leaves the shell ends this cell, not the notebook
        status = "timeout" if isinstance(raised, CellTimeout) else "error"
        shell.sink.error(type(raised).__name__, "", [])
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
    return status


def _take(sink: Sink, raw: int) -> list[dict[str, Any]]:
    """Outputs of the cell, with what was written below Python's streams."""
    size = os.lseek(raw, 0, os.SEEK_END)
    if size:
        text = os.pread(raw, sink.text_limit + 1, 0).decode("utf-8", "replace")
        os.ftruncate(raw, 0)
        os.lseek(raw, 0, os.SEEK_SET)
        sink.stream("stdout", text)
    return sink.outputs
