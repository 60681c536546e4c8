"""Annotations of a workflow: escaped as the runner unescapes, worst first, and never an error for a finding."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.document import Mark, Problem
from speccheck.report.annotations import annotation
from speccheck.report.wording import DEFERRAL

UNREAD = (("lots/bad, one.yaml", (Problem("'5' has no unit", "", "", (), Mark(3, 8), "x"),)),)
WORDS = {"outside": "Outside a published limit", "caution": "Caution", "refer": "Refer", "ask": "Ask"}
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
    told = [parsed(line) for line in written("github", wall).splitlines()]
    counted = [f for f in wall.findings if f.severity in WORDS]
    at = {(p["title"], p["line"], p["col"]) for _, p, _ in told if "file" in p}
    assert at <= {(f"{WORDS[f.severity]}: {f.rule} [{f.place}]", str(f.line), str(f.column)) for f in counted}
    assert len(at) >= 10


def test_the_summary_comes_first_where_nothing_cuts_it_off(documents, written):
    first = written("github", *documents.values(), unread=UNREAD).splitlines()[0]
    command, properties, message = parsed(first)
    assert (command, properties) == ("notice", {"title": "speccheck"})
    assert message.startswith("1 document could not be read; warn (outside a published limit): ")
    assert message.endswith(DEFERRAL)


def test_where_nothing_could_be_read_the_summary_says_that_alone(written):
    _, _, message = parsed(written("github", unread=UNREAD * 2).splitlines()[0])
    assert message == f"2 documents could not be read. {DEFERRAL}"


def test_findings_are_warnings_and_notices_and_never_errors(documents, written):
    commands = [parsed(line)[0] for line in written("github", *documents.values()).splitlines()[1:]]
    assert set(commands) == {"warning", "notice"}
    assert commands == sorted(commands, key=("warning", "notice").index)


def test_a_document_that_cannot_be_read_is_an_error_and_comes_next(documents, written):
    second = written("github", *documents.values(), unread=UNREAD).splitlines()[1]
    assert parsed(second) == ("error", {"file": "lots/bad, one.yaml", "line": "3", "col": "8", "title": "could not be read"}, "'5' has no unit.")  # fmt: skip


@pytest.mark.parametrize("copies", [1, 3, 12])
def test_no_kind_has_more_than_a_runner_shows_and_the_rest_is_counted(documents, written, copies):
    several = [one for one in documents.values() for _ in range(copies)]
    unread = UNREAD * copies
    told = [parsed(line) for line in written("github", *several, unread=unread).splitlines()]
    severities = [f.severity for one in several for f in one.findings]
    there = {
        "error": copies,
        "warning": severities.count("outside") + severities.count("caution"),
        "notice": severities.count("refer") + severities.count("ask"),
    }
    for kind, count in there.items():
        shown = [message for command, _, message in told if command == kind]
        own = shown[1:] if kind == "notice" else shown  # the summary is a notice too
        assert len(shown) <= 10
        more = re.match(r"and (\d+) more,", own[-1])
        assert len(own) - 1 + int(more[1]) == count if more else len(own) == count
    assert any("more" in message for _, _, message in told) == (copies > 1 or there["notice"] > 9)


def test_ten_of_a_kind_are_shown_and_eleven_are_cut(written):
    for count, more in ((10, ""), (11, "and 2 more,")):
        errors = [line for line in written("github", unread=UNREAD * count).splitlines() if "::error" in line]
        assert len(errors) == 10
        assert parsed(errors[-1])[2].startswith(more or "'5' has no unit")


def test_what_is_outside_a_published_limit_is_never_cut_for_a_caution(documents, written):
    text = written("github", *list(documents.values()) * 3)
    titles = [parsed(line)[1]["title"] for line in text.splitlines() if line.startswith("::warning")]
    kinds = [title.partition(":")[0] for title in titles]
    assert kinds[0] == "Outside a published limit"
    assert kinds[:9] == sorted(kinds[:9], reverse=True)
    assert set(kinds) <= {"Outside a published limit", "Caution", "speccheck"}


def test_what_is_as_in_the_baseline_is_a_notice_and_comes_after_what_counts(documents, written, changed):
    wall = documents["lots/wall.yaml"]
    told = [parsed(line) for line in written("github", wall, older=wall).splitlines()]
    assert {command for command, _, _ in told} == {"notice"}
    assert all("As in the baseline" in message for _, properties, message in told if "file" in properties)
    newer = changed(lambda data: data["assemblies"]["wall"]["layers"].pop(0))
    notices = [
        "As in the baseline" in message
        for command, properties, message in map(parsed, written("github", newer, older=wall).splitlines())
        if command == "notice" and "file" in properties
    ]
    assert notices == sorted(notices)
