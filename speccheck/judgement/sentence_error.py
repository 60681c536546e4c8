"""What a sentence says of a value that is missing, and the error of a sentence that cannot be used."""

__all__ = ["NOT_SHOWN", "SentenceError"]

NOT_SHOWN = "not shown"


class SentenceError(ValueError):
    """What is wrong with a sentence, and where in it.

    Args:
        what: What is wrong and what is expected, in one plain sentence.
        offset: Place in the text, in characters from its beginning.
    """

    def __init__(self, what: str, offset: int = 0) -> None:
        self.what = what
        self.offset = offset
        super().__init__(what)
