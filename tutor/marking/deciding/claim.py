"""What a line claims: conditions on the names in it, joined by "and" and "or".

A condition is a sum of products compared with zero. ``a/b = c`` claims ``a − bc = 0`` and
``b ≠ 0``; ``±`` and ``|x|`` become cases.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from typing import assert_never

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import ONE, DividedByZero, NoRealRoot, NotExact, Poly, Ratio
from tutor.line.real import sign
from tutor.line.tree import (
    Abs,
    Add,
    Bare,
    Chain,
    Div,
    Expr,
    Joined,
    Joiner,
    Neg,
    Note,
    Num,
    Onward,
    Phrase,
    PlusMinus,
    Pow,
    Rel,
    Said,
    Statement,
)
from tutor.line.walk import every, names_in, rebuilt
from tutor.marking.deciding.facts import facts
from tutor.marking.deciding.memo import Memo
from tutor.marking.deciding.radicals import cases_of

MAX_CASES = 16


@dataclass(frozen=True, slots=True)
class Condition:
    """``poly rel 0``."""

    poly: Poly
    rel: Rel

    def names(self) -> frozenset[str]:
        """Return the names that occur."""
        return self.poly.names()

    def constant_truth(self) -> bool | None:
        """Tell whether it holds where no name occurs; None where one does."""
        if self.poly.names():
            return None
        return holds(sign(self.poly), self.rel)


def holds(sign_found: int, rel: Rel) -> bool:
    """Tell whether a value of this sign compares with zero as ``rel`` says."""
    match rel:
        case Rel.EQ | Rel.APPROX:
            return sign_found == 0
        case Rel.NE:
            return sign_found != 0
        case Rel.LT:
            return sign_found < 0
        case Rel.LE:
            return sign_found <= 0
        case Rel.GT:
            return sign_found > 0
        case Rel.GE:
            return sign_found >= 0
        case _:
            assert_never(rel)


Case = tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class Claim:
    """Cases joined by "or"; the conditions of a case are joined by "and".

    No case at all claims something that cannot be; a case without conditions, something
    that always holds.
    """

    cases: tuple[Case, ...]

    def names(self) -> frozenset[str]:
        """Return the names that occur."""
        return frozenset(name for case in self.cases for part in case for name in part.names())

    def equations(self) -> tuple[Poly, ...] | None:
        """Return the sums that are claimed to be zero, if that is all that is claimed."""
        if len(self.cases) != 1:
            return None
        polys = tuple(part.poly for part in self.cases[0] if part.rel is Rel.EQ)
        others = [part for part in self.cases[0] if part.rel not in (Rel.EQ, Rel.NE)]
        return None if others or not polys else polys


NEVER = Claim(())
ALWAYS = Claim(((),))


_MEMO: Memo[Claim] = Memo()


def claim_of(statement: Statement, setting: Setting) -> Claim:
    """Return what a statement claims; raises ``NotExact`` and ``DividedByZero``."""
    return _MEMO.get(statement, setting, lambda line: _claimed(line, setting))


def _claimed(statement: Statement, setting: Setting) -> Claim:
    match statement:
        case Chain(sides, rels):
            signs = facts(statement)
            plain = not (signs.either_sign or signs.bars)
            return _tidy(_chain_cases(sides, rels, setting, plain=plain))
        case Joined(joiner, parts):
            return _joined([claim_of(part, setting) for part in parts], parts, joiner)
        case Said(Phrase.NO_SOLUTION):
            return NEVER
        case Said(Phrase.ALL_NUMBERS):
            return ALWAYS
        case Said() | Note() | Bare() | Onward():
            raise NotExact("claims nothing by itself")
        case _:
            assert_never(statement)


def _joined(claims: list[Claim], parts: tuple[Statement, ...], joiner: Joiner) -> Claim:
    if joiner is Joiner.OR or (joiner is Joiner.COMMA and _one_after_the_other(claims, parts)):
        return _tidy(case for claim in claims for case in claim.cases)
    combined: list[Case] = [()]
    for claim in claims:
        combined = [(*left, *right) for left in combined for right in claim.cases]
        if len(combined) > MAX_CASES:
            raise NotExact("too many cases")
    return _tidy(combined)


def _one_after_the_other(claims: list[Claim], parts: tuple[Statement, ...]) -> bool:
    """``x = 3, x = −3`` lists two values of one unknown: both cannot hold at once.

    So does ``x = x + 4, x = −x − 4``, of which the first holds for no number.
    """
    names = {claim.names() or facts(part).names for claim, part in zip(claims, parts, strict=True)}
    if len(names) != 1 or len(min(names)) != 1 or not any(claim.names() for claim in claims):
        return False
    if ALWAYS in claims:
        return False
    if all(isinstance(part, Chain) and set(part.rels) == {Rel.EQ} for part in parts):
        return True  # "√x = 2, √x = 1", each of which supposes that x is not negative
    conditions = [part for claim in claims for case in claim.cases for part in case]
    return all(part.rel in (Rel.EQ, Rel.NE) for part in conditions)


def _tidy(cases: Iterable[Case]) -> Claim:
    """Leave out conditions that hold without names, and cases that cannot hold."""
    kept: list[Case] = []
    for case in cases:
        truths = [(part, part.constant_truth()) for part in case]
        if any(truth is False for _, truth in truths):
            continue
        left = tuple(dict.fromkeys(part for part, truth in truths if truth is None))
        if left not in kept:
            kept.append(left)
    if () in kept:
        return ALWAYS
    return Claim(tuple(kept))


def _chain_cases(
    given: tuple[Expr, ...], rels: tuple[Rel, ...], setting: Setting, *, plain: bool
) -> Iterator[Case]:
    """Yield the cases of a chain; ``plain``: neither ``±`` nor ``|x|`` stands in it."""
    for sides, extra in [(given, ())] if plain else _without_cases(given, setting):
        cases: list[Case] = [tuple(extra)]
        try:
            for left, rel, right in zip(sides, rels, sides[1:], strict=False):
                linked = _linked(left, rel, right, setting)
                cases = [(*case, *more) for case in cases for more in linked]
        except NoRealRoot:
            continue  # "x = √(−24)" holds for no real number
        if len(cases) > MAX_CASES:
            raise NotExact("too many cases")
        yield from cases


def _linked(left: Expr, rel: Rel, right: Expr, setting: Setting) -> tuple[Case, ...]:
    """Return the cases of one relation: several only where a root of an unknown is in it."""
    try:
        return (relation(left, rel, right, setting),)
    except NoRealRoot:
        raise
    except NotExact:
        if not rel.equates:
            raise
        return tuple(
            tuple(Condition(poly, compared) for poly, compared in case)
            for case in cases_of(left, right, setting)
        )


def relation(left: Expr, rel: Rel, right: Expr, setting: Setting) -> Case:
    """Return the conditions of one relation between two sides; raises ``NotExact`` and ``DividedByZero``."""
    difference = value_of(left, setting) - value_of(right, setting)
    exact = Rel.EQ if rel is Rel.APPROX else rel
    conditions = [_compared(difference, exact)]
    for bottom in _bottoms(left, right):
        below = value_of(bottom, setting)
        conditions.append(Condition(below.above, Rel.NE))
    return tuple(conditions)


def _compared(difference: Ratio, rel: Rel) -> Condition:
    if difference.below == ONE or rel in (Rel.EQ, Rel.NE):
        return Condition(difference.above, rel)
    return Condition(difference.above * difference.below, rel)


def _bottoms(*exprs: Expr) -> Iterator[Expr]:
    """Yield what must not be zero: everything that is divided by, where a name is in it."""
    for expr in exprs:
        for node in every(expr):
            if isinstance(node, Div) and names_in(node.bottom):
                yield node.bottom
            elif isinstance(node, Pow) and isinstance(node.exponent, Neg) and names_in(node.base):
                yield node.base


def _without_cases(given: tuple[Expr, ...], setting: Setting) -> list[tuple[tuple[Expr, ...], Case]]:
    """Return the sides without ``±`` and without ``|x|`` of names, one entry a case.

    All signs ``±`` of a line are taken alike: ``x = 7 ± 2√3`` has two cases.
    """
    found: list[tuple[tuple[Expr, ...], Case]] = [(given, ())]
    if any(isinstance(node, PlusMinus) for side in given for node in every(side)):
        found = [(tuple(rebuilt(side, _signed(minus)) for side in given), ()) for minus in (False, True)]
    open_cases, done = found, []
    while open_cases:
        plain, extra = open_cases.pop(0)
        bars = next((n for side in plain for n in every(side) if _open_bars(n, setting)), None)
        if bars is None or not isinstance(bars, Abs):
            done.append((plain, extra))
            continue
        inner = _compared(value_of(bars.inner, setting), Rel.GE)
        for turned, rel in ((False, Rel.GE), (True, Rel.LT)):
            replaced = tuple(rebuilt(side, _bars_taken_off(bars, turned)) for side in plain)
            open_cases.append((replaced, (*extra, Condition(inner.poly, rel))))
        if len(open_cases) + len(done) > MAX_CASES:
            raise NotExact("too many cases")
    return done


def cases_without_signs(line: Chain, setting: Setting) -> Claim:
    """Return the cases of the bars in a line, without what each supposes of the sign inside."""
    found = _without_cases(line.sides, setting)
    return _tidy(case for sides, _ in found for case in _chain_cases(sides, line.rels, setting, plain=True))


def _open_bars(node: Expr, setting: Setting) -> bool:
    """Bars whose inside holds no other bars and can be of either sign."""
    if not isinstance(node, Abs) or not names_in(node.inner) or names_in(node.inner) <= setting.positive:
        return False
    return not any(isinstance(inside, Abs) for inside in every(node.inner))


def _bars_taken_off(bars: Abs, turned: bool) -> Callable[[Expr], Expr]:
    def change(node: Expr) -> Expr:
        if node == bars:
            return Neg(bars.inner, bars.span) if turned else bars.inner
        return node

    return change


def _signed(minus: bool) -> Callable[[Expr], Expr]:
    def change(node: Expr) -> Expr:
        if not isinstance(node, PlusMinus):
            return node
        right = Neg(node.right, node.right.span) if minus else node.right
        if node.left is None:
            return replace(right, span=node.span)
        return Add((node.left, right), node.span)

    return change


def always_holds(statement: Statement) -> bool:
    """Tell whether a line is an identity: true whatever its letters stand for. Not of words."""
    if isinstance(statement, Said):
        return False
    try:
        return claim_of(statement, Setting()) == ALWAYS
    except (NotExact, DividedByZero):
        return False


def split_signs(statement: Statement) -> tuple[Statement, ...]:
    """Return the single statements that an "or", a list or a ``±`` stands for."""
    if isinstance(statement, Joined):
        return tuple(one for part in statement.parts for one in split_signs(part))
    if isinstance(statement, Chain) and facts(statement).either_sign:
        return tuple(
            replace(statement, sides=tuple(rebuilt(side, _signed(minus)) for side in statement.sides))
            for minus in (False, True)
        )
    return (statement,)


def is_cut_off(expr: Expr) -> bool:
    """Tell whether a decimal that goes on (``0.333…``) stands in an expression."""
    return any(isinstance(node, Num) and node.open_end for node in every(expr))


__all__ = [
    "ALWAYS",
    "NEVER",
    "Case",
    "Claim",
    "Condition",
    "DividedByZero",
    "NotExact",
    "cases_without_signs",
    "claim_of",
    "holds",
    "is_cut_off",
    "relation",
]
