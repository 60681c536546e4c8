"""Choices are told from steps wherever a report says what to do."""

from typing import Any

import pytest

from speccheck.judgement.finding import Finding
from speccheck.judgement.library import find_rule, load_pack
from speccheck.report.letter import letter_text
from speccheck.report.page import html_page
from speccheck.report.pages import rule_page
from speccheck.report.plain import plain_document
from speccheck.report.remedies import heading, joined, led
from speccheck.report.rule_help import help_text
from speccheck.report.text import text_report
from speccheck.uses.check import Checked, check_data

BARE: dict[str, Any] = {
    "speccheck": 1,
    "project": {"place": {"zone": "6A"}},
    "assemblies": {
        "slab": {"kind": "slab", "layers": [{"material": "concrete", "thickness": "100 mm"}]},
        "wall": {
            "kind": "wall",
            "framing": {"spacing": "16 in"},
            "layers": [
                {"material": "gypsum-board", "thickness": "1/2 in"},
                {"material": "mineral-wool-batt", "thickness": "140 mm", "framed": True},
                {"material": "osb", "thickness": "11 mm"},
                {"material": "housewrap-spunbonded", "controls": ["water"]},
                {"material": "vinyl-siding"},
            ],
        },
    },
}
"""A slab without a film, which wants all of some steps, and a wall too open inside, which one of some choices mends."""


@pytest.fixture(scope="module")
def checked() -> Checked:
    return check_data(BARE, "bare.yaml")


def finding(checked: Checked, do_is: str) -> Finding:
    return next(f for f in checked.findings if f.do_is == do_is)


def test_words_between_remedies():
    assert joined(("A.", "B."), "choices") == "A. Or: B."
    assert joined(("A.", "B."), "steps") == "A. And: B."
    assert joined(("A.",), "") == "A."
    assert list(led(("A.", "B.", "C."), "steps")) == [("Do:", "A."), ("And:", "B."), ("And:", "C.")]
    assert heading(("A.",), "choices") == "What to do"


def test_a_letter_text_and_data_say_which(checked):
    letter, text = letter_text(checked), " ".join(text_report(checked).split())
    data = {(f["rule"], f["place"]): f for f in plain_document(checked)["findings"]}
    for do_is, joint in (("steps", "And:"), ("choices", "Or:")):
        found = finding(checked, do_is)
        told = f"{found.do[0]} {joint} {found.do[1]}"
        assert told.replace("`", "") in letter.replace("`", "")
        assert f"Do: {told}" in text
        assert data[found.key]["do-is"] == do_is
    single = [f for f in checked.findings if len(f.do) < 2]
    assert single
    assert {data[f.key]["do-is"] for f in single} == {None}


def test_a_page_numbers_steps_and_lists_choices(checked):
    page = html_page(checked)
    for do_is, head in (("steps", "All of these:<ol>"), ("choices", "One of these:<ul>")):
        assert f"{head}<li>{finding(checked, do_is).do[0]}</li>".replace("'", "&#39;") in page


@pytest.mark.parametrize(
    ("pack", "rule", "head"),
    [
        ("practice/slab-and-ground", "ground.slab-has-a-film", "What to do: all of these"),
        ("practice/vapour", "vapour.falls-outward", "What to do: one of these"),
        ("practice/slab-and-ground", "ground.stone-below", "What to do"),
    ],
)
def test_the_page_of_a_rule_says_which(pack, rule, head):
    held = load_pack(pack)
    one = find_rule(rule, [held])
    assert one is not None
    assert head in rule_page(one, held).splitlines()
    assert f"{head}:" in help_text(one, held).splitlines()
