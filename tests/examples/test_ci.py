"""The snippets for a workflow and for hooks before a commit: of the form their readers take, and their commands run."""

import json
import os
import shlex
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml

ROOT = Path(__file__).resolve().parents[2]
CI = ROOT / "examples" / "ci"
HOOKS = ROOT / ".pre-commit-hooks.yaml"
LOTS = ROOT / "examples" / "studio" / "submittals"


KEPT = {"index.html", "matrix.csv", "speccheck.sarif", "speccheck.xml"}


def workflow() -> dict[str, Any]:
    return yaml.safe_load((CI / "workflow.yml").read_text("utf-8"))


def scripts() -> list[dict[str, Any]]:
    """Return the steps that run speccheck."""
    return [step for step in workflow()["jobs"]["check"]["steps"] if "speccheck check" in step.get("run", "")]


def commands() -> list[str]:
    lines = [line for step in scripts() for line in step["run"].splitlines()]
    return [line for line in lines if line.startswith("speccheck ")]


def run_as_the_host_does(folder: Path) -> list[int]:
    """Run each step that runs whatever came before, and the first; return their exit statuses.

    A step is a script handed to ``bash -e``: the default of such hosts, from memory.
    """
    tools = folder / "bin"
    tools.mkdir()
    command = tools / "speccheck"
    command.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m speccheck "$@"\n', "utf-8")
    command.chmod(0o755)
    given = {"PATH": f"{tools}:{os.environ['PATH']}", "GITHUB_STEP_SUMMARY": str(folder / "summary.md")}
    first, *others = scripts()
    assert all(step.get("if") == "always()" for step in others)
    return [
        subprocess.run(
            ["bash", "-e", "-c", step["run"]],
            cwd=folder,
            env=os.environ | given,
            capture_output=True,
            check=False,
        ).returncode
        for step in (first, *others)
    ]


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
    assert {path.name for path in (folder / "reports").iterdir()} >= KEPT


def test_every_command_of_the_workflow_is_held_against_the_baseline():
    assert all(" --baseline baseline.json" in line for line in commands())


@pytest.mark.skipif(shutil.which("bash") is None, reason="the steps are scripts of bash")
def test_a_document_that_cannot_be_read_keeps_no_report_from_being_written(folder):
    (folder / "specifications" / "bad.yaml").write_text("speccheck: 1\nassembly: {}\n", "utf-8")
    assert run_as_the_host_does(folder) == [2] * 5
    assert {path.name for path in (folder / "reports").iterdir()} >= KEPT
    assert "bad.yaml" in (folder / "summary.md").read_text("utf-8")
    for name in ("speccheck.sarif", "speccheck.xml"):
        assert "bad.yaml" in (folder / "reports" / name).read_text("utf-8")


@pytest.mark.skipif(shutil.which("bash") is None, reason="the steps are scripts of bash")
def test_what_stops_the_change_is_a_failure_in_the_test_results(folder):
    lot = folder / "specifications" / "lot-01.yaml"
    lot.write_bytes((LOTS / "lot-03.yaml").read_bytes())
    assert run_as_the_host_does(folder) == [1, 0, 0, 0, 1]
    assert "<failure" in (folder / "reports" / "speccheck.xml").read_text("utf-8")


def test_it_is_installed_from_a_copy_that_the_user_names():
    steps = [
        step["run"] for step in workflow()["jobs"]["check"]["steps"] if "pip install" in step.get("run", "")
    ]
    assert steps == ['python -m pip install "$SPECCHECK"']
    assert workflow()["env"]["SPECCHECK"].startswith("./")


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
