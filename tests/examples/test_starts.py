"""Starting documents: each loads as it stands, and its optional lines are valid once they are uncommented."""

import re
import subprocess
import sys
from datetime import date
from itertools import groupby
from pathlib import Path

import pytest

from speccheck.cli.new import start_kinds
from speccheck.judgement.finding import Level
from speccheck.report.summary import summarise
from speccheck.shelf import rules_folder
from speccheck.uses.check import check, load
from speccheck.uses.swap import read_product

STARTS = rules_folder() / "starts"
DAY = date(2026, 3, 2)
OPTIONAL = re.compile(r"^#~ ")
"""What begins an optional line: three characters to take away."""


def _text(kind: str) -> str:
    return (STARTS / f"{kind}.yaml").read_text("utf-8")


def _blocks(text: str) -> list[list[int]]:
    """Return the line numbers of each run of optional lines."""
    marked = [number for number, line in enumerate(text.splitlines()) if OPTIONAL.match(line)]
    runs = groupby(enumerate(marked), lambda pair: pair[1] - pair[0])
    return [[number for _, number in run] for _, run in runs]


def _used(text: str, lines: list[int]) -> str:
    """Return the text with some optional lines uncommented."""
    chosen = set(lines)
    return "\n".join(
        OPTIONAL.sub("", line) if number in chosen else line for number, line in enumerate(text.splitlines())
    )


def _read(kind: str, text: str, folder: Path) -> None:
    path = folder / f"{kind}.yaml"
    path.write_text(text, "utf-8")
    if kind == "product":
        read_product(path)
    else:
        load(path)


def test_the_kinds_that_ship() -> None:
    assert start_kinds() == ("floor", "house", "product", "roof", "wall")


@pytest.mark.parametrize("kind", start_kinds())
def test_it_loads_as_it_stands(kind: str, tmp_path: Path) -> None:
    _read(kind, _text(kind), tmp_path)


@pytest.mark.parametrize("kind", start_kinds())
def test_it_has_optional_lines(kind: str) -> None:
    assert _blocks(_text(kind)), "nothing to uncomment: the tests below would say nothing"


@pytest.mark.parametrize("kind", start_kinds())
def test_it_loads_with_all_optional_lines(kind: str, tmp_path: Path) -> None:
    text = _text(kind)
    used = _used(text, [number for block in _blocks(text) for number in block])
    assert not re.search(r"(?m)^\s*#~", used), (
        "an optional line that does not begin with the three characters"
    )
    _read(kind, used, tmp_path)


@pytest.mark.parametrize("kind", start_kinds())
def test_it_loads_with_each_run_of_optional_lines_alone(kind: str, tmp_path: Path) -> None:
    text = _text(kind)
    for block in _blocks(text):
        _read(kind, _used(text, block), tmp_path)


@pytest.mark.parametrize("kind", sorted(set(start_kinds()) - {"product"}))
def test_it_begins_sound_and_asks_little(kind: str) -> None:
    checked = check(load(STARTS / f"{kind}.yaml"), today=DAY)
    assert [f.key for f in checked.findings if f.level in (Level.WARN, Level.REFER)] == []
    assert len(summarise(checked.findings).questions) <= 5


@pytest.mark.parametrize("kind", ["wall", "roof", "house"])
def test_the_optional_lines_bring_no_warning(kind: str, tmp_path: Path) -> None:
    text = _text(kind)
    path = tmp_path / f"{kind}.yaml"
    path.write_text(_used(text, [number for block in _blocks(text) for number in block]), "utf-8")
    checked = check(load(path), today=DAY)
    assert [f.key for f in checked.findings if f.level in (Level.WARN, Level.REFER)] == []


def test_the_wall_begins_small() -> None:
    content = [
        line for line in _text("wall").splitlines() if line.strip() and not line.lstrip().startswith("#")
    ]
    assert len(content) <= 16
    assert sum("material:" in line and line.lstrip().startswith("- ") for line in content) == 7


@pytest.mark.parametrize("kind", start_kinds())
def test_the_command_writes_it(kind: str) -> None:
    run = subprocess.run([sys.executable, "-m", "speccheck", "new", kind], capture_output=True, check=True)
    assert run.stdout.decode("utf-8") == _text(kind)
