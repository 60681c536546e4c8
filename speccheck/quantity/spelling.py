"""How a unit may be spelled: from a text such as ``h·ft2·degF/BTU`` to its symbols and exponents."""

import re
import unicodedata
from functools import lru_cache

__all__ = ["Signature", "fold", "signature"]

Signature = frozenset[tuple[str, int]]

# Pattern of a spelling, then the symbol it stands for. The first pattern that matches wins, so the longer
# spellings stand before the shorter ones they begin with. SI prefixes keep their case: MN is not mN.
_SPELLINGS: tuple[tuple[str, str], ...] = (
    (r"(?i:metric[ -]*perms?)", "metric-perm"),
    (r"(?i:(?:u\.?s\.?[ -]*)?perms?)", "perm"),
    (r"(?i:per[ -]?cent)|%", "%"),
    (r"(?i:in(?:ch(?:es)?)?\.?[ -]*(?:w\.?[ -]*[gc]\.?|of water|h2o))", "inH2O"),
    (r"(?i:in(?:ch(?:es)?)?\.?[ -]*(?:of )?hg)", "inHg"),
    (r"(?i:mm[ -]*(?:of )?hg)", "mmHg"),
    (r"24[ -]?(?i:h(?:ou)?rs?|h)|(?i:days?)", "day"),
    (r"(?i:weeks?)", "week"),
    (r"(?i:months?)", "month"),
    (r"(?i:years?)", "year"),
    (r"(?i:hours?|hrs?)", "h"),
    (r"(?i:seconds?|secs?)", "s"),
    (r"(?i:minutes?|min)", "min"),
    (r"(?i:ach)", "ACH"),
    (r"(?i:cfm)", "cfm"),
    (r"(?i:pcf)", "pcf"),
    (r"(?i:psf)", "psf"),
    (r"(?i:gsm)", "gsm"),
    (r"(?i:btus?)", "Btu"),
    (r"(?i:grains?)|gr", "grain"),
    (r"(?i:millimet(?:re|er)s?)|mm|MM", "mm"),
    (r"(?i:centimet(?:re|er)s?)|cm|CM", "cm"),
    (r"(?i:met(?:re|er)s?)", "m"),
    (r"(?i:lit(?:re|er)s?)", "L"),
    (r"(?i:mils?)", "mil"),
    (r"(?i:inch(?:es)?|in)|\"", "in"),
    (r"(?i:feet|foot|ft)|'", "ft"),
    (r"(?i:yards?|yd)", "yd"),
    (r"(?i:ounces?|oz)", "oz"),
    (r"(?i:pounds?)|(?i:lbm)|(?i:lbs)", "lb"),
    (r"(?i:lbf)", "lbf"),
    (r"(?i:lb)", "lb"),
    (r"°[ ]?C|(?i:deg(?:rees?)?\.?[ -]*C(?:elsius)?)|(?i:celsius)|C", "°C"),
    (r"°[ ]?F|(?i:deg(?:rees?)?\.?[ -]*F(?:ahrenheit)?)|(?i:fahrenheit)|F", "°F"),
    (r"(?i:kelvins?)|°[ ]?K|K", "K"),
    (r"(?i:pascals?)", "Pa"),
    (r"GPa", "GPa"),
    (r"MPa", "MPa"),
    (r"(?i:kpa)", "kPa"),
    (r"(?i:hpa)", "hPa"),
    (r"(?i:pa)", "Pa"),
    (r"MN", "MN"),
    (r"mW", "mW"),
    (r"W", "W"),
    (r"(?i:kg)", "kg"),
    (r"ng", "ng"),
    (r"mg", "mg"),
    (r"g", "g"),
    (r"L|l", "L"),
    (r"h", "h"),
    (r"d", "day"),
    (r"s", "s"),
    (r"m", "m"),
    (r"1", "1"),
)
_SYMBOLS = tuple(symbol for _, symbol in _SPELLINGS)
_TOKEN = re.compile(
    r"(?:[\s*·⋅∙•.]|-(?![0-9]))+"
    r"|(?P<per>/|per\b)"
    r"|(?P<open>\()|(?P<close>\))"
    r"|(?P<symbol>" + "|".join(f"({pattern})" for pattern, _ in _SPELLINGS) + r")"
    r"(?:\s?(?:\^|\*\*)\s?|)(?P<exponent>-?[1-9](?![0-9]))?"
)
_FIRST_SPELLING = _TOKEN.groupindex["symbol"] + 1
_SQUARE_OR_CUBIC = re.compile(
    r"(?i)\b(sq|square|cu|cubic)\b\.?[\s-]*([a-z]+)|\b(sq|cu)(ft|in|m)\b|\b(sf|cf)\b"
)

_LOOKALIKES = str.maketrans(
    {
        "º": "°",
        "˚": "°",
        "″": '"',
        "”": '"',
        "“": '"',
        "′": "'",
        "’": "'",
        "−": "-",
        "–": "-",
        "—": "-",
        "‐": "-",
        "‑": "-",
        "∕": "/",
        "⁄": "/",
    }
)
_SUPERSCRIPTS = re.compile("[⁻⁺⁰¹²³⁴⁵⁶⁷⁸⁹]+")
_FROM_SUPERSCRIPT = str.maketrans("⁻⁺⁰¹²³⁴⁵⁶⁷⁸⁹", "-+0123456789")
_VULGAR = re.compile("[¼½¾⅐-⅞]")


@lru_cache(maxsize=512)
def fold(text: str) -> str:
    """Return the text with lookalike characters folded to the plain ones the parser knows.

    Superscripts become ``^2``, vulgar fractions ``1/2`` with a space before them, primes quotes, and
    full-width and compatibility characters their ordinary forms.

    Example:
        >>> fold("5½″"), fold("W·m⁻²")
        ('5 1/2"', 'W·m^-2')
    """
    if text.isascii():
        return text.strip()
    text = text.translate(_LOOKALIKES)
    text = _SUPERSCRIPTS.sub(lambda found: "^" + found[0].translate(_FROM_SUPERSCRIPT), text)
    text = _VULGAR.sub(lambda found: " " + unicodedata.normalize("NFKC", found[0]).replace("⁄", "/"), text)
    return unicodedata.normalize("NFKC", text).translate(_LOOKALIKES).strip()


def _powers(found: re.Match[str]) -> str:
    word, unit, joined, joined_unit, short = found.groups()
    power = "2" if (word or joined or short)[0].lower() == "s" else "3"
    return f"{unit or joined_unit or 'ft'}{power} "


def _unbalanced(folded: str) -> bool:
    """Tell whether brackets are unpaired, or hold a quotient, so that no one stroke splits all."""
    if "(" not in folded and ")" not in folded:
        return False
    if folded.count("(") != folded.count(")"):
        return True
    before, stroke, _ = folded.partition("/")
    return bool(stroke) and before.count("(") != before.count(")")


@lru_cache(maxsize=1024)
def signature(folded: str) -> Signature | None:
    """Return the symbols and exponents of a folded unit text, or None when it is not understood.

    Every factor after the first stroke counts below it, as in ``ng/Pa·s·m²``: the trade writes units so.

    Example:
        >>> signature("h ft2 F/Btu") == signature("(hr*sq ft*degF)/BTU")
        True
        >>> signature("wombats") is None
        True
    """
    if _unbalanced(folded):
        return None
    text = _SQUARE_OR_CUBIC.sub(_powers, folded)
    powers: dict[str, int] = {}
    at, below = 0, False
    while at < len(text):
        token = _TOKEN.match(text, at)
        if token is None:
            return None
        at = token.end()
        if token["per"]:
            below = True
        elif token["symbol"]:
            symbol = _symbol(token)
            exponent = int(token["exponent"] or 1)
            powers[symbol] = powers.get(symbol, 0) + (-exponent if below else exponent)
    powers.pop("1", None)
    if len(powers) > 1 or -1 in powers.values():
        powers = _as_differences(powers)
    return frozenset(powers.items())


def _symbol(token: re.Match[str]) -> str:
    groups = token.groups()
    start = _FIRST_SPELLING - 1
    return _SYMBOLS[next(index for index in range(len(_SYMBOLS)) if groups[start + index] is not None)]


def _as_differences(powers: dict[str, int]) -> dict[str, int]:
    """Read a degree Celsius in a compound unit as the kelvin it is there."""
    if "°C" in powers:
        powers["K"] = powers.pop("°C") + powers.get("K", 0)
    return powers
