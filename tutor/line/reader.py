"""Reading a typed line: text in, its possible readings out, or the place that cannot be read.

``read`` never raises for what a student types. Limits on length, digits, nesting and
exponents are checked at this door, before anything is worked out.
"""

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache

from tutor.line.advice import LIST_ALONE
from tutor.line.alike import Shapes, taken_apart
from tutor.line.asides import is_aside
from tutor.line.lexing import LineRefusal
from tutor.line.names import Names, plain
from tutor.line.parse import parse
from tutor.line.phrases import as_phrase, has_no_words, is_words_alone, peel
from tutor.line.printed import is_remark, is_sentence, speaks, without_number, without_sides
from tutor.line.respelling import decided_by_digits, other_spellings, respelled
from tutor.line.said import steps_in
from tutor.line.settle import Choices, Settler
from tutor.line.table import Raw
from tutor.line.tree import Bare, Chain, Expr, Joined, Joiner, Name, Note, Onward, Rel, Said, Span, Statement
from tutor.line.wording import read_with_words

MAX_LENGTH = 400
MAX_READINGS = 8

_SHAPES = Shapes()


@dataclass(frozen=True, slots=True)
class Readings:
    """The trees a line can mean, the likeliest first; never empty."""

    statements: tuple[Statement, ...]


@dataclass(frozen=True, slots=True)
class Unread:
    """A line that cannot be read. ``message`` is for the student; ``span`` where to look."""

    span: Span
    message: str
    too_long: bool = False


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

_DECIMAL_COMMA = re.compile(r"(?<![\d.,])\d+,\d+(?:,\d+)*")
_GROUPED = re.compile(r"\d{1,3}(?:,\d{3})+")
_ROOT_HEAD = re.compile(r"root\s*\($", re.IGNORECASE)

# "x + 4 = 0   x − 2 = 0": two equations in columns, as they come out of a printed page.
_LETTERS = re.compile(r"[^\W\d_]{2}|[{∅ℝØø]")
_COLUMNS = re.compile(r"(?<=[^=<>≤≥,;\s])\s{2,}(?=[^=<>≤≥,;\s]+(?: [^=<>≤≥,;\s]+)* ?[=<>≤≥])")


def _with_comma(gap: re.Match[str]) -> str:
    """Put a comma into a gap between two equations; a gap before the first one stays."""
    before, behind = gap.string[: gap.start()], gap.string[gap.end() :]
    if _WORD_BEHIND.match(behind) or _WORD_BEFORE.search(before):
        return gap[0]  # "x = 4   or   x = −1"
    return ("," + " " * (len(gap[0]) - 1)) if re.search("[=<>≤≥]", before) else gap[0]


_WORD_BEHIND = re.compile(r"(?:or|and|so)(?![A-Za-z])|[∨∧]", re.IGNORECASE)
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


_RELS = {
    "EQ": Rel.EQ,
    "APPROX": Rel.APPROX,
    "LE": Rel.LE,
    "GE": Rel.GE,
    "LT": Rel.LT,
    "GT": Rel.GT,
    "NE": Rel.NE,
}


def read(text: str, names: Names = Names()) -> Readings | Unread:  # noqa: B008 (a frozen value)
    """Read one line against the names of its problem."""
    if len(text) > MAX_LENGTH:
        return Unread(
            (MAX_LENGTH, len(text)),
            f"This line is longer than {MAX_LENGTH} signs. Write it in shorter lines.",
            True,
        )
    taken = taken_apart(text)
    statement = _SHAPES.get(names, taken, text)
    if statement is not None:
        return Readings((statement,))
    found = read_afresh(text, names)
    if isinstance(found, Readings) and len(found.statements) == 1 and not decided_by_digits(text):
        _SHAPES.keep(names, taken, text, found.statements[0])
    return found


# Numbers, single letters and plain signs on both sides of one sign: nothing else can be meant.
_EVERYDAY = re.compile(
    r"(?!.*(?:[A-Za-z][A-Za-z\d]|\d[xX] ?\d|[-+−] ?[-+−]|  | \(|\. ))"
    r"[-−]?[0-9A-Za-z][0-9A-Za-z.()+\-−·* ]*=[0-9A-Za-z.()+\-−·* ]*[0-9A-Za-z)]"
)


def read_afresh(text: str, names: Names) -> Readings | Unread:
    """Read one line, whatever was read before. ``text`` has at most ``MAX_LENGTH`` signs."""
    folded = text.replace("\t", " ") if text.isascii() else text.translate(_FOLD)
    if _EVERYDAY.fullmatch(folded) is not None:
        plainly = _read_core(folded, 0, len(folded), names)
        if isinstance(plainly, Readings):
            return plainly
    if "  " in folded:
        folded = _COLUMNS.sub(_with_comma, folded)
    if _LETTERS.search(folded) is not None and (phrase := as_phrase(folded.strip())) is not None:
        return Readings((Said(phrase, (0, len(folded))),))
    spelled = respelled(folded, names).rstrip()
    if is_aside(folded, names):
        return Readings((Note((0, len(folded))),))
    if _LETTERS.search(folded) is not None and (
        speaks(folded, names, surely=True) or speaks(spelled.strip(), names)
    ):
        return Readings((Note((0, len(folded))),))
    found = _read_one_way(spelled, names)
    others = other_spellings(folded, names)
    return (
        _joined_ways(found, [_read_one_way(respelled(other, names).rstrip(), names) for other in others])
        if others
        else found
    )


def steps_of(text: str, names: Names, *, first: bool = False) -> tuple[str, ...]:
    """Return the steps of a line that holds several, ``2x = 10 → x = 5``: each as long as up to its end.

    ``first``: it is the first line of work and the premise of all others.
    """
    listed = first and text.count("=") > 1 and _LISTED.search(text) is not None
    if len(text) > MAX_LENGTH or (not listed and _SEVERAL.search(text) is None):
        return (text,)
    folded = text.replace("\t", " ") if text.isascii() else text.translate(_FOLD)
    if as_phrase(folded.strip()) is not None or folded.lstrip()[:4].lower() == "let ":
        return (text,)
    if "  " in folded:
        folded = _COLUMNS.sub(_with_comma, folded)
    steps = steps_in(respelled(folded, names).rstrip(), first=listed)
    return steps if len(steps) > 1 else (text,)


_LISTED = re.compile(r"[,;]|\s\s")

# An arrow, a bracket, or letters side by side, behind a comparison.
_SEVERAL = re.compile(r"[=<>≤≥≠≈].*(?:[→⇒⟹⇔⟺∴⟶➔➜➝➞➡⇨▶🡒]|[-=–—]>|\s\(|[^\W\d_]{2}|[∅Øℝ])")


def _read_one_way(folded: str, names: Names) -> Readings | Unread:
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
    if not folded.isprintable():
        at = next(at for at, sign in enumerate(folded) if not sign.isprintable())
        return Unread((at, at + 1), "There is a hidden sign here that I cannot read. Type this part again.")
    if has_no_words(folded):
        found = _read_core(folded, 0, len(folded), names)
        return _with_words(found, folded, 0, len(folded), names)
    start, end = peel(folded)
    core = folded[start:end]
    if not core:
        if not folded.strip():
            return Unread((0, len(folded)), "Type a line first.")
        return Readings((Note((0, len(folded))),))
    phrase = as_phrase(core)
    if phrase is not None:
        return Readings((Said(phrase, (start, end)),))
    if is_words_alone(core, names, lets="let" in folded[:start].lower()) or is_remark(core, names):
        return Readings((Note((start, end)),))
    folded = without_sides(folded, names)
    counted = without_number(folded, start, end, names)
    found = _read_core(folded, start, end, names)
    if counted is not None:
        found = _either(_read_core(folded, *counted, names), found)
    if "+" in folded and _PLUS_OR_MINUS.search(folded):
        found = _either(_read_core(_PLUS_OR_MINUS.sub("± ", folded), start, end, names), found)
    if isinstance(found, Unread) and _says_what_stands_for_what(folded, start, end, names):
        return Readings((Note((start, end)),))
    found = _with_words(found, folded, start, end, names)
    if isinstance(found, Unread) and _is_spoken(folded, start, end, names):
        return Readings((Note((start, end)),))
    return found


# "x = +-7" and "3 +- 4", as ± is typed; "3+-4" has a sum and a sign of its own.
_PLUS_OR_MINUS = re.compile(r"(?<![^\s=(≈])\+[-−–](?=\s?[\d√(A-Za-z.])")


# Letters side by side, the sign of a shape, "(2 d.p.)": only then words can be taken otherwise.
_WORDY = re.compile(r"[^\W\d_]{2}|[A-Z]\.[A-Z]\.|[△▵∆□▭▱○◯⊙⏢]|[(\[]\s?\d\s?[A-Za-z]\.")


def _with_words(found: Readings | Unread, text: str, start: int, end: int, names: Names) -> Readings | Unread:
    """Return what was read, or else what is read where words are taken as names or left out."""
    if isinstance(found, Readings) or _WORDY.search(text) is None:
        return found
    statements = read_with_words(text, start, end, names, _read_plainly)
    return found if statements is None else Readings(statements[:MAX_READINGS])


def _read_plainly(text: str, start: int, end: int, names: Names) -> tuple[Statement, ...] | None:
    found = _read_core(text, start, end, names)
    return found.statements if isinstance(found, Readings) else None


def _either(first: Readings | Unread, second: Readings | Unread) -> Readings | Unread:
    """Keep both where an equation has a number behind it that could also be a factor."""
    if isinstance(first, Unread) or isinstance(second, Unread):
        return second if isinstance(first, Unread) else first
    return Readings(tuple(dict.fromkeys((*first.statements, *second.statements)))[:MAX_READINGS])


def _says_what_stands_for_what(text: str, start: int, end: int, names: Names) -> bool:
    """Tell whether “let” begins a line that cannot be read without its words: “Let w = width”."""
    return "let" in text[:start].lower() and is_sentence(text[start:end].strip(), names)


def _is_spoken(text: str, start: int, end: int, names: Names) -> bool:
    whole = text.strip()
    if _LETTERS.search(whole) is None:
        return False
    ends = whole[-1] in ".?!"
    if is_sentence(text[start:end].strip(), names, ends=ends):
        return True
    # "To check, substitute 4 for x.": the words around have been taken off.
    return end - start < 4 and ends and is_sentence(whole, names, ends=True)


def _joined_ways(found: Readings | Unread, others: list[Readings | Unread]) -> Readings | Unread:
    """Return all ways that can be read, each once."""
    statements = list(found.statements) if isinstance(found, Readings) else []
    for other in others:
        for statement in other.statements if isinstance(other, Readings) else ():
            if statement not in statements and not isinstance(statement, Note):
                statements.append(statement)
    return Readings(tuple(statements[:MAX_READINGS])) if statements else found


@lru_cache(maxsize=512)
def read_before(text: str, names: Names) -> Readings | Unread:
    """Read one line, or return what it was read as a short while ago.

    A line is read while it is typed, then to be marked, and the next student types the same one.
    """
    return read(text, names)


def _read_core(text: str, start: int, end: int, names: Names) -> Readings | Unread:
    comma = _decimal_comma(text, start, end) if "," in text else None
    if comma is not None:
        return comma
    try:
        raw = parse(text, start, end)
        first = Choices()
        statements = [_statement(raw, names, first)]
        if first.met:
            ways = 1 << first.met
            for way in range(1, ways) if ways <= MAX_READINGS else (ways - 1,):
                other = _statement(raw, names, Choices(taken=way))
                if other not in statements:
                    statements.append(other)
    except LineRefusal as refusal:
        return Unread((refusal.start, refusal.end), refusal.message)
    return Readings(tuple(statements))


def _decimal_comma(text: str, start: int, end: int) -> Unread | None:
    """``3,14`` is never 314 and never a list."""
    for found in _DECIMAL_COMMA.finditer(text, start, end):
        if _GROUPED.fullmatch(found[0]) or _ROOT_HEAD.search(text[start : found.start()]):
            continue
        with_point = found[0].replace(",", ".", 1)
        message = (
            f"Is the comma in {found[0]} a decimal point? Write {with_point}. "
            "For two numbers put a space after the comma."
        )
        return Unread(found.span(), message)
    return None


def _statement(raw: Raw, names: Names, choices: Choices) -> Statement:
    settler = Settler(names, choices)
    parts: list[Chain | Onward | Bare] = []
    joiners: list[Joiner] = []
    only = raw.kids[0]
    if only.kind in ("among", "pairs") and len(raw.kids) == 1:
        return _listed(only, settler)
    for kid in raw.kids:
        if kid.kind == "joiner":
            joiners.append(_joiner(kid))
        else:
            parts.append(_clause(kid, settler))
    if len(parts) == 1:
        return _solution_numbered(parts[0], names) or parts[0]
    spoken = [joiner for joiner in joiners if joiner is not Joiner.COMMA]
    joiner = spoken[0] if spoken else Joiner.COMMA
    if any(other is not joiner for other in spoken):
        raise LineRefusal(raw.start, raw.end, "Use only “or” or only “and” in one line.")
    joined = Joined(joiner, _with_left_sides(parts), (raw.start, raw.end))
    return _solutions_numbered(joined, names) or joined


_COUNTED = re.compile(r"(\w+)_\d")


def _solution_numbered(part: Chain | Onward | Bare, names: Names) -> Chain | None:
    """Read ``x₁ = 3`` alone as a solution of x, where x is a name and x₁ is none."""
    if not isinstance(part, Chain) or not isinstance(part.sides[0], Name):
        return None
    written = plain(part.sides[0].name)
    found = _COUNTED.fullmatch(written)
    if found is None or names.find(written) is not None or (name := names.find(found[1])) is None:
        return None
    if found[1].isupper():
        return None  # "A₁ = 8 · 5" is the area of a part
    return Chain((Name(name, part.sides[0].span), *part.sides[1:]), part.rels, part.span)


def _solutions_numbered(joined: Joined, names: Names) -> Joined | None:
    """Read ``x₁ = 3, x₂ = −3`` as a list of solutions, where x is a name and x₁ is none."""
    parts: list[Chain] = []
    seen: set[str] = set()
    base = ""
    for part in joined.parts:
        if not isinstance(part, Chain) or len(part.sides) != 2 or not isinstance(part.sides[0], Name):
            return None
        written = plain(part.sides[0].name)
        found = _COUNTED.fullmatch(written)
        if found is None or written in seen or names.find(written) is not None:
            return None
        base = base or found[1]
        if found[1] != base or (name := names.find(base)) is None:
            return None
        seen.add(written)
        parts.append(Chain((Name(name, part.sides[0].span), part.sides[1]), part.rels, part.span))
    return Joined(Joiner.COMMA, tuple(parts), joined.span)


def _joiner(kid: Raw) -> Joiner:
    last = kid.kids[-1].kind
    if last == "OR":
        return Joiner.OR
    return Joiner.AND if last == "AND" else Joiner.COMMA


def _with_left_sides(parts: list[Chain | Onward | Bare]) -> tuple[Chain | Onward | Bare, ...]:
    """``x = 4 or -4`` says ``x`` of both: a bare part takes the left side of the first."""
    first = parts[0]
    if not isinstance(first, Chain) or len(first.sides) != 2:
        return tuple(parts)
    return tuple(_with_left_side(first, part) for part in parts)


def _with_left_side(first: Chain, part: Chain | Onward | Bare) -> Chain | Onward | Bare:
    if isinstance(part, Onward):  # "x > 3 and < 5"
        return Chain((first.sides[0], *part.sides), part.rels, part.span)
    return Chain((first.sides[0], part.expr), first.rels, part.span) if isinstance(part, Bare) else part


def _name_of(sides: list[Expr]) -> str:
    return sides[-1].name if sides and isinstance(sides[-1], Name) else ""


def _listed(raw: Raw, settler: Settler) -> Joined:
    """``x = {3, −3}`` says one or the other, ``(x, y) = (3, 4)`` says both."""
    left, sign, right = raw.kids
    rel = _RELS[sign.kind]
    values = _members(right)
    lefts = _members(left) if raw.kind == "pairs" else [left] * len(values)
    braces = right.kids[0].text == "{"
    if not rel.equates or len(lefts) != len(values) or braces == (raw.kind == "pairs"):
        raise LineRefusal(right.start, right.end, LIST_ALONE)
    joiner = Joiner.AND if raw.kind == "pairs" else Joiner.COMMA
    parts = tuple(
        Chain((settler.expr(name), settler.expr(value)), (rel,), (value.start, value.end))
        for name, value in zip(lefts, values, strict=True)
    )
    return Joined(joiner, parts, (raw.start, raw.end))


def _members(listed: Raw) -> list[Raw]:
    return [kid for kid in listed.kids if kid.kind not in ("LPAR", "COMMA", "RPAR")]


def _clause(raw: Raw, settler: Settler) -> Chain | Onward | Bare:
    span = (raw.start, raw.end)
    if raw.kind in ("list_alone", "among", "pairs"):
        raise LineRefusal(raw.start, raw.end, LIST_ALONE)
    if raw.kind == "bare":
        return Bare(settler.expr(raw.kids[0]), span)
    sides: list[Expr] = []
    rels: list[Rel] = []
    for kid in raw.kids:
        rel = _RELS.get(kid.kind)
        if rel is None:
            sides.append(settler.expr(kid))
        else:
            # "∠A ≅ ∠B" says that two angles are the same, no approximation.
            rels.append(Rel.EQ if kid.text == "≅" and "∠" in _name_of(sides) else rel)
    if raw.kind == "onward":
        return Onward(tuple(rels), tuple(sides), span)
    return Chain(tuple(sides), tuple(rels), span)
