"""Which document of an older run a newer one goes with, by name and by what it holds."""

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.uses.pairing import Contents, contents_of, contents_of_file, pair_documents
from speccheck.uses.report_file import read_report

WALL = Contents("Lot 1", frozenset({"wall"}))
ROOF = Contents("Lot 2", frozenset({"wall", "roof"}))
SLAB = Contents("Lot 3", frozenset({"slab"}))
NAMELESS = Contents("", frozenset({"wall"}))


def paired(olds: dict, news: dict) -> dict[str, str]:
    return pair_documents(olds, news, news.get)


def test_a_renamed_document_is_known_by_project_and_assemblies():
    olds = {"a": WALL, "b": ROOF, "c": SLAB}
    assert paired(olds, {"x": SLAB, "b": ROOF, "y": WALL}) == {"x": "c", "b": "b", "y": "a"}


def test_a_name_is_stronger_than_contents_and_is_not_looked_into():
    def look(name: str) -> Contents | None:
        raise AssertionError(name)

    assert pair_documents({"a": WALL, "b": ROOF}, ["b", "a"], look) == {"b": "b", "a": "a"}
    assert paired({"a": WALL, "b": ROOF}, {"a": ROOF, "b": WALL}) == {"a": "a", "b": "b"}


@pytest.mark.parametrize(
    ("olds", "news"),
    [
        ({"a": WALL, "b": WALL}, {"x": WALL, "y": SLAB}),
        ({"a": WALL, "b": SLAB}, {"x": WALL, "y": WALL}),
        ({"a": NAMELESS, "b": SLAB}, {"x": NAMELESS, "y": ROOF}),
    ],
)
def test_where_it_could_be_another_nothing_is_paired(olds, news):
    assert paired(olds, news) == {}


def test_the_last_two_go_together_if_they_share_an_assembly():
    assert paired({"a": WALL, "b": NAMELESS}, {"a": WALL, "x": ROOF}) == {"a": "a", "x": "b"}
    assert paired({"a": WALL, "b": NAMELESS}, {"a": WALL, "x": SLAB}) == {"a": "a"}
    assert paired({"a": WALL, "b": NAMELESS}, {"a": WALL, "x": None}) == {"a": "a"}
    assert paired({"a": WALL, "b": ROOF, "c": SLAB}, {"x": ROOF, "y": NAMELESS, "c": SLAB}) == {
        "x": "b",
        "y": "a",
        "c": "c",
    }


SIDES = st.dictionaries(st.sampled_from("abcdef"), st.sampled_from([WALL, ROOF, SLAB, NAMELESS, None]))


@given(SIDES, SIDES)
def test_no_document_is_paired_twice_and_order_changes_nothing(olds, news):
    pairs = paired(olds, news)
    assert len(set(pairs.values())) == len(pairs)
    backward = paired(dict(reversed(olds.items())), dict(reversed(news.items())))
    assert backward == pairs


def test_contents_of_a_file_of_a_report_and_of_what_cannot_be_read(tmp_path: Path):
    good, bad = tmp_path / "a.yaml", tmp_path / "b.yaml"
    good.write_text("speccheck: 1\nproject: {name: Lot 1}\nassemblies: {wall: {kind: wall}}\n", "utf-8")
    bad.write_text("speccheck: 1\nproject: [\n", "utf-8")
    assert contents_of_file(str(good)) == WALL
    assert contents_of_file(str(bad)) is None
    assert contents_of_file(str(tmp_path / "none.yaml")) is None
    assert contents_of({"assemblies": []}) is None
    assert contents_of({"project": "x", "assemblies": {"wall": {}}}) == NAMELESS


@pytest.mark.parametrize("listed", [True, False])
def test_a_report_tells_the_assemblies_also_where_it_does_not_list_them(tmp_path: Path, listed: bool):
    finding = {
        "rule": "a.b", "severity": "pass", "title": "T", "reason": "R.", "measured": None,
    }  # fmt: skip
    places = [("project", "project"), ("layer", "wall.board"), ("assembly", "roof"), ("junction", "base")]
    document = {
        "file": "a.yaml",
        "project": "Lot 2",
        "verdict": "pass",
        "findings": [finding | {"subject": subject, "place": place} for subject, place in places],
    }
    if listed:
        document["assemblies"] = [{"place": "wall", "name": None}, {"place": "roof", "name": "R"}]
    path = tmp_path / "report.json"
    path.write_text(json.dumps({"speccheck-report": 1, "documents": [document]}), "utf-8")
    (kept,) = read_report(path)
    assert kept.contents == ROOF
