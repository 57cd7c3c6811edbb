"""The word for a meaning: right, misspelled, or another word."""

from dataclasses import dataclass
from typing import assert_never

from tutor.marking.hint_stage import Hint, HintStage
from tutor.marking.kinds.lines import Lines, end_span, small_progress, unread, whole_span
from tutor.marking.kinds.phrasing import cut, distance, folded, single, trimmed, without_opening
from tutor.marking.progress import Progress
from tutor.marking.steps.model import WorkedLine
from tutor.marking.task import WordTask
from tutor.marking.verdict import Mark, Reason, Verdict

LONGEST_WORD = 40
_COMPARED = 2 * LONGEST_WORD  # signs of what was typed: the rest could only make it differ more
_MOST_WRONG = 3

# Words of school geometry and algebra: none of them is a misspelling of another one.
_WORDS = """
    acute adjacent alternate altitude angle apex arc area average axis bar base bisector border box center
    centre chord circle circumference coefficient complement complementary compass cone congruent constant
    coordinate corresponding cube cubic cuboid cylinder decagon decimal degree denominator depth diagonal
    diagram diameter difference dividend divisor edge ellipse equal equation equilateral estimate exponent
    expression exterior face factor formula fraction graph height hemisphere hexagon horizontal hypotenuse
    inequality inside integer interior intersection inverse isosceles kite lateral length line maximum mean
    measure median midpoint minimum mode multiple net number numerator obtuse octagon opposite origin
    outside oval parallel parallelogram pentagon percent perimeter perpendicular plain plane point polygon
    polyhedron power prism product proportion protractor pyramid quadrant quadrilateral quotient radius
    ratio ray rectangle rectangular reflex rhombus right root rotation ruler scale scalene secant section
    sector segment semicircle side similar slant slope solid solution solve sphere square straight sum
    supplement supplementary surface symmetry tangent term tetrahedron transversal trapezium trapezoid
    triangle triangular unit unknown value variable vector vertex vertical volume weight whole width
"""
_SCHOOL = frozenset(map(single, _WORDS.split()))
# A noun that may be left off or put behind: "complementary" and "complementary angles".
_NOUNS = ("angles", "angle", "lines", "line", "triangle")


@dataclass(frozen=True)
class WordWorking(Lines[WordTask]):
    """The lines of one word that is asked for."""

    def marked(self, text: str) -> Mark:
        """Return the mark of one more line."""
        typed, span = without_opening(trimmed(text)), whole_span(text)
        if not any(sign.isalpha() for sign in typed):
            return unread("A word is asked for here. Type it in letters.", end_span(text))
        if len(typed.split()) > max(len(word.split()) for word in _right(self.task)) + 3:
            return unread("Only the word itself is asked for here, not its meaning.", end_span(text))
        if _is_part(self.task, typed):
            return unread(f"“{cut(typed)}” alone says too little. Write all of it.", end_span(text))
        wrong = _another(self.task, typed)
        if wrong is not None:
            return Mark(Verdict.BREAKS, Reason.NOT_TRUE, None, wrong, span, read_as=typed)
        found = _recognised(self.task, typed)
        if found is None:
            return unread("I cannot tell which word this is. Look at how it is spelled.", end_span(text))
        verdict = Verdict.RESTATES if self.standing else Verdict.FOLLOWS
        word, exact = found
        return Mark(verdict, read_as=word, note="" if exact else f"It is spelled “{word}”.")

    @property
    def progress(self) -> Progress:
        """Return how far the work is: finished when the word stands."""
        return small_progress(self.lines, finished=bool(self.standing))


def _right(task: WordTask) -> tuple[str, ...]:
    return (task.word, *task.also)


def _recognised(task: WordTask, typed: str) -> tuple[str, bool] | None:
    """Return the right word that was typed and whether it was spelled so; None where it is none of them."""
    for word in _right(task):
        if _is_spelled(task, typed, word):
            return word, True
    away = {word: _apart(task, typed, word) for word in _right(task)}
    near = min(away.values())
    nearest = next(word for word, letters in away.items() if letters == near)
    others = [_apart(task, typed, other) for other in task.near]
    if near > _allowed(nearest) or any(other <= near for other in others):
        return None
    return nearest, False


def _is_part(task: WordTask, typed: str) -> bool:
    """Tell whether only some words of a right answer were typed: "perimeter" for "perimeter of a circle"."""
    part = _set(typed)
    if any(_is_spelled(task, typed, word) for word in (*_right(task), *task.near)):
        return False
    return bool(part) and any(part < _set(word) for word in _right(task))


def _another(task: WordTask, typed: str) -> str | None:
    """Return what is said of a word that is another one, None of one that may be right."""
    if any(_is_spelled(task, typed, word) for word in _right(task)):
        return None
    away = min(_apart(task, typed, word) - _allowed(word) for word in _right(task))
    nearest = min(_apart(task, typed, word) for word in _right(task))
    is_word = any(single(typed) == single(other) for other in task.near) or _is_school_word(typed)
    nearer = [other for other in task.near if _apart(task, typed, other) < min(nearest, _allowed(other) + 1)]
    if is_word or nearer:
        return f"“{cut(typed)}” means something else. Which part of the meaning does it not fit?"
    if away > 0:
        unsure = any(_apart(task, typed, other) <= _allowed(other) for other in task.near)
        return None if unsure else f"“{cut(typed)}” is not the word for this. Read the meaning once more."
    return None


def _is_school_word(typed: str) -> bool:
    return all(single(part) in _SCHOOL for part in typed.split())


def _is_spelled(task: WordTask, typed: str, word: str) -> bool:
    """Tell whether a word was typed as it is spelled; of several words the order does not matter."""
    return single(typed) in _spellings(task, word) or (" " in word.strip() and _set(typed) == _set(word))


def _set(words: str) -> frozenset[str]:
    return frozenset(single(part) for part in words.split()) - {"of", "a", "an", "the"}


def _spellings(task: WordTask, word: str) -> frozenset[str]:
    """Return the ways to write a word that are right: with or without its noun, if no neighbour is so too."""
    made = {single(word), folded(word)}
    for noun in _NOUNS:
        short = folded(word).removesuffix(noun) if " " in word.strip() else ""
        longer = folded(word) + noun
        for form in (short, longer):
            if form and not any(single(other) in (single(form), form) for other in task.near):
                made |= {form, single(form)}
    return frozenset(made - {""})


def _apart(task: WordTask, typed: str, word: str) -> int:
    """Return by how many letters a word was missed, in any of its right spellings."""
    most = max(_allowed(word), _MOST_WRONG)
    tried = {folded(typed)[:_COMPARED], single(typed)[:_COMPARED]}
    return min(distance(one, form, most) for one in tried for form in _spellings(task, word))


def _allowed(word: str) -> int:
    """Return how many letters may be wrong in a word that is still meant: few in a short one."""
    letters = len(folded(word))
    if letters < 4:
        return 0
    return 1 if letters < 7 else 2 if letters < 12 else 3


# -- hints, the key, faults ------------------------------------------------------------------------


def word_hint(work: WordWorking, stage: HintStage) -> Hint | None:
    """Return the hint of one stage; None where the word stands."""
    word = work.task.word.strip()
    if work.progress.finished:
        return None
    match stage:
        case HintStage.WHERE:
            return Hint(stage, "Read the meaning again and make a sketch of it: what do you call that?")
        case HintStage.WHAT:
            return Hint(stage, _shape(word))
        case HintStage.LINE:
            return Hint(stage, "The word is:", word)
        case _:
            assert_never(stage)


def _shape(word: str) -> str:
    parts = word.split()
    if len(parts) > 1:
        letters = " and ".join(f"{len(part)}" for part in parts)
        return f"It is {len(parts)} words, of {letters} letters, and begins with {word[0]}."
    return f"It begins with {word[0]} and has {len(word)} letters."


def word_solution(task: WordTask) -> tuple[WorkedLine, ...]:
    """Return the word for the key."""
    also = f" Also right: {', '.join(task.also)}." if task.also else ""
    return (WorkedLine(task.word.strip(), f"The word for the meaning.{also}", None),)


def word_problems(task: WordTask) -> tuple[str, ...]:
    """Return what is wrong with the task of a word, in sentences for the teacher."""
    found: list[str] = []
    for word in (*_right(task), *task.near):
        if not any(sign.isalpha() for sign in word):
            found.append(f"“{cut(word)}” is no word.")
        elif len(word) > LONGEST_WORD:
            found.append(f"“{cut(word)}” is longer than {LONGEST_WORD} letters.")
    right = {single(word) for word in _right(task)}
    found += [
        f"“{cut(word)}” is asked for and is its own neighbour." for word in task.near if single(word) in right
    ]
    return tuple(found)
