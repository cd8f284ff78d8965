"""Marking by hand in a terminal: the answer on the left, its rubric on the right, one key a row."""

from __future__ import annotations

from typing import ClassVar

from rich.markup import escape
from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Input, Label, Markdown, OptionList, Static

from twostroke.grading.about import lab_title
from twostroke.grading.by_hand import Desk
from twostroke.grading.marks import Piece
from twostroke.grading.states import GradingError

_STEPS = (0.0, 0.5, 1.0)
_BOXES = {0.0: "[ ]", 0.5: "[/]", 1.0: "[x]"}
_KEYS = (
    "1-9 a row: nothing, half, full   f all full   z nothing   p type points   Enter keep, go on   u undo\n"
    "c comment   r reuse one   n next   b back   g guide   o other answers   w who   Tab, arrows   q leave"
)


class Ask(ModalScreen[str | None]):
    """One line to type; Escape leaves it.

    Parameters
    ----------
    question, text : str
        What is asked, and what stands there already.
    """

    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "leave it")]

    def __init__(self, question: str, text: str = ""):
        super().__init__()
        self._question, self._text = question, text

    def compose(self) -> ComposeResult:
        """Lay out."""
        with Vertical(id="dialog"):
            yield Label(f"{self._question}; Enter takes it, Escape does not", markup=False)
            yield Input(self._text)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Hand the line back."""
        self.dismiss(event.value)

    def action_leave(self) -> None:
        """Close without an answer."""
        self.dismiss(None)


class Choose(ModalScreen[int | None]):
    """One of several lines; Escape leaves it.

    Parameters
    ----------
    question : str
    lines : list of str
    """

    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "leave it")]

    def __init__(self, question: str, lines: list[str]):
        super().__init__()
        self._question, self._lines = question, lines

    def compose(self) -> ComposeResult:
        """Lay out."""
        with Vertical(id="dialog"):
            yield Label(f"{self._question}; Enter takes one, Escape none", markup=False)
            yield OptionList(*[escape(line) for line in self._lines])

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Hand the choice back."""
        self.dismiss(event.option_index)

    def action_leave(self) -> None:
        """Close without a choice."""
        self.dismiss(None)


class MarkingScreen(App[int]):
    """The queue of one lab's written answers.

    Parameters
    ----------
    desk : Desk
    pieces : list of Piece
        As the desk's queue gave them.
    names : bool
        Whether learners' names are shown from the start.
    """

    TITLE = "Marking by hand"
    ENABLE_COMMAND_PALETTE = False
    CSS = """
    #answer-side { width: 3fr; border: round $foreground 40%; padding: 0 1; }
    #rubric-side { width: 2fr; border: round $foreground 40%; padding: 0 1; }
    #where { height: auto; padding: 0 1; text-style: bold; }
    #said { height: auto; padding: 0 1; }
    #dialog { width: 80%; height: auto; max-height: 80%; border: round $foreground; padding: 1 2; }
    #dialog { background: $surface; }
    #dialog Label { width: 100%; }
    Ask, Choose { align: center middle; }
    #guide { padding: 1 0 0 0; margin: 0; }
    #keys { height: auto; padding: 0 1; color: $foreground 80%; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        *[Binding(str(n), f"row({n - 1})", "row") for n in range(1, 10)],
        Binding("f", "all(1)", "all full"),
        Binding("z", "all(0)", "nothing"),
        Binding("p", "points", "points"),
        Binding("c", "comment", "comment"),
        Binding("r", "reuse", "reuse a comment"),
        Binding("enter", "save", "keep, next"),
        Binding("n", "move(1)", "next"),
        Binding("b", "move(-1)", "back"),
        Binding("u", "undo", "undo"),
        Binding("g", "guide", "guide"),
        Binding("o", "others", "other answers"),
        Binding("w", "names", "who"),
        Binding("q", "leave", "leave"),
    ]

    def __init__(self, desk: Desk, pieces: list[Piece], names: bool = False):
        super().__init__()
        self.desk, self.pieces, self.names = desk, pieces, names
        self.at, self.kept = 0, 0
        self.rows: list[float] = []
        self.points: float | None = None
        self.comment = ""
        self.beside = "guide"
        self.said = self._guided = ""

    def compose(self) -> ComposeResult:
        """Lay out."""
        yield Static(id="where", markup=False)
        with Horizontal():
            with VerticalScroll(id="answer-side"):
                yield Static(id="answer", markup=False)
            with VerticalScroll(id="rubric-side"):
                yield Static(id="rubric", markup=False)
                yield Markdown(id="guide")
                yield Static(id="others", markup=False)
        yield Static(id="said", markup=False)
        yield Static(_KEYS, id="keys", markup=False)

    def on_mount(self) -> None:
        """Show the first."""
        self.query_one("#answer-side").focus()
        self._open(0)

    @property
    def piece(self) -> Piece:
        """The answer on the screen."""
        return self.pieces[self.at]

    def _open(self, at: int) -> None:
        self.at = at
        piece = self.piece
        self.rows = list(piece.rows) or [0.0] * len(piece.rubric)
        self.points, self.comment = piece.mark.points, piece.mark.comment
        self._draw()
        self.query_one("#answer-side", VerticalScroll).scroll_home(animate=False)

    def _total(self) -> float:
        return self.points if self.points is not None else self.piece.points_of(tuple(self.rows))

    def _draw(self) -> None:
        piece = self.piece
        left = sum(each.mark.due for each in self.pieces)
        who = piece.learner if self.names else "name hidden"
        show = {
            "where": f"{lab_title(piece.lab)}. {piece.title} "
            f"Answer {self.at + 1} of {len(self.pieces)}, {left} still to mark, {who}",
            "answer": piece.answer or "Nothing was recorded for this task.",
            "rubric": self._rubric(),
            "others": self._others(),
            "said": self.said,
        }
        for name, text in show.items():
            self.query_one(f"#{name}", Static).update(text)
        guide = self.query_one("#guide", Markdown)
        guide.display = self.beside == "guide" and bool(piece.guide)
        if guide.display and self._guided != piece.task:
            guide.update(piece.guide)
            self._guided = piece.task

    def _rubric(self) -> str:
        piece = self.piece
        typed = ", typed" if self.points is not None else ""
        lines = [f"{self._total():g} of {piece.possible:g} points{typed}"]
        if not piece.mark.due:
            lines.append("Marked already; Enter keeps what stands here.")
        elif piece.mark.points is not None:
            lines.append("Marked before the work was run again; Enter confirms it.")
        if self.comment:
            lines.append(f"Comment: {self.comment}")
        lines.append("")
        for number, (text, worth) in enumerate(piece.rubric):
            share = self.rows[number]
            lines.append(f"{number + 1} {_BOXES.get(share, '[~]')} {text}: {share * worth:g} of {worth:g}")
        return "\n".join(lines)

    def _others(self) -> str:
        if self.beside != "others":
            return ""
        others = "\n\n".join(f"{name}\n{text}" for name, text in self.piece.others.items())
        return f"\nOther answers in this lab\n\n{others or 'none'}"

    def action_row(self, number: int) -> None:
        """Turn one row of the rubric on: nothing, half, full."""
        if number < len(self.rows):
            share = self.rows[number]
            self.rows[number] = _STEPS[(_STEPS.index(share) + 1) % 3] if share in _STEPS else 1.0
            self._by_rows()

    def action_all(self, share: int) -> None:
        """Set every row."""
        self.rows = [float(share)] * len(self.rows)
        self._by_rows()
        if not self.rows:
            self.points = share * self.piece.possible
            self._draw()

    def _by_rows(self) -> None:
        self.points, self.said = None, ""
        self._draw()

    def action_points(self) -> None:
        """Type points that the rows cannot give."""

        def typed(text: str | None) -> None:
            if text is None:
                return
            try:
                value = float(text.replace(",", "."))
            except ValueError:
                value = -1.0
            if not 0 <= value <= self.piece.possible:
                self._say(f"{text!r}: points are a number from 0 to {self.piece.possible:g}")
                return
            self.points = value
            self._say("")

        self.push_screen(Ask(f"Points, 0 to {self.piece.possible:g}"), typed)

    def action_comment(self) -> None:
        """Type a comment for the learner."""

        def typed(text: str | None) -> None:
            if text is not None:
                self.comment = text.strip()
                self._draw()

        self.push_screen(Ask("Comment for the learner", self.comment), typed)

    def action_reuse(self) -> None:
        """Take a comment that was written to another answer of this task."""
        used = self.desk.comments(self.piece.task)
        if not used:
            self._say("no comment was written to this task yet; c writes one")
            return

        def chosen(number: int | None) -> None:
            if number is not None:
                self.comment = used[number][0]
                self._draw()

        lines = [f"{text}  ({count})" for text, count in used]
        self.push_screen(Choose("Comments written before", lines), chosen)

    def action_save(self) -> None:
        """Keep the mark and go on to the next that is due."""
        piece = self.piece
        rows = tuple(self.rows) if self.points is None else ()
        try:
            entry = self.desk.give(piece, self._total(), self.comment, rows)
        except GradingError as error:
            self._refresh()
            self._say(str(error))
            return
        self.kept += 1
        self.pieces[self.at] = piece.model_copy(update={"mark": entry.after, "rows": rows})
        order = [*range(self.at + 1, len(self.pieces)), *range(self.at)]
        following = next((n for n in order if self.pieces[n].mark.due), None)
        self.said = f"kept: {entry.after.points:g} of {piece.possible:g}; u takes it back"
        if following is None:
            self.said += ". All of this queue are marked; q leaves"
        self._open(self.at if following is None else following)

    def action_move(self, step: int) -> None:
        """Go on or back without keeping."""
        self.said = ""
        self._open((self.at + step) % len(self.pieces))

    def action_undo(self) -> None:
        """Take the last mark back and show it."""
        try:
            entry = self.desk.undo()
        except GradingError as error:
            self._say(str(error))
            return
        if entry is None:
            self._say("there is nothing to take back")
            return
        self._refresh()
        self.kept = max(0, self.kept - 1)
        self.said = "taken back"
        places = [(piece.learner, piece.grade_id) for piece in self.pieces]
        wanted = (entry.learner, entry.grade_id)
        self._open(places.index(wanted) if wanted in places else self.at)

    def _refresh(self) -> None:
        """Read the answers of this queue again."""
        now = {(p.learner, p.grade_id): p for p in self.desk.queue(every=True)}
        self.pieces = [now.get((p.learner, p.grade_id), p) for p in self.pieces]

    def action_guide(self) -> None:
        """Show or hide the marking guide."""
        self.beside = "" if self.beside == "guide" else "guide"
        self._draw()

    def action_others(self) -> None:
        """Show or hide the learner's other answers."""
        self.beside = "" if self.beside == "others" else "others"
        self._draw()

    def action_names(self) -> None:
        """Show or hide the learner's name."""
        self.names = not self.names
        self._draw()

    def action_leave(self) -> None:
        """Close; everything kept stands in the gradebook."""
        self.exit(self.kept)

    def _say(self, text: str) -> None:
        self.said = text
        self._draw()
