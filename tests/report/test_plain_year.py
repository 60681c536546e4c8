"""The year of moisture in JSON: faces, wood, the inside surface and drying as the survey has them, where it is shown.

The figures have their own tests against outside sources; here they only travel.
"""

from datetime import date
from pathlib import Path
from typing import Any

import pytest

from speccheck.report.plain import plain_document
from speccheck.report.plain_year import plain_years
from speccheck.survey import survey
from speccheck.uses.check import Checked, check_file

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(scope="module")
def checked() -> Checked:
    return check_file(EXAMPLES / "ten-lines.yaml", (), date(2026, 1, 15))


@pytest.fixture(scope="module")
def year(checked: Checked) -> dict[str, Any]:
    (year,) = plain_document(checked)["moisture"]
    assert isinstance(year, dict)
    return year


def test_wood_is_that_of_the_survey(checked: Checked, year: dict[str, Any]) -> None:
    table = checked.surveyed.ledger.page("assembly", "wall").table
    assert [face["role"] for face in year["wood"]] == ["sheathing", "framing"]
    for plain, face in zip(year["wood"], table.wood, strict=True):
        assert plain["face"] == face.words
        assert plain["limit"] == face.limit.limit
        for name in ("temperature", "humidity", "moisture"):
            assert plain[name] == pytest.approx(list(getattr(face, name)), rel=1e-9, abs=0.0)
            assert len(plain[name]) == 12


def test_the_factor_asked_most_is_the_one_required(checked: Checked, year: dict[str, Any]) -> None:
    page = checked.surveyed.ledger.page("assembly", "wall")
    own, required = page.fact("assembly.frsi"), page.fact("assembly.frsi_required")
    assert own is not None
    assert required is not None
    assert year["surface-factor"] == pytest.approx(own.value, rel=1e-9)
    factors = year["surface-factors"]
    assert len(factors) == 12
    assert max(one for one in factors if one is not None) == pytest.approx(required.value, rel=1e-9)


def test_drying_is_that_of_the_facts(checked: Checked, year: dict[str, Any]) -> None:
    assert [one["layer"] for one in year["drying"]] == ["wall.gypsum-board", "wall.osb"]
    assert [one["is-plane"] for one in year["drying"]] == [False, True]
    for one in year["drying"]:
        page = checked.surveyed.ledger.page("layer", one["layer"])
        fact = page.fact("layer.drying_net")
        assert fact is not None
        # the fact counts the months in which the face dries
        assert sum(net for net in one["net"] if net > 0) == pytest.approx(fact.value, rel=1e-8)
        sums = [inward + outward for inward, outward in zip(one["inward"], one["outward"], strict=True)]
        assert one["net"] == pytest.approx(sums, rel=1e-6, abs=1e-9)
        assert min(one["moved"]) >= 0.0


def test_where_no_rule_asked_for_a_balance_nothing_is_worked_out_for_the_report(checked: Checked) -> None:
    surveyed = survey(checked.loaded.document)
    page = surveyed.ledger.page("assembly", "wall")
    assert plain_years(surveyed) == []
    assert "assembly.drying_net" not in page.facts
    page.fact("assembly.moisture_verdict")
    assert [year["assembly"] for year in plain_years(surveyed)] == ["wall"]
    assert "assembly.drying_net" in page.facts
