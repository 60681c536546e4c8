"""``python -m tests.benchmarks.pages``: pages, letters and briefs of one house, cold, beside its report as text."""

from __future__ import annotations

import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.benchmarks.clock import as_installed, in_turns

__all__ = ["pages"]

_HOUSE = Path(__file__).parents[2] / "examples" / "studio" / "studio.yaml"
_FORMATS = ("text", "json", "html", "letter", "letter-html", "brief", "brief-html")
_ROUNDS = 9


def pages(rounds: int = _ROUNDS) -> None:
    """Print for each format the time of a fresh process, its ratio to text, and the size of what it writes."""
    with TemporaryDirectory() as folder, as_installed() as environment:
        commands = {form: _command(form, Path(folder)) for form in _FORMATS}
        medians = in_turns(commands, rounds, environment)
        sizes = {form: (Path(folder) / form).stat().st_size for form in _FORMATS}
    print(f"one house, median of {rounds} cold processes in turns: of the processor, on the clock, size")
    text = medians["text"].processor
    for form, time in medians.items():
        print(
            f"  {form:<12} {time.processor * 1000:7.1f} ms {time.wall * 1000:7.1f} ms {sizes[form] / 1000:8.1f} kB"
            f"   {time.processor / text:.2f} of text"
        )
    print("  targets: html under 500 ms and under 400 kB")


def _command(form: str, folder: Path) -> list[str]:
    check = [sys.executable, "-m", "speccheck", "check", str(_HOUSE), "--fail-on", "never"]
    return [*check, "--today", "2026-01-15", "--format", form, "--out", str(folder / form)]


if __name__ == "__main__":
    pages()
