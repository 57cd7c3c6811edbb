"""Numbers as they are written: grouped, mixed, with a sign for a fraction, raised small."""

import re
from fractions import Fraction
from functools import lru_cache

from tutor.line.lexing import LineRefusal
from tutor.line.table import Raw
from tutor.line.tree import Abs, Add, Div, Expr, Hole, Mul, Neg, Num, Percent, PiSign, Pow, Root

VULGAR = {
    "½": Fraction(1, 2),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
    "¼": Fraction(1, 4),
    "¾": Fraction(3, 4),
    "⅕": Fraction(1, 5),
    "⅖": Fraction(2, 5),
    "⅗": Fraction(3, 5),
    "⅘": Fraction(4, 5),
    "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6),
    "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8),
    "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8),
    "⅐": Fraction(1, 7),
    "⅑": Fraction(1, 9),
    "⅒": Fraction(1, 10),
}
SMALL = str.maketrans("⁺⁻⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁽⁾", "+-01234567890123456789()")
_POWER_WORDS = {"squared": "2", "cubed": "3"}

MAX_DIGITS = 40
MAX_EXPONENT_DIGITS = 4


def is_numeric(expr: Expr) -> bool:
    """Tell whether no name and no unit stands in an expression."""
    match expr:
        case Num() | PiSign() | Hole():
            return True
        case Neg(inner) | Abs(inner) | Root(_, inner) | Percent(inner):
            return is_numeric(inner)
        case Add(parts) | Mul(parts):
            return all(is_numeric(part) for part in parts)
        case Div(top, bottom):
            return is_numeric(top) and is_numeric(bottom)
        case Pow(base, exponent):
            return is_numeric(base) and is_numeric(exponent)
        case _:
            return False


def whole(digits: str, span: tuple[int, int]) -> Num:
    """Return a whole exponent; raises ``LineRefusal`` for one that is too long."""
    if len(digits) > MAX_EXPONENT_DIGITS:
        raise LineRefusal(span[0], span[1], "This power is too big for me.")
    return Num(Fraction(int(digits)), digits, 0, span=span)


def number(raw: Raw) -> Num:
    """Return a plain number with the decimal places it shows."""
    if len(raw.text) > MAX_DIGITS:
        _check_digits(raw)
    return plain_number(raw.text, (raw.start, raw.end))


def plain_number(text: str, span: tuple[int, int]) -> Num:
    """Return the number that a text of digits, perhaps with a point and grouped, is."""
    value, places, open_end = _value(text)
    return Num(value, text, places, open_end, span)


_GOES_ON = re.compile(r"(?:\.\.\.|…|\s*repeating)$", re.IGNORECASE)


_GROUPING = re.compile(r"[, \u00a0]")  # 1,250 and 1 250


@lru_cache(maxsize=4096)
def _value(text: str) -> tuple[Fraction, int, bool]:
    """Return a number, the decimal places it shows and whether it goes on."""
    if text.isdecimal():
        return Fraction(int(text)), 0, False
    digits = _GROUPING.sub("", _GOES_ON.sub("", text))
    open_end = _GOES_ON.search(text) is not None
    _, point, decimals = digits.partition(".")
    return Fraction(digits), len(decimals) if point else 0, open_end


def mixed(raw: Raw) -> Num:
    """Return a mixed number: ``3 1/2``, ``3½``."""
    text = raw.text
    _check_digits(raw)
    if text[-1] in VULGAR:
        value = Fraction(int(text[:-1].strip())) + VULGAR[text[-1]]
    elif (found := _SMALL_PART.search(text)) is not None:
        value = int(text[: found.start()]) + _quotient(text[found.start() :], raw)
    else:
        whole, part = text.split(maxsplit=1)
        value = int(whole) + _quotient(part, raw)
    return Num(value, " ".join(text.split()), span=(raw.start, raw.end))


def vulgar(raw: Raw) -> Num:
    """Return a fraction that is one sign, ``½``, or one of small digits, ``³⁄₄``."""
    _check_digits(raw)
    value = VULGAR[raw.text] if raw.text in VULGAR else _quotient(raw.text, raw)
    return Num(value, raw.text, span=(raw.start, raw.end))


_SMALL_PART = re.compile("[⁰¹²³⁴⁵⁶⁷⁸⁹]+⁄")


def _quotient(text: str, raw: Raw) -> Fraction:
    top, bottom = text.translate(SMALL).replace("⁄", "/").split("/")
    if int(bottom) == 0:
        raise LineRefusal(raw.start, raw.end, "Nothing can be divided by 0.")
    return Fraction(int(top), int(bottom))


def _check_digits(raw: Raw) -> None:
    if len(raw.text) > MAX_DIGITS and sum(map(str.isdigit, raw.text)) > MAX_DIGITS:
        raise LineRefusal(raw.start, raw.end, f"This number has more than {MAX_DIGITS} digits.")


def small_power(text: str) -> str:
    """Return the exponent of ``²``, ``⁻¹`` or “squared” in plain digits, with its sign."""
    return _POWER_WORDS.get(text.lower()) or text.translate(SMALL)


_SIGNED = re.compile(r"([-+]?)\(?([-+]?)(\d+)")


def small_exponent(small: Raw) -> Expr:
    """Return what stands small behind a base: ``²``, ``³⁺⁴``; raises ``LineRefusal`` for a long one."""
    span = (small.start, small.end)
    terms: list[Expr] = []
    for outer, inner, digits in _SIGNED.findall(small_power(small.text)):
        term: Expr = whole(digits, span)
        for sign in (inner, outer):
            term = Neg(term, span) if sign == "-" else term
        terms.append(term)
    return terms[0] if len(terms) == 1 else Add(tuple(terms), span)
