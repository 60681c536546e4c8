"""What a person may write freely in a document stays text in every format, whatever it tries to be."""

import csv
import io
import json
from html.parser import HTMLParser
from typing import Any
from xml.etree import ElementTree

import pytest
from markdown_it import MarkdownIt

from speccheck.report.digest import digest_of
from speccheck.report.formats import FORMATS
from speccheck.report.index_page import index_page
from speccheck.report.matrix import matrix_text
from speccheck.report.text import text_roll

HTML = '<script>alert(1)</script><img src=x onerror="alert(2)">"&\'>'
MARKDOWN = (
    "](http://x.example) ![a](http://x.example/p.png) **b** `c` | d | <b>e</b> @everyone #1 www.x.example"
)
FORMULA = '=HYPERLINK("http://x.example","look")'
COMMAND = "::error file=a,line=1::no %0A::set-output name=a::b"
LINKED = "[click](http://x.example) {0} {1} \\"
PIPED = "|cmd /c calc"
TURNED = "\u202eturned round \u2066\u200b"
ALL = {
    "html": HTML,
    "markdown": MARKDOWN,
    "formula": FORMULA,
    "command": COMMAND,
    "linked": LINKED,
    "piped": PIPED,
    "turned": TURNED,
    "at": "@SUM(A1:A9)",
    "minus": "-1+1 is not it",
}
FILE = 'lots/=1+1 <b>|`"%0A::error::x.yaml'
STEERING = "lots/\x1b[31m\u202e\r\x07lay.txt.yaml"
MACHINE = ("text", "json", "matrix", "csv", "markdown", "sarif", "junit", "github")


@pytest.fixture(scope="module", params=list(ALL))
def hostile(request, changed) -> tuple[str, Any]:
    """Return a text and a document that says it wherever text is free."""
    text = ALL[request.param]

    def say(data: dict[str, Any]) -> None:
        data["project"] |= {"name": text, "description": text}
        data["assemblies"]["wall"] |= {"name": text, "note": text}
        data["assemblies"]["wall"]["layers"][0] |= {"note": text}
        data["waivers"][0] |= {"reason": f"reason {text}", "agreed-by": f"name {text}"}

    return text, changed(say, FILE)


class Tags(HTMLParser):
    """The tags of a page with their attributes."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.found.append((tag, dict(attrs)))


def test_the_formats_meant_here_are_among_those_there_are():
    assert set(MACHINE) <= set(FORMATS)


@pytest.mark.parametrize("form", MACHINE)
def test_no_character_steers_a_terminal_or_turns_a_line(hostile, written, form):
    _, checked = hostile
    text = written(form, checked)
    if (
        form == "json"
    ):  # JSON is for programs and keeps what was written; it is what a string holds, escaped or plain
        assert json.loads(text)["documents"][0]["project"] == checked.loaded.document.project.name
        return
    bad = {c for c in text if not c.isprintable() and c not in "\r\n"}
    # the joiner without width is ours: it parts what a code host would take for a mention
    assert bad <= ({"\u2060"} if form == "markdown" else set())


def test_markdown_holds_no_link_picture_or_html(hostile, written):
    _, checked = hostile
    tokens = MarkdownIt("commonmark", {"html": True}).enable(["table"]).parse(written("markdown", checked))
    kinds = {token.type for token in tokens} | {t.type for token in tokens for t in token.children or ()}
    assert not {"link_open", "image", "html_inline", "html_block", "fence", "code_block"} & kinds
    header, row = (t for t in tokens if t.type == "tr_open"), [t for t in tokens if t.type == "td_open"]
    assert len(list(header)) == 2
    assert len(row) == 10


def test_no_cell_of_the_spreadsheet_begins_as_a_formula(hostile, written):
    _, checked = hostile
    rows = list(csv.reader(io.StringIO(written("csv", checked), newline="")))
    assert len(rows) == 2
    assert not [
        cell for row in rows for cell in row if cell.startswith(("=", "+", "-", "@", "\t", "\r", "|"))
    ]


def test_every_annotation_is_one_of_ours(hostile, written):
    _, checked = hostile
    for line in written("github", checked).splitlines():
        assert line.startswith(("::warning ", "::notice "))
        assert "::set-output" not in line.split("::", 2)[1]
        # in properties the colon and the comma are escaped, so nothing there can end them
        properties = line.split("::", 2)[1]
        assert properties.count("file=") <= 1


def test_xml_is_well_formed_and_says_the_same(hostile, written):
    text, checked = hostile
    root = ElementTree.fromstring(written("junit", checked))
    assert {element.tag for element in root.iter()} == {
        "testsuites", "testsuite", "testcase", "failure", "skipped", "system-out",
    } - ({"system-out"} if not list(root.iter("system-out")) else set())  # fmt: skip
    (waived,) = [s for s in root.iter("skipped") if s.get("message", "").startswith("waived")]
    if text.isprintable():
        assert f"reason {text}" in waived.get("message")


def test_sarif_messages_hold_no_link_and_no_placeholder(hostile, written):
    _, checked = hostile
    run = json.loads(written("sarif", checked))["runs"][0]
    for result in run["results"]:
        message = result["message"]["text"]
        for before, character in zip(" " + message, message, strict=False):
            assert character not in "[]" or before == "\\"
        assert message.replace("{{", "").replace("}}", "").count("{") == 0
    uris = {r["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] for r in run["results"]}
    assert uris == {"lots/%3D1%2B1%20%3Cb%3E%7C%60%22%250A%3A%3Aerror%3A%3Ax.yaml"}


def test_the_index_page_holds_no_tag_but_its_own(hostile):
    _, checked = hostile
    tags = Tags(index_page([digest_of(checked, "ask")], ["a b.html"])).found
    calm = Tags(index_page([digest_of(checked, "ask")._replace(file="x", project="x")], ["a b.html"])).found
    assert [tag for tag, _ in tags] == [tag for tag, _ in calm]
    assert [sorted(attributes) for _, attributes in tags] == [sorted(attributes) for _, attributes in calm]


@pytest.mark.parametrize("form", MACHINE)
def test_the_name_of_a_file_steers_no_terminal(changed, written, form):
    checked = changed(lambda data: None, STEERING)
    text = written(form, checked)
    bad = {c for c in text if not c.isprintable() and c not in "\r\n"}
    if form == "json":  # a program gets the name as it is
        assert json.loads(text)["documents"][0]["file"] == STEERING
        assert not bad - {"\u202e"}
        return
    assert bad <= ({"\u2060"} if form == "markdown" else set())


@pytest.mark.parametrize("roll", [text_roll, matrix_text])
@pytest.mark.parametrize("width", [40, 120])
def test_a_roll_of_documents_steers_no_terminal(changed, roll, width):
    digest = digest_of(changed(lambda data: None, STEERING), "ask")
    text = roll([digest], [STEERING], width)
    assert not [c for c in text if not c.isprintable() and c != "\n"]
    assert "x07lay" in text.replace("\n", "")  # escaped; the matrix keeps the end of a long name


@pytest.mark.parametrize("roll", [text_roll, matrix_text])
def test_one_document_is_not_many(changed, roll):
    digest = digest_of(changed(lambda data: None), "ask")
    assert "1 document" in roll([digest], [])
    assert "1 documents" not in roll([digest], [])
    assert "2 documents" in roll([digest], ["other.yaml"])
