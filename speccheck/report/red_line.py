"""The red line: where the air barrier goes on and where the pen lifts, from the facts, drawn and as lines of text.

An assembly is a segment, a place where things meet is a stop. How the ring is drawn lies in
``speccheck.report.drawing.ring``.
"""

from collections.abc import Mapping
from typing import Literal, NamedTuple

from speccheck.report.drawing.ring import Segment, State, Stop, draw_ring, standalone
from speccheck.report.drawing.subject import Drawing
from speccheck.report.layout import Sheet
from speccheck.survey.subject import Subject, Surveyed

__all__ = ["RedLine", "red_line", "red_line_drawing", "red_line_file", "red_line_text", "write_red_line"]

_KINDS = ("junction", "opening", "penetration")
_FEW = 8


class RedLine(NamedTuple):
    """The red line of a building.

    ``closed`` is None where it cannot be told. ``redundant`` says whether more than one line is closed; ``parts`` is
    how many groups of assemblies there are that meet nowhere. A side that no junction names is a stop not shown.
    """

    closed: bool | None
    segments: tuple[Segment, ...]
    stops: tuple[Stop, ...]
    redundant: bool
    parts: int

    def of(self, state: State) -> tuple[Stop, ...]:
        """Return the stops in a state."""
        return tuple(stop for stop in self.stops if stop.state == state)

    @property
    def verdict(self) -> str:
        """Say in a sentence or two what the line does."""
        if self.closed:
            more = " A second line closes as well: redundancy." if self.redundant else ""
            return f"The air barrier closes round the building.{more}"
        said = []
        if self.of("open"):
            said.append(f"The pen lifts at {_count(len(self.of('open')), 'place')}.")
        if self.of("unshown"):
            said.append(f"Not shown: {_count(len(self.of('unshown')), 'place')}.")
        if any(not segment.layer for segment in self.segments):
            said.append("Not every assembly names a layer that stops air.")
        if self.parts > 1:
            said.append(f"The document holds {self.parts} groups of assemblies that meet nowhere.")
        return " ".join(said) or "It cannot be told whether the air barrier closes."


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"


def red_line(surveyed: Surveyed) -> RedLine:
    """Return the red line of a surveyed document.

    Args:
        surveyed: its facts.
    """
    project = next(surveyed.of_kind("project"))
    best = {node.partition(".")[0]: node for node in _texts(project, "project.air_best_line")}
    sides = {one.place: str(one.values.get("layer.side", "")) for one in surveyed.of_kind("layer")}
    closed = project.values.get("project.air_line_closed")
    return RedLine(
        closed=closed if isinstance(closed, bool) else None,
        segments=tuple(_segment(one, best, sides) for one in surveyed.of_kind("assembly")),
        stops=(
            *(_stop(one) for kind in _KINDS for one in surveyed.of_kind(kind)),
            *(_side(place) for place in _texts(project, "project.sides_unshown")),
        ),
        redundant=_number(project, "project.air_closed_lines") > 1,
        parts=int(_number(project, "project.enclosure_parts")),
    )


def _texts(subject: Subject, name: str) -> tuple[str, ...]:
    value = subject.values.get(name, ())
    return value if isinstance(value, tuple) else ()


def _number(subject: Subject, name: str) -> float:
    value = subject.values.get(name, 0.0)
    return value if isinstance(value, float) else 0.0


_PLACES: Mapping[str, Literal["inside", "outside", "middle"]] = {"inboard": "inside", "outboard": "outside"}


def _segment(subject: Subject, best: Mapping[str, str], sides: Mapping[str, str]) -> Segment:
    layer = best.get(subject.place, "")
    side = _PLACES.get(sides.get(layer, ""), "middle")
    return Segment(subject.place, layer, side, str(subject.values["assembly.kind"]))


def _side(place: str) -> Stop:
    return Stop(place, "side", "side", (place.partition(".")[0],), "unshown", "no junction names it")


def _stop(subject: Subject) -> Stop:
    kind = subject.kind
    names = [side.partition(".")[0] for side in _texts(subject, "junction.sides")]
    hosts = tuple(dict.fromkeys(names)) or (str(subject.values.get(f"{kind}.assembly", "")),)
    wanted, means = _texts(subject, f"{kind}.air_wanted"), _texts(subject, f"{kind}.air_means")
    if not subject.values.get(f"{kind}.air_shown"):
        state: State = "unshown"
        words = "how the air barrier crosses here is not shown"
    elif wanted or not subject.values.get(f"{kind}.air_connected"):
        state, words = "open", _why_open(subject, wanted)
    else:
        state, words = "joined", f"by {', '.join(means)}"
    return Stop(subject.place, kind, str(subject.values[f"{kind}.kind"]), hosts, state, words)


def _why_open(subject: Subject, wanted: tuple[str, ...]) -> str:
    """Say what is wanted at an open place, and what stands there that carries no line."""
    kind = subject.kind
    reasons = []
    for name, words in (
        ("no_seal", "no seal: {}"),
        ("unsuited", "does not hold: {}"),
        ("unable", "lets air through: {}"),
    ):
        found = _texts(subject, f"{kind}.air_{name}")
        if found:
            reasons.append(words.format(", ".join(found)))
    lost = _texts(subject, f"{kind}.air_unconnected")
    ask = f"wanted: {', '.join(wanted)}" if wanted else f"does not reach {', '.join(lost)}"
    return "; ".join([ask, *reasons])


def write_red_line(sheet: Sheet, line: RedLine, *, full: bool = False) -> None:
    """Write the red line on a sheet: where the pen lifts, where it is not shown, and the line itself."""
    sheet.heading("The red line")
    sheet.wrap(line.verdict, 2)
    for stop in line.of("open"):
        sheet.wrap(f"{stop.place} ({stop.kind}): {stop.words}", 2, "OPEN  ")
    unshown = [stop.place for stop in line.of("unshown")]
    if unshown:
        sheet.wrap(_listed(unshown, full), 2, "?     ")
    if line.of("joined"):
        for segment in line.segments:
            joined = [stop.place for stop in line.of("joined") if segment.name in stop.assemblies]
            layer = f"{segment.layer} ({segment.side})" if segment.layer else f"{segment.name}: none named"
            sheet.wrap(f"{layer}  joined at {_listed(joined, full) or 'no place'}", 2, "----  ")


def _listed(names: list[str], full: bool) -> str:
    shown = names if full else names[:_FEW]
    more = len(names) - len(shown)
    return ", ".join(shown) + (f" and {more} more" if more else "")


def red_line_text(surveyed: Surveyed, width: int = 80) -> str:
    """Return the red line as text, every place of it."""
    sheet = Sheet(width)
    write_red_line(sheet, red_line(surveyed), full=True)
    return sheet.text()


def red_line_drawing(surveyed: Surveyed, id_: str = "red-line") -> Drawing:
    """Return the red line drawn, for a page that brings ``RING_STYLE`` along."""
    line = red_line(surveyed)
    return draw_ring(line.segments, line.stops, line.verdict, id_)


def red_line_file(surveyed: Surveyed) -> str:
    """Return the red line as the text of an SVG file."""
    return standalone(red_line_drawing(surveyed))
