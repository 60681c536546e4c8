"""From YAML parser events to plain data with marks: one pass, no recursion, only what a document needs."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import yaml

from speccheck.document.problem import Mark, Path, Problem, Unreadable, printable
from speccheck.document.scalar import plain_scalar
from speccheck.document.syntax import syntax_problem

__all__ = ["DEEPEST", "MOST_PROBLEMS", "MOST_VALUES", "Built", "build"]

DEEPEST = 32
"""Most levels of nesting."""

MOST_VALUES = 50_000
"""Most keys, values and containers in one document."""

MOST_PROBLEMS = 200
"""Most problems gathered before reading stops."""

_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_UNPRINTABLE = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")
_AWAITING_KEY = object()


@dataclass(slots=True)
class Built:
    """Data, marks and problems gathered so far."""

    data: dict[str, Any] = field(default_factory=dict)
    marks: dict[Path, Mark] = field(default_factory=dict)
    key_marks: dict[Path, Mark] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)


class _Dropped:
    """A key whose value is read for its problems and then left out."""

    __slots__ = ("key",)

    def __init__(self, key: str) -> None:
        self.key = key


class _Level:
    """One open container: what fills it, the path to it, and the key that waits for its value."""

    __slots__ = ("container", "dropped", "key", "path")

    def __init__(self, container: dict[str, Any] | list[Any], path: Path, dropped: bool) -> None:
        self.container = container
        self.path = path
        self.dropped = dropped
        self.key: Any = _AWAITING_KEY

    @property
    def wants_key(self) -> bool:
        return self.key is _AWAITING_KEY and isinstance(self.container, dict)

    @property
    def here(self) -> Path:
        """The path a problem with what comes next is told at: its own, or else the container's."""
        return self.path if self.wants_key or isinstance(self.key, _Dropped) else self.next_path

    @property
    def next_path(self) -> Path:
        """The path of the value that comes next."""
        return (*self.path, len(self.container) if isinstance(self.container, list) else self.key)


class _Builder:
    def __init__(self, name: str, is_json: bool) -> None:
        self.name = name
        self.is_json = is_json
        self.built = Built()
        self.levels: list[_Level] = []
        self.values = 0
        self.documents = 0

    def run(self, text: str) -> Built:
        for event in self._events(text):
            kind = type(event)
            if kind is yaml.ScalarEvent:
                self._scalar(event)
            elif kind is yaml.MappingStartEvent or kind is yaml.SequenceStartEvent:
                self._open({} if kind is yaml.MappingStartEvent else [], event)
            elif kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
                self.levels.pop()
            elif kind is yaml.AliasEvent:
                self._alias(event)
            elif kind is yaml.DocumentStartEvent and not self._document(event):
                break
        if self.documents == 0:
            self._stop("the file is empty", "a mapping of keys and values", "write the document", None)
        return self.built

    def _events(self, text: str) -> Iterator[Any]:
        try:
            yield from yaml.parse(text, Loader=_LOADER)
        except yaml.YAMLError as error:
            raise Unreadable(*self.built.problems, syntax_problem(error, text, self.name)) from None

    def _document(self, event: Any) -> bool:
        """Count a document; a second one is a problem and ends the reading."""
        self.documents += 1
        if self.documents > 1:
            self._problem(
                "a second document begins here",
                "one document in a file",
                "put it in a file of its own",
                (),
                event,
            )
        return self.documents == 1

    def _count(self, event: Any) -> None:
        self.values += 1
        if self.values > MOST_VALUES:
            self._stop(
                f"the document has more than {MOST_VALUES} values",
                "a document a person can read",
                "split it",
                event,
            )

    def _scalar(self, event: Any) -> None:
        self._count(event)
        if not self.levels:
            self._not_a_mapping(
                "the file is empty" if event.value == "" else "the file holds one value", event
            )
        level = self.levels[-1]
        if event.anchor is not None or event.tag is not None:
            self._refuse_extras(event, level)
        if level.wants_key:
            self._key(level, event)
            return
        value: Any = event.value
        if event.tag is None and not event.style:
            value, trouble = plain_scalar(value, self.is_json)
            if trouble:
                self._problem(trouble[0], "a plain value", trouble[1], level.here, event)
        elif _UNPRINTABLE.search(value):
            value = self._cleaned(value, level.here, event)
        self._place(level, value, event)

    def _key(self, level: _Level, event: Any) -> None:
        """Take a scalar as the key of the value that follows."""
        key = event.value
        if _UNPRINTABLE.search(key):
            key = self._cleaned(key, level.path, event)
        here = (*level.path, key)
        plain = not event.style
        level.key = key
        if plain and key in {"", "~"}:
            level.key = _Dropped(key)
            self._problem(
                "a value stands without a key", "a key before the colon", "write the key", level.path, event
            )
        elif plain and key == "<<":
            level.key = _Dropped(key)
            self._problem(
                "a merge key (<<) stands here", "plain keys", "write the keys out", level.path, event
            )
        elif key in level.container:
            level.key = _Dropped(key)
            first = self.built.key_marks.get(here)
            earlier = f" (first in line {first.line})" if first and not level.dropped else ""
            self._problem(
                f"the key '{printable(key, 60)}' stands here a second time{earlier}",
                "each key once",
                "delete or rename one of the two",
                here,
                event,
            )
        elif not level.dropped:
            self.built.key_marks[here] = _mark(event)

    def _place(self, level: _Level, value: Any, event: Any) -> bool:
        """Put a value in the open container; tell whether it is kept."""
        kept = not level.dropped and not isinstance(level.key, _Dropped)
        if kept:
            self.built.marks[level.next_path] = _mark(event)
        if isinstance(level.container, list):
            level.container.append(value)
        elif not isinstance(level.key, _Dropped):
            level.container[level.key] = value
        level.key = _AWAITING_KEY
        return kept

    def _open(self, container: dict[str, Any] | list[Any], event: Any) -> None:
        self._count(event)
        if not self.levels:
            self._open_root(container, event)
            return
        if len(self.levels) >= DEEPEST:
            self._stop(
                f"the nesting is deeper than {DEEPEST} levels", "a flatter document", "flatten it", event
            )
        level = self.levels[-1]
        if event.anchor is not None or event.tag is not None:
            self._refuse_extras(event, level)
        if level.wants_key:
            self._problem(
                "a list or mapping stands where a key is wanted", "text", "write a name", level.path, event
            )
            level.key = _Dropped("")
            self.levels.append(_Level(container, level.path, dropped=True))
            return
        path = level.path if isinstance(level.key, _Dropped) else level.next_path
        kept = self._place(level, container, event)
        self.levels.append(_Level(container, path, dropped=not kept))

    def _open_root(self, container: dict[str, Any] | list[Any], event: Any) -> None:
        if isinstance(container, list):
            self._not_a_mapping("the file holds a list", event)
            return
        self.built.data = container
        self.built.marks[()] = _mark(event)
        self.levels.append(_Level(container, (), dropped=False))
        if event.anchor is not None or event.tag is not None:
            self._refuse_extras(event, self.levels[-1])

    def _alias(self, event: Any) -> None:
        """Refuse a reference to an anchor; it is kept as its text and never followed."""
        self._count(event)
        if not self.levels:
            self._not_a_mapping("the file holds a reference", event)
        level = self.levels[-1]
        self._problem(
            f"a reference (*{printable(event.anchor, 60)}) stands here",
            "values written out",
            "write the value in place, or put it in quotes if it is text",
            level.here,
            event,
        )
        if level.wants_key:
            level.key = _Dropped("")
        else:
            self._place(level, f"*{event.anchor}", event)

    def _refuse_extras(self, event: Any, level: _Level) -> None:
        if event.anchor is not None:
            what, do = (
                f"an anchor (&{printable(event.anchor, 60)}) stands here",
                "delete it and write values out",
            )
            self._problem(what, "values without anchors", do, level.here, event)
        if event.tag is not None:
            what = f"a tag ({printable(_short(event.tag), 60)}) stands here"
            self._problem(
                what,
                "values without tags",
                "delete it; put the value in quotes if it is text",
                level.here,
                event,
            )

    def _cleaned(self, text: str, path: Path, event: Any) -> str:
        self._problem(
            "an unprintable character stands in this text", "printable text", "delete it", path, event
        )
        return _UNPRINTABLE.sub("\ufffd", text)

    def _not_a_mapping(self, what: str, event: Any) -> None:
        self._stop(what, "a mapping of keys and values at the top", "begin with a key and a colon", event)

    def _problem(self, what: str, expected: str, do: str, path: Path, event: Any) -> None:
        self.built.problems.append(Problem(what, expected, do, path, _mark(event), self.name))
        if len(self.built.problems) == MOST_PROBLEMS:
            self._stop(
                "reading stops here after so many problems", "", "mend those told and read again", event
            )

    def _stop(self, what: str, expected: str, do: str, event: Any) -> None:
        mark = _mark(event) if event is not None else None
        raise Unreadable(*self.built.problems, Problem(what, expected, do, (), mark, self.name))


def _short(tag: str) -> str:
    """Write a tag as a document does."""
    return tag.replace("tag:yaml.org,2002:", "!!")


def _mark(event: Any) -> Mark:
    start = event.start_mark
    return Mark(start.line + 1, start.column + 1)


def build(text: str, name: str, is_json: bool = False) -> Built:
    """Return the data of one document with the place of every key and value.

    Args:
        text: the document.
        name: name of the file for messages.
        is_json: whether the text is JSON by the letter.

    Raises:
        Unreadable: on a syntax error, an empty file, a top that is no mapping, or a limit passed.
    """
    return _Builder(name, is_json).run(text)
