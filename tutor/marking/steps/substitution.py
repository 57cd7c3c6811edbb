"""Putting what is known into the formulas: which formula next, with which values."""

from collections.abc import Callable, Iterator

from tutor.line.meaning import value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Expr, Name, PiSign, Rel, Statement
from tutor.line.walk import every, names_in
from tutor.marking.deciding.facts import statement_names
from tutor.marking.steps.balance import isolated
from tutor.marking.steps.equation import next_move
from tutor.marking.steps.model import Move
from tutor.marking.steps.standing import Standing, put_in, to_put_in
from tutor.marking.steps.writing import written
from tutor.marking.verdict import Step

# How often a definition may be put into a definition.
_DEEP = 4


def from_the_formulas(now: Standing) -> Iterator[Move]:
    """Yield the line that begins to work out the next name that is needed."""
    sources = _sources(now)
    for source in _in_turn(now, sources):
        if to_put_in(now, source):
            yield told_put_in(now, source, _filled(now, source))
        move = next_move(source, now.style)
        if move is not None:
            yield move
    for source in sources:
        yield from definitions_put_in(now, source)
    if len({name for source in sources for name in now.unknown(source)}) > len(sources):
        return  # a formula alone settles nothing
    ways: list[Move] = []
    for source in sources:
        if isinstance(source.sides[0], Name) and source.sides[0].name not in names_in(source.sides[1]):
            continue
        moves = [isolated(_filled(now, source), name, now.style) for name in sorted(now.unknown(source))]
        ways += [move for move in moves if move is not None]
    yield from sorted(
        ways,
        key=lambda move: len(written(move.statement.sides[1])) if isinstance(move.statement, Chain) else 0,
    )


def _filled(now: Standing, chain: Chain) -> Chain:
    return put_in(chain, now.values, now.known.context.task.pi, now.style)


def _sources(now: Standing) -> list[Chain]:
    """Return the equations to put values into: the student's own formulas first, then the problem's."""
    own = [line for line, step in reversed(now.lines) if step is Step.FORMULA and _is_equation(line)]
    base = now.known.base
    premises = [] if base is None else [one for one in base.premises if _is_equation(one)]
    found: list[Chain] = []
    for one in (*own, *premises):
        if isinstance(one, Chain) and now.unknown(one) and one not in found:
            found.append(one)
    return found


def _is_equation(statement: Statement) -> bool:
    return isinstance(statement, Chain) and statement.rels == (Rel.EQ,)


def _in_turn(now: Standing, sources: list[Chain]) -> list[Chain]:
    """Return the equations that give one name each, in the order that leads to what is asked.

    Found forwards (whatever has one unknown left gives it), then what is not needed is left out.
    """
    find = now.known.context.find
    known = set(now.values)
    plan: list[tuple[Chain, str]] = []
    waiting = list(sources)
    while not set(find) <= known:
        ready = [one for one in waiting if len(statement_names(one) - known) == 1]
        if not ready:
            break
        source, name = min(((one, min(statement_names(one) - known)) for one in ready), key=_rank(find))
        plan.append((source, name))
        known.add(name)
        waiting = [one for one in waiting if statement_names(one) - known]
    needed = set(find) or {name for _, name in plan}
    kept: list[Chain] = []
    for source, name in reversed(plan):
        if name in needed:
            kept.insert(0, source)
            needed |= statement_names(source)
    return kept[:1]


def _rank(find: tuple[str, ...]) -> Callable[[tuple[Chain, str]], tuple[int, bool]]:
    """What is asked first comes first, from its own definition before other formulas."""

    def rank(pair: tuple[Chain, str]) -> tuple[int, bool]:
        source, name = pair
        return (find.index(name) if name in find else len(find), source.sides[0] != Name(name))

    return rank


def definitions_put_in(now: Standing, source: Chain) -> Iterator[Move]:
    """Put ``A = 3x + 12`` in the place of A, until one unknown is left."""
    meanings = _definitions(now, source)
    used: dict[str, Expr] = {}
    filled = _filled(now, source)
    for _ in range(_DEEP):
        open_names = now.unknown(filled)
        if len(open_names) <= 1:
            break
        now_used = {name: meanings[name] for name in _in_order(filled) if name in open_names & set(meanings)}
        if not now_used:
            return
        used |= now_used
        filled = put_in(filled, now_used | now.values, now.known.context.task.pi, now.style)
    if used and len(statement_names(filled)) == 1 and not _says_nothing(filled, now):
        shown = _listed([f"{written(value)} in the place of {name}" for name, value in used.items()])
        where = f"Look at {_listed(sorted(used))} in {_shown(source)}: you know what they stand for."
        yield Move(filled, f"Put {shown}.", where)


def _says_nothing(chain: Chain, now: Standing) -> bool:
    """``y + 1 − y = 1``: an equation put back into itself."""
    try:
        left, right = (value_of(side, now.style.setting) for side in chain.sides)
    except (NotExact, DividedByZero):
        return True
    return left.same(right)


def _definitions(now: Standing, source: Chain) -> dict[str, Expr]:
    """Return names with an expression for each: givens, formulas with one name on the left, own lines."""
    found: dict[str, Expr] = {}
    base = now.known.base
    lines = [line for line, _ in now.lines]
    for one in (*(() if base is None else base.premises), *lines):
        if not isinstance(one, Chain) or one.rels != (Rel.EQ,) or one == source:
            continue
        name, value = one.sides
        if isinstance(name, Name) and name.name not in names_in(value) and names_in(value):
            found.setdefault(name.name, value)
    return found


def told_put_in(now: Standing, source: Chain, filled: Chain) -> Move:
    """Return the line with the numbers put in, and which they are."""
    names = [name for name in _in_order(source) if name in now.values]
    shown = [f"{name} = {written(now.values[name])}" for name in names]
    pi = now.known.context.task.pi
    if pi.value_used is not None and any(isinstance(n, PiSign) for side in source.sides for n in every(side)):
        shown.append(f"{pi.value} for π")
    what = f"Put in {_listed(shown)}."
    where = f"Look at {_shown(source)}: which letters do you have a number for?"
    return Move(filled, what, where)


def _in_order(chain: Chain) -> list[str]:
    found = [node.name for side in chain.sides for node in every(side) if isinstance(node, Name)]
    return list(dict.fromkeys(found))


def _shown(chain: Chain) -> str:
    return f"{written(chain.sides[0])} {chain.rels[0].value} {written(chain.sides[1])}"


def _listed(texts: list[str]) -> str:
    return texts[0] if len(texts) == 1 else f"{', '.join(texts[:-1])} and {texts[-1]}"
