"""Laws of the whole street on generated documents: what must hold whatever is declared."""

import copy
import os
import subprocess
import sys
from datetime import date
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.report.plain import json_text, plain_report
from speccheck.report.text import text_report

FEW = settings(max_examples=30, deadline=None)


def sheet(name: str, material: str, **more: Any) -> dict[str, Any]:
    return {"id": name, "material": material, **more}


thickness = st.integers(6, 25).map(lambda n: f"{n} mm")
deep = st.integers(40, 300).map(lambda n: f"{n} mm")
linings = st.builds(
    lambda m, t: sheet("lining", m, thickness=t),
    st.sampled_from(["gypsum-board", "plywood", "osb", "softwood-board"]),
    thickness,
)
controls = st.sampled_from(
    ["kraft-facing", "polyethylene-film", "variable-permeance-membrane", "housewrap-microporous"]
).map(lambda m: sheet("control", m, thickness="0.15 mm", controls=["air", "vapour"]))
fills = st.builds(
    lambda m, t, f: sheet("fill", m, thickness=t, framed=f),
    st.sampled_from(["mineral-wool-batt", "cellulose-dense-pack", "glass-fibre-batt", "wood-fibre-batt"]),
    deep,
    st.booleans(),
)
boards = st.builds(
    lambda m, t: sheet("board", m, thickness=t),
    st.sampled_from(["osb", "plywood", "fibreboard-sheathing", "gypsum-sheathing-glass-mat"]),
    thickness,
)
ends = st.sampled_from(
    [
        [],
        [
            sheet("cavity", "air-cavity", thickness="19 mm", ventilation="ventilated"),
            sheet("siding", "wood-siding", thickness="19 mm"),
        ],
    ]
)


@st.composite
def walls(draw: st.DrawFn) -> list[dict[str, Any]]:
    inside = [draw(linings), *draw(st.lists(controls, max_size=1))]
    return [*inside, draw(fills), draw(boards), *draw(ends)]


zones = st.sampled_from(["2A", "3B", "4A", "4C", "5A", "5B", "6A", "7", "8"])


def document(layers: list[dict[str, Any]], zone: str = "6A", humidity: int = 35) -> dict[str, Any]:
    return {
        "speccheck": 1,
        "project": {
            "place": {"zone": zone},
            "indoor": {"humidity": f"{humidity} %"},
            "adopted": ["us/irc-2021"],
        },
        "assemblies": {"it": {"kind": "wall", "framing": {"spacing": "16 in"}, "layers": layers}},
        "junctions": {"base": {"kind": "wall-slab", "joins": ["it.base"], "air": []}},
    }


def outer(resistance: float) -> dict[str, Any]:
    return sheet("outer", "mineral-wool-board", thickness="50 mm") | {
        "thermal-resistance": f"{resistance} m²·K/W"
    }


def outside_of_board(layers: list[dict[str, Any]], layer: dict[str, Any]) -> list[dict[str, Any]]:
    index = next(i for i, one in enumerate(layers) if one["id"] == "board")
    return [*layers[: index + 1], layer, *layers[index + 1 :]]


@FEW
@given(walls(), zones, st.floats(0.2, 6), st.floats(0.1, 4))
def test_more_resistance_outboard_never_makes_the_plane_colder(facts_of, layers, zone, less, more):
    # between studs; of two layers without framing the thicker one is the main insulation, and the plane lies outside it
    layers = [{**one, "framed": True} if one["id"] == "fill" else one for one in layers]
    thin = facts_of(document(outside_of_board(layers, outer(less)), zone))
    thick = facts_of(document(outside_of_board(layers, outer(less + more)), zone))
    assert thin.value("it.condensing_plane") == thick.value("it.condensing_plane") == "it.board"
    if thin.value("climate.winter_mean_temperature") < thin.value("project.indoor_temperature"):
        assert thick.value("it.plane_temperature") >= thin.value("it.plane_temperature") - 1e-9
        assert thick.value("it.critical_indoor_rh") >= thin.value("it.critical_indoor_rh") - 1e-12
        assert thick.value("it.effective_r") > thin.value("it.effective_r")
        assert thick.value("it.surface_rh") <= thin.value("it.surface_rh") + 1e-12


@FEW
@given(walls(), st.sampled_from(["polyethylene-film", "kraft-facing", "housewrap-microporous"]), st.data())
def test_a_layer_more_never_raises_the_permeance(facts_of, layers, material, data):
    at = data.draw(st.integers(0, next(i for i, one in enumerate(layers) if one["id"] == "fill")))
    more = [*layers[:at], sheet("added", material, thickness="0.2 mm"), *layers[at:]]
    before, after = facts_of(document(layers)), facts_of(document(more))
    for name in ("it.interior_permeance_dry", "it.total_permeance_dry", "it.interior_permeance_wet"):
        if name in before and before[name].known and after[name].known:
            assert after.value(name) <= before.value(name) * (1 + 1e-12)


@FEW
@given(walls(), zones, st.integers(20, 60), st.integers(1, 20))
def test_more_humidity_never_widens_the_margin(facts_of, layers, zone, humidity, more):
    dry, damp = facts_of(document(layers, zone, humidity)), facts_of(document(layers, zone, humidity + more))
    if dry["it.plane_margin"].known:
        assert damp.value("it.plane_margin") < dry.value("it.plane_margin")
        assert damp.value("it.critical_indoor_rh") == dry.value("it.critical_indoor_rh")


def keys_in_another_order(value: Any, draw: Any) -> Any:
    if isinstance(value, dict):
        return {key: keys_in_another_order(value[key], draw) for key in draw(st.permutations(list(value)))}
    if isinstance(value, list):
        return [keys_in_another_order(one, draw) for one in value]
    return value


def told(checked: Any) -> list[tuple[Any, ...]]:
    return sorted(
        (
            f.rule,
            f.place,
            f.severity,
            f.reason,
            f.measured,
            sorted(f.assumed),
            sorted(gap.key for gap in f.gaps),
        )
        for f in checked.findings
    )


@FEW
@given(walls(), zones, st.data())
def test_order_of_keys_and_notes_never_change_a_finding(checked, layers, zone, data):
    plain = document(layers, zone)
    other = keys_in_another_order(plain, data.draw)
    other["project"]["description"] = "A note that no rule reads: warn, fail, {{ x }}, R-99"
    other["assemblies"]["it"]["note"] = data.draw(st.text(max_size=40))
    assert told(checked(other)) == told(checked(plain))


@FEW
@given(walls(), zones)
def test_the_same_input_gives_the_same_bytes(checked, layers, zone):
    data = document(layers, zone)
    one, other = checked(copy.deepcopy(data)), checked(copy.deepcopy(data))
    assert json_text(plain_report([one], facts=True)) == json_text(plain_report([other], facts=True))
    assert text_report(one, full=True) == text_report(other, full=True)


def test_another_process_with_another_hash_seed_gives_the_same_bytes(tmp_path):
    layers = [
        sheet("lining", "gypsum-board", thickness="12.7 mm", finish="latex-paint"),
        sheet("control", "kraft-facing", thickness="0.2 mm", controls=["air"]),
        sheet("fill", "mineral-wool-batt", thickness="140 mm", framed=True),
        sheet("board", "osb", thickness="11 mm"),
    ]
    path = tmp_path / "wall.yaml"
    path.write_text(yaml.safe_dump(document(layers), sort_keys=False), "utf-8")
    outputs = {
        (form, seed): subprocess.run(
            [
                sys.executable,
                "-m",
                "speccheck",
                "check",
                path.name,
                "--format",
                form,
                "--full",
                "--today",
                "2026-01-15",
            ],
            cwd=tmp_path,
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=False,
        ).stdout
        for form in ("json", "text")
        for seed in ("1", "2")
    }
    for form in ("json", "text"):
        assert len(outputs[form, "1"]) > 1000
        assert outputs[form, "1"] == outputs[form, "2"]


@FEW
@given(walls(), zones)
def test_every_finding_stands_at_a_place_of_the_document(checked, layers, zone):
    found = checked(document(layers, zone))
    places = {"project", "base", "it", *(f"it.{one['id']}" for one in layers)}
    assert {finding.place for finding in found.findings} <= places
    assert len({finding.key for finding in found.findings}) == len(found.findings)


@FEW
@given(walls())
def test_no_pass_for_vapour_while_the_air_line_is_open(checked, layers):
    # the one junction of these documents is declared unconnected
    found = checked(document(layers))
    presuming = {rule.id for pack in found.packs for rule in pack.rules if rule.presumes_air_line}
    assert presuming
    assert not [f for f in found.findings if f.rule in presuming and f.level == "pass"]


@pytest.mark.parametrize("day", [date(2026, 1, 15), date(2031, 7, 1)])
def test_without_waivers_the_day_does_not_matter(checked, day):
    data = document(
        [
            sheet("fill", "mineral-wool-batt", thickness="140 mm", framed=True),
            sheet("board", "osb", thickness="11 mm"),
        ]
    )
    assert told(checked(data, today=day)) == told(checked(data))
