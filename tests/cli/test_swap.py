"""A substitute product in place of a layer: better, equal, worse, ask the designer, each with its reason."""

import json

import pytest
from typer.testing import CliRunner

from speccheck.cli.app import app
from speccheck.document.load import load_bytes
from speccheck.report.swap_text import swap_text
from speccheck.uses.check import KNOWN
from speccheck.uses.swap import SwapError, Swapped, swap

WALL = """
speccheck: 1
project: {place: {zone: 6A}, indoor: {humidity: 35 %}}
products:
  film:
    family: variable-permeance-membrane
    permeance: {dry-cup: 0.8 perm, wet-cup: 11 perm}
    air-permeance: 0.001 L/(s·m²) at 75 Pa
    exposure-limit: 90 d
  foam: {family: xps, thickness: 50 mm, thermal-resistance: R-10, permeance: {dry-cup: 0.6 perm, wet-cup: 0.7 perm, tested: core}}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in}
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.7 mm}
      - {id: control, product: film, controls: [air, vapour], exposure: 30 d}
      - {id: fill, material: mineral-wool-batt, thickness: 140 mm, thermal-resistance: R-23, framed: true}
      - {id: board, material: osb, thickness: 11 mm}
      - {id: foam, product: foam}
"""
FILM = {
    "family": "variable-permeance-membrane",
    "permeance": {"dry-cup": "0.8 perm", "wet-cup": "11 perm"},
    "air-permeance": "0.001 L/(s·m²) at 75 Pa",
    "exposure-limit": "90 d",
}
FOAM = {
    "family": "xps",
    "thickness": "50 mm",
    "thermal-resistance": "R-10",
    "permeance": {"dry-cup": "0.6 perm", "wet-cup": "0.7 perm", "tested": "core"},
}


def swapped(place: str, product: dict[str, object], document: str = WALL):
    return swap(load_bytes(document.encode(), "wall.yaml", KNOWN), place, product)


def without(product: dict[str, object], *keys: str, **more: object) -> dict[str, object]:
    return {**{key: value for key, value in product.items() if key not in keys}, **more}


VERDICTS = {
    "the same film": ("wall.control", FILM, "equal", "same within what data sheets tell"),
    "the same film within the scatter of tests": (
        "wall.control", without(FILM, permeance={"dry-cup": "0.82 perm", "wet-cup": "10.8 perm"}), "equal", "same",
    ),
    "more resistance": ("wall.foam", without(FOAM, **{"thermal-resistance": "R-12"}), "better", "thermal resistance of wall.foam goes from"),
    "less resistance": ("wall.foam", without(FOAM, **{"thermal-resistance": "R-5"}), "worse", ""),
    "wet cup against dry cup": (
        "wall.control", without(FILM, permeance={"wet-cup": "0.8 perm"}), "ask the designer", "no dry-cup permeance",
    ),
    "no permeance at all": ("wall.control", without(FILM, "permeance", "family"), "ask the designer", "states no permeance"),
    "a permeance without its cup": (
        "wall.control", without(FILM, permeance={"cup-not-stated": "0.8 perm"}), "ask the designer", "without its cup",
    ),
    "perm against perm-inch": (
        "wall.foam", without(FOAM, "permeance", permeability="1.2 perm-in"), "ask the designer", "perm-inch",
    ),
    "core against faced board": (
        "wall.foam", without(FOAM, permeance={"dry-cup": "0.6 perm", "wet-cup": "0.7 perm", "tested": "faced"}),
        "ask the designer", "tested as core and the substitute's as faced",
    ),
    "another class": (
        "wall.control", without(FILM, permeance={"dry-cup": "1.5 perm", "wet-cup": "11 perm"}), "worse", "vapour class of wall.control changes from II to III",
    ),
    "no air permeance for the air barrier": (
        "wall.control", without(FILM, "air-permeance", "family"), "ask the designer", "",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", VERDICTS)
def test_verdict_and_reason(name):
    place, product, verdict, words = VERDICTS[name]
    found = swapped(place, product)
    reasons = [found.verdict[1], *(line for comparison in found.comparisons for line in comparison.doubts)]
    assert found.verdict[0] == verdict, reasons
    assert any(words in reason for reason in reasons), reasons


def test_a_leaky_sheet_in_place_of_the_air_barrier_is_worse():
    found = swapped("wall.control", without(FILM, **{"air-permeance": "1 L/(s·m²) at 75 Pa"}))
    assert found.verdict[0] in ("worse", "ask the designer")
    assert any(
        "is the air barrier and the substitute is not air-impermeable" in line
        for c in found.comparisons
        for line in c.worse
    )


def test_foil_outside_a_film_brings_a_new_warning():
    foil = {"family": "polyiso-foil-faced", "thickness": "25 mm", "thermal-resistance": "R-6"}
    found = swapped(
        "wall.board",
        foil,
        WALL.replace("variable-permeance-membrane", "polyethylene-film").replace(
            "0.8 perm, wet-cup: 11 perm", "0.03 perm, wet-cup: 0.04 perm"
        ),
    )
    assert found.verdict[0] in ("worse", "ask the designer")


def test_a_shorter_stay_in_the_weather_that_is_not_stated():
    found = swapped("wall.control", without(FILM, "exposure-limit"))
    assert any(
        "is to stay 30 days in the weather; the substitute states no limit" in line
        for c in found.comparisons
        for line in c.doubts
    )


def test_a_product_is_swapped_wherever_it_is_used():
    twice = WALL.replace(
        "- {id: foam, product: foam}", "- {id: foam, product: foam}\n      - {id: foam-2, product: foam}"
    )
    found = swapped("foam", without(FOAM, **{"thermal-resistance": "R-12"}), twice)
    assert found.places == ("wall.foam", "wall.foam-2")


def test_nothing_else_of_the_layer_is_lost():
    found = swapped("wall.control", FILM)
    layer = found.after.loaded.document.assemblies["wall"].layers[1]
    assert (layer.id, layer.controls) == ("control", ("air", "vapour"))
    assert layer.exposure is not None


def test_a_place_that_is_not_there_names_those_near_it():
    with pytest.raises(SwapError, match=r"wall\.control"):
        swapped("wall.contrl", FILM)


@pytest.mark.parametrize(("product", "status"), [(FILM, 0), (without(FILM, "permeance", "family"), 3)])
@pytest.mark.parametrize("form", ["text", "json"])
def test_exit_status_goes_with_the_verdict_in_both_formats(tmp_path, product, status, form):
    (tmp_path / "wall.yaml").write_text(WALL, "utf-8")
    (tmp_path / "product.yaml").write_text(json.dumps(product, ensure_ascii=False), "utf-8")
    arguments = [
        "swap",
        str(tmp_path / "wall.yaml"),
        "wall.control",
        "--with",
        str(tmp_path / "product.yaml"),
        "--format",
        form,
    ]
    result = CliRunner().invoke(app, arguments)
    assert result.exit_code == status, result.output
    if form == "json":
        report = json.loads(result.stdout)
        assert report["verdict"] == {0: "equal", 3: "ask the designer"}[status]
        assert report["places"] == ["wall.control"]
    else:
        assert "Verdict: " in result.stdout


def test_a_product_file_with_a_fault_is_told_with_its_place(tmp_path):
    (tmp_path / "wall.yaml").write_text(WALL, "utf-8")
    (tmp_path / "product.yaml").write_text("thickness: 5\nfamily: unobtainium\n", "utf-8")
    result = CliRunner().invoke(
        app, ["swap", str(tmp_path / "wall.yaml"), "wall.control", "--with", str(tmp_path / "product.yaml")]
    )
    assert result.exit_code == 2
    assert "product.yaml:1:12" in result.stderr
    assert "product.yaml:2:9" in result.stderr


@pytest.mark.parametrize(("reason", "end"), [("is it sealed?", "sealed?"), ("it is sealed", "sealed.")])
def test_a_reason_that_asks_ends_with_its_question_mark(monkeypatch, reason, end):
    monkeypatch.setattr(Swapped, "verdict", property(lambda _: ("ask the designer", reason)))
    verdict = next(
        line
        for line in swap_text(swapped("wall.control", FILM), 100, "both").splitlines()
        if "Verdict:" in line
    )
    assert verdict.endswith(end)
