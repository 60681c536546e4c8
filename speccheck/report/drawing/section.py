"""The section of an assembly drawn to scale, with tags, dimensions and what each layer controls."""

from collections.abc import Sequence
from typing import NamedTuple

from speccheck.quantity import System, show
from speccheck.report.drawing.frame import Extent, Frame, extents, spread
from speccheck.report.drawing.hatch import HATCHES, looped, patterned
from speccheck.report.drawing.subject import CONTROLS, Drawing, DrawnLayer
from speccheck.report.drawing.svg import Canvas

__all__ = ["WIDTH", "Laid", "draw_section", "draw_tags", "lay_out"]

WIDTH = 360.0
"""Width of every drawing in its own units: that of a small telephone.

Text is 12 units high everywhere, so that with the margins of the page it is still 11 pixels on that telephone.
"""

STAND_LEFT, STAND_LENGTH = 46.0, 272.0
"""Where the depth of a standing section begins and how long it is; the lines use the same, with axes on both sides."""

LIE_LENGTH = 230.0
_BREADTH = 132.0
_TAG = 8.5
_TAG_STEP = 19.0
_ROW = 18.0
_DIGIT = 6.6
_MOST_LOOSE = 8
_SCALE_BARS: dict[System, tuple[tuple[float, str], ...]] = {
    "both": ((1.0, "1 m / 39 in"), (0.2, "200 mm / 8 in"), (0.1, "100 mm / 4 in"), (0.025, "25 mm / 1 in")),
    "si": ((1.0, "1 m"), (0.2, "200 mm"), (0.1, "100 mm"), (0.025, "25 mm")),
    "us": ((0.9144, "3 ft"), (0.2032, "8 in"), (0.1016, "4 in"), (0.0254, "1 in")),
}


class Laid(NamedTuple):
    """A section laid out on its sheet: frame, extents, scale [units per metre] and rows of tags."""

    frame: Frame
    extents: Sequence[Extent]
    scale: float
    rows: int


def lay_out(layers: Sequence[DrawnLayer], kind: str) -> Laid:
    """Return where the layers of an assembly of a kind lie on the sheet."""
    lying = kind not in ("wall", "below-grade-wall")
    length = LIE_LENGTH if lying else STAND_LENGTH
    rows = max(1, -(-len(layers) * int(_TAG_STEP) // int(length)))
    room = rows * _TAG_STEP + 12
    if lying:
        frame = Frame(True, kind in ("roof", "ceiling"), room + 2, 36.0, LIE_LENGTH, 124.0)
    else:
        frame = Frame(False, False, STAND_LEFT, 18 + room, STAND_LENGTH, _BREADTH)
    found, scale = extents(layers, length)
    return Laid(frame, found, scale, rows)


def draw_section(
    layers: Sequence[DrawnLayer], kind: str, name: str, id_: str, system: System = "both"
) -> Drawing:
    """Return the section of an assembly.

    Args:
        layers: inside first, at least one.
        kind: kind of assembly, which tells how the section lies.
        name: what reports call the assembly.
        id_: name of the drawing, unique in its page.
        system: units to show.
    """
    laid = lay_out(layers, kind)
    canvas = Canvas(WIDTH, id_)
    _sides(canvas, laid.frame)
    for layer, extent in zip(layers, laid.extents, strict=True):
        _layer(canvas, laid, layer, extent)
    _outline(canvas, laid)
    draw_tags(canvas, layers, laid)
    dimensions = _dimensions_lying if laid.frame.lying else _dimensions_standing
    bottom = dimensions(canvas, layers, laid, system)
    bottom = (_controls_lying if laid.frame.lying else _controls_standing)(canvas, layers, laid, bottom)
    bottom = _foot(canvas, layers, laid, bottom, system)
    title = f"Section of {name}"
    words = _words(layers, kind, name, system)
    return Drawing(canvas.finish(bottom, title, words), title, words)


def _sides(canvas: Canvas, frame: Frame) -> None:
    if not frame.lying:
        canvas.text(frame.left, 11, "INSIDE", "side")
        canvas.text(frame.left + frame.length, 11, "OUTSIDE", "side", "end")
        return
    above, below = ("OUTSIDE", "INSIDE") if frame.outside_up else ("INSIDE", "OUTSIDE")
    canvas.text(frame.left, frame.top - 8, above, "side")
    canvas.text(frame.left, frame.top + frame.length + 17, below, "side")


def _layer(canvas: Canvas, laid: Laid, layer: DrawnLayer, extent: Extent) -> None:
    frame = laid.frame
    if layer.sheet:
        cls = "coating" if layer.hatch == "coating" else "sheet"
        start, end = frame.at(extent.middle, 0), frame.at(extent.middle, frame.breadth)
        canvas.line(*start, *end, cls)
        return
    box = frame.box(extent.start, extent.end, 0, frame.breadth)
    canvas.rect(*box, "cut", layer.hatch if patterned(layer.hatch) else "")
    if layer.hatch == "batt":
        wave = looped(extent.width, frame.breadth)
        canvas.curve((frame.at(extent.start + depth, across) for depth, across in wave), "wave")
    if layer.hatch == "air" and layer.vented and extent.width >= 5:
        _arrows(canvas, frame, extent)
    if layer.member is not None:
        _member(canvas, laid, layer, extent)
    if layer.thickness is None:
        x, y = frame.at(extent.middle, frame.breadth / 2)
        canvas.circle(x, y, 8, "tag")
        canvas.text(x, y + 4.2, "?", "", "middle")


def _arrows(canvas: Canvas, frame: Frame, extent: Extent) -> None:
    """Draw moving air as arrows along the layer."""
    toward = -1 if not frame.lying else 1
    for middle in (0.25, 0.75):
        tail, head = frame.breadth * middle - 14 * toward, frame.breadth * middle + 14 * toward
        canvas.line(*frame.at(extent.middle, tail), *frame.at(extent.middle, head), "flow")
        reach = min(extent.width / 3, 3.0)
        back = head - 5 * toward
        canvas.polyline(
            (
                frame.at(extent.middle - reach, back),
                frame.at(extent.middle, head),
                frame.at(extent.middle + reach, back),
            ),
            "flow",
        )


def _member(canvas: Canvas, laid: Laid, layer: DrawnLayer, extent: Extent) -> None:
    """Draw one framing member in its width, cut through: crossed for wood, an open channel for metal."""
    member, frame = layer.member, laid.frame
    if member is None:
        return
    width = min((member.width or 0.038) * laid.scale, frame.breadth * 0.6)
    near = frame.breadth - width - frame.breadth * 0.12
    far = near + width
    canvas.rect(*frame.box(extent.start, extent.end, near, far), "channel" if member.metal else "member")
    if member.metal:
        corners = ((extent.end, far), (extent.end, near), (extent.start, near), (extent.start, far))
        canvas.polyline((frame.at(*corner) for corner in corners), "steel")
        return
    canvas.line(*frame.at(extent.start, near), *frame.at(extent.end, far), "cross")
    canvas.line(*frame.at(extent.start, far), *frame.at(extent.end, near), "cross")


def _outline(canvas: Canvas, laid: Laid) -> None:
    frame = laid.frame
    for depth in (0.0, frame.length):
        canvas.line(*frame.at(depth, -4), *frame.at(depth, frame.breadth + 4), "face")


def draw_tags(canvas: Canvas, layers: Sequence[DrawnLayer], laid: Laid) -> None:
    """Draw the numbers of the layers before the section, each with a leader; crowded ones in several rows."""
    frame, rows = laid.frame, laid.rows
    for row in range(rows):
        mine = range(row, len(layers), rows)
        places = spread([laid.extents[i].middle for i in mine], _TAG_STEP, 2.0, frame.length - 2.0)
        out = -(12 + _TAG + (rows - 1 - row) * _TAG_STEP)
        for i, place in zip(mine, places, strict=True):
            middle = laid.extents[i].middle
            knee = -5.0
            canvas.polyline(
                (
                    frame.at(place, out + _TAG),
                    frame.at(place, knee - 3),
                    frame.at(middle, knee),
                    frame.at(middle, 0),
                ),
                "leader",
            )
            x, y = frame.at(place, out)
            canvas.circle(x, y, _TAG, "tag plane-tag" if layers[i].plane else "tag")
            canvas.text(x, y + 4.2, str(layers[i].number), "tag-no", "middle")


def _shown(thickness: float, system: System) -> tuple[str, ...]:
    systems: tuple[System, ...] = ("si", "us") if system == "both" else (system,)
    return tuple(show(thickness, "length", one) for one in systems)


def _dimensions_standing(canvas: Canvas, layers: Sequence[DrawnLayer], laid: Laid, system: System) -> float:
    frame = laid.frame
    base = frame.top + frame.breadth + 10
    canvas.line(frame.left, base, frame.left + frame.length, base, "dim")
    ends = [frame.left + depth for depth in (0.0, *(extent.end for extent in laid.extents))]
    canvas.lines(((x - 2, base + 2, x + 2, base - 2) for x in ends), "tick")
    for layer, extent in zip(layers, laid.extents, strict=True):
        if layer.thickness is None or layer.sheet:
            continue
        told = _shown(layer.thickness, system)
        if extent.width >= _DIGIT * max(map(len, told)):
            for row, words in enumerate(told):
                canvas.text(frame.left + extent.middle, base + 14 + 13 * row, words, "", "middle")
    return base + 36


def _dimensions_lying(canvas: Canvas, layers: Sequence[DrawnLayer], laid: Laid, system: System) -> float:
    frame = laid.frame
    x = frame.left + frame.breadth + 8
    canvas.line(x, frame.top, x, frame.top + frame.length, "dim")
    ends = [frame.at(depth, 0)[1] for depth in (0.0, *(extent.end for extent in laid.extents))]
    canvas.lines(((x - 2, y + 2, x + 2, y - 2) for y in ends), "tick")
    for layer, extent in zip(layers, laid.extents, strict=True):
        if layer.thickness is None or layer.sheet or extent.width < 26:
            continue
        _, y = frame.at(extent.middle, 0)
        told = _shown(layer.thickness, system)
        first = y - 2 if len(told) > 1 else y + 4
        for row, words in enumerate(told):
            canvas.text(x + 5, first + 13 * row, words)
    return frame.top + frame.length + 24


def _runs(
    layers: Sequence[DrawnLayer], extents_: Sequence[Extent], control: str
) -> list[tuple[float, float]]:
    return [
        (extent.start, extent.end)
        for layer, extent in zip(layers, extents_, strict=True)
        if control in layer.controls
    ]


def _controls_standing(canvas: Canvas, layers: Sequence[DrawnLayer], laid: Laid, top: float) -> float:
    frame = laid.frame
    canvas.text(0, top + 6, "CONTROLS", "side")
    y = top + 21
    for control, word in CONTROLS:
        canvas.text(0, y + 4, word)
        canvas.line(frame.left, y, frame.left + frame.length, y, "rail")
        runs = _runs(layers, laid.extents, control)
        for start, end in runs:
            _bracket(canvas, Frame(False, False, frame.left, y, frame.length, 0), start, end)
        if not runs:
            canvas.text(frame.left + frame.length / 2, y + 4, "none named", "none", "middle")
        y += _ROW
    return y


def _controls_lying(canvas: Canvas, layers: Sequence[DrawnLayer], laid: Laid, bottom: float) -> float:
    frame = laid.frame
    left = frame.left + frame.breadth + 66
    step = (WIDTH - left) / len(CONTROLS)
    for column, (control, word) in enumerate(CONTROLS):
        x = left + step * (column + 0.5)
        canvas.text(x, frame.top - (8 if column % 2 else 22), word, "", "middle")
        canvas.line(x, frame.top, x, frame.top + frame.length, "rail")
        runs = _runs(layers, laid.extents, control)
        own = Frame(True, frame.outside_up, x, frame.top, frame.length, 0)
        for start, end in runs:
            _bracket(canvas, own, start, end)
        if not runs:
            canvas.text(x + 4, frame.top + frame.length / 2, "none named", "none", "middle", upright=True)
    return bottom


def _bracket(canvas: Canvas, frame: Frame, start: float, end: float) -> None:
    """Draw a bracket that spans a layer; a thin one gets a bracket wide enough to see."""
    middle, half = (start + end) / 2, max((end - start) / 2 - 1, 2.5)
    low, high = middle - half, middle + half
    canvas.polyline((frame.at(low, -4), frame.at(low, 3), frame.at(high, 3), frame.at(high, -4)), "bracket")


def _foot(canvas: Canvas, layers: Sequence[DrawnLayer], laid: Laid, top: float, system: System) -> float:
    """Draw the scale bar and say what is not to scale."""
    y = top + 8
    left = laid.frame.left
    if laid.scale > 0:
        bar = next(((m, w) for m, w in _SCALE_BARS[system] if m * laid.scale <= 170), _SCALE_BARS[system][-1])
        end = left + bar[0] * laid.scale
        canvas.line(left, y, end, y, "scale")
        canvas.line(left, y - 3, left, y + 3, "scale")
        canvas.line(end, y - 3, end, y + 3, "scale")
        canvas.text(end + 5, y + 4, bar[1])
        y += 18
    loose = [
        str(layer.number)
        for layer, extent in zip(layers, laid.extents, strict=True)
        if not extent.scaled and not layer.sheet
    ]
    if loose:
        canvas.text(
            left,
            y + 3,
            f"Not to scale: {', '.join(loose[:_MOST_LOOSE])}{' …' if len(loose) > _MOST_LOOSE else ''}",
        )
        y += 15
    if any(layer.sheet for layer in layers):
        canvas.text(left, y + 3, "Sheets and coatings are drawn as lines.")
        y += 15
    return y


def _words(layers: Sequence[DrawnLayer], kind: str, name: str, system: System) -> str:
    """Return what the drawing shows, for those who do not see it."""
    parts = []
    for layer in layers:
        size = (
            ", ".join(_shown(layer.thickness, system))
            if layer.thickness is not None and not layer.sheet
            else ""
        )
        what = f"{layer.number} {layer.name}, {HATCHES[layer.hatch]}{f', {size}' if size else ''}"
        controls = [word.lower() for key, word in CONTROLS if key in layer.controls]
        if controls:
            what += f", controls {' and '.join(controls)}"
        if layer.member is not None:
            what += f", crossed by {'metal' if layer.member.metal else 'wood'} framing"
        if layer.plane:
            what += ", its inner face is the condensing plane"
        parts.append(what)
    what = kind.replace("-", " ")
    named = f"{what} {name}" if what not in name.replace("-", " ") else name
    return f"{named[0].upper()}{named[1:]} from inside to outside: {'; '.join(parts)}."
