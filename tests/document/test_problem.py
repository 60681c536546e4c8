"""Problems in words: the place, the sentences, nothing that a terminal would obey."""

import pytest

from speccheck.document.problem import Mark, Problem, Unreadable, printable, where


def test_path_in_words():
    assert where(("assemblies", "wall", "layers", 2, "thickness")) == "assemblies.wall.layers[2].thickness"
    assert where((3, "a")) == "[3].a"
    assert where(()) == ""


def test_one_paragraph():
    problem = Problem("'5' has no unit", "a length", "write 5 mm", ("a", 0, "depth"), Mark(3, 8), "wall.yaml")
    assert problem.text() == "wall.yaml:3:8: '5' has no unit. Expected a length. Do: write 5 mm."
    assert problem.where == "a[0].depth"


@pytest.mark.parametrize(
    ("problem", "text"),
    [
        (Problem("it is empty", file="wall.yaml"), "wall.yaml: it is empty."),
        (Problem("it is empty", do="did you mean `wall`?"), "input: it is empty. Do: did you mean `wall`?"),
        (Problem("is it empty?", "a text ...", file="f"), "f: is it empty? Expected a text ..."),
        (Problem("it is empty", do="write it"), "input: it is empty. Do: write it."),
        (Problem("no such layer", path=("a", 1), file="f.yaml"), "f.yaml: a[1]: no such layer."),
    ],
)
def test_parts_may_be_absent(problem: Problem, text: str):
    assert problem.text() == text


def test_terminal_escapes_from_the_input_are_shown_not_obeyed():
    problem = Problem(
        "\x1b[2J\u202e stands here", "x\r", "y\x07", ("\x1b[31m",), Mark(1, 1), "a\x1b]0;b\x07.yaml"
    )
    assert problem.text().isprintable()
    assert problem.where.isprintable()
    assert "\\x1b[2J" in problem.text()
    assert "\\u202e" in problem.text()


def test_long_excerpts_are_cut():
    assert len(printable("x" * 10_000)) == 300
    assert printable("x" * 300) == "x" * 300


def test_unreadable_carries_and_words_every_problem():
    error = Unreadable(Problem("one", file="f"), Problem("two", file="f"))
    assert [problem.what for problem in error.problems] == ["one", "two"]
    assert str(error) == "f: one.\nf: two."
