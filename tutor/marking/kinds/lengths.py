"""Can these lengths make a triangle: the comparison written out, then yes or no."""

from dataclasses import dataclass
from fractions import Fraction
from typing import assert_never

from tutor.line.layout import layout
from tutor.line.reader import Unread, read
from tutor.line.tree import (
    Add,
    Bare,
    Chain,
    Num,
    Rel,
)
from tutor.line.writing import write_number, write_statement
from tutor.marking.hint_stage import Hint, HintStage
from tutor.marking.kinds.comparing import (
    Compared,
    Three,
    Trial,
    listed,
    read_comparison,
    taken_apart,
    three_of,
)
from tutor.marking.kinds.lines import Lines, small_progress, unread, whole_span
from tutor.marking.progress import Progress
from tutor.marking.slips.triangles import yes_slip
from tutor.marking.steps.model import WorkedLine
from tutor.marking.task import Task
from tutor.marking.verdict import Mark, Reason, Verdict
from tutor.quantity.units import Unit

_FIRST_COMPARE = "Write the comparison out first, then yes or no."
_THE_LONGEST = "Compare the two shorter lengths together with the longest one first."
_THE_OTHER = "The comparisons above say the other thing. Read them once more."


@dataclass(frozen=True)
class LengthsWorking(Lines[Task]):
    """The lines of one question about three lengths."""

    def marked(self, text: str) -> Mark:
        """Return the mark of one more line: a comparison, yes or no, or both on one line."""
        three = three_of(self.task)[0]
        if three is None:
            return unread("These lengths cannot be compared. Please tell your teacher.")
        rest, answer = taken_apart(text)
        before = self._compared(three)
        if rest:
            compared = read_comparison(rest, three, before)
            if isinstance(compared, Mark):
                return compared
            mark = _of_comparison(compared, three, whole_span(text))
            if answer is None or mark.verdict is Verdict.BREAKS:
                return mark
            before = [*before, compared]
        elif answer is None:
            return Mark(Verdict.NOTE)
        if answer is not None and any(taken_apart(line)[1] is answer for line in self.standing):
            return Mark(Verdict.RESTATES, read_as="yes" if answer else "no")
        return _of_answer(
            bool(answer), three, [trial for one in before for trial in one.trials], whole_span(text)
        )

    @property
    def progress(self) -> Progress:
        """Return how far the work is: finished when yes or no stands."""
        answered = any(taken_apart(text)[1] is not None for text in self.standing)
        return small_progress(self.lines, finished=answered)

    def _compared(self, three: Three) -> list[Compared]:
        """Return what the lines above compare; one that is false is a trial too, if it is not wrong."""
        found: list[Compared] = []
        for line in self.lines:
            if line.struck or not (line.mark.verdict.stands or line.mark.verdict is Verdict.NOTE):
                continue
            rest, _ = taken_apart(line.text)
            one = read_comparison(rest, three, found) if rest else None
            found += [one] if isinstance(one, Compared) else []
        return found


# -- what is said --------------------------------------------------------------------------------


def _of_comparison(compared: Compared, three: Three, span: tuple[int, int]) -> Mark:
    told = "" if compared.statement is None else write_statement(compared.statement)
    if compared.unequal:
        message = "The two sides are not equal. Work the sum out once more."
        return Mark(Verdict.BREAKS, Reason.NOT_TRUE, None, message, span, read_as=told)
    if not compared.true and not compared.trials:
        message = f"This is not true. Compare the lengths of the problem: {listed(three)}."
        return Mark(Verdict.BREAKS, Reason.NOT_TRUE, None, message, span, read_as=told)
    if not compared.true:
        return Mark(
            Verdict.NOTE,
            read_as=told,
            note="That is not true of these numbers. What does it tell: yes or no?",
        )
    if isinstance(compared.statement, Bare) or compared.trials:
        return Mark(Verdict.FOLLOWS, read_as=told)
    return Mark(Verdict.FOLLOWS, read_as=told, note="" if _only_equates(compared) else _not_these(three))


def _only_equates(compared: Compared) -> bool:
    """Tell whether a line works a sum out or changes a unit: ``4 + 6 = 10``, ``60 mm = 6 cm``."""
    return isinstance(compared.statement, Chain) and all(rel.equates for rel in compared.statement.rels)


def _not_these(three: Three) -> str:
    if len(three.units) > 1:
        return f"Compare {listed(three)}: write them in one unit first."
    return f"That is true. Compare the lengths of the problem: {listed(three)}."


def _of_answer(yes: bool, three: Three, trials: list[Trial], span: tuple[int, int]) -> Mark:
    told = "yes" if yes else "no"
    right = yes == three.meet
    earned = any(trial.of_the_longest if yes else not trial.reaches for trial in trials)
    if right and (earned or _all_pairs(trials)):
        return Mark(Verdict.FOLLOWS, read_as=told)
    if right or not trials:
        # Right or not, it does not come from what stands above: nothing is held against it yet,
        # and nothing is made of it either.
        return Mark(Verdict.NOTE, message=_THE_LONGEST if trials else _FIRST_COMPARE, span=span, read_as=told)
    longest = any(trial.of_the_longest for trial in trials)
    slip = yes_slip([_as_chain(trial) for trial in trials], longest, span) if yes else None
    if slip is not None:
        return Mark(Verdict.BREAKS, Reason.SLIP, slip.name, slip.message, slip.span, read_as=told)
    message = _THE_OTHER if longest or yes else _THE_LONGEST
    return Mark(Verdict.BREAKS, Reason.NOT_TRUE, None, message, span, read_as=told)


def _all_pairs(trials: list[Trial]) -> bool:
    return len({trial.third for trial in trials}) == 3 and all(trial.reaches for trial in trials)


def _as_chain(trial: Trial) -> Chain:
    first, second, third = (
        Num(size, write_number(size)) for size in (trial.first, trial.second, trial.third)
    )
    return Chain((Add((first, second)), third), (Rel.GT,))


def read_lengths(task: Task, text: str) -> tuple[tuple[str, ...], str]:
    """Return how a line is read as it is typed, or what is in the way."""
    rest, answer = taken_apart(text)
    said = () if answer is None else ("yes" if answer else "no",)
    found = read(rest.rstrip(" ?")) if rest else None
    if found is None:
        return said, ""
    if isinstance(found, Unread):
        return (), found.message
    return (*layout(found.statements[0]), *said), ""


# -- hints, the key --------------------------------------------------------------------------------


def lengths_hint(work: LengthsWorking, stage: HintStage) -> Hint | None:
    """Return the hint of one stage; None where the question is answered."""
    three = three_of(work.task)[0]
    if three is None or work.progress.finished:
        return None
    trials = [trial for one in work._compared(three) for trial in one.trials]
    compared = any(trial.of_the_longest for trial in trials)
    lines = lengths_solution(work.task)
    match stage:
        case HintStage.WHERE:
            where = "Read your comparison again" if compared else "Look for the longest of the three lengths"
            return Hint(stage, f"{where}: do the other two together reach further?")
        case HintStage.WHAT:
            what = (
                "Say yes if the two shorter ones are longer together than the longest one, and no if not."
                if compared
                else "Add the two shorter lengths and compare the sum with the longest one."
            )
            return Hint(stage, what)
        case HintStage.LINE:
            line = lines[-1] if compared else lines[-2]
            return Hint(stage, f"{line.sentence} The next line:", line.text)
        case _:
            assert_never(stage)


def lengths_solution(task: Task) -> tuple[WorkedLine, ...]:
    """Return the comparison and the answer; first the lengths in one unit, where they have several."""
    three = three_of(task)[0]
    if three is None:
        return ()
    unit = three.units[0] if three.units else None
    lines: list[WorkedLine] = []
    for size, shown in zip(three.sizes, three.shown, strict=True):
        if len(three.units) > 1 and _written(size, unit) != shown:
            lines.append(
                WorkedLine(f"{shown} = {_written(size, unit)}", "Write all lengths in one unit.", None)
            )
    short, middle, longest = three.ordered
    total = short + middle
    sign = ">" if total > longest else "=" if total == longest else "<"
    text = f"{_written(short, unit)} + {_written(middle, unit)} {sign} {_written(longest, unit)}"
    lines.append(WorkedLine(text, "Compare the two shorter lengths together with the longest one.", None))
    why = {">": "They reach further: there is a triangle.", "=": "They lie flat on it: there is no triangle."}
    lines.append(
        WorkedLine(
            "yes" if three.meet else "no", why.get(sign, "They do not reach: there is no triangle."), None
        )
    )
    return tuple(lines)


def _written(size: Fraction, unit: Unit | None) -> str:
    if unit is None:
        return write_number(size)
    return f"{write_number(size / (unit.factor * 1000))} {unit}"


def lengths_problems(task: Task) -> tuple[str, ...]:
    """Return what is wrong with three lengths, in sentences for the teacher."""
    return three_of(task)[1]
