"""What can go wrong when a lesson is written or opened."""

from __future__ import annotations

from twostroke.errors import TwoStrokeError


class LessonError(TwoStrokeError):
    """A lesson, task, figure or word was asked for that does not exist, or is written against the rules."""
