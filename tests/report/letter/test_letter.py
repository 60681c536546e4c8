"""The correction letter: what counts as a correction, numbering, clauses, words, and whole letters as golden files."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from speccheck.report.letter import letter_of, letter_page, letter_text
from speccheck.uses.check import Checked, check_file

EXAMPLES = Path(__file__).parents[3] / "examples"
DOCUMENTS = (
    "studio/studio.yaml",
    "studio/studio-mistakes.yaml",
    "studio/studio-not-shown.yaml",
    "ten-lines.yaml",
    "ten-lines-mended.yaml",
)
DAY = date(2026, 1, 15)
PAINTED = """\
speccheck: 1
project: {name: House, place: {zone: 6A}, use: dwelling, adopted: [us/irc-2021]}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in}
    layers:
      - {id: lining, material: gypsum-board, thickness: 1/2 in, finish: latex-paint}
      - {id: fill, material: glass-fibre-batt, thickness: 3.5 in, thermal-resistance: R-13, framed: true}
      - {id: sheathing, material: osb, thickness: 7/16 in}
"""


def letter_for(name: str, monkeypatch: pytest.MonkeyPatch) -> Checked:
    monkeypatch.chdir(EXAMPLES)
    return check_file(Path(name), (), DAY)


@pytest.mark.parametrize("name", DOCUMENTS)
def test_whole_letters(
    name: str, monkeypatch: pytest.MonkeyPatch, snapshot: Callable[[str, str], None]
) -> None:
    text = letter_text(letter_for(name, monkeypatch))
    snapshot(f"{Path(name).stem}.letter.md", text)


def test_comments_are_numbered_through_the_groups(checked: Callable[..., Checked]) -> None:
    letter = letter_of(checked(PAINTED))
    numbers = [comment.number for group in letter.groups for comment in group.comments]
    assert numbers == list(range(1, letter.total + 1))
    assert [group.title for group in letter.groups][:2] == ["Outside a rule", "Not shown"]


def test_a_correction_rests_on_an_adopted_clause_and_a_trade_rule_gives_a_note(
    checked: Callable[..., Checked],
) -> None:
    result = checked(PAINTED)
    packs = {(f.title, f.place): f.pack for f in result.findings}
    letter = letter_of(result)
    outside = letter.groups[0].comments
    statuses = {comment.status for comment in outside}
    assert statuses == {"correction", "note"}
    for comment in outside:
        pack = next(pack for (title, _), pack in packs.items() if comment.says.endswith(f" Rule: {title}."))
        assert (comment.status == "correction") <= pack.startswith("codes/")
        assert comment.basis.startswith("Trade rule") == (not pack.startswith("codes/"))


def test_each_comment_names_its_place_and_what_to_show(checked: Callable[..., Checked]) -> None:
    for group in letter_of(checked(PAINTED)).groups:
        for comment in group.comments:
            assert comment.where
            assert comment.basis
            if comment.status == "information needed":
                assert "?" in comment.says
                assert "Needed for: " in comment.says
            else:
                assert comment.show or comment.status in ("refer", "note")


def test_not_shown_is_no_correction(checked: Callable[..., Checked]) -> None:
    groups = {group.title: group for group in letter_of(checked(PAINTED)).groups}
    assert {comment.status for comment in groups["Not shown"].comments} == {"information needed"}


def test_a_letter_approves_nothing_and_accuses_nobody(checked: Callable[..., Checked]) -> None:
    for text in (letter_text(checked(PAINTED)), letter_page(checked(PAINTED))):
        low = text.lower()
        assert "does not presume approval" in low
        for word in ("approved", "compliant", "fails", "failed", "you must", "violation"):
            assert word not in low
        assert "cloud every change" in low
        assert "in writing" in low


def test_a_document_without_a_comment_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    result = letter_for("studio/studio.yaml", monkeypatch)
    result = replace(result, findings=tuple(f for f in result.findings if f.severity in ("pass", "waived")))
    text = letter_text(result)
    assert letter_of(result).total == 0
    assert "No comment on the building envelope arises" in text
    assert "Set aside by agreement" in text


def test_hostile_names_are_inert(checked: Callable[..., Checked]) -> None:
    bad = "<script>alert(1)</script> | **x** [y](javascript:z)"
    waiver = {
        "rule": "paperwork.use-stated",
        "place": "project",
        "reason": bad,
        "agreed-by": bad,
        "until": "2027-01-01",
    }
    data: dict[str, Any] = {
        "speccheck": 1,
        "project": {"name": bad, "place": {"zone": "6A"}},
        "assemblies": {"wall": {"kind": "wall", "layers": [{"material": "osb", "thickness": "10 mm"}]}},
        "waivers": [waiver],
    }
    result = checked(data)
    text, page = letter_text(result), letter_page(result)
    assert text.count("alert(1)") == page.count("alert(1)") - 1 == 3  # the page has a title too
    assert "<script>" not in text
    assert "[y](" not in text
    assert " | **x**" not in text
    assert "<script>" not in page


def test_the_same_report_gives_the_same_bytes(checked: Callable[..., Checked]) -> None:
    assert letter_text(checked(PAINTED)) == letter_text(checked(PAINTED))
    assert letter_page(checked(PAINTED)) == letter_page(checked(PAINTED))
