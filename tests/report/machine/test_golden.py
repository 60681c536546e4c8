"""Golden copies of each machine format; ``pytest tests/report/machine --update-snapshots`` rewrites them.

The documents are judged by a pack of the tests' own, so that the copies change with the outputs and not with the rules.
"""

from datetime import date
from pathlib import Path

import pytest

from speccheck import __version__
from speccheck.document import load_bytes
from speccheck.judgement.judge import judge
from speccheck.judgement.library import read_pack
from speccheck.judgement.placing import placed
from speccheck.judgement.waivers import waive
from speccheck.report.formats import format_named
from speccheck.survey import survey
from speccheck.uses.check import KNOWN, Checked

SNAPSHOTS = Path(__file__).parent / "snapshots"
FORMS = ("matrix", "csv", "markdown", "sarif", "junit", "github")
ONE = [
    (form, name)
    for form in ("markdown", "sarif", "junit", "github")
    for name in ("wall", "bare", "pool", "roof", "slab")
]
MORE = {
    "lots/roof.yaml": """
speccheck: 1
project: {name: A flat roof, place: {zone: 5A}, indoor: {humidity: 45 %}, use: dwelling}
assemblies:
  roof:
    kind: roof
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.7 mm}
      - {id: film, material: polyethylene-film, controls: [air, vapour]}
      - {id: fill, material: cellulose-dense-pack, thickness: 240 mm}
      - {id: deck, material: osb, thickness: 18 mm}
      - {id: skin, material: epdm-membrane, controls: [water]}
""",
    "lots/slab.yaml": """
speccheck: 1
assemblies:
  slab: {kind: slab, layers: [{id: concrete, material: concrete, thickness: 100 mm}]}
""",
}
"""Two documents beside those the other tests share."""


DAY = date(2026, 1, 15)


def _judged(name: str, text: str) -> Checked:
    pack = read_pack(Path(__file__).parent / "pack.yaml")
    loaded = load_bytes(text.encode(), name, KNOWN)
    surveyed = survey(loaded.document, Path())
    found = waive(judge(surveyed, [pack]), surveyed, loaded.document.waivers, [pack], (), DAY)
    return Checked(loaded, surveyed, tuple(placed(f, loaded) for f in found), (pack,), (), DAY)


@pytest.fixture(scope="module")
def judged(texts) -> dict[str, Checked]:
    """Return the documents, judged by the pack of the tests."""
    all_of_them = {**texts, **MORE}
    own = {name: text.replace("paperwork.use-stated", "paper.use-told") for name, text in all_of_them.items()}
    return {name: _judged(name, text) for name, text in own.items()}


@pytest.fixture(scope="module")
def newer(texts) -> Checked:
    """Return the wall with a layer less and a question answered."""
    wall = texts["lots/wall.yaml"].replace("place: {zone: 6A}", "use: dwelling, place: {zone: 6A}")
    lines = [line for line in wall.splitlines() if "id: board" not in line]
    return _judged("lots/wall.yaml", "\n".join(lines).partition("waivers:")[0])


def test_every_severity_is_among_them(judged):
    found = {finding.severity for one in judged.values() for finding in one.findings}
    assert found == {"outside", "caution", "refer", "ask", "held-back", "waived", "pass"}


def steady(text: str) -> str:
    """Return a text without the version, which changes with every release; lines end as in all files kept here."""
    return text.replace(f'"{__version__}"', '"0.0.0"').replace("\r\n", "\n")


def name_of(form: str, name: str) -> str:
    return f"{form}-{name}{format_named(form).ending}"


@pytest.mark.parametrize(("form", "name"), ONE)
def test_one_document(judged, written, snapshot, form, name):
    snapshot(name_of(form, name), steady(written(form, judged[f"lots/{name}.yaml"])))


@pytest.mark.parametrize("form", FORMS)
def test_held_against_a_baseline(judged, newer, written, snapshot, form):
    older = judged["lots/wall.yaml"]
    snapshot(name_of(form, "baseline"), steady(written(form, newer, older=older)))


@pytest.mark.parametrize("form", ["matrix", "csv"])
def test_all_documents(judged, written, snapshot, form):
    snapshot(name_of(form, "all"), steady(written(form, *judged.values())))


def test_golden_files_are_all_used():
    wanted = {name_of(form, name) for form, name in ONE}
    wanted |= {name_of(form, "baseline") for form in FORMS} | {name_of(form, "all") for form in FORMS[:2]}
    assert {path.name for path in SNAPSHOTS.iterdir()} == wanted


@pytest.mark.parametrize("form", ["markdown", "github", "sarif"])
def test_what_should_hold_is_not_said_of_the_building(changed, written, form):
    # "The air barrier crosses each junction. The air barrier stops here." reads as its own opposite
    text = written(form, changed(lambda data: None))
    crosses, stops = "The air barrier crosses each junction", "The air barrier stops here."
    assert crosses in text
    assert stops in text
    assert f"{crosses}. {stops}" not in text
    assert (f"Rule: {crosses}." in text) is (form != "sarif")
