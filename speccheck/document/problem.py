"""What keeps a document from being read: where it stands, what is wrong, what was expected, what to do."""

from dataclasses import dataclass

__all__ = ["Mark", "Path", "Problem", "Unreadable", "printable", "where"]

Path = tuple[str | int, ...]
"""The way from the top of a document to a value: keys and list positions."""

_LONGEST = 300


@dataclass(frozen=True, slots=True, order=True)
class Mark:
    """A place in a file, line and column counted from 1."""

    line: int
    column: int


def where(path: Path) -> str:
    """Write a path for a person.

    Example:
        >>> where(("assemblies", "wall", "layers", 2, "thickness"))
        'assemblies.wall.layers[2].thickness'
    """
    text = ""
    for step in path:
        text += f"[{step}]" if isinstance(step, int) else f".{step}" if text else step
    return text


def printable(text: str, longest: int = _LONGEST) -> str:
    r"""Return the text safe for a terminal: control and other unprintable characters escaped, cut when long.

    Example:
        >>> printable("red \x1b[31m")
        'red \\x1b[31m'
    """
    if len(text) > longest:
        text = text[: longest - 1] + "…"
    if text.isprintable():
        return text
    return "".join(
        character if character.isprintable() else character.encode("unicode_escape").decode("ascii")
        for character in text
    )


@dataclass(frozen=True, slots=True)
class Problem:
    """One reason why a document cannot be read as it stands.

    Args:
        what: what is wrong, without a full stop.
        expected: what was expected, without a full stop; may be empty.
        do: what to do, without a full stop; may be empty.
        path: the way to the value, empty when the file as a whole is meant.
        mark: the place in the file, None when there is none.
        file: name of the file as the user gave it.
    """

    what: str
    expected: str = ""
    do: str = ""
    path: Path = ()
    mark: Mark | None = None
    file: str = ""

    @property
    def where(self) -> str:
        """Return the path in words, such as `assemblies.wall.layers[2].thickness`."""
        return printable(where(self.path))

    def text(self) -> str:
        """Return one paragraph: `file:line:column: what. Expected ... . Do: ...`, safe for a terminal.

        Example:
            >>> Problem("'5' has no unit", "a length", "write 5 mm", (), Mark(3, 8), "wall.yaml").text()
            "wall.yaml:3:8: '5' has no unit. Expected a length. Do: write 5 mm."
        """
        place = printable(self.file) or "input"
        place += (
            f":{self.mark.line}:{self.mark.column}" if self.mark else f": {self.where}" if self.path else ""
        )
        sentences = [self.what]
        sentences += [f"Expected {self.expected}"] if self.expected else []
        sentences += [f"Do: {self.do}"] if self.do else []
        return f"{place}: " + " ".join(_stopped(printable(sentence)) for sentence in sentences)


def _stopped(sentence: str) -> str:
    """End a sentence with a full stop, unless it ends with a mark of its own."""
    return sentence if sentence.endswith(("?", "!", ".", "…")) else f"{sentence}."


class Unreadable(Exception):  # noqa: N818 - it names a state of the input
    """The input cannot be read at all; `problems` say why."""

    def __init__(self, *problems: Problem) -> None:
        super().__init__(*problems)
        self.problems = problems

    def __str__(self) -> str:
        return "\n".join(problem.text() for problem in self.problems)
