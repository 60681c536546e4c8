"""Drying, damp wood and the inside surface on the page: what is told there is what the survey found.

The figures have their own tests against outside sources; here they only travel.
"""

import re
from collections.abc import Callable
from datetime import date
from html import unescape
from pathlib import Path

import pytest

from speccheck.judgement.wording import word
from speccheck.report.page import html_page
from speccheck.report.page.months import months_of
from speccheck.report.year_words import drying_years
from speccheck.uses.check import Checked, check_file

EXAMPLES = Path(__file__).parents[3] / "examples"
DAY = date(2026, 1, 15)


@pytest.fixture
def wall() -> Checked:
    checked = check_file(EXAMPLES / "ten-lines.yaml", (), DAY)
    checked.surveyed.ledger.page("assembly", "wall").fact("assembly.moisture_verdict")
    return checked


def test_every_month_of_every_face_is_told(wall: Checked) -> None:
    view = months_of(wall.surveyed, "wall", "x")
    assert view is not None
    rows = dict(view.rows)
    drying = drying_years(wall.surveyed, "wall")
    assert [one.layer for one in drying] == ["wall.gypsum-board", "wall.osb"]
    for one in drying:
        for way, amounts in (
            ("to the inside", [row.inward for row in one.months]),
            ("to the outside", [row.outward for row in one.months]),
        ):
            grams = [int(cell) for cell in rows[f"{one.face}, {way}, g/m²"]]
            assert grams == pytest.approx([amount * 1000 for amount in amounts], abs=0.51)
    assert any(cell != "0" for cell in rows["inner face of wall.gypsum-board, condensing elsewhere, g/m²"])
    assert "inner face of wall.osb, condensing elsewhere, g/m²" not in rows  # nothing does
    table = wall.surveyed.ledger.page("assembly", "wall").table
    for face in table.wood:
        cells = rows[f"{face.words}, moisture, %"]
        assert [int(cell) / 100 for cell in cells] == pytest.approx(list(face.moisture), abs=0.0051)
    asked = rows["inside surface, fRsi asked, %"]
    assert [cell == "·" for cell in asked] == [one is None or one <= 0 for one in table.surface_factors]
    assert view.months[0] == "January"


def test_the_page_says_in_words_what_the_drawings_show(wall: Checked) -> None:
    html = html_page(wall)
    page = wall.surveyed.ledger.page("assembly", "wall")
    (plane,) = [one for one in drying_years(wall.surveyed, "wall") if one.is_plane]
    best = plane.best
    said = (
        f"Wet, the inner face of wall.osb could dry at best in {best.month}: {word(best.inward, 'area-mass')} inward, "
        f"{word(best.outward, 'area-mass')} outward."
    )
    most = page.fact("assembly.sheathing_wood_moisture")
    assert most is not None
    damp = f"Sheathing takes on at most {word(most.value, 'fraction')} by mass, in "
    asked = page.fact("assembly.frsi_required")
    own = page.fact("assembly.frsi")
    assert asked is not None
    assert own is not None
    surface = (
        f"The inside surface has a temperature factor of {word(own.value, 'fraction')}; most is asked in "
        f"{page['frsi_required_month'].value}, {word(asked.value, 'fraction')}."
    )
    drawings = {
        id_: unescape(words)
        for id_, words in re.findall(r'<desc id="a-wall-(drying|damp)-d">([^<]*)</desc>', html)
    }
    assert said in drawings["drying"]
    assert damp in drawings["damp"]
    assert surface in drawings["damp"]
    paragraph = re.search(r'<h4 id="a-wall-months">[^<]*</h4>\s*<p>([^<]*)</p>', html)
    assert paragraph
    assert said in unescape(paragraph[1])
    assert damp in unescape(paragraph[1])


def test_few_faces_are_drawn_and_the_plane_is_one_of_them() -> None:
    checked = check_file(EXAMPLES / "studio" / "studio.yaml", (), DAY)
    html = html_page(checked)
    for name in ("long-wall", "gable-wall", "roof"):
        drawing = re.search(rf'<svg[^>]*aria-labelledby="a-{name}-drying-t.*?</svg>', html)
        assert drawing
        names = re.findall(r'class="side">([^<]*)<', drawing[0])
        assert 1 <= len(names) <= 3
        assert len([one for one in names if one.endswith("the condensing plane")]) == 1


def test_without_a_balance_nothing_is_drawn_or_told(checked: Callable[..., Checked]) -> None:
    one = checked(
        """
speccheck: 1
assemblies: {wall: {kind: wall, layers: [{material: osb, thickness: 11 mm}]}}
"""
    )
    assert months_of(one.surveyed, "wall", "x") is None
    assert "a-wall-months" not in html_page(one)


def test_a_wall_without_wood_tells_of_its_surface_alone(checked: Callable[..., Checked]) -> None:
    one = checked(
        """
speccheck: 1
project: {place: {zone: 6A}, indoor: {temperature: 21 °C, humidity: 40 %}}
assemblies:
  wall:
    kind: wall
    layers:
      - {material: concrete, thickness: 150 mm}
      - {material: xps, thickness: 50 mm}
      - {material: cement-stucco, thickness: 19 mm}
"""
    )
    one.surveyed.ledger.page("assembly", "wall").fact("assembly.moisture_verdict")
    view = months_of(one.surveyed, "wall", "x")
    assert view is not None
    assert view.damp is not None
    svg, caption = view.damp
    assert re.findall(r'class="side">([^<]*)<', svg)[0].endswith("inside surface")
    assert "moisture of wood" not in caption
    assert "temperature factor" in caption
