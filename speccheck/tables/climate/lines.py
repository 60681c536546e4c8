"""Find the line of a key in one of the climate files without parsing the rest of it."""

from functools import lru_cache

from speccheck.shelf import rules_folder

__all__ = ["line_of", "lines"]


@lru_cache(maxsize=16)
def _content(file: str) -> bytes:
    return (rules_folder() / "climate" / file).read_bytes()


def line_of(file: str, key: str, mark: str = ",") -> str | None:
    """Return the first line of a climate file that starts with a key, or None.

    Args:
        file: name inside ``rules/climate``.
        key: what the line starts with.
        mark: what ends the key.

    Returns:
        the line without its line end, or None where no line has the key. The first line of a file is its
        heading and is never found.

    Example:
        >>> line_of("counties.csv", "53033")[:16]
        '53033,WA,King,4C'
    """
    content = _content(file)
    start = content.find(f"\n{key}{mark}".encode()) + 1
    if not start:
        return None
    end = content.find(b"\n", start)
    return content[start : end if end >= 0 else None].decode()


def lines(file: str) -> list[str]:
    """Return all lines of a climate file without its headings.

    Args:
        file: name inside ``rules/climate``.

    Returns:
        the lines after the first one, without lines that start with ``#``.
    """
    return [line for line in _content(file).decode().splitlines()[1:] if not line.startswith("#")]
