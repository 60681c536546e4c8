"""Text put into a letter is no markup: read by an independent Markdown reader (markdown-it, CommonMark with tables)."""

from html import unescape
from re import search

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.report.markdown_pages import inert

HOSTILE = (
    "**bold** _under_ `code` ~~gone~~",
    "[link](https://example.org) ![x](y)",
    "<script>alert(1)</script> <img src=x onerror=alert(1)>",
    "# heading",
    "- item",
    "1. item",
    "> quote",
    "a | b | c",
    "| --- | --- |",
    "$x$ ^y^ \\* \\",
    "&lt;b&gt; &copy;",
    "line\n\n# two",
    "---",
    "===",
)


def rendered(text: str) -> str:
    markdown = (
        pytest.importorskip("markdown_it").MarkdownIt("commonmark").enable("table").enable("strikethrough")
    )
    return str(markdown.render(text))


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_renders_as_one_plain_paragraph(text: str) -> None:
    html = rendered(inert(text))
    assert html.startswith("<p>")
    assert html.endswith("</p>\n")
    inner = html[3:-5]
    assert "<" not in inner
    assert unescape(inner).replace("\u2060", "") == " ".join(text.split())


@given(st.text(st.characters(codec="utf-8"), max_size=60))
def test_any_text_renders_without_a_tag(text: str) -> None:
    html = rendered(f"x {inert(text)}")
    assert html.count("<") == 2  # the paragraph's own


@given(st.text(st.characters(codec="utf-8"), max_size=40))
def test_any_text_stays_in_its_cell(text: str) -> None:
    html = rendered(f"| a | b |\n|---|---|\n| {inert(text)} | end |\n")
    assert html.count("<td>") == 2


@pytest.mark.parametrize("text", ["@someone", "#12", "https://example.org", "www.example.org", "a@b.example"])
def test_nothing_is_left_for_a_host_to_link(text: str) -> None:
    assert not search(r"[@#]\w|://|\bwww\.", inert(text))


def test_plain_words_stay_readable() -> None:
    assert inert("R-40.8 (7.18 m²·K/W), U 0.139 W/(m²·K)") == "R-40.8 (7.18 m²·K/W), U 0.139 W/(m²·K)"
