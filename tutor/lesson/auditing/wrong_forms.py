"""Wrong forms of one formula or equation: those of the slips, and small wrong moves in the tree."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice
from typing import TypeAlias

from tutor.line.tree import Add, Div, Expr, Mul, Name, Neg, Num, Pow, whole_number
from tutor.line.walk import names_in
from tutor.marking.slips.recognise import wrong_equations, wrong_formulas
from tutor.marking.slips.shapes import plus, terms_seen, times

Sides: TypeAlias = tuple[Expr, Expr]

# No school formula has more; a long one is looked at as far as this.
MOST_FORMS = 40


def wrong_forms(left: Expr, right: Expr, *, formula: bool, of_angles: bool) -> Iterator[Sides]:
    """Yield wrong forms of ``left = right``; ``formula``: its letters are sizes, ``of_angles``: angles."""
    yield from islice(_forms(left, right, formula, of_angles), MOST_FORMS)


def _forms(left: Expr, right: Expr, formula: bool, of_angles: bool) -> Iterator[Sides]:
    if formula:
        for wrong in _of_the_slips(left):
            yield wrong, right
        for wrong in _of_the_slips(right):
            yield left, wrong
        for equation in wrong_equations(left, right) if of_angles else ():
            yield equation.left, equation.right
    for wrong in _moved(left, formula):
        yield wrong, right
    for wrong in _moved(right, formula):
        yield left, wrong


def _of_the_slips(side: Expr) -> Iterator[Expr]:
    for wrong in wrong_formulas(side, True, False):
        yield wrong.tree
    terms = terms_seen(side)
    for at, term in enumerate(terms if len(terms) > 1 else ()):
        minus, inner = isinstance(term, Neg), term.inner if isinstance(term, Neg) else term
        for wrong in wrong_formulas(inner, False, False):
            made = Neg(wrong.tree) if minus else wrong.tree
            yield plus(*terms[:at], made, *terms[at + 1 :])


def _moved(expr: Expr, formula: bool) -> Iterator[Expr]:
    """Yield copies of a tree with one wrong move somewhere in it."""
    yield from _moves(expr, formula)
    match expr:
        case Neg(inner):
            for made in _moved(inner, formula):
                yield replace(expr, inner=made)
        case Add(terms):
            for at, term in enumerate(terms):
                for made in _moved(term, formula):
                    yield replace(expr, terms=(*terms[:at], made, *terms[at + 1 :]))
        case Mul(factors):
            for at, factor in enumerate(factors):
                for made in _moved(factor, formula):
                    yield replace(expr, factors=(*factors[:at], made, *factors[at + 1 :]))
        case Div(top, bottom):
            for made in _moved(top, formula):
                yield replace(expr, top=made)
            for made in _moved(bottom, formula):
                yield replace(expr, bottom=made)
        case _:
            return


def _moves(expr: Expr, formula: bool) -> Iterator[Expr]:
    match expr:
        case Mul((first, second)) if not isinstance(first, Add) and not isinstance(second, Add):
            yield plus(first, second)  # added for multiplied
            if formula and _is(first, 2) and isinstance(second, Name):
                yield Pow(second, whole_number(2))  # squared for doubled
        case Pow(base, exponent) if _is(exponent, 2):
            yield times(whole_number(2), base)  # doubled for squared
        case Add((Mul((Num() as many, Name() as name)), Num() as more)):
            yield times(plus(many, more), name)  # unlike terms put together
        case Add((Num() as more, Mul((Num() as many, Name() as name)))):
            yield times(plus(more, many), name)
        case Div(top, bottom) if names_in(top) and isinstance(bottom, Num) and not isinstance(top, Add):
            yield plus(top, Neg(bottom))  # taken away for divided
        case _:
            return


def _is(expr: Expr, value: int) -> bool:
    return isinstance(expr, Num) and expr.value == value
