"""Lines that name quantities in words: ``Area of triangle = ½ × base × height``."""

import re
from collections.abc import Callable
from dataclasses import replace

from tutor.line.advice import unknown_word
from tutor.line.spoken import is_spoken
from tutor.line.tree import Bare, Chain, Name, Percent, Rel, Statement
from tutor.line.walk import every, names_in, sides
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.state import Known, settings
from tutor.marking.judging.aftermath import Judged, broken
from tutor.marking.telling.reasons import why_links_break
from tutor.marking.verdict import Mark, Reason, Verdict

BringsIn = Callable[[Known, Statement, int], Judged | None]


def unknown_words(known: Known, statement: Statement) -> frozenset[str]:
    """Return the names of a line that are words and that nothing above speaks of."""
    names = known.context.names.known
    return frozenset(name for name in statement_names(statement) - names if is_spoken(name))


def says_what_a_letter_is(known: Known, statement: Statement) -> bool:
    """``h = height``, ``A = area`` in front of the work: nothing is claimed, a letter gets its meaning."""
    if not isinstance(statement, Chain) or len(statement.sides) != 2 or statement.rels[0] is not Rel.EQ:
        return False
    letter, word = statement.sides
    if not isinstance(letter, Name) or not isinstance(word, Name) or len(letter.name) != 1:
        return False
    if word.name == letter.name:
        return word.span[1] - word.span[0] > 2  # the word was taken for its letter
    return is_spoken(word.name) and word.name not in known.context.names.known


def in_words(known: Known, statement: Statement, index: int, ways: tuple[BringsIn, ...]) -> Judged:
    """Mark a line with such words in it: it may bring them in; else it is kept, and not judged.

    What it says with numbers alone has to be true all the same.
    """
    for way in ways:
        judged = way(known, statement, index)
        if judged is not None and judged.mark.verdict.stands:
            return judged
    untrue = why_links_break(known, statement, settings(known, statement)[0])
    if untrue is not None:
        return broken(known, statement, index, untrue)
    unknown = unknown_words(known, statement)
    if len(unknown) == 1 and min(unknown).isalpha():
        return _not_known(known, statement, min(unknown))
    after = known
    if isinstance(statement, Chain):
        after = replace(known, above=(*known.above, (index, statement)))
    return Judged(Mark(Verdict.NOTE), after, statement)


def _not_known(known: Known, statement: Statement, word: str) -> Judged:
    """One word that nobody told of is most likely mistyped: ``lenght = 12``."""
    nodes = (node for side in sides(statement) for node in every(side))
    span = next(node.span for node in nodes if isinstance(node, Name) and node.name == word)
    return Judged(Mark(Verdict.UNREAD, Reason.SYNTAX, None, unknown_word(word), span), known)


def is_spoken_of(known: Known) -> bool:
    """Tell whether a premise gives what is asked for: ``A = π × radius²`` is no word's meaning.

    ``18 − q = number of dimes`` and ``x = number of hours`` are.
    """
    premises = known.base.premises if known.base is not None else ()
    return any(
        isinstance(premise, Chain)
        and any(isinstance(side, Name) and side.name in known.context.find for side in premise.sides)
        and not all(isinstance(side, Name) for side in premise.sides)
        for premise in premises
    )


def without_words(known: Known, statement: Statement) -> Statement:
    """Return a chain that goes on without the sides that nothing is known of: ``= ½ × 10 × 7``."""
    unknown = unknown_words(known, statement)
    if not unknown or not isinstance(statement, Chain):
        return statement
    kept = [at for at, side in enumerate(statement.sides) if not names_in(side) & unknown]
    if len(kept) == len(statement.sides) or not kept:
        return statement
    if len(kept) == 1:
        return Bare(statement.sides[kept[0]], statement.span)
    sides = tuple(statement.sides[at] for at in kept)
    rels = tuple(statement.rels[at - 1] for at in kept[1:])
    return Chain(sides, rels, statement.span)


def with_plain_percents(statement: Statement) -> Statement:
    """Return ``Profit % = 60/400 × 100 = 15%`` with 15 at its end: the sign stands for the words then."""
    if not isinstance(statement, Chain) or not isinstance(statement.sides[0], Name):
        return statement
    if _PERCENT.search(statement.sides[0].name) is None:
        return statement
    kept = list(statement.sides)
    for at in range(2, len(kept)):
        side = kept[at]
        if isinstance(side, Percent) and not any(isinstance(node, Percent) for node in every(kept[at - 1])):
            kept[at] = replace(side.inner, span=side.span)
    return replace(statement, sides=tuple(kept))


_PERCENT = re.compile("%|percent", re.IGNORECASE)


def labelled(text: str, statement: Statement) -> Statement | None:
    """Return ``Triangle: A = 9`` with an A of its own, None where no label stands in front."""
    label = _LABEL.match(text)
    if label is None or not isinstance(statement, Chain) or not isinstance(statement.sides[0], Name):
        return None
    head = statement.sides[0]
    if head.name != label[2]:
        return None
    own = Name(f"{head.name} ({label[1].lower()})", head.span)
    return replace(statement, sides=(own, *statement.sides[1:]))


_LABEL = re.compile(r"\s*([A-Z][a-z]+(?: [a-z]+)*(?: \d)?)\s*:\s*([A-Z])\s*[=≈]")
