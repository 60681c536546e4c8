"""The reduced profile of the expression language: reads an expression into a typed tree, or refuses it.

Expressions are Common Expression Language. A rule pack may use a part of it only, the part that reads the
same in every runtime and cannot run away: comparisons, logic, arithmetic on numbers, `in`, `? :`, `size` of
a list, `double`, `startsWith`, `endsWith`, `contains`, and the quantifiers `exists`, `all`, `exists_one` over
one list at a time. Numbers carry a decimal point; a whole number is a count, for `size(...)` to compare with.
"""

from __future__ import annotations

from math import isfinite
from typing import TYPE_CHECKING, NamedTuple

from speccheck.judgement.expression_error import ExpressionError
from speccheck.judgement.tokens import Token, read_tokens
from speccheck.judgement.value_type import ValueType

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

__all__ = ["COUNT", "NUMBERS", "OPTION", "Node", "read_expression"]

# Types that live inside an expression only.
COUNT = "count"
OPTION = "option"
NUMBERS = "numbers"

_ELEMENT = {"texts": "text", "options": OPTION, NUMBERS: "number"}
_LIST_OF = {"text": "texts", "number": NUMBERS}
_WORDED = {
    "number": "a number (with a decimal point)",
    "text": "a text",
    "truth": "true or false",
    "texts": "a list of texts",
    "options": "a list of options",
    COUNT: "a count (a whole number)",
    OPTION: "an option",
    NUMBERS: "a list of numbers",
}
_RESERVED = frozenset(
    {"as", "break", "const", "continue", "else", "false", "for", "function", "if", "import", "in", "let"}
    | {"loop", "namespace", "null", "package", "return", "true", "var", "void", "while"}
)
_QUANTIFIERS = ("exists", "all", "exists_one")
_TEXT_METHODS = ("startsWith", "endsWith", "contains")
_COMPARISONS = ("==", "!=", "<", "<=", ">", ">=", "in")
DEEPEST = 16
MOST_WHOLE = 1_000_000


class Node(NamedTuple):
    """One node of a read expression: what it is, the type it gives, its place, its word and its parts."""

    kind: str
    type: str
    at: int
    word: str = ""
    parts: tuple[Node, ...] = ()


def read_expression(source: str, declared: Mapping[str, ValueType], result: ValueType) -> Node:
    """Read an expression, check it against the profile and the declared names, and give its tree.

    Args:
        source: The expression, at most 500 characters and 16 levels of nesting.
        declared: The dotted names the expression may read, with their types.
        result: The type the whole expression must have.

    Returns:
        The root of the typed tree.

    Raises:
        ExpressionError: Syntax outside the profile, an undeclared name, a wrong type; with the offset.

    Example:
        >>> read_expression("wall.r >= 2.0", {"wall.r": ValueType.number}, ValueType.truth).kind
        'compare'
    """
    reader = _Reader(source, declared)
    root = reader.choice()
    end = reader.peek()
    if end.kind != "end":
        raise reader.error(f"nothing is expected after the expression, but {end.text!a} follows", end.at)
    if root.type != result:
        raise reader.error(f"the expression gives {_WORDED[root.type]}; expected: {_WORDED[result]}", root.at)
    return root


class _Reader:
    """Recursive descent over the tokens, one method for each level of precedence."""

    def __init__(self, source: str, declared: Mapping[str, ValueType]) -> None:
        self.source = source
        self.declared = declared
        self.tokens = read_tokens(source)
        self.next = 0
        self.depth = 0
        self.bound: tuple[str, str] | None = None

    # -- tokens --------------------------------------------------------------------------------------------

    def peek(self) -> Token:
        return self.tokens[self.next]

    def take(self) -> Token:
        token = self.tokens[self.next]
        self.next += token.kind != "end"
        return token

    def take_if(self, sign: str) -> bool:
        token = self.tokens[self.next]
        found = token.kind == "sign" and token.text == sign
        self.next += found
        return found

    def expect(self, sign: str) -> None:
        token = self.peek()
        if not self.take_if(sign):
            raise self.error(
                f"expected {sign!a}, found {token.text!a}" if token.text else f"expected {sign!a}", token.at
            )

    def error(self, what: str, at: int) -> ExpressionError:
        return ExpressionError(what, at, self.source)

    def want(self, node: Node, *types: str) -> Node:
        if node.type not in types:
            wanted = " or ".join(_WORDED[kind] for kind in types)
            raise self.error(f"this is {_WORDED[node.type]}; expected: {wanted}", node.at)
        return node

    # -- operators -----------------------------------------------------------------------------------------

    def choice(self) -> Node:
        self.depth += 1
        if self.depth > DEEPEST:
            raise self.error(f"the expression is nested deeper than {DEEPEST} levels", self.peek().at)
        node = self.chain("||", "or", lambda: self.chain("&&", "and", self.comparison))
        if self.take_if("?"):
            self.want(node, "truth")
            one = self.chain("||", "or", lambda: self.chain("&&", "and", self.comparison))
            self.expect(":")
            other = self.choice()
            self.want(one, "number", "text", "truth")
            self.want(other, one.type)
            node = Node("choice", one.type, node.at, "?", (node, one, other))
        self.depth -= 1
        return node

    def chain(self, sign: str, kind: str, lower: Callable[[], Node]) -> Node:
        first = lower()
        parts = [first]
        while self.take_if(sign):
            parts.append(lower())
        if len(parts) == 1:
            return first
        for part in parts:
            self.want(part, "truth")
        return Node(kind, "truth", first.at, sign, tuple(parts))

    def comparison(self) -> Node:
        left = self.sum()
        while (token := self.peek()).text in _COMPARISONS and token.kind in ("sign", "name"):
            self.take()
            right = self.sum()
            left = self.membership(left, right) if token.text == "in" else self.compared(token, left, right)
        return left

    def membership(self, left: Node, right: Node) -> Node:
        self.want(right, "texts", NUMBERS, OPTION)
        self.want(left, "number" if right.type == NUMBERS else "text")
        return Node("compare", "truth", left.at, "in", (left, right))

    def compared(self, token: Token, left: Node, right: Node) -> Node:
        same = token.text in ("==", "!=")
        self.want(left, *(("number", COUNT, "text", "truth") if same else ("number", COUNT)))
        self.want(right, left.type)
        return Node("compare", "truth", left.at, token.text, (left, right))

    def sum(self) -> Node:
        return self.arithmetic(("+", "-"), lambda: self.arithmetic(("*", "/"), self.unary))

    def arithmetic(self, signs: tuple[str, str], lower: Callable[[], Node]) -> Node:
        left = lower()
        while (token := self.peek()).kind == "sign" and token.text in signs:
            self.take()
            right = lower()
            self.want(left, "number")
            self.want(right, "number")
            left = Node("arithmetic", "number", left.at, token.text, (left, right))
        return left

    def unary(self) -> Node:
        token = self.peek()
        if token.kind != "sign" or token.text not in "!-":
            return self.member()
        self.take()
        following = self.peek()
        if following.kind == "sign" and following.text in "!-":
            raise self.error(f"put brackets between {token.text!a} and {following.text!a}", following.at)
        inner = self.want(self.member(), "truth" if token.text == "!" else "number")
        return Node("not" if token.text == "!" else "negate", inner.type, token.at, token.text, (inner,))

    # -- members -------------------------------------------------------------------------------------------

    def member(self) -> Node:
        node = self.primary()
        while True:
            if self.take_if("."):
                name = self.take()
                node = self.method(node, name) if self.take_if("(") else self.key(node, name.text, name)
            elif self.take_if("["):
                name = self.take()
                node = self.key(node, name.text[1:-1] if name.kind == "text" else "", name)
                self.expect("]")
            else:
                return node

    def key(self, node: Node, key: str, token: Token) -> Node:
        if node.type != OPTION:
            raise self.error("only the options inside a quantifier have keys", token.at)
        if not key.isidentifier() or not key.isascii() or key in _RESERVED:
            raise self.error("a key is a plain name, or a text that holds one", token.at)
        return Node("key", "number", node.at, key, (node,))

    def method(self, node: Node, name: Token) -> Node:
        if name.text in _QUANTIFIERS:
            return self.quantifier(node, name)
        if name.text == "size":
            self.expect(")")
            return self.size(node, name)
        if name.text not in _TEXT_METHODS:
            raise self.error(f"{name.text!a} is not among the functions of the profile", name.at)
        self.want(node, "text")
        argument = self.want(self.choice(), "text")
        self.expect(")")
        return Node("method", "truth", node.at, name.text, (node, argument))

    def size(self, node: Node, name: Token) -> Node:
        self.want(node, *_ELEMENT)
        return Node("size", COUNT, name.at, "size", (node,))

    def quantifier(self, over: Node, name: Token) -> Node:
        self.want(over, *_ELEMENT)
        if self.bound is not None:
            raise self.error("a quantifier does not stand inside another", name.at)
        variable = self.take()
        word = variable.text
        if variable.kind != "name" or word in _RESERVED:
            raise self.error("a quantifier begins with the name of its element", variable.at)
        if any(known == word or known.startswith(word + ".") for known in self.declared):
            raise self.error(f"{word!a} is already the name of something declared", variable.at)
        self.expect(",")
        self.bound = (word, _ELEMENT[over.type])
        body = self.want(self.choice(), "truth")
        self.bound = None
        self.expect(")")
        return Node("quantifier", "truth", over.at, name.text, (over, body))

    def primary(self) -> Node:
        token = self.take()
        match token.kind:
            case "number":
                return self.number(token)
            case "whole":
                return self.whole(token)
            case "text":
                return Node("literal", "text", token.at, token.text)
            case "name":
                return self.name(token)
        if token.text == "(" and token.kind == "sign":
            node = self.choice()
            self.expect(")")
            return node
        if token.text == "[":
            return self.listed(token)
        found = f"found {token.text!a}" if token.text else "the expression ends here"
        raise self.error(f"a value is expected; {found}", token.at)

    def number(self, token: Token) -> Node:
        value = float(token.text)
        if not isfinite(value):
            raise self.error("this number is too large", token.at)
        # Spelled anew so that every runtime reads the same digits: 1e5 -> 1.0e5.
        digits, _, power = repr(value).partition("e")
        digits += "" if "." in digits else ".0"
        return Node("literal", "number", token.at, f"{digits}e{power}" if power else digits)

    def whole(self, token: Token) -> Node:
        if len(token.text) > len(str(MOST_WHOLE)) or int(token.text) > MOST_WHOLE:
            raise self.error(
                f"a count is at most {MOST_WHOLE}; write other numbers with a decimal point", token.at
            )
        return Node("literal", COUNT, token.at, str(int(token.text)))

    def listed(self, token: Token) -> Node:
        items = [self.choice()]
        while self.take_if(","):
            items.append(self.choice())
        self.expect("]")
        self.want(items[0], *_LIST_OF)
        for item in items:
            self.want(item, items[0].type)
        return Node("list", _LIST_OF[items[0].type], token.at, "[", tuple(items))

    def name(self, token: Token) -> Node:
        word = token.text
        if word in ("true", "false"):
            return Node("literal", "truth", token.at, word)
        if word in _RESERVED:
            raise self.error(f"{word!a} has no meaning here", token.at)
        if self.peek().text == "(" and self.peek().kind == "sign":
            return self.function(token)
        if self.bound is not None and word == self.bound[0]:
            return Node("element", self.bound[1], token.at, word)
        dotted = self.dotted(word)
        kind = self.declared.get(dotted)
        if kind is None:
            raise self.error(f"nothing is declared under the name {dotted!a}", token.at)
        return Node("name", kind.value, token.at, dotted)

    def dotted(self, first: str) -> str:
        """Follow `.part` as long as it is no method call."""
        words = [first]
        while self.peek().text == "." and self.peek().kind == "sign":
            part, after = self.tokens[self.next + 1], self.tokens[min(self.next + 2, len(self.tokens) - 1)]
            if part.kind != "name" or (after.kind == "sign" and after.text == "("):
                break
            words.append(part.text)
            self.next += 2
        return ".".join(words)

    def function(self, token: Token) -> Node:
        self.take()
        if token.text not in ("size", "double"):
            raise self.error(f"{token.text!a} is not among the functions of the profile", token.at)
        argument = self.choice()
        self.expect(")")
        if token.text == "size":
            return self.size(argument, token)
        self.want(argument, COUNT, "number")
        return Node("double", "number", token.at, "double", (argument,))
