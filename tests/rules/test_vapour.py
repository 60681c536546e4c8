"""The tables of the vapour and condensation packs against a second source, where examples cannot reach."""

import pytest

from speccheck.judgement.library import load_pack
from speccheck.judgement.pack import Rule, Table

R = 1 / 5.678263337
"""One h·ft²·°F/Btu in m²·K/W (exact by the international foot, pound and Btu)."""


def _rule(pack: str, id_: str) -> Rule:
    return next(rule for rule in load_pack(f"practice/{pack}").rules if rule.id == id_)


def _table(pack: str, id_: str, name: str) -> Table:
    return next(table for table in _rule(pack, id_).tables if table.name == name)


@pytest.mark.parametrize(
    ("zone", "two_by_four", "two_by_six"),
    [("4C", 2.5, 3.75), ("5A", 5, 7.5), ("6B", 7.5, 11.25), ("7", 10, 15), ("8", 12.5, 20)],
)
def test_insulation_that_lets_paint_do(zone: str, two_by_four: float, two_by_six: float) -> None:
    """2x6 of zones 4C, 5 and 6 and 2x4 of zone 5: a trade article on the 2021 table; the rest: 2021 code (read)."""
    table = _table("vapour", "vapour.inside-retarder-where-cold", "min_r")
    for size, wanted in (("2x4", two_by_four), ("2x6", two_by_six)):
        found = table.find({"climate.zone_2021": zone, "assembly.stud_size": size})
        assert found == pytest.approx(wanted * R, rel=1e-6)


@pytest.mark.parametrize(
    ("pack", "id_"),
    [
        ("vapour", "vapour.no-tight-sheet-on-cold-sheathing"),
        ("condensation", "condensation.foam-is-thick-enough-to-help"),
    ],
)
def test_share_of_the_cavity_is_the_code_table_over_r_20(pack: str, id_: str) -> None:
    """The shares of outboard over all that trade articles quote: 0.16, 0.27, 0.36, 0.43, 0.50 (zones 4C to 8)."""
    quoted = {"4C": 0.16, "5": 0.27, "6": 0.36, "7": 0.43, "8": 0.50}
    by_resistance = _table("vapour", "vapour.inside-retarder-where-cold", "min_r").rows
    ratio = _table(pack, id_, "ratio").rows
    assert set(ratio) == set(quoted)
    for zone, share in quoted.items():
        assert ratio[zone] == pytest.approx(by_resistance[f"{zone}/2x6"] / (20 * R), rel=1e-6)
        assert ratio[zone] / (1 + ratio[zone]) == pytest.approx(share, abs=0.005)


def test_roof_shares_are_the_roof_resistances_over_r_49() -> None:
    """IRC 2021 Table R806.5 read against R-49 gives the shares of IBC 2024 1202.3, to a point and a half."""
    id_ = "condensation.unvented-roof-kept-warm"
    least, share = _table("condensation", id_, "min_r").rows, _table("condensation", id_, "share").rows
    assert set(least) == set(share)
    for zone, resistance in least.items():
        assert resistance / (49 * R) == pytest.approx(share[zone], abs=0.015)


@pytest.mark.parametrize(
    ("thousands", "ratio"),
    [
        (0, 0.2),
        (4, 0.2),
        (5, 0.3),
        (6, 0.35),
        (7, 0.4),
        (8, 0.5),
        (9, 0.55),
        (10, 0.6),
        (11, 0.65),
        (12, 0.75),
        (14, 0.75),
    ],
)
def test_canadian_ratio_by_degree_days(thousands: float, ratio: float) -> None:
    """NBC 2025 Table 9.25.5.2.; the five provincial and national copies agree (read)."""
    table = _table("vapour", "vapour.tight-outer-layer-is-warm", "ratio")
    assert table.find({"climate.degree_day_thousands": float(thousands)}) == ratio


@pytest.mark.parametrize(
    ("outdoor_f", "humidity"), [(20, 0.40), (10, 0.35), (0, 0.30), (-10, 0.25), (-20, 0.20), (-21, 0.15)]
)
def test_list_of_winter_humidity(outdoor_f: float, humidity: float) -> None:
    """The state list: 20 to 40 °F 40 %, 10 to 20 °F 35 %, 0 to 10 °F 30 %, then 25, 20 and 15 % (read in a copy)."""
    rule = _rule("condensation", "condensation.room-dry-enough-for-the-cold")
    value = {parameter.name: parameter.value for parameter in rule.parameters}
    steps = [name for name in ("t1", "t2", "t3", "t4", "t5") if (outdoor_f - 32) / 1.8 >= value[name] - 1e-9]
    assert value[f"h{6 - len(steps)}"] == pytest.approx(humidity)
