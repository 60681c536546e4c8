"""Warm runs: many documents in one process, from bytes to findings and on to text and JSON."""

from __future__ import annotations

import gc
from datetime import date
from functools import partial
from typing import TYPE_CHECKING, Any

import yaml

from speccheck.document import load_bytes
from speccheck.report.plain import json_text, plain_report
from speccheck.report.text import text_report
from speccheck.uses.check import KNOWN, Checked, check
from tests.benchmarks.clock import best_of
from tests.benchmarks.documents import houses, sections

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["check_all", "check_each", "warm", "written"]

_DAY = date(2026, 1, 15)


def written(documents: Sequence[dict[str, Any]]) -> list[bytes]:
    """Return documents as the bytes of YAML files."""
    return [yaml.safe_dump(one, sort_keys=False, allow_unicode=True).encode() for one in documents]


def check_all(files: Sequence[bytes]) -> list[Checked]:
    """Run each file from bytes to findings."""
    return [check(load_bytes(file, "measured.yaml", KNOWN), (), _DAY) for file in files]


def check_each(files: Sequence[bytes]) -> None:
    """Run each file from bytes to findings, and let it go before the next, as a run over a folder does."""
    for file in files:
        check(load_bytes(file, "measured.yaml", KNOWN), (), _DAY).surveyed.let_go()


def warm(count: int, rounds: int) -> None:
    """Print checks per second, how the time grows with the number of documents, and what the reports cost."""
    gc.set_threshold(1_000_000, 20, 20)  # as the command line has it
    one = written(sections(count))
    three = written(houses(count // 4))
    first = check_all(one[:20])  # by then all is read and compiled
    rules = len({rule.id for each in first for pack in each.packs for rule in pack.rules})
    print(f"warm, best of {rounds}, {rules} rules in force, {len(first[0].findings)} findings in the first")
    seconds = best_of(rounds, partial(check_each, one))
    print(f"  one section each             {count / seconds:7.0f} checks/s   (target: 200)")
    house_seconds = best_of(rounds, partial(check_each, three))
    print(f"  houses of three assemblies   {len(three) / house_seconds:7.0f} checks/s")
    _growth(one, rounds)
    _stations(one, rounds)
    _reports(check_all(one), seconds, rounds)


def _growth(files: Sequence[bytes], rounds: int) -> None:
    counts = (len(files) // 4, len(files) // 2, len(files))
    times = [best_of(rounds, partial(check_each, files[:count])) for count in counts]
    ratios = " : ".join(f"{time / times[0]:.2f}" for time in times)
    print(f"  {' : '.join(map(str, counts))} documents take {ratios}   (linear: 1 : 2 : 4)")


def _reports(checked: Sequence[Checked], seconds: float, rounds: int) -> None:
    text = best_of(rounds, lambda: [text_report(one, 80) for one in checked])
    plain = best_of(rounds, lambda: [json_text(plain_report([one])) for one in checked])
    print(f"  text report / check          {text / seconds:7.2f}")
    print(f"  JSON report / check          {plain / seconds:7.2f}")


def _stations(files: Sequence[bytes], rounds: int) -> None:
    """Print what each station of the street takes of a check."""
    from speccheck.judgement.judge import judge
    from speccheck.judgement.library import in_force
    from speccheck.survey import survey

    loaded = [load_bytes(file, "measured.yaml", KNOWN) for file in files]
    surveyed = [survey(one.document, one.folder) for one in loaded]
    packs = [in_force(one.document.project.adopted)[0] for one in loaded]
    times = {
        "load": best_of(rounds, lambda: [load_bytes(file, "measured.yaml", KNOWN) for file in files]),
        "survey": best_of(rounds, lambda: [survey(one.document, one.folder) for one in loaded]),
        "judge": best_of(rounds, lambda: [judge(*each) for each in zip(surveyed, packs, strict=True)]),
    }
    for name, time in times.items():
        print(f"  {name:<28} {time / len(files) * 1e6:7.0f} µs per document")
