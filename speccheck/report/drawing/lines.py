"""The lines through a section: temperature, and vapour pressure against saturation, over its depth to scale."""

from collections.abc import Callable, Sequence
from math import ceil, floor
from typing import NamedTuple

from speccheck.quantity import show
from speccheck.report.drawing.frame import Extent, Frame
from speccheck.report.drawing.section import WIDTH, Laid, draw_tags, lay_out
from speccheck.report.drawing.subject import Drawing, DrawnLayer
from speccheck.report.drawing.svg import Canvas
from speccheck.survey.profile import Point, WinterProfile

__all__ = ["draw_lines"]

_PANEL = 112.0
_GAP = 32.0
_AXES = (("Temperature", "°C (°F)"), ("Vapour pressure", "Pa (in w.g.)"))


class _Scale(NamedTuple):
    """The values an axis runs over and the ones it is marked at."""

    low: float
    high: float
    marks: Sequence[float]

    def place(self, value: float, breadth: float) -> float:
        """Return where a value lies, from 0 to the breadth."""
        return (value - self.low) / (self.high - self.low) * breadth


def _scale(values: Sequence[float], steps: Sequence[float], most: int) -> _Scale:
    low, high = min(values), max(values)
    step = next((s for s in steps if (high - low) / s <= most), steps[-1])
    first, last = floor(low / step), ceil(high / step)
    last = max(last, first + 1)
    return _Scale(first * step, last * step, [step * i for i in range(first, last + 1)])


class _Plot(NamedTuple):
    """One panel: its frame (depth along the section, breadth along the values), its scale and its kind of value."""

    canvas: Canvas
    frame: Frame
    extents: Sequence[Extent]
    scale: _Scale
    kind: str

    def at(self, depth: float, value: float) -> tuple[float, float]:
        """Return the place of a value at a depth; values rise upward, or to the right in a lying section."""
        across = self.scale.place(value, self.frame.breadth)
        return self.frame.at(depth, across if self.frame.lying else self.frame.breadth - across)

    def depth(self, point: Point) -> float:
        """Return how deep a point of the profile lies."""
        extent = self.extents[point.layer]
        return extent.start + extent.width * point.depth

    def curve(self, points: Sequence[Point], value: Callable[[Point], float], cls: str) -> None:
        """Draw a line through the points."""
        self.canvas.polyline((self.at(self.depth(point), value(point)) for point in points), cls)


def draw_lines(
    layers: Sequence[DrawnLayer], kind: str, name: str, id_: str, profile: WinterProfile, when: str
) -> Drawing:
    """Return the lines through an assembly at the mean of a season or a month.

    Args:
        layers: those of the section, inside first; the profile may end before the outermost.
        kind: kind of assembly.
        name: what reports call it.
        id_: name of the drawing, unique in its page.
        profile: the lines.
        when: the season or month in words, such as ``winter mean``.
    """
    laid = lay_out(layers, kind)
    canvas = Canvas(WIDTH, id_)
    temperature, vapour = _panels(canvas, laid, profile)
    for plot in (temperature, vapour):
        _grid(plot)
        _condensing(plot, profile)
        _plane(plot, profile)
    temperature.curve(profile.points, lambda p: p.temperature, "heat-line")
    _dew_point(temperature, profile)
    vapour.curve(profile.points, lambda p: p.saturation, "saturation-line")
    vapour.curve(profile.points, lambda p: p.pressure, "vapour-line")
    draw_tags(canvas, layers, laid)
    bottom = _captions(temperature, vapour, laid)
    title = f"{name}: temperature and vapour pressure, {when}"
    words = _words(layers, profile, when)
    return Drawing(canvas.finish(bottom, title, words), title, words)


def _panels(canvas: Canvas, laid: Laid, profile: WinterProfile) -> tuple[_Plot, _Plot]:
    temperatures = [p.temperature for p in profile.points] + [
        profile.indoor[0],
        profile.outdoor[0],
        profile.dew_point,
    ]
    pressures = [0.0, *(max(p.saturation, p.pressure) for p in profile.points)]
    base = laid.frame
    lying = base.lying
    marks = 3 if lying else 5
    heat = _scale(temperatures, (5.0, 10.0, 20.0, 40.0), marks)
    vapour = _scale(pressures, (200.0, 500.0, 1000.0, 2000.0, 5000.0, 20000.0), marks)
    if lying:
        first = base._replace(left=base.left + 4, breadth=140.0)
        second = first._replace(left=first.left + first.breadth + 30)
        second = second._replace(breadth=WIDTH - 14 - second.left)
    else:
        first = base._replace(top=base.top + 12, breadth=_PANEL)
        second = first._replace(top=first.top + _PANEL + _GAP, breadth=_PANEL + 16)
    return (
        _Plot(canvas, first, laid.extents, heat, "temperature"),
        _Plot(canvas, second, laid.extents, vapour, "pressure"),
    )


def _grid(plot: _Plot) -> None:
    frame, canvas = plot.frame, plot.canvas
    canvas.rect(*frame.box(0, frame.length, 0, frame.breadth), "panel")
    for extent in plot.extents[:-1]:
        canvas.line(*frame.at(extent.end, 0), *frame.at(extent.end, frame.breadth), "layer-edge")
    for mark in plot.scale.marks:
        start, end = plot.at(0, mark), plot.at(frame.length, mark)
        canvas.line(*start, *end, "zero" if mark == 0 and plot.kind == "temperature" else "grid")
        si, us = (show(mark, plot.kind, system).split(" ")[0] for system in ("si", "us"))
        if frame.lying:
            foot = frame.top + frame.length
            canvas.text(start[0], foot + 26, si, "t small", "middle")
            canvas.text(start[0], foot + 35, f"({us})", "t small", "middle")
        else:
            canvas.text(frame.left - 4, start[1] + 3, f"{si} ({us})", "t small", "end")


def _plane(plot: _Plot, profile: WinterProfile) -> None:
    if profile.plane is None:
        return
    depth = plot.extents[profile.plane].start
    plot.canvas.line(*plot.frame.at(depth, -4), *plot.frame.at(depth, plot.frame.breadth + 4), "plane-line")


def _condensing(plot: _Plot, profile: WinterProfile) -> None:
    """Hatch the zone from the first to the last point at which vapour condenses."""
    wet = [plot.depth(point) for point in profile.condensing]
    if not wet:
        return
    start, end = min(wet), max(wet)
    if end - start < 5:
        start, end = max(start - 2.5, 0), min(end + 2.5, plot.frame.length)
    box = plot.frame.box(start, end, 0, plot.frame.breadth)
    plot.canvas.rect(*box, "wet", "wet")


def _dew_point(plot: _Plot, profile: WinterProfile) -> None:
    plot.canvas.line(
        *plot.at(0, profile.dew_point), *plot.at(plot.frame.length, profile.dew_point), "dew-line"
    )


def _captions(temperature: _Plot, vapour: _Plot, laid: Laid) -> float:
    canvas, frame = temperature.canvas, temperature.frame
    if frame.lying:
        foot = frame.top + frame.length
        above, below = ("OUTSIDE", "INSIDE") if frame.outside_up else ("INSIDE", "OUTSIDE")
        canvas.text(frame.left, 10, above, "t side")
        canvas.text(frame.left, foot + 14, below, "t side")
        for plot, (what, units) in zip((temperature, vapour), _AXES, strict=True):
            canvas.text(plot.frame.left, frame.top - 6, what, "t side")
            canvas.text(plot.frame.left + plot.frame.breadth, foot + 46, units, "t small", "end")
        y = foot + 64
    else:
        canvas.text(frame.left, 10, "INSIDE", "t side")
        canvas.text(frame.left + frame.length, 10, "OUTSIDE", "t side", "end")
        canvas.text(frame.left, frame.top - 3, ", ".join(_AXES[0]), "t side")
        canvas.text(vapour.frame.left, vapour.frame.top - 4, ", ".join(_AXES[1]), "t side")
        y = vapour.frame.top + vapour.frame.breadth + 20
    left = 4.0 if not frame.lying else frame.left
    for keys in (
        (("heat-line", "temperature"), ("dew-line", "dew point of the room")),
        (("vapour-line", "vapour pressure"), ("saturation-line", "saturation")),
        (("plane-line", "condensing plane"), ("wet", "condensation")),
    ):
        for column, (cls, word) in enumerate(keys):
            x = left + column * 150
            if cls == "wet":
                canvas.rect(x, y - 7, 20, 8, "wet", "wet")
            else:
                canvas.line(x, y - 3, x + 20, y - 3, cls)
            canvas.text(x + 26, y, word)
        y += 13
    return y - 4


def _words(layers: Sequence[DrawnLayer], profile: WinterProfile, when: str) -> str:
    inside, outside = profile.points[0], profile.points[-1]
    way = "falls" if inside.temperature >= outside.temperature else "rises"
    parts = [
        f"At the {when} the temperature {way} from {show(inside.temperature, 'temperature')} at the inside surface to "
        f"{show(outside.temperature, 'temperature')} at the outside; "
        f"the dew point of the room is {show(profile.dew_point, 'temperature')}."
    ]
    if profile.plane is not None:
        face = next(p for p in profile.points if p.layer == profile.plane)
        parts.append(
            f"The condensing plane, the inner face of layer {layers[profile.plane].number}, is at "
            f"{show(face.temperature, 'temperature')}, with a vapour pressure of {show(face.pressure, 'pressure')} "
            f"under a saturation of {show(face.saturation, 'pressure')}."
        )
    wet = _wet_faces(layers, profile)
    if wet:
        parts.append(f"Vapour that diffuses condenses {' and '.join(wet)}.")
    else:
        parts.append("The vapour pressure stays below saturation throughout: no condensation by diffusion.")
    return " ".join(parts)


def _wet_faces(layers: Sequence[DrawnLayer], profile: WinterProfile) -> list[str]:
    """Say where vapour condenses: between two layers, or within one."""
    places = []
    for point in profile.condensing:
        number = layers[point.layer].number
        if point.depth == 0.0:
            places.append(f"between layers {number - 1} and {number}")
        elif point.depth < 1.0:
            places.append(f"within layer {number}")
    return list(dict.fromkeys(places))
