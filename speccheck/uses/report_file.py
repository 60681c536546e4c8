"""A JSON report read back from a file: as much of it as comparing needs, or every way it is no report."""

import json
import math
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

from speccheck.document import Problem, Unreadable
from speccheck.document.problem import Mark
from speccheck.judgement.finding import SEVERITIES
from speccheck.uses.compare import Record
from speccheck.uses.pairing import Contents

__all__ = ["FORM", "LARGEST", "Kept", "is_report", "read_report"]

FORM = 1
"""The version of the report's form that can be read."""
LARGEST = 64_000_000
"""Largest report read [byte]; five hundred documents make about 22,000,000."""
_REMEDY = "write it anew with `speccheck check ... --format json --out FILE`"
_FACT_VALUE = (str, int, float, bool, list, type(None))


class Kept(NamedTuple):
    """What a report keeps of one document; facts only where it was written with them.

    ``contents`` is what the document is known by should its file go by another name.
    """

    file: str
    verdict: str
    records: tuple[Record, ...]
    facts: dict[tuple[str, str], tuple[str, Any]] | None = None
    contents: Contents | None = None


def is_report(path: Path) -> bool:
    """Does a file say near its beginning that it is a report?"""
    try:
        with path.open("rb") as stream:
            return b'"speccheck-report"' in stream.read(400)
    except OSError:
        return False


def read_report(path: Path) -> tuple[Kept, ...]:
    """Return what a report keeps of each document.

    Args:
        path: a report written by ``check --format json``.

    Raises:
        Unreadable: when it is missing, too large, no JSON, no report, or of another form; with the place.
    """
    name = str(path)
    data = _parsed(_text(path, name), name)
    form = data.get("speccheck-report") if isinstance(data, dict) else None
    if form is None:
        raise _refused(name, "this is JSON, but not a report", "the key `speccheck-report`", _REMEDY)
    if form != FORM or isinstance(form, bool):
        what = f"the report has form {form!r}"
        raise _refused(name, what, f"form {FORM}", _REMEDY, ("speccheck-report",))
    return tuple(_Reader(name).documents(data))


def _refused(
    name: str, what: str, expected: str, do: str, path: tuple[str | int, ...] = (), mark: Mark | None = None
) -> Unreadable:
    return Unreadable(Problem(what, expected, do, path, mark, name))


def _text(path: Path, name: str) -> str:
    try:
        if not path.is_file():
            what = "this is not an ordinary file" if path.exists() else "there is no such file"
            raise _refused(name, what, "a report in JSON", "check the name and the folder")
        with path.open("rb") as stream:
            data = stream.read(LARGEST + 1)
    except OSError as error:
        what = f"the file cannot be opened ({error.strerror})"
        raise _refused(name, what, "a report in JSON", "check the name") from None
    if len(data) > LARGEST:
        what = f"the file has more than {LARGEST} bytes"
        raise _refused(name, what, "a report in JSON", "split the run, or check that it is the right file")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _refused(name, f"byte {error.start + 1} is not UTF-8", "a report in JSON", _REMEDY) from None


def _parsed(text: str, name: str) -> Any:
    try:
        return json.loads(text)
    except json.JSONDecodeError as error:
        mark = Mark(error.lineno, error.colno)
        raise _refused(
            name, f"this is not JSON: {error.msg}", "a report in JSON", _REMEDY, (), mark
        ) from None
    except (RecursionError, ValueError) as error:
        raise _refused(name, f"this is not JSON: {error}", "a report in JSON", _REMEDY) from None


class _Reader:
    """Takes values out of parsed JSON and says where one is not what a report holds."""

    def __init__(self, name: str) -> None:
        self.name = name

    def _take(self, holder: Any, key: str | int, kinds: tuple[type, ...], path: tuple[str | int, ...]) -> Any:
        value = holder.get(key) if isinstance(key, str) else holder[key]
        if not isinstance(value, kinds) or (isinstance(value, bool) and bool not in kinds):
            words = " or ".join(dict.fromkeys(_KINDS[kind] for kind in kinds))
            raise _refused(self.name, f"{_shown(value)} stands here", words, _REMEDY, (*path, key))
        return value

    def _number(self, holder: Any, key: str, path: tuple[str | int, ...]) -> float:
        value = float(self._take(holder, key, (int, float), path))
        if not math.isfinite(value):
            raise _refused(self.name, "a number without end stands here", "a number", _REMEDY, (*path, key))
        return value

    def documents(self, data: dict[str, Any]) -> Iterator[Kept]:
        """Yield each document."""
        listed = self._take(data, "documents", (list,), ())
        for index in range(len(listed)):
            path: tuple[str | int, ...] = ("documents", index)
            document = self._take(listed, index, (dict,), ("documents",))
            findings = self._take(document, "findings", (list,), path)
            records = tuple(self._record(findings, i, (*path, "findings")) for i in range(len(findings)))
            file = self._take(document, "file", (str,), path)
            verdict = self._severity(document, "verdict", path)
            yield Kept(file, verdict, records, self._facts(document, path), _contents(document))

    def _severity(self, holder: Any, key: str, path: tuple[str | int, ...]) -> str:
        value: str = self._take(holder, key, (str,), path)
        if value not in SEVERITIES:
            expected = f"one of {', '.join(SEVERITIES)}"
            raise _refused(self.name, f"{_shown(value)} stands here", expected, _REMEDY, (*path, key))
        return value

    def _record(self, findings: list[Any], index: int, path: tuple[str | int, ...]) -> Record:
        one = self._take(findings, index, (dict,), path)
        path = (*path, index)
        rule, place, title, reason = (
            self._take(one, key, (str,), path) for key in ("rule", "place", "title", "reason")
        )
        record = Record(rule, place, self._severity(one, "severity", path), title, reason)
        measured = self._take(one, "measured", (dict, type(None)), path)
        if measured is None:
            return record
        path = (*path, "measured")
        return record._replace(
            fact=self._take(measured, "fact", (str,), path),
            kind=self._take(measured, "kind", (str,), path),
            observed=self._number(measured, "observed", path),
            limit=self._number(measured, "limit", path),
            margin=self._number(measured, "margin", path),
        )

    def _facts(
        self, document: Any, path: tuple[str | int, ...]
    ) -> dict[tuple[str, str], tuple[str, Any]] | None:
        listed = self._take(document, "facts", (list, type(None)), path)
        if listed is None:
            return None
        facts = {}
        for index in range(len(listed)):
            at = (*path, "facts", index)
            one = self._take(listed, index, (dict,), (*path, "facts"))
            place, name, kind = (self._take(one, key, (str,), at) for key in ("place", "name", "kind"))
            facts[(place, name)] = (kind, self._take(one, "value", _FACT_VALUE, at))
        return facts


def _contents(document: dict[str, Any]) -> Contents | None:
    """Return the contents; the places of findings tell the assemblies where an older report does not list them."""
    listed = document.get("assemblies")
    if isinstance(listed, list):
        places = [one.get("place") for one in listed if isinstance(one, dict)]
    else:
        subjects = ("assembly", "layer")
        places = [
            one["place"].partition(".")[0] for one in document["findings"] if one.get("subject") in subjects
        ]
    names = frozenset(place for place in places if isinstance(place, str))
    project = document.get("project")
    return Contents(project if isinstance(project, str) else "", names) if names else None


_KINDS = {
    str: "text", int: "a number", float: "a number", bool: "true or false",
    list: "a list", dict: "an object", type(None): "null",
}  # fmt: skip


def _shown(value: Any) -> str:
    return "nothing" if value is None else repr(value)[:40]
