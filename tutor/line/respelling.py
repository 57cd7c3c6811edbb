"""A line in the signs of the grammar: what is typed in their place gives way, sign for sign.

A student types ``x is at least 5``, ``2x = 10 -> x = 5``, ``root 49``, ``4x6``. Each of these
becomes the sign it stands for and spaces: the line stays as long as it is, and places stay.
"""

import re

from tutor.line.asides import without_asides
from tutor.line.in_words import in_signs, turned
from tutor.line.late import Late
from tutor.line.names import Names
from tutor.line.rules import UNIT, Found, Rule, rule

# Nothing of what follows stands in a line without one of these.
_ASKS = Late(
    r"\d [A-Za-z]_?[2₂]?\s*=|\?\s+[A-Za-z]|°\s+[A-Za-z]"
    r"|[^\W\d_]{2}|[-−–—=]>|^\s*[>#(]|\+\s?/?\s?[-−–]|[-−–]/\+|[<>=] [<>=]|===|=/=|=\?|\?=|&&|\|\|"
    r"|[<][A-Za-z]|\d\s?[xX]\s?[\d(]|\$[-−–]|\d ?m[23]|\^\s?[°o]|\d[_']\d|\?\?|∓|→|[A-Za-z]:\s"
    r"|[|∣]\s*[|√xX]|[\w)]\. "
)


def respelled(text: str, names: Names) -> str:
    """Return the line in the signs of the grammar; as long as it was."""
    text = without_asides(turned(text, names), names)
    if _ASKS.search(text) is None:
        return text
    for each in _SIGNS:
        text = each.pattern.sub(each.sign, text)
    text = _with_times(text, names)
    text = _with_angles(text)
    if ("π" in text or "pi" in text) and names.find("r2") is None:
        text = _LOST_POWER.sub(lambda found: found[1] + "²³"["23".index(found[2])], text)
    text = _LABELLED.sub(lambda found: found[1] + "=" if names.find(found[1]) else found[0], text)
    if _WORDED.search(text) is None:
        return text
    return in_signs(text, names)


_WORDED = Late(r"[^\W\d_]{2}|^\s*A:")

_SIGNS = (
    rule(r"<[-−–=]{1,3}>", "⇔"),
    rule(r"(?:[-−–—]{1,3}|={2,3})>", "→"),
    # "2x = 10 => x = 5": between two comparisons it is an arrow, in "x => 5" it is ≥.
    rule(r"([=<>≤≥][^=<>≤≥→]{1,60})=>(?=[^=<>≤≥→]+[=<>≤≥])", "→"),
    rule(r"^(\s*[A-Za-z]\s*)→(?=\s*[-−–±]?\s?[\d.√(][^=<>≤≥]*$)", "="),
    rule(r"^\s*>{1,3}(?=\s+[^<>≤≥]*=[^<>≤≥]*$)", "→"),
    rule(r"((?:^|[=<>≤≥≈(\[{,;]|\bor\b)\s*)(?:\+\s?/?\s?[-−–]|[-−–]/\+)(?=\s*[\d.√(|A-Za-z$])", "±"),
    rule(r"\+\s/\s[-−–]", "±"),
    rule(r"> =", "≥"),
    rule(r"< =", "≤"),
    rule(r"= >(?=\s*[-−–.\d])", "≥"),
    rule(r"= <(?=\s*[-−–.\d])", "≤"),
    rule(r"=/=", "≠"),
    rule(r"(=\s*)\?{2,}", "?"),
    rule(r"(?<=\d)'(?=\d{3}(?!\d))", " "),  # 1'000
    rule(r"∓(?=[^±]*$)", "±"),
    rule(r"===|\?=|=\?\s?(?=[\d(])", "="),
    rule(r"&&", "&"),
    rule(r"(\d\s*)\|\|(?=\s*[A-Za-z]\s*[=<>≤≥])", "∨"),
    Rule(Late(r"(\$)([-−–])(?=\s?[\d.])"), lambda found: found[2] + found[1]),
    Rule(
        Late(rf"(?<=\d)( ?{UNIT})([23])(?!\w|\.\d)", re.IGNORECASE),
        lambda found: found[1] + "²³"["23".index(found[2])],
    ),
    rule(r"(?<=\d)\^\s?(?:°|o(?![A-Za-z]))", "°"),
    rule(r"(?<=\d)_(?=\d+/\d)", " "),
    # "x_1 = 5 x_2 = −5", "x = 5 x = −5": two solutions, and no product.
    rule(r"^(\s*([A-Za-z])_?[1₁]\s*=\s*[-−–]?[\d./]+)\s(?=\2_?[2₂]\s*=)", ","),
    rule(r"^(\s*([A-Za-z])\s*=\s*[-−–]?[\d./]+)\s(?=\2\s*=)", ","),
    # "P = ? L = 8 cm W = 5 cm": labels in a row, and no products.
    rule(rf"(=\s*(?:\?|[\d.]+\s?(?:{UNIT}|°)[²³]?))\s(?=\s*[A-Za-z](?:_?\d)?\s?=(?!=))", ","),
    rule(r"^\s*\(1\)(?=\s+[A-Za-z][^=]*=)", ""),
    # Two sentences, and what is done to both sides behind a stroke.
    rule(r"([=<>≤≥][^=<>≤≥]*[\w)])\.(?=\s+[\w(][^=<>≤≥]*[=<>≤≥])", ","),
    rule(
        r"([=<>≤≥][^|∣]*?)\s+[|∣]{1,2}\s*(?:√|sqrt|[xX]\s?\d+|[-+−–÷:/*·×]\s?[\w.]+|[A-Za-z]{3,}[^"
        r"|∣=<>≤≥]*)\s*$",
        "",
    ),
)

_TIMES = Late(rf"(?<=[\d)])(\s?)[xX](?=\s?(?:\d*\.\d|\d|\())|(?<=\d)(\s?{UNIT}\s?)[xX](?=\s?[\d.])")
_LETTERS_TIMES = Late(r"(?<![A-Za-z])[A-Za-z](?:[xX][A-Za-z])+(?![A-Za-z])")
_POWER_LIKE = Late(r"\s?[23](?![\d.])")


def _with_times(text: str, names: Names) -> str:
    """``4x6``, ``8cmx7cm``, ``bxh``: the x between two numbers, and where the problem has no x.

    ``2x3`` beside an x is left alone: it can be a power too.
    """
    known = names.find("x") is not None

    def times(found: Found) -> str:
        before = found[1] if found[1] is not None else found[2]
        behind = found.string[found.end() :]
        apart = before.endswith(" ") and behind.startswith(" ")
        if apart and not known:
            return found[0]  # the row settles it
        if (
            known
            and found[2] is None
            and (apart or behind[:1] in " (" or before or _POWER_LIKE.match(behind))
        ):
            return found[0]
        return before + "×"

    def product(found: Found) -> str:
        letters = found[0][::2]
        if known or any(letter in "xX" or names.find(letter) is None for letter in letters):
            return found[0]
        return "×".join(letters)

    if "x" not in text and "X" not in text:
        return text
    return _LETTERS_TIMES.sub(product, _TIMES.sub(times, text))


_ANGLE = Late(r"(^|[-+−–(]\s*|=\s+)(m\s?)?<\s?([A-Z]{1,3}(?![A-Za-z])|[a-z](?=\s*=))(?=[^>]*=)")


def _with_angles(text: str) -> str:
    """``<A + <B = 180``: the sign of an angle as it is typed on a plain keyboard."""
    if "<" not in text or "=" not in text:
        return text
    return _ANGLE.sub(lambda found: found[0].replace("<", "∠"), text)


# "πr2h" as it comes out of a printed page: what stood high has come down.
_LOST_POWER = Late(r"((?:π|pi)\s?[rR])([23])(?![\d.²³^₂])")

# "b: 4 cm", where nothing is compared.
_LABELLED = Late(r"(?<![^\s,;])([A-Za-z]):(?=\s+[-−–]?[\d.$][^=<>≤≥]*$)")

# -- second ways -----------------------------------------------------------------------------------

_SIGNED = Late(r"((?:^|[=<>≤≥≈(,;]|\bor\b)\s*)\+(?=\s?[-−–])")
_NUMBERED = Late(r"\s*(?:\(\d{1,2}\)|\d{1,2}:)\s+(?=[A-Za-z].*[=<>≤≥])")
_DONE_BEHIND = Late(r"(?<=[\w)])(?:\s+[/÷:]\d+|\s+[(\[]\s?[-+−–]\s?\d+\s?[)\]])$")
_HIGH_ZERO = Late(r"(?<=\d\d)(?<!10)⁰(?![⁰¹²³⁴-⁹])")
_EITHER = Late(r"(=\s*\+?)(\d+(?:\.\d+)?)\s?/(?=\s?[-−–+]\s?\2\s*$)")
_TWO_EQUATIONS = Late(r"(?<=[\w)°%²³])\s(?=[A-Za-z](?:_?\d)?\s?[=:]\s?[^=]+$)")

# "L=36 cm W=18 cm H=7 cm"
_EACH_EQUATION = Late(r"(?<=[\w)°%²³?])\s(?=\s*[A-Za-z](?:_?\d)?\s?=(?!=))")


_BY_DIGITS = Late(r"⁰|\d[xX]\d|^\s*\(\d+\)|/\s?[-−–+]\s?\d[\d.]*\s*$")


def decided_by_digits(text: str) -> bool:
    """Tell whether another number in a line could have it read in another way: ``4x6``, ``5/-5``."""
    return _BY_DIGITS.search(text) is not None


def other_spellings(text: str, names: Names) -> tuple[str, ...]:
    """Return what else a line can be meant as: read too, behind the first way."""
    found: list[str] = []
    if "+" in text and _SIGNED.search(text) is not None:
        found.append(_SIGNED.sub(r"\1 ", text))
    if (number := _NUMBERED.match(text)) is not None:
        found.append(" " * number.end() + text[number.end() :])
    if "=" in text and (done := _DONE_BEHIND.search(text)) is not None:
        found.append(text[: done.start()] + " " * len(done[0]))
    if "⁰" in text and _HIGH_ZERO.search(text):
        found.append(_HIGH_ZERO.sub("°", text))
    if "/" in text and _EITHER.search(text) is not None:
        found.append(
            _EITHER.sub(
                lambda each: each[1] + each[2] + "," + " " * (len(each[0]) - len(each[1] + each[2]) - 1), text
            )
        )
    if text.count("=") > 1 and (gap := _TWO_EQUATIONS.search(text)) and "=" in text[: gap.start()]:
        found.append(text[: gap.start()] + "," + text[gap.end() :])
    if text.count("=") > 2 and (listed := _EACH_EQUATION.sub(",", text)).count(",") + 1 == text.count("="):
        found.append(listed)
    if " and " in text and (mixed := re.search(r"(?<=\d) and (?=\d+/\d+(?![\w.]))", text)):
        found.append(text[: mixed.start()] + " " * 5 + text[mixed.end() :])
    return tuple(each for each in found)
