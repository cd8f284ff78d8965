"""JupyterLab as `twostroke open` serves it: it ends with the command that began it."""

from __future__ import annotations

import re
import signal
import socket
import subprocess
import sys
import time

import pytest

pytestmark = pytest.mark.slow


def _answers(port: int) -> bool:
    with socket.socket() as probe:
        probe.settimeout(5)
        return probe.connect_ex(("127.0.0.1", port)) == 0


def _wait(port: int, answers: bool) -> None:
    until = time.monotonic() + 120
    while _answers(port) != answers:
        assert time.monotonic() < until, f"JupyterLab {'does not answer' if answers else 'still answers'}"
        time.sleep(0.1)


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no order to end that a program can answer")
def test_does_no_server_stay_behind(tmp_path, free_port):
    words = [sys.executable, "-m", "twostroke", "open", str(tmp_path / "work"), "--no-browser"]
    process = subprocess.Popen(
        [*words, "--port", str(free_port())], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    try:
        heard = []
        for line in process.stdout:
            heard.append(line)
            if found := re.search(r"http://127\.0\.0\.1:(\d+)/\S+token=\w+", line):
                break
        else:
            raise AssertionError("no address was printed:\n" + "".join(heard))
        port = int(found.group(1))
        _wait(port, answers=True)
        process.send_signal(signal.SIGTERM)
        process.wait(120)
        _wait(port, answers=False)
    finally:
        process.kill()
