"""Annotations of a workflow: escaped as the runner unescapes, worst first, and never an error for a finding."""

import re

from hypothesis import given
from hypothesis import strategies as st

from speccheck.document import Mark, Problem
from speccheck.report.annotations import annotation

UNREAD = (("lots/bad, one.yaml", (Problem("'5' has no unit", "", "", (), Mark(3, 8), "x"),)),)
LINE = re.compile(r"::(error|warning|notice)(?: ([^:]*(?:=[^:,]*)?(?:,[a-z]+=[^:,]*)*))?::(.*)")


def unescaped(text: str) -> str:
    """Undo the escapes in the order in which the runner does; by its published toolkit, from memory."""
    for code, letter in (("%0D", "\r"), ("%0A", "\n"), ("%3A", ":"), ("%2C", ","), ("%25", "%")):
        text = text.replace(code, letter)
    return text


def parsed(line: str) -> tuple[str, dict[str, str], str]:
    found = LINE.fullmatch(line)
    assert found, line
    command, properties, message = found.groups()
    given = dict(part.split("=", 1) for part in (properties or "").split(",") if part)
    return command, {name: unescaped(value) for name, value in given.items()}, unescaped(message)


@given(st.text(), st.text(min_size=1), st.text(min_size=1))
def test_whatever_is_said_stays_one_command(message, title, file):
    line = annotation("warning", message, title, file, 3, 4)
    assert line.count("\n") == 0
    assert "\r" not in line
    command, properties, _ = parsed(line)
    assert (command, properties["line"], properties["col"]) == ("warning", "3", "4")
    assert set(properties) <= {"file", "line", "col", "title"}


@given(st.text(st.characters(categories=["L", "N", "P", "S"]), min_size=1))
def test_printable_text_comes_back_as_it_was(text):
    _, properties, message = parsed(annotation("notice", text, text, text))
    assert (message, properties["title"], properties["file"]) == (text, text, text)


def test_every_line_is_a_command_and_findings_stand_at_their_place(documents, written):
    wall = documents["lots/wall.yaml"]
    lines = written("github", wall).splitlines()
    told = [parsed(line) for line in lines]
    counted = [f for f in wall.findings if f.severity in ("outside", "caution", "refer", "ask")]
    assert len(told) == len(counted) + 1
    at = {(p["title"].split(" ", 1)[1], p["line"], p["col"]) for _, p, _ in told[:-1]}
    assert at == {(f"{f.rule} [{f.place}]", str(f.line), str(f.column)) for f in counted}
    assert "Nothing here is an approval" in told[-1][2]


def test_findings_are_warnings_and_notices_and_never_errors(documents, written):
    commands = [parsed(line)[0] for line in written("github", *documents.values()).splitlines()]
    assert set(commands) == {"warning", "notice"}
    assert commands == sorted(commands, key=("warning", "notice").index)


def test_a_document_that_cannot_be_read_is_an_error_and_comes_first(documents, written):
    first = written("github", *documents.values(), unread=UNREAD).splitlines()[0]
    assert parsed(first) == ("error", {"file": "lots/bad, one.yaml", "line": "3", "col": "8", "title": "could not be read"}, "'5' has no unit.")  # fmt: skip


def test_what_is_as_in_the_baseline_is_a_notice(documents, written):
    wall = documents["lots/wall.yaml"]
    told = [parsed(line) for line in written("github", wall, older=wall).splitlines()]
    assert {command for command, _, _ in told} == {"notice"}
    assert all("As in the baseline" in message for _, _, message in told[:-1])
