"""The air-tightness target as facts: in which measure, and an area target carried to 75 Pa where its unit allows."""

import pytest

TARGET = "project.airtightness_target_75"


def document(target=None):
    project = {"airtightness": {"target": target}} if target else {}
    wall = {"kind": "wall", "layers": [{"material": "osb", "thickness": "11 mm"}]}
    return {"speccheck": 1, "project": project, "assemblies": {"wall": wall}}


def test_a_target_at_75_pa_stands_as_it_is(facts_of):
    facts = facts_of(document("2.0 L/(s·m²) at 75 Pa"))
    assert facts.value(TARGET) == pytest.approx(0.002, rel=1e-9, abs=0)
    assert facts[TARGET].assumed == ()


def test_a_target_at_50_pa_is_carried_by_the_power_law(facts_of):
    # ASTM E779 (read): q = C·dp^n. By hand: 1.5^0.65 = 1.3016, 1.5^0.5 = 1.2247, 1.5^1 = 1.5.
    fact = facts_of(document("1.0 L/(s·m²) at 50 Pa"))[TARGET]
    assert fact.value == pytest.approx(1.3016e-3, rel=1e-4, abs=0)
    assert (fact.low, fact.high) == pytest.approx((1.2247e-3, 1.5e-3), rel=1e-4, abs=0)
    assert fact.origin.value == "computed"
    assert "exponent 0.65" in fact.method
    assert fact.assumed == ("flow exponent of 0.65, to carry the air-tightness target from 50 Pa to 75 Pa",)


def test_a_target_above_75_pa_is_carried_down(facts_of):
    fact = facts_of(document("1.0 L/(s·m²) at 100 Pa"))[TARGET]
    assert fact.low < fact.value < fact.high < 0.001


def test_no_pressure_is_asked_for(facts_of):
    (gap,) = facts_of(document("1.0 L/(s·m²)"))[TARGET].missing
    assert gap.question == "At which pressure is the air-tightness target for the enclosure area set?"
    assert gap.path == ("project", "airtightness")


@pytest.mark.parametrize("target", ["1.5 ACH50", None])
def test_an_air_change_is_no_flow_through_an_area(facts_of, target):
    assert facts_of(document(target))[TARGET].inapplicable


def test_a_target_at_75_pa_is_carried_down_to_50(facts_of):
    fact = facts_of(document("1.3016 L/(s·m²) at 75 Pa"))["project.airtightness_target_50"]
    assert fact.value == pytest.approx(1.0e-3, rel=1e-4, abs=0)


@pytest.mark.parametrize(
    ("target", "by", "leakage"),
    [
        ("2 m³/(h·m²) at 50 Pa", "target", 2.0),
        ("2 m³/(h·m²)", "assumed", 3.0),
        ("1.5 ACH50", "assumed", 3.0),
        (None, "assumed", 3.0),
    ],
)
def test_the_leakage_reckoned_with_says_whence(facts_of, target, by, leakage):
    facts = facts_of(document(target))
    assert facts.value("project.air_leakage_by") == by
    assert facts.value("project.air_leakage_50") * 3600 == pytest.approx(leakage)
    assert any("leakage of 3" in words for words in facts["project.air_leakage_50"].assumed) == (
        by == "assumed"
    )
