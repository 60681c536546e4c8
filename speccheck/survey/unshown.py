"""The questions on sides that no junction names: one for each kind of side, not one for each assembly."""

from collections.abc import Iterable, Mapping, Sequence

from speccheck.survey.enclosure import Bounds, side_kind
from speccheck.survey.fact import Gap
from speccheck.tables.construction_rows import JunctionKind

__all__ = ["joined_words", "side_gaps"]

_WORDS = {"end": "ends", "eave": "eaves", "rake": "rakes"}


def joined_words(names: Sequence[str]) -> str:
    """Return names as a list in words.

    Example:
        >>> joined_words(["wall", "roof", "slab"])
        'wall, roof and slab'
    """
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def side_gaps(
    assemblies: Mapping[str, Bounds],
    unnamed: Mapping[str, tuple[str, ...]],
    lone: Sequence[str],
    kinds: Iterable[JunctionKind],
) -> dict[str, tuple[Gap, ...]]:
    """Return for each assembly the questions on its sides that no junction names.

    Args:
        assemblies: what bounds each.
        unnamed: the sides that no junction names.
        lone: the assemblies that no junction names at all.
        kinds: the kinds of junction, whose expected ones tell which sides belong together.

    Notes:
        Assemblies that share a question share its words, so that a report puts it once.
    """
    gaps: dict[str, list[Gap]] = {name: [] for name in unnamed}
    for name in lone:
        gaps[name].append(_gap(name, "junctions", _on_lone(lone)))
    left: dict[tuple[str, str], list[str]] = {}
    for name, sides in unnamed.items():
        if name not in lone:
            for side in dict.fromkeys(side_kind(side) for side in sides):
                left.setdefault((assemblies[name].kind, side), []).append(name)
    for kind in kinds:
        if kind.expected and len(kind.joins) > 1:
            _ask_to_meet(kind, left, gaps)
    by_side: dict[str, list[str]] = {}
    for (_, side), names in left.items():
        by_side.setdefault(side, []).extend(names)
    for side, names in by_side.items():
        words = f"How is the air barrier carried on at the {_WORDS.get(side, side)} of {joined_words(names)}?"
        for name in names:
            gaps[name].append(_gap(name, f"junction at its {_WORDS.get(side, side)}", words))
    return {name: tuple(found) for name, found in gaps.items()}


def _gap(name: str, wanted: str, question: str) -> Gap:
    return Gap(name, wanted, question, ("assemblies", name))


def _on_lone(lone: Sequence[str]) -> str:
    if len(lone) == 1:
        return f"How is the air barrier of {lone[0]} carried on to what it meets?"
    if len(lone) == 2:
        return f"How does the air barrier of {lone[0]} meet that of {lone[1]}?"
    return f"How do the air barriers of {joined_words(lone)} meet?"


def _ask_to_meet(
    kind: JunctionKind, left: dict[tuple[str, str], list[str]], gaps: dict[str, list[Gap]]
) -> None:
    """Ask once how the assemblies meet that have the sides of an expected junction and no junction there."""
    wall, *others = [(host, side) for host, _, side in (place.partition(".") for place in kind.joins)]
    if wall[1] in ("left", "right"):  # both ends of a wall are one question already
        return
    partners = [other for other in others if other in left]
    if wall not in left or not partners:
        return
    walls = left.pop(wall)
    met = [name for other in partners for name in left.pop(other)]
    question = f"How does the air barrier of {joined_words(walls)} meet that of {joined_words(met)}?"
    for name in (*walls, *met):
        gaps[name].append(_gap(name, kind.title.lower(), question))
