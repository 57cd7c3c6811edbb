"""The answer to a comparison: can these lengths make a triangle, yes or no."""

from dataclasses import replace

from tutor.line.tree import Chain, Phrase, Said
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.lengths import comparisons, tests_the_longest, too_short
from tutor.marking.deciding.state import Known
from tutor.marking.judging.aftermath import Judged, broken, stands
from tutor.marking.slips.triangles import yes_slip
from tutor.marking.telling.reasons import Why
from tutor.marking.verdict import Mark, Reason, Verdict


def yes_or_no(known: Known, statement: Said, index: int) -> Judged:
    """Mark yes or no against the comparisons above."""
    lines = [line for _, line in known.above if isinstance(line, Chain) and not statement_names(line)]
    tests = comparisons(lines)
    untrue = [line for _, line in known.broken if isinstance(line, Chain) and not statement_names(line)]
    compared = [*tests, *untrue]
    if not compared and known.context.find:
        return Judged(Mark(Verdict.NOTE), known, statement)  # it answers "Does −2 fit?"
    said_no = statement.phrase is Phrase.NO
    longest = any(tests_the_longest(test) for test in tests)
    if tests and said_no == any(too_short(test) for test in tests):
        if said_no or longest:
            return stands(replace(known, ended=True), statement, index, Verdict.FOLLOWS, None)
        message = "Compare the two shorter lengths together with the longest one first."
    elif compared:
        message = "The comparisons above say the other thing. Read them once more."
    else:
        message = "Write the comparison out first, then yes or no."
    slip = None if said_no else yes_slip(compared, longest, statement.span)
    if slip is not None:
        return broken(known, statement, index, Why(Reason.SLIP, slip.message, slip.span, slip=slip.name))
    return broken(known, statement, index, Why(Reason.NOT_TRUE, message, statement.span))
