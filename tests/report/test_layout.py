"""Plain text on a sheet: its width is kept, nothing steers the terminal."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.report.layout import Sheet

hostile = st.text(st.characters(exclude_categories=("Cs",)), max_size=200)


@given(
    hostile,
    st.integers(0, 8),
    st.sampled_from(
        [
            "",
            "- ",
            "Why: ",
            "a.long.rule.id.of.many.words  ",
            "a.longer.rule.id.than.the.sheet.is.wide.by.far: ",
        ]
    ),
    st.sampled_from([40, 80, 120]),
)
def test_no_line_is_wider_than_the_sheet_or_ends_in_a_space(text, indent, lead, width):
    sheet = Sheet(width)
    sheet.line(text)
    sheet.heading(text)
    sheet.wrap(text, indent, lead)
    for line in sheet.text().split("\n"):
        assert len(line) <= width
        assert line == line.rstrip(" ")
        assert line.isprintable() or not line


@pytest.mark.parametrize(
    "text",
    ["\x1b[31mred\x1b[0m", "\x07bell", "back\x08space", "\u202eright to left", "\x9b0m", "a\nb", "a\tb"],
)
def test_control_characters_are_escaped(text):
    sheet = Sheet()
    sheet.wrap(text)
    sheet.line(text)
    sheet.heading(text)
    assert all(character.isprintable() for line in sheet.text().split("\n") for character in line)
    assert "\\" in sheet.text()


def test_a_paragraph_hangs_under_the_end_of_its_lead():
    sheet = Sheet(40)
    sheet.wrap("one two three four five six seven eight nine ten", 2, "Do: ")
    assert sheet.text() == "  Do: one two three four five six seven\n      eight nine ten\n"


def test_blank_lines_do_not_pile_up():
    sheet = Sheet()
    sheet.wrap("a")
    sheet.blank()
    sheet.blank()
    sheet.heading("b")
    assert sheet.text() == "a\n\nb\n-\n"


@pytest.mark.parametrize(("wished", "width"), [(10, 40), (40, 40), (100, 100), (500, 120)])
def test_width_is_held_between_forty_and_a_hundred_and_twenty(wished, width):
    assert Sheet(wished).width == width
