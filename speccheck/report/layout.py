"""Laying out plain text for a terminal: wrapping, hanging indents, and nothing that could steer the terminal."""

from textwrap import TextWrapper

from speccheck.document.problem import printable

__all__ = ["Sheet"]

_LONG_LEAD = 12


class Sheet:
    """Lines of a page of a given width."""

    def __init__(self, width: int = 80) -> None:
        self.width = max(40, min(width, 120))
        self.lines: list[str] = []

    def line(self, text: str = "") -> None:
        """Add one line, control characters escaped; where it is too long its rest hangs on the next."""
        self.lines.extend(self._wrapped(printable(text, 10_000), "", "    ") or [""])

    def blank(self) -> None:
        """Add an empty line where the last is not empty."""
        if self.lines and self.lines[-1]:
            self.lines.append("")

    def wrap(self, text: str, indent: int = 0, lead: str = "") -> None:
        """Add a paragraph; ``lead`` stands before its first line and the rest hangs under its end."""
        lead = printable(lead, 10_000)
        if indent + len(lead) > self.width - _LONG_LEAD:
            # no room is left beside the lead: it becomes the beginning of the paragraph
            text, lead = f"{lead.rstrip()} {text}", ""
        first = " " * indent + lead
        # a long lead would squeeze the rest of the paragraph into a narrow column
        hang = len(first) if 0 < len(lead) <= _LONG_LEAD else indent + 4 * bool(lead)
        self.lines.extend(self._wrapped(printable(text, 10_000), first, " " * hang) or [first.rstrip()])

    def _wrapped(self, text: str, first: str, rest: str) -> list[str]:
        wrapper = TextWrapper(
            width=self.width,
            initial_indent=first,
            subsequent_indent=rest,
            break_long_words=True,
            break_on_hyphens=False,
        )
        return [line.rstrip() for line in wrapper.wrap(text)]

    def heading(self, text: str) -> None:
        """Add a heading underlined by its length."""
        self.blank()
        words = self._wrapped(printable(text, 500), "", "") or [""]
        self.lines.extend(words)
        self.lines.append("-" * max(map(len, words)))

    def text(self) -> str:
        """Return the page."""
        return "\n".join(self.lines).rstrip() + "\n"
