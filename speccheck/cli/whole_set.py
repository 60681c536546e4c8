"""Writing many files of one folder whole or not at all: a page without its index tells half of a story."""

import errno
import os
import shutil
import signal
import tempfile
from contextlib import suppress
from pathlib import Path
from types import FrameType, TracebackType
from typing import Any, Self

from speccheck.cli.whole_file import encoded, mode_kept, stands_in_for, write_whole

__all__ = ["WholeSet"]


class _Asked(SystemExit):
    """The run was asked to end."""


class WholeSet:
    """Files that appear in a folder together, when all of them are on the disk.

    Drafts gather in a hidden folder inside the one they are for. ``place`` puts each in place of what stood there;
    left without it, be it by an error, by an interruption or by a request to end, nothing has changed: the drafts go,
    and so do the folders made for them.
    """

    def __init__(self, folder: Path) -> None:
        """Make the folder and those it lies in.

        Raises:
            OSError: when it cannot be made or written to.
        """
        self.folder = folder
        self._files: list[tuple[Path, Path]] = []
        self._made = _make(folder)
        self._before: Any = None
        try:
            self._drafts = Path(tempfile.mkdtemp(dir=folder, prefix=".", suffix=".draft"))
        except OSError:
            self._unmake()
            raise

    def add(self, name: str, text: str) -> None:
        """Write the draft of a file, as UTF-8, to the disk.

        Raises:
            OSError: when there is no room for it, or a folder stands where the file should.
        """
        target = Path(os.path.realpath(self.folder / name))
        if target.is_dir():
            raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(target))
        draft = self._drafts / f"{len(self._files)}"
        with draft.open("wb") as stream:
            stream.write(encoded(text))
            stream.flush()
            os.fsync(stream.fileno())
        self._files.append((draft, target))

    def place(self) -> None:
        """Put every draft in place.

        Raises:
            OSError: when one cannot be; that does not come of a full disk, since nothing more is written.
        """
        for draft, target in self._files:
            if not stands_in_for(target):
                target.write_bytes(draft.read_bytes())
                continue
            mode_kept(draft, target)
            try:
                os.replace(draft, target)
            except OSError as error:
                if error.errno != errno.EXDEV:
                    raise
                write_whole(target, draft.read_text("utf-8"))  # a link led to another disk
        self._made = []  # what stands in them is to stay

    def __enter__(self) -> Self:
        """Watch for a request to end, which by default would leave the drafts behind."""
        with suppress(ValueError):  # only the main thread may watch
            self._before = signal.signal(signal.SIGTERM, _end_of(os.getpid()))
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Remove the drafts, and where nothing was placed the folders made for them."""
        if self._before is not None:
            signal.signal(signal.SIGTERM, self._before)
        shutil.rmtree(self._drafts, ignore_errors=True)
        self._unmake()
        if isinstance(error, _Asked):
            os.kill(os.getpid(), signal.SIGTERM)  # all is in order: end as one ends who was asked to

    def _unmake(self) -> None:
        for folder in self._made:
            with suppress(OSError):  # something else has come to lie in it
                folder.rmdir()


def _make(folder: Path) -> list[Path]:
    """Make a folder and those it lies in; return those that were not there, innermost first."""
    missing = [one for one in (folder, *folder.parents) if not one.exists()]
    folder.mkdir(parents=True, exist_ok=True)
    return missing


def _end_of(owner: int) -> Any:
    """Return what answers a request to end: the owner leaves in good order, a worker of his as it would have."""

    def end(number: int, frame: FrameType | None) -> None:
        del frame
        if os.getpid() == owner:
            raise _Asked(128 + number)
        signal.signal(number, signal.SIG_DFL)
        os.kill(os.getpid(), number)

    return end
