"""Where the data that ships with speccheck lies: rule packs, tables and schemas.

In a checkout they are the top-level folders ``rules`` and ``schemas``; in an installed wheel the same two
folders lie inside the package. Whoever needs one asks here, so the difference stays in this room.
"""

from functools import cache
from pathlib import Path

__all__ = ["rules_folder", "schemas_folder"]

_PACKAGE = Path(__file__).resolve().parent


@cache
def _folder(name: str) -> Path:
    shipped = _PACKAGE / "shipped" / name
    return shipped if shipped.is_dir() else _PACKAGE.parent / name


def rules_folder() -> Path:
    """Return the folder that holds rule packs and reference tables."""
    return _folder("rules")


def schemas_folder() -> Path:
    """Return the folder that holds the published JSON Schemas."""
    return _folder("schemas")
