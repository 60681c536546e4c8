"""Kinds of junction: their form, their sides, and a few facts against a second source."""

from collections import Counter

import pytest

from speccheck.document.assembly import KINDS
from speccheck.document.junction import Opening, Penetration
from speccheck.survey.enclosure import Bounds, sides_of
from speccheck.tables.junction_kinds import (
    junction_kind,
    junction_kind_ids,
    junction_kinds,
    near_junction_kinds,
)
from speccheck.tables.materials import source_title

ALL = junction_kinds()
OTHER_HOSTS = {
    *Opening.model_fields["kind"].annotation.__args__,
    *Penetration.model_fields["kind"].annotation.__args__,
}


def test_thirty_four_kinds_under_names_of_their_own():
    names = Counter(name for kind in ALL for name in (kind.id, *kind.also))
    assert len(ALL) == 34
    assert [name for name, count in names.items() if count > 1] == []
    assert junction_kind_ids() == tuple(sorted(kind.id for kind in ALL))


@pytest.mark.parametrize("kind", ALL, ids=lambda kind: kind.id)
def test_a_kind_is_whole(kind):
    assert kind.question.endswith("?")
    assert set(kind.carries) <= {"air", "water", "vapour", "thermal"}
    assert "air" in kind.carries
    assert kind.usual
    assert kind.mistakes
    assert all(source_title(source) for source in kind.source)
    assert {side.partition(".")[0] for side in kind.joins} <= {*KINDS, *OTHER_HOSTS}
    if kind.over is not None:
        assert len(set(kind.over)) == 2
        assert "water" in kind.carries or kind.id == "top-plate"


@pytest.mark.parametrize("kind", [kind for kind in ALL if kind.expected], ids=lambda kind: kind.id)
def test_an_expected_kind_joins_usual_sides(kind):
    # a question on a side that no junction names finds its partner by these
    for side in kind.joins:
        host, _, name = side.partition(".")
        assert name in sides_of(Bounds(host))


def test_usual_words_find_their_kind():
    for word, id_ in {
        "wall-slab": "wall-to-slab", "wall-roof": "wall-to-eave", "wall-wall": "outside-corner",
        "Parapet": "parapet", "rim-joist": "rim-joist",
    }.items():  # fmt: skip
        assert junction_kind(word).id == id_
    assert junction_kind("wal-to-slab") is None
    assert near_junction_kinds("wal-to-slab")[0] == "wall-to-slab"
    assert near_junction_kinds("something else entirely") == ()


@pytest.mark.parametrize(
    ("upper", "lower", "kind"),
    [
        # Shingle order, federal page on flashed openings and coastal fact sheet 24, read: the layer that water meets
        # first on its way down laps over the next.
        ("wall", "slab", "wall-to-slab"),
        ("wall", "below-grade-wall", "wall-to-foundation"),
        ("roof", "wall", "wall-to-eave"),
        ("wall", "roof", "roof-to-wall"),
        ("wall", "window", "window-head"),
        ("window", "wall", "window-sill"),
    ],
)
def test_which_laps_over_which(upper, lower, kind):
    over, under = junction_kind(kind).over
    assert (over.partition(".")[0], under.partition(".")[0]) == (upper, lower)


def test_hollows_that_want_blocking():
    # WAC Table R402.4.1.1, read: knee walls, garages, rim joists, shafts, tubs; trade page on joists over a garage, read.
    for name in (
        "garage-to-house",
        "knee-wall",
        "rim-joist",
        "chimney-flue",
        "tub-on-exterior-wall",
        "parapet",
    ):
        assert junction_kind(name).hollow
    assert not junction_kind("outside-corner").hollow
