"""The matrix of many documents: in a terminal, in a spreadsheet, on an index page."""

import csv
import io
from html.parser import HTMLParser
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.document import Problem
from speccheck.judgement.finding import SEVERITIES
from speccheck.report.digest import area_of, digest_of
from speccheck.report.index_page import index_page
from speccheck.report.matrix import CELLS, matrix_text
from speccheck.report.spreadsheet import csv_matrix, inert
from speccheck.report.summary import worst


@pytest.fixture(scope="module")
def digests(documents):
    return [digest_of(one, "ask") for one in documents.values()]


class TestDigest:
    """One document in a few words and numbers."""

    def test_each_area_has_the_worst_of_its_findings(self, documents, digests):
        for checked, digest in zip(documents.values(), digests, strict=True):
            by_area: dict[str, list[str]] = {}
            for finding in checked.findings:
                by_area.setdefault(area_of(finding.rule), []).append(finding.severity)
            assert digest.areas == {a: (worst(s), s.count(worst(s))) for a, s in by_area.items()}
            assert digest.verdict == worst(f.severity for f in checked.findings)
            assert sum(digest.counts.values()) == len(checked.findings)

    def test_the_documents_differ(self, digests):
        assert len({digest.verdict for digest in digests}) > 1


class TestText:
    """The matrix for a terminal."""

    @pytest.mark.parametrize("width", [40, 60, 80, 120])
    def test_it_keeps_the_width_and_tells_every_cell(self, digests, width):
        text = matrix_text(digests, ["lots/bad.yaml"], width)
        assert max(map(len, text.splitlines())) <= width
        assert [line for line in text.splitlines() if line != line.rstrip()] == []
        cells = [f"{CELLS[s]} {n}" for one in digests for s, n in one.areas.values()]
        assert all(text.count(cell) >= 1 for cell in cells)
        assert "unread" in text

    def test_a_long_path_keeps_its_end(self, digests):
        text = matrix_text([digests[0]._replace(file="a/very/long/way/to/the/house-of-lot-17.yaml")], (), 60)
        assert "of-lot-17.yaml" in text

    def test_nothing_of_no_documents_breaks(self):
        assert "0 documents" in matrix_text([])


class TestSpreadsheet:
    """The matrix as CSV."""

    def test_rows_and_columns(self, digests):
        text = csv_matrix(digests, ["lots/bad.yaml"])
        header, *rows = csv.reader(io.StringIO(text, newline=""))
        assert header[:3] == ["document", "project", "verdict"]
        assert header[3:10] == [CELLS[s] for s in SEVERITIES]
        assert {len(row) for row in rows} == {len(header)}
        assert [row[0] for row in rows] == [
            "lots/wall.yaml",
            "lots/bare.yaml",
            "lots/pool.yaml",
            "lots/bad.yaml",
        ]
        assert [row[2] for row in rows] == [*(CELLS[one.verdict] for one in digests), "unread"]
        for row, digest in zip(rows, digests, strict=False):
            assert [int(cell) for cell in row[3:10]] == list(digest.counts.values())
            for area, cell in zip(header[10:], row[10:], strict=True):
                assert cell == (CELLS[digest.areas[area][0]] if area in digest.areas else "")

    def test_lines_end_as_rfc_4180_says_and_quotes_are_doubled(self, digests):
        # RFC 4180, 2: lines end in CR LF; a field with a comma or quote is quoted, the quote doubled
        text = csv_matrix([digests[0]._replace(project='Lot 7, "the old barn"')])
        assert text.count("\r\n") == text.count("\n") == 2
        assert '"Lot 7, ""the old barn"""' in text

    @given(st.text())
    def test_no_cell_begins_as_a_formula(self, text):
        # OWASP's advice on CSV injection names = + - @ tab and carriage return; read
        shown = inert(text)
        assert not shown.lstrip(" ").startswith(("=", "+", "-", "@", "\t", "\r", "\n"))
        assert not any(character in shown for character in "\t\r\n\x00")

    @given(st.text(st.characters(categories=["L", "N"]), min_size=1, max_size=200))
    def test_plain_text_stays_as_it_is(self, text):
        assert inert(text) == text


class Page(HTMLParser):
    """The page as a reader sees it: text, links, tags."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.words: list[str] = []
        self.links: list[str] = []
        self.tags: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        given = dict(attrs)
        if "href" in given:
            self.links.append(given["href"])

    def handle_data(self, data):
        self.words.append(data)


class TestIndex:
    """The index page of a folder of reports."""

    def test_every_document_has_a_row_and_a_link(self, digests):
        unread = [("lots/bad.yaml", (Problem("'5' has no unit", file="lots/bad.yaml"),))]
        page = Page(index_page(digests, ["a.html", "b c.html", "d.html"], unread))
        assert page.links[-3:] == ["a.html", "b%20c.html", "d.html"]
        assert page.tags.count("tr") == 1 + len(digests)
        text = " ".join(page.words)
        for digest in digests:
            assert digest.file in text
            for severity, count in digest.areas.values():
                assert f"{CELLS[severity]} {count}" in text
        assert "'5' has no unit." in text
        assert "Nothing here is an approval" in text

    def test_it_needs_no_script_and_nothing_from_elsewhere(self, digests):
        page = Page(index_page(digests, ["a.html"] * len(digests)))
        assert not {"script", "link", "iframe", "object", "img"} & set(page.tags)
        assert not [link for link in page.links if "//" in link]

    def test_headings_do_not_skip_a_level(self, digests):
        page = Page(index_page(digests, ["a.html"] * len(digests)))
        levels = [int(tag[1]) for tag in page.tags if tag in ("h1", "h2", "h3", "h4")]
        assert levels[0] == 1
        assert all(b <= a + 1 for a, b in pairwise(levels))
        assert levels.count(1) == 1

    def test_a_table_a_screen_reader_can_read(self, digests):
        page = index_page(digests, ["a.html"] * len(digests))
        assert page.count('scope="row"') == len(digests)
        assert "<caption>" in page
        assert '<html lang="en">' in page
