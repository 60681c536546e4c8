"""Writing a file whole or not at all: whatever goes wrong, what stood there before still stands."""

import os
import stat
import tempfile
from contextlib import suppress
from pathlib import Path

__all__ = ["encoded", "mode_kept", "stands_in_for", "write_whole"]

_NEW_FILE = 0o666


def write_whole(path: Path, text: str) -> None:
    """Write text as UTF-8 to a draft beside the file, to the disk, and only then in place of the file.

    A link is followed, so that the file it leads to is replaced and the link stays. What is no ordinary file, such as
    a terminal or a pipe, is written straight.

    Raises:
        OSError: when it cannot be written; the old file is untouched and no draft is left.
    """
    data = encoded(text)
    target = Path(os.path.realpath(path))
    if not stands_in_for(target):
        target.write_bytes(data)
        return
    descriptor, draft = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name[:50]}.", suffix=".draft")
    try:
        with os.fdopen(descriptor, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        mode_kept(Path(draft), target)
        os.replace(draft, target)
    except BaseException:  # an interruption too must leave no draft
        with suppress(OSError):
            os.unlink(draft)
        raise


def encoded(text: str) -> bytes:
    """Return text as UTF-8; half a surrogate pair, which has no UTF-8, as an escape."""
    return text.encode("utf-8", "backslashreplace")


def stands_in_for(target: Path) -> bool:
    """May a draft take the place of a file: is nothing there, or an ordinary file?"""
    mode = _mode(target)
    return mode is None or stat.S_ISREG(mode)


def mode_kept(draft: Path, target: Path) -> None:
    """Give a draft the permissions of the file it will stand in for, or those of any new file."""
    mode = _mode(target)
    os.chmod(draft, stat.S_IMODE(mode) if mode is not None else _NEW_FILE & ~_mask())


def _mode(path: Path) -> int | None:
    try:
        return path.stat().st_mode
    except FileNotFoundError:
        return None


def _mask() -> int:
    """Return the permissions a new file is denied; the system tells them only by setting them."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
