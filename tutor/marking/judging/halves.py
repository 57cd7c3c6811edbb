"""One part of a line above on a line of its own: ``2x − 3 = 5`` below ``|2x − 3| = 5``.

The parts of ``−3 < 2x + 1 ≤ 7``, ``|2x − 3| = 5``, ``(x − 3)² = 16`` and ``(x − 2)(x + 3) = 0`` are often
worked one after the other and put together at the end (common practice, no source).
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from tutor.line.keys import expr_key
from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Abs, Chain, Expr, Mul, Neg, Num, Pow, Rel, Root, Statement, whole_number
from tutor.line.walk import names_in
from tutor.marking.deciding.answers import answer_of
from tutor.marking.deciding.claim import claim_of
from tutor.marking.deciding.compare import Overlap
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.follow import Found, How, search
from tutor.marking.deciding.state import Known
from tutor.marking.judging.aftermath import Judged, stands
from tutor.marking.verdict import Mark, Verdict

OTHER_PART = "This is one part of {}. Work out the other part too."
_BEGINNING = OTHER_PART.partition("{}")[0]
_NOTHING = whole_number(0)


def half_of_line(known: Known, statement: Statement, index: int) -> Judged | None:
    """Return the mark of one part of a standing line, written as it stands there; None for other lines.

    What follows from it is a branch of the work; it gives no answer by itself.
    """
    base = known.base
    if base is None or not known.context.parts_apart or not isinstance(statement, Chain):
        return None
    if len(statement.sides) != 2 or len(statement_names(statement)) != 1 or answer_of(statement) is not None:
        return None
    written = [*reversed(known.above), *((-1, premise) for premise in base.premises)]
    at = next((at for at, line in written if _is_part(statement, line)), None)
    if at is None:
        return None
    found = search(known, statement, (base,))
    if found.overlap not in (Overlap.FEWER, Overlap.MORE) or found.index is None:
        return None
    branch = base.replaced(found.index, statement, index)
    judged = stands(
        known, statement, index, Verdict.FOLLOWS, Found(How.FOLLOWS, found.setting, branch, found.index)
    )
    mark = replace(judged.mark, note=OTHER_PART.format("the given line" if at < 0 else f"line {at + 1}"))
    return replace(judged, known=replace(judged.known, more=(*judged.known.more, branch)), mark=mark)


def is_half(mark: Mark) -> bool:
    """Tell whether a mark is that of one part of a line."""
    return mark.note.startswith(_BEGINNING)


def is_left_open(halves: Sequence[Statement], finished: bool | None) -> bool:
    """Tell whether parts were worked and another was not: a solution, or a bound, was left out."""
    if finished:
        return False
    try:
        return len({claim_of(half, Setting()) for half in halves}) < 2
    except (NotExact, DividedByZero):
        return True


def _is_part(statement: Chain, line: Statement) -> bool:
    if not isinstance(line, Chain) or statement_names(line) != statement_names(statement):
        return False
    return any(_same(statement, side, rel, value) for side, rel, value in _parts(line))


def _parts(line: Chain) -> Iterator[tuple[Expr, Rel, Expr]]:
    """Yield the parts of a line: a side with the unknown, how it compares, and with what."""
    if len(line.sides) > 2:
        if not any(rel.equates for rel in line.rels):
            yield from zip(line.sides, line.rels, line.sides[1:], strict=False)
        return
    (left, right), (rel,) = line.sides, line.rels
    for side, way, value in ((left, rel, right), (right, rel.turned, left)):
        match side:
            case Abs(inner):
                yield inner, way, value
                yield inner, way.turned, Neg(value)
            case Pow(inner, Num(value=power)) if power == 2 and way is Rel.EQ and not names_in(value):
                yield inner, way, Root(2, value)
                yield inner, way, Neg(Root(2, value))
            case Mul(factors) if way is Rel.EQ and isinstance(value, Num) and not value.value:
                yield from ((factor, way, _NOTHING) for factor in factors if names_in(factor))
            case _:
                pass


def _same(statement: Chain, side: Expr, rel: Rel, value: Expr) -> bool:
    (left, right), (way,) = statement.sides, statement.rels
    wanted = expr_key(side)
    for mine, taken, other in ((left, way, right), (right, way.turned, left)):
        if taken is rel and expr_key(mine) == wanted and _equal(other, value):
            return True
        turned = mine.inner if isinstance(mine, Neg) else None
        if (
            turned is not None
            and taken is rel.turned
            and expr_key(turned) == wanted
            and _equal(Neg(other), value)
        ):
            return True
    return False


def _equal(left: Expr, right: Expr) -> bool:
    try:
        return value_of(left).same(value_of(right))
    except (NotExact, DividedByZero):
        return False
