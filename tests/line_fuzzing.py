"""Lines nobody would write on purpose: from the shape of the grammar, mutated, and of any signs at all.

Everything comes from a seed, so the same lines come again on every machine.
"""

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from tutor.line.names import Names
from tutor.line.reader import Readings, Unread, read
from tutor.line.tree import Statement
from tutor.line.walk import every, sides

NAMES = (Names(), Names(frozenset({"x"})), Names(frozenset({"V", "L", "W", "H", "SA", "∠A", "x_1"})))

_NUMBERS = [
    "0",
    "1",
    "2",
    "7",
    "12",
    "3.14",
    ".5",
    "1,250",
    "0.333...",
    "1/2",
    "3 1/2",
    "½",
    "2¾",
    "99999999",
]
_LETTERS = [
    "x",
    "y",
    "A",
    "b",
    "r",
    "L",
    "W",
    "H",
    "m",
    "π",
    "pi",
    "SA",
    "x_1",
    "x₁",
    "∠A",
    "m∠1",
    "abc",
    "LWH",
]
_UNITS = [
    " cm",
    " ft^2",
    " in.",
    "°",
    "%",
    " km/h",
    " sq ft",
    " students",
    " boxes of paper",
    "$",
    " m/s²",
    "°C",
]
_SUMS = [" + ", " - ", " − ", "+", "-", "–", " ± ", " plus "]
_PRODUCTS = [" · ", "*", " × ", "", " ", "/", " ÷ ", " of ", " x ", ":", " times ", " per "]
_RELS = [" = ", "=", " < ", " ≤ ", ">=", " ≈ ", " ≠ ", "=>", " == ", "~"]
_JOINERS = [" or ", " and ", ", ", "; ", ", so ", " → ", " ∨ ", " & "]
_WORDS = [
    "so ",
    "check: ",
    "1) ",
    "because ",
    "let ",
    " (add 3)",
    " | : 2",
    "no",
    "yes, ",
    "the answer is ",
    " ✓",
]
_BRACKETS = ["()", "[]", "{}", "||", "(]"]
_ROOTS = ["√", "∛", "sqrt", "³√", "√(", "root(3, ", "abs("]
_TAILS = ["²", "³", "⁻¹", "^2", "^-2", "^(1/2)", "^x", "**3", "!", "'", "′", " squared", "^99", "^12345"]
_PIECES = [
    *_NUMBERS, *_LETTERS, *_UNITS, *_SUMS, *_PRODUCTS, *_RELS, *_JOINERS, *_WORDS, *_ROOTS, *_TAILS,
    "(", ")", "[", "]", "{", "}", "|", "?", "…", "\\", "_", "\x00", "\u202e", "\u200b", "\u0305", "½", "⁄", "″",
]  # fmt: skip
_HOSTILE = [
    "__import__('os').system('true')", "[bold red]x[/]", "<b>x</b>", "\x1b[31mx", "{{7*7}}", "'; DROP TABLE x",
    "9" * 60, "(" * 30, "-" * 60, "√" * 60, "9^9^9^9^9", "((9^9)^9)^9", "1/" * 40, "x or " * 20, "½" * 30,
]  # fmt: skip


def an_expression(chance: random.Random, depth: int) -> str:
    """Return a sum or a product, mostly one that could be meant."""
    if depth <= 0 or chance.random() < 0.3:
        return chance.choice(chance.choice([_NUMBERS, _LETTERS]))
    inner = an_expression(chance, depth - 1)
    match chance.randrange(8):
        case 0 | 1:
            return inner + chance.choice(_SUMS) + an_expression(chance, depth - 1)
        case 2 | 3:
            return inner + chance.choice(_PRODUCTS) + an_expression(chance, depth - 1)
        case 4:
            pair = chance.choice(_BRACKETS)
            return pair[0] + inner + pair[1]
        case 5:
            return chance.choice(_ROOTS) + inner + chance.choice(["", ")"])
        case 6:
            return inner + chance.choice(_TAILS)
        case _:
            return chance.choice(["-", "−", "", "+", "$"]) + inner + chance.choice(_UNITS)


def a_statement(chance: random.Random) -> str:
    """Return one or several equations, or what goes on."""
    parts = [an_expression(chance, chance.randint(0, 4)) for _ in range(chance.choice([1, 2, 2, 2, 3]))]
    line = parts[0]
    for part in parts[1:]:
        line += chance.choice(_RELS) + part
    if chance.random() < 0.12:
        line += chance.choice(_JOINERS) + an_expression(chance, 2)
    if chance.random() < 0.1:
        word = chance.choice(_WORDS)
        line = chance.choice([word + line, line + word])
    return line


def mutated(chance: random.Random) -> str:
    """Return a statement with pieces taken out, doubled, put in or cut off."""
    line = a_statement(chance)
    for _ in range(chance.randint(1, 4)):
        at, to = sorted((chance.randint(0, len(line)), chance.randint(0, len(line))))
        match chance.randrange(5):
            case 0:
                line = line[:at] + line[to:]
            case 1:
                line = line[:to] + line[at:to] + line[to:]
            case 2:
                line = line[:at] + chance.choice(_PIECES) + line[at:]
            case 3:
                line = line[:at] + chance.choice(_HOSTILE) + line[to:]
            case _:
                line = line[:to]
    return line


def pieces(chance: random.Random) -> str:
    """Return pieces of lines in any order."""
    return "".join(chance.choice(_PIECES) for _ in range(chance.randint(1, 14)))


def any_signs(chance: random.Random) -> str:
    """Return signs of any script, and some of the line's own between them."""
    signs = []
    for _ in range(chance.randint(0, 24)):
        top = chance.choice([0x7F, 0x24F, 0x3FF, 0x2300, 0x3100, 0xFFFF, 0x10FFFF])
        code = chance.randint(0, top)
        signs.append(chance.choice(_PIECES) if 0xD800 <= code < 0xE000 else chr(code))
    return "".join(signs)


_WAYS: tuple[Callable[[random.Random], str], ...] = (
    a_statement,
    a_statement,
    a_statement,
    mutated,
    mutated,
    pieces,
    any_signs,
)


def lines(seed: int, count: int) -> Iterator[str]:
    """Yield lines of every kind."""
    chance = random.Random(seed)
    for _ in range(count):
        yield chance.choice(_WAYS)(chance)


_REPEATED = [
    *_PIECES,
    "a ", "so ", "the ", "is ", "not ", "or ", "and ", "by ", "solve ", "the equation ", "x or ", "x = ", "x² + ",
    "(1) ", "①", "1 ", "1, ", ". ", "; ", ": ", "A is ", "if x ", "{x | ", "x ∈ ", "number ", "it's ", "→ ", "= ", "  ",
]  # fmt: skip


def repeated(seed: int, count: int) -> Iterator[str]:
    """Yield lines as long as they may be, of one or two pieces again and again.

    A pattern that tries all ways to part such a line is not done in this life.
    """
    chance = random.Random(seed)
    for _ in range(count):
        piece = "".join(chance.choice(_REPEATED) for _ in range(chance.randint(1, 2)))
        yield (piece * 400)[:395] + chance.choice(["", "!", " = 1", "x", "?"])


@dataclass(frozen=True, slots=True)
class Read:
    """What became of a line: how many readings, or the sentence."""

    readings: tuple[Statement, ...]
    message: str


def read_and_check(text: str, names: Names) -> Read:
    """Read a line and hold the answer to what a caller may rely on."""
    found = read(text, names)
    if isinstance(found, Unread):
        start, end = found.span
        assert 0 <= start <= end <= len(text), (text, found)
        assert found.message and found.message.isprintable() and found.message[-1] in ".?", (text, found)
        return Read((), found.message)
    assert isinstance(found, Readings) and found.statements, text
    for statement in found.statements:
        first, last = statement.span
        assert 0 <= first <= last <= len(text), (text, statement)
        for side in sides(statement):
            for node in every(side):
                assert 0 <= node.span[0] <= node.span[1] <= len(text), (text, node)
    return Read(found.statements, "")
