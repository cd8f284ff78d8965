"""What is only read or practised: tables, cautions, words, cards, the map, and save-restart-hand-in."""

from __future__ import annotations

import json
import os
import time

import pytest
from twostroke.lesson import (
    LessonError,
    Page,
    Progress,
    card_book,
    card_sheet,
    caution,
    content,
    course_map,
    glossary,
    tables,
    write_cards,
)
from twostroke.lesson.practice import Practice, pack


@pytest.fixture
def record(tmp_path):
    return Progress(tmp_path / "my_progress.json")


def test_does_the_map_say_what_comes_next_and_link_only_what_is_there(tmp_path, record):
    (tmp_path / "00_start_here.ipynb").touch()
    (tmp_path / "01_shop_units.ipynb").touch()
    shown = course_map(record, tmp_path)
    assert 'href="00_start_here.ipynb"' in shown.html
    assert 'href="02_two_stroke_cycle.ipynb"' not in shown.html
    assert shown.words.splitlines()[0].endswith("(next: begin the lesson)")
    record.add("00", "exit_check", "exit", score=4, of=5)
    record.add("01", "leaf_guess", "prediction", value="0.3 mm")
    lines = course_map(record, tmp_path).words.splitlines()
    assert lines[0].startswith("00 Start here: done")
    assert "1 of 3 predictions" in lines[1]
    assert lines[1].endswith("(next: 2 predictions and 10 questions, then the exit check)")


@pytest.mark.parametrize(("score", "state"), [(3, "under way"), (4, "done"), (5, "done")])
def test_when_is_a_module_done(record, score, state):
    record.add("01", "exit_check", "exit", score=score, of=5)
    record.add("01", "exit_check", "exit", score=0, of=5)
    assert f"01 Shop units: {state}" in course_map(record).words, "the best try counts"


def test_does_the_map_send_to_the_lab_when_the_lesson_is_done(tmp_path, monkeypatch):
    """The lab keeps its own tries in the workspace; the map reads what the lab has written."""
    from twostroke import lab, workspace

    place = workspace.lay_out(tmp_path / "course").folder
    monkeypatch.setenv("TWOSTROKE_WORKSPACE", str(place))
    monkeypatch.chdir(place / "lessons")
    record = Progress(place / "my_progress.json")
    record.add("00", "exit_check", "exit", score=5, of=5)
    record.add("01", "exit_check", "exit", score=4, of=5)
    shown = course_map(record)
    assert 'Next: <a href="../labs/lab01/lab01.ipynb">lab 01 not begun</a>' in shown.html
    assert "(next: lab 01)" in shown.words
    work = lab.open_lab("01", learner="Anna")
    (first, answer), (second, _) = list(lab.model_answers("01", "Anna").items())[:2]
    work.answer(first, answer)
    work.compare(first)
    work.answer(second, lab.model_answers("01", "someone else")[second])
    work.compare(second)
    shown = course_map(record)
    assert "lab 01: 2 tasks tried, 1 right" in shown.words
    assert 'Next: <a href="02_two_stroke_cycle.ipynb">' in shown.html
    assert "2 of 16 lessons done" in shown.html


def test_does_a_failed_exit_check_send_back_to_it(record):
    record.add("00", "exit_check", "exit", score=2, of=5)
    assert (
        "(next: the exit check again; each question there says where to go back)" in course_map(record).words
    )


def test_does_the_map_on_the_page_follow_what_is_done(record, monkeypatch):
    from twostroke.lesson.progress_map import LiveMap

    seen = []

    class Handle:
        def update(self, box):
            seen.append(box.words.splitlines()[0])

    monkeypatch.setattr("IPython.display.display", lambda box, display_id: seen.append("drawn") or Handle())
    LiveMap(record)._ipython_display_()
    record.add("00", "exit_check", "exit", score=5, of=5)
    assert seen[0] == "drawn"
    assert seen[1].startswith("00 Start here: done")


def test_does_the_map_say_that_nothing_is_sent(record):
    assert "Nothing is sent anywhere" in course_map(record).html


@pytest.mark.parametrize("key", list(tables.cautions()))
def test_does_every_caution_send_the_reader_to_the_manual(key):
    box = caution(key)
    assert tables.caution(key).title in box.words
    assert "maker" in box.words
    assert "local codes" in box.words
    assert "licensed practice" in box.words
    assert "common practice, no source" in box.words
    assert 'role="note"' in box.html


def test_is_an_unknown_caution_refused_with_a_list():
    with pytest.raises(LessonError, match="fuel_vapour"):
        caution("falling_piano")


def test_do_the_words_of_a_module_stand_alone_and_all_together():
    assert "thou:" in glossary("01").words
    assert "kernel:" not in glossary("01").words
    assert "kernel:" in glossary().words


def test_are_the_cards_one_page_each_and_one_file_together(tmp_path):
    made = {path.name for path in write_cards(tmp_path)}
    assert {"card_01_shop_units.pdf", "card_01_shop_units.html", "cards.pdf", "cards.html"} <= made
    pages = {number: card_sheet(number).pages() for number in content.numbers()}
    assert set(pages.values()) == {1}, pages
    assert card_book().pages() == len(pages)


def test_is_the_page_a_door_to_every_task(record):
    page = Page("01", record)
    assert page.predict("leaf_guess").committed is None
    assert page.figure("leaf").opened is False
    with pytest.raises(LessonError, match="leaf_guess"):
        page.predict("no_such")
    with pytest.raises(LessonError, match="lesson '99'"):
        Page("99", record)


def test_does_the_page_say_where_the_record_lies_and_what_is_wrong_with_it(record):
    assert "Nothing is sent anywhere" in Page("01", record)._repr_mimebundle_()["text/html"]
    record.file.write_text("{", encoding="utf-8")
    assert "put aside" in Page("01", record)._repr_mimebundle_()["text/html"]


class TestPractice:
    @pytest.fixture
    def notebook(self, tmp_path, monkeypatch):
        file = tmp_path / "00_start_here.ipynb"
        file.write_text(json.dumps({"cells": []}), encoding="utf-8")
        monkeypatch.setenv("JPY_SESSION_NAME", str(file))
        return file

    def test_is_each_step_refused_until_it_is_true(self, record, notebook, monkeypatch):
        practice = Practice("00", record)
        practice.press("save")
        assert "Keep a word in step 1 first" in practice.shown_text
        practice.fill("mark", "rusty")
        practice.press("keep")
        old = time.time() - 3600
        os.utime(notebook, (old, old))
        practice.press("save")
        assert practice.proven == {"mark": True, "save": False, "restart": False, "hand_in": False}
        os.utime(notebook)
        practice.press("save")
        practice.press("restart")
        assert practice.proven["save"]
        assert not practice.proven["restart"], "the kernel is still the same"
        monkeypatch.setattr("twostroke.lesson.practice.SESSION", "another kernel")
        again = Practice("00", Progress(record.file))
        again.press("restart")
        assert again.proven["restart"]
        assert "rusty" in again.shown_text

    def test_is_the_copy_the_same_bytes_in_the_folder_to_hand_in(self, record, notebook):
        practice = Practice("00", record)
        practice.press("hand_in")
        copy = notebook.parent / "to_hand_in" / notebook.name
        assert copy.read_bytes() == notebook.read_bytes()
        assert practice.proven["hand_in"]

    def test_is_an_empty_word_asked_back(self, record, notebook):
        practice = Practice("00", record)
        practice.fill("mark", "  ")
        practice.press("keep")
        assert not practice.proven["mark"]
        assert "Write a word first" in practice.shown_text

    def test_does_a_missing_file_give_a_clear_message(self, record, monkeypatch):
        monkeypatch.delenv("JPY_SESSION_NAME", raising=False)
        practice = Practice("00", record)
        practice.press("hand_in")
        assert "open the lesson in JupyterLab" in practice.shown_text

    def test_is_a_folder_that_cannot_be_written_said_plainly(self, notebook, tmp_path):
        (tmp_path / "taken").touch()
        with pytest.raises(LessonError, match="pack again"):
            pack(notebook, tmp_path / "taken")
