"""The start of a run and its end: what is collected, what a pack that cannot be used comes to, what else is let through."""

import gc
import subprocess
import sys

import pytest

from speccheck.cli import app as commands
from speccheck.cli import start
from speccheck.judgement.pack import PackError

WALL = """
speccheck: 1
project: {place: {zone: 6A}, indoor: {humidity: 35 %}, adopted: [us/irc-2021]}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in}
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.7 mm, finish: latex-paint}
      - {id: fill, material: mineral-wool-batt, thickness: 140 mm, thermal-resistance: R-23, framed: true}
      - {id: board, material: plywood, thickness: 11 mm, controls: [air]}
"""
COUNTING = """
import atexit, gc, sys
ran = []
gc.callbacks.append(lambda phase, _: ran.append(phase) if phase == "start" else None)
from speccheck.cli import main
del ran[:]
atexit.register(lambda: sys.stderr.write(f"{len(ran)} collections, frozen {gc.get_freeze_count() > 10_000}"))
main()
"""


@pytest.fixture
def collector():
    """Leave the collector as it was."""
    before = gc.get_threshold()
    yield
    gc.set_threshold(*before)
    gc.unfreeze()


def test_a_single_check_ends_before_anything_is_collected(tmp_path):
    (tmp_path / "wall.yaml").write_text(WALL, "utf-8")
    command = [sys.executable, "-c", COUNTING, "check", "wall.yaml", "--format", "json"]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.stdout.endswith("}\n")
    assert done.stderr == "0 collections, frozen True"


@pytest.mark.parametrize(
    ("arguments", "status"), [(["--version"], 0), (["check", "gone.yaml"], 2), (["nonsense"], 2)]
)
def test_the_status_of_a_command_is_the_status_of_the_run(
    tmp_path, monkeypatch, capsys, collector, arguments, status
):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(sys, "argv", ["speccheck", *arguments])
    with pytest.raises(SystemExit) as ended:
        start.main()
    assert (ended.value.code or 0) == status


def test_a_pack_that_cannot_be_used_is_told_wherever_it_is_met(monkeypatch, capsys, collector):
    def refuse():
        raise PackError("practice/own", ["own.yaml:3:1: own.enough: a fault"])

    monkeypatch.setattr(commands, "app", refuse)
    with pytest.raises(SystemExit) as ended:
        start.main()
    assert ended.value.code == 2
    assert capsys.readouterr().err == "speccheck: practice/own: own.yaml:3:1: own.enough: a fault\n"


def test_any_other_error_is_not_hidden(monkeypatch, collector):
    def stumble():
        raise ValueError("a fault of speccheck itself")

    monkeypatch.setattr(commands, "app", stumble)
    with pytest.raises(ValueError, match="of speccheck itself"):
        start.main()
