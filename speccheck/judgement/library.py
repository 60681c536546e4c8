"""The library: which packs ship, which are in force for a project, and how a stranger's pack is taken in."""

from collections.abc import Iterable, Sequence
from functools import lru_cache, partial
from pathlib import Path
from typing import Any

from speccheck.judgement.pack import Pack, PackError, Rule, pack_from_plain
from speccheck.shelf import rules_folder
from speccheck.tables.compiled import Area, read_area

__all__ = ["PRACTICE", "areas", "find_rule", "in_force", "load_pack", "pack_ids", "read_pack"]

PRACTICE = "practice"
_CODES = "codes"


def pack_ids(rules: Path | None = None) -> tuple[str, ...]:
    """Return the ids of the packs that ship, practice first."""
    return _ids(rules or rules_folder())


def load_pack(id_: str, rules: Path | None = None) -> Pack:
    """Return a pack that ships, by its id such as ``practice/vapour`` or ``codes/us/irc-2021``.

    Raises:
        PackError: when its file was changed and cannot be used.
    """
    return _load(id_, rules or rules_folder())


def in_force(adopted: Iterable[str], rules: Path | None = None) -> tuple[list[Pack], list[str]]:
    """Return the packs in force for a project, and the adopted editions for which none is held."""
    folder = rules or rules_folder()
    ids = pack_ids(folder)
    packs = [load_pack(id_, folder) for id_ in ids if id_.startswith(f"{PRACTICE}/")]
    missing = []
    for edition in dict.fromkeys(adopted):
        if f"{_CODES}/{edition}" in ids:
            packs.append(load_pack(f"{_CODES}/{edition}", folder))
        else:
            missing.append(edition)
    return packs, missing


def find_rule(id_: str, packs: Sequence[Pack]) -> Rule | None:
    """Return a rule by its id."""
    return next((rule for pack in packs for rule in pack.rules if rule.id == id_), None)


def read_pack(path: Path) -> Pack:
    """Return a pack from a file that does not ship, after checking its form, its expressions and its sentences.

    Raises:
        PackError: when the pack cannot be used.
        OSError, ValueError: when the file cannot be read.
    """
    from speccheck.tables.readable import read_yaml

    return pack_from_plain(_verified(read_yaml(path.read_bytes(), str(path)), path), path)


def areas(rules: Path | None = None) -> list[Area]:
    """Return the areas the packs are compiled into, one for each pack."""
    folder = rules or rules_folder()
    return [Area(f"packs/{_id(path, folder)}", (path,), partial(_content, path)) for path in _files(folder)]


def _files(folder: Path) -> list[Path]:
    return [*sorted((folder / PRACTICE).glob("*.yaml")), *sorted((folder / _CODES).rglob("*.yaml"))]


def _id(path: Path, folder: Path) -> str:
    return path.relative_to(folder).with_suffix("").as_posix()


@lru_cache(maxsize=64)
def _ids(folder: Path) -> tuple[str, ...]:
    # a folder is looked through once in a run, as its packs are read once
    return tuple(_id(path, folder) for path in _files(folder))


@lru_cache(maxsize=64)
def _load(id_: str, folder: Path) -> Pack:
    path = folder / f"{id_}.yaml"
    try:
        found = read_area(f"packs/{id_}", (path,), partial(_content, path), folder)
    except PackError:
        raise
    except (OSError, ValueError) as error:
        raise PackError(id_, [str(error)]) from error
    return pack_from_plain(found.content, None if found.compiled else path)


def _content(path: Path, files: dict[str, Any]) -> dict[str, Any]:
    """Return the plain form of the one pack in the files; only a fresh or changed pack comes this way."""
    (written,) = files.values()
    return _verified(written, path)


def _verified(written: Any, path: Path) -> dict[str, Any]:
    from speccheck.judgement.pack_place import error_in_file
    from speccheck.judgement.verification import verify_pack

    try:
        return verify_pack(written, str(path))
    except PackError as error:
        raise error_in_file(error, path) from None
