"""Which line above a line is told against, and what the names in both stand for."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import Enum
from itertools import islice, permutations

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact, Poly, Ratio
from tutor.line.tree import Chain, Name, Statement
from tutor.line.walk import names_in
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.state import Known
from tutor.marking.telling.account import Account, account
from tutor.marking.telling.kept import NOTHING, Given, side_value

_MOST_LINES = 4
_STEP_BACK = 1
_LARGE = 100


class Source(Enum):
    """Where what a line is told against stands."""

    LINE = "line"
    FORMULA = "formula"
    EQUATION = "equation"  # only what is asked for stands in it: nothing is to be put in
    GIVEN = "given"


@dataclass(frozen=True, slots=True)
class Pair:
    """What a line is told against, and the account.

    ``index``: its 0-based line, -1 for no line. ``setting``: how π is taken.
    ``put_in``: the two have not the same names, and ``given`` was put in.
    """

    above: Chain
    source: Source
    index: int
    account: Account
    setting: Setting
    put_in: bool = False
    given: Given = field(default_factory=lambda: NOTHING, repr=False, compare=False)

    @property
    def tells(self) -> bool:
        """Tell whether the account says something: after values were put in, not every pair of lines does."""
        moves = self.account.moves
        plain = (move.kept or (move.op is not None and not move.op.cost) for move in moves)
        return self.account.shared is not None or not self.put_in or any(plain)

    @property
    def where(self) -> str:
        """Return the words that say where it stands."""
        match self.source:
            case Source.LINE:
                return f"line {self.index + 1}"
            case Source.FORMULA:
                return "the formula"
            case Source.EQUATION:
                return "the equation" if self.above.rels[0].equates else "the inequality"
            case Source.GIVEN:
                return "what is given"


def account_text(known: Known, statement: Statement, setting: Setting) -> str:
    """Return the account of a line, "" where nothing stands above that it could come from.

    A line that is right given a broken one is told against that one.
    """
    pair = told_against(known, statement, setting)
    if pair is None or pair.account.shared is None:
        for _, wrong in reversed(known.broken):
            told = account(wrong, statement, setting)
            if told is not None and told.shared is not None and statement_names(wrong):
                return str(told)
    if pair is None or not pair.tells:
        return _two_lines_together(known, statement, setting)
    return str(pair.account)


def _two_lines_together(known: Known, statement: Statement, setting: Setting) -> str:
    """``x + y = 5`` and ``x − y = 1`` give ``2x = 6``: one line added to another, or taken from it."""
    if not isinstance(statement, Chain) or len(statement.sides) != 2 or not statement.rels[0].equates:
        return ""
    lines = [line for line in islice(_candidates(known), _MOST_LINES) if len(line[0].sides) == 2]
    if len(lines) < 2:
        return ""
    wanted = [side_value(side, setting) for side in statement.sides]
    for (one, _, first), (other, _, second) in permutations(lines, 2):
        here = [side_value(side, setting) for side in one.sides]
        there = [side_value(side, setting) for side in other.sides]
        together = list(zip(here, there, wanted, strict=True))
        numbers = f"line {first + 1} and line {second + 1}" if min(first, second) >= 0 else "two equations"
        if all(a and b and c and (a + b).same(c) for a, b, c in together):
            return f"{numbers} added, side by side"
        if all(a and b and c and (a - b).same(c) for a, b, c in together):
            return "one equation taken away from another, side by side"
    return ""


def told_against(known: Known, statement: Statement, setting: Setting) -> Pair | None:
    """Return the line above with the plainest account; of equally plain ones, the last."""
    if not isinstance(statement, Chain):
        return None
    names = statement_names(statement)
    given: dict[str, Ratio] | None = None
    best: Pair | None = None
    best_cost = 0
    for back, (above, source, index) in enumerate(_candidates(known)):
        if back >= _MOST_LINES and best is not None:
            break
        others = statement_names(above)
        if names != others:
            given = given_values(known, setting) if given is None else given
            alone = (names ^ others) & set(given)
            defines = source is Source.GIVEN and not alone.isdisjoint(names_in(above.sides[0]))
            if (
                defines
                or _of_another(above, statement)
                or not (
                    _speak_of_the_same(names, others, alone, given) or _is_formula(known, above, statement)
                )
            ):
                continue
        told = account(above, statement, setting, given or NOTHING)
        if told is None or (not names and not all(move.kept for move in told.moves)):
            continue
        pair = Pair(above, source, index, told, setting, names != others, given or NOTHING)
        cost = told.cost + _STEP_BACK * back + (0 if pair.tells else _LARGE)
        if best is None or cost < best_cost:
            best, best_cost = pair, cost
        if told.shared is not None:
            break
    return best


def _candidates(known: Known) -> Iterator[tuple[Chain, Source, int]]:
    for index, above in reversed(known.above):
        if isinstance(above, Chain):
            yield above, Source.LINE, index
    if known.base is None or known.context.from_first_line:
        return
    formulas = known.context.formula_count
    for at, premise in enumerate(known.base.premises):
        if isinstance(premise, Chain) and (at < formulas or names_in(*premise.sides[1:])):
            yield premise, _source(known, premise) if at < formulas else Source.GIVEN, -1


def _source(known: Known, premise: Chain) -> Source:
    names = statement_names(premise)
    return Source.EQUATION if len(names) == 1 or names <= set(known.context.find) else Source.FORMULA


def _of_another(above: Chain, line: Chain) -> bool:
    """``A = 72`` and ``B = 107`` are about two things: nothing was done to A to come to B."""
    one, other = above.sides[0], line.sides[0]
    return isinstance(one, Name) and isinstance(other, Name) and one != other


def _speak_of_the_same(
    names: frozenset[str], others: frozenset[str], alone: frozenset[str], given: dict[str, Ratio]
) -> bool:
    """Tell whether two lines have the same unknowns once what is given is put in."""
    return bool(alone) and _put_in(names, alone, given) == _put_in(others, alone, given)


def _is_formula(known: Known, above: Chain, line: Chain) -> bool:
    """``S = 6s²``, then ``S = 6 · 2.5²``, where nothing but the formula is told: numbers are put in."""
    if not known.context.from_first_line or len(above.sides) != 2 or len(line.sides) < 2:
        return False
    name = above.sides[0]
    return isinstance(name, Name) and line.sides[0] == name and bool(names_in(above.sides[1]))


def _put_in(names: frozenset[str], alone: frozenset[str], given: dict[str, Ratio]) -> frozenset[str]:
    return (names - alone).union(*(given[name].names() for name in names & alone))


def given_values(known: Known, setting: Setting) -> dict[str, Ratio]:
    """Return what names stand for: the givens, definitions, and answers that stand."""
    found: dict[str, Ratio] = {}
    base = known.base.premises if known.base else ()
    first = 1 if known.context.from_first_line else known.context.formula_count
    answers = [line for _, line in known.above if isinstance(line, Chain) and len(line.sides) == 2]
    for chain in (*base[first:], *answers):
        if not isinstance(chain, Chain) or not chain.rels[0].equates:
            continue
        name, value = chain.sides[0], chain.sides[-1]
        if not isinstance(name, Name):
            name, value = value, name
        if not isinstance(name, Name) or name.name in found or name.name in names_in(value):
            continue
        if chain in answers and names_in(value):
            continue
        try:
            found[name.name] = value_of(value, setting)
        except (NotExact, DividedByZero):
            continue
    return found


def numbers_given(known: Known, setting: Setting) -> dict[str, Poly]:
    """Return the names that the premises give as plain numbers."""
    found: dict[str, Poly] = {}
    for premise in known.base.premises if known.base else ():
        if (
            not isinstance(premise, Chain)
            or len(premise.sides) != 2
            or not isinstance(premise.sides[0], Name)
        ):
            continue
        if names_in(premise.sides[1]):
            continue
        try:
            constant = value_of(premise.sides[1], setting).constant()
        except (NotExact, DividedByZero):
            continue
        if constant is not None:
            found[premise.sides[0].name] = constant
    return found
