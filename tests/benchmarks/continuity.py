"""The walk along the lines of the air barrier: how it grows with the enclosure, and what it adds to a check."""

from __future__ import annotations

from datetime import date
from functools import partial
from random import Random
from typing import Any

from speccheck.document.load import load_data
from speccheck.survey import survey
from speccheck.survey.lines import Place, walk
from speccheck.uses.check import KNOWN, check
from tests.benchmarks.clock import best_of

__all__ = ["continuity", "enclosure", "house"]

_DAY = date(2026, 1, 15)
_LAYERS = {
    "wall": (("board", "gypsum-sheathing-glass-mat", "12 mm"), ("weather", "housewrap-microporous", None)),
    "roof": (("film", "variable-permeance-membrane", None), ("deck", "plywood", "18 mm")),
}


def enclosure(assemblies: int, junctions: int, seed: int = 7, share: float = 0.98) -> tuple[Any, list[Place]]:
    """Return layers and places: a long building of two lines, a share of whose links is drawn."""
    random = Random(seed)
    names = [f"part-{number}" for number in range(assemblies)]
    layers = {name: (f"{name}.inner", f"{name}.outer") for name in names}
    places = []
    for number in range(junctions):
        first = number % assemblies
        other = (first + 1 + (number // assemblies) % 9) % assemblies
        one, two = names[first], names[other]
        links = [(f"{one}.{side}", f"{two}.{side}") for side in ("inner", "outer") if random.random() < share]
        places.append(Place(f"j{number}", (one, two), tuple(links)))
    return layers, places


def house(walls: int, eaves: int = 1) -> dict[str, Any]:
    """Return a document of walls in a ring under one roof: a corner and some lengths of eave for each."""
    names = [f"wall-{number}" for number in range(walls)]
    built = {kind: _layers(rows) for kind, rows in _LAYERS.items()}
    tops = [f"top-{number}" for number in range(eaves)]
    wall = {"kind": "wall", "sides": [*tops, "left", "right"], "layers": built["wall"]}
    joined: dict[str, Any] = {}
    for number, name in enumerate(names):
        after = names[(number + 1) % walls]
        joined[f"corner-{number}"] = _junction("outside-corner", (name, "right"), (after, "left"), "board")
        for top in tops:
            joined[f"eave-{number}-{top}"] = _junction(
                "wall-to-eave", (name, top), ("roof", "perimeter"), "film"
            )
    return {
        "speccheck": 1,
        "project": {"place": {"zone": "6A"}},
        "assemblies": {**dict.fromkeys(names, wall), "roof": {"kind": "roof", "layers": built["roof"]}},
        "junctions": joined,
    }


def _layers(rows: tuple[tuple[str, str, str | None], ...]) -> list[dict[str, Any]]:
    return [
        {"id": id_, "material": material, "controls": ["air"], **({"thickness": size} if size else {})}
        for id_, material, size in rows
    ]


def _junction(kind: str, one: tuple[str, str], other: tuple[str, str], layer: str) -> dict[str, Any]:
    link = {"from": f"{one[0]}.board", "to": f"{other[0]}.{layer}", "by": "acrylic-tape"}
    return {"kind": kind, "joins": [".".join(one), ".".join(other)], "thermal": "continuous", "air": [link]}


def continuity(rounds: int) -> None:
    """Print how long the walk takes, how it grows, and what ten junctions add to a check."""
    print(f"continuity, best of {rounds}")
    for name, share in (("closed", 1.0), ("nearly closed", 0.98), ("torn", 0.6)):
        sizes = [(50, 500), (100, 1000), (200, 2000)]
        times = [best_of(rounds, partial(walk, *enclosure(*size, share=share))) for size in sizes]
        ratios = " : ".join(f"{time / times[0]:.1f}" for time in times)
        print(
            f"  {name:14} 50, 100, 200 assemblies take {ratios}; 200 with 2,000 junctions {times[-1] * 1000:.0f} ms"
        )
    data = house(199, 9)
    loaded = load_data(data, "measured.yaml", KNOWN)
    seconds = best_of(2, lambda: survey(loaded.document))
    print(
        f"  survey of {len(data['assemblies'])} assemblies and {len(data['junctions'])} junctions {seconds * 1000:.0f} ms"
    )
    _ten_junctions(rounds)


def _ten_junctions(rounds: int) -> None:
    whole = house(5)
    bare = {**whole, "junctions": {}}
    for name, run in (
        ("survey", lambda one: survey(one.document)),
        ("check", lambda one: check(one, (), _DAY)),
    ):
        times = []
        for data in (bare, whole):
            loaded = load_data(data, "measured.yaml", KNOWN)
            run(loaded)
            times.append(best_of(rounds, partial(run, loaded)))
        added = (times[1] - times[0]) * 1000
        print(
            f"  {name}: {len(whole['junctions'])} junctions add {added:.2f} ms, {times[1] / times[0]:.2f} times as long"
        )


if __name__ == "__main__":
    continuity(5)
