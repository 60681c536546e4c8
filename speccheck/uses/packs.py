"""Packs that do not ship: read, verified and their examples run before they may speak."""

from collections.abc import Sequence
from pathlib import Path

from speccheck.judgement.library import read_pack
from speccheck.judgement.pack import Pack, PackError
from speccheck.uses.trial import admit

__all__ = ["PackError", "read_packs"]


def read_packs(paths: Sequence[Path]) -> tuple[Pack, ...]:
    """Return the packs in some files.

    Raises:
        PackError: when a file cannot be read, a pack cannot be used, or an example comes out otherwise than it says.
    """
    return tuple(_read(path) for path in paths)


def _read(path: Path) -> Pack:
    try:
        pack = read_pack(path)
    except OSError as error:
        raise PackError(str(path), [f"cannot be read: {error.strerror}"]) from error
    except PackError:
        raise
    except ValueError as error:
        raise PackError(str(path), [str(error)]) from error
    admit((pack,))
    return pack
