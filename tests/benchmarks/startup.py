"""Start-up: what a cold check spends on importing, own modules apart from each library."""

from __future__ import annotations

import re
import subprocess
import sys
from collections import Counter
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.benchmarks.clock import as_installed
from tests.benchmarks.documents import sections
from tests.benchmarks.warm import written

__all__ = ["startup"]

_LINE = re.compile(r"import time:\s+(\d+) \|\s+\d+ \| ( *)(\S+)")


def startup(rounds: int, most: int = 12) -> None:
    """Print the least self time [ms] of each top-level package, and of the slowest own modules."""
    with TemporaryDirectory() as folder, as_installed() as environment:
        file = Path(folder) / "section.yaml"
        file.write_bytes(written(sections(1))[0])
        _imported(str(file), environment)  # writes the byte code
        runs = [_imported(str(file), environment) for _ in range(rounds)]
    least = {name: min(run.get(name, 0) for run in runs) for name in runs[0]}
    packages: Counter[str] = Counter()
    for name, micros in least.items():
        packages[_package(name)] += micros
    print(
        f"imports of a cold check, least of {rounds}, {len(least)} modules, {sum(least.values()) / 1000:.0f} ms"
    )
    for name, micros in packages.most_common(most):
        print(f"  {name:<34} {micros / 1000:6.1f} ms")
    own = Counter({name: micros for name, micros in least.items() if name.startswith("speccheck")})
    print(f"  of which the slowest of {len(own)} own modules")
    for name, micros in own.most_common(most):
        print(f"    {name:<34} {micros / 1000:4.1f} ms")


def _imported(file: str, environment: dict[str, str]) -> dict[str, int]:
    command = [sys.executable, "-X", "importtime", "-m", "speccheck", "check", file]
    told = subprocess.run(command, capture_output=True, text=True, env=environment, check=False)
    return {found[3]: int(found[1]) for line in told.stderr.splitlines() if (found := _LINE.match(line))}


def _package(name: str) -> str:
    top = name.partition(".")[0]
    if top == "speccheck":
        return "speccheck"
    return "standard library" if top in sys.stdlib_module_names else top
