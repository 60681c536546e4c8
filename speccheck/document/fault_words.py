"""The words for each kind of fault the models find in a value: what is wrong, what was expected, what to do."""

import re
from collections.abc import Callable, Sequence
from difflib import get_close_matches
from typing import Any

from pydantic_core import ErrorDetails

from speccheck.document.problem import Path, printable

__all__ = ["fault_words", "shown"]

Words = tuple[str, str, str]

_LONGEST_SHOWN = 60
_MONTHS = 12
"""A list of this length, neither more nor less, goes by months."""
_NAME = "a name of letters, digits, hyphens and underscores that begins with a letter, 64 characters at most"

# First words of a fault's type: what is wanted in its place, and how that is written.
_WANTED = {
    "bool": ("true or false", ""),
    "int": ("a whole number", "a whole number, such as 3"),
    "float": ("a number", "a plain number, such as 43.7"),
    "string": ("a text", ""),
    "dict": ("a mapping", "keys and values, one to a line"),
    "model": ("a mapping", "keys and values, one to a line"),
    "tuple": ("a list", "a list, such as [one, two], or lines that begin with a hyphen"),
    "list": ("a list", "a list, such as [one, two], or lines that begin with a hyphen"),
}

# Key: how its text is written, and what to do when it is not.
_FORMS = {
    "zip": ('five digits in quotes, such as "04101"', "write the five digits, in quotes"),
    "fips": ('five digits in quotes, such as "23005"', "write state and county code, five digits in quotes"),
    "state": ("two capital letters, such as ME", "write the two-letter code"),
    "zone": (
        "a climate zone with its moisture letter, such as 6A, 4C or 7",
        "write the zone as the map names it",
    ),
    "joins": ("assembly.side, such as north-wall.base", "write the assembly, a dot and its side"),
    "from": ("assembly.layer, such as north-wall.control", "write the assembly, a dot and its layer"),
    "to": (
        "assembly.layer or opening.frame, such as north-wall.control",
        "write the assembly, a dot and its layer",
    ),
    "rule": ("a rule id, such as vapour.falls-outward", "copy the id from the report"),
}

# Key: what to do where one value stands for what has parts.
_PARTED = {
    "permeance": "write it under the cup of its test, such as permeance: {dry-cup: 0.8 perm}, or cup-not-stated",
    "airtightness": "write it as airtightness: {target: 1.5 ACH50}",
    "place": 'write it as place: {zip: "04101"} or place: {zone: 6A}',
    "indoor": "write it as indoor: {temperature: 21 °C, humidity: 35 %}",
    "monthly": "write it as monthly: {temperature: [20 °C, ...], humidity: [40 %, ...]}, twelve of each",
    "layers": "write it as {material: osb, thickness: 11 mm}",
    "edge": "write it as edge: {insulation: R-10, depth: 24 in}",
    "framing": "write it as framing: {spacing: 16 in, fraction: 0.23}",
}


# What people write for a choice of ours.
_OTHER_WORDS = {
    "house": "dwelling",
    "home": "dwelling",
    "single-family": "dwelling",
    "residential": "dwelling",
    "apartment": "residential-group",
    "apartments": "residential-group",
    "multi-family": "residential-group",
    "multifamily": "residential-group",
    "shop": "retail",
    "swimming-pool": "pool",
    "wood": "softwood",
    "timber": "softwood",
    "lumber": "softwood",
    "metal": "steel",
    "exterior": "outdoors",
    "outside": "outdoors",
    "earth": "ground",
    "soil": "ground",
    "basement-wall": "below-grade-wall",
    "foundation-wall": "below-grade-wall",
    "insulation": "thermal",
    "rain": "water",
    "screws": "fasteners",
    "nails": "fasteners",
    "wire": "cable",
}


# Key: what its entries are called, one and many.
_ENTRIES = {
    "assemblies": ("assembly", "assemblies"),
    "layers": ("layer", "layers"),
    "joins": ("side", "sides"),
    "by": ("sealing means", "sealing means"),
}


def shown(value: Any) -> str:
    """Return a value as a message names it, cut when long, safe for a terminal.

    Example:
        >>> shown("5 perm"), shown(None), shown(True), shown([1, 2])
        ("'5 perm'", 'nothing', 'true', 'a list')
    """
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return f"'{printable(value, _LONGEST_SHOWN)}'"
    if isinstance(value, dict):
        return "a mapping"
    if isinstance(value, (list, tuple)):
        return "a list"
    try:
        return printable(str(value), _LONGEST_SHOWN)
    except ValueError:  # a whole number of thousands of digits
        return "a number"


def fault_words(path: Path, errors: Sequence[ErrorDetails], keys: Sequence[str]) -> Words:
    """Return what is wrong with the value at a path, what was expected and what to do.

    Args:
        path: keys and list positions from the top to the value.
        errors: what the models say of it; more than one where it may take several forms.
        keys: the keys known at the path, where it should be a mapping.
    """
    error = errors[0]
    context = error.get("ctx", {})
    key = next((step for step in reversed(path) if isinstance(step, str)), "")
    if "what" in context:
        expected = " or ".join(dict.fromkeys(str(e.get("ctx", {}).get("expected", "")) for e in errors))
        return str(context["what"]), expected, str(context["do"])
    kind = str(error["type"])
    if path == ("speccheck",):
        return _version(error["input"])
    if kind in _WORDS:
        return _WORDS[kind](error, key)
    if kind.partition("_")[0] in _WANTED:
        return _other_kind(errors, key, keys)
    message = str(error["msg"])
    return f"{shown(error['input'])}: {message[:1].lower()}{message[1:]}", "", "correct it"


def _version(value: Any) -> Words:
    what = f"{shown(value)} is not a version of the document's form that is known here"
    if value is None:
        what = "the version of the document's form is missing"
    quoted = isinstance(value, str) and value.strip() == "1"
    return (
        what,
        "speccheck: 1",
        "write 1 without quotes" if quoted else "write 1, or use the program's version that reads this form",
    )


def _other_kind(errors: Sequence[ErrorDetails], key: str, keys: Sequence[str]) -> Words:
    """Word a value of another kind than the one wanted: a number for a text, a text for a list."""
    wanted = [_WANTED[str(error["type"]).partition("_")[0]] for error in errors]
    value = errors[0]["input"]
    what = f"{shown(value)} stands where {' or '.join(dict.fromkeys(noun for noun, _ in wanted))} is wanted"
    first = str(errors[0]["type"]).partition("_")[0]
    expected = " or ".join(dict.fromkeys(form for _, form in wanted if form))
    if first == "string" and key in _FORMS:
        expected = _FORMS[key][0]
    elif first == "model" and keys:
        expected = f"keys such as {', '.join(keys[:6])}"
    return what, expected, _remedy(first, value, key)


def _remedy(wanted: str, value: Any, key: str) -> str:
    if value is None:
        return "write it" if key in _ENTRIES else "write it, or take the line out if it is not known"
    plain = not isinstance(value, (dict, list, tuple))
    if wanted == "string":
        digits = isinstance(value, int) and not isinstance(value, bool) and key in ("zip", "fips")
        quoted = f"{value:05d}" if digits else shown(value)
        return f'put it in quotes: "{quoted}"' if plain else "write one text"
    if wanted in ("tuple", "list"):
        return (
            f"put it in brackets: [{shown(value).strip(chr(39))}]"
            if plain
            else "begin each entry with a hyphen"
        )
    if wanted in ("dict", "model"):
        fallback = "write key: value on lines under it" if plain else "write keys and values without hyphens"
        return _PARTED.get(key, fallback) if plain else fallback
    return "write true or false" if wanted == "bool" else "write one number, without quotes or a unit"


def _choice(error: ErrorDetails, key: str) -> Words:
    listed = str(error.get("ctx", {}).get("expected", "")).replace("'", "")
    options = [part.strip() for part in listed.replace(" or ", ", ").split(",")]
    value = error["input"]
    near = _near(value, options) if isinstance(value, str) else None
    fault = "is none of the choices" if isinstance(value, str) else "stands where one word is wanted"
    return (
        f"{shown(value)} {fault}",
        f"one of {', '.join(options)}" if len(options) > 1 else listed,
        f"did you mean `{near}`?" if near else "choose one of them",
    )


def _near(value: str, options: Sequence[str]) -> str | None:
    folded = value.strip().lower().replace(" ", "-").replace("_", "-")[:100]
    other = _OTHER_WORDS.get(folded)
    if other in options:
        return other
    near = get_close_matches(folded, options, n=1, cutoff=0.7)
    return near[0] if near else None


def _form(error: ErrorDetails, key: str) -> Words:
    if key in _FORMS and error["loc"][-1] != "[key]":
        expected, do = _FORMS[key]
        return f"{shown(error['input'])} is not of the form wanted", expected, do
    slug = re.sub(r"[^A-Za-z0-9_-]+", "-", str(error["input"])[:200]).strip("-")
    usable = re.fullmatch(r"[A-Za-z][A-Za-z0-9_-]{0,63}", slug)
    return f"{shown(error['input'])} cannot be a name", _NAME, f"write `{slug}`" if usable else "rename it"


def _few(error: ErrorDetails, key: str) -> Words:
    context = error.get("ctx", {})
    if context.get("min_length") == _MONTHS:
        return _not_twelve(error)
    noun = _ENTRIES.get(key, ("entry", "entries"))[0]
    return f"there is no {noun} here", f"at least one {noun}", "add one"


def _not_twelve(error: ErrorDetails) -> Words:
    value = error["input"]
    found = len(value) if isinstance(value, (list, tuple)) else 0
    what = f"there {'is 1 value' if found == 1 else f'are {found} values'}"
    return what, "twelve values, one for each month, January first", "give one for each month"


def _many(error: ErrorDetails, key: str) -> Words:
    context = error.get("ctx", {})
    if context.get("max_length") == _MONTHS:
        return _not_twelve(error)
    count = context.get("actual_length") or "too many"
    return (
        f"there are {count} {_ENTRIES.get(key, ('entry', 'entries'))[1]}",
        f"at most {context.get('max_length')}",
        "check for repeats, or split it",
    )


def _short(error: ErrorDetails, key: str) -> Words:
    least = error.get("ctx", {}).get("min_length", 1)
    do = "say why in a sentence that others can judge" if key == "reason" else "write it out"
    return f"{shown(error['input'])} is too short", f"at least {least} characters", do


def _long(error: ErrorDetails, key: str) -> Words:
    most = error.get("ctx", {}).get("max_length")
    return f"{shown(error['input'])} is too long", f"at most {most} characters", "shorten it"


def _low(error: ErrorDetails, key: str) -> Words:
    return f"{shown(error['input'])} is too small", f"at least {error['ctx']['ge']}", "check the number"


def _high(error: ErrorDetails, key: str) -> Words:
    return f"{shown(error['input'])} is too large", f"at most {error['ctx']['le']}", "check the number"


def _infinite(error: ErrorDetails, key: str) -> Words:
    return (
        f"{shown(error['input'])} is not a finite number",
        "a number",
        "write a number, or leave the line out",
    )


_WORDS: dict[str, Callable[[ErrorDetails, str], Words]] = {
    "literal_error": _choice,
    "string_pattern_mismatch": _form,
    "too_short": _few,
    "too_long": _many,
    "string_too_short": _short,
    "string_too_long": _long,
    "greater_than_equal": _low,
    "less_than_equal": _high,
    "finite_number": _infinite,
}
