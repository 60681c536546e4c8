"""The lines through a section: temperature, and vapour pressure against saturation, over its depth to scale."""

from collections.abc import Callable, Sequence
from math import ceil, floor, hypot
from typing import NamedTuple

from speccheck.quantity import Kind, System, show, unit_named
from speccheck.report.drawing.frame import Extent, Frame
from speccheck.report.drawing.section import WIDTH, Laid, draw_tags, lay_out
from speccheck.report.drawing.subject import Drawing, DrawnLayer
from speccheck.report.drawing.svg import Canvas
from speccheck.survey.profile import Point, SectionLines

__all__ = ["draw_lines", "lines_words"]

_PANEL = 112.0
_STRAIGHT = 0.1
_GAP = 40.0
_MARGIN = 24.0
"""Room beside a lying plot for half the number at the end of its axis."""


class _Axis(NamedTuple):
    """A kind of value along an axis: its name, and for each system its unit and the steps that may be marked."""

    name: str
    kind: Kind
    units: dict[str, str]
    steps: dict[str, tuple[float, ...]]


_HEAT = _Axis(
    "Temperature",
    Kind.TEMPERATURE,
    {"si": "°C", "us": "°F"},
    {"si": (5.0, 10.0, 20.0, 40.0), "us": (10.0, 20.0, 40.0, 80.0)},
)
_VAPOUR = _Axis(
    "Vapour pressure",
    Kind.VAPOUR_PRESSURE,
    {"si": "Pa", "us": "inHg"},
    {"si": (200.0, 500.0, 1000.0, 2000.0, 5000.0, 20000.0), "us": (0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0)},
)


class _Scale(NamedTuple):
    """The values an axis runs over and the ones it is marked at."""

    low: float
    high: float
    marks: Sequence[float]

    def place(self, value: float, breadth: float) -> float:
        """Return where a value lies, from 0 to the breadth."""
        return (value - self.low) / (self.high - self.low) * breadth


def _scale(values: Sequence[float], axis: _Axis, most: int, system: System) -> _Scale:
    """Return an axis marked at round numbers of the units shown; of SI where both are."""
    own = "us" if system == "us" else "si"
    unit, steps = unit_named(axis.units[own], axis.kind), axis.steps[own]
    low, high = unit.from_si(min(values)), unit.from_si(max(values))
    step = next((s for s in steps if (high - low) / s <= most), steps[-1])
    first, last = floor(low / step), ceil(high / step)
    last = max(last, first + 1)
    marks = [unit.to_si(step * i) for i in range(first, last + 1)]
    return _Scale(marks[0], marks[-1], marks)


class _Plot(NamedTuple):
    """One panel: its frame (depth along the section, breadth along the values), its scale and its kind of value."""

    canvas: Canvas
    frame: Frame
    extents: Sequence[Extent]
    scale: _Scale
    axis: _Axis
    system: System

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
        self.canvas.curve(straightened([self.at(self.depth(p), value(p)) for p in points]), cls)


def straightened(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return a line without the points that lie on the straight line between those kept, to a tenth of a unit.

    Example:
        >>> straightened([(0.0, 0.0), (1.0, 1.0), (2.0, 2.0), (3.0, 2.0)])
        [(0.0, 0.0), (2.0, 2.0), (3.0, 2.0)]
    """
    kept = [points[0]]
    held = 0
    for end in range(2, len(points)):
        if _strays(points, held, end):
            held = end - 1
            kept.append(points[held])
    return [*kept, points[-1]]


def _strays(points: Sequence[tuple[float, float]], start: int, end: int) -> bool:
    """Does any point between two others lie off the straight line through them?

    Every curve of every month passes here, so this is one plain loop.
    """
    x0, y0 = points[start]
    dx, dy = points[end][0] - x0, points[end][1] - y0
    length = hypot(dx, dy)
    if length == 0:
        return any(point != points[start] for point in points[start + 1 : end])
    slack = _STRAIGHT * length
    for i in range(start + 1, end):
        x, y = points[i]
        if not -slack <= dx * (y - y0) - dy * (x - x0) <= slack:
            return True
    return False


def draw_lines(
    layers: Sequence[DrawnLayer],
    kind: str,
    name: str,
    id_: str,
    told: Sequence[tuple[str, SectionLines]],
    opens: int = 0,
    system: System = "both",
) -> Drawing:
    """Return the lines through an assembly, those of several seasons or months one over the other.

    All share their axes, so that one can be compared with another. The lines of each stand in a group of the classes
    ``when`` and ``w1``, ``w2`` and so on; the page shows one at a time.

    Args:
        layers: those of the section, inside first; the lines may end before the outermost.
        kind: kind of assembly.
        name: what reports call it.
        id_: name of the drawing, unique in its page.
        told: season or month in words, such as ``winter mean``, and its lines; at least one.
        opens: number of the season or month that is shown first, from 0; the words speak of it.
        system: units to show.
    """
    laid = lay_out(layers, kind)
    canvas = Canvas(WIDTH, id_)
    temperature, vapour = _panels(canvas, laid, [lines for _, lines in told], system)
    for plot in (temperature, vapour):
        _grid(plot)
    for number, (_, lines) in enumerate(told, 1):
        canvas.open_group(f"when w{number}")
        _lines(temperature, vapour, lines)
        canvas.close_group()
    for plot in (temperature, vapour):
        _plane(plot, told[opens][1])
    draw_tags(canvas, layers, laid)
    bottom = _captions(temperature, vapour, laid)
    when, shown = told[opens]
    title = f"{name}: temperature and vapour pressure, {'month by month' if len(told) > 1 else when}"
    words = lines_words(layers, when, shown, system)
    return Drawing(canvas.finish(bottom, title, words), title, words)


def _lines(temperature: _Plot, vapour: _Plot, lines: SectionLines) -> None:
    for plot in (temperature, vapour):
        _condensing(plot, lines)
    temperature.curve(lines.points, lambda p: p.temperature, "heat-line")
    _dew_point(temperature, lines)
    vapour.curve(lines.points, lambda p: p.saturation, "saturation-line")
    vapour.curve(lines.points, lambda p: p.pressure, "vapour-line")


def _panels(canvas: Canvas, laid: Laid, told: Sequence[SectionLines], system: System) -> tuple[_Plot, _Plot]:
    temperatures = [p.temperature for lines in told for p in lines.points] + [
        lines.dew_point for lines in told
    ]
    pressures = [0.0, *(max(p.saturation, p.pressure) for lines in told for p in lines.points)]
    base = laid.frame
    lying = base.lying
    marks = 3 if lying else 5
    heat = _scale(temperatures, _HEAT, marks, system)
    vapour = _scale(pressures, _VAPOUR, marks, system)
    if lying:
        first = base._replace(left=base.left + 4, breadth=136.0)
        second = first._replace(left=first.left + first.breadth + 34)
        second = second._replace(breadth=WIDTH - _MARGIN - second.left)
    else:
        first = base._replace(top=base.top + 19, breadth=_PANEL)
        second = first._replace(top=first.top + _PANEL + _GAP, breadth=_PANEL + 16)
    return (
        _Plot(canvas, first, laid.extents, heat, _HEAT, system),
        _Plot(canvas, second, laid.extents, vapour, _VAPOUR, system),
    )


def _grid(plot: _Plot) -> None:
    frame, canvas = plot.frame, plot.canvas
    canvas.rect(*frame.box(0, frame.length, 0, frame.breadth), "panel")
    edges = [(*frame.at(one.end, 0), *frame.at(one.end, frame.breadth)) for one in plot.extents[:-1]]
    canvas.lines(edges, "layer-edge")
    across = {mark: (*plot.at(0, mark), *plot.at(frame.length, mark)) for mark in plot.scale.marks}
    zero = [line for mark, line in across.items() if mark == 0 and plot.axis is _HEAT]
    canvas.lines([line for line in across.values() if line not in zero], "grid")
    canvas.lines(zero, "zero")
    for mark in plot.scale.marks:
        start = plot.at(0, mark)
        told = [show(mark, plot.axis.kind, one).split(" ")[0] for one in _systems(plot.system)]
        if frame.lying:
            foot = frame.top + frame.length
            for row, words in enumerate(told):
                canvas.text(start[0], foot + 33 + 14 * row, words, "scale-mark", "middle")
        else:
            canvas.text(frame.left - 4, start[1] + 4, told[0], "scale-mark", "end")
            for words in told[1:]:
                canvas.text(frame.left + frame.length + 4, start[1] + 4, words, "scale-mark")


def _systems(system: System) -> tuple[System, ...]:
    return ("si", "us") if system == "both" else (system,)


def _plane(plot: _Plot, profile: SectionLines) -> None:
    if profile.plane is None:
        return
    depth = plot.extents[profile.plane].start
    plot.canvas.line(*plot.frame.at(depth, -4), *plot.frame.at(depth, plot.frame.breadth + 4), "plane-line")


def _condensing(plot: _Plot, profile: SectionLines) -> None:
    """Hatch the zone from the first to the last point at which vapour condenses."""
    wet = [plot.depth(point) for point in profile.condensing]
    if not wet:
        return
    start, end = min(wet), max(wet)
    if end - start < 5:
        start, end = max(start - 2.5, 0), min(end + 2.5, plot.frame.length)
    box = plot.frame.box(start, end, 0, plot.frame.breadth)
    plot.canvas.rect(*box, "wet", "wet")


def _dew_point(plot: _Plot, profile: SectionLines) -> None:
    plot.canvas.line(
        *plot.at(0, profile.dew_point), *plot.at(plot.frame.length, profile.dew_point), "dew-line"
    )


def _captions(temperature: _Plot, vapour: _Plot, laid: Laid) -> float:
    canvas, frame = temperature.canvas, temperature.frame
    if frame.lying:
        foot = frame.top + frame.length
        above, below = ("OUTSIDE", "INSIDE") if frame.outside_up else ("INSIDE", "OUTSIDE")
        canvas.text(frame.left, 11, above, "side")
        canvas.text(frame.left, foot + 17, below, "side")
        for plot in (temperature, vapour):
            units = [plot.axis.units[one] for one in _systems(plot.system)]
            canvas.text(plot.frame.left, frame.top - 7, plot.axis.name, "side")
            canvas.text(
                plot.frame.left + plot.frame.breadth,
                foot + 33 + 14 * len(units),
                ", below ".join(units),
                "scale-mark",
                "end",
            )
        y = foot + 54 + 14 * len(_systems(temperature.system))
    else:
        canvas.text(frame.left, 11, "INSIDE", "side")
        canvas.text(frame.left + frame.length, 11, "OUTSIDE", "side", "end")
        for plot in (temperature, vapour):
            first, *second = (plot.axis.units[one] for one in _systems(plot.system))
            canvas.text(frame.left, plot.frame.top - 6, f"{plot.axis.name}, {first}", "side")
            for unit in second:
                canvas.text(WIDTH, plot.frame.top - 6, unit, "side", "end")
        y = vapour.frame.top + vapour.frame.breadth + 25
    left = 4.0
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
            canvas.text(x + 26, y + 1, word)
        y += 17
    return y - 4


def lines_words(
    layers: Sequence[DrawnLayer], when: str, profile: SectionLines, system: System = "both"
) -> str:
    """Return what the lines of a season or month show, in words and in the units of a system."""
    inside, outside = profile.points[0], profile.points[-1]
    way = "falls" if inside.temperature >= outside.temperature else "rises"
    parts = [
        f"{when[0].upper()}{when[1:]}: the temperature {way} from {show(inside.temperature, 'temperature', system)} "
        f"at the inside surface to {show(outside.temperature, 'temperature', system)} at the outside; "
        f"the dew point of the room is {show(profile.dew_point, 'temperature', system)}."
    ]
    if profile.plane is not None:
        face = next(p for p in profile.points if p.layer == profile.plane)
        parts.append(
            f"The condensing plane, the inner face of layer {layers[profile.plane].number}, is at "
            f"{show(face.temperature, 'temperature', system)}, with a vapour pressure of "
            f"{show(face.pressure, 'vapour-pressure', system)} "
            f"under a saturation of {show(face.saturation, 'vapour-pressure', system)}."
        )
    wet = _wet_faces(layers, profile)
    if wet:
        parts.append(f"Condensation by diffusion {' and '.join(wet)}.")
    else:
        parts.append("The vapour pressure stays below saturation throughout: no condensation by diffusion.")
    return " ".join(parts)


def _wet_faces(layers: Sequence[DrawnLayer], profile: SectionLines) -> list[str]:
    """Say where vapour condenses: between two layers, or within one."""
    places = []
    for point in profile.condensing:
        number = layers[point.layer].number
        if point.depth == 0.0:
            places.append(f"between layers {number - 1} and {number}")
        elif point.depth < 1.0:
            places.append(f"within layer {number}")
    return list(dict.fromkeys(places))
