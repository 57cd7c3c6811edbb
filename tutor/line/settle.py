"""From the raw tree to the tree: which run of letters is a name, which a unit.

Some writings can mean two things ("1/2x" is (1/2)x or 1/(2x)). Each such place asks
a ``Choices`` which way to take; the reader asks again for every way there is.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from tutor.line.lexing import LineRefusal
from tutor.line.names import Names
from tutor.line.numerals import MAX_EXPONENT_DIGITS, SMALL, VULGAR, is_numeric, mixed, number, whole
from tutor.line.parse import Raw
from tutor.line.tree import (
    Abs,
    Add,
    Div,
    Expr,
    Hole,
    Measure,
    Mul,
    Name,
    Neg,
    Num,
    Percent,
    PiSign,
    PlusMinus,
    Pow,
    Root,
)
from tutor.quantity.units import BY_WORD, CUBE_WORDS, SQUARE_WORDS, Unit, base_unit, counted, simple

_ROOT_INDEX = {"sqrt": 2, "√": 2, "cbrt": 3, "∛": 3, "∜": 4}
_DEGREE_UNIT = simple(BY_WORD["°"])
_ONE_LETTER_UNITS = frozenset("mghsL")


@dataclass(slots=True)
class Choices:
    """The way to take at each place that can be read two ways, in order of meeting."""

    taken: int = 0
    met: int = 0

    def second(self) -> bool:
        """Tell whether this place is to be read the second way."""
        bit = (self.taken >> self.met) & 1
        self.met += 1
        return bool(bit)


@dataclass(slots=True)
class Settler:
    """Settles the expressions of one line."""

    names: Names
    choices: Choices

    def expr(self, raw: Raw) -> Expr:
        """Return the tree of one side; raises ``LineRefusal`` for a word it does not know."""
        return _RULES[raw.kind](self, raw)

    # -- sums ---------------------------------------------------------------------------

    def plus(self, raw: Raw) -> Expr:
        return _sum(self.expr(raw.kids[0]), self.expr(raw.kids[2]), raw)

    def minus(self, raw: Raw) -> Expr:
        right = raw.kids[2]
        taken = Neg(self.expr(right), (raw.kids[1].start, right.end))
        return _sum(self.expr(raw.kids[0]), taken, raw)

    def plus_minus(self, raw: Raw) -> Expr:
        return PlusMinus(self.expr(raw.kids[0]), self.expr(raw.kids[2]), (raw.start, raw.end))

    def either_sign(self, raw: Raw) -> Expr:
        return PlusMinus(None, self.expr(raw.kids[1]), (raw.start, raw.end))

    def negative(self, raw: Raw) -> Expr:
        return Neg(self.expr(raw.kids[1]), (raw.start, raw.end))

    def positive(self, raw: Raw) -> Expr:
        return self.expr(raw.kids[1])

    # -- products and quotients ------------------------------------------------------------

    def times(self, raw: Raw) -> Expr:
        return _product(self.expr(raw.kids[0]), self.expr(raw.kids[2]), raw)

    def juxtaposed(self, raw: Raw) -> Expr:
        return _Row(self).settle(raw)

    def over(self, raw: Raw) -> Expr:
        return self.over_value(self.expr(raw.kids[0]), raw)

    def over_value(self, top: Expr, raw: Raw) -> Expr:
        """``top`` over what stands under the line in ``raw``; ``60 km/h`` is one measure."""
        under = raw.kids[2]
        if under.kind == "name" and isinstance(top, Measure):
            base = None if self.names.find(under.text) else base_unit(under.text)
            if base is not None:
                return Measure(top.inner, top.unit.times(simple(base, -1)), (raw.start, raw.end))
        if under.kind == "tight" and not self._is_one_measure(under):
            if not self.choices.second():
                return self._first_only(top, under, raw)
            return Div(top, self._plain_row(under), (raw.start, raw.end))
        return Div(top, self.expr(under), (raw.start, raw.end))

    def _first_only(self, top: Expr, under: Raw, raw: Raw) -> Expr:
        """``1/2x`` as (1/2)x: the first factor alone goes under the line."""
        factors = [kid for kid in under.kids if kid.kind != "TIGHT"]
        over = Div(top, self.expr(factors[0]), (raw.start, factors[0].end))
        return _Row(self).settle_after(over, factors[1:], raw)

    def _plain_row(self, under: Raw) -> Expr:
        return _Row(self).settle(under)

    def _is_one_measure(self, under: Raw) -> bool:
        """``120/5cm``: one number with its unit is one thing, not two factors."""
        factors = [kid for kid in under.kids if kid.kind != "TIGHT"]
        first, last = factors[0], factors[-1]
        if len(factors) != 2 or first.kind != "number" or last.kind != "name":
            return False
        return self.names.find(last.text) is None and len(last.text) > 1 and base_unit(last.text) is not None

    def divided(self, raw: Raw) -> Expr:
        left, right = raw.kids[0], raw.kids[2]
        ambiguous = right.kind == "over" or (right.kind == "tight" and not self._is_one_measure(right))
        if not ambiguous or not self.choices.second():
            return Div(self.expr(left), self.expr(right), (raw.start, raw.end))
        if right.kind == "over":
            first = Div(self.expr(left), self.expr(right.kids[0]), (raw.start, right.kids[0].end))
            return Div(first, self.expr(right.kids[2]), (raw.start, raw.end))
        return self._first_only(self.expr(left), right, raw)

    # -- powers, roots, brackets ------------------------------------------------------------

    def raised(self, raw: Raw) -> Expr:
        return _power(self.expr(raw.kids[0]), self.expr(raw.kids[2]), raw)

    def raised_small(self, raw: Raw) -> Expr:
        small = raw.kids[1]
        digits = small.text.translate(SMALL)
        exponent = whole(digits.lstrip("+-"), (small.start, small.end))
        signed: Expr = Neg(exponent, (small.start, small.end)) if digits.startswith("-") else exponent
        return _power(self.expr(raw.kids[0]), signed, raw)

    def bracket(self, raw: Raw) -> Expr:
        inner = self.expr(raw.kids[1])
        return replace(inner, span=(raw.start, raw.end))

    def absolute(self, raw: Raw) -> Expr:
        return Abs(self.expr(raw.kids[1]), (raw.start, raw.end))

    def abs_call(self, raw: Raw) -> Expr:
        return Abs(self.expr(raw.kids[2]), (raw.start, raw.end))

    def root_of(self, raw: Raw) -> Expr:
        return Root(_ROOT_INDEX[raw.kids[0].text.lower()], self.expr(raw.kids[1]), (raw.start, raw.end))

    def root_call(self, raw: Raw) -> Expr:
        return Root(_ROOT_INDEX[raw.kids[0].text.lower()], self.expr(raw.kids[2]), (raw.start, raw.end))

    def root_index(self, raw: Raw) -> Expr:
        index = int("".join(sign for sign in raw.kids[0].text if sign.isdecimal()))
        if not 2 <= index <= 20:
            raise LineRefusal(raw.start, raw.end, "A root needs an index from 2 to 20.")
        return Root(index, self.expr(raw.kids[1]), (raw.start, raw.end))

    def percent(self, raw: Raw) -> Expr:
        return Percent(self.expr(raw.kids[0]), (raw.start, raw.end))

    def degrees(self, raw: Raw) -> Expr:
        return Measure(self.expr(raw.kids[0]), _DEGREE_UNIT, (raw.start, raw.end))

    def money(self, raw: Raw) -> Expr:
        unit = simple(BY_WORD[raw.kids[0].text])
        return Measure(number(raw.kids[1]), unit, (raw.start, raw.end))

    # -- leaves -------------------------------------------------------------------------

    def number(self, raw: Raw) -> Expr:
        return number(raw)

    def mixed(self, raw: Raw) -> Expr:
        return mixed(raw)

    def vulgar(self, raw: Raw) -> Expr:
        return Num(VULGAR[raw.text], raw.text, span=(raw.start, raw.end))

    def pi(self, raw: Raw) -> Expr:
        return PiSign((raw.start, raw.end))

    def hole(self, raw: Raw) -> Expr:
        return Hole((raw.start, raw.end))

    def name(self, raw: Raw) -> Expr:
        return _Row(self).settle(raw)

    def angle(self, raw: Raw) -> Expr:
        letters = raw.text.removeprefix("m").strip().removeprefix("∠")
        letters = letters.split()[-1] if letters.split() else letters
        known = self.names.find("∠" + letters) or self.names.find(letters)
        return Name(known or "∠" + letters, (raw.start, raw.end))


_Rule = Callable[[Settler, Raw], Expr]
_RULES: dict[str, _Rule] = {
    "plus": Settler.plus,
    "minus": Settler.minus,
    "plus_minus": Settler.plus_minus,
    "either_sign": Settler.either_sign,
    "negative": Settler.negative,
    "positive": Settler.positive,
    "times": Settler.times,
    "beside": Settler.juxtaposed,
    "tight": Settler.juxtaposed,
    "over": Settler.over,
    "divided": Settler.divided,
    "raised": Settler.raised,
    "raised_small": Settler.raised_small,
    "bracket": Settler.bracket,
    "absolute": Settler.absolute,
    "abs_call": Settler.abs_call,
    "root_of": Settler.root_of,
    "root_call": Settler.root_call,
    "root_index": Settler.root_index,
    "percent": Settler.percent,
    "degrees": Settler.degrees,
    "money": Settler.money,
    "number": Settler.number,
    "mixed": Settler.mixed,
    "vulgar": Settler.vulgar,
    "pi": Settler.pi,
    "hole": Settler.hole,
    "name": Settler.name,
    "angle": Settler.angle,
}


class _Row:
    """Neighbours that multiply without a sign, read from left to right."""

    def __init__(self, settler: Settler) -> None:
        self._settler = settler
        self._names = settler.names
        self._pending: list[Expr] = []  # factors since the last unit
        self._done: list[Expr] = []  # values that have their unit
        self._prefix = 1  # 2 after "square", 3 after "cubic"

    def settle(self, raw: Raw) -> Expr:
        return self._take(_neighbours(raw), raw)

    def settle_after(self, first: Expr, rest: list[Raw], raw: Raw) -> Expr:
        self._pending.append(first)
        return self._take(rest, raw)

    def _take(self, items: list[Raw], raw: Raw) -> Expr:
        at = 0
        while at < len(items):
            at += self._one(items, at)
        if self._prefix != 1:
            raise LineRefusal(raw.start, raw.end, "A unit is missing after “square” or “cubic”.")
        factors = (*self._done, *self._pending)
        span = (raw.start, raw.end)
        if _is_compound(factors):
            return Add(factors, span)
        return replace(factors[0], span=span) if len(factors) == 1 else _flat_product(factors, span)

    def _one(self, items: list[Raw], at: int) -> int:
        """Take one item (or a whole run of words); return how many items were taken."""
        item = items[at]
        if item.kind == "over" and self._unit_over(item, items, at):
            return 1
        run, power = _letters(item)
        if run is None:
            self._pending.append(self._settler.expr(item))
            return 1
        known = self._names.find(run.text)
        if known is None and item is run and self._is_times(run.text, items, at):
            return 1
        if known is None and self._unit_below(run.text, power):
            return 1
        if known is None and self._reads_as_unit(run.text, items, at):
            return self._unit(run, power, item)
        if known is None and self._trailing_words(items, at):
            words = " ".join(kid.text for kid in items[at:])
            self._close(counted(words), items[-1].end)
            return len(items) - at
        self._factors_of(item, run)
        return 1

    def _reads_as_unit(self, word: str, items: list[Raw], at: int) -> bool:
        if self._prefix != 1:
            return True
        if not self._pending:
            # "in²" right behind "5 cm": only a second unit that multiplies, as in N·m; not read here.
            return False
        if word.lower() in SQUARE_WORDS | CUBE_WORDS:
            return at + 1 < len(items)
        if base_unit(word) is None:
            return False
        if len(word) > 1:
            return True
        return word in _ONE_LETTER_UNITS and all(is_numeric(factor) for factor in self._pending)

    def _unit(self, run: Raw, power: int | None, item: Raw) -> int:
        low = run.text.lower()
        if low in SQUARE_WORDS | CUBE_WORDS:
            self._prefix = 2 if low in SQUARE_WORDS else 3
            return 1
        base = base_unit(run.text)
        if base is None:
            raise LineRefusal(run.start, run.end, f"“{run.text}” is not a unit that I know.")
        self._close(simple(base, power if power is not None else self._prefix), item.end)
        self._prefix = 1
        return 1

    def _is_times(self, word: str, items: list[Raw], at: int) -> bool:
        """``2 x 3.14 x r``: where the problem has no x, an x between two values is a times sign."""
        between = bool(self._pending or self._done) and at + 1 < len(items)
        return word in ("x", "X") and between and bool(self._names.known)

    def _unit_below(self, word: str, power: int | None) -> bool:
        """``420 cm³ / 60 cm²``: the second unit belongs to the number below the line."""
        if self._pending or not self._done or self._prefix != 1:
            return False
        last, base = self._done[-1], base_unit(word)
        if base is None or not isinstance(last, Div) or not is_numeric(last.bottom):
            return False
        self._done[-1] = replace(
            last, bottom=Measure(last.bottom, simple(base, power or 1), last.bottom.span)
        )
        return True

    def _unit_over(self, item: Raw, items: list[Raw], at: int) -> bool:
        """``60 km/h`` and ``5 cm/2``: the unit belongs to the number in front of it."""
        run, power = _letters(item.kids[0])
        if run is None or self._names.find(run.text) or not self._reads_as_unit(run.text, items, at):
            return False
        self._unit(run, power, item.kids[0])
        self._done.append(self._settler.over_value(self._done.pop(), item))
        return True

    def _close(self, unit: Unit, end: int) -> None:
        start = self._pending[0].span[0]
        inner = _flat_product(tuple(self._pending), (start, self._pending[-1].span[1]))
        self._done.append(Measure(inner, unit, (start, end)))
        self._pending = []

    def _trailing_words(self, items: list[Raw], at: int) -> bool:
        """``47 students``: words that end the row behind a number name what is counted."""
        if not self._pending or not all(is_numeric(factor) for factor in self._pending):
            return False
        rest = items[at:]
        return all(kid.kind == "name" and len(kid.text) >= 2 and self._is_a_word(kid.text) for kid in rest)

    def _is_a_word(self, text: str) -> bool:
        if self._names.find(text):
            return False
        return len(text) >= 4 or self._names.take_apart(text, after_number=False) is None

    def _factors_of(self, item: Raw, run: Raw) -> None:
        """A run of letters as names: ``LWH``, ``πr²``; a power belongs to the last letter."""
        known = self._names.find(run.text)
        if known is not None:
            pieces: tuple[str, ...] | None = (known,)
        elif len(run.text) == 1 or not run.text.isalpha():
            pieces = (run.text,)
        else:
            pieces = self._names.take_apart(run.text, after_number=bool(self._pending))
        if pieces is None:
            raise LineRefusal(run.start, run.end, f"I do not know the word “{run.text}” here.")
        names = _placed(pieces, run)
        last = names[-1]
        if item is not run:
            last = _power_of(self._settler, last, item)
        self._pending.extend((*names[:-1], last))


def _is_compound(factors: tuple[Expr, ...]) -> bool:
    """``5 ft 6 in`` is one length: the parts add up."""
    if len(factors) != 2:
        return False
    big, small = factors
    if not isinstance(big, Measure) or not isinstance(small, Measure):
        return False
    alike = big.unit.dimension == small.unit.dimension
    return alike and big.unit.factor > small.unit.factor


def _placed(pieces: tuple[str, ...], run: Raw) -> list[Expr]:
    if len(pieces) == 1:
        return [Name(pieces[0], (run.start, run.end))]
    placed: list[Expr] = []
    at = run.start
    for piece in pieces:
        width = 2 if piece == "π" else len(piece)
        span = (at, at + width)
        placed.append(PiSign(span) if piece == "π" else Name(piece, span))
        at += width
    return placed


def _power_of(settler: Settler, base: Expr, item: Raw) -> Expr:
    if item.kind == "raised":
        return _power(base, settler.expr(item.kids[2]), item)
    small = item.kids[1].text.translate(SMALL)
    exponent = whole(small.lstrip("+-"), (item.kids[1].start, item.kids[1].end))
    return _power(base, Neg(exponent, exponent.span) if small.startswith("-") else exponent, item)


def _letters(item: Raw) -> tuple[Raw | None, int | None]:
    """Return the run of letters of a name or of a name raised to a power, and a small whole power."""
    if item.kind == "name":
        return item, None
    if item.kind in ("raised", "raised_small") and item.kids[0].kind == "name":
        exponent = item.kids[-1].text.translate(SMALL)
        return item.kids[0], int(exponent) if exponent.isdecimal() and len(exponent) == 1 else None
    return None, None


def _neighbours(raw: Raw) -> list[Raw]:
    if raw.kind == "beside":
        return [*_neighbours(raw.kids[0]), *_neighbours(raw.kids[2])]
    if raw.kind == "tight":
        return [kid for kid in raw.kids if kid.kind != "TIGHT"]
    return [raw]


def _sum(left: Expr, right: Expr, raw: Raw) -> Expr:
    # A bracketed sum on the left keeps its bracket: only an open sum goes on growing.
    grown = raw.kids[0].kind in ("plus", "minus") and isinstance(left, Add)
    terms = (*left.terms, right) if grown and isinstance(left, Add) else (left, right)
    return Add(terms, (raw.start, raw.end))


def _product(left: Expr, right: Expr, raw: Raw) -> Expr:
    grown = raw.kids[0].kind == "times" and isinstance(left, Mul)
    factors = (*left.factors, right) if grown and isinstance(left, Mul) else (left, right)
    return Mul(factors, (raw.start, raw.end))


def _flat_product(factors: tuple[Expr, ...], span: tuple[int, int]) -> Expr:
    return factors[0] if len(factors) == 1 else Mul(factors, span)


def _power(base: Expr, exponent: Expr, raw: Raw) -> Expr:
    if isinstance(base, Measure):
        # "(5 cm)²": the unit is multiplied too; the value keeps it inside.
        return Pow(base, exponent, (raw.start, raw.end))
    if isinstance(exponent, Num) and len(exponent.text) > MAX_EXPONENT_DIGITS:
        raise LineRefusal(exponent.span[0], exponent.span[1], "This power is too big for me.")
    return Pow(base, exponent, (raw.start, raw.end))
