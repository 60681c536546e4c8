"""Joints: where things meet, at junctions and round openings and penetrations, with what joins them for one control."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from speccheck.document import Document
from speccheck.document.junction import Connection, Opening, Penetration, RingConnection

__all__ = ["PARTS", "Joint", "joints", "means_of", "ring"]

PARTS = ("head", "jambs", "sill")
"""The parts of an opening's frame, where a connection runs along some of them only."""


class Joint(NamedTuple):
    """One place where things meet.

    ``place`` is its name on its own page, ``part`` the part of a frame it is about (empty: the whole). ``things`` are
    what meets, each once; ``sides`` the sides as a junction names them; ``links`` the connections, None where they are
    not shown.
    """

    subject: str
    place: str
    path: tuple[str, str]
    things: tuple[str, ...]
    sides: tuple[tuple[str, str], ...]
    links: tuple[Connection, ...] | None
    part: str = ""

    @property
    def name(self) -> str:
        """A name of its own among all joints: what it is, its place, and the part of the frame."""
        return f"{self.subject} {self.place} {self.part}".rstrip()


def ring(thing: Opening | Penetration, name: str) -> str:
    """Return the node of a frame or a ring."""
    return f"{name}.frame" if isinstance(thing, Opening) else f"{name}.ring"


def means_of(connection: Connection) -> tuple[str, ...]:
    """Return the words for the means of a connection."""
    return (connection.by,) if isinstance(connection.by, str) else connection.by


def joints(document: Document, control: str) -> list[Joint]:
    """Return the joints of a document as one control layer sees them.

    Args:
        document: what is declared.
        control: ``air``, ``water`` or ``vapour``.
    """
    found = []
    for name, junction in document.junctions.items():
        sides = tuple((place.partition(".")[0], place.partition(".")[2]) for place in junction.joins)
        things = tuple(dict.fromkeys(assembly for assembly, _ in sides))
        links = getattr(junction, control)
        found.append(Joint("junction", name, ("junctions", name), things, sides, links))
    for name, opening in document.openings.items():
        found += _of_opening(name, opening, getattr(opening, control, None))
    for name, penetration in document.penetrations.items():
        path = ("penetrations", name)
        links = getattr(penetration, control, None)
        found.append(Joint("penetration", name, path, (penetration.within, name), (), links))
    return found


def _of_opening(name: str, opening: Opening, links: Sequence[RingConnection] | None) -> Iterator[Joint]:
    """Return one joint all round, or one for each part of the frame where a connection names parts."""
    path, things = ("openings", name), (opening.within, name)
    if links is None or all(link.at is None for link in links):
        shown = None if links is None else tuple(links)
        yield Joint("opening", name, path, things, (), shown)
        return
    for part in PARTS:
        here = tuple(link for link in links if link.at is None or part in link.at)
        yield Joint("opening", name, path, things, (), here, part)
