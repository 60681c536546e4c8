"""The table of field checks: whole, sourced, and in agreement with figures that stand elsewhere."""

import pytest

from speccheck.tables.field_checks import STAGES, WHERE, _entry, field_checks

KEYS = ("id", "title", "stage", "where", "when", "aim", "expect", "how", "confidence", "source")


def test_every_check_says_when_what_to_aim_for_and_whence() -> None:
    checks = field_checks()
    assert len({check.id for check in checks}) == len(checks)
    for check in checks:
        assert check.stage in STAGES
        assert check.where in WHERE
        assert check.source
        assert check.how in ("read", "memory", "mixed")
        assert check.confidence in ("high", "medium", "low")
        for sentence in (check.when, check.aim, check.expect):
            assert sentence.endswith("."), check.id
            assert "\n" not in sentence


@pytest.mark.parametrize(
    ("name", "figures"),
    [
        # federal residential building programme, wet materials not enclosed: 18 %, and the usual 19 % of graded lumber
        ("wood-moisture", ("18 %", "19 %")),
        # ASTM C1060 as taught: 10 °C for 3 h, wind to 15 mph
        ("infrared", ("10 K (18 °F)", "3 hours", "15 mph")),
        # US EPA action level (from memory)
        ("radon", ("148 Bq/m³ (4 pCi/L)",)),
        # ASTM D4541 practice on air barriers, 16 psi (from memory); 16 · 6.895 = 110
        ("adhesion", ("110 kPa (16 psi)",)),
        # ASTM E1105: 5 gal/(ft²·h) is 3.4 L/(min·m²) (from memory)
        ("water", ("3.4 L/(min·m²) (5 gal/(ft²·h))",)),
    ],
)
def test_figures(name: str, figures: tuple[str, ...]) -> None:
    check = next(check for check in field_checks() if check.id == name)
    text = f"{check.when} {check.aim} {check.expect}"
    assert all(figure in text for figure in figures)


@pytest.mark.parametrize(
    "change", [{"source": []}, {"stage": "later"}, {"where": "moon"}, {"aim": None}, {"extra": "x"}]
)
def test_a_faulty_entry_is_refused(change: dict[str, object]) -> None:
    good: dict[str, object] = dict.fromkeys(KEYS, "x") | {
        "stage": "at-the-end",
        "where": "always",
        "source": ["s"],
    }
    assert _entry(good)["id"] == "x"
    bad = good | change
    if change.get("aim", "") is None:
        del bad["aim"]
    with pytest.raises(ValueError, match="field check x"):
        _entry(bad)
