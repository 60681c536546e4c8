"""A file is written whole or not at all, whatever comes between."""

import errno
import os
import signal
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from speccheck.cli import whole_file
from speccheck.cli.whole_file import write_whole

OLD, NEW = "what stood there\n", "what is new: m²·K/W\n"


@pytest.fixture
def target(tmp_path) -> Path:
    path = tmp_path / "report.txt"
    path.write_text(OLD, "utf-8")
    return path


def alone(path: Path) -> bool:
    """Is there nothing in the folder but the file?"""
    return [entry.name for entry in path.parent.iterdir()] == [path.name]


def test_a_new_file_has_the_permissions_of_any_new_file(tmp_path):
    path, other = tmp_path / "a.txt", tmp_path / "b.txt"
    write_whole(path, NEW)
    other.write_text("", "utf-8")
    assert path.read_text("utf-8") == NEW
    assert path.stat().st_mode == other.stat().st_mode


def test_an_old_file_is_replaced_and_keeps_its_permissions(target):
    target.chmod(0o640)
    write_whole(target, NEW)
    assert target.read_text("utf-8") == NEW
    assert stat.S_IMODE(target.stat().st_mode) == 0o640
    assert alone(target)


@pytest.mark.parametrize(
    "error",
    [
        OSError(errno.ENOSPC, "No space left on device"),
        OSError(errno.EIO, "Input/output error"),
        KeyboardInterrupt(),
    ],
)
@pytest.mark.parametrize("step", ["fsync", "replace", "chmod"])
def test_whatever_goes_wrong_the_old_file_stands_and_no_draft_is_left(target, monkeypatch, error, step):
    def fail(*_: object) -> None:
        raise error

    monkeypatch.setattr(whole_file.os, step, fail)
    with pytest.raises(type(error)):
        write_whole(target, NEW)
    assert target.read_text("utf-8") == OLD
    assert alone(target)


def test_a_link_is_followed(target, tmp_path):
    folder = tmp_path / "links"
    folder.mkdir()
    link = folder / "link.txt"
    link.symlink_to(target)
    write_whole(link, NEW)
    assert link.is_symlink()
    assert target.read_text("utf-8") == NEW


def test_what_is_no_ordinary_file_is_written_straight():
    write_whole(Path(os.devnull), NEW)
    assert not stat.S_ISREG(Path(os.devnull).stat().st_mode)


def test_a_folder_that_is_not_there(tmp_path):
    with pytest.raises(FileNotFoundError):
        write_whole(tmp_path / "none" / "report.txt", NEW)


def test_no_one_sees_half_a_file(target):
    """A reader that looks all the time sees the old text or the new one, and nothing between."""
    watch = (
        "import sys, pathlib\np = pathlib.Path(sys.argv[1])\nseen = set()\nprint('ready', flush=True)\n"
        "while len(seen) < 2:\n    seen.add(p.read_text('utf-8'))\nprint(sorted(map(len, seen)))\n"
    )
    long = "x" * 3_000_000
    with subprocess.Popen(
        [sys.executable, "-c", watch, str(target)], stdout=subprocess.PIPE, text=True
    ) as reader:
        assert reader.stdout.readline() == "ready\n"
        write_whole(target, long)
        assert reader.communicate(timeout=30)[0].strip() == str([len(OLD), len(long)])


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="needs a signal that cannot be caught")
def test_a_process_that_is_killed_while_it_writes_leaves_the_old_file(target):
    code = (
        "import os, signal, sys, pathlib\nfrom speccheck.cli import whole_file\n"
        "whole_file.os.replace = lambda *_: os.kill(os.getpid(), signal.SIGKILL)\n"
        "whole_file.write_whole(pathlib.Path(sys.argv[1]), 'new')\n"
    )
    done = subprocess.run([sys.executable, "-c", code, str(target)], check=False)
    assert done.returncode == -signal.SIGKILL
    assert target.read_text("utf-8") == OLD
