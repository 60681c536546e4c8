"""The examples: each loads, and comes out as the tutorial says, by rule and place."""

import re
from datetime import date
from pathlib import Path

import pytest

from speccheck.document import Unreadable
from speccheck.judgement.finding import Level
from speccheck.report.summary import summarise
from speccheck.uses.check import Checked, check_file, load
from speccheck.uses.swap import read_product, swap

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
STUDIO = EXAMPLES / "studio"
PRODUCTS = STUDIO / "products"
SUBMITTALS = STUDIO / "submittals"
DAY = date(2026, 3, 2)
"""The day of the tutorial."""

UNREADABLE = EXAMPLES / "ten-lines-unreadable.yaml"
NO_DOCUMENT = SUBMITTALS / "readme-first.yaml"
DOCUMENTS = sorted(
    path
    for path in (*EXAMPLES.rglob("*.yaml"), *EXAMPLES.rglob("*.json"))
    if path.parent != PRODUCTS and path not in (UNREADABLE, NO_DOCUMENT)
)

# What each mistake of `studio-mistakes.yaml` is told by: strength, rule, place.
MISTAKES = {
    "film inside, foil outside": {("outside", "irc-2021.class-i-on-both-sides", "long-wall")},
    "meant to dry inward, through polyethylene": {("caution", "drying.stated-way-is-open", "long-wall")},
    "film with loose edges for an air barrier": {("outside", "air.sheet-sealed", "long-wall.film")},
    "paint inside and thin foam outside in zone 6": {
        ("outside", "irc-2021.class-iii-retarder", "gable-wall"),
        ("caution", "condensation.outboard-share-suits-the-room", "gable-wall"),
        ("caution", "moisture-storage.sheathing-below-decay", "gable-wall"),
    },
    "girts through continuous insulation": {
        ("caution", "thermal.continuous-is-uninterrupted", "gable-wall.foam"),
        ("refer", "irc-2021.wall-insulation", "gable-wall"),
    },
    "air barrier that ends at the slab": {
        ("outside", "air.junction-connected", "long-wall-to-slab"),
        ("outside", "air.line-closed", "project"),
    },
    "batt for a seal": {("outside", "air.means-seal", "eave"), ("outside", "air.line-closed", "project")},
    "foam against a hot flue": {("outside", "health.hot-flue-sealed-without-foam", "stove-flue")},
}

# What `studio-not-shown.yaml` leaves out, as the report asks for it, the most telling first.
GAPS = (
    "By which cup was the 1 perm of inner-membrane tested, dry or wet?",
    "How thick is gable-wall.fill?",
    "Is the cavity long-wall.cavity closed, drained, vented or ventilated?",
    "Which relative humidity is kept indoors in winter?",
    "How does the air barrier of long-wall meet that of slab at long-wall-to-slab?",
    "How does the frame of garden-window meet the air barrier of long-wall?",
    "Which trade seals drain?",
    "Which one person answers for the air barrier on site?",
)


def _check(name: str) -> Checked:
    return check_file(STUDIO / f"{name}.yaml", today=DAY)


def _told(checked: Checked) -> set[tuple[str, str, str]]:
    """Return what warns or refers: strength, rule and place."""
    return {
        (finding.severity, finding.rule, finding.place)
        for finding in checked.findings
        if finding.level in (Level.WARN, Level.REFER)
    }


def _named(path: Path) -> str:
    return str(path.relative_to(EXAMPLES))


@pytest.mark.parametrize("path", DOCUMENTS, ids=_named)
def test_it_loads(path: Path) -> None:
    load(path)


@pytest.mark.parametrize("path", sorted(PRODUCTS.glob("*.yaml")), ids=_named)
def test_the_product_loads(path: Path) -> None:
    assert read_product(path)["name"]


def test_the_unreadable_one_tells_every_slip_at_its_place() -> None:
    with pytest.raises(Unreadable) as told:
        load(UNREADABLE)
    marks = [(problem.mark.line, problem.mark.column) for problem in told.value.problems if problem.mark]
    assert marks == [(3, 24), (7, 39), (10, 20), (10, 57)]


@pytest.mark.parametrize("path", DOCUMENTS, ids=_named)
def test_its_place_lies_in_one_zone_only(path: Path) -> None:
    """ZIP 05602 lies in Washington County, Vermont: zone 6A on both maps (county table of the IECC, read)."""
    checked = check_file(path, today=DAY)
    climate = checked.surveyed.ledger.page("climate", "climate")
    assert (climate["zone_2018"].value, climate["zone_2021"].value) == ("6A", "6A")
    assert climate["other_zones"].value == ()


def test_the_studio_has_nothing_to_warn_about() -> None:
    checked = _check("studio")
    assert _told(checked) == set()
    assert summarise(checked.findings).questions == ()
    assert [f.key for f in checked.findings if f.level is Level.WAIVED] == [
        ("irc-2021.slab-edge-insulation", "slab")
    ]


def test_the_studio_is_looked_at_from_every_side() -> None:
    held = {
        finding.rule.partition(".")[0] for finding in _check("studio").findings if finding.level is Level.PASS
    }
    assert held >= {"air", "condensation", "drying", "irc-2021", "thermal", "vapour", "water"}


def test_the_waiver_of_the_studio_ends() -> None:
    later = check_file(STUDIO / "studio.yaml", today=date(2027, 7, 1))
    told = {(finding.rule, finding.place) for finding in later.findings if finding.level is not Level.PASS}
    assert told == {("irc-2021.slab-edge-insulation", "slab"), ("waivers.still-holds", "waivers.1")}


def test_each_mistake_is_told_and_nothing_else() -> None:
    assert _told(_check("studio-mistakes")) == set().union(*MISTAKES.values())


def test_each_mistake_is_marked_in_the_document() -> None:
    text = (STUDIO / "studio-mistakes.yaml").read_text("utf-8")
    assert len(re.findall(r"(?m)^ *# mistake: ", text)) == len(MISTAKES)


def test_the_tutorial_names_the_rules_that_tell_the_mistakes() -> None:
    tutorial = (EXAMPLES / "README.md").read_text("utf-8")
    rows = [
        line for line in tutorial.splitlines() if line.startswith("| ") and "`" in line.rpartition("| ")[2]
    ]
    named = {name for line in rows for name in re.findall(r"`([a-z0-9-]+\.[a-z0-9-]+)`", line)}
    assert {rule for told in MISTAKES.values() for _, rule, _ in told} == {
        name for name in named if not name.endswith((".yaml", ".json"))
    }


def test_a_mended_mistake_is_told_no_more(tmp_path: Path) -> None:
    text = (STUDIO / "studio-mistakes.yaml").read_text("utf-8")
    mended = text.replace(
        "    air: []\n", "    air: [{from: long-wall.film, to: slab.concrete, by: acoustical-sealant-bead}]\n"
    )
    assert mended != text
    (tmp_path / "mended.yaml").write_text(mended, "utf-8")
    left = _told(check_file(tmp_path / "mended.yaml", today=DAY))
    # the line stays open at the eave, where a batt is taken for a seal
    gone = {("outside", "air.junction-connected", "long-wall-to-slab")}
    assert left & gone == set()
    assert left == set().union(*MISTAKES.values()) - gone


def test_each_gap_is_asked_for_in_order() -> None:
    checked = _check("studio-not-shown")
    assert _told(checked) == set()
    asked = [question.question for question in summarise(checked.findings).questions]
    assert [question for question in asked if question in GAPS] == list(GAPS)


def test_the_gaps_are_ranked_by_what_waits_for_them() -> None:
    waiting = [len(question.waiting) for question in summarise(_check("studio-not-shown").findings).questions]
    assert waiting == sorted(waiting, reverse=True)
    assert waiting[0] > 1


def test_each_gap_is_marked_in_the_document() -> None:
    text = (STUDIO / "studio-not-shown.yaml").read_text("utf-8")
    assert len(re.findall(r"(?m)^ *# not shown: ", text)) == len(GAPS)


@pytest.mark.parametrize(
    ("place", "product", "verdict", "word"),
    [
        ("wall-underlay", "underlay-better", "better", "Vapour resistance falls outward"),
        ("inner-membrane", "polyethylene-worse", "worse", "meant to dry"),
        ("wall-underlay", "underlay-not-comparable", "ask the designer", "without its cup"),
    ],
)
def test_the_swap_comes_out_as_promised(place: str, product: str, verdict: str, word: str) -> None:
    found, reason = swap(
        load(STUDIO / "studio.yaml"), place, read_product(PRODUCTS / f"{product}.yaml"), today=DAY
    ).verdict
    assert found == verdict
    assert word in reason


@pytest.mark.parametrize(
    ("name", "verdict"),
    [
        ("lot-01.yaml", "ask"),
        ("lot-02.yaml", "outside"),
        ("lot-03.yaml", "outside"),
        ("lot-04.yaml", "ask"),
        ("lot-05.json", "caution"),
    ],
)
def test_the_submittal_comes_out_as_promised(name: str, verdict: str) -> None:
    assert summarise(check_file(SUBMITTALS / name, today=DAY).findings).verdict == verdict


def test_the_ten_lines_are_ten_and_mended_they_warn_no_more() -> None:
    first, mended = (
        check_file(EXAMPLES / f"{name}.yaml", today=DAY) for name in ("ten-lines", "ten-lines-mended")
    )
    assert len((EXAMPLES / "ten-lines.yaml").read_text("utf-8").splitlines()) <= 12
    assert ("outside", "vapour.inside-retarder-where-cold", "wall") in _told(first)
    assert _told(mended) == set()
    assert len(summarise(first.findings).questions) <= 8
