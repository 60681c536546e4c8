"""File names of reports: by the path alone, readable, and no two paths with one name."""

import unicodedata

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from speccheck.cli.report_names import free_name, report_name

NAMES = st.text("aA1ü.-_ /", min_size=1, max_size=12)


@pytest.mark.parametrize(
    ("path", "name"),
    [
        ("wall.yaml", "wall"),
        ("lots/lot-01.yaml", "lots--lot-01"),
        ("/home/lots/lot-01.yaml", "home--lots--lot-01"),
        ("lots\\lot-01.yaml", "lots--lot-01"),
        ("ümlaut.yaml", "ümlaut"),
        (unicodedata.normalize("NFD", "ümlaut.yaml"), "ümlaut"),
        ("外壁/壁.yaml", "外壁--壁"),
        ("lot-05.json", "lot-05.json"),
        ("lot.yml", "lot.yml"),
    ],
)
def test_a_plain_path_reads_as_it_is(path, name):
    assert report_name(path) == name


@pytest.mark.parametrize(
    "path",
    [
        "a b.yaml",
        "a--b.yaml",
        "../a.yaml",
        "-a.yaml",
        ".hidden.yaml",
        "?.yaml",
        "index.yaml",
        "Matrix.yaml",
        "a" * 300,
        "壁" * 90,
    ],
)
def test_what_is_changed_is_marked_and_fits_a_disk(path):
    name = report_name(path)
    assert name[-7] == "-"
    assert int(name[-6:], 16) >= 0
    assert len(name.encode()) <= 200
    assert not name.startswith((".", "-"))


@given(NAMES, NAMES)
@example("a-b.yaml", "a/b.yaml")
@example("a--b.yaml", "a/b.yaml")
@example("a.yaml", "a.json")
@example("a b.yaml", "a-b.yaml")
@example("../a.yaml", "a.yaml")
def test_no_two_paths_in_one_folder_have_one_name(one, other):
    def meant(path: str) -> str:
        return path.removeprefix("/").removesuffix(".yaml")

    if meant(one) != meant(other):
        assert report_name(one) != report_name(other)


def test_names_that_differ_in_case_alone_are_kept_apart():
    first = free_name("lot.yaml", ".html", ())
    second = free_name("LOT.yaml", ".html", [first])
    assert first == "lot.html"
    assert second.startswith("LOT-")
    assert second.casefold() != first
