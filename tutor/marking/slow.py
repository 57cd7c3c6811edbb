"""The slower decision: sympy in a child process, for what the exact one cannot hold.

The child is started when it is first needed, so nothing waits for sympy to load; it works
on bounded input, and a clock ends it if it does not come back. What it cannot decide stays
undecided: never wrong.
"""

from tutor.line.tree import Chain, Expr, Rel, Statement
from tutor.line.walk import statement_names
from tutor.marking.compare import Overlap
from tutor.marking.follow import Found, How
from tutor.marking.slow_process import Question, ask
from tutor.marking.state import Known


def search(known: Known, statement: Statement, undecided: Found) -> Found:
    """Compare one equation in one unknown with the premise and the lines that stand."""
    base = known.base
    if base is None or len(base.premises) != 1 or not isinstance(statement, Chain):
        return undecided
    names = statement_names(statement)
    if len(names) > 1:
        return undecided
    unsure = False
    lines = [*base.premises, *(line for _, line in reversed(known.above))]
    for at, line in enumerate(dict.fromkeys(lines)):
        if not isinstance(line, Chain) or statement_names(line) | names != statement_names(base.premises[0]):
            continue
        positive = bool(names & base.positive)
        told = ask(Question(line.sides, line.rels, statement.sides, statement.rels, positive))
        if told is Overlap.SAME:
            return Found(How.FOLLOWS, undecided.setting, base if at == 0 else None, 0, Overlap.SAME)
        unsure = unsure or told is None
    return undecided if unsure else Found(How.BREAKS, undecided.setting, base, 0, Overlap.OTHER)


def keeps_value(before: Expr, after: Expr) -> How | None:
    """Tell whether two expressions have the same value wherever both have one."""
    told = ask(Question((before,), (), (after,), (Rel.EQ,), False))
    if told is None:
        return None
    return How.FOLLOWS if told is Overlap.SAME else How.BREAKS
