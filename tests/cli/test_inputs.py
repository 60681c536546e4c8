"""No command writes over what it reads, however the path is written."""

import os

import pytest
from typer.testing import CliRunner

from speccheck.cli.app import app
from speccheck.cli.inputs import InputError, spare

WALL = "speccheck: 1\nassemblies: {wall: {kind: wall, layers: [{material: osb, thickness: 11 mm}]}}\n"
DAY = ("--today", "2026-01-15")
REFUSED = "is an input of this run and is not written over. Expected a file that is not read. Do: name another file.\n"


@pytest.fixture
def run(tmp_path, monkeypatch):
    """Return what calls the program in a folder with two documents, a report and a pack."""
    monkeypatch.chdir(tmp_path)
    for name in ("wall.yaml", "other.yaml"):
        (tmp_path / name).write_text(WALL, "utf-8")
    (tmp_path / "link.yaml").symlink_to("wall.yaml")

    def call(*arguments: str) -> tuple[int, str]:
        found = CliRunner().invoke(app, list(arguments))
        if found.exception is not None and not isinstance(found.exception, SystemExit):
            raise found.exception
        return found.exit_code, found.stderr

    assert call("check", "wall.yaml", "-f", "json", "--out", "old.json", *DAY)[0] in (1, 3)
    return call


def kept(folder):
    return {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()}


@pytest.mark.parametrize(
    "arguments",
    [
        ("check", "wall.yaml", "--out", "wall.yaml", *DAY),
        ("check", "wall.yaml", "--out", "./../{folder}/wall.yaml", *DAY),
        ("check", "wall.yaml", "--out", "link.yaml", *DAY),
        ("check", "link.yaml", "--out", "wall.yaml", *DAY),
        ("check", ".", "-f", "matrix", "--out", "other.yaml", *DAY),
        ("check", "wall.yaml", "-f", "letter", "--out", "wall.yaml", *DAY),
        ("check", "wall.yaml", "-f", "brief-html", "--out", "wall.yaml", *DAY),
        ("check", "wall.yaml", "--baseline", "old.json", "-f", "json", "--out", "old.json", *DAY),
        ("compare", "wall.yaml", "other.yaml", "--out", "wall.yaml", *DAY),
        ("compare", "wall.yaml", "other.yaml", "--out", "other.yaml", *DAY),
        ("compare", "old.json", "wall.yaml", "--out", "old.json", *DAY),
        ("line", "wall.yaml", "--svg", "wall.yaml"),
        ("line", "link.yaml", "--svg", "wall.yaml"),
        ("check", "wall.yaml", "--baseline", "old.json", "-f", "json", "--out-dir", "in", *DAY),
    ],
)
def test_an_input_stands_as_it_stood(run, tmp_path, arguments):
    (tmp_path / "in").mkdir()
    os.link(tmp_path / "old.json", tmp_path / "in" / "wall.json")
    before = kept(tmp_path)
    status, told = run(*(argument.format(folder=tmp_path.name) for argument in arguments))
    assert status == 2
    assert told.startswith("speccheck: ")
    assert told.endswith(REFUSED)
    assert kept(tmp_path) == before


def test_a_document_in_json_is_not_taken_for_an_old_report(run, tmp_path):
    (tmp_path / "lot.json").write_text('{"speccheck": 1, "assemblies": {}}', "utf-8")
    before = kept(tmp_path)
    status, told = run("check", "lot.json", "wall.yaml", "-f", "json", "--out-dir", "new", *DAY)
    assert status == 2
    assert kept(tmp_path)["lot.json"] == before["lot.json"]
    (tmp_path / "lot.json").write_text(
        '{"speccheck": 1, "assemblies": {"w": {"kind": "wall", "layers": [{"material": "osb"}]}}}', "utf-8"
    )
    before = kept(tmp_path)
    status, told = run("check", "lot.json", "-f", "json", "--out", "lot.json", *DAY)
    assert (status, told) == (2, f"speccheck: lot.json {REFUSED}")
    assert kept(tmp_path) == before
    assert run("check", "lot.json", "-f", "json", "--out-dir", ".", *DAY)[0] in (1, 3)
    assert (tmp_path / "lot.json.json").is_file()
    assert kept(tmp_path)["lot.json"] == before["lot.json"]


def test_a_file_that_is_not_read_may_be_written_anew(run, tmp_path):
    (tmp_path / "report.txt").write_text("old", "utf-8")
    assert run("check", "wall.yaml", "--out", "report.txt", *DAY)[0] in (1, 3)
    assert (tmp_path / "report.txt").read_text("utf-8") != "old"
    assert run("check", "wall.yaml", "--out", "-", *DAY)[0] in (1, 3)


def test_what_holds_nothing_loses_nothing(tmp_path):
    spare(None, [tmp_path / "a"])
    spare(tmp_path / "new", [tmp_path / "a"])
    null = tmp_path / "null"
    null.symlink_to(os.devnull)
    spare(null, [null])
    with pytest.raises(InputError, match="is an input"):
        spare(tmp_path / "a", [tmp_path / "x" / ".." / "a"])


def test_what_is_told_of_a_name_steers_no_terminal(run, tmp_path):
    name = "a\x1b[31m\u202e"
    told = [
        run("check", f"{name}-none", *DAY)[1],
        run("check", "wall.yaml", "--pack", f"{name}.yaml", *DAY)[1],
        run("check", "wall.yaml", "--out-dir", f"wall.yaml/{name}", *DAY)[1],
        run("line", "wall.yaml", "--svg", f"{name}/a.svg")[1],
    ]
    found = CliRunner().invoke(app, ["check", "wall.yaml", "--out-dir", name, *DAY])
    for text in (*told, found.stdout):
        assert "\\x1b[31m\\u202e" in text
        assert not [c for c in text if not c.isprintable() and c != "\n"]
    assert found.stdout.startswith("1 report, index.html")
