"""The water line and the vapour layer by the same walk as the air barrier: where they go on, and where they stop.

Water: layers that control water, of what stands in the rain or the ground, joined where they meet, the upper over the
lower. Vapour: the same for layers that control vapour, where a gap counts by its area only.
"""

from collections.abc import Callable, Collection, Sequence

from speccheck.document import Document
from speccheck.survey.assembly import SurveyedAssembly
from speccheck.survey.enclosure import Bounds, sides_meant, sides_of
from speccheck.survey.fact import Gap, Origin
from speccheck.survey.junction import kind_of
from speccheck.survey.ledger import Ledger, Page
from speccheck.survey.linked import Control, Linked, control_layers, linked, unreached
from speccheck.survey.shown_links import enter_links

__all__ = ["survey_vapour_line", "survey_water_line"]

_WET = ("outdoors", "ground", "balcony")


def survey_water_line(ledger: Ledger, document: Document, built: Sequence[SurveyedAssembly]) -> None:
    """Enter where the water barrier goes on, and which laps are turned round."""
    layers = control_layers(document, built, "water")
    wet = {one.name for one in built if one.page["outside"].value in _WET and layers.named[one.name]}
    found = [one for one in linked(document, "water", layers) if one.joint.subject != "penetration"]
    wanted = {one.joint.name for one in found if _is_wanted(one, document, "water")}
    _enter_line(ledger, found, layers, "water", lambda thing: thing in wet or thing in layers.rings, wanted)
    unsaid = 0
    for one in found:
        if one.joint.subject == "junction":
            unsaid += _enter_laps(ledger.page("junction", one.joint.place), one, document)
    ledger.page("project", "project").declare("water_laps_unsaid", float(unsaid), origin=Origin.COMPUTED)


def survey_vapour_line(ledger: Ledger, document: Document, built: Sequence[SurveyedAssembly]) -> None:
    """Enter where the vapour-control layer goes on from one assembly to the next."""
    layers = control_layers(document, built, "vapour")
    found = [one for one in linked(document, "vapour", layers) if one.joint.subject == "junction"]
    wanted = {one.joint.name for one in found if _is_wanted(one, document, "vapour")}
    _enter_line(ledger, found, layers, "vapour", lambda thing: layers.named[thing], wanted)


def _is_wanted(one: Linked, document: Document, control: str) -> bool:
    """Must it be shown how the layer goes on here: at a frame, and where an assembly ends?

    Where something meets the middle of a wall, such as a partition or a tub, the layer passes on in itself.
    """
    if one.joint.subject != "junction":
        return True
    kind = kind_of(document.junctions[one.joint.place].kind)
    if kind is not None and control not in kind.carries:
        return False
    return any(_ends_there(document, assembly, side) for assembly, side in one.joint.sides)


def _ends_there(document: Document, assembly: str, side: str) -> bool:
    one = document.assemblies[assembly]
    bounds = Bounds(one.kind, one.sides)
    return bool(set(sides_meant(bounds, side)).intersection(sides_of(bounds)))


def _enter_line(
    ledger: Ledger,
    found: Sequence[Linked],
    layers: Control,
    control: str,
    takes_part: Callable[[str], bool],
    wanted: Collection[str],
) -> None:
    """Enter for each place whether what takes part is joined, and for the project how many are not or not shown."""
    by_place: dict[tuple[str, str], list[Linked]] = {}
    for one in found:
        by_place.setdefault((one.joint.subject, one.joint.place), []).append(one)
    open_, unshown = 0, list[str]()
    for (subject, place), parts in by_place.items():
        page = ledger.page(subject, place)
        enter_links(page, control, parts)
        mine = tuple(thing for thing in parts[0].joint.things if takes_part(thing))
        whole = subject == "junction" or len(mine) == len(parts[0].joint.things)
        joined = _enter_joined(page, parts, layers, control, mine if whole else ())
        open_ += joined is False
        if joined is None and mine and whole and parts[0].joint.name in wanted:
            unshown.append(place)
    project = ledger.page("project", "project")
    project.declare(f"{control}_gap_count", float(open_), origin=Origin.COMPUTED)
    project.declare(f"{control}_unshown_count", float(len(unshown)), origin=Origin.COMPUTED)
    if control == "water":
        project.declare("water_unshown_places", tuple(unshown), origin=Origin.COMPUTED)


def _enter_joined(
    page: Page, parts: Sequence[Linked], layers: Control, control: str, mine: tuple[str, ...]
) -> bool | None:
    joint = parts[0].joint
    if not mine:
        page.inapplicable(f"{control}_connected", f"nothing that controls {control} meets here")
        page.declare(f"{control}_unconnected", (), origin=Origin.COMPUTED)
        return None
    narrowed = [one._replace(joint=one.joint._replace(things=mine)) for one in parts]
    nodes = [_landings(one, layers) if control == "water" else layers.nodes for one in narrowed]
    lost = tuple(
        dict.fromkeys(
            thing for one, own in zip(narrowed, nodes, strict=True) for thing in unreached(one, own)
        )
    )
    page.declare(f"{control}_unconnected", lost, origin=Origin.COMPUTED)
    if joint.links is None:
        words = {"water": "water barrier", "vapour": "vapour-control layer"}[control]
        question = f"How is the {words} of {' and '.join(mine)} carried on at {joint.place}?"
        page.unknown(f"{control}_connected", Gap(joint.place, f"{words} connection", question, joint.path))
        return None
    page.declare(f"{control}_connected", not lost, origin=Origin.COMPUTED)
    return not lost


def _landings(one: Linked, layers: Control) -> dict[str, tuple[str, ...]]:
    """Return for each thing its water-control layers and whatever layer of it such a layer is led onto.

    A wall's water barrier that is flashed onto the edge of a slab sheds outward, whatever keeps the slab dry below.
    """
    control = {node for nodes in layers.nodes.values() for node in nodes}
    met = [node for pair in one.pairs if control.intersection(pair) for node in pair]
    return {
        thing: (*nodes, *(node for node in met if node.partition(".")[0] == thing and node not in nodes))
        for thing, nodes in layers.nodes.items()
        if thing in one.joint.things
    }


def _enter_laps(page: Page, one: Linked, document: Document) -> int:
    """Enter which connections lap the wrong way where the kind of junction tells; return how many do not say."""
    kind = kind_of(document.junctions[one.joint.place].kind)
    order = kind.over if kind is not None else None
    above = _above(order, one, document) if order is not None else set()
    turned: list[str] = []
    unsaid: list[str] = []
    said = False
    for link in one.joint.links or ():
        upper = [end for end in (link.from_, link.to) if end.partition(".")[0] in above]
        if len(upper) != 1:
            continue
        lower = link.to if upper[0] == link.from_ else link.from_
        if link.over is None:
            unsaid.append(f"{upper[0]} and {lower}")
        elif (link.from_ if link.over == "from" else link.to) != upper[0]:
            turned.append(f"{lower} over {upper[0]}")
        else:
            said = True
    page.declare("water_laps_turned", tuple(turned), origin=Origin.COMPUTED)
    page.declare("water_laps_unsaid", tuple(unsaid), origin=Origin.COMPUTED)
    told = "turned" if turned else "unsaid" if unsaid else "shingled" if said else "none"
    page.declare("water_lap_order", told, origin=Origin.COMPUTED)
    return len(unsaid)


def _above(order: tuple[str, str], one: Linked, document: Document) -> set[str]:
    """Return the assemblies whose layer laps over the other here; by their sides where both are of one kind."""
    (host, _, side), (other, _, _) = (place.partition(".") for place in order)
    return {
        assembly
        for assembly, name in one.joint.sides
        if document.assemblies[assembly].kind == host
        and (host != other or side in _meant(document, assembly, name))
    }


def _meant(document: Document, assembly: str, side: str) -> tuple[str, ...]:
    one = document.assemblies[assembly]
    return sides_meant(Bounds(one.kind, one.sides), side)
