"""Choose and name: which of the options a line means, and whether they fit."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from typing import assert_never

from tutor.marking.hint_stage import Hint, HintStage
from tutor.marking.kinds.lines import Lines, end_span, small_progress, unread, whole_span
from tutor.marking.kinds.phrasing import cut, folded, single, tight, trimmed, without_opening
from tutor.marking.progress import Progress
from tutor.marking.steps.model import WorkedLine
from tutor.marking.task import ChoiceTask
from tutor.marking.verdict import Mark, Reason, Verdict

MOST_OPTIONS = 12
LONGEST_OPTION = 60

_LABELLED = re.compile(r"\(?([A-Za-z])\s*[).:]\s*(.*)|([A-Za-z])\s+[-–—]?\s*(\S.*)")
_COMMA = re.compile(r"\s*[,;&+]\s*")
_AND = re.compile(r"\s+(?:and|or)\s+|^(?:and|or)\s+", re.IGNORECASE)
_SHORT_LIST = 64


def label(at: int) -> str:
    """Return the letter of an option."""
    return chr(ord("A") + at)


@dataclass(frozen=True)
class ChoiceWorking(Lines[ChoiceTask]):
    """The lines of one choice."""

    def marked(self, text: str) -> Mark:
        """Return the mark of one more line: every way to read it is tried, and one that fits is enough."""
        task = self.task
        ways = readings(task, text)
        if not ways:
            return unread(_unknown(task, text), end_span(text))
        fitting, before = _fitting(task), self._chosen()
        right = [way for way in ways if way <= fitting]
        if not right:
            return Mark(
                Verdict.BREAKS,
                Reason.NOT_TRUE,
                None,
                _wrong(task, ways[0], fitting),
                whole_span(text),
                read_as=_told(task, ways[0]),
            )
        way = max(right, key=len)
        verdict = Verdict.RESTATES if way <= before else Verdict.FOLLOWS
        note = "" if before | way == fitting else "This fits. Which of the others fit too?"
        return Mark(verdict, read_as=_told(task, way), note=note)

    @property
    def progress(self) -> Progress:
        """Return how far the work is: finished when all that fit are named."""
        return small_progress(self.lines, finished=self._chosen() == _fitting(self.task))

    def _chosen(self) -> frozenset[int]:
        fitting = _fitting(self.task)
        named = [way for text in self.standing for way in readings(self.task, text) if way <= fitting]
        return frozenset().union(*named)


# -- reading -----------------------------------------------------------------------------------


def readings(task: ChoiceTask, text: str) -> tuple[frozenset[int], ...]:
    """Return the sets of options that a line can mean, the likeliest first; () where it means none."""
    whole = trimmed(text)
    found: list[frozenset[int]] = []
    for words in dict.fromkeys((whole, without_opening(whole))):
        for way in (*_several(task, words), *_letters(task, words)):
            if way not in found:
                found.append(way)
    return tuple(found)


def _several(task: ChoiceTask, words: str) -> Iterator[frozenset[int]]:
    whole = _one(task, words)
    if whole:
        yield from (frozenset((at,)) for at in whole)
        return
    chosen: set[int] = set()
    for piece in _COMMA.split(words):
        if not piece:
            continue
        named = _joined_by_and(task, piece)
        if named is None:
            return
        chosen |= named
    if chosen:
        yield frozenset(chosen)


def _joined_by_and(task: ChoiceTask, piece: str) -> set[int] | None:
    """Return the options that a piece names; an option may have an "and" in it itself."""
    words = _AND.split(piece)
    chosen: set[int] = set()
    start = 0
    while start < len(words):
        if not words[start]:
            start += 1
            continue
        for end in range(min(len(words), start + 4), start, -1):
            found = _one(task, " and ".join(words[start:end]))
            if found:
                chosen.add(found[0])
                start = end
                break
        else:
            return None
    return chosen


def _one(task: ChoiceTask, words: str) -> tuple[int, ...]:
    """Return the options that some words mean: by their text or by their letter."""
    found = [*_by_text(task, words), *_by_letter(task, words)]
    if not found and (both := _LABELLED.fullmatch(words)) is not None:
        # "B) square": the letter and the words, if they mean the same.
        letter, rest = both[1] or both[3], both[2] if both[1] else both[4]
        at = _by_letter(task, letter)
        found = [one for one in at if not rest or one in _by_text(task, rest)]
    return tuple(dict.fromkeys(found))


def _by_letter(task: ChoiceTask, words: str) -> list[int]:
    bare = words.strip("()[]. ")
    if len(bare) != 1 or not bare.isascii() or not bare.isalpha():
        return []
    at = ord(bare.upper()) - ord("A")
    return [at] if at < len(task.options) else []


def _by_text(task: ChoiceTask, words: str) -> list[int]:
    """Return the option with this text; case, spaces, article and plural matter only where two are alike."""
    for same in (str.strip, tight, folded, single):
        wanted = same(words)
        found = [at for at, option in enumerate(task.options) if wanted and same(option) == wanted]
        if found:
            return found[:1]
    number = _count(words)
    return [at for at, option in enumerate(task.options) if number and folded(option) == number][:1]


_COUNTS = {
    "0": "none",
    "no": "none",
    "zero": "none",
    "1": "one",
    "2": "two",
    "3": "three",
    "infinitelymany": "many",
    "infinite": "many",
    "endless": "many",
    "lot": "many",
    "lots": "many",
}
_JUST = re.compile(r"\s*(?:only|just|exactly)\s+", re.IGNORECASE)


def _count(words: str) -> str:
    """Return how many are said to be: "no triangle" and "0" are none."""
    words = _JUST.sub("", words, count=1)
    plain = single(re.sub(r"\s+(?:of\s+)?[a-z]+s?$", "", words.strip(), flags=re.IGNORECASE))
    return _COUNTS.get(folded(words), _COUNTS.get(plain, plain if plain in _COUNTS.values() else ""))


def _letters(task: ChoiceTask, words: str) -> Iterator[frozenset[int]]:
    """Yield the options of letters that stand together: ``AC``, ``A C``."""
    signs = words.replace(" ", "")
    if 2 <= len(signs) <= len(task.options) and signs.isascii() and signs.isupper() and signs.isalpha():
        chosen = frozenset(ord(sign) - ord("A") for sign in signs)
        if len(chosen) == len(signs) and max(chosen) < len(task.options):
            yield chosen


# -- what is said --------------------------------------------------------------------------------


def _fitting(task: ChoiceTask) -> frozenset[int]:
    return frozenset(at for right in task.right for at in _by_text(task, right))


def _told(task: ChoiceTask, way: frozenset[int]) -> str:
    return ", ".join(f"{label(at)} {task.options[at]}" for at in sorted(way))


def _quoted(task: ChoiceTask, at: int) -> str:
    return f"{label(at)} ({cut(task.options[at])})"


def _wrong(task: ChoiceTask, way: frozenset[int], fitting: frozenset[int]) -> str:
    wrong = sorted(way - fitting)
    if len(way) > 1 and len(fitting) == 1:
        return "Only one of the choices fits. Test each one against the question."
    if len(way) > 1:
        several = "Not all of these fit." if way & fitting else "None of these fits."
        return f"{several} Test each one against the question."
    if all(option in _COUNTS.values() for option in task.options):
        said = task.options[wrong[0]]
        return f"It is not “{said}”. Try to draw it: how many that are really different come out?"
    if len(task.options) == 2:
        return f"{_quoted(task, wrong[0])} does not fit. Say what the question asks for, then look again."
    return f"{_quoted(task, wrong[0])} does not fit what is asked. What would have to be different?"


def _unknown(task: ChoiceTask, text: str) -> str:
    both = _LABELLED.fullmatch(text.strip())
    if both is not None:
        lettered = _by_letter(task, both[1] or both[3])
        worded = _by_text(task, (both[2] if both[1] else both[4]) or "")
        if lettered and worded:
            return f"{_quoted(task, lettered[0])} or {_quoted(task, worded[0])}? Type the letter alone."
    near = get_close_matches(folded(text)[:80], [folded(option) for option in task.options], n=1, cutoff=0.75)
    if near:
        at = next(at for at, option in enumerate(task.options) if folded(option) == near[0])
        return f"Do you mean {_quoted(task, at)}? Type its letter."
    listed = _told(task, frozenset(range(len(task.options))))
    if len(listed) <= _SHORT_LIST:
        return f"That is none of the choices: {listed}. Type a letter or its words."
    return f"That is none of the choices. Type a letter, A to {label(len(task.options) - 1)}, or its words."


def read_choice(task: ChoiceTask, text: str) -> tuple[str, str]:
    """Return how a line is read as it is typed, or what is in the way."""
    ways = readings(task, text)
    if ways:
        return _told(task, ways[0]), ""
    return "", f"Type a letter, A to {label(len(task.options) - 1)}, or its words."


# -- hints, the key, faults ------------------------------------------------------------------------


def choice_hint(work: ChoiceWorking, stage: HintStage) -> Hint | None:
    """Return the hint of one stage; None where all is named."""
    task = work.task
    left = _fitting(task) - work._chosen()
    if not left:
        return None
    match stage:
        case HintStage.WHERE:
            return Hint(stage, "Read the question again, then look at every choice in turn: does it fit?")
        case HintStage.WHAT:
            return Hint(stage, _ruled_out(work, left))
        case HintStage.LINE:
            return Hint(stage, "This fits:", _answer(task, left))
        case _:
            assert_never(stage)


def _ruled_out(work: ChoiceWorking, left: frozenset[int]) -> str:
    """Rule one choice out that was not tried, if that does not leave the answer alone."""
    task, fitting = work.task, _fitting(work.task)
    tried = {at for line in work.lines for way in readings(task, line.text) for at in way}
    wrong = [at for at in range(len(task.options)) if at not in fitting | tried]
    how_many = f"{len(fitting)} of them fit. " if len(fitting) > 1 else ""
    if len(wrong) > 1:
        return f"{how_many}{_quoted(task, wrong[0])} is not meant. Compare the others with the question."
    return f"{how_many}Say in your own words what the question asks for, and test each choice with it."


def _answer(task: ChoiceTask, chosen: frozenset[int]) -> str:
    """Return a line that names some options: by their words, or by letters where words could be misread."""
    words = ", ".join(task.options[at] for at in sorted(chosen))
    if readings(task, words) == (chosen,):
        return words
    return ", ".join(label(at) for at in sorted(chosen))


def choice_solution(task: ChoiceTask) -> tuple[WorkedLine, ...]:
    """Return the answer for the key."""
    fitting = _fitting(task)
    letters = " and ".join(label(at) for at in sorted(fitting))
    return (WorkedLine(_answer(task, fitting), f"Choice {letters}.", None),) if fitting else ()


def choice_problems(task: ChoiceTask) -> tuple[str, ...]:
    """Return what is wrong with a choice, in sentences for the teacher."""
    found: list[str] = []
    if not 2 <= len(task.options) <= MOST_OPTIONS:
        found.append(f"There are 2 to {MOST_OPTIONS} choices.")
    seen: set[str] = set()
    for option in task.options:
        key = tight(option)
        if not key:
            found.append("A choice is empty.")
        elif len(option) > LONGEST_OPTION:
            found.append(f"“{cut(option)}” is longer than {LONGEST_OPTION} signs. Say it shorter.")
        elif key in seen:
            found.append(f"“{cut(option)}” stands among the choices twice.")
        seen.add(key)
    found += [
        f"“{cut(right)}” is not among the choices." for right in task.right if not _by_text(task, right)
    ]
    if not task.right:
        found.append("No choice is said to be right: name it after “answer”.")
    elif not found and len(_fitting(task)) == len(task.options):
        found.append("Every choice is right here, so there is nothing to choose.")
    return tuple(found)
