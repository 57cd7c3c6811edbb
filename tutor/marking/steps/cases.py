"""Several cases on one line: ``±``, "or", a product that is zero, a range between two numbers."""

from collections.abc import Callable
from fractions import Fraction

from tutor.line.meaning import number_of
from tutor.line.tree import (
    Add,
    Chain,
    Div,
    Expr,
    Joined,
    Joiner,
    Mul,
    Name,
    Neg,
    Phrase,
    PlusMinus,
    Pow,
    Rel,
    Said,
    Statement,
)
from tutor.line.walk import names_in
from tutor.marking.deciding.answers import answer_of
from tutor.marking.steps.forms import ZERO, Style, Terms, collected, literal, number, sum_of, term
from tutor.marking.steps.model import Move
from tutor.marking.steps.writing import written

Step = Callable[[Statement, Style], Move | None]


def joined_move(line: Joined, style: Style, step: Step) -> Move | None:
    """Go on in every case that is not at its end yet; drop cases that cannot be."""
    moves = [step(part, style) for part in line.parts]
    first = next((move for move in moves if move is not None), None)
    if first is None:
        return _fewer(line, style)
    made: list[Chain] = []
    for part, move in zip(line.parts, moves, strict=True):
        after: Statement = part if move is None else move.statement
        for one in after.parts if isinstance(after, Joined) else (after,):
            if isinstance(one, Chain) and one not in made:
                made.append(one)
    if not made:
        return Move(Said(Phrase.NO_SOLUTION), first.what, first.where)
    statement = made[0] if len(made) == 1 else Joined(line.joiner, tuple(made))
    return Move(statement, _told_by_case(moves), first.where, first.focus)


def _told_by_case(moves: list[Move | None]) -> str:
    """Return what is done: once where it is the same in every case, else case by case."""
    told = {move.what for move in moves if move is not None}
    if len(told) == 1:
        return told.pop()
    places = ("First", "Second", "Third", "Fourth")
    each = [(at, move.what) for at, move in enumerate(moves[: len(places)]) if move is not None]
    return " ".join(f"{places[at]} case: {what[:1].lower()}{what[1:]}" for at, what in each)


def _fewer(line: Joined, style: Style) -> Move | None:
    """Leave out what is said twice, and sizes that are not above 0."""
    answers = [answer_of(part) for part in line.parts]
    if line.joiner is Joiner.AND or any(answer is None for answer in answers):
        return None
    kept: list[Chain] = [
        part for at, part in enumerate(line.parts) if isinstance(part, Chain) and part not in line.parts[:at]
    ]
    if len(kept) < len(line.parts):
        return Move(
            _one_or_more(kept, line.joiner), "Write what stands there twice only once.", "Look at both cases."
        )
    names = names_in(*(side for part in kept for side in part.sides))
    if not names <= style.positive:
        return None
    above = [part for part in kept if any((number_of(side) or 0) > 0 for side in part.sides)]
    if not above or len(above) == len(kept):
        return None
    (name,) = names
    what = f"{name} is a size, so it is above 0: leave the other case out."
    return Move(_one_or_more(above, line.joiner), what, f"Look at both cases: can {name} be both?")


def _one_or_more(parts: list[Chain], joiner: Joiner) -> Statement:
    return parts[0] if len(parts) == 1 else Joined(joiner, tuple(parts))


def plus_minus(chain: Chain, style: Style) -> Move | None:
    """``y − 7 = ±2√3`` becomes ``y = 7 ± 2√3``; ``2x − 3 = ±5`` becomes two equations."""
    left, right = chain.sides
    both = right.top if isinstance(right, Div) else right
    if isinstance(both, PlusMinus) and both.left is not None:
        return _two_numbers(chain, right, both)
    if not isinstance(right, PlusMinus) or right.left is not None or isinstance(left, Name):
        return None
    terms = collected(left, style)
    letters = [pair for pair in terms or [] if pair[0]]
    value = right.right
    if terms is not None and len(letters) == 1 and letters[0][1] == 1 and literal(value) is None:
        moved = [(mono, -size) for mono, size in terms if not mono]
        rest = sum_of(moved, style)
        shown = written(number(abs(Fraction(moved[0][1])), style))
        done = f"Add {shown} to both sides." if moved[0][1] > 0 else f"Take {shown} away from both sides."
        made = Chain((term(*letters[0], style), PlusMinus(rest, value)), chain.rels)
        return Move(made, done, f"Look at the {shown} on the left side.")
    cases = (Chain((left, value), chain.rels), Chain((left, Neg(value)), chain.rels))
    return Move(Joined(Joiner.OR, cases), "Write the two cases as two equations.", "Look at the sign ±.")


def _two_numbers(chain: Chain, right: Expr, both: PlusMinus) -> Move | None:
    """``x = (−1 ± 4)/2`` becomes two equations; a root that stays under the sign is left as it is."""
    if literal(both.right) is None or both.left is None:
        return None
    cases = [Add((both.left, both.right)), Add((both.left, Neg(both.right)))]
    made = [Div(case, right.bottom) if isinstance(right, Div) else case for case in cases]
    parts = tuple(Chain((chain.sides[0], side), chain.rels) for side in made)
    return Move(Joined(Joiner.OR, parts), "Write the two cases as two equations.", "Look at the sign ±.")


def zero_product(chain: Chain, unknown: str) -> Move | None:
    """``(5n − 2)(6n − 1) = 0``: one of the factors is zero."""
    left, right = chain.sides
    product = left if literal(right) == 0 else right if literal(left) == 0 else None
    if isinstance(product, Neg):
        product = product.inner
    if not chain.rels[0].equates or not isinstance(product, Mul | Pow):
        return None
    factors = product.factors if isinstance(product, Mul) else (product,)
    bases = [one.base if isinstance(one, Pow) else one for one in factors if unknown in names_in(one)]
    if not any(isinstance(one, Add) for one in bases):
        return None
    parts = list(dict.fromkeys(Chain((one, ZERO), (Rel.EQ,)) for one in bases))
    where = f"Look at {written(product)}: when is a product 0?"
    return Move(_one_or_more(parts, Joiner.OR), "A product is 0 when one of its factors is 0.", where)


def between(chain: Chain, style: Style) -> Move | None:
    """``−2 < x + 1 ≤ 5``: the same step on all three sides."""
    if len(chain.sides) != 3 or names_in(chain.sides[0], chain.sides[2]):
        return None
    middle = collected(chain.sides[1], style)
    ends = [number_of(chain.sides[at]) for at in (0, 2)]
    if middle is None or any(end is None for end in ends):
        return None
    outer = [Fraction(end or 0) for end in ends]
    letters = [pair for pair in middle if pair[0]]
    constant = next((Fraction(size) for mono, size in middle if not mono), None)
    if len(letters) != 1 or letters[0][0][0][1] != 1:
        return None
    if constant is not None:
        shown = written(number(abs(constant), style))
        what = (
            f"Take {shown} away from all three sides." if constant > 0 else f"Add {shown} to all three sides."
        )
        return _between(
            chain,
            letters,
            [end - constant for end in outer],
            what,
            f"Look at the {shown} in the middle.",
            style,
        )
    size = Fraction(letters[0][1])
    if size == 1:
        return None
    shown, turn = written(number(size, style)), "" if size > 0 else " and turn both signs round"
    what, where = f"Divide all three sides by {shown}{turn}.", f"Look at the {shown} in the middle."
    alone: Terms = [(letters[0][0], 1)]
    if size > 0:
        return _between(chain, alone, [end / size for end in outer], what, where, style)
    turned = Chain(chain.sides[::-1], chain.rels[::-1])
    return _between(turned, alone, [end / size for end in outer[::-1]], what, where, style)


def _between(chain: Chain, middle: Terms, ends: list[Fraction], what: str, where: str, style: Style) -> Move:
    sides: tuple[Expr, ...] = (number(ends[0], style), sum_of(middle, style), number(ends[1], style))
    return Move(Chain(sides, chain.rels), what, where)
