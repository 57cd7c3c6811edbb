"""How far a piece of work is: the four steps, the units, whether it is finished."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum
from typing import Protocol

from tutor.line.meaning import Setting, UnitSystem
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Name, Rel, Statement
from tutor.line.walk import names_in
from tutor.marking.deciding.answers import answers_in
from tutor.marking.deciding.claim import Claim
from tutor.marking.deciding.compare import Overlap
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.rounding import is_as_asked, must_round
from tutor.marking.deciding.state import Answer, Known, Spec, settings
from tutor.marking.deciding.units_check import units_of, worst
from tutor.marking.labelling import labels_of, missing_labels
from tutor.marking.verdict import Mark, Step, UnitsState, Verdict


class MarkedLine(Protocol):
    """What is asked of a line of work here."""

    @property
    def struck(self) -> bool:
        """Tell whether the line is struck out."""
        ...

    @property
    def mark(self) -> Mark:
        """Return what is said of it."""
        ...

    @property
    def statement(self) -> Statement | None:
        """Return it as it was read, None where it could not be."""
        ...

    @property
    def step(self) -> Step | None:
        """Return the step that it belongs to."""
        ...


class StepState(Enum):
    """Where a step stands."""

    NEXT = "next"
    OPEN = "open"
    STANDS = "stands"
    NOT_ASKED = "not asked"


@dataclass(frozen=True, slots=True)
class Progress:
    """The state of a piece of work.

    ``finished``: everything to find stands, worked out in full (None: nothing to find).
    ``complete``: finished, and every step and the check that are asked for stand. ``labels``: name and
    value as typed so far. ``answer_checked``: a true line after the answer puts it back. ``found``:
    the names to find, as the task writes them, whose answer stands.
    """

    steps: tuple[tuple[Step, StepState], ...]
    finished: bool | None
    complete: bool
    units: UnitsState | None
    first_wrong: int | None
    labels: tuple[tuple[str, str], ...]
    missing_labels: tuple[str, ...]
    answer_checked: bool
    found: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Reached:
    """What of the state of a piece of work is told where nobody works on it: see ``Progress``."""

    finished: bool | None
    units: UnitsState | None
    first_wrong: int | None


def reached(known: Known, lines: Sequence[MarkedLine]) -> Reached:
    """Return what is reached after the last line."""
    wrong = next((at for at, line in enumerate(lines) if line.mark.verdict is Verdict.BREAKS), None)
    return Reached(_finished(known), _units(known), wrong)


def progress_of(known: Known, lines: Sequence[MarkedLine]) -> Progress:
    """Return the state of the work after its last line."""
    context = known.context
    so_far = reached(known, lines)
    finished, units = so_far.finished, so_far.units
    standing = [line for line in lines if not line.struck and line.mark.verdict.stands]
    labels = labels_of(context, [line.statement for line in standing if line.statement is not None])
    missing = missing_labels(context, labels)
    done = {
        Step.FORMULA: any(line.step is Step.FORMULA for line in standing),
        Step.LABEL: not missing,
        Step.SUBSTITUTE: bool(finished),
        Step.UNITS: units in (UnitsState.RIGHT, UnitsState.EQUIVALENT),
    }
    asked = {
        Step.FORMULA: bool(context.task.formulas),
        Step.LABEL: bool(context.task.givens),
        Step.SUBSTITUTE: bool(context.find) or context.from_first_line,
        Step.UNITS: bool(context.asked_units),
    }
    task = context.task
    needed = set(Step) if task.every_step else {Step.SUBSTITUTE, Step.UNITS, *task.steps}
    steps = _steps(asked, done, needed)
    checked = _checked(known, standing)
    complete = bool(finished) and all(done[step] for step in Step if asked[step] and step in needed)
    complete = complete and (checked or not task.check)
    wrong = so_far.first_wrong
    sought = zip(task.find, context.find, strict=True)
    found = tuple(written for written, name in sought if known.ended or _found(known, name))
    return Progress(steps, finished, complete, units, wrong, tuple(labels.items()), missing, checked, found)


def _steps(
    asked: dict[Step, bool], done: dict[Step, bool], needed: set[Step]
) -> tuple[tuple[Step, StepState], ...]:
    waiting = [step for step in Step if asked[step] and not done[step]]
    if done[Step.SUBSTITUTE]:
        # The unknown is found: the unit comes next, not the labels that nobody insists on.
        waiting = [step for step in waiting if step in needed]
    following = waiting[0] if waiting else None
    made: list[tuple[Step, StepState]] = []
    for step in Step:
        if not asked[step]:
            state = StepState.NOT_ASKED
        elif done[step]:
            state = StepState.STANDS
        else:
            state = StepState.NEXT if step is following else StepState.OPEN
        made.append((step, state))
    return tuple(made)


def _finished(known: Known) -> bool | None:
    if not known.context.find:
        return None
    if known.ended:
        return True
    return all(_found(known, name) for name in known.context.find)


def _found(known: Known, name: str) -> bool:
    answers = [
        answer
        for answer in known.answers
        if answer.stands and answer.name == name and answer.claims_something
    ]
    as_asked = is_as_asked(known, answers[-1]) if answers and must_round(known, name) else None
    if as_asked is not None:
        return as_asked
    if any(answer.whole for answer in answers):
        return True
    if not answers:
        return _made_the_subject(known, name)
    if known.base is None:
        return False
    base, together = known.base, Claim(tuple(case for answer in answers for case in answer.claim.cases))
    # A branch such as r = 5 holds no π any more: it may have come from 78.5 = πr² with another one.
    last = answers[-1]
    stands = any(line is last.statement for _, line in known.above)
    others = (way.pi for way in settings(known, last.statement)) if stands else ()
    ways = dict.fromkeys((last.setting, *(replace(last.setting, pi=pi) for pi in others)))
    return any(_gives_all(base, together, setting) for setting in ways)


def _gives_all(base: Spec, claim: Claim, setting: Setting) -> bool:
    try:
        return base.ground(setting).outcome(claim).overlap is Overlap.SAME
    except (NotExact, DividedByZero):
        return False


def _made_the_subject(known: Known, name: str) -> bool:
    """``h = 2A/b`` below ``A = bh/2``: an equation in letters is solved for one of them."""
    if not known.context.from_first_line or len(known.above) < 2 or len(known.context.find) != 1:
        return False
    first, last = known.above[0][1], known.above[-1][1]
    return _is_subject(last, name) and isinstance(first, Chain) and not _is_subject(first, name)


def _is_subject(statement: Statement, name: str) -> bool:
    """Tell whether a name stands alone on one side and only there, with letters on the other."""
    if not isinstance(statement, Chain) or not all(rel is Rel.EQ for rel in statement.rels):
        return False
    alone = statement.sides[0] if isinstance(statement.sides[0], Name) else statement.sides[-1]
    others = [side for side in statement.sides if side is not alone]
    if not isinstance(alone, Name) or alone.name != name or len(others) != len(statement.sides) - 1:
        return False
    return name not in names_in(*others) and all(names_in(side) for side in others)


def _units(known: Known) -> UnitsState | None:
    states: list[UnitsState] = []
    for name in known.context.find:
        answer = _last(known.answers, name)
        if answer is None:
            continue
        asked = known.context.asked_unit(name)
        system = known.context.systems[0] if known.context.systems else UnitSystem()
        state = units_of(answer.value, asked, system, right_size=answer.right_size)
        if state is not None:
            states.append(state)
    return worst(states) if states else None


def _last(answers: tuple[Answer, ...], name: str) -> Answer | None:
    """The last answer for a name; a missing unit does not take back one that was written."""
    return next((answer for answer in reversed(answers) if answer.name == name), None)


def _checked(known: Known, standing: Sequence[MarkedLine]) -> bool:
    """A true line without unknowns, after the last answer."""
    answered = False
    for line in standing:
        if line.statement is None:
            continue
        if any(name in known.context.find for name, _ in answers_in(line.statement)):
            answered = True
        elif answered and isinstance(line.statement, Chain) and not statement_names(line.statement):
            return True
    return False
