"""Where a report goes: the terminal, one file, or a folder with a file for each document and an index."""

import re
from collections.abc import Iterable
from pathlib import Path
from types import TracebackType
from typing import Self

from speccheck.cli.inputs import InputError, spare
from speccheck.cli.output import write
from speccheck.cli.whole_file import write_whole
from speccheck.document.problem import printable
from speccheck.report.counting import exit_status
from speccheck.report.formats import Manner, Run, Told, format_named

__all__ = ["Delivery", "DeliveryError", "deliver_text", "delivery_for"]

_INDEX, _MATRIX = "index.html", "matrix.csv"
_LONGEST = 5_000


class DeliveryError(ValueError):
    """A report that cannot be delivered as wished; the words are for a person."""


class Delivery:
    """Writes the report as one text to the terminal or to a file.

    To be entered as a context: left by an error, it leaves nothing half delivered.
    """

    def __init__(self, form: str, manner: Manner, out: Path | None = None) -> None:
        self.form = form
        self.manner = manner
        self.out = out

    def take(self, name: str, told: Told) -> Told:
        """Take what was told of one document; return what is to be kept of it until the end."""
        del name
        return told

    def finish(self, run: Run) -> None:
        """Deliver what is left to deliver."""
        form = format_named(self.form)
        if run.told or not form.alone:  # a page about nothing would only overwrite an older one
            deliver_text(form.whole(run), self.out)

    def __enter__(self) -> Self:
        """Begin."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """End: nothing is written before ``finish``."""


class FolderDelivery(Delivery):
    """Writes a draft for each document as it comes; at the end all stand in the folder, with an index and a matrix."""

    def __init__(self, form: str, manner: Manner, folder: Path, inputs: Iterable[Path] = ()) -> None:
        from speccheck.cli.whole_set import WholeSet

        super().__init__(form, manner)
        self.folder = folder
        self.inputs = tuple(inputs)
        self.names: dict[str, str] = {}
        try:
            self.files = WholeSet(folder)
        except OSError as error:
            raise DeliveryError(
                f"the folder {printable(str(folder))} cannot be made or written to: {error.strerror}"
            ) from None

    def __enter__(self) -> Self:
        """Begin."""
        self.files.__enter__()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """End: drafts that were not put in place go."""
        self.files.__exit__(kind, error, trace)

    def take(self, name: str, told: Told) -> Told:
        """Write the draft of one document; keep only its digest."""
        form = format_named(self.form)
        file = _free(_plain(name), form.ending, set(self.names.values()))
        self.names[name] = file
        status = exit_status(told.digest.counting)
        self._put(file, form.whole(Run([told], (), self.manner, status)))
        return told._replace(part=None)

    def finish(self, run: Run) -> None:
        """Write the index page and the matrix, and put all files in place."""
        from speccheck.report.index_page import index_page
        from speccheck.report.spreadsheet import csv_matrix

        unread = [name for name, _ in run.unread]
        links = [self.names[one.digest.file] for one in run.told]
        self._put(_INDEX, index_page(run.digests, links, run.unread))
        self._put(_MATRIX, csv_matrix(run.digests, unread))
        try:
            self.files.place()
        except OSError as error:
            what = error.strerror or str(error)
            raise DeliveryError(
                f"not every file could be put in place in {printable(str(self.folder))}: {what}"
            ) from None
        count = len(run.told)
        reports = f"{count} {'report' if count == 1 else 'reports'}"
        write(f"{reports}, {_INDEX} and {_MATRIX} written to {printable(str(self.folder), _LONGEST)}\n")

    def _put(self, name: str, text: str) -> None:
        _spared(self.folder / name, self.inputs)
        try:
            self.files.add(name, text)
        except OSError as error:
            what = error.strerror or str(error)
            path = printable(str(self.folder / name))
            raise DeliveryError(f"{path} cannot be written ({what}); the folder is as it was") from None


def delivery_for(
    form: str,
    manner: Manner,
    out: Path | None,
    folder: Path | None,
    count: int = 1,
    inputs: Iterable[Path] = (),
) -> Delivery:
    """Return where a report goes.

    Args:
        form: name of the format.
        manner: how the report is to be told.
        out: file to write to.
        folder: folder to write to.
        count: how many documents there are.
        inputs: files that are read and never written over.

    Raises:
        DeliveryError: when two places are named, the folder cannot be made, a page is asked to tell many documents,
            or the file is one of the inputs.
    """
    if out is not None and folder is not None:
        raise DeliveryError("name one of --out and --out-dir, not both")
    if folder is not None:
        return FolderDelivery(form, manner, folder, inputs)
    if count > 1 and format_named(form).alone:
        raise DeliveryError(
            f"a page of {form} tells one document, and {count} are given: name --out-dir for a page each and an index"
        )
    _spared(out, inputs)
    return Delivery(form, manner, out)


def deliver_text(text: str, out: Path | None, inputs: Iterable[Path] = ()) -> None:
    """Write a text to a file, or to the terminal where none is named; a dash means the terminal too.

    Raises:
        DeliveryError: when the file is one of the inputs or cannot be written; what stood there is untouched.
    """
    _spared(out, inputs)
    if out is None or str(out) == "-":
        write(text)
    else:
        _written(out, text)


def _spared(path: Path | None, inputs: Iterable[Path]) -> None:
    try:
        spare(path, inputs)
    except InputError as error:
        raise DeliveryError(str(error)) from None


def _written(path: Path, text: str) -> None:
    try:
        write_whole(path, text)
    except OSError as error:
        what = error.strerror or str(error)
        name = printable(str(path))
        raise DeliveryError(f"{name} cannot be written ({what}); what stood there is untouched") from None


def _plain(name: str) -> str:
    """Return a file name of plain letters for a path, such as ``lots-lot-01`` for ``lots/lot-01.yaml``."""
    stem = re.sub(r"\.(?:ya?ml|json)$", "", name)
    return re.sub(r"[^A-Za-z0-9._]+", "-", stem).strip("-.")[-100:] or "document"


def _free(stem: str, ending: str, taken: set[str]) -> str:
    """Return a name not taken; names that differ only in case are one name on some disks."""
    lower = {name.lower() for name in taken}
    name, count = f"{stem}{ending}", 1
    while name.lower() in lower or name.lower() in (_INDEX, _MATRIX):
        count += 1
        name = f"{stem}-{count}{ending}"
    return name
