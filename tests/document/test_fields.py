"""What a document knows at a place, read off its models."""

import pytest

from speccheck.document import Document
from speccheck.document.fields import choices, field_at, known_keys, nearest_key, rooms_of


@pytest.mark.parametrize(
    ("path", "key"),
    [
        ((), "assemblies"),
        (("project",), "place"),
        (("project", "place"), "zip"),
        (("assemblies", "any"), "layers"),
        (("assemblies", "any", "layers", 3), "thermal-resistance"),
        (("assemblies", "any", "layers", 3, "permeance"), "dry-cup"),
        (("products", "any", "evidence", 0), "method"),
        (("junctions", "any", "air", 0), "from"),
        (("openings", "any"), "in"),
        (("waivers", 0), "agreed-by"),
    ],
)
def test_keys_are_known_by_the_names_a_document_writes(path: tuple[str | int, ...], key: str):
    assert key in known_keys(Document, path)
    assert field_at(Document, (*path, key)) is not None


@pytest.mark.parametrize(
    "path",
    [
        ("assemblies",),
        ("nothing",),
        ("project", "name"),
        ("products", "any", "permeance", "curve"),
        ("assemblies", "any", "layers"),
    ],
)
def test_where_no_model_stands_nothing_is_known(path: tuple[str | int, ...]):
    assert known_keys(Document, path) == ()
    assert field_at(Document, (*path, "id")) is None


def test_choices_are_read_through_optional_lists():
    field = field_at(Document, ("assemblies", "any", "layers", 0, "controls"))
    assert field is not None
    assert choices(field.annotation) == ("water", "air", "vapour", "thermal")


def test_a_misplaced_key_has_its_room():
    assert rooms_of(Document, ("project",), "zip") == ("place",)
    assert rooms_of(Document, ("assemblies", "any", "layers", 0), "dry-cup") == ("permeance",)
    assert rooms_of(Document, (), "thickness") == ()


@pytest.mark.parametrize(
    ("written", "known", "meant"),
    [
        ("thicknes", ["id", "thickness"], "thickness"),
        ("Wet_Cup", ["dry-cup", "wet-cup"], "wet-cup"),
        ("R-value", ["conductivity", "thermal-resistance"], "thermal-resistance"),
        ("temp", ["temperature", "humidity"], "temperature"),
        ("type", ["use", "name"], "use"),
        ("type", ["kind", "name"], "kind"),
        ("city", ["county", "state"], None),
        ("x" * 1000, ["x"], None),
        ("", ["id"], None),
    ],
)
def test_the_nearest_key(written: str, known: list[str], meant: str | None):
    assert nearest_key(written, known) == meant
