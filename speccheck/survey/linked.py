"""Joints with their connections judged: which carry the line of a control layer, and between what."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from speccheck.document import Document
from speccheck.survey.assembly import SurveyedAssembly
from speccheck.survey.build_up import Slice
from speccheck.survey.joints import Joint, joints, means_of, ring
from speccheck.survey.lines import Place, groups_of
from speccheck.survey.seals import End, Seal, seal

__all__ = ["Control", "Linked", "control_layers", "linked", "unreached"]


class Control(NamedTuple):
    """The nodes of one control layer.

    ``nodes`` are for each thing those that can carry the line; ``named`` says which assemblies name such a layer at
    all; ``leaky`` holds nodes that are named and let air through; ``ends`` what every node is made of; ``rings`` the
    one node of each frame or ring.
    """

    nodes: dict[str, tuple[str, ...]]
    named: dict[str, bool]
    leaky: tuple[str, ...]
    ends: dict[str, End]
    rings: dict[str, str]


class Linked(NamedTuple):
    """A joint, the pairs of nodes that its connections join, and what is said of each connection."""

    joint: Joint
    pairs: tuple[tuple[str, str], ...]
    seals: tuple[Seal, ...]

    @property
    def place(self) -> Place:
        """The joint as a walk along the lines sees it."""
        return Place(self.joint.name, self.joint.things, self.pairs)


def control_layers(document: Document, built: Sequence[SurveyedAssembly], control: str) -> Control:
    """Return the nodes of a control layer: of each assembly, and the frame or ring of each opening and penetration.

    An assembly whose layers all let air through, or that names none, has one node that nothing joins.
    """
    ends = {f"{one.name}.{piece.id}": _end(one.name, piece, control) for one in built for piece in one.slices}
    nodes: dict[str, tuple[str, ...]] = {}
    named: dict[str, bool] = {}
    leaky: list[str] = []
    for one in built:
        mine = [
            f"{one.name}.{piece.id}"
            for piece in one.slices
            if piece.layer and control in piece.layer.controls
        ]
        named[one.name] = bool(mine)
        leaky += [node for node in mine if ends[node].leaky]
        nodes[one.name] = tuple(node for node in mine if not ends[node].leaky) or (f"{one.name}.?",)
    rings: dict[str, str] = {}
    for name, opening in document.openings.items():
        rings[name] = ring(opening, name)
        ends[rings[name]] = End(rings[name], opening.frame)
    for name, penetration in document.penetrations.items():
        rings[name] = ring(penetration, name)
        ends[rings[name]] = End(rings[name], penetration.material)
    nodes |= {name: (node,) for name, node in rings.items()}
    return Control(nodes, named, tuple(leaky), ends, rings)


def _end(assembly: str, piece: Slice, control: str) -> End:
    family = piece.material.id if piece.material is not None else None
    leaky = control == "air" and piece.page["air_impermeable"].value is False
    surface = piece.layer.surface if piece.layer is not None else None
    return End(f"{assembly}.{piece.id}", family, leaky, surface)


def linked(document: Document, control: str, layers: Control) -> list[Linked]:
    """Return every joint with its connections judged."""
    found = []
    for joint in joints(document, control):
        pairs: list[tuple[str, str]] = []
        seals: list[Seal] = []
        for connection in joint.links or ():
            pair = (_node(connection.from_, layers.rings), _node(connection.to, layers.rings))
            one = seal(means_of(connection), [layers.ends.get(node, End(node)) for node in pair])
            seals.append(one)
            # water is led by laps and vapour stopped by area: neither hangs on what a tape sticks to
            if one.carries or control != "air":
                pairs.append(pair)
        found.append(Linked(joint, tuple(pairs), tuple(seals)))
    return found


def _node(end: str, rings: Mapping[str, str]) -> str:
    """Return the node an end means: a frame or ring has one node, whatever its part is called."""
    return rings.get(end.partition(".")[0], end)


def unreached(one: Linked, nodes: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """Return the things at a joint that the largest group of layers joined there does not reach.

    Args:
        one: the joint with its connections.
        nodes: for each thing the nodes that can carry the line.
    """
    things = one.joint.things
    thing_of = {node: thing for thing in things for node in nodes[thing]}
    reached: dict[str, set[str]] = {}
    for node, group in groups_of(one.pairs).items():
        if node in thing_of:
            reached.setdefault(group, set()).add(thing_of[node])
    best = max(reached.values(), key=lambda found: (len(found), sorted(found)), default=set())
    return tuple(thing for thing in things if thing not in best)
