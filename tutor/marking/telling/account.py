"""The both-sides account: what happened to each side, in a teacher's plainest words."""

from dataclasses import dataclass, replace
from fractions import Fraction

from tutor.line.keys import expr_key
from tutor.line.meaning import Setting
from tutor.line.poly import Ratio
from tutor.line.tree import Chain, Num, Rel, Statement
from tutor.line.walk import names_in
from tutor.marking.deciding.everyday import Everyday, everyday, form_of
from tutor.marking.deciding.memo import Memo
from tutor.marking.deciding.rounding import rounded_sides, rounds_to
from tutor.marking.telling.in_fractions import in_fractions, shows_fractions
from tutor.marking.telling.kept import NOTHING, STAYED, Given, Side, kept_words, side_value, with_given
from tutor.marking.telling.linear_moves import given_to_both, least_cost, side_of
from tutor.marking.telling.moves import KEPT, Op
from tutor.marking.telling.moving import op_like, own_op, shared_op
from tutor.marking.telling.quoting import quoted
from tutor.marking.telling.rooted import is_squared, rooted_on_both
from tutor.marking.telling.scaled import is_scaled

_LONG = 18  # words that are longer are said once for both sides
_PLACES = {1: ("all of it",), 2: ("left", "right"), 3: ("left", "middle", "right")}


@dataclass(frozen=True, slots=True)
class Move:
    """What happened to one side; ``plain`` where it is one move that can be named."""

    words: str
    plain: bool
    kept: bool = False
    op: Op | None = None


@dataclass(frozen=True, slots=True)
class Account:
    """What happened to each side, from left to right.

    ``shared``: the move that was made on all sides, None where they did not get the same.
    ``before`` and ``after``: the sides that it compares, in the order of the new line.
    ``swapped``: the sides changed places first. ``sign``: what became of < > ≤ ≥.
    """

    moves: tuple[Move, ...]
    before: tuple[Side, ...]
    after: tuple[Side, ...]
    shared: Op | None = None
    swapped: bool = False
    sign: str = ""

    @property
    def left(self) -> Move:
        """Return what happened to the left side."""
        return self.moves[0]

    @property
    def right(self) -> Move:
        """Return what happened to the right side."""
        return self.moves[-1]

    @property
    def cost(self) -> int:
        """Return how far this is from one plain move made on all sides."""
        if self.shared is not None:
            return 2 * self.shared.cost + self.swapped
        told = sum(2 + 2 * move.op.cost if move.op and not move.kept else 0 for move in self.moves)
        return 1 + told + sum(0 if move.plain else 5 for move in self.moves) + 2 * self.swapped

    def __str__(self) -> str:
        places = _PLACES[len(self.moves)]
        words = [move.words for move in self.moves]
        if len(set(words)) == 1 and (len(words[0]) > _LONG or len(words) > 2):
            said = f"{'both sides' if len(words) == 2 else 'all parts'}: {words[0]}"
        else:
            said = "; ".join(f"{place}: {word}" for place, word in zip(places, words, strict=True))
        same = all(word == STAYED for word in words)
        if same and self.sign and not self.swapped:
            return f"only the sign changed: {self.sign}"
        if self.swapped:
            said = "the sides changed places" if same else f"sides swapped, then {said}"
        return f"{said}; {self.sign}" if self.sign else said


def account(above: Statement, line: Statement, setting: Setting, given: Given = NOTHING) -> Account | None:
    """Return the account from one line to the next, None where there are no two sides to speak of.

    ``given``: what names stand for. It is put in where only one of the two lines has the
    name, so that a substitution is not told as a change.
    """
    if not (isinstance(above, Chain) and isinstance(line, Chain)):
        return None
    told = _account(above, line, setting, given)
    if told is None or not any("." in move.words for move in told.moves) or not shows_fractions(above, line):
        return told
    return replace(told, moves=tuple(replace(move, words=in_fractions(move.words)) for move in told.moves))


def _account(above: Chain, line: Chain, setting: Setting, given: Given) -> Account | None:
    plain = _everyday_moves(above, line)
    if plain is not None:
        return plain
    old, new = _ends(above), _ends(line)
    if old is None or new is None or len(old.sides) != len(new.sides):
        return None
    if old.rels[0].equates != new.rels[0].equates:
        return None
    before, after = _both(old, new, setting, given)
    shared = _may_be_shared(above, line)
    told = _told(before, after, line, setting, shared=shared)
    if told.cost > 0 and _may_be_swapped(told):
        turned = replace(_told(before[::-1], after, line, setting, shared=shared), swapped=True)
        if turned.cost < told.cost:
            told = turned
    sign = "" if new.rels[0].equates else _sign(old, new, swapped=told.swapped)
    return replace(told, sign=sign) if sign else told


def _everyday_moves(above: Chain, line: Chain) -> Account | None:
    """Return the account of the commonest steps of all, None of any other.

    From one linear equation to another with the same solution, both sides get the same, and
    what they get can be seen from the coefficients. It would be told in the same words below.
    """
    old, new = everyday(above), everyday(line)
    if old is None or new is None or old.form != new.form or Rel.EQ not in (*above.rels, *line.rels):
        return None
    op = given_to_both((old.left, old.right), (new.left, new.right), old.form.name)
    words = None if op is None else op.words()
    if op is None or not words:
        return None
    if op.cost and _is_plainer_swapped(op, old, new):
        return None
    sides = [tuple(Side(side, None, None) for side in chain.sides) for chain in (above, line)]
    return Account((Move(words, True, False, op),) * 2, sides[0], sides[1], op)


def _is_plainer_swapped(op: Op, old: Everyday, new: Everyday) -> bool:
    """Tell whether it may be less to say that the sides changed places first."""
    with_letters = [bool(side[1]) for side in (old.left, old.right)]
    if not all(with_letters) and with_letters == [bool(side[1]) for side in (new.left, new.right)]:
        return False
    turned = least_cost((old.right, old.left), (new.left, new.right))
    return turned is not None and 2 * turned + 1 < 2 * op.cost


def _ends(chain: Chain) -> Chain | None:
    """Return the first and the last side of a chain of equal values; a comparison as it is."""
    if all(rel.equates for rel in chain.rels):
        if len(chain.sides) == 2:
            return chain
        return Chain((chain.sides[0], chain.sides[-1]), (Rel.EQ,), chain.span)
    comparing = all(not rel.equates and rel is not Rel.NE for rel in chain.rels)
    return chain if comparing and len(chain.sides) <= 3 else None


def _may_be_swapped(told: Account) -> bool:
    """Tell whether it is worth a try that the sides changed places."""
    if len(told.moves) != 2:
        return False
    was, now = (
        [bool(side.value is None or side.value.names()) for side in sides]
        for sides in (told.before, told.after)
    )
    if was == now and False in was:
        return False
    turned = was == now[::-1] and was != now
    return turned or told.shared is not None or not all(move.plain for move in told.moves)


def _sign(old: Chain, new: Chain, *, swapped: bool) -> str:
    """Return what became of the sign of a comparison, "" where it stayed as it was."""
    was = tuple(rel.turned for rel in old.rels) if swapped else old.rels
    if new.rels == was:
        return ""
    if new.rels == tuple(rel.turned for rel in was):
        return "the sign turned"
    return f"{was[0].value} became {new.rels[0].value}"


def _both(old: Chain, new: Chain, setting: Setting, given: Given) -> tuple[list[Side], list[Side]]:
    values = [_VALUES.get(chain, setting, lambda chain: _values(chain, setting)) for chain in (old, new)]
    alone: set[str] = set()
    if given:
        alone = set(names_in(*old.sides) ^ names_in(*new.sides)) & set(given)
    made = [
        [
            Side(side, value, value if not alone or value is None else with_given(value, given, alone))
            for side, value in zip(chain.sides, found, strict=True)
        ]
        for chain, found in zip((old, new), values, strict=True)
    ]
    return made[0], made[1]


_VALUES: Memo[tuple[Ratio | None, ...]] = Memo()


def _values(chain: Chain, setting: Setting) -> tuple[Ratio | None, ...]:
    plain = everyday(chain)
    if plain is not None and plain.whole:  # both sides are at hand
        return tuple(Ratio(side_of(*side[1:], plain.form.name)) for side in (plain.left, plain.right))
    return tuple(side_value(side, setting) for side in chain.sides)


# -- what to tell ----------------------------------------------------------------------------------


def _may_be_shared(above: Chain, line: Chain) -> bool:
    """Tell whether both sides can have got the same: two linear equations with other answers have not."""
    old, new = form_of(above), form_of(line)
    return old is None or new is None or old.name != new.name or old.bound == new.bound


def _told(before: list[Side], after: list[Side], line: Chain, setting: Setting, *, shared: bool) -> Account:
    """``shared``: it is worth looking for one move that was made on all sides."""
    pairs = list(zip(before, after, strict=True))
    old, new = [side.full for side in before], [side.full for side in after]
    settled_old = [value for value in old if value is not None]
    settled_new = [value for value in new if value is not None]
    if shared and len(settled_old) == len(settled_new) == len(pairs):
        op = shared_op(settled_old, settled_new)
        if op is not None:
            return Account(
                tuple(_move(op, *pair, setting) for pair in pairs), tuple(before), tuple(after), op
            )
    rooted = None
    if len(settled_old) < len(pairs) or len(settled_new) < len(pairs):
        rooted = rooted_on_both(pairs, setting)
    if rooted is not None:
        moves = tuple(Move(words, True) for words in rooted[0])
        return Account(moves, tuple(before), tuple(after), rooted[1])
    return Account(_apart(pairs, line, setting), tuple(before), tuple(after))


def _move(op: Op, before: Side, after: Side, setting: Setting) -> Move:
    """Return a move that is known to be true of a side."""
    words = op.words()
    same = op.kept or (before.full is not None and after.full is not None and before.full.same(after.full))
    if not words or (same and op.power == op.root == 1):
        return Move(kept_words(before, after, setting), True, True, op)
    return Move(words, True, same, op)


def _apart(pairs: list[tuple[Side, Side]], line: Chain, setting: Setting) -> tuple[Move, ...]:
    """The sides did not get the same: each is told by itself, in the manner of the other."""
    ops: list[Op | None] = [KEPT if _is_kept(*pair) else None for pair in pairs]
    if None in ops:
        lead = _leader(pairs, ops, setting)
        op = None if lead is None else _own(*pairs[lead], setting)
        if lead is not None and op is not None:
            ops[lead] = op
            for at, pair in enumerate(pairs):
                if ops[at] is None:
                    ops[at] = _like(op, *pair)
    moves = [
        _went(*pair) if op is None else _move(op, *pair, setting) for op, pair in zip(ops, pairs, strict=True)
    ]
    rounded = _rounded(ops, pairs, line)
    if rounded is not None:
        moves[-1] = rounded
    return tuple(moves)


def _is_kept(before: Side, after: Side) -> bool:
    if before.full is not None and after.full is not None:
        return before.full.same(after.full)
    return expr_key(before.expr) == expr_key(after.expr)


def _leader(pairs: list[tuple[Side, Side]], ops: list[Op | None], setting: Setting) -> int | None:
    """The side whose move is told first: the one with the unknown in it.

    A number by itself leads nothing: of 12 that became 9 nobody can tell what was done.
    Where all other sides stayed, a side is best quoted before and after.
    """
    changed = [at for at, op in enumerate(ops) if op is None]
    if len(changed) == 1:
        old, new = pairs[changed[0]]
        put_in_ = old.full is not old.value and (
            old.full is None or old.value is None or not old.full.same(old.value)
        )
        one_move = is_scaled(old, new) or is_squared(old.expr, new, setting)
        if put_in_ or (quoted(old.expr) and quoted(new.expr) and not one_move):
            return None
    for at in changed:
        old, new = pairs[at]
        if old.full is not None and new.full is not None and old.full.names():
            return at
        if old.full is None and is_squared(old.expr, new, setting):
            return at
    return None


def _own(before: Side, after: Side, setting: Setting) -> Op | None:
    if before.full is None:
        return Op(power=2) if is_squared(before.expr, after, setting) else None
    return None if after.full is None else own_op(before.full, after.full)


def _like(op: Op, before: Side, after: Side) -> Op | None:
    if before.full is None or after.full is None:
        return None
    worked_out = before.value is not None and not before.full.same(before.value)
    if worked_out and not before.full.names():
        return None  # to name the move would tell a value that the student has still to find
    return op_like(op, before.full, after.full)


def _rounded(ops: list[Op | None], pairs: list[tuple[Side, Side]], line: Chain) -> Move | None:
    """``7x = 22`` to ``x = 3.14``: divided by 7, rounded."""
    op, (old, new) = ops[0], pairs[-1]
    if op is None or op.root > 1 or ops[-1] is not None or old.full is None or not isinstance(new.expr, Num):
        return None
    exact = op.applied(old.full)
    value = None if exact is None or exact.constant() is None else exact.above.rational()
    places = new.expr.places
    if value is None or places is None or not any(True for _ in rounded_sides(line)):
        return None
    if value == new.expr.value or not rounds_to(Fraction(value), new.expr.value, places):
        return None
    words = op.words()
    return Move(f"{words}, rounded" if words else "rounded", True, op.kept, op)


def _went(before: Side, after: Side) -> Move:
    """Quote a side before and after: the student's own writing, nothing worked out."""
    old, new = quoted(before.expr), quoted(after.expr)
    if new is None:
        return Move("changed", False)
    return Move(f"became {new}" if old is None else f"{old} became {new}", False)
