"""What would mend a finding, said so that choices, of which one will do, are told from steps that belong together."""

from collections.abc import Iterator, Sequence

__all__ = ["heading", "joined", "led"]

_JOINT = {"choices": "Or:", "steps": "And:"}
"""What stands before the second entry and each after it."""


def led(do: Sequence[str], do_is: str) -> Iterator[tuple[str, str]]:
    """Yield each remedy with the word that leads to it: ``Do:``, then ``Or:`` or ``And:``."""
    for number, remedy in enumerate(do):
        yield (_JOINT[do_is] if number else "Do:"), remedy


def joined(do: Sequence[str], do_is: str) -> str:
    """Return the remedies as one run of text.

    Example:
        >>> joined(("Add insulation.", "Open the outside."), "choices")
        'Add insulation. Or: Open the outside.'
    """
    return f" {_JOINT.get(do_is, '')} ".join(do)


def heading(do: Sequence[str], do_is: str) -> str:
    """Return what stands over a list of remedies: what to do, and whether it is one of them or all."""
    return f"What to do: {'all' if do_is == 'steps' else 'one'} of these" if len(do) > 1 else "What to do"
