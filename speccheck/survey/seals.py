"""Whether a stated connection can carry a line: its means, what they are stuck to, and what the ends are made of."""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import NamedTuple

from speccheck.tables.construction import not_a_seal, sealing_aid, sealing_means, substrate_of
from speccheck.tables.construction_rows import SealingMeans

__all__ = ["End", "Seal", "all_of", "means_known", "seal"]

# Rows of the sealing table for a face that is not smooth and dry.
_FACES = {
    ("concrete", "rough"): "concrete-rough",
    ("concrete", "damp"): "concrete-damp",
    ("osb", "rough"): "osb-rough-side",
    # rated as they come, which is rough
    ("brick-or-block", "rough"): "brick-or-block",
    ("plaster-or-render", "rough"): "plaster-or-render",
}

_DOES_NOT_SUIT = ("poor", "incompatible")
_WANTS_AID = ("primer", "clamp")


class End(NamedTuple):
    """What a connection ends at.

    A node, the material there (None where it is not shown), whether air passes it, and how its face is said to be:
    smooth, rough or damp (None where nothing is said; it then counts as smooth and dry).
    """

    node: str
    material: str | None = None
    leaky: bool = False
    surface: str | None = None


class Seal(NamedTuple):
    """What can be said of one connection.

    ``carries`` is whether it can carry the line at all. The rest are in words, each ``means on node`` or a node or a
    word: ends too leaky to carry; words that name no seal; means that do not suit, that harm, that want a primer or a
    clamp nobody names, that the table does not rate there; means the table does not know.
    """

    carries: bool
    leaky: tuple[str, ...] = ()
    no_seal: tuple[str, ...] = ()
    unsuited: tuple[str, ...] = ()
    unaided: tuple[str, ...] = ()
    unrated: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()


def means_known(word: str) -> SealingMeans | None:
    """Return a means of the sealing table, or None."""
    return _means(word)


def seal(by: Sequence[str], ends: Sequence[End]) -> Seal:
    """Return what can be said of a connection.

    Args:
        by: the words for its means; they are taken to be used together.
        ends: what it joins.

    Example:
        >>> seal(["acrylic-tape"], [End("wall.film", "polyethylene-film"), End("slab.top", "concrete")]).unaided
        ('acrylic-tape on slab.top wants a primer',)
        >>> seal(["acrylic-tape"], [End("slab.top", "concrete", surface="damp")]).unsuited
        ('acrylic-tape on slab.top (damp)',)
        >>> seal(["staples"], [End("wall.film", "polyethylene-film")]).carries
        False
    """
    found = _judged(tuple(by), tuple((end.node, end.material, end.surface) for end in ends))
    leaky = tuple(dict.fromkeys(end.node for end in ends if end.leaky))
    return found._replace(carries=found.carries and not leaky, leaky=leaky)


def all_of(seals: Iterable[Seal], name: str) -> tuple[str, ...]:
    """Return the words of one field over several connections, each once."""
    return tuple(dict.fromkeys(word for one in seals for word in getattr(one, name)))


# most connections of a building repeat a few
@lru_cache(maxsize=4096)
def _judged(by: tuple[str, ...], ends: tuple[tuple[str, str | None, str | None], ...]) -> Seal:
    aids = {sealing_aid(word) for word in by}
    no_seal = tuple(word for word in by if _is_none(word))
    means = [word for word in by if word not in no_seal and (sealing_aid(word) is None or _means(word))]
    judged = [_at_end(means, aids, *end) for end in dict.fromkeys(ends)]
    return Seal(
        carries=bool(means) and all(one.carries for one in judged),
        no_seal=no_seal,
        unsuited=all_of(judged, "unsuited"),
        unaided=all_of(judged, "unaided"),
        unrated=all_of(judged, "unrated"),
        unknown=tuple(word for word in means if _means(word) is None),
    )


def _substrate(material: str | None, surface: str | None) -> str | None:
    """Return the row of the sealing table for a face; one the table does not rate where it has no such row."""
    substrate = substrate_of(material) if material is not None else None
    if substrate is None or surface in (None, "smooth"):
        return substrate
    return _FACES.get((substrate, surface), f"{substrate}, {surface}")


def _at_end(
    means: Sequence[str], aids: set[str | None], node: str, material: str | None, surface: str | None
) -> Seal:
    """Judge the means at one end; one that suits is enough, and one that harms counts whatever the others do."""
    substrate = _substrate(material, surface)
    if substrate is None or not means:
        return Seal(carries=True)
    node = node if surface in (None, "smooth") else f"{node} ({surface})"
    ratings = {word: known.ratings.get(substrate) for word in means if (known := _means(word)) is not None}
    unknown = len(ratings) < len(means)
    suited = unknown or any(rating not in _DOES_NOT_SUIT for rating in ratings.values())
    unsuited = tuple(
        f"{word} on {node}"
        for word, rating in ratings.items()
        if rating == "incompatible" or (rating == "poor" and not suited)
    )
    if unknown or "good" in ratings.values() or not suited:
        return Seal(carries=suited, unsuited=unsuited)
    unaided = tuple(
        f"{word} on {node} wants a {rating}"
        for word, rating in ratings.items()
        if rating in _WANTS_AID and not aids.intersection(_WANTS_AID)
    )
    unrated = tuple(f"{word} on {node}" for word, rating in ratings.items() if rating is None)
    return Seal(carries=True, unsuited=unsuited, unaided=unaided, unrated=unrated)


@lru_cache(maxsize=512)
def _means(word: str) -> SealingMeans | None:
    return sealing_means(word)


@lru_cache(maxsize=512)
def _is_none(word: str) -> bool:
    return not_a_seal(word) is not None
