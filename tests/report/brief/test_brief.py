"""The performance brief: figures that are those of the facts, gaps told as gaps, whole briefs as golden files."""

import re
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from speccheck.judgement.wording import word
from speccheck.report.brief import brief_of, brief_page, brief_text
from speccheck.uses.check import Checked, check_data, check_file

EXAMPLES = Path(__file__).parents[3] / "examples"
DOCUMENTS = (
    "studio/studio.yaml",
    "studio/studio-mistakes.yaml",
    "studio/studio-not-shown.yaml",
    "ten-lines.yaml",
    "ten-lines-mended.yaml",
)
DAY = date(2026, 1, 15)


@pytest.fixture
def example(monkeypatch: pytest.MonkeyPatch) -> Callable[[str], Checked]:
    monkeypatch.chdir(EXAMPLES)
    return lambda name: check_file(Path(name), (), DAY)


@pytest.mark.parametrize("name", DOCUMENTS)
def test_whole_briefs(
    name: str, example: Callable[[str], Checked], snapshot: Callable[[str, str], None]
) -> None:
    snapshot(f"{Path(name).stem}.brief.md", brief_text(example(name)))


def test_figures_are_those_of_the_facts(example: Callable[[str], Checked]) -> None:
    result = example("studio/studio.yaml")
    brief = brief_of(result)
    for quality in brief.assemblies:
        page = result.surveyed.ledger.page("assembly", quality.name)
        us, _, si = word(page["effective_r"].value, "thermal-resistance").partition(" (")
        assert quality.effective_r == f"{us} ({si.removesuffix(' m²·K/W)')})"
    assert brief.target == "at most 1.5 ACH50"
    assert brief.lead == "the site carpenter"
    open_ = [f for f in result.findings if f.level.value in ("warn", "refer", "ask") and not f.withheld]
    assert brief.open_points == len(open_)


def test_every_meeting_place_is_on_the_list(example: Callable[[str], Checked]) -> None:
    result = example("studio/studio.yaml")
    document = result.loaded.document
    places = [seal.place for seal in brief_of(result).seals]
    assert places == [*document.junctions, *document.openings, *document.penetrations]


def test_what_is_not_shown_is_told_as_such(checked: Callable[..., Checked]) -> None:
    text = """\
speccheck: 1
assemblies:
  wall: {kind: wall, layers: [{material: osb, thickness: 11 mm}]}
junctions:
  corner: {kind: wall-wall, joins: [wall.ends]}
"""
    brief = brief_of(checked(text))
    assert brief.target == "not shown"
    assert brief.lead == "not shown"
    assert brief.seals[0].air == ("not shown",)
    assert brief.assemblies[0].air == "not shown"
    assert brief.open_points > 0


def test_checks_are_those_the_building_has_a_use_for(example: Callable[[str], Checked]) -> None:
    def ids(name: str) -> set[str]:
        brief = brief_of(example(name))
        return {check.id for _, checks in brief.checks for check in checks} | {
            brief.closing.id if brief.closing else ""
        }

    assert {"slab-moisture", "radon", "water", "adhesion", "wood-moisture"} <= ids("studio/studio.yaml")
    assert not {"slab-moisture", "radon", "water", "adhesion", "spillage"} & ids("ten-lines.yaml")


def test_a_slab_is_not_said_to_dry_outward(example: Callable[[str], Checked]) -> None:
    slab = next(q for q in brief_of(example("studio/studio.yaml")).assemblies if q.name == "slab")
    assert slab.why == "Damp ground. Meant to dry inward."
    assert slab.reason == ("Damp ground", "damp all year on that side: vapour comes from it in every season.")


def test_a_slab_names_its_tightest_layer(example: Callable[[str], Checked]) -> None:
    checked = example("studio/studio.yaml")
    slab = next(q for q in brief_of(checked).assemblies if q.name == "slab")
    assert "nothing" not in (slab.inside, slab.outside)


def test_foam_that_is_the_tightest_layer_is_named_for_it() -> None:
    layers = [
        {"id": "lining", "material": "gypsum-board", "thickness": "12.7 mm"},
        {"id": "foam", "material": "spray-foam-closed-cell", "thickness": "200 mm", "framed": True},
        {"id": "deck", "material": "plywood", "thickness": "15 mm", "controls": ["air"]},
    ]
    roof = {"kind": "roof", "framing": {"spacing": "400 mm"}, "layers": layers}
    checked = check_data({"speccheck": 1, "assemblies": {"roof": roof}}, "roof.yaml")
    (told,) = brief_of(checked).assemblies
    assert told.inside.startswith("foam, the insulation itself: ")
    assert told.why == "Tight insulation."


def test_the_units_asked_for(example: Callable[[str], Checked]) -> None:
    checked = example("studio/studio.yaml")
    r = {system: brief_of(checked, system).assemblies[0].effective_r for system in ("us", "si", "both")}
    assert r["us"].startswith("R-")
    assert r["both"] == f"{r['us']} ({r['si']})"
    us, si = brief_text(checked, "us"), brief_text(checked, "si")
    assert "m²·K/W" not in us
    assert "ng/(Pa·s·m²)" not in us
    assert not re.search(r"R-[0-9]|perm\b", si.partition("## Air-tightness")[0])


def test_a_brief_approves_nothing(example: Callable[[str], Checked]) -> None:
    for make in (brief_text, brief_page):
        text = make(example("studio/studio.yaml"))
        assert "Nothing here is an approval" in text
        assert make(example("studio/studio.yaml")) == text


def test_paper_has_no_small_print(example: Callable[[str], Checked]) -> None:
    """The page that is handed on is read on site: no text on it is smaller than 8.5 points."""
    html = brief_page(example("studio/studio.yaml"))
    own = html[html.rindex("<style>") : html.rindex("</style>")]
    sizes = [float(size) for size in re.findall(r"font-size:([0-9.]+)pt", own)]
    assert min(sizes) == 8.5
    assert not re.findall(r"font-size:[0-9.]+(?:em|rem|px)", own)


def test_a_seal_that_a_finding_speaks_against_is_no_instruction(example: Callable[[str], Checked]) -> None:
    assert not [seal.place for seal in brief_of(example("studio/studio.yaml")).seals if seal.open]
    result = example("studio/studio-mistakes.yaml")
    open_ = [seal.place for seal in brief_of(result).seals if seal.open]
    # each is a mistake on purpose, marked in the document: a missing seal, fibre as a seal, foam at a hot flue
    assert open_ == ["long-wall-to-slab", "eave", "stove-flue"]
    text, page = brief_text(result), brief_page(result)
    seals_ = text[text.index("## Seals") : text.index("Least laps")].splitlines()
    assert [line.split(" ")[1] for line in seals_ if "(open: see report)" in line] == open_
    listed = page[page.index('id="seals"') : page.index('id="laps"')]
    assert listed.count("(open: see report)") == len(open_)


def test_a_value_that_a_finding_speaks_against_or_refers_is_marked(
    example: Callable[[str], Checked],
) -> None:
    assert not [one for one in brief_of(example("studio/studio.yaml")).assemblies if one.open or one.r_open]
    result = example("studio/studio-mistakes.yaml")
    found = brief_of(result).assemblies
    against = {
        finding.place.partition(".")[0]
        for finding in result.findings
        if finding.severity in ("outside", "caution", "refer") and finding.subject in ("assembly", "layer")
    }
    assert [one.name for one in found if one.open] == [one.name for one in found if one.name in against] != []
    # the wall whose insulation the code refers to a licensed person, and whose foam is cut by girts
    assert [one.name for one in found if one.r_open] == ["gable-wall"]
    for told in (brief_text(result), brief_page(result)):
        assert "gable-wall (open: see report)" in told
        assert "R-23 (4.05), open" in told
        assert "R-22.5 (3.97), open" not in told
