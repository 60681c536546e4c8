"""Pages on junctions and means of sealing, and a junction entry to start from."""

from collections.abc import Iterable, Sequence

from speccheck.judgement.wording import word
from speccheck.report.layout import Sheet
from speccheck.tables.construction_rows import JunctionKind, SealingMeans
from speccheck.tables.materials import source_title

__all__ = ["junction_entry", "junction_page", "junctions_list", "means_page", "sealing_list"]

_RATINGS = {
    "good": "holds",
    "primer": "holds with a primer",
    "clamp": "holds when clamped",
    "poor": "does not hold",
    "incompatible": "one harms the other",
}
_CONTROLS = ("air", "water", "vapour", "thermal")


def junctions_list(kinds: Iterable[JunctionKind], width: int = 80) -> str:
    """Return every kind of junction with its title."""
    sheet = Sheet(width)
    for kind in kinds:
        sheet.wrap(kind.title, 0, f"{kind.id}  ")
    return sheet.text()


def junction_page(kind: JunctionKind, width: int = 80) -> str:
    """Return the page of a kind of junction: what to carry across, how, what goes wrong, what to ask."""
    sheet = Sheet(width)
    sheet.heading(f"{kind.id}: {kind.title}")
    if kind.also:
        sheet.wrap(", ".join(kind.also), 0, "Also called: ")
    sheet.wrap(", ".join(kind.joins), 0, "Joins: ")
    sheet.heading("What has to be carried across")
    for control in _CONTROLS:
        sheet.wrap(kind.carries.get(control, "nothing to carry"), 2, f"{control}: ")
    if kind.over is not None:
        sheet.wrap(f"{kind.over[0]} laps over {kind.over[1]}", 2, "laps: ")
    if kind.hollow:
        sheet.wrap("A hollow runs through here and wants blocking.", 2)
    _lines(sheet, "Usual connections", kind.usual)
    _lines(sheet, "Usual mistakes", kind.mistakes)
    _lines(sheet, "What a reviewer asks", [kind.question])
    _sources(sheet, kind)
    return sheet.text()


def _lines(sheet: Sheet, title: str, lines: Sequence[str]) -> None:
    sheet.heading(title)
    for line in lines:
        sheet.wrap(line, 2, "- " if len(lines) > 1 else "")


def _sources(sheet: Sheet, known: JunctionKind | SealingMeans) -> None:
    _lines(sheet, "Source", [source_title(source) or source for source in known.source])
    sheet.wrap(f"Known by: {known.how}; {known.confidence} confidence.", 2)


def sealing_list(means: Iterable[SealingMeans], width: int = 80) -> str:
    """Return every means of sealing with its title."""
    sheet = Sheet(width)
    for one in means:
        sheet.wrap(one.title, 0, f"{one.id}  ")
    return sheet.text()


def means_page(means: SealingMeans, width: int = 80, system: str = "both") -> str:
    """Return the page of a means of sealing: what it holds on, and from which temperature."""
    sheet = Sheet(width)
    sheet.heading(f"{means.id}: {means.title}")
    lowest = word(float(means.lowest_temperature), "temperature", system)
    sheet.wrap(f"{lowest}. {means.temperature_note}", 0, "Lowest usual temperature: ")
    if means.note:
        sheet.wrap(means.note, 0, "Note: ")
    sheet.wrap("On dry, clean faces free of frost. A face that is not listed needs the maker's word.")
    for rating, title in _RATINGS.items():
        faces = [substrate for substrate, rated in means.ratings.items() if rated == rating]
        if faces:
            sheet.heading(title[0].upper() + title[1:])
            sheet.wrap(", ".join(faces), 2)
    _sources(sheet, means)
    return sheet.text()


def junction_entry(kind: JunctionKind) -> str:
    """Return a commented entry of a document for a kind of junction.

    It stands under ``junctions``, ``openings`` or ``penetrations``; names in capitals are to be replaced.
    """
    if kind.joins[0].endswith(".ring") or kind.joins[0].partition(".")[2] in ("head", "jambs", "sill"):
        return _ring_entry(kind)
    sides = ", ".join(f"my-{side}" for side in kind.joins[:2])
    lines = [*_comment(kind), "junctions:", f"  {kind.id}:", f"    kind: {kind.id}"]
    lines.append(f"    joins: [{sides}]")
    own = [side.partition(".")[0] for side in kind.joins[:2]]
    one, other = f"my-{own[0]}.LAYER", f"my-{own[-1]}.LAYER"
    lines.append(f"    air: [{{from: {one}, to: {other}, by: MEANS}}]   # {kind.carries['air']}")
    if "water" in kind.carries:
        lines.append(
            f"    water: [{{from: {one}, to: {other}, by: MEANS, over: from}}]   # {kind.carries['water']}"
        )
    if "thermal" in kind.carries:
        lines.append(f"    thermal: continuous   # {kind.carries['thermal']}")
    if kind.hollow:
        lines.append("    blocked: true   # are hollows that run through blocked and sealed?")
    return "\n".join(lines) + "\n"


def _comment(kind: JunctionKind) -> list[str]:
    lines = [f"# {kind.title}. {kind.question}"]
    lines += [f"#   usual: {words}" for words in kind.usual]
    return lines + [f"#   beware: {words}" for words in kind.mistakes]


def _ring_entry(kind: JunctionKind) -> str:
    host, _, side = kind.joins[0].partition(".")
    part, node = ("penetrations", "ring") if side == "ring" else ("openings", "frame")
    lines = [*_comment(kind), f"{part}:", f"  my-{host}:", f"    kind: {host}", "    in: my-wall"]
    at = "" if side == "ring" else f", at: [{side}]"
    lines.append(
        f"    air: [{{from: my-{host}.{node}, to: my-wall.LAYER, by: MEANS{at}}}]   # {kind.carries['air']}"
    )
    if "water" in kind.carries and side != "ring":
        lines.append(
            f"    water: [{{from: my-{host}.{node}, to: my-wall.LAYER, by: MEANS{at}}}]   # {kind.carries['water']}"
        )
    return "\n".join(lines) + "\n"
