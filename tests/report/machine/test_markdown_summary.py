"""The summary for a pull request: read by a Markdown reader, it says what was found and is nothing else."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from speccheck.document import Mark, Problem
from speccheck.judgement.finding import SEVERITIES
from speccheck.report.markdown_text import code, plain, worded
from speccheck.report.matrix import CELLS

UNREAD = (("lots/bad.yaml", (Problem("'5' has no unit", "a length", "", (), Mark(3, 8), "lots/bad.yaml"),)),)
READER = MarkdownIt("commonmark", {"html": True}).enable(["table", "strikethrough"])
INVISIBLE = "\u2060"


def inline(text: str) -> list:
    """Return the tokens of a paragraph that begins with text of our own, as every entry does."""
    tokens = READER.parse(f"said: {text}")
    assert [token.type for token in tokens] == ["paragraph_open", "inline", "paragraph_close"]
    return tokens[1].children


@given(st.text())
@example("](http://x.example) ![a](http://x.example/p.png) <b>x</b> **b** `c` ~~d~~ &lt; \\")
@example("# heading\n- item\n1. one\n> quote\n    code\n| a | b |\n---")
def test_text_is_only_text(text):
    tokens = inline(plain(text))
    # what stands for a character that would be markup is a token of its own, but text all the same
    assert {token.type for token in tokens} <= {"text", "text_special"}


@given(st.text(st.characters(categories=["L", "N", "P", "S"]), min_size=1, max_size=300))
def test_text_reads_as_it_was_written(text):
    read = "".join(token.content for token in inline(plain(text)))
    assert read.replace(INVISIBLE, "") == f"said: {text}".replace(INVISIBLE, "")


@given(st.text(st.characters(categories=["L", "N", "P", "S"], include_characters=" "), max_size=300))
@example("``` a `` b ` c")
@example("`")
@example("|x|")
def test_code_is_only_code(text):
    tokens = [token for token in inline(code(text)) if token.content != "said: "]
    assert [token.type for token in tokens] == ["code_inline"]
    assert tokens[0].content.strip() == text.replace("|", "¦").strip()


@given(st.text())
@example("`a``b`")
@example("`a`\\``b`")
@example("`a` ``` `b`")
@example("`<b>` <i> ](x) `|` @you `@you`")
@example("\\`a`")
def test_a_sentence_is_only_text_and_code(text):
    assert {token.type for token in inline(worded(text))} <= {"text", "text_special", "code_inline"}


def test_what_stands_between_backticks_in_a_sentence_reads_as_code():
    tokens = inline(worded("did you mean `framing`? say `speccheck: 1`, *at* the `top"))
    assert [token.content for token in tokens if token.type == "code_inline"] == ["framing", "speccheck: 1"]
    assert "".join(token.content for token in tokens).endswith(", *at* the `top")


def test_an_unread_document_names_keys_as_code(written):
    problem = Problem("`framin` is no key here", "", "did you mean `framing`?", (), Mark(3, 8), "bad.yaml")
    text = written("markdown", unread=(("bad.yaml", (problem,)),))
    assert "`framin` is no key here" in text
    assert "\\`" not in text


@pytest.mark.parametrize("text", ["@everyone", "#12", "GH-7", "a@b.example", "@org/team", "x#3"])
def test_mentions_and_references_of_a_code_host_are_parted(text):
    # such a host looks for them in the finished text, after all escapes are gone
    read = "".join(token.content for token in inline(plain(text))).removeprefix("said: ")
    assert read.replace(INVISIBLE, "") == text
    assert INVISIBLE in read


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("http://x.example", "http\\://x.example"),
        ("see www.x.example", "see www\\.x.example"),
        ("ftp://x.example", "ftp\\://x.example"),
        (":smile: 12:30", "\\:smile: 12:30"),
    ],
)
def test_bare_addresses_are_broken_before_a_reader_makes_links_of_them(text, written):
    # GitHub Flavored Markdown 0.29, 6.9 (extended autolinks, from memory): the scheme with :// or www. must stand as is
    assert plain(text) == written


def test_it_tells_verdict_table_and_findings(documents, written):
    text = written("markdown", *documents.values(), unread=UNREAD)
    tokens = READER.parse(text)
    assert tokens[0].tag == "h2"
    assert "Nothing here is an approval" in text
    rows = [t for t in tokens if t.type == "tr_open"]
    assert len(rows) == 1 + len(documents) + 1
    wall = documents["lots/wall.yaml"]
    for finding in wall.findings:
        if finding.severity in ("outside", "caution", "refer"):
            assert f"`{finding.rule}`" in text
            assert f"(line {finding.line})" in text
    assert "waived: The use of the building is stated at `project`" in text
    assert "line 3: '5' has no unit. Expected a length." in text
    assert all(CELLS[severity] in text for severity in SEVERITIES)


def test_a_long_run_is_cut_to_the_size_of_a_comment(documents, written):
    text = written("markdown", *[documents["lots/wall.yaml"]] * 60)
    # code hosts take comments of up to 65,536 characters; from memory
    assert 55_000 < len(text) < 65_536
    assert text.rstrip().endswith("This summary is cut here; the whole report says more.")


def test_a_baseline_is_told(documents, written, changed):
    wall = documents["lots/wall.yaml"]
    text = written("markdown", wall, older=wall)
    assert "against the baseline `old.json`" in text
    assert "does not count" in text
