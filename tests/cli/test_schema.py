"""The schema of a document: handed out by a command, and enough for an editor to complete and check what is typed."""

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner

from speccheck.cli.app import app
from speccheck.cli.schema import schema_names
from speccheck.shelf import rules_folder, schemas_folder

ROOT = Path(__file__).resolve().parents[2]
MALFORMED = ROOT / "tests" / "document" / "malformed"
SCHEMA = schemas_folder() / "document.schema.json"

# What only speccheck can tell: names that must agree with each other or with a table, and what units mean.
BEYOND_A_SCHEMA = {
    "two-places.yaml",
    "a-zone-of-another-place.yaml",
    "curves-that-turn.yaml",
    "a-zone-of-another-county.yaml",
    "coordinates-of-another-place.yaml",
    "coordinates-far-from-the-station.yaml",
    "a-layer-connected-to-itself.yaml",
    "a-name-for-two-things.yaml",
    "anchors-and-merges.yaml",
    "county-without-state.yaml",
    "fractions-out-of-range.yaml",
    "framed-and-framing.yaml",
    "half-coordinates.yaml",
    "names-that-point-nowhere.yaml",
    "names-with-spaces.yaml",
    "no-products-declared.yaml",
    "perm-and-perm-inch.yaml",
    "same-layer-ids.yaml",
    "thickness-not-above-zero.yaml",
    "units-of-another-kind-in-project.yaml",
    "units-of-another-kind.yaml",
    "units-unknown.yaml",
}


def checked(schema: Path, *files: Path) -> tuple[int, set[str]]:
    """Return the status of a schema-aware checker of YAML and JSON, and the names of the files it refuses."""
    command = [
        sys.executable,
        "-m",
        "check_jsonschema",
        "--schemafile",
        str(schema),
        "-o",
        "json",
        *map(str, files),
    ]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    told = json.loads(done.stdout)
    refused = [*told.get("errors", []), *told.get("parse_errors", [])]
    return done.returncode, {Path(entry["filename"]).name for entry in refused}


def documents(folder: Path) -> list[Path]:
    found = [path for path in sorted(folder.rglob("*")) if path.suffix in (".yaml", ".json")]
    return [
        path
        for path in found
        if re.search(r"""^["'{\s]*speccheck["']?\s*:""", path.read_text("utf-8"), re.MULTILINE)
    ]


def test_the_checker_takes_every_example_but_the_one_that_cannot_be_read():
    examples = documents(ROOT / "examples")
    assert len(examples) >= 9
    status, refused = checked(SCHEMA, *examples)
    assert (status, refused) == (1, {"ten-lines-unreadable.yaml"})


def test_the_checker_takes_every_start():
    starts = [path for path in (rules_folder() / "starts").glob("*.yaml") if path.stem != "product"]
    assert len(starts) >= 4
    assert checked(SCHEMA, *starts) == (0, set())
    products = [
        rules_folder() / "starts" / "product.yaml",
        *(ROOT / "examples/studio/products").glob("*.yaml"),
    ]
    assert checked(schemas_folder() / "product.schema.json", *products) == (0, set())


def test_malformed_documents_that_a_schema_can_catch_are_caught():
    files = [path for path in MALFORMED.iterdir() if path.suffix in (".yaml", ".json")]
    accepted_by_us = {
        path.name for path in files if not (MALFORMED / f"{path.name}.expected").read_text("utf-8").strip()
    }
    _, refused = checked(SCHEMA, *files)
    missed = {path.name for path in files} - refused - accepted_by_us
    assert missed <= BEYOND_A_SCHEMA
    assert len(refused) >= 80


def test_reports_in_json_fit_their_schema(tmp_path, monkeypatch):
    monkeypatch.chdir(ROOT)
    report = tmp_path / "report.json"
    CliRunner().invoke(app, ["check", "examples", "-f", "json", "--facts", "-o", str(report)])
    assert report.is_file()
    assert checked(schemas_folder() / "report.schema.json", report) == (0, set())


@pytest.mark.parametrize("name", schema_names())
def test_the_command_hands_out_each(name, tmp_path):
    shipped = (schemas_folder() / f"{name}.schema.json").read_text("utf-8")
    assert CliRunner().invoke(app, ["schema", name]).stdout == shipped
    out = tmp_path / "it.json"
    assert CliRunner().invoke(app, ["schema", name, "--out", str(out)]).exit_code == 0
    assert out.read_text("utf-8") == shipped
    where = CliRunner().invoke(app, ["schema", name, "--where"]).stdout.strip()
    assert Path(where).read_text("utf-8") == shipped


def test_a_name_that_is_none():
    found = CliRunner().invoke(app, ["schema", "house"])
    assert found.exit_code == 2
    assert "no schema is called 'house'; there are: compare, document, " in found.stderr


def test_a_new_document_names_the_schema_that_is_written_beside_it(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for kind, name in (("wall", "document"), ("product", "product")):
        written = CliRunner().invoke(app, ["new", kind, "--schema", f"{name}.schema.json"])
        assert written.exit_code == 0
        first, _, rest = written.stdout.partition("\n")
        assert first == f"# yaml-language-server: $schema=./{name}.schema.json"
        assert rest == (rules_folder() / "starts" / f"{kind}.yaml").read_text("utf-8")
        Path(f"{kind}.yaml").write_text(written.stdout, "utf-8")
        shipped = (schemas_folder() / f"{name}.schema.json").read_text("utf-8")
        assert Path(f"{name}.schema.json").read_text("utf-8") == shipped
        assert checked(Path(f"{name}.schema.json"), Path(f"{kind}.yaml")) == (0, set())
    again = CliRunner().invoke(app, ["new", "roof", "--schema", "document.schema.json"])
    assert again.exit_code == 0


def test_a_file_that_is_no_schema_is_not_written_over(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("mine.json").write_text("{}", "utf-8")
    for arguments, says in (
        (["wall", "--schema", "mine.json"], "mine.json stands there and is not this schema"),
        (["wall", "--schema", "nowhere/x.json"], "nowhere/x.json cannot be written"),
        (["wall-to-slab", "--schema", "x.json"], "--schema goes with a whole document"),
    ):
        found = CliRunner().invoke(app, ["new", *arguments])
        assert (found.exit_code, found.stdout) == (2, "")
        assert says in found.stderr
    assert Path("mine.json").read_text("utf-8") == "{}"
    assert [path.name for path in tmp_path.iterdir()] == ["mine.json"]


def test_a_document_may_name_its_schema_for_the_editor(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    line = "# yaml-language-server: $schema=./speccheck.schema.json\n"
    text = line + (rules_folder() / "starts" / "wall.yaml").read_text("utf-8")
    Path("wall.yaml").write_text(text, "utf-8")
    CliRunner().invoke(app, ["schema", "document", "--out", "speccheck.schema.json"])
    assert checked(Path("speccheck.schema.json"), Path("wall.yaml")) == (0, set())
    assert CliRunner().invoke(app, ["check", "wall.yaml"]).exit_code in (0, 1, 3)
