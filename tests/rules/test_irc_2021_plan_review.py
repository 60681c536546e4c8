"""A published case: a wall that meets the insulation table and is turned back at plan review for its vapour retarder.

Source: a trade question-and-answer page, read: 2x6 framing, R-21 in the cavity and one inch of foam outside, painted
gypsum board inside, zone 6, rejected for want of a class II retarder or more foam. Figure: R-11.25, read there and on
two further pages.
"""

from copy import deepcopy
from datetime import date

import pytest

from speccheck.uses.check import check_data

R_US = 0.17611018682
"""One h·ft²·°F/Btu in m²·K/W: NIST Special Publication 811, table of units, read."""

WALL = {
    "speccheck": 1,
    "project": {"use": "dwelling", "place": {"zone": "6A"}, "adopted": ["us/irc-2021"]},
    "assemblies": {
        "wall": {
            "kind": "wall",
            "framing": {"spacing": "16 in"},
            "layers": [
                {"id": "lining", "material": "gypsum-board", "thickness": "1/2 in", "finish": "latex-paint"},
                {"id": "fill", "material": "glass-fibre-batt", "thickness": "5.5 in", "thermal-resistance": "R-21", "framed": True},
                {"id": "sheathing", "material": "osb", "thickness": "7/16 in", "controls": ["air"]},
                {"id": "foam", "material": "xps", "thickness": "1 in", "thermal-resistance": "R-5"},
                {"id": "weather", "material": "housewrap-microporous", "controls": ["water"]},
                {"id": "cladding", "material": "wood-bevel-siding", "thickness": "3/4 in"},
            ],
        }
    },
    "junctions": {
        "base": {
            "kind": "wall-slab",
            "joins": ["wall.perimeter"],
            "air": [{"from": "wall.sheathing", "to": "wall.sheathing", "by": "acrylic-tape"}],
        }
    },
}  # fmt: skip


def _findings(document):
    checked = check_data(document, "plan review", today=date(2026, 1, 15))
    return {finding.rule: finding for finding in checked.findings if finding.place == "wall"}


def _with(layer, **values):
    document = deepcopy(WALL)
    layers = document["assemblies"]["wall"]["layers"]
    next(one for one in layers if one["id"] == layer).update(values)
    return document


def test_the_insulation_table_is_met():
    finding = _findings(WALL)["irc-2021.wall-insulation"]
    assert finding.level == "pass"
    assert "R-21" in finding.reason
    assert "R-5" in finding.reason


def test_the_class_iii_table_is_not():
    finding = _findings(WALL)["irc-2021.class-iii-retarder"]
    assert (finding.level, finding.strength, finding.place) == ("warn", "outside", "wall")
    assert finding.measured.observed == pytest.approx(5 * R_US)
    assert finding.measured.limit == pytest.approx(11.25 * R_US)
    assert finding.measured.margin == pytest.approx(-6.25 * R_US)
    assert "class III" in finding.reason
    assert "2x6" in finding.reason
    assert any("R702.7(3)" in source for source in finding.sources)


@pytest.mark.parametrize(("resistance", "level"), [("R-11", "warn"), ("R-11.25", "pass"), ("R-12", "pass")])
def test_more_foam_mends_it(resistance, level):
    finding = _findings(_with("foam", **{"thermal-resistance": resistance}))["irc-2021.class-iii-retarder"]
    assert finding.level == level


def test_a_class_ii_facing_mends_it():
    # The answer of the same page: kraft facing makes it class II, whose own table asks for R-5 in zone 6.
    found = _findings(_with("fill", facing="kraft-facing"))
    assert "irc-2021.class-iii-retarder" not in found
    assert found["irc-2021.vapour-retarder-shown"].level == "pass"
    assert found["irc-2021.foam-outside-a-retarder"].level == "pass"
    assert found["irc-2021.retarder-opens-behind-foam"].level == "pass"


def test_the_editions_before_and_after_say_the_same():
    for edition in ("2018", "2024"):
        document = deepcopy(WALL)
        document["project"]["adopted"] = [f"us/irc-{edition}"]
        found = _findings(document)
        assert found[f"irc-{edition}.wall-insulation"].level == "pass"
        assert found[f"irc-{edition}.class-iii-retarder"].level == "warn"
