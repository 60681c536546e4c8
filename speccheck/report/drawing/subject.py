"""What is drawn, as plain data: the layers of a section, and a finished drawing with the words that describe it."""

from typing import NamedTuple

__all__ = ["CONTROLS", "Drawing", "DrawnLayer", "DrawnMember"]

CONTROLS = (("water", "Water"), ("air", "Air"), ("vapour", "Vapour"), ("thermal", "Heat"))
"""What a layer may control, as documents name it and as drawings word it, in the order in which it matters."""


class DrawnMember(NamedTuple):
    """Framing that crosses a layer: width and spacing [m], None where not shown; metal or wood."""

    width: float | None
    spacing: float | None
    metal: bool


class DrawnLayer(NamedTuple):
    """One layer of a section, inside first.

    ``number`` stands in the tag and in the key; ``thickness`` [m] is None where it is not shown or where the layer is
    judged as a whole. ``hatch`` is a key of ``HATCHES``; ``sheet`` layers are drawn as lines. ``vented`` says that air
    moves along it, ``plane`` that its inner face is the condensing plane.
    """

    number: int
    name: str
    thickness: float | None
    hatch: str
    sheet: bool
    controls: tuple[str, ...] = ()
    member: DrawnMember | None = None
    vented: bool = False
    plane: bool = False


class Drawing(NamedTuple):
    """A finished drawing: its SVG, its short name and the words that say what it shows."""

    svg: str
    title: str
    description: str
