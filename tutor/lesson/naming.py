"""Names and units as they stand in a lesson's entries, before the mathematics is read."""

import re
from collections.abc import Iterable
from difflib import get_close_matches

from tutor.quantity.dimension import ANGLE, LENGTH
from tutor.quantity.units import BY_WORD, read_unit

_WORD = r"(?:[^\W\d_π]+(?:_[A-Za-z0-9]+|[₀-₉]+|(?<![^\W\d_].)\d)?['′]?)"
_NAME = re.compile(rf"(?:m?∠ ?|angle )[A-Za-z]{{1,3}}|{_WORD}")
_LETTERS = re.compile(_WORD)
_NUMBER_AND_UNIT = re.compile(r"[-−+]?\s*[\d.,/ ½⅓⅔¼¾]*[\d½⅓⅔¼¾]\s*([^\W\d_]+.*|[°$¢€£])?")

# Words of mathematics that are nobody's name.
_RESERVED = frozenset({"pi", "sqrt", "cbrt", "abs", "root", "deg", "or", "and", "in"})


def is_name(text: str) -> bool:
    """Tell whether ``text`` may name a quantity: a letter, a word, an angle."""
    return bool(_NAME.fullmatch(text)) and text.casefold() not in _RESERVED


def mentions(text: str, name: str, names: Iterable[str]) -> bool:
    """Tell whether a formula speaks of ``name``; ``names`` are the names it may speak of.

    ``bh`` speaks of b and of h, unless a name ``bh`` is declared.
    """
    if " " in name or "∠" in name:
        return _squeezed(name) in _squeezed(text)
    words = {word.casefold() for word in names if len(word) > 1} | _RESERVED
    wanted = name.casefold()
    for found in _LETTERS.findall(text):
        word = found.casefold()
        if word == wanted or (len(wanted) == 1 and word not in words and wanted in word):
            return True
    return False


def _squeezed(text: str) -> str:
    return text.casefold().replace(" ", "")


def unit_of_value(value: str) -> str:
    """Return the unit behind the number of a given: "cm" of "47.1 cm"; "" where there is none."""
    found = _NUMBER_AND_UNIT.fullmatch(value)
    return (found[1] or "").strip() if found else ""


def unit_of_expression(value: str) -> str:
    """Return the short word behind an expression: "cmm" of "2 * 3.14 * r cmm"; "" where there is none."""
    found = _SHORT_WORD_LAST.search(value)
    return found[1] if found else ""


_SHORT_WORD_LAST = re.compile(r"\d.*[\w)] ([A-Za-z]{3,4})\s*$")


def is_plain_value(value: str) -> bool:
    """Tell whether a given is a number, with a unit or without, and no expression."""
    found = _NUMBER_AND_UNIT.fullmatch(value)
    return found is not None and (not found[1] or read_unit(found[1]) is not None)


def is_measure(unit: str) -> bool:
    """Tell whether ``unit`` is one of a length, an area or a volume: such values are positive."""
    read = read_unit(unit) if unit else None
    if read is None:
        return False
    size = read.dimension
    return size.length > 0 and not (size.angle or size.time or size.mass or size.money)


def is_length(unit: str) -> bool:
    """Tell whether ``unit`` is one of a length."""
    read = read_unit(unit) if unit else None
    return read is not None and read.dimension == LENGTH


def length_power(unit: str) -> int:
    """Return 1 of a length, 2 of an area, 3 of a volume, in whatever they are told; 0 of anything else."""
    return read.dimension.length if is_measure(unit) and (read := read_unit(unit)) is not None else 0


def length_in(unit: str) -> str:
    """Return the length that a unit counts in: cm of cm^2; "" of litres, which hide theirs, and of °."""
    read = read_unit(unit) if is_measure(unit) else None
    base = None if read is None else read.parts[0][0]
    return base.symbol if base is not None and base.dimension == LENGTH else ""


def is_angle(unit: str) -> bool:
    """Tell whether ``unit`` is one of an angle."""
    read = read_unit(unit) if unit else None
    return read is not None and read.dimension == ANGLE


def _better_unit(unit: str) -> str:
    power = re.fullmatch(r"(.*[^\W\d_])([23])", unit)
    if power is not None and read_unit(power[1]) is not None:
        return f"{power[1]}^{power[2]}"
    # Of a short word half is wrong when one letter is: the first one must be right.
    short = len(unit) <= 3
    words = [word for word in BY_WORD if word[0] == unit[0] and len(word) <= 3] if short else list(BY_WORD)
    near = get_close_matches(unit.casefold(), words, n=1, cutoff=0.5 if short else 0.7)
    return near[0] if near else ""


_PERCENT = frozenset({"%", "percent", "per cent", "pct"})


def has_no_unit(asked: str) -> bool:
    """Tell whether something is asked for in words that stand for no unit: in %, in boxes."""
    return asked.casefold() in _PERCENT or re.fullmatch(r"[^\W\d_]{4,40}", asked) is not None


def unit_problem(unit: str) -> tuple[str, str]:
    """Return what is wrong with a unit and a better one; both are "" where it is good."""
    if read_unit(unit) is not None:
        return "", ""
    if unit.casefold() in _PERCENT:
        return "Percent is no unit: leave it out. Where p = 0.75, “p = 75%” is right too.", ""
    better = _better_unit(unit[:30])
    if better:
        return "This is not a unit.", better
    return (
        "This is not a unit. Units are written like cm, cm^2, ft, cubic inches, °; counted things have none.",
        "",
    )
