"""The insulation at the edge of a slab: what is shown becomes facts, what is not is asked for where it would stand."""

import pytest

R_US = 0.17611018682
"""1 h·ft²·°F/Btu in m²·K/W, by the definitions of its units."""


def document(edge=None, kind="slab"):
    assembly = {"kind": kind, "layers": [{"material": "concrete", "thickness": "4 in"}]}
    return {"speccheck": 1, "assemblies": {"slab": assembly | ({"edge": edge} if edge is not None else {})}}


def test_both_values_in_si(facts_of):
    facts = facts_of(document({"insulation": "R-10", "depth": "24 in"}))
    assert facts.value("slab.slab_edge_shown") is True
    assert facts.value("slab.slab_edge_r") == pytest.approx(10 * R_US, rel=1e-6)
    assert facts.value("slab.slab_edge_depth") == pytest.approx(0.6096, rel=1e-9)


@pytest.mark.parametrize(
    ("edge", "fact", "question"),
    [
        (
            {"depth": "24 in"},
            "slab_edge_r",
            "What is the thermal resistance of the insulation at the edge of slab?",
        ),
        (
            {"insulation": "R-10"},
            "slab_edge_depth",
            "How far does the insulation at the edge of slab run from the top of the slab?",
        ),
    ],
)
def test_the_other_half_is_asked_for(facts_of, edge, fact, question):
    (gap,) = facts_of(document(edge))[f"slab.{fact}"].missing
    assert gap.question == question
    assert gap.path == ("assemblies", "slab", "edge")


def test_none_has_no_depth_to_ask_for(facts_of):
    facts = facts_of(document({"insulation": "R-0"}))
    assert facts.value("slab.slab_edge_r") == 0.0
    assert facts["slab.slab_edge_depth"].inapplicable


def test_a_slab_that_says_nothing_and_what_is_no_slab(facts_of):
    silent = facts_of(document())
    assert silent.value("slab.slab_edge_shown") is False
    assert silent["slab.slab_edge_r"].inapplicable
    assert facts_of(document(kind="floor"))["slab.slab_edge_shown"].inapplicable
