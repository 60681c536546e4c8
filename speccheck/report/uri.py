"""The name of a file as a URI reference, by RFC 3986."""

import posixpath
import re

__all__ = ["uri_of"]

_PLAIN = frozenset(b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._~/")
_DRIVE = re.compile(r"[A-Za-z]:/")


def uri_of(name: str) -> str:
    """Return a relative reference for a relative path, and a ``file:`` URI for an absolute one.

    Args:
        name: a path with either kind of slash.

    Example:
        >>> uri_of("lots/./lot 1.yaml"), uri_of("/srv/a#b.yaml"), uri_of("a:b.yaml")
        ('lots/lot%201.yaml', 'file:///srv/a%23b.yaml', 'a%3Ab.yaml')
    """
    path = name.replace("\\", "/") if "\\" in name and _is_windows(name) else name
    path = posixpath.normpath(path)
    if _DRIVE.match(path):
        return f"file:///{path[:2]}{_encoded(path[2:])}"
    # two slashes at the head are kept by normpath, and would name a host
    return f"file:///{_encoded(path.lstrip('/'))}" if path.startswith("/") else _encoded(path)


def _is_windows(name: str) -> bool:
    """Are the backslashes of a path its slashes? Elsewhere they are letters of a name."""
    import os

    return os.sep == "\\" or _DRIVE.match(name.replace("\\", "/")) is not None


def _encoded(path: str) -> str:
    data = path.encode("utf-8", "surrogateescape")
    return "".join(chr(byte) if byte in _PLAIN else f"%{byte:02X}" for byte in data)
