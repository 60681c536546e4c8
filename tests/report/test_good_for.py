"""The room humidity an assembly is good for: beside each finding that rests on it, in text, HTML, JSON and letter.

The figures are those of the survey, which has its own tests against outside sources; here they only travel.
"""

import re
from datetime import date
from pathlib import Path

import pytest

from speccheck.judgement.wording import word
from speccheck.report.good_for import (
    GoodFor,
    good_for,
    good_for_assembly,
    good_for_line,
    good_for_words,
    rests_on_moisture,
)
from speccheck.report.letter import letter_text
from speccheck.report.page import html_page
from speccheck.report.plain import plain_document
from speccheck.report.text import text_report
from speccheck.uses.check import Checked, check_file

EXAMPLES = Path(__file__).parents[2] / "examples"
BALANCE = "condensation.winter-water-dries-by-autumn"
WOOD = "moisture-storage.sheathing-below-decay"
SURFACE = "iso-13788.surface-factor"
LIMITS = "assembly.humidity_without_condensation"


@pytest.fixture
def checked() -> Checked:
    return check_file(EXAMPLES / "ten-lines.yaml", (), date(2026, 1, 15))


def test_a_finding_of_the_balance_has_the_figures_of_its_assembly(checked: Checked) -> None:
    (finding,) = [one for one in checked.findings if one.rule == BALANCE]
    page = checked.surveyed.ledger.page("assembly", "wall")
    found = good_for(checked.surveyed, finding)
    assert found is not None
    names = (
        "humidity_without_condensation",
        "humidity_drying_in_year",
        "critical_indoor_rh",
        "outboard_r_to_add",
    )
    assert tuple(found)[:4] == tuple(page[name].value for name in names)
    assert (found.surface, found.wood) == (None, None)  # other rules look at these
    assert "assembly.humidity_wood_bears" not in page.facts
    assert "assembly.humidity_surface_bears" not in page.facts
    assert 0.0 < found.dry < found.drying < 1.0  # type: ignore[operator]


def test_findings_that_rest_on_other_things_have_none(checked: Checked) -> None:
    resting = {one.rule for one in checked.findings if rests_on_moisture(one)}
    assert BALANCE in resting
    assert not {rule for rule in resting if rule.startswith(("air.", "water.", "thermal.", "paperwork."))}
    for one in checked.findings:
        assert (good_for(checked.surveyed, one) is None) == (one.rule not in resting)


def test_a_finding_about_damp_wood_has_what_wood_bears() -> None:
    checked = check_file(EXAMPLES / "ten-lines-mended.yaml", (), date(2026, 1, 15))
    (finding,) = [one for one in checked.findings if one.rule == WOOD]
    found = good_for(checked.surveyed, finding)
    page = checked.surveyed.ledger.page("assembly", "wall")
    assert found is not None
    assert found.wood is not None
    assert found.wood == page["humidity_wood_bears"].value
    assert found.dry is not None
    assert found.surface is None
    told = f"wood toward the cold within what it bears up to {word(found.wood, 'fraction')}"
    assert told in good_for_line(found)


def test_a_finding_about_the_surface_has_that_of_the_surface_alone(tmp_path: Path) -> None:
    text = (EXAMPLES / "ten-lines.yaml").read_text("utf-8")
    path = tmp_path / "wall.yaml"
    path.write_text(text.replace("project: {", "project: {adopted: [int/iso-13788], "), "utf-8")
    checked = check_file(path, (), date(2026, 1, 15))
    (finding,) = [one for one in checked.findings if one.rule == SURFACE]
    assert rests_on_moisture(finding)
    found = good_for(checked.surveyed, finding)
    bears = checked.surveyed.ledger.page("assembly", "wall")["humidity_surface_bears"].value
    assert isinstance(bears, float)
    assert found == GoodFor(surface=bears)
    assert good_for_words(found) == (("the inside surface below 80 %", f"up to {word(bears, 'fraction')}"),)
    (plain,) = [one for one in plain_document(checked)["findings"] if one["rule"] == SURFACE]
    assert plain["good-for"]["humidity-surface-bears"] == bears
    assert plain["good-for"]["humidity-wood-bears"] is None


def test_every_format_tells_them_with_the_finding(checked: Checked) -> None:
    (finding,) = [one for one in checked.findings if one.rule == BALANCE]
    found = good_for(checked.surveyed, finding)
    assert found is not None
    line = good_for_line(found)
    assert f"no condensation by diffusion up to {word(found.dry, 'fraction')}" in line
    assert f"Good for: {line}." in " ".join(text_report(checked).split())
    assert f"Good for: {line}." in letter_text(checked)
    html = html_page(checked)
    article = re.search(
        rf'<article[^>]*id="f-{BALANCE.replace(".", "-")}--wall".*?</article>', html, re.DOTALL
    )
    assert article
    assert f"<dt>Good for</dt><dd>{line}</dd>" in article[0]
    (plain,) = [one for one in plain_document(checked)["findings"] if one["rule"] == BALANCE]
    assert plain["good-for"]["humidity-without-condensation"] == found.dry


def test_the_page_tells_them_of_each_assembly(checked: Checked) -> None:
    html = html_page(checked)
    assert "The room humidity wall is good for</h4>" in html
    for what in (
        "No condensation by diffusion",
        "Wood toward the cold within what it bears",
        "The inside surface below 80 %",
    ):
        assert f"<dt>{what}</dt>" in html


def test_they_are_worked_out_only_where_a_finding_rests_on_them() -> None:
    """The limits cost some milliseconds an assembly: a text whose moisture findings all hold does without."""
    checked = check_file(EXAMPLES / "studio" / "studio.yaml", (), date(2026, 1, 15))
    page = checked.surveyed.ledger.page("assembly", "long-wall")
    text_report(checked)
    assert LIMITS not in page.facts
    assert "Good for: " in text_report(checked, full=True)
    assert LIMITS in page.facts


def test_words_at_the_ends_of_the_scale() -> None:
    words = dict(good_for_words(GoodFor(0.0, 1.0, 0.396, 2.0), "us"))
    assert words == {
        "no condensation by diffusion": "at no humidity",
        "drying within the year": "at any humidity",
        "leaking room air clear of its dew point at the condensing plane": "up to 40 %",
        "no condensation at the humidity declared": "with R-11.4 more outboard, open to vapour",
    }
    assert good_for_words(GoodFor()) == ()


def test_the_humidity_in_the_bracket_belongs_to_the_humidities() -> None:
    assert good_for_line(GoodFor(dry=0.25, more_outboard=2.0), "us") == (
        "no condensation by diffusion up to 25 % (room humidity in winter); "
        "no condensation at the humidity declared with R-11.4 more outboard, open to vapour"
    )


@pytest.mark.parametrize("cover", ["epdm-membrane", "asphalt-shingles"])
def test_nothing_is_said_of_insulation_outside_a_roof_covering(tmp_path: Path, cover: str) -> None:
    path = tmp_path / "roof.yaml"
    path.write_text(
        f"""speccheck: 1
project: {{place: {{zone: 6A}}, indoor: {{humidity: 40 %}}}}
assemblies:
  roof:
    kind: roof
    framing: {{spacing: 16 in}}
    layers:
      - {{id: lining, material: gypsum-board, thickness: 12.7 mm}}
      - {{id: fill, material: mineral-wool-batt, thickness: 200 mm, framed: true}}
      - {{id: deck, material: plywood, thickness: 18 mm}}
      - {{id: cover, material: {cover}}}
""",
        "utf-8",
    )
    checked = check_file(path, (), date(2026, 1, 15))
    found = good_for_assembly(checked.surveyed, "roof")
    assert found is not None
    assert found.dry is not None
    assert found.more_outboard is None
