"""Neighbours that multiply without a sign: which run of letters is a name, which a unit, which a word."""

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from tutor.line.advice import REMAINDER, is_a_function, unknown_word
from tutor.line.factors import flat_product, placed, power_of
from tutor.line.items import argument_of, is_function, letters_of, neighbours, words_in
from tutor.line.lexing import LineRefusal
from tutor.line.numerals import is_numeric
from tutor.line.table import Raw
from tutor.line.tree import Add, Div, Expr, Measure, Name, Num
from tutor.quantity.units import BY_WORD, CUBE_WORDS, SQUARE_WORDS, Unit, base_unit, counted, simple

if TYPE_CHECKING:
    from tutor.line.settle import Settler

_ONE_LETTER_UNITS = frozenset("mghsLl")
_RARE_UNITS = frozenset("NJ")
_SCALES = {"dozen": 12, "hundred": 100, "thousand": 1000, "million": 10**6, "billion": 10**9}
_SHORT_COUNTED = frozenset({"yr", "yrs", "mo", "mos", "pcs"})
_NO_ONSETS = frozenset({"ns", "pn", "np", "bh", "lw", "hb"})
_LITTLE_WORDS = frozenset({"is", "are", "in", "of", "for", "on", "at", "a", "an", "the", "per", "each", "to"})


class Row:
    """Neighbours that multiply without a sign, read from left to right."""

    def __init__(self, settler: "Settler") -> None:
        self._settler = settler
        self._names = settler.names
        self._pending: list[Expr] = []  # factors since the last unit
        self._done: list[Expr] = []  # values that have their unit
        self._prefix = 1  # 2 after "square", 3 after "cubic"
        self._multiplied = False  # an x was a times sign

    def settle(self, raw: Raw) -> Expr:
        """Return the product, measure or compound length that a row is."""
        return self._take(neighbours(raw), raw)

    def settle_after(self, first: Expr, rest: list[Raw], raw: Raw) -> Expr:
        """Return a row whose first factor is settled already."""
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
        if _is_compound(factors) and len(items) > 2 and not self._multiplied:
            return Add(factors, span)
        return replace(factors[0], span=span) if len(factors) == 1 else flat_product(factors, span)

    def _one(self, items: list[Raw], at: int) -> int:
        """Take one item (or a whole run of words); return how many items were taken."""
        item = items[at]
        if item.kind == "over" and self._unit_over(item, items, at):
            return 1
        run, power = letters_of(item)
        if run is None and self._trailing_words(items, at):
            return self._words(items, at)
        if run is None:
            self._pending.append(self._settler.expr(item))
            return 1
        if item is run and run.text in ("x", "X") and self._is_times(items, at):
            self._multiplied = True
            return 1
        if self._names.find(run.text) is not None:
            if self._unit_like_a_name(run.text, items, at):
                return self._unit(run, power, item)
            if self._could_stand_below(run.text, items, at) and self._settler.choices.second():
                self._unit_below(run.text, power)
                return 1
            self._factors_of(item, run)
            return 1
        return self._unknown(items, at, run, power)

    def _unit_like_a_name(self, word: str, items: list[Raw], at: int) -> bool:
        """``112 L`` where the problem has an l: litres first; ``112L``: first that l as a capital.

        Where it has an L itself, that comes first, and litres only where a number, a space and L are all.
        """
        if len(word) > 1 or not self._reads_as_unit(word, items, at):
            return False
        apart = at > 0 and items[at - 1].end < items[at].start
        if word in self._names.known:
            return apart and len(items) == 2 and self._settler.choices.second()
        return self._settler.choices.second() != apart

    def _could_stand_below(self, word: str, items: list[Raw], at: int) -> bool:
        """``100 m/12.5 s`` where the problem has an s: that s, or seconds."""
        if self._pending or not self._done or at + 1 < len(items) or items[at - 1].end == items[at].start:
            return False
        last = self._done[-1]
        measured = isinstance(last, Div) and isinstance(last.top, Measure) and is_numeric(last.bottom)
        return measured and base_unit(word) is not None

    def _unknown(self, items: list[Raw], at: int, run: Raw, power: int | None) -> int:
        """Take a run of letters that is no name of the problem; return how many items were taken."""
        item = items[at]
        if self._unit_below(run.text, power):
            return 1
        if self._reads_as_unit(run.text, items, at) and (item is run or power is not None):
            return self._unit(run, power, item)
        if self._is_scale(run.text, item is run):
            size = _SCALES[run.text.lower()]
            self._pending.append(Num(Fraction(size), str(size), 0, span=(run.start, run.end)))
            return 1
        if self._trailing_words(items, at):
            return self._words(items, at)
        if item is run and is_function(items, at):
            argument = argument_of(items[at + 1])
            self._pending.append(Name(f"{run.text}({argument})", (run.start, items[at + 1].end)))
            return 2
        if run.text in ("r", "R"):
            self._refuse_remainder(items, at)
        self._factors_of(item, run)
        return 1

    def _words(self, items: list[Raw], at: int) -> int:
        """Take the words that end a row: what is counted, or nothing new behind a unit."""
        if self._pending and not isinstance(self._pending[-1], Measure):
            words = " ".join(word for kid in items[at:] for word in words_in(kid))
            self._close(counted(words), items[-1].end)
        return len(items) - at

    def _is_a_unit_only(self, word: str) -> bool:
        """``mi`` is no m times i, unless the problem has both; nobody writes pints as ``Pt``."""
        mixed = not word.islower() and not word.isupper() and word not in BY_WORD
        return base_unit(word) is not None and not mixed and not all(map(self._names.find, word))

    def _refuse_remainder(self, items: list[Raw], at: int) -> None:
        between = 0 < at < len(items) - 1 and items[at - 1].kind == items[at + 1].kind == "number"
        if between and items[at - 1].end < items[at].start:
            raise LineRefusal(items[at].start, items[at + 1].end, REMAINDER)

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
            return not (self._could_be_names(word, items, at) and self._settler.choices.second())
        if at + 1 < len(items) and items[at].end == items[at + 1].start:
            return False  # "1/2 h(b + B)": a letter right before a bracket multiplies it
        if not all(is_numeric(factor) for factor in self._pending):
            return False
        if word in _RARE_UNITS:  # "49 N": that letter first, then newtons
            return items[at - 1].end < items[at].start and self._settler.choices.second()
        return word in _ONE_LETTER_UNITS

    def _could_be_names(self, word: str, items: list[Raw], at: int) -> bool:
        """``3cm`` right behind its number where the problem has a c and an m: first centimetres."""
        glued = at > 0 and items[at - 1].end == items[at].start
        return glued and len(word) == 2 and all(map(self._names.find, word))

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

    def _is_times(self, items: list[Raw], at: int) -> bool:
        """``2 x 3.14 x r``: where the problem has no x, an x between two values is a times sign.

        Where it has one, ``6 x 4`` with its spaces can be read both ways.
        """
        if at + 1 >= len(items) or not (self._pending or self._done):
            return False
        numbers = all(map(is_numeric, self._pending)) and _is_number(items[at + 1])
        if self._names.find("x") is None:
            return numbers or bool(self._names.known)
        if self._multiplied:
            return True
        apart = at > 0 and items[at - 1].end < items[at].start and items[at].end < items[at + 1].start
        return apart and numbers and self._settler.choices.second()

    def _is_scale(self, word: str, alone: bool) -> bool:
        """``1.5 million``, ``3 dozen boxes``."""
        return alone and word.lower() in _SCALES and bool(self._pending) and is_numeric(self._pending[-1])

    def _unit_below(self, word: str, power: int | None) -> bool:
        """``420 cm³ / 60 cm²``: the second unit belongs to the number below the line."""
        if len(self._pending) == 1 and not self._done and _is_money_over_number(self._pending[0]):
            self._done = [self._pending.pop()]  # "$12/1 hour": the hour belongs below
        if self._pending or not self._done or self._prefix != 1:
            return False
        last, base = self._done[-1], base_unit(word)
        if base is None or not isinstance(last, Div):
            return False
        if not is_numeric(last.bottom) and not (isinstance(last.bottom, Name) and len(word) > 1):
            return False
        self._done[-1] = replace(
            last, bottom=Measure(last.bottom, simple(base, power or 1), last.bottom.span)
        )
        return True

    def _unit_over(self, item: Raw, items: list[Raw], at: int) -> bool:
        """``60 km/h`` and ``5 cm/2``: the unit belongs to the number in front of it."""
        run, power = letters_of(item.kids[0])
        if run is None or run.text.lower() in SQUARE_WORDS | CUBE_WORDS:
            return False
        if self._rate_below(item, run, power):
            return True
        if not self._reads_as_unit(run.text, items, at):
            return False
        if self._names.find(run.text) and not self._unit_like_a_name(run.text, items, at):
            return False
        self._unit(run, power, item.kids[0])
        self._done.append(self._settler.over_value(self._done.pop(), item))
        return True

    def _rate_below(self, item: Raw, run: Raw, power: int | None) -> bool:
        """``150 km / 60 km/h``: the number below the line has all of the unit behind it."""
        if self._names.find(run.text) is not None or not self._unit_below(run.text, power):
            return False
        last = self._done[-1]
        rate = self._settler.over_value(last.bottom, item) if isinstance(last, Div) else last
        if isinstance(last, Div) and isinstance(rate, Measure):
            self._done[-1] = replace(last, bottom=rate)
        else:
            self._done[-1] = self._settler.over_value(last, item)  # "5 cm / 2 cm/3"
        return True

    def _close(self, unit: Unit, end: int) -> None:
        start = self._pending[0].span[0]
        inner = flat_product(tuple(self._pending), (start, self._pending[-1].span[1]))
        self._done.append(Measure(inner, unit, (start, end)))
        self._pending = []

    def _trailing_words(self, items: list[Raw], at: int) -> bool:
        """``47 students``, ``12 boxes of candles``: words that end the row behind a value."""
        if self._pending:
            value = all(map(is_numeric, self._pending)) or isinstance(self._pending[-1], Measure)
        else:
            value = bool(self._done) and isinstance(self._done[-1], Measure)
        # "5 ft of cane": words behind a unit say nothing more, and are let go by.
        close_behind = at > 0 and items[at - 1].end == items[at].start and items[at].kind == "name"
        if not value or (close_behind and len(items[at].text) <= 3):
            return False
        rest = [words_in(kid) for kid in items[at:]]
        if not all(rest) or not self._is_a_word(rest[0][0]):
            return False
        if self._pending and rest[0][0] in _LITTLE_WORDS and is_numeric(self._pending[-1]):
            return False
        return all(word in _LITTLE_WORDS or self._is_a_word(word) for words in rest for word in words)

    def _is_a_word(self, text: str) -> bool:
        if len(text) < 2 or self._names.find(text) or text.lower() in SQUARE_WORDS | CUBE_WORDS:
            return False
        if text.lower() in _SHORT_COUNTED:
            return True
        if len(text) == 3 and text[:2].lower() in _NO_ONSETS:
            return False  # "½ nsa": no word begins with "ns"
        return len(text) >= 4 or self._names.take_apart(text, after_number=False) is None

    def _factors_of(self, item: Raw, run: Raw) -> None:
        """A run of letters as names: ``LWH``, ``πr²``; a power belongs to the last letter."""
        known = self._names.find(run.text)
        if known is not None:
            pieces: tuple[str, ...] | None = (known,)
        elif len(run.text) == 1 or not run.text.isalpha() or (run.text[0] == "Δ" and len(run.text) == 2):
            pieces = (run.text,)
        else:
            number = self._pending[-1] if self._pending and is_numeric(self._pending[-1]) else None
            pieces = self._names.take_apart(run.text, after_number=number is not None)
            close = number is not None and number.span[1] == run.start
            if pieces is None and close and len(run.text) == 2 and run.text.isascii():
                pieces = tuple(self._names.find(letter) or letter for letter in run.text)  # "5by"
        function = pieces == (run.text,) and known is None and is_a_function(run.text)
        if function or pieces is None or (len(pieces) > 1 and self._is_a_unit_only(run.text)):
            raise LineRefusal(run.start, run.end, unknown_word(run.text))
        names = placed(pieces, run)
        last = names[-1]
        if item is not run:
            last = power_of(self._settler, last, item)
        self._pending.extend((*names[:-1], last))


def _is_number(item: Raw) -> bool:
    """Tell whether an item is a number: ``3``, ``2 1/2``, ``1/2``."""
    if item.kind == "over":
        return item.kids[0].kind == item.kids[2].kind == "number"
    return item.kind in ("number", "mixed", "vulgar")


def _is_compound(factors: tuple[Expr, ...]) -> bool:
    """``5 ft 6 in`` is one length: the parts add up."""
    if len(factors) != 2:
        return False
    big, small = factors
    if not isinstance(big, Measure) or not isinstance(small, Measure):
        return False
    alike = big.unit.dimension == small.unit.dimension
    return alike and big.unit.factor > small.unit.factor


def _is_money_over_number(expr: Expr) -> bool:
    return isinstance(expr, Div) and isinstance(expr.top, Measure) and is_numeric(expr.bottom)
