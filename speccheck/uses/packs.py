"""Packs that do not ship: read, verified and their examples run before they may speak."""

from collections.abc import Sequence
from pathlib import Path

from speccheck.judgement.library import read_pack
from speccheck.judgement.pack import Pack, PackError

__all__ = ["PackError", "read_packs"]


def read_packs(paths: Sequence[Path]) -> tuple[Pack, ...]:
    """Return the packs in some files.

    Raises:
        PackError: when a file cannot be read, a pack cannot be used, or an example comes out otherwise than it says.
    """
    return tuple(_read(path) for path in paths)


def _read(path: Path) -> Pack:
    from speccheck.uses.examples import examples_of, run_example  # few runs bring a pack of their own

    try:
        pack = read_pack(path)
    except OSError as error:
        raise PackError(str(path), [f"cannot be read: {error.strerror}"]) from error
    except PackError:
        raise
    except ValueError as error:
        raise PackError(str(path), [str(error)]) from error
    faults = [fault for example in examples_of(pack) if (fault := run_example(example))]
    if faults:
        raise PackError(pack.id, faults)
    return pack
