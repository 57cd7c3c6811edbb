"""Signs and writings with a plainer twin, put in its place one for one: places stay those of the text."""

import re
import unicodedata

from tutor.line.names import Names

# One code point for one, so that spans stay those of the typed text.
_FOLD: dict[int, int | str] = {ord("！") + shift: ord("!") + shift for shift in range(94)}
_FOLD |= dict.fromkeys(
    map(ord, "\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000\t"),
    " ",
)
_FOLD |= {ord("\u2010"): "-", ord("\u2011"): "-", ord("\u2012"): "-", ord("\ufe63"): "-", ord("’"): "'"}
_FOLD |= dict.fromkeys(map(ord, "⁃˗﹣➖"), "-") | {ord("➕"): "+", ord("ℓ"): "l", ord("∶"): ":"}
_FOLD |= {ord("∗"): "*", ord("⁎"): "*"}

# "Rs 800", "Rs. 800", "US$800"
_CURRENCY = re.compile(r"(?<![A-Za-z])(?:Rs\.?|(?:US|NZ|HK|[ACS])\$)(?=\s?\d)")

# "3x − y = 7 when x = 2": an equation and a value
_WHEN = re.compile(r"(?<=\S)(?<!,)\s+(?:when|where|if|for)\s+(?=[A-Za-z]\s*=)", re.IGNORECASE)

# "x₁,₂ = 3 ± 2" and "x_{1,2} = 3 ± 2" name both solutions of x at once.
_BOTH_NUMBERED = re.compile(r"(?<![A-Za-z])([A-Za-z])(?:₁\s?[,;/]\s?₂|_\{?1\s?[,;/]\s?2\}?|1[,;/]2(?=\s*=))")
_FOLD |= dict.fromkeys(map(ord, "⨯☓✗✘"), "×") | {ord("Π"): "π", ord("╱"): "/"}
_FOLD |= (
    dict.fromkeys(map(ord, "―ー"), "-")
    | dict.fromkeys(map(ord, "ˆ⌃↑"), "^")
    | {ord("∕"): "/", ord("➗"): "÷"}
)
_FOLD |= (
    dict.fromkeys(map(ord, "│❘ǀ"), "|")
    | dict.fromkeys(map(ord, "≟﹦꞊"), "=")
    | {ord("≧"): "≥", ord("≦"): "≤"}
)
_FOLD |= (
    dict.fromkeys(map(ord, "⟶➔➜➝➞➡⇨▶🡒"), "→")
    | dict.fromkeys(map(ord, "ᵒ∘"), "°")
    | {ord("∏"): "π", ord("ⅹ"): "x"}
)
# A keyboard for another alphabet, and signs without a width that a pasted text brings along.
_FOLD |= dict(zip(map(ord, "хХуасео"), "xXyaceo", strict=True))
_FOLD |= dict.fromkeys(map(ord, "\u200b\u200c\u200d\u200e\u200f\u2060\ufeff\u00ad\ufe0f"), " ")


def _slanted() -> dict[int, str]:
    """Return the letters and digits that word processors set slanted, bold or double."""
    plain = {code: unicodedata.normalize("NFKC", chr(code)) for code in range(0x1D400, 0x1D800)}
    return {code: sign for code, sign in plain.items() if len(sign) == 1 and sign != chr(code)}


_FOLD |= _slanted()

# "x + 4 = 0   x − 2 = 0": two equations in columns, as they come out of a printed page.
_COLUMNS = re.compile(r"(?<=[^=<>≤≥,;\s])\s{2,}(?=[^=<>≤≥,;\s]+(?: [^=<>≤≥,;\s]+)* ?[=<>≤≥])")


def _with_comma(gap: re.Match[str]) -> str:
    """Put a comma into a gap between two equations; a gap before the first one stays."""
    before, behind = gap.string[: gap.start()], gap.string[gap.end() :]
    if _WORD_BEHIND.match(behind) or _WORD_BEFORE.search(before):
        return gap[0]  # "x = 4   or   x = −1"
    if _JOINS_BEHIND.match(behind) or _JOINS_BEFORE.search(before):
        return gap[0]  # "A = 64  *  3.14 = 200.96"
    return ("," + " " * (len(gap[0]) - 1)) if re.search("[=<>≤≥]", before) else gap[0]


_WORD_BEHIND = re.compile(r"(?:or|and|so)(?![A-Za-z])|[∨∧]", re.IGNORECASE)
_JOINS_BEHIND = re.compile(r"[×·∙•⋅*/÷^]|[-+−–±]\s{2}")
_JOINS_BEFORE = re.compile(r"(?:[×·∙•⋅*/÷^±(√]|(?<=\s)[-+−–])$")
_WORD_BEFORE = re.compile(r"(?:(?<![A-Za-z])(?:or|and|so|either)|[∨∧])$", re.IGNORECASE)


# "b1" for b₁, as it is typed on a plain keyboard: one sign for one, so that places stay.
_NUMBERED = re.compile(r"(?<![A-Za-z_^])([A-Za-z])(\d)(?![\d.])")


def _with_subscripts(text: str, names: Names) -> str:
    """Make subscripts of digits behind a letter, where b₁ is a name or b1 and b2 stand side by side."""
    told: dict[str, set[str]] = {}
    for letter, digit in _NUMBERED.findall(text):
        told.setdefault(letter, set()).add(digit)

    def lowered(found: re.Match[str]) -> str:
        letter, digit = found[1], found[2]
        known = len(told[letter]) > 1 or names.find(f"{letter}_{digit}") is not None
        return letter + "₀₁₂₃₄₅₆₇₈₉"[int(digit)] if known else found[0]

    return _NUMBERED.sub(lowered, text)


def folded(text: str) -> str:
    """Return a line with every sign that has a plainer twin in its place: as many signs as before."""
    return text.replace("\t", " ") if text.isascii() else text.translate(_FOLD)


def in_columns(text: str) -> str:
    """Return a line with a comma between equations that stand in columns."""
    return _COLUMNS.sub(_with_comma, text) if "  " in text else text


def with_plain_signs(folded: str, names: Names) -> str:
    """Return a line with names, money and values as the grammar has them: as many signs as before."""
    if "[]" in folded:
        folded = folded.replace("[]", "? ")  # an empty box, as it is typed on a plain keyboard
    if _NUMBERED.search(folded) is not None:
        folded = _with_subscripts(folded, names)
    if "Rs" in folded or "$" in folded:
        folded = _CURRENCY.sub(lambda found: "₹$"[found[0][-1] == "$"].rjust(len(found[0])), folded)
    if "=" in folded and _WHEN.search(folded):
        folded = _WHEN.sub(lambda found: ", ".ljust(len(found[0])), folded)
    if "2" in folded or "₂" in folded:
        folded = _BOTH_NUMBERED.sub(lambda found: found[1] + " " * (len(found[0]) - 1), folded)
    return folded
