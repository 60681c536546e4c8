"""Waivers through the street: one rule at one place, with an end; none of them works in the dark."""

from datetime import date, timedelta
from typing import Any

import pytest

from speccheck.document import Unreadable
from speccheck.judgement.finding import SEVERITIES
from speccheck.report.summary import summarise

WALL = """
speccheck: 1
project: {place: {zone: 6A}, indoor: {humidity: 35 %}}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in}
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.7 mm, finish: latex-paint}
      - {id: fill, material: mineral-wool-batt, thickness: 140 mm, framed: true}
      - {id: board, material: plywood, thickness: 11 mm, controls: [air]}
"""
RULE = "vapour.open-outside-for-deep-cavity"


def waiver(rule: str = RULE, place: str = "wall", until: str = "2026-06-30") -> str:
    return f"""
waivers:
  - rule: {rule}
    place: {place}
    reason: A moisture engineer has looked at this wall.
    agreed-by: engineer of record
    until: {until}
"""


def of(checked: Any, rule: str, place: str = "wall") -> Any:
    (found,) = [f for f in checked.findings if f.key == (rule, place)]
    return found


def about(checked: Any) -> dict[str, str]:
    return {f.rule: f.severity for f in checked.findings if f.place == "waivers.1"}


def test_without_waiver_it_warns(checked):
    assert of(checked(WALL), RULE).level == "warn"


def test_waived_is_marked_and_counted_and_says_why(checked):
    result = checked(WALL + waiver())
    finding = of(result, RULE)
    assert finding.level == "waived"
    assert (
        finding.waiver
        == "A moisture engineer has looked at this wall. (agreed by engineer of record, until 2026-06-30)"
    )
    assert finding.reason == of(checked(WALL), RULE).reason
    assert summarise(result.findings).counts["waived"] == 1
    assert set(about(result).values()) == {"pass"}


def test_nothing_else_is_waived(checked):
    before = {f.key: f.severity for f in checked(WALL).findings}
    after = {f.key: f.severity for f in checked(WALL + waiver()).findings}
    assert {key for key in before if after[key] != before[key]} == {(RULE, "wall")}


@pytest.mark.parametrize(("days", "level"), [(-1, "waived"), (0, "waived"), (1, "warn")])
def test_it_holds_to_the_end_of_its_last_day(checked, days, level):
    result = checked(WALL + waiver(until="2026-03-31"), today=date(2026, 3, 31) + timedelta(days))
    assert of(result, RULE).level == level
    ended = {rule for rule, severity in about(result).items() if severity == "caution"}
    assert ended == ({"waivers.still-holds"} if level == "warn" else set())


def test_unknown_rule_and_unknown_place_are_findings(checked):
    slip = about(checked(WALL + waiver(rule="vapour.falls-outwards")))
    assert slip["waivers.rule-exists"] == "caution"
    gone = about(checked(WALL + waiver(place="north-wall")))
    assert gone["waivers.place-exists"] == "caution"


def test_a_waiver_that_sets_nothing_aside_is_a_finding(checked):
    passing = next(f for f in checked(WALL).findings if f.level == "pass" and f.subject == "assembly")
    result = about(checked(WALL + waiver(rule=passing.rule, place=passing.place)))
    assert result["waivers.rule-exists"] == "pass"
    assert result["waivers.still-needed"] == "caution"


def test_the_finding_about_a_waiver_points_at_its_line(checked):
    text = WALL + waiver(place="north-wall")
    finding = of(checked(text), "waivers.place-exists", "waivers.1")
    assert text.splitlines()[finding.line - 1].lstrip().startswith("- rule:")


@pytest.mark.parametrize("place", ["'*'", "wall.*", "all", "''"])
def test_there_is_no_blanket_form(checked, place):
    result = checked(WALL + waiver(place=place))
    assert not [f for f in result.findings if f.level == "waived"]
    assert of(result, RULE).level == "warn"


@pytest.mark.parametrize("rule", ["'*'", "vapour", "vapour.*", "all"])
def test_a_rule_is_named_in_full(checked, rule):
    with pytest.raises(Unreadable) as caught:
        checked(WALL + waiver(rule=rule))
    assert any(problem.path[:3] == ("waivers", 0, "rule") for problem in caught.value.problems)


@pytest.mark.parametrize("missing", ["reason", "agreed-by", "until"])
def test_reason_name_and_end_are_needed(checked, missing):
    text = "\n".join(
        line for line in (WALL + waiver()).splitlines() if not line.strip().startswith(f"{missing}:")
    )
    with pytest.raises(Unreadable) as caught:
        checked(text)
    assert missing in str(caught.value)


def test_a_rule_that_holds_is_not_turned_into_a_waived_one(checked):
    result = checked(WALL)
    passing = next(f for f in result.findings if f.level == "pass")
    again = checked(WALL + waiver(rule=passing.rule, place=passing.place))
    assert of(again, passing.rule, passing.place).level == "pass"


def test_an_edition_without_pack_is_a_finding(checked):
    result = checked(WALL.replace("project: {", "project: {adopted: [us/irc-1999], "))
    assert result.missing_editions == ("us/irc-1999",)
    assert [f for f in result.findings if f.subject == "edition" and f.severity in SEVERITIES[:4]]
