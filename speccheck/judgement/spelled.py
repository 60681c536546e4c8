"""An expression as a runtime takes it: read, type-checked and spelled when a pack is compiled, and kept with it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from speccheck.judgement.profile import Node
    from speccheck.judgement.value_type import ValueType

__all__ = ["Spelled", "spelled", "spelled_from_plain"]


class Spelled(NamedTuple):
    """An expression in strict spelling.

    Attributes:
        text: what a runtime compiles.
        names: short name to dotted name.
        keys: name of the options and key, for each key the expression reads.
    """

    text: str
    names: Mapping[str, str]
    keys: tuple[tuple[str, str], ...] = ()

    def plain(self) -> list[Any]:
        """Return plain data for a compiled copy."""
        kept: list[Any] = [self.text, dict(self.names)]
        return [*kept, [list(pair) for pair in self.keys]] if self.keys else kept


def spelled_from_plain(plain: Sequence[Any]) -> Spelled:
    """Return what :meth:`Spelled.plain` made plain."""
    text, names, *keys = plain
    return Spelled(text, names, tuple((over, key) for over, key in keys[0]) if keys else ())


def spelled(source: str, declared: Mapping[str, ValueType], result: ValueType) -> Spelled:
    """Read an expression, check its types and spell it.

    Args:
        source: The expression, at most 500 characters.
        declared: The dotted names it may read, with their types.
        result: The type of its answer.

    Raises:
        ExpressionError: Syntax outside the profile, an undeclared name, a wrong type; with the offset.

    Example:
        >>> from speccheck.judgement.value_type import ValueType
        >>> spelled("wall.r > 2.0 || dry", {"wall.r": ValueType.number, "dry": ValueType.truth}, ValueType.truth)
        Spelled(text='n0 > 2.0 || b0', names={'n0': 'wall.r', 'b0': 'dry'}, keys=())
    """
    from speccheck.judgement.expression_error import ExpressionError
    from speccheck.judgement.profile import read_expression
    from speccheck.judgement.strict import spell

    tree = read_expression(source, declared, result)
    try:
        spelling = spell(tree)
    except ValueError as problem:
        raise ExpressionError(str(problem), tree.at, source) from problem
    names = {short: name for name, (short, _) in spelling.short.items()}
    return Spelled(spelling.text, names, tuple(dict.fromkeys(_keys_read(tree))))


def _keys_read(node: Node, over: str = "") -> list[tuple[str, str]]:
    """List (name of the options, key) for each key the expression reads."""
    if node.kind == "key":
        return [(over, node.word)]
    if node.kind == "quantifier":
        over = node.parts[0].word
    return [pair for part in node.parts for pair in _keys_read(part, over)]
