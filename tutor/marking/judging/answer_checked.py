"""An answer after a step that may have gained a solution."""

from dataclasses import replace

from tutor.line.poly import NotExact
from tutor.line.tree import Statement
from tutor.marking.deciding import slow
from tutor.marking.deciding.answers import answer_of
from tutor.marking.deciding.claim import claim_of
from tutor.marking.deciding.follow import Found, How
from tutor.marking.deciding.state import Known


def answer_checked(known: Known, statement: Statement, found: Found) -> Found:
    """An answer must have exactly the right solutions, even after a step that may gain some."""
    if (
        found.how is not How.FOLLOWS
        or found.spec is None
        or not found.spec.gained
        or answer_of(statement) is None
    ):
        return found
    assert known.base is not None
    try:
        outcome = known.base.ground(found.setting).outcome(claim_of(statement, found.setting))
    except NotExact:
        return slow.search(known, statement, Found(How.UNDECIDED, found.setting))
    if outcome.overlap.value == "same":
        return replace(found, spec=known.base, index=outcome.index)
    return Found(How.BREAKS, found.setting, known.base, outcome.index, outcome.overlap)
