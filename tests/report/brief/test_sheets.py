"""The brief on paper: large houses on one sheet of A4 and of US Letter, larger ones with the seal list going on.

Wants Chromium on the machine to print.
"""

import re
import shutil
import subprocess
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from speccheck.report.brief import brief_of, brief_page
from speccheck.report.brief.sheets import paper_of
from speccheck.uses.check import Checked, check_file

EXAMPLES = Path(__file__).parents[3] / "examples"
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--virtual-time-budget=60000", "--no-pdf-header-footer",
)  # fmt: skip
PAPERS = ("A4", "letter")
DAY = date(2026, 1, 15)
_BOX = re.compile(r'yMin="([0-9.]+)" xMax="[0-9.]+" yMax="([0-9.]+)"')
prints = pytest.mark.skipif(
    CHROMIUM is None or shutil.which("pdftotext") is None,
    reason="Chromium or poppler-utils are not installed",
)


FILES = ("studio", "studio-mistakes", "studio-not-shown")


class Sheet(NamedTuple):
    """One printed sheet: its text, and the height in points of its smallest letters."""

    text: str
    smallest: float


@pytest.fixture
def printed(tmp_path: Path) -> Callable[[str, str], list[Sheet]]:
    """Return what prints a page on a paper."""

    def run(html: str, paper: str) -> list[Sheet]:
        page, target = tmp_path / f"{paper}.html", tmp_path / f"{paper}.pdf"
        page.write_text(html.replace("</head>", f"<style>@page{{size:{paper}}}</style></head>"), "utf-8")
        assert CHROMIUM is not None
        profile = f"--user-data-dir={tmp_path / f'profile-{paper}'}"
        command = [CHROMIUM, *FLAGS, profile, f"--print-to-pdf={target}", page.as_uri()]
        subprocess.run(command, capture_output=True, timeout=120, check=True)
        assert ("A4" if paper == "A4" else "letter") in _told("pdfinfo", str(target))
        # in the order of the page; a name that is broken at its hyphen is put together again
        told = _told("pdftotext", "-raw", str(target), "-").rstrip("\f").replace("-\n", "-")
        texts = [" ".join(sheet.split()) for sheet in told.split("\f")]
        boxes = _told("pdftotext", "-bbox", str(target), "-").split("<page ")[1:]
        heights = [[float(low) - float(high) for high, low in _BOX.findall(sheet)] for sheet in boxes]
        # the title is declared 13 points high: the boxes of its letters tell how high a box is for a point
        point = max(heights[0]) / 13.0
        return [Sheet(text, min(of) / point) for text, of in zip(texts, heights, strict=True)]

    return run


def _told(*command: str) -> str:
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


@prints
@pytest.mark.parametrize("paper", PAPERS)
def test_a_large_house_stands_on_one_sheet(
    large_house: dict[str, Any],
    checked: Callable[..., Checked],
    printed: Callable[[str, str], list[Sheet]],
    paper: str,
) -> None:
    layers = sum(len(assembly["layers"]) for assembly in large_house["assemblies"].values())
    counts = [len(large_house[part]) for part in ("assemblies", "junctions", "openings", "penetrations")]
    assert (*counts, layers) >= (8, 8, 8, 12, 60)
    assert layers >= 60
    result = checked(large_house)
    (sheet,) = printed(brief_page(result), paper)
    assert sheet.smallest == pytest.approx(8.5, abs=0.03)
    # every place, every value and every test stands on it
    names = [
        name for part in ("assemblies", "junctions", "openings", "penetrations") for name in large_house[part]
    ]
    text, brief = sheet.text, brief_of(result)
    assert [name for name in names if name not in text] == []
    for quality in brief.assemblies:
        assert quality.effective_r.split(" ")[0] in text
    for _, checks in brief.checks:
        assert [
            check.title for check in checks if f"{check.title}. {check.when} Aim: {check.aim}" not in text
        ] == []
    for word in (
        "Air-tightness.",
        "1.5 ACH50",
        "Least laps",
        "Before closing in",
        "Words.",
        "(open: see report)",
    ):
        assert word in text


@prints
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", FILES)
def test_an_example_stands_on_one_sheet_with_the_extra_words(
    name: str, printed: Callable[[str, str], list[Sheet]], paper: str
) -> None:
    result = check_file(EXAMPLES / "studio" / f"{name}.yaml", (), DAY)
    assert paper_of(brief_of(result)).extra_words
    (sheet,) = printed(brief_page(result), paper)
    assert sheet.smallest == pytest.approx(8.5, abs=0.03)
    assert "Kept with the drawings" in sheet.text


@prints
@pytest.mark.parametrize(("paper", "wings"), [("A4", 2), ("letter", 2), ("letter", 4)])
def test_the_seal_list_of_a_larger_one_goes_on(
    larger: Callable[[int], Checked], printed: Callable[[str, str], list[Sheet]], paper: str, wings: int
) -> None:
    result = larger(wings)
    brief = brief_of(result)
    paper_ = paper_of(brief)
    sheets = printed(brief_page(result), paper)
    assert min(sheet.smallest for sheet in sheets) == pytest.approx(8.5, abs=0.03)
    assert len(sheets) > 1
    if wings == 2:
        assert len(sheets) == len(paper_.sheets) == 2
        assert "Words." in sheets[0].text  # numbers and tests, whole
        assert "What is tested, and when" in sheets[0].text
        assert "Words." not in sheets[1].text
        assert not paper_.sheets[0]
        assert "The seal list stands on the sheets that follow." in sheets[0].text
    repeated = [sheet for sheet in sheets if "penetration, continued" in sheet.text]
    assert len(repeated) == len([rows for rows in paper_.sheets if rows]) - 1
    whole = " ".join(sheet.text for sheet in sheets)
    assert [seal.place for seal in brief.seals if seal.place not in whole] == []


@prints
@pytest.mark.parametrize("paper", PAPERS)
def test_numbers_and_tests_stay_on_the_first_sheet_beside_what_fits_of_the_list(
    large_house: dict[str, Any],
    checked: Callable[..., Checked],
    printed: Callable[[str, str], list[Sheet]],
    paper: str,
) -> None:
    means = ("acrylic-tape", "butyl-tape", "liquid-flashing", "epdm-gasket")
    for number in range(24):
        name, sheet = f"extra-pipe-{number}", ("north-wall.membrane", "slab.concrete")[number % 2]
        large_house["penetrations"][name] = {
            "kind": "pipe",
            "in": sheet.partition(".")[0],
            "air": [{"from": f"{name}.ring", "to": sheet, "by": [means[number % 4], means[number // 8]]}],
            "sealed-by": f"fitter of storey {number}",
        }
    result = checked(large_house)
    first, rest = paper_of(brief_of(result)).sheets
    assert len(first) > 5
    one, two = printed(brief_page(result), paper)
    assert min(one.smallest, two.smallest) == pytest.approx(8.5, abs=0.03)
    assert "sheet 2: the rest of the seal list" in one.text
    assert "penetration, continued" in two.text
    for kept in (
        "1.5 ACH50",
        "Least laps",
        "Before closing in",
        "What is tested, and when",
        "Radon.",
        "Words.",
    ):
        assert kept in one.text
        assert kept not in two.text
    for rows, sheet in ((first, one), (rest, two)):
        assert all(spot.name in sheet.text for row in rows for group in row.groups for spot in group.spots)


def test_every_row_stands_on_one_sheet_of_the_list(larger: Callable[[int], Checked]) -> None:
    for wings in (1, 3):
        brief = brief_of(larger(wings))
        paper = paper_of(brief)
        assert tuple(row for sheet in paper.sheets for row in sheet) == brief.rows
        assert (len(paper.sheets) > 1) == (wings > 1)
        assert paper == paper_of(brief)


def test_extra_words_give_way_before_the_list_does(larger: Callable[[int], Checked], example: Path) -> None:
    assert paper_of(brief_of(check_file(example, (), DAY)))[:2] == (True, True)
    assert not paper_of(brief_of(larger(1))).extra_words
    assert paper_of(brief_of(larger(2)))[:2] == (False, False)


@pytest.fixture
def example() -> Path:
    return EXAMPLES / "ten-lines.yaml"
