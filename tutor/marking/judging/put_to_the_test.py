"""What becomes of values that have to be put in: a test that fails, a value that is crossed out in words.

Below ``√(x + 6) = x`` squared, ``x = 3 or x = −2`` is put to the test. ``√(−2 + 6) = −2`` fails and says so
rightly; ``x = 3, x = −2 (extraneous)`` gives 3 alone.
"""

import re
from collections.abc import Iterator
from dataclasses import replace

from tutor.line.keys import statement_key
from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.printed import REJECTED
from tutor.line.tree import Chain, Expr, Joined, Rel, Statement
from tutor.line.walk import statement_names
from tutor.marking.deciding.answers import answer_of
from tutor.marking.deciding.claim import split_signs
from tutor.marking.deciding.follow import How, search
from tutor.marking.deciding.plainer import with_numbers
from tutor.marking.deciding.state import Known, settings
from tutor.marking.judging.aftermath import Judged, stands
from tutor.marking.verdict import Verdict

_VALUE = re.compile(r"[-−–]?\s?\d[\d./]*(?=\s*$)")


def fails_the_test(known: Known, statement: Statement) -> bool:
    """Tell whether a false line is the first line with a value in it that was found and is no solution."""
    if known.base is None or not isinstance(statement, Chain) or statement.rels != (Rel.EQ,):
        return False
    setting = settings(known, statement)[0]
    premises = [line for line in known.base.premises if isinstance(line, Chain) and line.rels == (Rel.EQ,)]
    return any(
        _is_tested(with_numbers(premise, {name: value}), statement, setting)
        for name, value in _candidates(known)
        for premise in premises
        if statement_names(premise) == {name}
    )


def _candidates(known: Known) -> Iterator[tuple[str, Expr]]:
    """Yield the values of the last line that gave some."""
    for _, line in reversed(known.above):
        if answer_of(line) is None:
            continue
        for part in split_signs(line):
            told = answer_of(part)
            if told is not None:
                yield told[0], told[1][-1]
        return


def _is_tested(test: Statement, line: Chain, setting: Setting) -> bool:
    """The sides of the line are worth what the sides of the test are, and these differ."""
    assert isinstance(test, Chain)
    try:
        old = [value_of(side, setting) for side in test.sides]
        new = [value_of(side, setting) for side in line.sides]
    except DividedByZero:
        return statement_key(test) == statement_key(line)
    except NotExact:
        return False
    return not old[0].same(old[1]) and all(one.same(other) for one, other in zip(old, new, strict=True))


def without_rejected(known: Known, text: str, statement: Statement, index: int) -> Judged | None:
    """Return the mark of ``x = 3, x = −2 (extraneous)``: what is left stands alone, None for any other line.

    What is crossed out must have come from a step that may gain a solution.
    """
    remark = REJECTED.search(text)
    if remark is None or known.base is None or not isinstance(statement, Joined):
        return None
    gone = _meant(text, remark, statement)
    rest = tuple(part for part in statement.parts if part is not gone)
    gained = tuple(spec for spec in known.more if spec.gained)
    if gone is None or not rest or not gained or search(known, statement, gained).how is not How.FOLLOWS:
        return None
    left: Statement = rest[0] if len(rest) == 1 else replace(statement, parts=rest)
    found = search(known, left, (known.base,))
    return stands(known, left, index, Verdict.FOLLOWS, found) if found.how is How.FOLLOWS else None


def _meant(text: str, remark: re.Match[str], statement: Joined) -> Statement | None:
    """Return the part that a remark speaks of: the value it names, else the part before it."""
    named = _VALUE.search(remark[0])
    if named is None:
        return next((part for part in reversed(statement.parts) if part.span[1] <= remark.start()), None)
    number = re.sub(r"[\s–−]", lambda sign: "" if sign[0].isspace() else "-", named[0])
    for part in statement.parts:
        written = re.sub(r"[\s–−]", lambda sign: "" if sign[0].isspace() else "-", text[slice(*part.span)])
        if written.partition("=")[2] == number:
            return part
    return None
