"""The snippets for a workflow and for hooks before a commit: of the form their readers take, and their commands run."""

import json
import shlex
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

ROOT = Path(__file__).resolve().parents[2]
CI = ROOT / "examples" / "ci"
HOOKS = ROOT / ".pre-commit-hooks.yaml"
LOTS = ROOT / "examples" / "studio" / "submittals"


def commands() -> list[str]:
    steps = yaml.safe_load((CI / "workflow.yml").read_text("utf-8"))["jobs"]["check"]["steps"]
    lines = [line for step in steps for line in step.get("run", "").splitlines()]
    return [line for line in lines if line.startswith("speccheck ")]


def run(words: list[str], folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "speccheck", *words], cwd=folder, capture_output=True, text=True, check=False
    )


@pytest.fixture
def folder(tmp_path) -> Path:
    """Return a repository with specifications and a baseline."""
    place = tmp_path / "specifications"
    place.mkdir()
    for name in ("lot-01.yaml", "lot-02.yaml", "lot-03.yaml"):
        (place / name).write_bytes((LOTS / name).read_bytes())
    run(["check", "specifications", "-f", "json", "-o", "baseline.json"], tmp_path)
    return tmp_path


def test_the_workflow_has_the_form_of_one():
    # the schema of such workflows that check-jsonschema carries
    command = [
        "-m",
        "check_jsonschema",
        "--builtin-schema",
        "vendor.github-workflows",
        str(CI / "workflow.yml"),
    ]
    done = subprocess.run([sys.executable, *command], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout


def test_the_commands_of_the_workflow_run(folder):
    told = commands()
    assert len(told) == 5
    for line in told:
        words = shlex.split(line.partition(">>")[0])[1:]
        done = run(words, folder)
        assert done.returncode == 0, (line, done.stderr)
    assert {"index.html", "matrix.csv", "speccheck.sarif", "speccheck.xml"} <= {
        path.name for path in (folder / "reports").iterdir()
    }


def test_a_change_for_the_worse_stops_the_workflow(folder):
    first = shlex.split(commands()[0])[1:]
    assert "github" in first
    lot = folder / "specifications" / "lot-01.yaml"
    text = lot.read_text("utf-8")
    better = (LOTS / "lot-03.yaml").read_text("utf-8")
    lot.write_text(better, "utf-8")
    done = run(first, folder)
    assert done.returncode == 1
    assert "::warning file=specifications/lot-01.yaml" in done.stdout
    lot.write_text(text, "utf-8")
    assert run(first, folder).returncode == 0


def test_the_hook_says_what_a_hook_must():
    # keys by the documentation of pre-commit, from memory
    (hook,) = yaml.safe_load(HOOKS.read_text("utf-8"))
    assert {"id", "name", "entry", "language"} <= set(hook)
    assert set(hook) <= {
        "id",
        "name",
        "entry",
        "language",
        "args",
        "description",
        "types_or",
        "require_serial",
    }
    (repository,) = yaml.safe_load((CI / "pre-commit.yml").read_text("utf-8"))["repos"]
    assert {entry["id"] for entry in repository["hooks"]} == {hook["id"]}


def test_the_hook_stops_what_passes_a_limit_and_passes_over_what_is_no_document(folder):
    (hook,) = yaml.safe_load(HOOKS.read_text("utf-8"))
    words = [*shlex.split(hook["entry"])[1:], *hook["args"]]
    (folder / "other.yaml").write_text("a: 1\n", "utf-8")
    (folder / "package.json").write_text(json.dumps({"name": "x"}), "utf-8")
    good, bad = "specifications/lot-01.yaml", "specifications/lot-02.yaml"
    assert run([*words, "other.yaml", "package.json"], folder).returncode == 0
    assert run([*words, "other.yaml", good], folder).returncode == 0
    done = run([*words, "other.yaml", good, bad], folder)
    assert done.returncode == 1
    assert "OUTSIDE" in done.stdout
