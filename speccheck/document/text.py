"""From the bytes of a file to its text: size, encoding and characters that have no place in a document."""

import os
import re
import stat
from pathlib import Path as FilePath

from speccheck.document.problem import Mark, Problem, Unreadable

__all__ = ["LARGEST", "decode", "read_bytes"]

LARGEST = 1_000_000
"""Largest document read [byte]; a real one is a few hundred lines."""

_UTF16 = (b"\xff\xfe", b"\xfe\xff")
_FORBIDDEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ufffe\uffff]")


def decode(data: bytes, name: str) -> str:
    """Return the text of a document.

    Args:
        data: the bytes, UTF-8 with or without byte order mark, up to 1 MB.
        name: name of the file for messages.

    Raises:
        Unreadable: when it is too large, in another encoding, or holds control characters.
    """
    if len(data) > LARGEST:
        raise Unreadable(_too_large(len(data), name))
    if data.startswith(_UTF16) or b"\x00" in data[:4]:
        raise Unreadable(
            Problem(
                "the file is UTF-16 or UTF-32 text, or not text", "UTF-8 text", "save it as UTF-8", file=name
            )
        )
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Unreadable(_not_utf8(data, error.start, name)) from None
    found = _FORBIDDEN.search(text)
    if found:
        what = f"a control character (code {ord(found[0])}) stands in the file"
        do = "delete it, or check that this is a text file"
        mark = _mark(text, found.start())
        raise Unreadable(Problem(what, "printable text", do, mark=mark, file=name))
    return text


def _mark(text: str, offset: int) -> Mark:
    return Mark(text.count("\n", 0, offset) + 1, offset - text.rfind("\n", 0, offset))


def _not_utf8(data: bytes, offset: int, name: str) -> Problem:
    before = data[:offset].decode("utf-8-sig", "replace")
    return Problem(
        f"byte {offset + 1} (value {data[offset]}) is not UTF-8",
        "UTF-8 text",
        "save the file as UTF-8",
        mark=_mark(before, len(before)),
        file=name,
    )


def _too_large(size: int, name: str) -> Problem:
    return Problem(
        f"the file has {size} bytes",
        f"a document of at most {LARGEST} bytes",
        "split it, or check that it is the right file",
        file=name,
    )


def read_bytes(path: str | os.PathLike[str]) -> bytes:
    """Return the bytes of an ordinary file.

    Args:
        path: where the file lies.

    Raises:
        Unreadable: when it is missing, a folder, a device, too large, or may not be read.
    """
    name = os.fspath(path)
    try:
        status = os.stat(name)
        if problem := _not_ordinary(status, name):
            raise Unreadable(problem)
        with FilePath(name).open("rb") as file:
            return file.read(LARGEST + 1)
    except FileNotFoundError:
        what, do = "there is no such file", "check the name and the folder"
    except PermissionError:
        what, do = "the file may not be read", "give yourself permission to read it"
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        what, do = f"the file cannot be opened ({reason})", "check the name"
    raise Unreadable(Problem(what, "a YAML or JSON document", do, file=name))


def _not_ordinary(status: os.stat_result, name: str) -> Problem | None:
    if stat.S_ISDIR(status.st_mode):
        return Problem("this is a folder", "a YAML or JSON document", "name a file in it", file=name)
    if not stat.S_ISREG(status.st_mode):
        return Problem(
            "this is not an ordinary file", "a YAML or JSON document", "name a file on disk", file=name
        )
    return _too_large(status.st_size, name) if status.st_size > LARGEST else None
