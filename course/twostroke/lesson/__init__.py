"""Lessons: predictions, questions, examples with gaps, orders of work and interactive figures, made once for
all lessons.

How to write a lesson: a lesson has three parts.

1. **Content** in ``lesson/content/mNN/``: what is asked, as data (`twostroke.lesson.tasks`,
   `twostroke.lesson.outline`). ``__init__.py`` holds one `outline.Lesson` called LESSON; questions, examples
   and the exit check go into files of their own beside it. Every wrong option names a misconception from
   ``data/misconceptions.yaml`` (one table for the whole course) and says what is seen and what to check.
   Answers are functions that call the library, never typed numbers.
2. **Figures** in ``lesson/figures/NAME.py``: pure functions from quantities to a `drawing.Picture` (SVG, the
   same in words, the numbers shown). They call the library's physics; whatever costs more than a few
   milliseconds and does not depend on a slider is cached. Draw with `drawing.Canvas`, `drawing.Frame`,
   `drawing.dial`: ink, weight, dash and hatch first, colour last; labels 15 px or more on a canvas at most
   720 wide.
3. **The master** ``course/text/lessons/NN_slug.py`` (jupytext percent): text cells of at most 120 words and
   folded code cells with one short call each::

       # %% jupyter={"source_hidden": true}
       page.predict("leaf_guess")

A master begins with a text cell: title, the one question, **After this you can** with each outcome tied to a
lab task, what is needed first, minutes. The next cell opens the page::

    from twostroke import lesson

    page = lesson.open_lesson("01")
    page

and then, in small steps: ``page.predict(id)`` before each ``page.figure(id)``; ``page.question(id)`` after
it, asking why (`tasks.Question` with ``explains``); a worked example as text under a heading that says so;
``page.example(id)`` with gaps, then one alone; ``page.order(id)``; ``page.caution(id, …)`` within two cells
of each hazard; ``page.words()`` under the heading "Words of this lesson", to which each technical word links
at first use (``[shim](#Words-of-this-lesson)``, the word in ``data/glossary.yaml``); ``page.card()``;
``page.exit_check()``. A question's ``about`` is the lesson whose matter it asks for: at least two questions
go back to earlier lessons, one of them three or more back (exemptions stand in the test).

``tests/notebooks/test_lesson_rules.py`` counts all of this for every master. ``python3 course build`` makes
the notebooks.

Parts that a later lesson may need in another form: subclass `control.Control`, list native parts, judge in
Python.
"""

from __future__ import annotations

from twostroke.lesson.box import Box, caution, glossary
from twostroke.lesson.card import book as card_book
from twostroke.lesson.card import sheet as card_sheet
from twostroke.lesson.card import write as write_cards
from twostroke.lesson.control import Control
from twostroke.lesson.errors import LessonError
from twostroke.lesson.page import Page, open_lesson
from twostroke.lesson.progress import Progress
from twostroke.lesson.progress_map import course_map

__all__ = [
    "Box",
    "Control",
    "LessonError",
    "Page",
    "Progress",
    "card_book",
    "card_sheet",
    "caution",
    "course_map",
    "glossary",
    "open_lesson",
    "write_cards",
]
