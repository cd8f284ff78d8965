"""The bench as a page of its own, for a tablet in the workshop: one address, a token, nothing else.

Each open page has its own panel; two pages with the same job follow each other through the job's file.
"""

from __future__ import annotations

import asyncio
import hmac
import json
import logging
import secrets
import webbrowser
from collections.abc import Callable
from pathlib import Path
from typing import Any

import tornado.web
import tornado.websocket
from tornado.httpserver import HTTPServer
from tornado.netutil import bind_sockets

from twostroke.lesson.bench_panel.cards import FOLDER
from twostroke.lesson.bench_panel.own_shop import OwnShop
from twostroke.lesson.bench_panel.panel import BenchPanel
from twostroke.lesson.errors import LessonError

_STATIC = Path(__file__).parent / "static"
_SENT = ("regions", "focus", "say")
_LARGEST = 256 * 1024
_COOKIE = "bench"
_RULES = (
    "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; connect-src 'self'; "
    "img-src 'self' data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
_LOG = logging.getLogger(__name__)


class _Guarded(tornado.web.RequestHandler):
    """Answers only those who bring the token, in the address or in the cookie that came with it."""

    @property
    def _token(self) -> str:
        return str(self.application.settings["bench_token"])

    def _allowed(self) -> bool:
        given = self.get_argument("token", "") or self.get_cookie(_COOKIE + str(self.settings["port"]), "")
        return hmac.compare_digest(str(given).encode(), self._token.encode())

    def prepare(self) -> None:
        """Refuse strangers."""
        if not self._allowed():
            self.set_status(403)
            self.finish("This bench wants its token: use the whole address that the command has printed.")

    def set_default_headers(self) -> None:
        """Nothing from elsewhere, nothing kept."""
        self.set_header("Content-Security-Policy", _RULES)
        self.set_header("X-Content-Type-Options", "nosniff")
        self.set_header("Referrer-Policy", "no-referrer")
        self.set_header("Cache-Control", "no-store")


class _Page(_Guarded):
    def get(self) -> None:
        """The page; the token moves from the address into a cookie."""
        if self.get_argument("token", ""):
            name = _COOKIE + str(self.settings["port"])
            self.set_cookie(name, self._token, httponly=True, samesite="Strict")
            self.redirect("/")
            return
        self.set_header("Content-Type", "text/html; charset=utf-8")
        self.finish((_STATIC / "page.html").read_text(encoding="utf-8"))


class _File(_Guarded):
    def get(self, name: str) -> None:
        """One of the page's own files."""
        kind = "text/javascript" if name.endswith(".js") else "text/css"
        self.set_header("Content-Type", f"{kind}; charset=utf-8")
        self.finish((_STATIC / name).read_text(encoding="utf-8"))


class _Card(_Guarded):
    def get(self, name: str) -> None:
        """A job card that was written."""
        folder = self.settings["bench_folder"]
        file = None if folder is None else Path(folder) / FOLDER / name
        if file is None or not file.is_file():
            raise tornado.web.HTTPError(404)
        kind = {"pdf": "application/pdf", "html": "text/html; charset=utf-8", "json": "application/json"}
        self.set_header("Content-Type", kind[name.rpartition(".")[2]])
        self.finish(file.read_bytes())


class _Line(_Guarded, tornado.websocket.WebSocketHandler):
    """The wire between one page and its panel."""

    panel: BenchPanel

    def open(self, *args: str, **kwargs: str) -> None:
        """A page was opened: give it a panel."""
        self.set_nodelay(True)
        self.panel = BenchPanel(None, self.settings["bench_folder"], shop=self.settings["bench_shop"])
        self.panel.cards = "/card/"
        self._sent: dict[str, Any] = {}
        self._send()

    async def on_message(self, message: str | bytes) -> None:
        """A press in the page."""
        try:
            content = json.loads(message)
            values = content.get("values") or {}
            press = str(content.get("press", ""))
            if not isinstance(values, dict):
                raise TypeError("values are no record")
        except (ValueError, TypeError, AttributeError):
            return
        if press == "attach":
            self._attach(str(values.get("job", "")))
        elif press == "score":  # may take a while: the other pages go on meanwhile
            await asyncio.to_thread(self.panel.tell, press)
        else:
            self.panel.tell(press, **{str(name): value for name, value in values.items()})
        if self.ws_connection is not None:
            self._send()

    def _attach(self, name: str) -> None:
        """After a reload the page asks for the job that it had."""
        if self.panel.job is None and name:
            self.panel.tell("resume", value=name)

    def _send(self) -> None:
        new: dict[str, Any] = {name: getattr(self.panel, name) for name in _SENT}
        job = self.panel.job
        new["job"] = job.file.name if job is not None and job.file is not None else ""
        changed = {name: value for name, value in new.items() if self._sent.get(name) != value}
        self._sent.update(changed)
        if changed:
            self.write_message(json.dumps(changed))

    def on_close(self) -> None:
        """The page is gone; the job lies in its file."""
        if getattr(self, "panel", None) is not None:
            self.panel.close()


def application(
    folder: Path | None, token: str, port: int, shop: OwnShop | None = None
) -> tornado.web.Application:
    """The page as a tornado application."""
    pages = [
        (r"/", _Page),
        (r"/(bench\.js|bench\.css|page\.js)", _File),
        (r"/line", _Line),
        (r"/card/([^/\\]+\.(?:pdf|html|json))", _Card),
    ]
    return tornado.web.Application(
        pages,
        bench_token=token,
        bench_folder=folder,
        bench_shop=shop,
        port=port,
        websocket_max_message_size=_LARGEST,
        websocket_ping_interval=20,
    )


async def run(
    folder: Path | None,
    *,
    port: int | None = None,
    address: str = "127.0.0.1",
    token: str | None = None,
    shop: OwnShop | None = None,
    ready: Callable[[str], None] | None = None,
    stop: asyncio.Event | None = None,
) -> None:
    """Serve the page until stopped.

    Parameters
    ----------
    folder : Path or None
        Where jobs are kept.
    port : int, optional
        Default: a free one.
    address : str
        The loopback address unless told otherwise.
    token : str, optional
        A new one when left out.
    shop : OwnShop, optional
        The shop's own table and prices.
    ready : callable, optional
        Called with the whole address once it listens.
    stop : asyncio.Event, optional
        Set to end.

    Raises
    ------
    LessonError
        The port is taken, or the address is none of this machine's.
    """
    word = token or secrets.token_urlsafe(24)
    try:
        sockets = bind_sockets(port or 0, address)
    except OSError as error:
        raise LessonError(
            f"the bench cannot listen at {address}, port {port or 'any'}: {error.strerror or error}; "
            "give another --port, or leave --address out"
        ) from None
    bound = int(sockets[0].getsockname()[1])
    server = HTTPServer(application(folder, word, bound, shop))
    server.add_sockets(sockets)
    if ready is not None:
        shown = f"[{address}]" if ":" in address else address
        ready(f"http://{shown}:{bound}/?token={word}")
    try:
        await (stop or asyncio.Event()).wait()
    finally:
        server.stop()
        await server.close_all_connections()


def serve(
    folder: Path | None, *, port: int | None, address: str, browser: bool, say: Callable[[str], None],
    shop: OwnShop | None = None,
) -> None:  # fmt: skip
    """Serve the page from the command line until Ctrl-C."""

    def ready(url: str) -> None:
        say(f"The bench is at {url}")
        if browser:
            webbrowser.open(url)

    logging.getLogger("tornado.access").setLevel(logging.ERROR)
    try:
        asyncio.run(run(folder, port=port, address=address, shop=shop, ready=ready))
    except KeyboardInterrupt:
        say("stopped")
