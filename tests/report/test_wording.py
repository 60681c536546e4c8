"""Margins in words: points between two shares, and no digits that mean nothing."""

import pytest

from speccheck.judgement.finding import Limit
from speccheck.report.wording import margin_words
from speccheck.uses.check import check_data

LAYERS = [{"id": "fill", "material": "mineral-wool-batt", "thickness": "140 mm"}]
DOCUMENT = {"speccheck": 1, "assemblies": {"wall": {"kind": "wall", "layers": LAYERS}}}


# By hand: 40 less 35 is 5 of a hundred; less R-20 is, which in SI is 0.04 x 0.176 = 0.007 m²·K/W.
@pytest.mark.parametrize(
    ("kind", "observed", "limit", "sense", "words"),
    [
        ("fraction", 0.40, 0.35, "at-most", "over by 5 percentage points"),
        ("fraction", 0.34, 0.35, "at-most", "margin 1 percentage point"),
        ("fraction", 0.17, 0.18, "at-least", "short by 1 percentage point"),
        ("thermal-resistance", 20.0399 * 0.17611, 20.0 * 0.17611, "at-least", "margin R-0.04 (0.007 m²·K/W)"),
        ("thermal-resistance", 19.0 * 0.17611, 20.0 * 0.17611, "at-least", "short by R-1 (0.176 m²·K/W)"),
        ("temperature", 4.0, 6.0, "at-least", "short by 2 K (3.6 °F)"),
    ],
)
def test_the_margin_in_words(kind: str, observed: float, limit: float, sense: str, words: str) -> None:
    margin = observed - limit if sense == "at-least" else limit - observed
    finding = check_data(DOCUMENT, "test").findings[0]
    held = Limit("assembly.any", kind, observed, limit, sense, margin)
    assert margin_words(finding._replace(measured=held), "both") == words
