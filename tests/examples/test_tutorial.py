"""The pages: every command in the tutorial and in the README is run again, its output held against what is printed.

A block is fenced as ``console``, with the exit status behind the word where it is not 0:

    ```console status=1
    $ speccheck check ten-lines.yaml
    ten-lines.yaml
    [...]
    ```

``[...]`` stands for lines left out; what stands between two of them must follow without a gap. To write the blocks
anew after a change, run ``python tests/examples/test_tutorial.py``: it keeps the cuts where they are.
"""

import os
import re
import shlex
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "examples"
README = EXAMPLES / "README.md"
PAGES = (README, ROOT / "README.md")
CUT = "[...]"
FENCE = re.compile(r"^```console(?: status=(\d+))?\n(.*?)^```$", re.MULTILINE | re.DOTALL)


@dataclass(frozen=True)
class Block:
    """One command of the tutorial with the output printed below it."""

    command: str
    printed: tuple[str, ...]
    status: int

    @property
    def runs(self) -> list[list[str]]:
        """Return the runs of printed lines between the cuts; an empty run at either end stands for a cut there."""
        runs: list[list[str]] = [[]]
        for line in self.printed:
            if line == CUT:
                runs.append([])
            else:
                runs[-1].append(line)
        return runs


def blocks(text: str) -> list[Block]:
    return [_block(found) for found in FENCE.finditer(text)]


def _block(found: re.Match[str]) -> Block:
    first, *printed = found[2].splitlines()
    assert first.startswith("$ speccheck "), f"a block begins with its command, not {first!r}"
    return Block(first.removeprefix("$ "), tuple(printed), int(found[1] or 0))


def run(command: str, folder: Path = EXAMPLES) -> tuple[list[str], int]:
    """Run a command in the folder of its page, as a terminal of 80 columns shows it; return its lines and its exit status."""
    words = shlex.split(command)
    assert words[0] == "speccheck"
    environment = {**os.environ, "COLUMNS": "80", "PYTHONUTF8": "1"}
    done = subprocess.run(
        [sys.executable, "-m", "speccheck", *words[1:]],
        cwd=folder,
        env=environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        check=False,
    )
    lines = done.stdout.decode("utf-8").splitlines()
    assert not any(line.startswith("Traceback") for line in lines), "\n".join(lines)
    return lines, done.returncode


def _start(lines: list[str], first: str, after: int) -> int:
    """Return where a run begins: at the next line that is the same."""
    for number in range(after, len(lines)):
        if lines[number] == first:
            return number
    return -1


def fault(block: Block, lines: list[str]) -> str:
    """Return how the printed output differs from the lines a command writes; nothing where it does not."""
    runs = block.runs
    if len(runs) == 1:
        return "" if runs[0] == lines else _first_difference(runs[0], lines)
    at = 0
    for index, printed in enumerate(runs):
        if not printed:
            continue
        last = index == len(runs) - 1
        start = 0 if index == 0 else len(lines) - len(printed) if last else _start(lines, printed[0], at)
        if start < at:
            return f"no line {printed[0]!r} follows"
        if lines[start : start + len(printed)] != printed:
            return _first_difference(printed, lines[start : start + len(printed)])
        at = start + len(printed)
    return ""


def _first_difference(printed: list[str], lines: list[str]) -> str:
    for was, now in zip(printed, lines, strict=False):
        if was != now:
            return f"printed {was!r}, written {now!r}"
    return f"{len(printed)} lines printed, {len(lines)} written"


def renewed(block: Block, lines: list[str], status: int) -> str:
    """Return a block with the lines a command writes, cut where the old one was cut."""
    kept: list[str] = []
    runs, at = block.runs, 0
    for index, printed in enumerate(runs):
        last = index == len(runs) - 1
        if index:
            kept.append(CUT)
        if not printed and len(runs) > 1:
            continue
        start = 0 if index == 0 else _start(lines, printed[0], at)
        assert start >= 0, f"{block.command}: {printed[0]!r} is no longer written; cut this block by hand"
        end = len(lines) if last else start + len(printed)
        kept += lines[start:end]
        at = end
    mark = f" status={status}" if status else ""
    return "\n".join([f"```console{mark}", f"$ {block.command}", *kept, "```"])


TUTORIAL = README.read_text("utf-8")


SHOWN = [(page.parent, block) for page in PAGES for block in blocks(page.read_text("utf-8"))]


@pytest.mark.parametrize(("folder", "block"), SHOWN, ids=lambda value: getattr(value, "command", ""))
def test_the_printed_output_is_what_the_command_writes(folder: Path, block: Block) -> None:
    lines, status = run(block.command, folder)
    assert status == block.status
    assert fault(block, lines) == "", "write it anew with: python tests/examples/test_tutorial.py"


def test_every_command_is_shown() -> None:
    shown = {block.command.split()[1] for block in blocks(TUTORIAL)}
    assert {"check", "facts", "explain", "swap", "new"} <= shown


def test_every_exit_status_is_shown() -> None:
    assert {block.status for block in blocks(TUTORIAL)} == {0, 1, 2, 3}


def test_every_file_of_the_examples_is_named() -> None:
    files = [path for path in EXAMPLES.rglob("*") if path.suffix in (".yaml", ".json")]
    unnamed = [path.name for path in files if path.name not in TUTORIAL and path.parent.name not in TUTORIAL]
    assert unnamed == []


def test_no_line_of_a_report_is_wider_than_the_terminal() -> None:
    reports = [
        block for block in blocks(TUTORIAL) if block.command.split()[1] == "check" and block.status != 2
    ]
    assert [line for block in reports for line in block.printed if len(line) > 80] == []


@pytest.mark.parametrize(
    ("printed", "right"),
    [
        (("one", "two", "three"), True),
        (("one", CUT, "three"), True),
        ((CUT, "two", CUT), True),
        (("one", CUT), True),
        (("one", "two"), False),
        (("two", CUT), False),
        (("one", CUT, "two"), False),
        ((CUT, "three", CUT, "two", CUT), False),
        ((CUT, "one", "three", CUT), False),
    ],
)
def test_a_block_that_differs_is_found(printed: tuple[str, ...], right: bool) -> None:
    assert (fault(Block("speccheck", printed, 0), ["one", "two", "three"]) == "") is right


def test_a_block_is_renewed_within_its_cuts() -> None:
    block = Block("speccheck check x", ("old", CUT, "three", "old"), 0)
    assert renewed(block, ["one", "two", "three", "four"], 1) == (
        "```console status=1\n$ speccheck check x\none\n[...]\nthree\nfour\n```"
    )


def _renew(page: Path) -> None:
    def block_anew(found: re.Match[str]) -> str:
        block = _block(found)
        return renewed(block, *run(block.command, page.parent))

    page.write_text(FENCE.sub(block_anew, page.read_text("utf-8")), "utf-8")


if __name__ == "__main__":
    for one in PAGES:
        _renew(one)
