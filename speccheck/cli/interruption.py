"""What to say when a run is interrupted: whether anything had been written by then."""

__all__ = ["INTERRUPTED", "interruption_words", "writing"]

INTERRUPTED = 130
"""Exit status of a run that was interrupted from the keyboard: 128 and the number of the signal."""
_begun: list[bool] = []


def writing() -> None:
    """Note that output is about to leave: from here on an interruption may leave some of it behind."""
    _begun.append(True)


def interruption_words() -> str:
    """Return what to say of an interruption."""
    if _begun:
        return "interrupted while the report was being written; it may not be whole"
    return "interrupted; nothing was written"
