"""The one widget class behind every control of a lesson: native elements in the browser, all judgement in
Python.

A control lists its *parts* (text, choice, entry, pick, range, order, picture, buttons). The browser draws
them and sends back what was typed and which button was pressed. Nothing is decided in the browser, so every
control is tested without one: `Control.fill` and `Control.press` do what a reader does.
"""

from __future__ import annotations

import logging
from collections.abc import Mapping
from html import escape
from pathlib import Path
from typing import Any

import anywidget
import traitlets

from twostroke.errors import TwoStrokeError
from twostroke.lesson.feedback import Judgement, plain, tie

_STATIC = Path(__file__).parent / "static"
_LOG = logging.getLogger(__name__)
Part = dict[str, Any]
_READ = ("html", "legend", "label", "message")


def text(key: str, html: str, tone: str = "plain") -> Part:
    """A piece of text; tones ``plain right look kept cover words``."""
    return {"kind": "text", "key": key, "html": html, "tone": tone}


def said(key: str, judgement: Judgement) -> Part:
    """Feedback as a part."""
    return text(key, judgement.html, "right" if judgement.right else "look")


def buttons(*names: tuple[str, str], main: bool = True) -> Part:
    """Buttons in a row as (name, text); the first is the main one, unless ``main`` is False."""
    rows = [[name, label, main and row == 0] for row, (name, label) in enumerate(names)]
    return {"kind": "buttons", "key": "buttons", "buttons": rows}


class Control(anywidget.AnyWidget):
    """Base of all controls.

    Parameters
    ----------
    name : str
        Accessible name of the whole control.
    look : str
        Style: ``predict``, ``question``, ``example``, ``order``, ``exit``, ``figure``, ``practice``.

    Notes
    -----
    Without a kernel the output shows `still_html` (and `still_svg` where there is one) and `still_words`.
    """

    # As text: a path would tie every control to a watched file that outlives it.
    _esm = (_STATIC / "controls.js").read_text(encoding="utf-8")
    _css = (_STATIC / "controls.css").read_text(encoding="utf-8")
    name = traitlets.Unicode().tag(sync=True)
    look = traitlets.Unicode().tag(sync=True)
    parts: traitlets.List[Part] = traitlets.List().tag(sync=True)
    values = traitlets.Dict().tag(sync=True, echo_update=False)  # the browser need not hear its own words
    picture = traitlets.Unicode().tag(sync=True)
    words = traitlets.Unicode().tag(sync=True)
    say = traitlets.Unicode().tag(sync=True)

    def __init__(self, name: str, look: str) -> None:
        super().__init__(name=name, look=look)
        self.on_msg(self._receive)

    def close(self) -> None:
        """Take it off the screen, with the layout that came with it."""
        if self.comm is not None:
            self.layout.close()
        super().close()

    @traitlets.validate("parts")
    def _tied(self, proposal: traitlets.Bunch) -> list[Part]:
        return [
            {name: tie(value) if name in _READ else value for name, value in part.items()}
            for part in proposal["value"]
        ]

    def _receive(self, _widget: Any, content: Mapping[str, Any], _buffers: Any) -> None:
        if isinstance(content.get("values"), dict):
            self.values = content["values"]
        self.press(str(content.get("press", "")))

    def fill(self, key: str, value: Any) -> None:
        """Type or choose, as a reader does."""
        self.values = {**self.values, key: value}

    def press(self, button: str) -> None:
        """Press a button, as a reader does; no error trace reaches the reader."""
        action = getattr(self, f"on_{button}", None)
        if action is None:
            return
        try:
            action()
        except TwoStrokeError as error:
            self._note(f"<p>{escape(str(error))}</p>")
        except Exception:
            _LOG.exception("control %r, button %r", self.name, button)
            self._note(
                "<p><b>Something in the course broke; your answer is not the reason.</b> "
                "Choose Kernel, Restart Kernel and Run All Cells. If it comes again, tell the instructor.</p>"
            )

    def _note(self, html: str) -> None:
        kept = [part for part in self.parts if part["key"] != "trouble"]
        self.parts = [*kept, text("trouble", html, "look")]
        self.speak(plain(html))

    def speak(self, words: str) -> None:
        """Have a screen reader say something, the same words twice too."""
        self.say = f"{words}\u200b" if self.say == words else words

    @property
    def shown_text(self) -> str:
        """Everything that stands on the screen now, as plain text."""
        pieces: list[str] = []
        for part in self.parts:
            pieces += [
                part.get("html", ""),
                part.get("legend", ""),
                part.get("label", ""),
                part.get("message", "") or "",
            ]
            pieces += [option[1] for option in part.get("options", [])]
            pieces += [item[1] for item in part.get("items", [])]
            pieces += [button[1] for button in part.get("buttons", [])]
        return " ".join(plain(piece) for piece in pieces if piece)

    def still_html(self) -> str:
        """What a page without a kernel shows."""
        raise NotImplementedError

    def still_svg(self) -> str | None:
        """The still picture, where the control has one."""
        return None

    def still_words(self) -> str:
        """The same in plain words."""
        return plain(self.still_html())

    def _repr_mimebundle_(self, **kwargs: Any) -> Any:
        bundle = super()._repr_mimebundle_(**kwargs)
        data, metadata = bundle if isinstance(bundle, tuple) else (bundle or {}, {})
        data = {
            **data,
            "text/html": frame(self.name, self.look, self.still_html()),
            "text/plain": self.still_words(),
        }
        svg = self.still_svg()
        if svg:
            data["image/svg+xml"] = svg
        return data, metadata


def frame(name: str, look: str, html: str) -> str:
    """A still control as a named region with a quiet frame; plain HTML that needs no style sheet."""
    return (
        f'<section class="tsb-still tsb-{look}" aria-label="{escape(name, quote=True)}"'
        ' style="max-width:46rem;margin:.4rem 0 .9rem;padding:.7rem'
        " 1rem;background:#faf8f2;color:#20262b;border:1px solid #8a9298;border-left:6px solid"
        f' #6b747a">{html}</section>'
    )
