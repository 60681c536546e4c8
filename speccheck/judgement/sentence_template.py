"""Sentences with conditions: reads them with the template engine and refuses all but a short list.

Every dotted name becomes one plain variable before the template is compiled, so a template reaches no
attribute of any value.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from jinja2 import TemplateSyntaxError, nodes, pass_context
from jinja2.sandbox import ImmutableSandboxedEnvironment

from speccheck.judgement.sentence_error import NOT_SHOWN, SentenceError

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Mapping

    from jinja2.runtime import Context

__all__ = ["Template"]

_DEEPEST = 16
_HOLDS = "placeholders and conditions"
_LINE_END = re.compile(r"\r\n|\r|\n")
_STATEMENTS = frozenset({"if", "elif", "else", "endif"})
_ALLOWED = (
    *(nodes.Template, nodes.Output, nodes.TemplateData, nodes.If, nodes.Const, nodes.List, nodes.Tuple),
    *(nodes.Neg, nodes.Compare, nodes.Operand, nodes.And, nodes.Or, nodes.Not, nodes.Filter, nodes.Test),
)


class _NotShown:
    """Stands for a value that is not shown: it is false, compares false with everything, and words itself."""

    def __str__(self) -> str:
        return NOT_SHOWN

    def __bool__(self) -> bool:
        return False

    def _false(self, _: object) -> bool:
        return False

    __eq__ = __ne__ = __lt__ = __le__ = __gt__ = __ge__ = __contains__ = _false
    __hash__ = object.__hash__


_MISSING = _NotShown()


class Template:
    """A sentence read through the template engine.

    Args:
        text: The sentence.

    Raises:
        SentenceError: The text holds something that a sentence may not hold.
    """

    def __init__(self, text: str) -> None:
        self._text = text
        self._names: dict[str, str] = {}
        self._places: dict[str, int] = {}
        self._filters: dict[str, int] = {}
        self._compiled: Any = None
        self._environment = ImmutableSandboxedEnvironment(autoescape=False, keep_trailing_newline=True)
        self._environment.globals.clear()
        self._environment.tests = {"defined": lambda value: value is not _MISSING}
        try:
            self._refuse_statements()
            tree = self._environment.parse(text)
        except TemplateSyntaxError as problem:
            raise SentenceError(
                f"the sentence cannot be read: {problem.message}", self._at(problem.lineno)
            ) from None
        except RecursionError:
            raise SentenceError(f"the sentence is nested deeper than {_DEEPEST} levels", 0) from None
        self._tree = self._rewritten(tree, 0)

    def check(self, names: Collection[str], filters: Collection[str]) -> frozenset[str]:
        """Check the names and filters of the sentence against what is declared.

        Args:
            names: The dotted names it may show.
            filters: The names of the filters it may use.

        Returns:
            The dotted names it shows or asks about.

        Raises:
            SentenceError: A name or a filter is not declared.
        """
        for name in self._names:
            if name not in names:
                raise SentenceError(f"nothing is declared under the name {name!a}", self._places[name])
        self._refuse_filters(filters)
        return frozenset(self._names)

    def render(self, values: Mapping[str, object], filters: Mapping[str, Callable[..., object]]) -> str:
        """Fill in the sentence.

        Args:
            values: The values by dotted name.
            filters: The filters by name.

        Returns:
            The sentence in words.

        Raises:
            SentenceError: A filter is unknown, or the values do not fit a filter or a comparison.
        """
        self._refuse_filters(filters)
        given: dict[str, object] = {}
        for name, plain in self._names.items():
            value = values.get(name)
            given[plain] = _MISSING if value is None else value
        try:
            return str(self._ready().render(given, filters=filters))
        except Exception as problem:
            raise SentenceError(f"the sentence cannot be worded: {problem}", 0) from problem

    def _ready(self) -> Any:
        """Compile on first use: a sentence that is only checked never pays for it."""
        if self._compiled is None:
            self._environment.filters = {name: _asking(name) for name in self._filters}
            self._compiled = self._environment.from_string(self._tree)
        return self._compiled

    def _refuse_filters(self, filters: Collection[str]) -> None:
        for name, at in self._filters.items():
            if name not in filters:
                raise SentenceError(f"{name!a} is not among the filters", at)

    def _refuse_statements(self) -> None:
        """Refuse comments and statements by their first word, before the engine drops or obeys them."""
        opened = False
        for line, kind, word in self._environment.lex(self._text):
            if kind in ("comment_begin", "raw_begin") or (
                opened and kind == "name" and word not in _STATEMENTS
            ):
                what = "a comment" if kind == "comment_begin" else f"the statement {word.strip()!a}"
                raise SentenceError(f"a sentence holds {_HOLDS}, not {what}", self._at(line, word))
            opened = kind == "block_begin" or (opened and kind == "whitespace")

    def _rewritten(self, node: Any, depth: int) -> Any:
        """Refuse what is not on the list, and give each dotted name a plain variable."""
        if depth > _DEEPEST:
            raise SentenceError(
                f"the sentence is nested deeper than {_DEEPEST} levels", self._at(node.lineno)
            )
        dotted = _dotted(node)
        if dotted:
            self._places.setdefault(dotted, self._at(node.lineno, dotted))
            return nodes.Name(
                self._names.setdefault(dotted, f"v{len(self._names)}"), "load", lineno=node.lineno
            )
        self._refuse(node)
        for field, value in node.iter_fields():
            if isinstance(value, list):
                setattr(node, field, [self._rewritten(part, depth + 1) for part in value])
            elif isinstance(value, nodes.Node):
                setattr(node, field, self._rewritten(value, depth + 1))
        return node

    def _refuse(self, node: nodes.Node) -> None:
        what = ""
        if not isinstance(node, _ALLOWED):
            what = f"a sentence holds {_HOLDS}, not {type(node).__name__.lower()}"
        elif isinstance(node, nodes.Neg) and not _written(node):
            what = "a minus stands before a written number only"
        elif isinstance(node, (nodes.List, nodes.Tuple)) and not all(map(_written, node.items)):
            what = "a list holds written values only"
        elif isinstance(node, (nodes.Filter, nodes.Test)):
            what = self._refuse_call(node)
        if what:
            raise SentenceError(what, self._at(node.lineno))

    def _refuse_call(self, node: nodes.Filter | nodes.Test) -> str:
        if (
            node.node is None
            or node.kwargs
            or node.dyn_args
            or node.dyn_kwargs
            or not all(map(_written, node.args))
        ):
            return "a filter or a test takes written values only, in their order"
        if isinstance(node, nodes.Test):
            plain = node.name == "defined" and not node.args
            return "" if plain else f"{node.name!a} is no test of a sentence; `is defined` is"
        self._filters.setdefault(node.name, self._at(node.lineno, node.name))
        return ""

    def _at(self, line: int, word: str = "") -> int:
        """Find the offset of a line, or of a word at or after its beginning."""
        ends = [match.end() for match in _LINE_END.finditer(self._text)]
        start = ends[line - 2] if 2 <= line <= len(ends) + 1 else 0
        found = self._text.find(word.strip(), start)
        return min(start if found < 0 else found, len(self._text))


def _asking(name: str) -> Callable[..., object]:
    """Make the filter of a template: it asks the caller's filter, unless the value is not shown."""

    @pass_context
    def ask(context: Context, value: object, *arguments: object) -> object:
        return value if value is _MISSING else context["filters"][name](value, *arguments)

    return ask


def _dotted(node: nodes.Node) -> str:
    """Give the dotted name a chain of attributes spells, or nothing."""
    words: list[str] = []
    while isinstance(node, nodes.Getattr):
        words.append(node.attr)
        node = node.node
    return ".".join([node.name, *reversed(words)]) if isinstance(node, nodes.Name) else ""


def _written(node: nodes.Node) -> bool:
    """Tell a value that stands in the sentence itself: a text, a number, a negative number."""
    if isinstance(node, nodes.Neg):
        return isinstance(node.node, nodes.Const) and type(node.node.value) in (int, float)
    return isinstance(node, nodes.Const)
