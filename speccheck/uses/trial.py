"""The trial of a pack: one read from its file, and not from a compiled copy, runs its examples before it may speak."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from functools import lru_cache

from speccheck.judgement.pack import Pack, PackError

__all__ = ["admit", "faults_of", "within_an_example"]

_running = ContextVar("_running", default=False)
"""Whether an example runs: an example is itself a run of the street, and tries no pack."""


def admit(packs: Sequence[Pack]) -> None:
    """Try the packs that no compiled copy stands for; those that ship and are as they were written cost nothing.

    Args:
        packs: the packs that are to judge a document.

    Raises:
        PackError: when an example comes out otherwise than it says; with file, line and column of each.
    """
    fresh = [pack for pack in packs if pack.read_from is not None]
    if not fresh or _running.get():
        return
    faults = {pack.id: found for pack in fresh if (found := faults_of(pack))}
    if faults:
        raise PackError(", ".join(faults), [fault for found in faults.values() for fault in found])


@contextmanager
def within_an_example() -> Iterator[None]:
    """Try no pack meanwhile."""
    before = _running.set(True)
    try:
        yield
    finally:
        _running.reset(before)


@lru_cache(maxsize=64)
def faults_of(pack: Pack) -> tuple[str, ...]:
    """Return what is wrong with the examples of a pack, with the place in the file it was read from.

    Each pack is tried once. Of a pack that a compiled copy stood for, the file is not known, and the place is left out.
    """
    from speccheck.judgement.pack_place import placed_faults
    from speccheck.uses.examples import examples_of, run_example

    faults = [(example.address, fault) for example in examples_of(pack) if (fault := run_example(example))]
    if pack.read_from is None:
        return tuple(fault for _, fault in faults)
    return tuple(placed_faults(pack.read_from, faults)) if faults else ()
