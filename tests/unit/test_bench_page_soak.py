"""The bench page in use for a long time: hundreds of jobs, and the memory stays where it was."""

from __future__ import annotations

import asyncio
import json
import os
import re
import signal
import subprocess
import sys

import psutil
import pytest
from tornado.httpclient import HTTPRequest
from tornado.websocket import websocket_connect
from twostroke.scenarios import by_difficulty

ROUNDS, WARM = 240, 60
MEGABYTE = 2**20


async def answer(line, **message):
    """Press, and wait for what the page gets."""
    await line.write_message(json.dumps(message))
    return json.loads(await asyncio.wait_for(line.read_message(), 60))


async def one_job(url, cookie, number, names):
    """A visitor: opens the page, takes a machine, looks, asks for a hint, leaves."""
    request = HTTPRequest(url, headers={"Cookie": cookie})
    line = await websocket_connect(request)
    first = json.loads(await line.read_message())
    assert "regions" in first
    values = {"scenario": names[number % len(names)], "learner": f"learner {number}"}
    begun = await answer(line, press="begin", values=values)
    assert begun["job"].endswith(".json"), begun
    for action in ("switch_check", "plug_look"):
        await answer(line, press="choose", values={"action": action})
        await answer(line, press="do", values={"confirm": []})
    await answer(line, press="hint", values={})
    line.close()


@pytest.mark.long
def test_does_the_memory_of_the_page_stay_flat(tmp_path, record_property):
    words = [sys.executable, "-m", "twostroke", "bench", "--no-browser", "--folder", str(tmp_path / "jobs")]
    process = subprocess.Popen(words, stdout=subprocess.PIPE, text=True, cwd=tmp_path, env=dict(os.environ))
    try:
        port, token = re.search(r":(\d+)/\?token=(\S+)", process.stdout.readline()).groups()
        names = [one.id for one in by_difficulty()][:6]
        used = []

        async def soak():
            for number in range(ROUNDS):
                await one_job(f"ws://127.0.0.1:{port}/line", f"bench{port}={token}", number, names)
                if number >= WARM and number % 30 == 0:
                    used.append(psutil.Process(process.pid).memory_info().rss / MEGABYTE)

        asyncio.run(soak())
    finally:
        process.send_signal(signal.SIGINT)
        process.wait(10)
    record_property("megabytes", [round(one, 1) for one in used])
    print("memory in MB:", [round(one, 1) for one in used])
    assert used[-1] < 1.15 * used[0], used
