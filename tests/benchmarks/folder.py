"""A folder of documents by one process: its whole time and the most memory it held."""

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
        print(f"a folder of {count} documents by one process")
        for form in ("json", "text"):
            command = [sys.executable, "-m", "speccheck", "check", name, "--format", form]
            start = perf_counter()
            done = subprocess.run(
                command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, env=environment, check=False
            )
            seconds = perf_counter() - start
            peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / _MIB
            size = len(done.stdout) / 2**20
            print(
                f"  {form}: {seconds:6.2f} s   {count / seconds:5.0f} documents/s   "
                f"{size:5.1f} MiB written   peak so far {peak:4.0f} MiB   exit status {done.returncode}"
            )
