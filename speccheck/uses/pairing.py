"""Which document of an older run a newer one goes with: by name, else by what it holds."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any, NamedTuple

from speccheck.document import Unreadable
from speccheck.uses.compare import pair_names

__all__ = ["Contents", "contents_of", "contents_of_file", "pair_documents"]


class Contents(NamedTuple):
    """What a document is known by when its file goes by another name: its project and the keys of its assemblies."""

    project: str
    assemblies: frozenset[str]


def contents_of(data: Mapping[str, Any]) -> Contents | None:
    """Return the contents in plain data of a document; None where nothing could be known by them."""
    project, assemblies = data.get("project"), data.get("assemblies")
    name = project.get("name") if isinstance(project, Mapping) else None
    if not isinstance(assemblies, Mapping) or not assemblies:
        return None
    return Contents(str(name or ""), frozenset(map(str, assemblies)))


def contents_of_file(name: str) -> Contents | None:
    """Return the contents of a document; None where it cannot be read, which whoever checks it will say."""
    from speccheck.document.source import read_file

    try:
        return contents_of(read_file(Path(name)).data)
    except Unreadable:
        return None


def pair_documents(
    olds: Mapping[str, Contents | None], news: Iterable[str], look: Callable[[str], Contents | None]
) -> dict[str, str]:
    """Return for each newer document the older one it goes with, where there is one.

    By name first (``pair_names``). Of what is left, two go together that have the same project, named, and the same
    assemblies, where no third has them; and at last the only two that are left, if they share an assembly.

    Args:
        olds: the older documents with their contents.
        news: the newer ones.
        look: tells the contents of a newer one; asked only of those whose name pairs with none.

    Example:
        >>> wall, roof = Contents("Lot 1", frozenset({"wall"})), Contents("Lot 2", frozenset({"roof"}))
        >>> olds = {"a.yaml": wall, "b.yaml": roof, "c.yaml": None}
        >>> pair_documents(olds, ["c.yaml", "x.yaml", "y.yaml"], {"x.yaml": roof, "y.yaml": wall}.get)
        {'c.yaml': 'c.yaml', 'x.yaml': 'b.yaml', 'y.yaml': 'a.yaml'}
    """
    news = list(dict.fromkeys(news))
    pairs = dict(pair_names(olds, news))
    held = {name: olds[name] for name in olds if name not in pairs.values()}
    found = {name: look(name) for name in news if name not in pairs} if held else {}
    by_contents = _once(held)
    for contents, name in _once(found).items():
        if contents.project and contents in by_contents:
            pairs[name] = by_contents[contents]
    last_old = [name for name in held if name not in pairs.values()]
    last_new = [name for name in found if name not in pairs]
    if len(last_old) == len(last_new) == 1 and _alike(held[last_old[0]], found[last_new[0]]):
        pairs[last_new[0]] = last_old[0]
    return {name: pairs[name] for name in news if name in pairs}


def _once(known: Mapping[str, Contents | None]) -> dict[Contents, str]:
    """Return the documents by their contents, where no other has the same."""
    counts = Counter(known.values())
    return {
        contents: name for name, contents in known.items() if contents is not None and counts[contents] == 1
    }


def _alike(old: Contents | None, new: Contents | None) -> bool:
    return old is not None and new is not None and bool(old.assemblies & new.assemblies)
