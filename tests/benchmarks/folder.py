"""A folder of documents by one run: its whole time and the most memory a process of it held."""

from __future__ import annotations

import resource
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

from tests.benchmarks.clock import as_installed
from tests.benchmarks.documents import sections
from tests.benchmarks.warm import written

__all__ = ["folder"]

# The kernel counts the memory of children in KiB, but in bytes on macOS.
_MIB = 2**20 if sys.platform == "darwin" else 2**10


def folder(count: int) -> None:
    """Print time, documents per second and peak memory of ``speccheck check FOLDER`` in JSON and in text."""
    with TemporaryDirectory() as name, as_installed() as environment:
        for number, file in enumerate(written(sections(count))):
            (Path(name) / f"section-{number:04}.yaml").write_bytes(file)
        _run(str(next(Path(name).iterdir())), "text", environment)  # writes the byte code
        print(f"a folder of {count} documents")
        for form in ("json", "text"):
            start, before = perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN)
            done = _run(name, form, environment)
            seconds, after = perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN)
            worked = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
            size = len(done.stdout) / 2**20
            print(
                f"  {form}: {worked:6.2f} s of the processor, {seconds:.2f} s on the clock, "
                f"{count / worked:.0f} documents/s of the processor, {size:.1f} MiB written, "
                f"peak so far {after.ru_maxrss / _MIB:.0f} MiB, exit status {done.returncode}"
            )


def _run(path: str, form: str, environment: dict[str, str]) -> subprocess.CompletedProcess[bytes]:
    command = [sys.executable, "-m", "speccheck", "check", path, "--format", form]
    return subprocess.run(
        command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, env=environment, check=False
    )
