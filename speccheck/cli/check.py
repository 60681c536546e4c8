"""The command ``check``: one document, several, or a folder."""

from collections.abc import Generator, Mapping, Sequence
from contextlib import closing
from datetime import date
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, cast

from speccheck.cli.deliver import Delivery, DeliveryError, delivery_for
from speccheck.cli.output import CANNOT_RUN, columns, complain, complain_of
from speccheck.cli.progress import watched
from speccheck.document import Problem, Unreadable
from speccheck.document.problem import printable
from speccheck.judgement.pack import Pack
from speccheck.report.counting import exit_status
from speccheck.report.formats import Manner, Run, Told, tell
from speccheck.uses.check import Checked
from speccheck.uses.folder import Outcome, each_document, look_in, workers_for
from speccheck.uses.packs import PackError, read_packs

if TYPE_CHECKING:
    from speccheck.quantity import System
    from speccheck.uses.baseline import Baseline

__all__ = ["Wishes", "run_check"]


_NAMED = 3
_LONGEST_PATH = 200


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
    out: Path | None = None
    out_dir: Path | None = None
    baseline: Path | None = None
    jobs: int | None = None
    documents_only: bool = False

    @property
    def manner(self) -> Manner:
        """How the report is to be told."""
        return Manner(cast("System", self.units), self.full, self.facts, columns(self.width), self.fail_on)


def run_check(paths: Sequence[Path], wishes: Wishes) -> int:
    """Check documents and write the report; return the exit status."""
    try:
        extra = read_packs(wishes.packs)
        baseline = _baseline(wishes)
        found, left = look_in(paths, documents_only=wishes.documents_only)
        if left and not wishes.documents_only:
            complain(_left_alone(left))
        if not found:
            return _nothing(paths, wishes)
        inputs = (*found, *wishes.packs, *((wishes.baseline,) if wishes.baseline else ()))
        delivery = delivery_for(wishes.format, wishes.manner, wishes.out, wishes.out_dir, len(found), inputs)
        with delivery:
            return _run(found, wishes, extra, baseline, delivery)
    except Unreadable as error:
        complain_of(error.problems)
    except (PackError, DeliveryError) as error:
        complain(str(error))
    return CANNOT_RUN


def _baseline(wishes: Wishes) -> "Baseline | None":
    if wishes.baseline is None:
        return None
    from speccheck.uses.baseline import read_baseline

    return read_baseline(wishes.baseline)


def _left_alone(left: Sequence[Path]) -> str:
    """Return the line on files of a folder that may have been meant: a key mistyped looks like no document."""
    named = ", ".join(printable(str(path), _LONGEST_PATH) for path in left[:_NAMED])
    more = f" and {len(left) - _NAMED} more" if len(left) > _NAMED else ""
    one = len(left) == 1
    return (
        f"{len(left)} {'file was' if one else 'files were'} left alone, as {'it does' if one else 'they do'} not "
        f"say `speccheck:` at the top: {named}{more}"
    )


def _nothing(paths: Sequence[Path], wishes: Wishes) -> int:
    """Return the exit status where there is no document."""
    if wishes.documents_only:
        return 0  # a hook is handed whatever has changed; perhaps none of it is a document
    complain(
        f"no document found in {', '.join(map(str, paths))}: files ending in .yaml, .yml or .json are looked for"
    )
    return CANNOT_RUN


def _run(
    paths: Sequence[Path],
    wishes: Wishes,
    extra: Sequence[Pack],
    baseline: "Baseline | None",
    delivery: Delivery,
) -> int:
    told: list[Told] = []
    unread: list[tuple[str, Sequence[Problem]]] = []
    with closing(_outcomes(paths, wishes, extra, baseline)) as outcomes:
        for outcome in watched(outcomes, len(paths)):
            if outcome.problems:
                unread.append((outcome.name, outcome.problems))
            else:
                told.append(delivery.take(outcome.name, outcome.made))
    severities = {severity for one in told for severity in one.digest.counting}
    run = Run(told, unread, wishes.manner, exit_status(severities, unread=bool(unread)))
    for _, problems in unread:
        complain_of(problems)
    delivery.finish(run)
    return run.status


def _outcomes(
    paths: Sequence[Path], wishes: Wishes, extra: Sequence[Pack], baseline: "Baseline | None"
) -> Generator[Outcome]:
    pairs = baseline.paired(map(str, paths)) if baseline is not None else {}
    make = partial(_told, wishes.format, wishes.manner, baseline, pairs)
    workers = workers_for(len(paths), wishes.jobs)
    return each_document(paths, make, extra, wishes.today, wishes.units, workers)


def _told(
    name: str, manner: Manner, baseline: "Baseline | None", pairs: Mapping[str, str], checked: Checked
) -> Told:
    against = None
    if baseline is not None:
        against = baseline.against(pairs.get(checked.loaded.name), checked.findings)
    return tell(checked, name, manner, against)
