"""From the raw tree to the tree: which run of letters is a name, which a unit.

Some writings can mean two things ("1/2x" is (1/2)x or 1/(2x)). Each such place asks
a ``Choices`` which way to take; the reader asks again for every way there is.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from tutor.line.factors import plain_product, power
from tutor.line.items import letters_of, unit_below
from tutor.line.lexing import LineRefusal
from tutor.line.names import Names
from tutor.line.numerals import is_numeric, mixed, number, small_exponent, vulgar
from tutor.line.rows import Row
from tutor.line.table import Raw
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
    Percent,
    PiSign,
    PlusMinus,
    Root,
)
from tutor.quantity.units import BY_WORD, base_unit, counted, simple

_ROOT_INDEX = {"sqrt": 2, "√": 2, "cbrt": 3, "∛": 3, "∜": 4}
_ROOT_INDEX |= {small + "√": index for index, small in enumerate("²³⁴⁵⁶⁷⁸⁹", 2)}
_DEGREE_UNIT = simple(BY_WORD["°"])


# Degrees of heat are counted: they have no size that could be turned into another unit.
_HEAT = {"C": counted("°C"), "℃": counted("°C"), "F": counted("°F"), "℉": counted("°F")}


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

    def beside(self, raw: Raw) -> Expr:
        return Row(self).settle(raw)

    def tight(self, raw: Raw) -> Expr:
        return plain_product(self, raw) or Row(self).settle(raw)

    def over(self, raw: Raw) -> Expr:
        top = self.expr(raw.kids[0])
        if raw.kids[0].kind == "over" and isinstance(top, Div) and isinstance(top.bottom, Measure):
            rate = self.over_value(top.bottom, raw)
            if isinstance(rate, Measure):  # "150km/60km/h"
                return Div(top.top, rate, (raw.start, raw.end))
        return self.over_value(top, raw)

    def over_value(self, top: Expr, raw: Raw) -> Expr:
        """``top`` over what stands under the line in ``raw``; ``60 km/h`` is one measure."""
        under = raw.kids[2]
        unit = unit_below(under, self.names) if isinstance(top, Measure) else None
        if unit is not None and isinstance(top, Measure) and self._is_unit_below(under):
            return Measure(top.inner, top.unit.times(unit.power(-1)), (raw.start, raw.end))
        if under.kind == "tight" and not self._is_one_measure(under):
            if not self.choices.second():
                return self._first_only(top, under, raw)
            return Div(top, self._plain_row(under), (raw.start, raw.end))
        return self._over_a_value(top, under, raw)

    def _over_a_value(self, top: Expr, under: Raw, raw: Raw) -> Expr:
        """``40/3 °`` and ``40/3 $``: a sign for a unit behind a fraction is that of the whole fraction."""
        bottom = self.expr(under)
        if under.kind in ("degrees", "money_behind") and isinstance(bottom, Measure) and is_numeric(top):
            inside = Div(top, bottom.inner, (raw.start, under.kids[0].end))
            return Measure(inside, bottom.unit, (raw.start, raw.end))
        return Div(top, bottom, (raw.start, raw.end))

    def _is_unit_below(self, under: Raw) -> bool:
        """``120 cm³/h`` where the problem has an h: first that h; beside an H first the hours."""
        run, _power = letters_of(under)
        if run is None or self.names.find(run.text) is None:
            return True
        return self.choices.second() == (run.text in self.names.known)

    def _first_only(self, top: Expr, under: Raw, raw: Raw) -> Expr:
        """``1/2x`` as (1/2)x: the first factor alone goes under the line."""
        factors = [kid for kid in under.kids if kid.kind != "TIGHT"]
        over = Div(top, self.expr(factors[0]), (raw.start, factors[0].end))
        return Row(self).settle_after(over, factors[1:], raw)

    def _plain_row(self, under: Raw) -> Expr:
        return Row(self).settle(under)

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
            return self._over_a_value(self.expr(left), right, raw)
        if right.kind == "over":
            first = Div(self.expr(left), self.expr(right.kids[0]), (raw.start, right.kids[0].end))
            return Div(first, self.expr(right.kids[2]), (raw.start, raw.end))
        return self._first_only(self.expr(left), right, raw)

    # -- powers, roots, brackets ------------------------------------------------------------

    def raised(self, raw: Raw) -> Expr:
        if _is_run(raw.kids[0]):
            return Row(self).settle(raw)  # "xy^2": the power belongs to the y
        return power(self.expr(raw.kids[0]), self.expr(raw.kids[2]), raw)

    def raised_small(self, raw: Raw) -> Expr:
        if _is_run(raw.kids[0]):
            return Row(self).settle(raw)
        return power(self.expr(raw.kids[0]), small_exponent(raw.kids[1]), raw)

    def bracket(self, raw: Raw) -> Expr:
        inner = self.expr(raw.kids[1])
        return replace(inner, span=(raw.start, raw.end))

    def absolute(self, raw: Raw) -> Expr:
        return Abs(self.expr(raw.kids[1]), (raw.start, raw.end))

    def abs_call(self, raw: Raw) -> Expr:
        return Abs(self.expr(raw.kids[2]), (raw.start, raw.end))

    def root_of(self, raw: Raw) -> Expr:
        return Root(_ROOT_INDEX[raw.kids[0].text.lower()], self.expr(raw.kids[1]), (raw.start, raw.end))

    def root_of_minus(self, raw: Raw) -> Expr:
        inner = Neg(self.expr(raw.kids[2]), (raw.kids[1].start, raw.end))
        return Root(_ROOT_INDEX[raw.kids[0].text.lower()], inner, (raw.start, raw.end))

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
        unit = _HEAT.get(raw.kids[1].text[-1], _DEGREE_UNIT)
        return Measure(self.expr(raw.kids[0]), unit, (raw.start, raw.end))

    def money(self, raw: Raw) -> Expr:
        unit = simple(BY_WORD[raw.kids[0].text])
        return Measure(self.expr(raw.kids[1]), unit, (raw.start, raw.end))

    def money_behind(self, raw: Raw) -> Expr:
        unit = simple(BY_WORD[raw.kids[1].text])
        return Measure(self.expr(raw.kids[0]), unit, (raw.start, raw.end))

    # -- leaves -------------------------------------------------------------------------

    def number(self, raw: Raw) -> Expr:
        return number(raw)

    def mixed(self, raw: Raw) -> Expr:
        return mixed(raw)

    def vulgar(self, raw: Raw) -> Expr:
        return vulgar(raw)

    def pi(self, raw: Raw) -> Expr:
        return PiSign((raw.start, raw.end))

    def hole(self, raw: Raw) -> Expr:
        return Hole((raw.start, raw.end))

    def name(self, raw: Raw) -> Expr:
        if raw.text in self.names.known:
            return Name(raw.text, (raw.start, raw.end))
        return Row(self).settle(raw)

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
    "beside": Settler.beside,
    "tight": Settler.tight,
    "over": Settler.over,
    "divided": Settler.divided,
    "raised": Settler.raised,
    "raised_small": Settler.raised_small,
    "bracket": Settler.bracket,
    "absolute": Settler.absolute,
    "abs_call": Settler.abs_call,
    "root_of": Settler.root_of,
    "root_of_minus": Settler.root_of_minus,
    "root_call": Settler.root_call,
    "root_index": Settler.root_index,
    "percent": Settler.percent,
    "degrees": Settler.degrees,
    "money": Settler.money,
    "money_behind": Settler.money_behind,
    "number": Settler.number,
    "mixed": Settler.mixed,
    "vulgar": Settler.vulgar,
    "pi": Settler.pi,
    "hole": Settler.hole,
    "name": Settler.name,
    "angle": Settler.angle,
}


def _sum(left: Expr, right: Expr, raw: Raw) -> Expr:
    # A bracketed sum on the left keeps its bracket: only an open sum goes on growing.
    grown = raw.kids[0].kind in ("plus", "minus") and isinstance(left, Add)
    terms = (*left.terms, right) if grown and isinstance(left, Add) else (left, right)
    return Add(terms, (raw.start, raw.end))


def _product(left: Expr, right: Expr, raw: Raw) -> Expr:
    grown = raw.kids[0].kind == "times" and isinstance(left, Mul)
    factors = (*left.factors, right) if grown and isinstance(left, Mul) else (left, right)
    return Mul(factors, (raw.start, raw.end))


def _is_run(raw: Raw) -> bool:
    return raw.kind == "name" and len(raw.text) > 1
