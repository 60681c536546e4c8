"""Waivers through the whole street: what stands, what is set aside, and what is said of the waiver itself."""

from datetime import date

import pytest

WALL = """
speccheck: 1
project: {{place: {{zone: 5A}}}}
assemblies: {{wall: {{kind: wall, layers: [{{id: wall, material: concrete, thickness: 200 mm, controls: [air]}}]}}}}
waivers:
  - {{rule: {rule}, place: {place}, reason: Settled after the first review., agreed-by: plan reviewer, until: 2026-06-30}}
"""


def _levels(checked, rule: str, place: str, today: date) -> dict[str, str]:
    found = checked(WALL.format(rule=rule, place=place), today=today).findings
    wanted = ("paperwork.use-stated", "waivers.")
    return {f.rule: str(f.level) for f in found if f.rule.startswith(wanted)}


@pytest.mark.parametrize(
    ("rule", "place", "today", "use", "bad"),
    [
        ("paperwork.use-stated", "project", date(2026, 6, 30), "waived", set()),
        ("paperwork.use-stated", "project", date(2026, 7, 1), "ask", {"waivers.still-holds"}),
        ("paperwork.use-told", "project", date(2026, 1, 1), "ask", {"waivers.rule-exists"}),
        ("paperwork.use-stated", "north-wall", date(2026, 1, 1), "ask", {"waivers.place-exists"}),
        ("paperwork.use-stated", "wall", date(2026, 1, 1), "ask", {"waivers.still-needed"}),
    ],
)
def test_each_way_a_waiver_can_be_wrong_is_told(checked, rule, place, today, use, bad) -> None:
    levels = _levels(checked, rule, place, today)
    assert levels.pop("paperwork.use-stated") == use
    assert {id_ for id_, level in levels.items() if level != "pass"} == bad


TIGHT = """
speccheck: 1
project: {place: {zone: 6A}}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in}
    layers:
      - {material: gypsum-board, thickness: 1/2 in, finish: latex-paint}
      - {material: mineral-wool-batt, thickness: 5.5 in, thermal-resistance: R-23, framed: true}
      - {material: osb, thickness: 7/16 in, controls: [air]}
"""


def test_a_warning_that_is_waived_counts_as_waived_whatever_its_strength(checked) -> None:
    warned = next(f for f in checked(TIGHT).findings if f.level == "warn")
    entry = f"{{rule: {warned.rule}, place: {warned.place}, reason: Settled after review., agreed-by: plan reviewer, until: 2026-06-30}}"
    found = {f.key: f for f in checked(f"{TIGHT}waivers: [{entry}]\n").findings}[warned.key]
    assert (found.level, found.strength, found.severity) == ("waived", warned.strength, "waived")
