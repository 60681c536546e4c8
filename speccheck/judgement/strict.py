"""Strict spelling: writes a read expression so that every runtime gives the same answer or the same refusal.

The language lets `||`, `&&` and the quantifiers swallow an error when the other side decides, and lets a
division by zero pass as an infinite number. Neither may hide a hole in the evidence. So, where a part can go
wrong:

- `a || b` is written `a ? true : b` and `a && b` as `a ? b : false` (from left to right, errors surface);
- `list.exists(x, p)` is written `true in list.map(x, p)`, and the other quantifiers alike;
- arithmetic is written with a guard that turns a zero divisor or a number without bound into an error.

Names become short ones without dots (`n0`, `t1`), so a flat mapping feeds every runtime.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from speccheck.judgement.profile import COUNT, Node
from speccheck.judgement.value_type import MOST_NAMES, SHORT

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["Spelling", "spell"]

_LONGEST = 8000
# The first runtime reads at most 32 levels of brackets, where a bracket with a choice in it costs two, and at
# most 32 operators inside one another.
_DEEPEST_BRACKETS = 14
_DEEPEST_OPERATORS = 30
_MOST_QUANTIFIERS = 8
_RANK = {"choice": 0, "or": 1, "and": 2, "compare": 3, "negate": 6, "not": 6}
_ERROR = 'double("")'
_TEXTS = re.compile(r"\"[^\"]*\"|'[^']*'")


class Spelling(NamedTuple):
    """An expression in strict spelling, and the short name each dotted name has in it."""

    text: str
    short: dict[str, tuple[str, str]]


def spell(root: Node) -> Spelling:
    """Write a read expression in strict spelling.

    Args:
        root: The tree that `read_expression` gives.

    Returns:
        The text for a runtime; for each dotted name its short name and its type.

    Raises:
        ValueError: The strict text is too long or too deep, or reads too many names of one type.

    Example:
        >>> from speccheck.judgement.profile import read_expression
        >>> from speccheck.judgement.value_type import ValueType
        >>> tree = read_expression("wall.r > 2.0 || dry", {"wall.r": ValueType.number, "dry": ValueType.truth},
        ...                        ValueType.truth)
        >>> spell(tree).text
        'n0 > 2.0 || b0'
    """
    writer = _Writer()
    text = writer.write(root)
    if len(text) > _LONGEST or _brackets(text) > _DEEPEST_BRACKETS or _operators(root) > _DEEPEST_OPERATORS:
        raise ValueError("the expression is too involved; split it into several rules")
    if writer.quantifiers > _MOST_QUANTIFIERS:
        raise ValueError(f"an expression holds at most {_MOST_QUANTIFIERS} quantifiers")
    return Spelling(text, writer.short)


def _brackets(text: str) -> int:
    """Count the deepest nesting of brackets; without looking closely where it cannot be deep."""
    if text.count("(") + text.count("[") <= _DEEPEST_BRACKETS:
        return 0
    depth = deepest = 0
    for letter in _TEXTS.sub("", text):
        depth += (letter in "([") - (letter in ")]")
        deepest = max(deepest, depth)
    return deepest


def _operators(node: Node, inside: bool = False) -> int:
    """Count, rather too many than too few, the operators inside one another in the strict spelling."""
    own = (
        len(node.parts).bit_length() if node.kind in ("or", "and") else 3 if node.kind == "quantifier" else 1
    )
    if _is_arithmetic(node) and not inside:
        own += 3 + (2 + 2 * sum(1 for _ in _divisors(node))).bit_length()
    arithmetic = _is_arithmetic(node)
    return own + max((_operators(part, arithmetic) for part in node.parts), default=0)


class _Writer:
    def __init__(self) -> None:
        self.short: dict[str, tuple[str, str]] = {}
        self.quantifiers = 0
        self.taken = dict.fromkeys(SHORT, 0)

    def write(self, node: Node, least: int = 0) -> str:
        """Spell a node, in brackets when it binds less tightly than its place asks for."""
        if _is_arithmetic(node):
            return self.guarded(node, least)
        text: str = getattr(self, f"_{node.kind}")(node)
        rank = _RANK.get(node.kind, 7)
        if node.kind in ("or", "and") and _can_fail(node):
            rank = 0
        elif node.kind == "quantifier":
            rank = 6 if node.word == "all" else 3
        return f"({text})" if rank < least else text

    # -- arithmetic ----------------------------------------------------------------------------------------

    def guarded(self, node: Node, least: int) -> str:
        """Spell a whole arithmetic term with its guard; a bare negative number needs none."""
        text = self.plain(node)
        if node.kind == "negate" and not _is_arithmetic(node.parts[0]):
            return f"({text})" if least > 6 else text
        checks = [f"({text}) * 0.0 == 0.0"]
        for divisor in _divisors(node):
            part = self.plain(divisor, 4)
            checks.append(f"{part} != 0.0")
            if _is_arithmetic(divisor):
                checks.append(f"({part}) * 0.0 == 0.0")
        return f"({' && '.join(checks)} ? {text} : {_ERROR})"

    def plain(self, node: Node, least: int = 0) -> str:
        """Spell arithmetic without guards of its own; other nodes inside it keep theirs."""
        if node.kind == "negate":
            text, rank = "-" + self.plain(node.parts[0], 7), 6
        elif node.kind == "arithmetic":
            rank = 4 if node.word in "+-" else 5
            text = f"{self.plain(node.parts[0], rank)} {node.word} {self.plain(node.parts[1], rank + 1)}"
        else:
            return self.write(node, least)
        return f"({text})" if rank < least else text

    # -- one method for each kind of node ------------------------------------------------------------------

    def _literal(self, node: Node) -> str:
        return node.word

    def _name(self, node: Node) -> str:
        if node.word not in self.short:
            number = self.taken[node.type]
            if number >= MOST_NAMES:
                raise ValueError(f"the expression reads more than {MOST_NAMES} names of the type {node.type}")
            self.taken[node.type] = number + 1
            self.short[node.word] = (f"{SHORT[node.type]}{number}", node.type)
        return self.short[node.word][0]

    def _element(self, _: Node) -> str:
        return "each"

    def _list(self, node: Node) -> str:
        return f"[{', '.join(self.write(part) for part in node.parts)}]"

    def _key(self, node: Node) -> str:
        return f'{self.write(node.parts[0], 7)}["{node.word}"]'

    def _size(self, node: Node) -> str:
        return f"size({self.write(node.parts[0])})"

    def _double(self, node: Node) -> str:
        inner = node.parts[0]
        return f"double({self.write(inner)})" if inner.type == COUNT else f"({self.write(inner)})"

    def _method(self, node: Node) -> str:
        return f"{self.write(node.parts[0], 7)}.{node.word}({self.write(node.parts[1])})"

    def _not(self, node: Node) -> str:
        return "!" + self.write(node.parts[0], 7)

    def _compare(self, node: Node) -> str:
        return f"{self.write(node.parts[0], 4)} {node.word} {self.write(node.parts[1], 4)}"

    def _choice(self, node: Node) -> str:
        condition, one, other = node.parts
        return f"{self.write(condition, 1)} ? {self.write(one, 1)} : {self.write(other, 1)}"

    def _or(self, node: Node) -> str:
        return self._logic(node, " || ")

    def _and(self, node: Node) -> str:
        return self._logic(node, " && ")

    def _logic(self, node: Node, sign: str) -> str:
        if _can_fail(node):
            return self._in_order([self.write(part, 1) for part in node.parts], node.kind)
        return sign.join(self.write(part, 3) for part in node.parts)

    def _in_order(self, parts: list[str], kind: str) -> str:
        """Join by halves, so that a long chain stays shallow."""
        if len(parts) == 1:
            return parts[0]
        middle = len(parts) // 2
        left, right = self._in_order(parts[:middle], kind), self._in_order(parts[middle:], kind)
        left = f"({left})" if middle > 1 else left
        right = f"({right})" if len(parts) - middle > 1 else right
        return f"{left} ? true : {right}" if kind == "or" else f"{left} ? {right} : false"

    def _quantifier(self, node: Node) -> str:
        self.quantifiers += 1
        over, body = self.write(node.parts[0], 7), self.write(node.parts[1])
        match node.word:
            case "exists":
                return f"true in {over}.map(each, {body})"
            case "all":
                return f"!(false in {over}.map(each, {body}))"
            case _:
                return f"size({over}.filter(each, {body})) == 1"


def _is_arithmetic(node: Node) -> bool:
    return node.kind in ("arithmetic", "negate")


def _can_fail(node: Node) -> bool:
    """Tell whether evaluating a node can end in an error: arithmetic, or a key an option may lack."""
    return node.kind in ("arithmetic", "key") or any(_can_fail(part) for part in node.parts)


def _divisors(node: Node) -> Iterator[Node]:
    """Give the divisors inside an arithmetic term that are no literal (a literal zero is one to watch)."""
    if not _is_arithmetic(node):
        return
    if node.word == "/":
        divisor = node.parts[1]
        if divisor.kind != "literal" or float(divisor.word) == 0.0:
            yield divisor
    for part in node.parts:
        yield from _divisors(part)
