"""What is shown of the connections at one place: how many, by what means, and what is to be said of the means."""

from collections.abc import Iterable, Sequence

from speccheck.document.junction import Connection
from speccheck.survey.fact import Origin
from speccheck.survey.joints import means_of
from speccheck.survey.ledger import Page
from speccheck.survey.linked import Linked
from speccheck.survey.seals import Seal, all_of

__all__ = ["enter_links"]

_SAID = {
    "leaky": ("unable", "ends that air passes, so that they carry no line"),
    "no_seal": ("no_seal", "words that name no seal"),
    "unsuited": ("unsuited", "means on a material they do not suit"),
    "unaided": ("unaided", "means that want a primer or a clamp there, which is not named"),
    "unrated": ("unrated", "means that the table does not rate on that material"),
    "unknown": ("unknown_means", "means that the table does not know"),
}


def enter_links(page: Page, control: str, parts: Sequence[Linked]) -> None:
    """Enter what is shown at a place.

    Args:
        page: of the junction, opening or penetration.
        control: ``air``, ``water`` or ``vapour``.
        parts: the joint, or the joints along the parts of a frame.
    """
    links = _each(one.joint.links or () for one in parts)
    page.declare(f"{control}_shown", parts[0].joint.links is not None)
    page.declare(f"{control}_connection_count", float(len(links)))
    if control != "air":
        return
    means = [means_of(link) for link in links]
    page.declare("air_means", tuple(dict.fromkeys(word for words in means for word in words)))
    alone = tuple(dict.fromkeys(words[0] for words in means if len(words) == 1))
    page.declare("air_sole_means", alone)
    seals: list[Seal] = [one for part in parts for one in part.seals]
    for field, (name, method) in _SAID.items():
        page.declare(f"air_{name}", all_of(seals, field), origin=Origin.COMPUTED, method=method)


def _each(groups: Iterable[Sequence[Connection]]) -> list[Connection]:
    """Return the connections of all parts of a frame, each once."""
    found: list[Connection] = []
    for group in groups:
        found += [link for link in group if link not in found]
    return found
