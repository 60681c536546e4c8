"""The way round a building: from assembly to assembly by the junctions they share, back to where it began."""

from collections.abc import Mapping, Sequence

__all__ = ["Step", "tours"]

Step = tuple[str, str]
"""An assembly, and the stop by which the way leaves it; empty where there is only one assembly."""

_MOST_TRIES = 4000
_LARGEST_RING = 14


def tours(assemblies: Sequence[str], meets: Mapping[str, Sequence[str]]) -> list[list[Step]]:
    """Return for each group of assemblies that meet a closed way past all of them.

    Args:
        assemblies: all of them; a way begins with the one named first.
        meets: for each stop the assemblies that meet there.

    Returns:
        The ways. A ring passes each assembly once; where there is none, the way turns back and passes some again, as
        a section through a house cuts its wall twice.

    Example:
        >>> tours(["roof", "wall", "slab"], {"eave": ["wall", "roof"], "base": ["wall", "slab"]})
        [[('roof', 'eave'), ('wall', 'base'), ('slab', 'base'), ('wall', 'eave')]]
    """
    near = _near(assemblies, meets)
    found: list[list[Step]] = []
    seen: set[str] = set()
    for first in assemblies:
        if first not in seen:
            group = _group(first, near)
            seen.update(group)
            found.append(_ring(first, group, near) or _there_and_back(first, near))
    return found


_Near = dict[str, dict[str, list[str]]]


def _near(assemblies: Sequence[str], meets: Mapping[str, Sequence[str]]) -> _Near:
    """Return for each assembly its neighbours in the order of the document, with the stops they share."""
    near: _Near = {name: {} for name in assemblies}
    for stop, things in meets.items():
        for one in things:
            for other in things:
                if one != other:
                    near[one].setdefault(other, []).append(stop)
    order = {name: number for number, name in enumerate(assemblies)}
    return {
        name: dict(sorted(others.items(), key=lambda pair: order[pair[0]])) for name, others in near.items()
    }


def _group(first: str, near: _Near) -> list[str]:
    group, waiting = [first], [first]
    while waiting:
        for other in near[waiting.pop()]:
            if other not in group:
                group.append(other)
                waiting.append(other)
    return group


def _ring(first: str, group: Sequence[str], near: _Near) -> list[Step] | None:
    """Return a way that passes each assembly once, or None where there is none or it would take too long to find."""
    if len(group) == 1:
        return [(first, "")]
    if len(group) == 2:
        stops = near[first][group[1]]
        return [(first, stops[0]), (group[1], stops[-1])]
    if len(group) > _LARGEST_RING:
        return None
    tries = [_MOST_TRIES]
    way = _continue([first], len(group), near, tries)
    if way is None:
        return None
    return [(one, near[one][other][0]) for one, other in zip(way, [*way[1:], first], strict=True)]


def _continue(way: list[str], count: int, near: _Near, tries: list[int]) -> list[str] | None:
    tries[0] -= 1
    if tries[0] <= 0:
        return None
    if len(way) == count:
        return way if way[0] in near[way[-1]] else None
    for other in near[way[-1]]:
        if other not in way:
            found = _continue([*way, other], count, near, tries)
            if found is not None:
                return found
    return None


def _there_and_back(first: str, near: _Near) -> list[Step]:
    """Return a way along a tree of the junctions and back, past every assembly."""
    steps: list[Step] = []
    seen = {first}
    stack: list[tuple[str, str, list[str]]] = [(first, "", list(near[first]))]
    while stack:
        name, back, left = stack[-1]
        onward = next((other for other in left if other not in seen), None)
        if onward is None:
            stack.pop()
            if stack:
                steps.append((name, back))
            continue
        seen.add(onward)
        stop = near[name][onward][0]
        steps.append((name, stop))
        stack.append((onward, stop, list(near[onward])))
    return steps
