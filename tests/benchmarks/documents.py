"""Documents to measure with: walls and roofs with plausible layers, and whole houses, the same for the same seed."""

from __future__ import annotations

from random import Random
from typing import Any

__all__ = ["SEED", "houses", "sections"]

SEED = 20260115

# PyYAML would write a code such as 02139 without quotes, and readers disagree on it.
_ZIPS = ("04101", "55401", "60614", "80202", "97201", "10001", "19103", "30303", "98104", "99501")
_LININGS = ("gypsum-board", "gypsum-fibre-board", "plywood")
_FINISHES = ("latex-paint", "alkyd-enamel", "vapour-retarder-primer", "vinyl-wallpaper", None)
_INSIDE = ("polyethylene-film", "variable-permeance-membrane", "kraft-laminate", None, None)
_BATTS = (
    *("mineral-wool-batt", "glass-fibre-batt", "cellulose-dense-pack"),
    *("spray-foam-closed-cell", "spray-foam-open-cell", "hemp-fibre-batt"),
)
_SHEATHINGS = (("osb", "11 mm"), ("plywood", "12.5 mm"), ("gypsum-sheathing-glass-mat", "12.7 mm"))
_BOARDS = ("xps", "eps", "polyiso-foil-faced", "mineral-wool-board", "wood-fibre-board", None, None)
_WRAPS = ("housewrap-spunbonded", "housewrap-microporous", "building-paper")
_CLADDINGS = (
    *(("vinyl-siding", None), ("fibre-cement-siding", "8 mm"), ("softwood-board", "19 mm")),
    *(("brick-veneer", "90 mm"), ("wood-bevel-siding", "16 mm")),
)
_COVERINGS = ("asphalt-shingles", "metal-roofing", "clay-roof-tile")


def sections(count: int, seed: int = SEED) -> list[dict[str, Any]]:
    """Return documents of one wall or roof each."""
    random = Random(seed)
    found = []
    for number in range(count):
        kind = random.choice(("wall", "wall", "wall", "roof"))
        assembly = _roof(random) if kind == "roof" else _wall(random)
        found.append(_document(random, f"section {number + 1}", {f"{kind}-1": assembly}))
    return found


def houses(count: int, seed: int = SEED) -> list[dict[str, Any]]:
    """Return documents of a wall, a roof and a slab each, with junctions, a window and a pipe."""
    random = Random(seed)
    found = []
    for number in range(count):
        assemblies = {"wall": _wall(random), "roof": _roof(random), "slab": _slab(random)}
        document = _document(random, f"house {number + 1}", assemblies)
        document |= _joints(random)
        found.append(document)
    return found


def _document(random: Random, name: str, assemblies: dict[str, Any]) -> dict[str, Any]:
    indoor = {"temperature": "21 °C", "humidity": f"{random.randrange(25, 55, 5)} %"}
    project: dict[str, Any] = {"name": name, "place": {"zip": random.choice(_ZIPS)}, "use": "dwelling"}
    if random.random() < 0.8:
        project["indoor"] = indoor
    if random.random() < 0.5:
        project["adopted"] = ["us/irc-2021"]
    return {"speccheck": 1, "project": project, "assemblies": assemblies}


def _wall(random: Random) -> dict[str, Any]:
    sheathing, thickness = random.choice(_SHEATHINGS)
    cladding, depth = random.choice(_CLADDINGS)
    board = random.choice(_BOARDS)
    layers = [
        *_inner(random),
        _batt(random, "fill"),
        {"id": "sheathing", "material": sheathing, "thickness": thickness, "controls": ["air"]},
        {"id": "weather", "material": random.choice(_WRAPS), "controls": ["water"]},
    ]
    if board is not None:
        layers.append({"id": "board", "material": board, "thickness": f"{random.choice((25, 38, 50))} mm"})
    if random.random() < 0.6:
        cavity = {"id": "cavity", "material": "air-cavity", "thickness": "19 mm"}
        layers.append(cavity | random.choice(({"ventilation": "ventilated"}, {"ventilation": "vented"}, {})))
    layers.append({"id": "cladding", "material": cladding} | ({"thickness": depth} if depth else {}))
    return {"kind": "wall", "framing": _framing(random, "16 in"), "layers": layers}


def _roof(random: Random) -> dict[str, Any]:
    layers = [
        *_inner(random),
        _batt(random, "fill", ("9.25 in", "11.25 in")),
        {"id": "deck", "material": "plywood", "thickness": "16 mm", "controls": ["air"]},
        {"id": "underlay", "material": "asphalt-felt", "controls": ["water"]},
    ]
    if random.random() < 0.5:
        vent = {"id": "vent", "material": "air-cavity", "thickness": "38 mm", "ventilation": "ventilated"}
        layers.append(vent)
    layers.append({"id": "covering", "material": random.choice(_COVERINGS)})
    return {"kind": "roof", "framing": _framing(random, "24 in"), "layers": layers}


def _slab(random: Random) -> dict[str, Any]:
    layers: list[dict[str, Any]] = [
        {"id": "concrete", "material": "concrete", "thickness": "100 mm", "controls": ["air"]},
        {"id": "sheet", "material": "underslab-vapour-barrier", "controls": ["vapour", "water"]},
        {"id": "board", "material": random.choice(("xps", "eps")), "thickness": "50 mm"},
    ]
    return {"kind": "slab", "layers": layers}


def _inner(random: Random) -> list[dict[str, Any]]:
    lining: dict[str, Any] = {"id": "lining", "material": random.choice(_LININGS), "thickness": "12.7 mm"}
    finish, membrane = random.choice(_FINISHES), random.choice(_INSIDE)
    if finish is not None:
        lining["finish"] = finish
    return [lining] + ([{"id": "control", "material": membrane, "controls": ["vapour"]}] if membrane else [])


def _batt(random: Random, id_: str, depths: tuple[str, ...] = ("3.5 in", "5.5 in")) -> dict[str, Any]:
    layer = {"id": id_, "material": random.choice(_BATTS), "thickness": random.choice(depths), "framed": True}
    if random.random() < 0.5:
        layer["thermal-resistance"] = f"R-{random.choice((13, 15, 19, 21, 30, 38))}"
    return layer


def _framing(random: Random, spacing: str) -> dict[str, Any]:
    framing: dict[str, Any] = {"material": "softwood", "width": "38 mm", "spacing": spacing}
    if random.random() < 0.5:
        framing["fraction"] = random.choice((0.15, 0.2, 0.23, 0.25))
    return framing


def _joints(random: Random) -> dict[str, Any]:
    def shown(start: str, end: str, by: str) -> dict[str, Any]:
        return {"air": [{"from": start, "to": end, "by": by}]} if random.random() < 0.8 else {}

    return {
        "junctions": {
            "foot": {"kind": "wall-slab", "joins": ["wall.base", "slab.perimeter"]}
            | shown("wall.sheathing", "slab.concrete", "preformed-adhesive-bead"),
            "eaves": {"kind": "wall-roof", "joins": ["wall.top", "roof.eave"], "thermal": "continuous"}
            | shown("wall.sheathing", "roof.deck", "acrylic-tape"),
            "corner": {"kind": "wall-wall", "joins": ["wall.left", "wall.right"]}
            | shown("wall.sheathing", "wall.sheathing", "liquid-flashing"),
        },
        "openings": {
            "window": {"kind": "window", "in": "wall", "u-factor": "0.28 Btu/(h·ft²·°F)"}
            | shown("wall.sheathing", "window.frame", "low-expansion-foam")
        },
        "penetrations": {
            "drain": {"kind": "pipe", "in": "wall"} | shown("wall.sheathing", "drain.ring", "liquid-flashing")
        },
    }
