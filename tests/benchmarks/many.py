"""A folder of documents in every format, by one process and by two: times as ratios to the text output of one process.

Peak memory is that of the largest process of a run. A page each with an index is written for ``html`` where there is
such a format, else for ``json``.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import TYPE_CHECKING, NamedTuple

from speccheck.report.formats import FORMATS
from tests.benchmarks.clock import as_installed
from tests.benchmarks.documents import sections
from tests.benchmarks.warm import written

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

__all__ = ["many"]

_MIB = 2**20 if sys.platform == "darwin" else 2**10
_EACH = ("text", "json", "matrix", "csv", "markdown", "sarif", "junit", "github")
_PAGES = "html" if "html" in FORMATS else "json"


class _Taken(NamedTuple):
    wall: float
    processor: float
    peak: float
    size: float


def many(count: int) -> None:
    """Print what a folder costs in each format, with one process and with two, and with a page for each and an index."""
    with TemporaryDirectory() as name, as_installed() as environment:
        documents, out = Path(name) / "documents", Path(name) / "out"
        documents.mkdir()
        for number, file in enumerate(written(sections(count))):
            (documents / f"section-{number:04}.yaml").write_bytes(file)
        start = ["check", str(documents), "--fail-on", "never"]
        _run([*start[:1], str(next(documents.iterdir()))], environment, out)  # writes the byte code
        cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count()
        print(f"{count} documents on {cores} cores; ratios to text by one process")
        base = _run([*start, "-f", "text", "-j", "1", "--out", str(out)], environment, out)
        for form in _EACH:
            for jobs in ("1", "2"):
                taken = _run([*start, "-f", form, "-j", jobs, "--out", str(out)], environment, out)
                _tell(form, jobs, taken, base)
        for jobs in ("1", "2"):
            pages = Path(name) / f"pages-{jobs}"
            taken = _run([*start, "-f", _PAGES, "-j", jobs, "--out-dir", str(pages)], environment, pages)
            _tell(f"{_PAGES} each + index", jobs, taken, base)
        index = (pages / "index.html").stat().st_size / 2**10
        print(f"  the index page has {index:.0f} KiB")


def _tell(form: str, jobs: str, taken: _Taken, base: _Taken) -> None:
    print(
        f"  {form:<18} -j {jobs}: {taken.wall:6.2f} s ({taken.wall / base.wall:4.2f} of text), "
        f"{taken.processor:6.2f} s of the processor ({taken.processor / base.processor:4.2f}), "
        f"peak {taken.peak:4.0f} MiB, {taken.size:6.2f} MiB written"
    )


def _run(arguments: Sequence[str], environment: Mapping[str, str], out: Path) -> _Taken:
    nowhere = subprocess.DEVNULL
    start = perf_counter()
    command = [sys.executable, "-m", "speccheck", *arguments]
    process = subprocess.Popen(command, stdout=nowhere, stderr=subprocess.PIPE, env=dict(environment))
    assert process.stderr is not None
    told = process.stderr.read()
    process.stderr.close()
    _, status, used = os.wait4(process.pid, 0)
    wall = perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode not in (0, 1, 3) or told:
        raise RuntimeError(f"{' '.join(arguments)}: {told.decode()[:500]}")
    return _Taken(wall, used.ru_utime + used.ru_stime, used.ru_maxrss / _MIB, _size(out))


def _size(out: Path) -> float:
    if out.is_dir():
        return sum(path.stat().st_size for path in out.iterdir()) / 2**20
    return out.stat().st_size / 2**20 if out.exists() else 0.0
