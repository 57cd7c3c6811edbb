"""The kinds of problem: which entry makes one, which entries belong to it, what must not be missing."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum

from tutor.lesson.keywords import Keyword
from tutor.lesson.likely import likely_find
from tutor.lesson.model import Fault
from tutor.lesson.outline import Card
from tutor.lesson.source import Source


class Kind(Enum):
    """What is to be done in a problem."""

    SOLVE = "solve"
    TRIANGLE = "triangle"
    MANY = "many"
    DRAW = "draw"
    CHOOSE = "choose"
    WRITE = "write"
    SHOW = "show"
    WORD = "word"


_MADE_BY = {
    Keyword.TRIANGLE: Kind.TRIANGLE,
    Keyword.MANY: Kind.MANY,
    Keyword.DRAW: Kind.DRAW,
    Keyword.WORD: Kind.WORD,
    Keyword.CHOOSE: Kind.CHOOSE,
    Keyword.WRITE: Kind.WRITE,
    Keyword.SHOW: Kind.SHOW,
}

# Entries that belong to one kind alone tell it where the entry that makes it was forgotten.
_TOLD_BY = {
    Keyword.MEANS: Kind.WORD,
    Keyword.ALSO: Kind.WORD,
    Keyword.NEAR: Kind.WORD,
    Keyword.WITHIN: Kind.DRAW,
    Keyword.REASON: Kind.SHOW,
    Keyword.ANSWER: Kind.CHOOSE,
}

_K = Keyword
_EVERYWHERE = frozenset({_K.PROBLEM, _K.MATTERS, _K.VARY, _K.WHERE, _K.ASK, _K.FIGURE})
_LINES = frozenset({_K.PI, _K.EVERY, _K.STEPS, _K.NAMES, _K.FORMULA, _K.EQUATION, _K.GIVEN})

_ALLOWED: dict[Kind, frozenset[Keyword]] = {
    Kind.SOLVE: _EVERYWHERE | _LINES | {_K.PIECE, _K.PART, _K.FIND, _K.ROUND, _K.CHECK},
    Kind.TRIANGLE: _EVERYWHERE | {_K.TRIANGLE, _K.EVERY, _K.STEPS, _K.GIVEN},
    Kind.MANY: _EVERYWHERE | {_K.MANY, _K.GIVEN},
    Kind.DRAW: _EVERYWHERE | {_K.DRAW, _K.GIVEN, _K.FIND, _K.WITHIN},
    Kind.CHOOSE: _EVERYWHERE | {_K.CHOOSE, _K.ANSWER, _K.GIVEN},
    Kind.WRITE: _EVERYWHERE | _LINES | {_K.WRITE},
    Kind.SHOW: _EVERYWHERE | _LINES | {_K.SHOW, _K.REASON},
    Kind.WORD: _EVERYWHERE | {_K.WORD, _K.MEANS, _K.ALSO, _K.NEAR, _K.CHOOSE},
}

# Beside `ask`, which a problem about a word does without.
_NEEDED: dict[Kind, tuple[Keyword, ...]] = {
    Kind.SOLVE: (_K.FIND,),
    Kind.TRIANGLE: (),
    Kind.MANY: (_K.GIVEN,),
    Kind.DRAW: (_K.DRAW, _K.GIVEN, _K.FIND),
    Kind.CHOOSE: (_K.CHOOSE, _K.ANSWER),
    Kind.WRITE: (_K.FORMULA,),
    Kind.SHOW: (_K.SHOW, _K.FORMULA),
    Kind.WORD: (_K.WORD, _K.MEANS),
}

_WHY_NEEDED = {
    _K.ASK: "This problem asks nothing: “ask” is missing.",
    _K.FIND: "This problem does not say what to work out: “find” is missing.",
    _K.GIVEN: "This triangle has no sides and no angles: “given” is missing.",
    _K.ANSWER: "Nothing says which choice is right: “answer” is missing.",
    _K.FORMULA: "There is no formula here: “formula” is missing.",
    _K.MEANS: "Nothing says what the word means: “means” is missing.",
    _K.WORD: "Nothing says which word is asked for: “word” is missing.",
    _K.CHOOSE: "There is nothing to choose among: “choose” is missing.",
    _K.DRAW: "Nothing says what is drawn: “draw” is missing.",
    _K.SHOW: "Nothing says what is to be shown: “show” is missing.",
}


# How an equation may end that no number, or every number, solves: the one answer of such a kind that
# its teacher names, so that it is no slip.
ENDS = ("no solution", "all numbers")

# Kinds whose answer the program finds, and what is written there in its place.
_WORKED_OUT = frozenset({Kind.SOLVE, Kind.TRIANGLE, Kind.MANY, Kind.DRAW, Kind.WRITE})


def kind_of(card: Card) -> Kind:
    """Return the kind that a problem's entries make it."""
    seen = card.seen
    if Keyword.FIND in seen and (Keyword.FORMULA in seen or Keyword.EQUATION in seen):
        return Kind.SOLVE
    if Keyword.MEANS in seen:  # before `choose`, which a word may have beside it
        return Kind.WORD
    made = (kind for keyword, kind in _MADE_BY.items() if keyword in seen)
    told = (kind for keyword, kind in _TOLD_BY.items() if keyword in seen)
    solved = Keyword.FIND in seen or Keyword.EQUATION in seen
    return next(made, Kind.SOLVE if solved else next(told, Kind.SOLVE))


def stated_end(card: Card) -> str:
    """Return which of ``ENDS`` an equation has by its teacher's word, "" where nothing is said."""
    stated = card.one(Keyword.ANSWER)
    text = "" if stated is None else stated.first.text.casefold()
    return text if text in ENDS and Keyword.EQUATION in card.seen else ""


def misfits(source: Source, card: Card, kind: Kind) -> Iterator[Fault]:
    """Yield the entries that have no place in a problem of this kind, and those that are missing."""
    makers = [keyword for keyword in _MADE_BY if keyword in card.seen and keyword not in _ALLOWED[kind]]
    for keyword in makers:
        yield source.fault(
            card.seen[keyword].offset,
            f"“{_said(kind)}” stands in this problem already. One problem asks for one kind of work: "
            "begin another.",
            Keyword.PROBLEM.example,
        )
    for keyword, entry in card.seen.items():
        others = any(keyword in _ALLOWED[_MADE_BY[maker]] for maker in makers)
        if keyword in _ALLOWED[kind] or keyword in makers or others:
            continue
        if keyword is Keyword.ANSWER and kind is Kind.SOLVE and stated_end(card):
            continue
        if keyword is Keyword.ANSWER and kind in _WORKED_OUT:
            message = "No answer is written here: it is worked out from what is given."
            yield source.fault(entry.offset, message)
            continue
        message = f"“{keyword.value}” has no place in a problem with “{_said(kind)}”. Take it away."
        yield source.fault(entry.offset, message)
    yield from _missing(source, card, kind)


def _said(kind: Kind) -> str:
    return Keyword.FIND.value if kind is Kind.SOLVE else kind.value


def _missing(source: Source, card: Card, kind: Kind) -> Iterator[Fault]:
    at = card.head.offset if card.head else 0
    needed = _NEEDED[kind] if kind is Kind.WORD else (Keyword.ASK, *_NEEDED[kind])
    for keyword in needed:
        if keyword in card.seen or keyword in card.unread:
            continue
        if keyword is not Keyword.ASK or Keyword.PART not in card.seen:
            example = likely_find(card) if keyword is Keyword.FIND else keyword.example
            if kind in (Kind.DRAW, Kind.MANY) and keyword in (Keyword.GIVEN, Keyword.FIND):
                example = keyword.written("c = 6 cm" if keyword is Keyword.GIVEN else "C in °")
            yield source.fault(at, _WHY_NEEDED[keyword], example)
