"""What a document calls an assembly beside its key."""

from speccheck.uses.check import Checked

__all__ = ["assembly_name", "called"]


def assembly_name(checked: Checked, place: str) -> str:
    """Return the name of an assembly, or of that in which a layer lies, by the place; empty where it has none."""
    assembly = checked.loaded.document.assemblies.get(place.partition(".")[0])
    return (assembly.name or "") if assembly is not None else ""


def called(checked: Checked, assembly: str) -> str:
    """Return the key of an assembly with its name, such as ``wall (Exterior wall)``; other places as they are."""
    name = assembly_name(checked, assembly)
    return f"{assembly} ({name})" if name else assembly
