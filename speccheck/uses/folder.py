"""Many documents: finding them in folders, checking each by itself, on one core or several, in one order."""

from collections.abc import Callable, Generator, Iterable, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from speccheck.document import Problem, Unreadable
from speccheck.judgement.pack import Pack, PackError
from speccheck.uses.check import Checked, check_file
from speccheck.uses.head import is_own_report, top_keys

if TYPE_CHECKING:
    from concurrent.futures import ProcessPoolExecutor

__all__ = ["Found", "Outcome", "documents_in", "each_document", "look_in", "workers_for"]

_ENDINGS = (".yaml", ".yml", ".json")
_HEAD = 65_536
_KEY = "speccheck"
_NEAR = (_KEY, "assemblies")
"""What a document says at its top; a file with one of them that is no document may have been meant to be one."""
_WORTH = 60
"""Documents below which a second process costs more than it saves."""


class Outcome(NamedTuple):
    """What came of one document: what was made of it, or the problems that kept it from being checked."""

    name: str
    made: Any
    problems: tuple[Problem, ...] = ()


class Found(NamedTuple):
    """The files to check, and those of the folders that were left alone as they do not say they are documents."""

    documents: list[Path]
    left: list[Path]


def documents_in(paths: Iterable[Path], *, documents_only: bool = False) -> list[Path]:
    """Return the files to check, as ``look_in`` finds them."""
    return look_in(paths, documents_only=documents_only).documents


def look_in(paths: Iterable[Path], *, documents_only: bool = False) -> Found:
    """Return the files to check, each once: those named, and in folders every file that says it is a document.

    A document says so by the key ``speccheck`` at its top level, whatever else is wrong with it; products, rule packs
    and reports that lie in the same folder do not.

    Args:
        paths: files and folders.
        documents_only: leave out files that are named but do not say that they are documents.

    Returns:
        the files to check, and those of the folders that might have been meant: with a key of documents first.
    """
    found: dict[Path, None] = {}
    left: dict[Path, int] = {}
    for path in paths:
        if path.is_dir():
            for file in sorted(p for p in path.rglob("*") if p.suffix in _ENDINGS and _is_file(p)):
                keys = _keys(file)
                if keys is None:
                    continue
                if _KEY in keys:
                    found[file] = None
                else:
                    left[file] = len(keys)
        elif not documents_only or _KEY in (_keys(path) or ()):
            found[path] = None
    alone = [file for file in left if file not in found]
    return Found(list(found), sorted(alone, key=lambda file: -left[file]))


def _is_file(path: Path) -> bool:
    """Say whether there is a file; a link that leads nowhere is told by the reader, and a pipe is never opened."""
    return path.is_file() or (path.is_symlink() and not path.exists())


def _keys(path: Path) -> set[str] | None:
    """Return which keys of a document stand at the top of a file; None of a report, which cannot be meant."""
    try:
        with path.open("rb") as stream:
            head = stream.read(_HEAD)
    except OSError:
        return {_KEY}  # let the reader say why it cannot be read
    return None if is_own_report(head) else top_keys(head, _NEAR)


def workers_for(count: int, wished: int | None) -> int:
    """Return how many processes to use for a number of documents.

    Args:
        count: documents, 0 or more.
        wished: processes asked for; as many as pay when None.
    """
    if wished is not None:
        return max(1, min(wished, count))
    return 1 if count < _WORTH else min(_cores(), 1 + count // _WORTH)


def _cores() -> int:
    import os

    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:  # only Linux knows which cores a process may use
        return os.cpu_count() or 1


def each_document(
    paths: Sequence[Path],
    make: Callable[[Checked], Any],
    extra: Sequence[Pack] = (),
    today: date | None = None,
    system: str = "both",
    workers: int = 1,
) -> Generator[Outcome]:
    """Yield what ``make`` makes of each document, in the order of the paths, whatever becomes of the others.

    Args:
        paths: the documents.
        make: takes a checked document; what it gives back, and with several workers ``make`` itself, must be
            picklable.
        extra: packs in force besides practice and the editions adopted.
        today: the day waivers are held against.
        system: units the sentences show: ``both``, ``us`` or ``si``.
        workers: processes, 1 or more.
    """
    # the first alone: what is read and compiled for it is then there for every copy of this process
    alone, rest = (paths, ()) if workers <= 1 else (paths[:1], paths[1:])
    yield from (_outcome(path, make, extra, today, system) for path in alone)
    if rest:
        yield from _shared(rest, workers, make, extra, today, system)


def _shared(paths: Sequence[Path], workers: int, *task: Any) -> Generator[Outcome]:
    """Yield the outcomes of documents shared among processes."""
    done = 0
    try:
        with _pool(workers, *task) as pool:
            for outcome in pool.map(_in_worker, paths, chunksize=_chunk(len(paths), workers)):
                done += 1
                yield outcome
    except _broken():
        # a process was ended from outside, such as for want of memory: go on alone, one document at a time
        yield from (_outcome(path, *task) for path in paths[done:])


def _chunk(count: int, workers: int) -> int:
    """Return how many documents to hand over at once: few enough to share the work evenly."""
    return max(1, min(16, count // (4 * workers)))


def _broken() -> type[BaseException]:
    from concurrent.futures.process import BrokenProcessPool

    return BrokenProcessPool


_Task = tuple[Callable[[Checked], Any], Sequence[Pack], date | None, str]
_task: list[_Task] = []
"""In a worker: what to do with each document. Handed over once, not with every document."""


def _pool(workers: int, *task: Any) -> "ProcessPoolExecutor":
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    context = get_context(_start_method())
    return ProcessPoolExecutor(workers, context, initializer=_settle, initargs=task)


def _start_method() -> str:
    """Return how processes begin: as copies that know all that is read already, where that is safe, else anew."""
    import sys
    import threading

    # a copy of a process with several threads may hold a lock that nobody will ever open
    return "fork" if sys.platform == "linux" and threading.active_count() == 1 else "spawn"


def _settle(make: Callable[[Checked], Any], extra: Sequence[Pack], today: date | None, system: str) -> None:
    from threading import Thread

    Thread(target=_end_with_parent, daemon=True).start()
    _task[:] = [(make, extra, today, system)]


def _end_with_parent() -> None:
    """In a worker: end at once when the process that began it has ended, however that came about."""
    import os
    from multiprocessing import parent_process

    parent = parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


def _in_worker(path: Path) -> Outcome:
    try:
        return _outcome(path, *_task[0])
    except PackError as error:  # it cannot travel back as it is
        return Outcome(str(path), None, (Problem(str(error), file=str(path)),))


def _outcome(
    path: Path, make: Callable[[Checked], Any], extra: Sequence[Pack], today: date | None, system: str
) -> Outcome:
    try:
        checked = check_file(path, extra, today, system)
        made = make(checked)
        checked.surveyed.let_go()
        return Outcome(str(path), made)
    except Unreadable as error:
        return Outcome(str(path), None, tuple(error.problems))
    except PackError:
        raise  # a pack that cannot be used stands behind every document
    except (
        Exception
    ) as error:  # one document never stops the others; what broke is told as loudly as a bad file
        return Outcome(str(path), None, (_broke(path, error),))


def _broke(path: Path, error: Exception) -> Problem:
    return Problem(
        f"checking it stopped on {type(error).__name__}: {error}",
        "",
        "this is a fault of speccheck, not of the document; report it with the document",
        file=str(path),
    )
