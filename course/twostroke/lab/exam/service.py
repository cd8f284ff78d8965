"""The examination's service: readings over HTTP to who holds the right ticket, and nothing else.

Every answer takes a whole number of ticks, so that how long a reading takes says nothing about the machine.
"""

from __future__ import annotations

import asyncio
import json
import logging
import math
import time
from collections import OrderedDict, deque
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import tornado.web
from tornado.httpserver import HTTPServer
from tornado.netutil import bind_sockets

from twostroke.errors import TwoStrokeError
from twostroke.lab.draw import fold
from twostroke.lab.exam.place import ExamError, Place
from twostroke.lab.exam.sitting import Sitting

PORT = 8614
TICK = 0.25
LARGEST = 32 * 1024
MOST_SITTINGS = 400
WRONG_TOKENS, WINDOW = 20, 60.0
_log = logging.getLogger("twostroke.examination")

Told = dict[str, Any]


class Desk:
    """Sittings that are open, and who asked with a wrong token lately.

    Parameters
    ----------
    place : Place
    tick : float
        Seconds; every answer takes a whole number of them.
    """

    def __init__(self, place: Place, tick: float = TICK):
        self.place, self.tick = place, tick
        self._sittings: OrderedDict[tuple[str, int], Sitting] = OrderedDict()
        self._wrong: dict[str, deque[float]] = {}
        self._opening = asyncio.Lock()
        self.pool = ThreadPoolExecutor(4, thread_name_prefix="bench")

    async def sitting(self, learner: str, attempt: int) -> Sitting:
        """Return a sitting, opened from its log where it is not open."""
        key = (fold(learner), attempt)
        async with self._opening:
            if key not in self._sittings:
                loop = asyncio.get_running_loop()
                made = await loop.run_in_executor(self.pool, Sitting, self.place, learner, attempt)
                self._sittings[key] = made
                while len(self._sittings) > MOST_SITTINGS:
                    self._sittings.popitem(last=False)
            self._sittings.move_to_end(key)
            return self._sittings[key]

    def close(self, learner: str, attempt: int) -> None:
        """Forget a sitting; it is opened from its log again."""
        self._sittings.pop((fold(learner), attempt), None)

    def wrong(self, address: str) -> bool:
        """Count a wrong token; say whether there were too many from this address."""
        now = time.monotonic()
        seen = self._wrong.setdefault(address, deque(maxlen=WRONG_TOKENS + 1))
        seen.append(now)
        while seen and now - seen[0] > WINDOW:
            seen.popleft()
        if len(self._wrong) > 10_000:
            self._wrong.clear()
        return len(seen) > WRONG_TOKENS

    async def in_ticks(self, work: Callable[[], Told]) -> Told:
        """Do work in a thread; come back only after a whole number of ticks, whatever came of it."""
        begun = time.monotonic()
        try:
            return await asyncio.get_running_loop().run_in_executor(self.pool, work)
        finally:
            taken = time.monotonic() - begun
            await asyncio.sleep(max(1, math.ceil(taken / self.tick)) * self.tick - taken)


class _Call(tornado.web.RequestHandler):
    """A call of the examination: JSON in, JSON out, a token with each."""

    desk: Desk

    def initialize(self, desk: Desk) -> None:
        self.desk = desk

    def set_default_headers(self) -> None:
        self.set_header("Server", "examination")
        self.set_header("Content-Type", "application/json; charset=UTF-8")
        self.set_header("Cache-Control", "no-store")
        self.set_header("X-Content-Type-Options", "nosniff")

    def write_error(self, status_code: int, **details: Any) -> None:
        said = {404: "there is no such call", 405: "there is no such call"}.get(
            status_code, "the service stumbled"
        )
        self.finish(json.dumps({"said": said}))

    async def post(self, call: str) -> None:
        try:
            asked = _read(self.request.body, self.request.headers.get("Content-Type", ""))
            learner, attempt = _who(asked)
        except ExamError as error:
            self._refuse(400, str(error))
            return
        token = self.request.headers.get("Authorization", "").removeprefix("Bearer ")
        if not self.desk.place.admits(learner, attempt, token):
            many = self.desk.wrong(self.request.remote_ip or "")
            await asyncio.sleep(self.desk.tick)
            _log.warning("wrong ticket from %s", self.request.remote_ip)
            self._refuse(
                429 if many else 403,
                "too many wrong tickets from here; wait a minute"
                if many
                else "this ticket is not known: copy it as it was given to you, for this name and attempt",
            )
            return
        try:
            sitting = await self.desk.sitting(learner, attempt)
            told = await self.desk.in_ticks(lambda: _CALLS[call](sitting, asked))
        except TwoStrokeError as error:
            self._refuse(409, str(error))
        except Exception:
            _log.exception("call %s", call)
            self.desk.close(learner, attempt)
            self._refuse(500, "the service stumbled; nothing that was done is lost. Ask again")
        else:
            self.finish(json.dumps(told, ensure_ascii=False))

    def _refuse(self, status: int, said: str) -> None:
        self.set_status(status)
        self.finish(json.dumps({"said": said}, ensure_ascii=False))


class _Nothing(_Call):
    """Everything else: the same short answer."""

    def initialize(self) -> None:  # type: ignore[override]
        return

    async def prepare(self) -> None:
        self.set_status(404)
        await self.finish(json.dumps({"said": "there is no such call"}))


def _read(body: bytes, kind: str) -> Told:
    if not kind.startswith("application/json"):
        raise ExamError("ask with JSON")
    try:
        asked = json.loads(body, parse_constant=_no_constant)
    except (ValueError, RecursionError):
        raise ExamError("that cannot be read as JSON") from None
    if type(asked) is not dict:
        raise ExamError("ask with a JSON object")
    return asked


def _no_constant(name: str) -> float:
    raise ValueError(name)


def _who(asked: Told) -> tuple[str, int]:
    learner, attempt = asked.get("learner"), asked.get("attempt")
    if type(learner) is not str or type(attempt) is not int or not 1 <= attempt <= 99 or len(learner) > 100:
        raise ExamError("say whose sitting it is: learner and attempt")
    try:
        fold(learner)
    except TwoStrokeError as error:
        raise ExamError(str(error)) from None
    return learner, attempt


def _number(asked: Told) -> int:
    number = asked.get("place")
    if type(number) is not int or not 0 <= number <= 1000:
        raise ExamError("say the number of the step")
    return number


def _settings(asked: Told) -> Told:
    given = asked.get("settings", {})
    if type(given) is not dict or len(given) > 12:
        raise ExamError("settings are names with values, twelve at most")
    for name, value in given.items():
        flat = value if type(value) is list and len(value) <= 40 else [value]
        if len(name) > 40 or not all(type(each) in (str, int, float, bool) for each in flat):
            raise ExamError("write settings as text, numbers, True or False, or a list of names")
        if any(len(each) > 200 for each in flat if type(each) is str):
            raise ExamError("a setting is a short text")
    return given


def _text(asked: Told, name: str) -> str:
    text = asked.get(name)
    if type(text) is not str or not 1 <= len(text) <= 60:
        raise ExamError(f"{name}: write its name as text")
    return text


def _open(sitting: Sitting, asked: Told) -> Told:
    with sitting.lock:
        return sitting.opening()


def _do(sitting: Sitting, asked: Told) -> Told:
    number, action, settings = _number(asked), _text(asked, "action"), _settings(asked)
    with sitting.lock:
        return sitting.do(number, action, settings)


def _hand_back(sitting: Sitting, asked: Told) -> Told:
    sure = asked.get("confidence")
    if not isinstance(sure, str | int | float) or len(str(sure)) > 20:
        raise ExamError("say how sure you are, for example '80 %'")
    number, fault = _number(asked), _text(asked, "diagnosis")
    with sitting.lock:
        return sitting.hand_back(number, fault, sure)


_CALLS: dict[str, Callable[[Sitting, Told], Told]] = {"open": _open, "do": _do, "hand_back": _hand_back}


def application(place: Place, tick: float = TICK) -> tornado.web.Application:
    """Return the service as an application of tornado.

    Parameters
    ----------
    place : Place
    tick : float, optional
        Seconds; every answer takes a whole number of them.
    """
    desk = Desk(place, tick)
    return tornado.web.Application(
        [(r"/v1/(open|do|hand_back)", _Call, {"desk": desk})],
        default_handler_class=_Nothing,
        log_function=_quiet,
    )


def _quiet(handler: tornado.web.RequestHandler) -> None:
    """Nothing of a request is written to a log but what the service says itself."""


async def serve(
    place: Place,
    host: str = "127.0.0.1",
    port: int = PORT,
    *,
    certificate: tuple[str, str] | None = None,
    tick: float = TICK,
    ready: Callable[[str], None] | None = None,
    stop: asyncio.Event | None = None,
) -> None:
    """Serve an examination until it is stopped.

    Parameters
    ----------
    place : Place
    host, port : str, int
        Where it listens; this machine alone unless told otherwise. Port 0 takes a free one.
    certificate : (str, str), optional
        Files of certificate and key, for HTTPS.
    tick : float, optional
    ready : callable, optional
        Is told the address.
    stop : asyncio.Event, optional

    Raises
    ------
    ExamError
        When another service has the folder, or the port is taken.
    """
    with place.alone():
        try:
            sockets = bind_sockets(port, host)
        except OSError as error:
            raise ExamError(f"{host}:{port} cannot be used ({error.strerror}); give another --port") from None
        server = HTTPServer(
            application(place, tick),
            ssl_options=None
            if certificate is None
            else dict(zip(("certfile", "keyfile"), certificate, strict=True)),
            max_body_size=LARGEST,
            max_buffer_size=4 * LARGEST,
            max_header_size=16 * 1024,
            body_timeout=10,
            idle_connection_timeout=60,
        )
        server.add_sockets(sockets)
        if ready is not None:
            number = sockets[0].getsockname()[1]
            ready(f"http{'s' if certificate else ''}://{host}:{number}")
        try:
            await (stop or asyncio.Event()).wait()
        finally:
            server.stop()
            await server.close_all_connections()
