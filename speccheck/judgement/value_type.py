"""The types a value of an expression can have, and the letter that names of each begin with in strict spelling."""

from enum import StrEnum

__all__ = ["MOST_NAMES", "SHORT", "ValueType"]


class ValueType(StrEnum):
    """What a declared name, or a whole expression, can hold."""

    number = "number"
    text = "text"
    truth = "truth"
    texts = "texts"
    options = "options"


SHORT = {"number": "n", "text": "t", "truth": "b", "texts": "l", "options": "o"}
MOST_NAMES = 24
"""Names of one type that an expression may read."""
