"""Reading a typed line: text in, its possible readings out, or the place that cannot be read.

``read`` never raises for what a student types. Limits on length, digits, nesting and
exponents are checked at this door, before anything is worked out.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from tutor.line.alike import Shapes, taken_apart
from tutor.line.asides import is_aside
from tutor.line.folding import folded as folded_signs
from tutor.line.folding import in_columns, with_plain_signs
from tutor.line.lexing import LineRefusal
from tutor.line.names import Names
from tutor.line.parse import parse
from tutor.line.phrases import as_phrase, has_no_words, is_words_alone, peel
from tutor.line.printed import is_remark, is_sentence, speaks, without_number, without_sides
from tutor.line.respelling import decided_by_digits, other_spellings, respelled
from tutor.line.said import steps_in
from tutor.line.settle import Choices
from tutor.line.statements import statement_of
from tutor.line.tree import Note, Said, Span, Statement
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


_LETTERS = re.compile(r"[^\W\d_]{2}|[{∅ℝØø]")
_DECIMAL_COMMA = re.compile(r"(?<![\d.,])\d+,\d+(?:,\d+)*")
_GROUPED = re.compile(r"\d{1,3}(?:,\d{3})+")
_ROOT_HEAD = re.compile(r"root\s*\($", re.IGNORECASE)


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

# Words that a problem declares can be words of the language too: "A = board - window" is no remark.
_DECLARED = re.compile(r"(?!.*[A-Za-z]\d)(?=.*[A-Za-z]{2})[0-9A-Za-z_.()+\-–−·*/^²³=≈ ]+")
_RUN = re.compile(r"[A-Za-z]{2,}(?:_\w+)?")


def read_afresh(text: str, names: Names) -> Readings | Unread:
    """Read one line, whatever was read before. ``text`` has at most ``MAX_LENGTH`` signs."""
    folded = folded_signs(text)
    if _EVERYDAY.fullmatch(folded) is not None:
        plainly = _read_core(folded, 0, len(folded), names)
        if isinstance(plainly, Readings):
            return plainly
    if _DECLARED.fullmatch(folded) is not None and names.are_all(_RUN.findall(folded)):
        plainly = _read_core(folded, 0, len(folded), names)
        if isinstance(plainly, Readings):
            return plainly
    folded = in_columns(folded)
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
    folded = folded_signs(text)
    if as_phrase(folded.strip()) is not None or folded.lstrip()[:4].lower() == "let ":
        return (text,)
    folded = in_columns(folded)
    steps = steps_in(respelled(folded, names).rstrip(), first=listed)
    return steps if len(steps) > 1 else (text,)


_LISTED = re.compile(r"[,;]|\s\s")

# An arrow, a bracket, or letters side by side, behind a comparison.
_SEVERAL = re.compile(r"[=<>≤≥≠≈].*(?:[→⇒⟹⇔⟺∴⟶➔➜➝➞➡⇨▶🡒]|[-=–—]>|\s\(|[^\W\d_]{2}|[∅Øℝ])")


def _read_one_way(folded: str, names: Names) -> Readings | Unread:
    folded = with_plain_signs(folded, names)
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
        statements = [statement_of(raw, names, first)]
        if first.met:
            ways = 1 << first.met
            for way in range(1, ways) if ways <= MAX_READINGS else (ways - 1,):
                other = statement_of(raw, names, Choices(taken=way))
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
