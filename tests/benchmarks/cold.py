"""Cold runs: one document by a fresh process, beside a schema check of the same file and a bare interpreter."""

from __future__ import annotations

import sys
from importlib.util import find_spec
from pathlib import Path
from tempfile import TemporaryDirectory

import yaml

from tests.benchmarks.clock import as_installed, in_turns
from tests.benchmarks.documents import sections

__all__ = ["cold"]

_SCHEMA = Path(__file__).parents[2] / "schemas" / "document.schema.json"
_TARGETS = {
    "bare interpreter": "",
    "speccheck --version": " (target: under 0.5)",
    "check-jsonschema": " (target: 1 or more)",
}


def cold(rounds: int) -> None:
    """Print medians, and what the others take of a check."""
    with TemporaryDirectory() as folder, as_installed() as environment:
        file = Path(folder) / "section.yaml"
        file.write_text(yaml.safe_dump(sections(1)[0], sort_keys=False, allow_unicode=True), "utf-8")
        medians = in_turns(_commands(str(file)), rounds, environment)
    print(f"cold, median of {rounds} processes in turns: of the processor, on the clock, byte code kept")
    for name, time in medians.items():
        print(f"  {name:<28} {time.processor * 1000:7.1f} ms {time.wall * 1000:7.1f} ms")
    check = medians["speccheck check"].processor
    for name, target in _TARGETS.items():
        if name in medians:
            print(f"  {name} / check: {medians[name].processor / check:.2f}{target}")
    if "check-jsonschema" not in medians:
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
