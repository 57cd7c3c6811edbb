"""The slower decision: sympy in a child process, for what the exact one cannot hold.

The child is started when it is first needed, so nothing waits for sympy to load; it works
on bounded input, and a clock ends it if it does not come back. What it cannot decide stays
undecided: never wrong.
"""

from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Expr, Phrase, Rel, Said, Statement
from tutor.line.walk import statement_names
from tutor.marking.deciding.answers import answers_in
from tutor.marking.deciding.claim import split_signs
from tutor.marking.deciding.compare import Overlap
from tutor.marking.deciding.follow import Found, How
from tutor.marking.deciding.gains import legal_gain
from tutor.marking.deciding.refuted import refuted
from tutor.marking.deciding.sizes import within_school_size
from tutor.marking.deciding.slow_process import Equation, Question, ask
from tutor.marking.deciding.state import Known


def search(known: Known, statement: Statement, undecided: Found) -> Found:
    """Compare equations in one unknown with the premise and the lines that stand."""
    specs = () if known.base is None else (known.base, *known.more)
    if specs and all(refuted(spec, statement, undecided.setting) for spec in specs):
        return Found(How.BREAKS, undecided.setting, known.base)
    base, new = known.base, _equations(statement)
    if base is None or len(base.premises) != 1 or new is None:
        return undecided
    names = statement_names(base.premises[0])
    if len(names) != 1 or (new and statement_names(statement) != names):
        return undecided
    setting = undecided.setting
    told: Overlap | None = None
    # An answer has to solve the first line itself; another line may go on from any above.
    others = [] if answers_in(statement) else [line for _, line in reversed(known.above)]
    for line in dict.fromkeys((base.premises[0], *others)):
        old = _equations(line)
        if old is None:
            continue
        answer = ask(Question(old, new, bool(names & base.positive)))
        if answer is Overlap.SAME:
            return Found(How.FOLLOWS, setting, base, 0, Overlap.SAME)
        if line is base.premises[0]:
            told = answer
    gained = told is Overlap.MORE and not answers_in(statement)
    if gained and _is_legal(known, statement, undecided):
        return Found(How.GAINS, setting, base, 0, Overlap.MORE)
    return undecided if told is None or gained else Found(How.BREAKS, setting, base, 0, told)


def _is_legal(known: Known, statement: Statement, undecided: Found) -> bool:
    try:
        return legal_gain(known, statement, undecided.setting)
    except (NotExact, DividedByZero):
        return False


def _equations(statement: Statement) -> tuple[Equation, ...] | None:
    """Return the equations that a line joins by "or" (none: no solution), None where it is something else."""
    if isinstance(statement, Said):
        return () if statement.phrase is Phrase.NO_SOLUTION else None
    parts = split_signs(statement)
    made = [part.sides for part in parts if isinstance(part, Chain) and part.rels == (Rel.EQ,)]
    small = all(within_school_size(side, solved=True) for equation in made for side in equation)
    return tuple(made) if small and len(made) == len(parts) else None


def keeps_value(before: Expr, after: Expr) -> How | None:
    """Tell whether two expressions have the same value wherever both have one."""
    if not (within_school_size(before, solved=False) and within_school_size(after, solved=False)):
        return None
    told = ask(Question(((before,),), ((after,),), False))
    if told is None:
        return None
    return How.FOLLOWS if told is Overlap.SAME else How.BREAKS
