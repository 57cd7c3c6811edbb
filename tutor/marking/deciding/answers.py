"""Which lines give a value that is worked out in full, and what the value is."""

from math import gcd

from tutor.line.poly import prime_powers
from tutor.line.tree import (
    Add,
    Bare,
    Chain,
    Div,
    Expr,
    Joined,
    Joiner,
    Measure,
    Mul,
    Name,
    Neg,
    Num,
    Onward,
    Percent,
    PiSign,
    PlusMinus,
    Pow,
    Rel,
    Root,
    Statement,
)
from tutor.line.walk import names_in


def worked_out(expr: Expr) -> bool:
    """Tell whether nothing is left to do: ``22/5``, ``−3 1/2``, ``5√2``, ``25π``, ``7 + 2√3``."""
    match expr:
        case Num():
            return True
        case Neg(inner) | Measure(inner, _) | Percent(inner):
            return worked_out(inner)
        case PlusMinus(None, right):
            return worked_out(right)
        case Add((Measure(Num(), _), Measure(Num(), _))):
            return True  # "2 h 24 min"
        case Add((first, second)):
            return _plain(first) != _plain(second) and worked_out(first) and worked_out(second)
        case PlusMinus(left, right) if left is not None:
            # "3 ± 4" is two numbers that are still to be worked out; "2 ± √3" is as far as it goes.
            return worked_out(left) and worked_out(right) and not (_plain(left) and _plain(right))
        case Div(top, bottom):
            return _lowest_terms(top, bottom)
        case Mul(factors):
            plain = [factor for factor in factors if _plain(factor)]
            return len(plain) <= 1 and all(_plain(factor) or _sign_alone(factor) for factor in factors)
        case _:
            return _sign_alone(expr)


def _plain(expr: Expr) -> bool:
    match expr:
        case Num():
            return True
        case Neg(inner):
            return _plain(inner)
        case Div(Num() | Neg(Num()) as top, bottom):
            return _lowest_terms(top, bottom)
        case _:
            return False


def _sign_alone(expr: Expr) -> bool:
    """π, or a root that cannot be made simpler."""
    match expr:
        case PiSign():
            return True
        case Root(index, Num(value)) if value.denominator == 1 and 1 < value < 10**8:
            return all(count < index for _, count in prime_powers(value.numerator))
        case Root():
            return False
        case Pow():
            return False
        case _:
            return False


def _lowest_terms(top: Expr, bottom: Expr) -> bool:
    if isinstance(top, Neg):
        return _lowest_terms(top.inner, bottom)
    if isinstance(bottom, Neg):
        return _lowest_terms(top, bottom.inner)
    if not isinstance(bottom, Num) or bottom.value.denominator != 1 or bottom.value == 0:
        return False
    if isinstance(top, Num):
        return top.value.denominator == 1 and gcd(top.value.numerator, bottom.value.numerator) == 1
    return not isinstance(top, Div) and not names_in(top) and worked_out(top)


def answer_of(statement: Statement) -> tuple[str, tuple[Expr, ...]] | None:
    """Return the name and the values that a line gives in full, or None.

    ``x = 3``, ``−12 = y``, ``x = 4 or x = −4``, ``27 ≤ h``, ``−2 < x ≤ 3``, ``A = 1/2·6·4 = 12``.
    """
    match statement:
        case Chain(sides, rels):
            return _chain_answer(sides, rels)
        case Joined(_, parts):
            found = [answer_of(part) for part in parts]
            if any(answer is None for answer in found):
                return None
            names = {answer[0] for answer in found if answer is not None}
            if len(names) != 1:
                return None
            return names.pop(), tuple(value for answer in found if answer is not None for value in answer[1])
        case _:
            return None


def _chain_answer(sides: tuple[Expr, ...], rels: tuple[Rel, ...]) -> tuple[str, tuple[Expr, ...]] | None:
    if Rel.NE in rels:
        return None
    alone = [side for side in sides if isinstance(side, Name)]
    if len(alone) != 1:
        return None
    others = [side for side in sides if not isinstance(side, Name)]
    if all(rel.equates for rel in rels):
        last = others[-1] if isinstance(sides[0], Name) else others[0]
        return (alone[0].name, (last,)) if worked_out(last) else None
    if all(worked_out(side) for side in others):
        return alone[0].name, tuple(others)
    return None


def answers_in(statement: Statement) -> tuple[tuple[str, tuple[Expr, ...]], ...]:
    """Return every name that a line gives in full: ``A = 35° and B = 55°`` gives two."""
    whole = answer_of(statement)
    if whole is not None:
        return (whole,)
    if isinstance(statement, Chain):
        return _all_the_same(statement)
    if not isinstance(statement, Joined) or statement.joiner is Joiner.OR:
        return ()
    names = [names_in(*_sides_of(part)) for part in statement.parts]
    last = len(statement.parts) - 1
    equal = all(isinstance(part, Chain) and all(rel.equates for rel in part.rels) for part in statement.parts)
    return tuple(
        found
        for at, part in enumerate(statement.parts)
        if (found := answer_of(part)) is not None
        # "3x < 9 and x > −2" is still to be worked on: x stands in the other part too.
        # "4x = 20, so x = 5" is not: it ends with what x is.
        and ((equal and at == last) or not any(found[0] in each for each in (*names[:at], *names[at + 1 :])))
    )


def _all_the_same(chain: Chain) -> tuple[tuple[str, tuple[Expr, ...]], ...]:
    """``A = C = 81°`` gives both."""
    names = [side.name for side in chain.sides if isinstance(side, Name)]
    others = [side for side in chain.sides if not isinstance(side, Name)]
    if len(names) < 2 or not others or not all(rel.equates for rel in chain.rels):
        return ()
    last = others[-1] if isinstance(chain.sides[0], Name) else others[0]
    return tuple((name, (last,)) for name in dict.fromkeys(names)) if worked_out(last) else ()


def answers_of_branches(statement: Statement) -> tuple[tuple[str, Chain, Expr], ...]:
    """Return what the parts of an "or" give that are done, where others are still to be worked on.

    ``p = 0 or 10p = −7`` gives p = 0: the name, the part, the value.
    """
    if not isinstance(statement, Joined) or answers_in(statement):
        return ()
    if len({names_in(*_sides_of(part)) for part in statement.parts}) != 1:
        return ()  # "x = 3 or y = 4" says neither
    done = [(part, answer_of(part)) for part in statement.parts if isinstance(part, Chain)]
    return tuple((found[0], part, found[1][-1]) for part, found in done if found is not None)


def _sides_of(part: Chain | Onward | Bare) -> tuple[Expr, ...]:
    return (part.expr,) if isinstance(part, Bare) else part.sides
