"""The red line drawn as a ring: each assembly a piece of it, each junction a stop, gaps told by place and words."""

from collections.abc import Iterator, Mapping, Sequence
from math import cos, pi, sin
from textwrap import wrap
from typing import Literal, NamedTuple

from speccheck.report.drawing.subject import Drawing
from speccheck.report.drawing.svg import Canvas
from speccheck.report.drawing.tour import Step, tours

__all__ = ["RING_STYLE", "Segment", "State", "Stop", "draw_ring", "standalone"]

State = Literal["joined", "open", "unshown"]

WIDTH = 360.0
_CENTRE = 180.0
_RADIUS = 104.0
_FACE = 11.0
_LAYER = 5.0
_TAG = 10.0
_TAG_OUT = 28.0
_BREAK = 7.5
_ROW = 15.0
_KEY_WIDTH = 51
_VERDICT_WIDTH = 47
_NAME = 13
_LETTER = 7.0
_MOST_NAMED = 10
_MOST_STEPS = 44
_HOLES = {"opening": 1.7, "penetration": 1.4}
"""What is drawn as a hole in the line, and how much wider the break is there."""

RING_STYLE = (
    ".ring text{font:400 12px system-ui,Arial,sans-serif;fill:#1b2227}.ring .name{font-weight:650}"
    ".ring .no{font-weight:650}.ring .no-open{font-weight:650;fill:#fff}"
    ".ring line,.ring path,.ring polyline,.ring circle,.ring rect{fill:none;stroke:#1b2227;stroke-width:1}"
    ".ring .face{stroke:#8b9297;stroke-width:1}.ring .part{stroke:#8b9297}"
    ".ring .red{stroke:#b3001b;stroke-width:3.2;stroke-linecap:butt}"
    ".ring .dotted{stroke:#b3001b;stroke-width:3.2;stroke-dasharray:2 3}"
    ".ring .lift{stroke:#b3001b;stroke-width:2}.ring .none{stroke:#8b9297;stroke-dasharray:1 4;stroke-width:2}"
    ".ring .tag{fill:#fff}.ring .tag-unshown{fill:#fff;stroke-dasharray:2 2}.ring .tag-open{fill:#1b2227}"
    ".ring .leader{stroke-width:.6}.ring .hole{fill:#fff;stroke-width:1.2}"
)
"""What a page that holds the drawing must style; a drawing on its own brings it along."""


class Segment(NamedTuple):
    """An assembly on the line: its name, the layer that carries the line (empty: none) and where that layer lies."""

    name: str
    layer: str
    side: Literal["inside", "outside", "middle"]
    kind: str


class Stop(NamedTuple):
    """A place where things meet, its assemblies, its state, and words on it.

    ``subject`` is ``junction``, ``opening``, ``penetration``, or ``side`` for a side that no junction names.
    """

    place: str
    subject: str
    kind: str
    assemblies: tuple[str, ...]
    state: State
    words: str


class _At(NamedTuple):
    """A piece of the ring: the step of the way it draws, from where to where [rad], and the stops along it."""

    segment: Segment
    start: float
    end: float
    leave: Stop | None
    along: tuple[Stop, ...]


def draw_ring(segments: Sequence[Segment], stops: Sequence[Stop], verdict: str, id_: str) -> Drawing:
    """Return the red line of a building.

    Args:
        segments: the assemblies in the order of the document.
        stops: the places in the order of the document; they are numbered from 1.
        verdict: one sentence on the line as a whole.
        id_: name of the drawing, unique in its page.
    """
    canvas = Canvas(WIDTH, id_)
    numbers = {(stop.subject, stop.place): count for count, stop in enumerate(stops, 1)}
    below = 14.0
    for words in wrap(verdict, _VERDICT_WIDTH):
        canvas.text(8, below, words, "name")
        below += _ROW
    ways = _ways(segments, stops)
    drawn = [way for way in ways if len(way) <= _MOST_STEPS]
    for way in drawn:
        centre = below + _RADIUS + _TAG_OUT + 14
        _draw_way(canvas, _pieces(way, segments, stops), centre, numbers)
        below = centre + _RADIUS + _TAG_OUT + 36
    below = _draw_key(canvas, segments, stops, numbers, below, all_of=len(drawn) == len(ways))
    title = "The red line: where the air barrier goes on and where it stops"
    open_ = [stop.place for stop in stops if stop.state == "open"]
    words = f"{verdict} It stops at {', '.join(open_)}." if open_ else verdict
    svg = canvas.finish(below, title, words).replace('class="drawing"', 'class="drawing ring"', 1)
    return Drawing(svg, title, words)


def standalone(drawing: Drawing) -> str:
    """Return a drawing as a file of its own, with its style and a white ground."""
    head = '<?xml version="1.0" encoding="UTF-8"?>\n'
    body = drawing.svg.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
    mark = body.index("</desc>") + len("</desc>")
    ground = '<rect x="0" y="0" width="100%" height="100%" style="fill:#fff;stroke:none"/>'
    return f"{head}{body[:mark]}<style>{RING_STYLE}</style>{ground}{body[mark:]}\n"


# ---- the way round


def _ways(segments: Sequence[Segment], stops: Sequence[Stop]) -> list[list[Step]]:
    upper = ("roof", "ceiling")
    names = [one.name for one in sorted(segments, key=lambda one: one.kind not in upper)]
    meets = {stop.place: stop.assemblies for stop in stops if stop.subject == "junction"}
    return tours(names, meets)


def _pieces(way: Sequence[Step], segments: Sequence[Segment], stops: Sequence[Stop]) -> list[_At]:
    """Return the way as pieces of the ring, the longer the more stops lie along them, the first on top."""
    by_name = {one.name: one for one in segments}
    by_place = {stop.place: stop for stop in stops if stop.subject == "junction"}
    used = {leave for _, leave in way}
    shown: set[str] = set()
    along: list[tuple[Stop, ...]] = []
    for name, _ in way:
        mine = tuple(
            stop
            for stop in stops
            if name in stop.assemblies and (stop.subject != "junction" or stop.place not in used)
        )
        along.append(mine if name not in shown else ())
        shown.add(name)
    lengths = [3.0 + len(mine) for mine in along]
    turn = 2 * pi / sum(lengths)
    at = -pi / 2 - lengths[0] * turn / 2
    pieces = []
    for (name, leave), mine, length in zip(way, along, lengths, strict=True):
        end = at + length * turn
        pieces.append(_At(by_name[name], at, end, by_place.get(leave), mine))
        at = end
    return pieces


# ---- the ring


def _point(centre: float, radius: float, angle: float) -> tuple[float, float]:
    return _CENTRE + radius * cos(angle), centre + radius * sin(angle)


def _arc(centre: float, radius: float, start: float, end: float) -> list[tuple[float, float]]:
    steps = max(2, int((end - start) / 0.06))
    return [_point(centre, radius, start + (end - start) * i / steps) for i in range(steps + 1)]


def _line_radius(segment: Segment) -> float:
    return _RADIUS + {"inside": -_LAYER, "outside": _LAYER, "middle": 0.0}[segment.side]


def _draw_way(
    canvas: Canvas, pieces: Sequence[_At], centre: float, numbers: Mapping[tuple[str, str], int]
) -> None:
    named = len(pieces) <= _MOST_NAMED
    for piece, after in zip(pieces, [*pieces[1:], pieces[0]], strict=True):
        for face in (-_FACE, _FACE):
            canvas.curve(_arc(centre, _RADIUS + face, piece.start, piece.end), "face")
        _draw_line(canvas, piece, centre)
        if piece.leave is not None:
            _draw_step(canvas, piece, after, centre)
    if named:
        _draw_names(canvas, pieces, centre)
    for piece in pieces:
        for stop, angle in _marks(piece):
            _draw_tag(canvas, stop, angle, centre, _line_radius(piece.segment), numbers)
    canvas.text(8, centre - _RADIUS - _TAG_OUT + 2, "outside", "small")


def _marks(piece: _At) -> Iterator[tuple[Stop, float]]:
    """Yield the stops of a piece with where they stand: along it, and at its end."""
    step = (piece.end - piece.start) / (len(piece.along) + 1)
    for count, stop in enumerate(piece.along, 1):
        yield stop, piece.start + count * step
    if piece.leave is not None:
        yield piece.leave, piece.end


def _draw_line(canvas: Canvas, piece: _At, centre: float) -> None:
    """Draw the line along one piece, broken where the pen lifts and dotted where it is not shown."""
    radius = _line_radius(piece.segment)
    gap = _BREAK / _RADIUS
    if not piece.segment.layer:
        canvas.curve(_arc(centre, _RADIUS, piece.start + gap, piece.end - gap), "none")
        return
    at = piece.start + gap if piece.leave is not None else piece.start
    end = piece.end - gap if piece.leave is not None else piece.end
    for stop, angle in _marks(piece):
        if stop is piece.leave or stop.state == "joined":
            continue
        half = gap * _HOLES.get(stop.subject, 1.0)
        canvas.curve(_arc(centre, radius, at, angle - half), "red")
        if stop.state == "open":
            _draw_lifts(canvas, centre, radius, (angle - half, angle + half))
        else:
            canvas.curve(_arc(centre, radius, angle - half, angle + half), "dotted")
        at = angle + half
    canvas.curve(_arc(centre, radius, at, end), "red")


def _draw_lifts(canvas: Canvas, centre: float, radius: float, angles: Sequence[float]) -> None:
    for angle in angles:
        one, other = _point(centre, radius - 5, angle), _point(centre, radius + 5, angle)
        canvas.line(*one, *other, "lift")


def _draw_step(canvas: Canvas, piece: _At, after: _At, centre: float) -> None:
    """Draw the line from one piece to the next: joined, dotted, or broken with a bar at each end."""
    gap = _BREAK / _RADIUS
    angle = piece.end
    canvas.line(*_point(centre, _RADIUS - _FACE, angle), *_point(centre, _RADIUS + _FACE, angle), "part")
    state = piece.leave.state if piece.leave is not None else "unshown"
    ends = (_line_radius(piece.segment), _line_radius(after.segment))
    if state == "open":
        for radius, side in zip(ends, (angle - gap, angle + gap), strict=True):
            _draw_lifts(canvas, centre, radius, (side,))
        return
    path = [_point(centre, ends[0], angle - gap), _point(centre, ends[1], angle + gap)]
    canvas.polyline(path, "red" if state == "joined" else "dotted")


class _Label(NamedTuple):
    """Lines of text inside the ring: where the first begins, how they are anchored, and what they say."""

    x: float
    y: float
    anchor: str
    lines: tuple[tuple[str, str], ...]

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom of what it covers."""
        width = max(len(words) for words, _ in self.lines) * _LETTER
        left = self.x - {"start": 0.0, "middle": width / 2, "end": width}[self.anchor]
        return left, self.y - 11.0, left + width, self.y + 13.0 * (len(self.lines) - 1) + 3.0

    def clear_of(self, others: Sequence["_Label"]) -> bool:
        """Does it cover none of the others?"""
        left, top, right, bottom = self.box
        return all(
            right <= other[0] or other[2] <= left or bottom <= other[1] or other[3] <= top
            for other in (one.box for one in others)
        )


def _draw_names(canvas: Canvas, pieces: Sequence[_At], centre: float) -> None:
    """Write the name and the layer of each piece beside it, moved where it would cover another.

    Where there is no room for all of it the layers go without, and then what has no place.
    """
    labels = [_name_of(piece, centre) for piece in sorted(pieces, key=lambda one: one.start - one.end)]
    first = [label for n, label in enumerate(labels) if label.lines not in [one.lines for one in labels[:n]]]
    labels = [*first, *(label for label in labels if label not in first)]  # each once before any twice
    placed = _placed(labels, centre)
    if len({label.lines for label in placed}) < len(first):
        placed = _placed([label._replace(lines=label.lines[:1]) for label in labels], centre)
    inside = _beside(_Label(_CENTRE, centre + 40, "middle", (("inside", "small"),)), placed, centre)
    for label in [*placed, *([inside] if inside else [])]:
        for row, (words, cls) in enumerate(label.lines):
            canvas.text(label.x, label.y + 13 * row, words, cls, label.anchor)


def _placed(labels: Sequence[_Label], centre: float) -> list[_Label]:
    """Return the labels for which there is room, each at its place."""
    placed: list[_Label] = []
    for label in labels:
        found = _beside(label, placed, centre)
        if found is not None:
            placed.append(found)
    return placed


def _beside(label: _Label, placed: Sequence[_Label], centre: float) -> _Label | None:
    """Return a label at the nearest free place inside the ring, None where there is none."""
    reach = _RADIUS - _FACE - 4
    toward = 1.0 if label.x <= _CENTRE else -1.0
    for aside in (0.0, 24.0, 48.0, 72.0):
        for step in range(0, int(2 * reach), 4):
            for way in (1, -1):
                tried = label._replace(x=label.x + toward * aside, y=label.y + way * step)
                within = centre - reach <= tried.box[1] and tried.box[3] <= centre + reach
                if within and tried.clear_of(placed):
                    return tried
    return None


def _name_of(piece: _At, centre: float) -> _Label:
    angle = (piece.start + piece.end) / 2
    x, y = _point(centre, _RADIUS - _FACE - 8, angle)
    anchor = "middle" if abs(cos(angle)) < 0.35 else "end" if cos(angle) > 0 else "start"
    down = 11.0 if sin(angle) < -0.5 else -14.0 if sin(angle) > 0.5 else 0.0
    layer = piece.segment.layer.partition(".")[2]
    told = _short(layer, _NAME) if layer else "none named"
    return _Label(x, y + down, anchor, ((_short(piece.segment.name, _NAME), "name"), (told, "small")))


def _short(words: str, most: int) -> str:
    return words if len(words) <= most else f"{words[: most - 1]}…"


def _draw_tag(
    canvas: Canvas,
    stop: Stop,
    angle: float,
    centre: float,
    radius: float,
    numbers: Mapping[tuple[str, str], int],
) -> None:
    on = _point(centre, _RADIUS + _FACE, angle)
    x, y = _point(centre, _RADIUS + _TAG_OUT, angle)
    canvas.line(*on, x, y, "leader")
    _tag(canvas, x, y, stop.state, numbers[(stop.subject, stop.place)])
    if stop.subject in _HOLES:
        _draw_hole(canvas, stop, _point(centre, radius, angle))
    if stop.state != "joined":
        words = "open" if stop.state == "open" else "?"
        anchor = "middle" if abs(cos(angle)) < 0.35 else "start" if cos(angle) > 0 else "end"
        side = {"start": _TAG + 3, "end": -_TAG - 3, "middle": 0.0}[anchor]
        down = 4.2 if anchor != "middle" else -_TAG - 4 if sin(angle) < 0 else _TAG + 13
        canvas.text(x + side, y + down, words, "name", anchor)


def _tag(canvas: Canvas, x: float, y: float, state: State, count: int) -> None:
    """Draw a number in a sign that tells the state by its shape: circle, filled square, broken circle."""
    if state == "open":
        canvas.rect(x - _TAG, y - _TAG, 2 * _TAG, 2 * _TAG, "tag-open")
    else:
        canvas.circle(x, y, _TAG, "tag" if state == "joined" else "tag-unshown")
    canvas.text(x, y + 4.2, str(count), "no-open" if state == "open" else "no", "middle")


def _draw_hole(canvas: Canvas, stop: Stop, at: tuple[float, float]) -> None:
    x, y = at
    if stop.subject == "opening":
        canvas.rect(x - 4, y - 4, 8, 8, "hole")
    else:
        canvas.circle(x, y, 3, "hole")


# ---- the key

_HEADS: dict[State, str] = {
    "open": "The pen lifts (filled square, broken line)",
    "unshown": "Not shown (broken circle, dotted line)",
    "joined": "Joined (circle)",
}


def _draw_key(
    canvas: Canvas,
    segments: Sequence[Segment],
    stops: Sequence[Stop],
    numbers: Mapping[tuple[str, str], int],
    top: float,
    *,
    all_of: bool,
) -> float:
    """Write the key below the ring, what is open first; return where it ends."""
    y = top + 6
    if not all_of:
        canvas.text(8, y, "Too many assemblies to draw; the list below names every place.", "small")
        y += _ROW + 4
    for state, head in _HEADS.items():
        mine = [stop for stop in stops if stop.state == state]
        if not mine:
            continue
        canvas.text(8, y, head, "name")
        y += _ROW + 5
        for stop in mine:
            y = _row(canvas, stop, numbers[(stop.subject, stop.place)], y)
        y += 6
    for segment in segments:
        if not segment.layer:
            canvas.text(8, y, f"{segment.name}: no layer that stops air is named", "small")
            y += _ROW
    return y + 4


def _row(canvas: Canvas, stop: Stop, count: int, y: float) -> float:
    _tag(canvas, 16, y - 4.2, stop.state, count)
    lines = wrap(f"{stop.place} ({stop.kind}): {stop.words}", _KEY_WIDTH, break_on_hyphens=False)
    for line in lines:
        canvas.text(30, y, line)
        y += _ROW
    return y + 6
