"""What is wrong with an expression, and where in it."""

__all__ = ["ExpressionError"]


class ExpressionError(ValueError):
    """What is wrong with an expression, and where in it.

    Args:
        what: What is wrong and what is expected, in one plain sentence.
        offset: Place in the source, in characters from its beginning [0 .. length].
        source: The expression; `line` and `column` (both from 1) are counted in it.
    """

    def __init__(self, what: str, offset: int = 0, source: str = "") -> None:
        self.what = what
        self.offset = max(0, min(offset, len(source)))
        self.source = source
        before = source[: self.offset]
        self.line = before.count("\n") + 1
        self.column = self.offset - (before.rfind("\n") + 1) + 1
        super().__init__(f"{what} (line {self.line}, column {self.column})")
