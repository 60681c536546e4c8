"""A page comes of every section that can be judged, whatever lies where in it; invented sections, for plumbing only."""

from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from speccheck.report.page import html_page
from speccheck.report.text import text_report
from speccheck.uses.check import check_data

MATERIALS = (
    "gypsum-board", "osb", "plywood", "cellulose-dense-pack", "mineral-wool-board", "wood-fibre-underlay-board",
    "spray-foam-closed-cell", "poly-sheet", "housewrap-microporous", "softwood-board", "concrete",
    "steel-siding", "eps",
)  # fmt: skip

LAYERS = st.fixed_dictionaries(
    {"material": st.sampled_from(MATERIALS)},
    optional={
        "thickness": st.sampled_from(["0.2 mm", "12 mm", "60 mm", "140 mm"]),
        "controls": st.lists(st.sampled_from(["air", "water", "vapour", "thermal"]), unique=True, max_size=3),
    },
)
CAVITY = st.fixed_dictionaries(
    {
        "material": st.just("air-cavity"),
        "thickness": st.just("20 mm"),
        "ventilation": st.sampled_from(["none", "drained", "vented", "ventilated"]),
    }
)


@st.composite
def documents(draw: st.DrawFn) -> dict[str, Any]:
    """Return a document of one assembly, with or without a place, a humidity, framing, and a cavity somewhere."""
    layers = draw(st.lists(LAYERS, min_size=1, max_size=6))
    if draw(st.booleans()):
        layers.insert(draw(st.integers(0, len(layers))), draw(CAVITY))
    assembly: dict[str, Any] = {
        "kind": draw(st.sampled_from(["wall", "roof", "floor", "slab", "below-grade-wall", "ceiling"])),
        "layers": [{"id": f"l{n}", **layer} for n, layer in enumerate(layers)],
    }
    if draw(st.booleans()):
        assembly["framing"] = {"depth": "140 mm", "spacing": "400 mm"}
        framed = draw(st.integers(0, len(layers) - 1))
        if layers[framed]["material"] in ("cellulose-dense-pack", "mineral-wool-board"):
            assembly["layers"][framed]["framed"] = True
    project = draw(
        st.fixed_dictionaries(
            {},
            optional={
                "place": st.just({"zip": "05602"}),
                "indoor": st.just({"temperature": "21 °C", "humidity": "40 %"}),
            },
        )
    )
    return {"speccheck": 1, "project": project, "assemblies": {"a": assembly}}


@given(documents())
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_a_page_comes_of_every_section(document):
    checked = check_data(document, "any.yaml")
    page = html_page(checked)
    assert page.count("<svg") == page.count("</svg>")
    assert "</main>" in page
    assert text_report(checked)


def test_a_plane_beyond_a_ventilated_cavity_is_not_drawn():
    layers = [
        {"id": "lining", "material": "gypsum-board", "thickness": "12.7 mm"},
        {"id": "osb", "material": "osb", "thickness": "11 mm", "controls": ["air"]},
        {"id": "fill", "material": "cellulose-dense-pack", "thickness": "140 mm", "framed": True},
        {"id": "board", "material": "wood-fibre-underlay-board", "thickness": "60 mm", "controls": ["water"]},
        {"id": "gap", "material": "air-cavity", "thickness": "25 mm", "ventilation": "ventilated"},
        {"id": "siding", "material": "softwood-board", "thickness": "19 mm"},
    ]
    wall = {"kind": "wall", "framing": {"depth": "140 mm", "spacing": "400 mm"}, "layers": layers}
    project = {"place": {"zip": "05602"}, "indoor": {"humidity": "40 %"}}
    checked = check_data({"speccheck": 1, "project": project, "assemblies": {"wall": wall}}, "wall.yaml")
    assert "temperature and vapour pressure, month by month" in html_page(checked)
