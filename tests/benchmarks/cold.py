"""Cold runs: one document by a fresh process, beside a schema check of the same file and a bare interpreter."""

from __future__ import annotations

import sys
from importlib.util import find_spec
from pathlib import Path
from tempfile import TemporaryDirectory

import yaml

from tests.benchmarks.clock import in_turns
from tests.benchmarks.documents import sections

__all__ = ["cold"]

_SCHEMA = Path(__file__).parents[2] / "schemas" / "document.schema.json"


def cold(rounds: int) -> None:
    """Print medians, and ratios to the schema check and to the interpreter."""
    with TemporaryDirectory() as folder:
        file = Path(folder) / "section.yaml"
        file.write_text(yaml.safe_dump(sections(1)[0], sort_keys=False, allow_unicode=True), "utf-8")
        medians = in_turns(_commands(str(file)), rounds)
    bare = medians["bare interpreter"]
    print(f"cold, median of {rounds} processes in turns")
    for name, seconds in medians.items():
        print(f"  {name:<28} {seconds * 1000:7.1f} ms   {seconds / bare:5.1f} × bare interpreter")
    check = medians["speccheck check"]
    print(
        f"  --version / check            {medians['speccheck --version'] / check:7.2f}   (target: under 0.5)"
    )
    if "check-jsonschema" in medians:
        print(
            f"  check / check-jsonschema     {check / medians['check-jsonschema']:7.2f}   (target: at most 1)"
        )
    else:
        print("  check-jsonschema is not installed: the comparison with a schema check is left out")


def _commands(file: str) -> dict[str, list[str]]:
    python, module = sys.executable, [sys.executable, "-m", "speccheck"]
    commands = {
        "bare interpreter": [python, "-c", "pass"],
        "speccheck --version": [*module, "--version"],
        "speccheck check": [*module, "check", file],
        "speccheck check, json": [*module, "check", file, "--format", "json"],
    }
    if find_spec("check_jsonschema"):
        schema_check = [python, "-m", "check_jsonschema", "--schemafile", str(_SCHEMA), file]
        commands["check-jsonschema"] = schema_check
    return commands
