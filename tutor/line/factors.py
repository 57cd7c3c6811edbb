"""The factors of a row: letters of a run, powers, the product they make."""

from typing import TYPE_CHECKING

from tutor.line.lexing import LineRefusal
from tutor.line.numerals import MAX_EXPONENT_DIGITS, small_exponent
from tutor.line.table import Raw
from tutor.line.tree import Expr, Measure, Mul, Name, Num, PiSign, Pow

if TYPE_CHECKING:
    from tutor.line.settle import Settler


def plain_product(settler: "Settler", raw: Raw) -> Expr | None:
    """Return the product that a tight row plainly is, such as ``3x``, or None where a unit could be meant.

    The short way for the everyday row; ``Row`` says the same of it.
    """
    known = settler.names.known
    kids = [kid for kid in raw.kids if kid.kind != "TIGHT"]
    for kid in kids:
        if kid.kind not in _PLAIN and not (kid.kind == "name" and kid.text in known):
            return None
    factors = tuple(
        Name(kid.text, (kid.start, kid.end)) if kid.kind == "name" else settler.expr(kid) for kid in kids
    )
    return Mul(factors, (raw.start, raw.end))


_PLAIN = frozenset({"number", "bracket", "pi", "vulgar"})


def placed(pieces: tuple[str, ...], run: Raw) -> list[Expr]:
    """Return the letters of a run, each with its own span."""
    if len(pieces) == 1:
        return [Name(pieces[0], (run.start, run.end))]
    placed: list[Expr] = []
    at = run.start
    for piece in pieces:
        # An A may stand for ∠A, which is one sign longer than what is written.
        width = 2 if piece == "π" else len(piece.removeprefix("∠"))
        span = (at, at + width)
        placed.append(PiSign(span) if piece == "π" else Name(piece, span))
        at += width
    return placed


def power_of(settler: "Settler", base: Expr, item: Raw) -> Expr:
    """Return a power of the last letter of a run."""
    if item.kind == "raised":
        return power(base, settler.expr(item.kids[2]), item)
    return power(base, small_exponent(item.kids[1]), item)


def flat_product(factors: tuple[Expr, ...], span: tuple[int, int]) -> Expr:
    """Return a product, or its only factor."""
    return factors[0] if len(factors) == 1 else Mul(factors, span)


def power(base: Expr, exponent: Expr, raw: Raw) -> Expr:
    """Return a power; raises ``LineRefusal`` for one that is too big."""
    if isinstance(base, Measure):
        # "(5 cm)²": the unit is multiplied too; the value keeps it inside.
        return Pow(base, exponent, (raw.start, raw.end))
    if isinstance(exponent, Num) and len(exponent.text) > MAX_EXPONENT_DIGITS:
        raise LineRefusal(exponent.span[0], exponent.span[1], "This power is too big for me.")
    return Pow(base, exponent, (raw.start, raw.end))
