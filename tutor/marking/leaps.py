"""A line that stands but skips more elementary steps than a problem with all steps asked for allows."""

from dataclasses import replace

from tutor.marking.deciding.state import Known
from tutor.marking.judging.aftermath import Judged
from tutor.marking.steps.count import ALLOWED, Jump, jump
from tutor.marking.verdict import Verdict

_WORDS = {2: "Two", 3: "three", 4: "four", 5: "five", 6: "six", 7: "seven", 8: "eight", 9: "nine"}


def leap_told(known: Known, judged: Judged) -> Judged:
    """Return the mark ``leaps`` in the place of ``follows`` where a line jumped too far.

    ``known`` is what was known before the line. Where the steps cannot be counted, nothing changes.
    """
    if judged.mark.verdict is not Verdict.FOLLOWS or judged.statement is None:
        return judged
    found = jump(known, judged.statement)
    if found is None:
        return judged
    return replace(judged, mark=replace(judged.mark, verdict=Verdict.LEAPS, message=_message(found)))


def _message(found: Jump) -> str:
    taken = _WORDS.get(found.steps, "many")
    first = found.first.partition(". ")[0].removesuffix(".")
    between = f"{first[:1].lower()}{first[1:]}"
    allowed = f"{_WORDS[ALLOWED]} steps in one line are fine; this one takes {taken}."
    return f"{allowed} Write a line between: {between}."
