"""The lines through a section in winter, held against a hand calculation and an outside psychrometric library."""

from collections.abc import Callable
from itertools import pairwise
from typing import Any

import psychrolib
import pytest

from speccheck.survey.profile import NoLines, SectionLines, month_lines, winter_profile

WALL = """\
speccheck: 1
project:
  place: {zone: 6A, weather-file: steady.epw}
  indoor: {temperature: 21 °C, humidity: 40 %}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in}
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.5 mm, conductivity: 0.25 W/(m·K), permeance: {dry-cup: sd 0.1 m, wet-cup: sd 0.1 m}}
      - {id: fill, material: glass-fibre-batt, thickness: 140 mm, thermal-resistance: 3.5 m²·K/W, framed: true, permeance: {dry-cup: sd 0.2 m, wet-cup: sd 0.2 m}}
      - {id: sheathing, material: osb, thickness: 11 mm, conductivity: 0.11 W/(m·K), permeance: {dry-cup: sd 2 m, wet-cup: sd 1 m}, air-permeance: 0.001 L/(s·m²) at 75 Pa}
"""


@pytest.fixture
def profile(facts_of: Callable[..., Any], steady_weather: Callable[[float], Any]) -> SectionLines:
    facts = facts_of(WALL, steady_weather(-5.0))
    found = winter_profile(facts.surveyed, "wall")
    assert isinstance(found, SectionLines)
    return found


def test_temperatures_by_hand(profile: SectionLines, facts_of: Any, steady_weather: Any) -> None:
    # R of the layers 0.05, 3.5 and 0.1; the films are those of the facts
    facts = facts_of(WALL, steady_weather(-5.0))
    inside, outside = facts.value("wall.film_inside"), facts.value("wall.film_outside")
    whole = inside + 0.05 + 3.5 + 0.1 + outside
    hand = [21.0 - 26.0 * r / whole for r in (inside, inside + 0.05, inside + 3.55, inside + 3.65)]
    faces = [p.temperature for p in profile.points if p.depth == 0.0] + [profile.points[-1].temperature]
    assert faces == pytest.approx(hand, abs=1e-9)
    assert faces[2] == pytest.approx(facts.value("wall.plane_temperature"), abs=1e-9)
    assert profile.plane == 2


def test_saturation_agrees_with_psychrolib(profile: SectionLines) -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)
    for point in profile.points:
        # ASHRAE and ISO 13788 formulas differ by less than 0.3 %
        assert point.saturation == pytest.approx(psychrolib.GetSatVapPres(point.temperature), rel=3e-3)


def test_the_line_touches_saturation_at_the_sheathing_and_nowhere_passes_it(profile: SectionLines) -> None:
    # by hand: straight diffusion would put 0.4·2487 - (0.3/2.3)·(995 - 341) = 910 Pa against about 440 Pa there
    assert all(p.pressure <= p.saturation + 1e-6 for p in profile.points)
    wet = {(p.layer, p.depth) for p in profile.condensing}
    assert wet == {(1, 1.0), (2, 0.0)}


def test_condensation_is_what_flows_in_less_what_flows_out(profile: SectionLines) -> None:
    face = next(p for p in profile.points if p.layer == 2 and p.depth == 0.0)
    flow_in = 2.0e-10 * (profile.points[0].pressure - face.pressure) / 0.3
    flow_out = 2.0e-10 * (face.pressure - profile.points[-1].pressure) / 2.0
    assert face.condensing == pytest.approx(flow_in - flow_out, rel=1e-9, abs=0.0)


def test_both_faces_of_each_layer_are_told_and_meet(profile: SectionLines) -> None:
    for before, after in pairwise(profile.points):
        if before.layer != after.layer:
            assert (before.depth, after.depth) == (1.0, 0.0)
            assert before[2:] == after[2:]


def test_a_dry_wall_condenses_nowhere(facts_of: Any, steady_weather: Any) -> None:
    tight = WALL.replace(
        "lining, material: gypsum-board", "lining, material: gypsum-board, finish: vapour-retarder-primer"
    )
    tight = tight.replace("dry-cup: sd 0.1 m, wet-cup: sd 0.1 m", "dry-cup: sd 50 m, wet-cup: sd 50 m")
    found = winter_profile(facts_of(tight, steady_weather(-5.0)).surveyed, "wall")
    assert isinstance(found, SectionLines)
    assert found.condensing == ()


def test_what_is_not_shown_is_asked(facts_of: Any) -> None:
    found = winter_profile(
        facts_of(WALL.replace("thickness: 11 mm, ", "").replace(", weather-file: steady.epw", "")).surveyed,
        "wall",
    )
    assert isinstance(found, NoLines)
    assert "How thick is wall.sheathing?" in found.questions


def test_below_ground_has_no_such_lines(facts_of: Any) -> None:
    ground = WALL.replace("kind: wall", "kind: below-grade-wall").replace(", weather-file: steady.epw", "")
    found = winter_profile(facts_of(ground).surveyed, "wall")
    assert isinstance(found, NoLines)
    assert "ground" in found.reason


def test_months_are_those_of_the_moisture_balance(facts_of: Any) -> None:
    facts = facts_of(WALL.replace(", weather-file: steady.epw", ""))
    page = facts.surveyed.ledger.page("assembly", "wall")
    months = month_lines(facts.surveyed, "wall")
    assert len(months) == 12
    assert [month for month, _ in months][:2] == ["January", "February"]
    table = page.table
    for (name, lines), row in zip(months, table.months, strict=True):
        assert name == row.month
        at = {(p.layer, p.depth): p for p in lines.points}
        for place, temperature, humidity, water in zip(
            table.places, row.temperature, row.humidity, row.water, strict=True
        ):
            point = at[place]
            assert point.temperature == temperature
            assert point.pressure / point.saturation == pytest.approx(humidity)
            assert point.condensing == water
    assert page["moisture_verdict"].value != "none"
    assert any(lines.condensing for _, lines in months)


def test_months_run_from_face_to_face(facts_of: Any) -> None:
    facts = facts_of(WALL.replace(", weather-file: steady.epw", ""))
    for _, lines in month_lines(facts.surveyed, "wall"):
        assert lines.points[0].layer == 0
        assert lines.points[-1].depth == 1.0
        places = [(p.layer, p.depth) for p in lines.points]
        assert places == sorted(places)
        assert all(p.pressure <= p.saturation * (1 + 1e-9) for p in lines.points)


def test_without_a_balance_there_are_no_months(facts_of: Any) -> None:
    ground = WALL.replace("kind: wall", "kind: below-grade-wall").replace(", weather-file: steady.epw", "")
    assert month_lines(facts_of(ground).surveyed, "wall") == ()
