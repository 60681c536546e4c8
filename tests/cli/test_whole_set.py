"""Files of a folder appear together or not at all, whatever comes between."""

import errno
import os
import signal
import stat
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.cli import whole_set
from speccheck.cli.whole_set import WholeSet

WRONG = [
    OSError(errno.ENOSPC, "No space left on device"),
    OSError(errno.EIO, "Input/output error"),
    KeyboardInterrupt(),
]


def told(folder: Path) -> dict[str, str]:
    """What a person finds in a folder, hidden files and all."""
    return {path.name: path.read_text("utf-8") if path.is_file() else "" for path in folder.iterdir()}


def put(folder: Path, *names: str, ends: BaseException | None = None) -> None:
    """Write files as a run does, one that is ended before it is done where something ends it."""
    with WholeSet(folder) as whole:
        for name in names:
            whole.add(name, "new")
        if ends is not None:
            raise ends
        whole.place()


@given(st.dictionaries(st.text("abcde", min_size=1, max_size=4), st.text(max_size=40), max_size=6))
def test_all_of_them_appear_and_nothing_else(tmp_path_factory, files):
    folder = tmp_path_factory.mktemp("set") / "deep" / "out"
    with WholeSet(folder) as whole:
        for name, text in files.items():
            whole.add(name, text)
            assert not [path for path in folder.iterdir() if not path.name.startswith(".")]
        whole.place()
    assert {path.name: path.read_bytes().decode("utf-8") for path in folder.iterdir()} == files


@pytest.mark.parametrize("error", WRONG)
@pytest.mark.parametrize("failing", [0, 1, 2])
def test_a_disk_that_fills_at_any_file_leaves_all_as_it_was(tmp_path, monkeypatch, error, failing):
    (tmp_path / "a.html").write_text("old", "utf-8")
    calls = iter(range(9))

    def sync(_: int) -> None:
        if next(calls) == failing:
            raise error

    monkeypatch.setattr(whole_set.os, "fsync", sync)
    with pytest.raises(type(error)):
        put(tmp_path, "a.html", "b.html", "index.html")
    assert told(tmp_path) == {"a.html": "old"}


def test_folders_made_in_vain_go_again(tmp_path):
    with pytest.raises(KeyboardInterrupt):
        put(tmp_path / "deep" / "out", "a.html", ends=KeyboardInterrupt())
    assert told(tmp_path) == {}


def test_a_folder_that_may_not_be_written_to_is_told_at_once(tmp_path, monkeypatch):
    def refuse(**_: object) -> None:
        raise PermissionError(errno.EACCES, "Permission denied")

    monkeypatch.setattr(whole_set.tempfile, "mkdtemp", refuse)
    with pytest.raises(PermissionError):
        WholeSet(tmp_path / "deep" / "out")
    assert told(tmp_path) == {}


def test_a_folder_in_the_way_is_told_before_anything_is_placed(tmp_path):
    (tmp_path / "index.html").mkdir()
    with pytest.raises(IsADirectoryError):
        put(tmp_path, "a.html", "index.html")
    assert told(tmp_path) == {"index.html": ""}


def test_links_stay_and_permissions_too(tmp_path):
    folder, other = tmp_path / "out", tmp_path / "kept.html"
    folder.mkdir()
    other.write_text("old", "utf-8")
    other.chmod(0o640)
    (folder / "a.html").symlink_to(other)
    put(folder, "a.html", "b.html")
    assert (folder / "a.html").is_symlink()
    assert (other.read_text("utf-8"), stat.S_IMODE(other.stat().st_mode)) == ("new", 0o640)
    (tmp_path / "usual").touch()
    assert (folder / "b.html").stat().st_mode == (tmp_path / "usual").stat().st_mode


def test_a_link_to_another_disk_is_followed_too(tmp_path, monkeypatch):
    replace = os.replace

    def two_disks(source: Path, target: Path) -> None:
        if Path(source).parent != Path(target).parent:
            raise OSError(errno.EXDEV, "Invalid cross-device link")
        replace(source, target)

    monkeypatch.setattr(os, "replace", two_disks)
    with WholeSet(tmp_path) as whole:
        whole.add("a.html", "new: m²·K/W\n")
        whole.place()
    assert told(tmp_path) == {"a.html": "new: m²·K/W\n"}


@pytest.mark.skipif(sys.platform == "win32", reason="a request to end is a signal here")
def test_a_request_to_end_leaves_no_drafts(tmp_path):
    code = (
        "import os, pathlib, signal, sys\nfrom speccheck.cli.whole_set import WholeSet\n"
        "with WholeSet(pathlib.Path(sys.argv[1])) as whole:\n"
        "    whole.add('a.html', 'new')\n    os.kill(os.getpid(), signal.SIGTERM)\n    whole.place()\n"
    )
    done = subprocess.run([sys.executable, "-c", code, str(tmp_path / "out")], check=False)
    assert done.returncode == -signal.SIGTERM
    assert told(tmp_path) == {}
