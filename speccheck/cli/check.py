"""The command ``check``: one document, several, or a folder."""

from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import NamedTuple

from speccheck.cli.output import CANNOT_RUN, columns, complain, complain_of, write
from speccheck.document import Problem, Unreadable
from speccheck.judgement.finding import SEVERITIES
from speccheck.uses.check import Checked, check_file
from speccheck.uses.packs import PackError, read_packs

__all__ = ["Wishes", "exit_status", "run_check"]

_ENDINGS = (".yaml", ".yml", ".json")


class Wishes(NamedTuple):
    """What the options say."""

    format: str = "text"
    units: str = "both"
    fail_on: str = "ask"
    full: bool = False
    facts: bool = False
    packs: tuple[Path, ...] = ()
    today: date | None = None
    width: int | None = None


def run_check(paths: Sequence[Path], wishes: Wishes) -> int:
    """Check documents and write the report; return the exit status."""
    try:
        extra = read_packs(wishes.packs)
    except PackError as error:
        complain(str(error))
        return CANNOT_RUN
    checked: list[Checked] = []
    unread: list[tuple[str, Sequence[Problem]]] = []
    for path in _documents(paths):
        try:
            checked.append(check_file(path, extra, wishes.today, wishes.units))
        except Unreadable as error:
            unread.append((str(path), error.problems))
    if not checked and not unread:
        complain(
            f"no document found in {', '.join(map(str, paths))}: files ending in .yaml, .yml or .json are looked for"
        )
        return CANNOT_RUN
    for _, problems in unread:
        complain_of(problems)
    _write_report(checked, unread, wishes)
    return CANNOT_RUN if unread else exit_status(checked, wishes.fail_on)


def _documents(paths: Sequence[Path]) -> Iterator[Path]:
    """Yield the files to check: those named, and in folders every file that says it is a document."""
    for path in paths:
        if path.is_dir():
            yield from sorted(
                p for p in path.rglob("*") if p.suffix in _ENDINGS and p.is_file() and _claims(p)
            )
        else:
            yield path


def _claims(path: Path) -> bool:
    """Does a file in a folder say it is a document? Others are left alone."""
    try:
        with path.open("rb") as stream:
            head = stream.read(65536)
    except OSError:
        return True  # let the reader say why it cannot be read
    return b"speccheck" in head and b"assemblies" in head


def _write_report(
    checked: Sequence[Checked], unread: Sequence[tuple[str, Sequence[Problem]]], wishes: Wishes
) -> None:
    if wishes.format == "json":
        from speccheck.report.plain import json_text, plain_report

        write(json_text(plain_report(checked, unread, facts=wishes.facts)))
        return
    from speccheck.report.text import text_report, text_roll

    width = columns(wishes.width)
    pages = [text_report(one, width, wishes.units, full=wishes.full) for one in checked]
    write("\n".join(pages))
    if len(checked) + len(unread) > 1:
        write("\n" + text_roll(checked, [name for name, _ in unread], width))


def exit_status(checked: Sequence[Checked], fail_on: str) -> int:
    """Return 1 for findings at or above a severity, 3 where these are questions only, else 0."""
    if fail_on == "never":
        return 0
    serious = SEVERITIES[: SEVERITIES.index(fail_on) + 1]
    found = {finding.severity for one in checked for finding in one.findings if finding.severity in serious}
    if not found:
        return 0
    return 3 if found == {"ask"} else 1
