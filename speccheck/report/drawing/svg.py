"""Writing SVG: elements with rounded numbers and escaped text, and nothing that a document could slip in."""

from collections.abc import Iterable
from html import escape
from itertools import pairwise

__all__ = ["Canvas", "number"]

_PRINTABLE_CONTROLS = "\t\n"
_SHORT = 3


def number(value: float) -> str:
    """Write a coordinate with at most one decimal, so that the same drawing gives the same bytes everywhere."""
    text = f"{value:.1f}"
    text = text.removesuffix(".0")
    return "0" if text == "-0" else text


def _step(tenths: int) -> str:
    """Write a distance in tenths as short as a path allows, such as ``.7``, with what parts it from the last."""
    text = number(tenths / 10).replace("0.", ".") if abs(tenths) < 10 else number(tenths / 10)
    return text if text.startswith("-") else f" {text}"


def _class(cls: str) -> str:
    return f' class="{cls}"' if cls else ""


def clean(text: str) -> str:
    """Escape text for XML; characters that XML forbids become a visible mark."""
    kept = "".join(c if c >= " " or c in _PRINTABLE_CONTROLS else "\N{REPLACEMENT CHARACTER}" for c in text)
    return escape(kept, quote=True)


class Canvas:
    """Elements of a drawing, in the order in which they are painted."""

    def __init__(self, width: float, id_: str) -> None:
        self.width = width
        self.id = id_
        self.parts: list[str] = []

    def rect(self, x: float, y: float, width: float, height: float, cls: str, fill: str = "") -> None:
        """Add a rectangle; ``fill`` names a hatch."""
        paint = f' fill="url(#h-{fill})"' if fill else ""
        self.parts.append(
            f'<rect x="{number(x)}" y="{number(y)}" width="{number(width)}" height="{number(height)}" '
            f'class="{cls}"{paint}/>'
        )

    def line(self, x1: float, y1: float, x2: float, y2: float, cls: str) -> None:
        """Add a straight line."""
        self.parts.append(
            f'<line x1="{number(x1)}" y1="{number(y1)}" x2="{number(x2)}" y2="{number(y2)}" class="{cls}"/>'
        )

    def lines(self, lines: Iterable[tuple[float, float, float, float]], cls: str) -> None:
        """Add straight lines of one look, each from x1, y1 to x2, y2, as one element."""
        path = "".join(f"M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}" for x1, y1, x2, y2 in lines)
        if path:
            self.parts.append(f'<path d="{path}" class="{cls}"/>')

    def polyline(self, points: Iterable[tuple[float, float]], cls: str) -> None:
        """Add a line through points."""
        path = " ".join(f"{number(x)},{number(y)}" for x, y in points)
        self.parts.append(f'<polyline points="{path}" class="{cls}"/>')

    def curve(self, points: Iterable[tuple[float, float]], cls: str) -> None:
        """Add a line through points, each told by its distance from the one before: a page has hundreds of curves."""
        tenths = [(round(x * 10), round(y * 10)) for x, y in points]
        first = " ".join(number(part / 10) for part in tenths[0])
        steps = "".join(
            _step(after[axis] - before[axis]) for before, after in pairwise(tenths) for axis in (0, 1)
        )
        self.parts.append(f'<path d="M{first}l{steps.lstrip()}" class="{cls}"/>')

    def polygon(self, points: Iterable[tuple[float, float]], cls: str) -> None:
        """Add a closed figure."""
        path = " ".join(f"{number(x)},{number(y)}" for x, y in points)
        self.parts.append(f'<polygon points="{path}" class="{cls}"/>')

    def circle(self, x: float, y: float, radius: float, cls: str) -> None:
        """Add a circle."""
        self.parts.append(f'<circle cx="{number(x)}" cy="{number(y)}" r="{number(radius)}" class="{cls}"/>')

    def text(
        self, x: float, y: float, words: str, cls: str = "", anchor: str = "start", *, upright: bool = False
    ) -> None:
        """Add a line of text; one that stands ``upright`` reads from below."""
        at = "" if anchor == "start" else f' text-anchor="{anchor}"'
        if upright:
            at += f' transform="rotate(-90 {number(x)} {number(y)})"'
        self.parts.append(f'<text x="{number(x)}" y="{number(y)}"{_class(cls)}{at}>{clean(words)}</text>')

    def boxes(self, boxes: Iterable[tuple[float, float, float, float]], cls: str, fill: str = "") -> None:
        """Add rectangles of one look, each x, y, width, height, as one element; ``fill`` names a hatch."""
        path = "".join(
            f"M{number(x)} {number(y)}h{number(w)}v{number(h)}h{number(-w)}z" for x, y, w, h in boxes
        )
        if path:
            paint = f' fill="url(#h-{fill})"' if fill else ""
            self.parts.append(f'<path d="{path}" class="{cls}"{paint}/>')

    def row(self, y: float, cells: Iterable[tuple[float, str]], cls: str = "") -> None:
        """Add short texts in a row as one element, each in the middle of its place; long ones are set closer."""
        told = list(cells)
        cls = " ".join(
            [cls, "row", *(["close"] if any(len(words) > _SHORT for _, words in told) else [])]
        ).strip()
        spans = "".join(f'<tspan x="{number(x)}">{clean(words)}</tspan>' for x, words in told)
        self.parts.append(f'<text y="{number(y)}" class="{cls}">{spans}</text>')

    def open_group(self, cls: str) -> None:
        """Begin a group; what follows belongs to it until it is closed."""
        self.parts.append(f'<g class="{cls}">')

    def close_group(self) -> None:
        """End the group begun last."""
        self.parts.append("</g>")

    def finish(self, height: float, title: str, description: str) -> str:
        """Return the drawing with its title and description for those who do not see it."""
        id_ = clean(self.id)
        head = (
            f'<svg class="drawing" role="img" viewBox="0 0 {number(self.width)} {number(height)}" '
            f'aria-labelledby="{id_}-t {id_}-d"><title id="{id_}-t">{clean(title)}</title>'
            f'<desc id="{id_}-d">{clean(description)}</desc>'
        )
        return head + "".join(self.parts) + "</svg>"
