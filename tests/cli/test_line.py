"""The command ``line``, and the pages of junctions and means of sealing."""

from pathlib import Path
from xml.etree import ElementTree

import pytest
import yaml
from typer.testing import CliRunner

from speccheck.cli.app import app
from speccheck.tables.construction import sealing_means_ids
from speccheck.tables.junction_kinds import junction_kind_ids

EXAMPLES = Path(__file__).parents[2] / "examples"


def run(*arguments: object):
    return CliRunner().invoke(app, [str(argument) for argument in arguments])


@pytest.mark.parametrize(
    ("document", "status", "words"),
    [
        ("studio/studio.yaml", 0, "The air barrier closes round the building."),
        ("studio/studio-mistakes.yaml", 1, "The pen lifts at 3 places."),
        ("ten-lines.yaml", 3, "Not shown: 4 places."),
        ("ten-lines-unreadable.yaml", 2, ""),
    ],
)
def test_the_exit_status_tells_whether_the_line_closes(document, status, words):
    result = run("line", EXAMPLES / document)
    assert result.exit_code == status
    assert words in result.stdout


def test_it_draws_into_a_file_whole_or_not_at_all(tmp_path):
    drawing = tmp_path / "line.svg"
    assert run("line", EXAMPLES / "studio/studio.yaml", "--svg", drawing).exit_code == 0
    ElementTree.parse(drawing)
    first = drawing.read_bytes()
    assert run("line", EXAMPLES / "studio/studio.yaml", "--svg", drawing).exit_code == 0
    assert drawing.read_bytes() == first
    assert [path.name for path in tmp_path.iterdir()] == ["line.svg"]
    result = run("line", EXAMPLES / "studio/studio.yaml", "--svg", tmp_path / "no-folder" / "line.svg")
    assert result.exit_code == 2
    assert "cannot be written" in result.stderr


@pytest.mark.parametrize("name", junction_kind_ids())
def test_each_kind_of_junction_has_a_page_and_an_entry(name):
    page = run("explain", name)
    assert page.exit_code == 0
    assert "What a reviewer asks" in page.stdout
    entry = run("new", name)
    assert entry.exit_code == 0
    assert len(yaml.safe_load(entry.stdout)) == 1
    assert "#   beware: " in entry.stdout


@pytest.mark.parametrize("name", sealing_means_ids())
def test_each_means_of_sealing_has_a_page(name):
    page = run("explain", name)
    assert page.exit_code == 0
    assert "Lowest usual temperature" in page.stdout


def test_the_lists_name_them_all():
    for word, ids in (("junctions", junction_kind_ids()), ("sealing", sealing_means_ids())):
        listed = run("explain", word).stdout
        assert [id_ for id_ in ids if f"{id_}  " not in listed] == []


def test_a_near_word_is_offered():
    result = run("new", "wall-to-slabs")
    assert result.exit_code == 2
    assert "wall-to-slab is near it" in result.stderr.replace("\n", " ")
