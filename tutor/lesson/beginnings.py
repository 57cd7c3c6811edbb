"""The first word of an entry: the keyword, or what a mistyped one was meant to be."""

from __future__ import annotations

import re
from difflib import get_close_matches
from functools import lru_cache

from tutor.lesson.forms import better, reads
from tutor.lesson.keywords import BY_WORD, OF_A_PROBLEM, OF_BOTH, OF_THE_LESSON, Keyword
from tutor.lesson.model import Fault
from tutor.lesson.source import Source
from tutor.visible import spelled

# What a teacher may write for a keyword.
_MEANT = {
    "title": Keyword.LESSON,
    "unit": Keyword.LESSON,
    "version": Keyword.FORMAT,
    "class": Keyword.GRADE,
    "year": Keyword.GRADE,
    "standard": Keyword.COVERS,
    "standards": Keyword.COVERS,
    "π": Keyword.PI,
    "exercise": Keyword.PROBLEM,
    "task": Keyword.PROBLEM,
    "question": Keyword.ASK,
    "text": Keyword.ASK,
    "drawing": Keyword.FIGURE,
    "picture": Keyword.FIGURE,
    "name": Keyword.NAMES,
    "rule": Keyword.FORMULA,
    "solve": Keyword.EQUATION,
    "known": Keyword.GIVEN,
    "let": Keyword.GIVEN,
    "unknown": Keyword.FIND,
    "wanted": Keyword.FIND,
    "places": Keyword.ROUND,
    "marking": Keyword.MARKS,
    "corrections": Keyword.CORRECT,
    "hint": Keyword.HINTS,
    "important": Keyword.MATTERS,
    "range": Keyword.VARY,
    "random": Keyword.VARY,
    "varies": Keyword.VARY,
    "varied": Keyword.VARY,
    "variable": Keyword.VARY,
    "condition": Keyword.WHERE,
    "if": Keyword.WHERE,
    "when": Keyword.WHERE,
    "options": Keyword.CHOOSE,
    "choices": Keyword.CHOOSE,
    "choice": Keyword.CHOOSE,
    "proof": Keyword.SHOW,
    "prove": Keyword.SHOW,
    "why": Keyword.SHOW,
    "because": Keyword.REASON,
    "vocabulary": Keyword.WORD,
    "meaning": Keyword.MEANS,
    "definition": Keyword.MEANS,
    "synonym": Keyword.ALSO,
    "tolerance": Keyword.WITHIN,
    "construct": Keyword.DRAW,
    "face": Keyword.PIECE,
    "subquestion": Keyword.PART,
}

# A word longer than this is no keyword, and comparing it would only take time.
_LONGEST = 20

# Endings that make another form of a keyword, such as "finds"; other letters are the next word's.
_ENDINGS = ("s", "es", "ed", "d", "n", "er", "ing", "ion", "ions", "r", "e")

_BULLET = re.compile(r"(?:[-*•–—·]|\(?\w{1,2}[.)]) +(?=\w)")


def begin(
    source: Source, start: int, text: str, *, in_a_problem: bool, compare: bool = True
) -> tuple[Keyword | None, int, Fault | None]:
    """Return the keyword of the line that begins at ``start``, how much of it is used up, and a fault.

    The keyword is None where the first word means nothing to us.
    """
    word = text.split(" ", 1)[0]
    keyword = BY_WORD.get(word.casefold())
    if keyword is not None:
        return keyword, len(word), None
    bullet = _BULLET.match(text)
    if bullet is not None and text[bullet.end() :].split(" ", 1)[0].casefold() in BY_WORD:
        found, used, _fault = begin(
            source, start, text[bullet.end() :], in_a_problem=in_a_problem, compare=compare
        )
        message = "An entry begins with its keyword: no sign and no number stands before it."
        return (
            found,
            bullet.end() + used,
            source.fault(start, message, _entry(found, text[bullet.end() + used :])),
        )
    if not compare:
        return None, len(word), source.fault(start, f"“{spelled(word[:40])}” is not a keyword.")
    split = _run_together(word, text[len(word) :])
    if split is not None:
        first, second, used = split
        if second is not None:
            message = (
                f"Two keywords run together here, “{first.value}” and “{second.value}”. Each begins a line."
            )
            return second, len(word), source.fault(start, message)
        message = f"A space is missing after “{first.value}”."
        return first, used, source.fault(start, message, _entry(first, text[used:]))
    meant = keyword_meant(word)
    shown = spelled(word[:40])
    if meant is not None:
        signed = word.casefold().rstrip(":=") == meant.value
        message = "A keyword stands without a sign behind it." if signed else f"“{shown}” is not a keyword."
        return meant, len(word), source.fault(start, message, _entry(meant, text[len(word) :]))
    return None, len(word), source.fault(start, _not_known(shown, in_a_problem=in_a_problem))


def _entry(keyword: Keyword | None, rest: str) -> str:
    if keyword is None:
        return ""
    body = rest.strip(" :=")
    return keyword.written(body) if reads(keyword, body) else better(keyword, body) or keyword.example


def _not_known(shown: str, *, in_a_problem: bool) -> str:
    here = OF_A_PROBLEM if in_a_problem else OF_THE_LESSON
    known = ", ".join(keyword.value for keyword in Keyword if keyword in here | OF_BOTH)
    where = "In a problem stand" if in_a_problem else "Above the first problem stand"
    return f"“{shown}” is not a keyword. {where} {known}."


def _run_together(word: str, rest: str) -> tuple[Keyword, Keyword | None, int] | None:
    """Take ``findr in cm`` apart: the keyword, a second one behind it, and how many letters are used."""
    folded = word.casefold().rstrip(":=")
    for keyword in sorted(Keyword, key=lambda one: -len(one.value)):
        behind = word[len(keyword.value) :]
        if not folded.startswith(keyword.value) or not behind.strip(":="):
            continue
        second = BY_WORD.get(folded[len(keyword.value) :])
        if second is not None:
            return keyword, second, len(word)
        starts_anew = behind[0].isupper() or behind[0].isdigit() or behind[0] in "{(“"
        # "findr in cm": the letter is the name; "formular C = …": the name stands further on.
        is_the_name = len(behind) == 1 and re.match(r" *(?:$|[=,]|in |and )", rest) is not None
        if (starts_anew and not word.isupper()) or is_the_name:
            return keyword, None, len(keyword.value)
        if behind.casefold().rstrip(":=,") not in _ENDINGS and len(folded) > len(keyword.value) + 3:
            close = get_close_matches(folded[:_LONGEST], BY_WORD, n=1, cutoff=0.8)
            if not close and folded not in _MEANT and len(keyword.value) > 3:
                return keyword, None, len(keyword.value)
    return None


@lru_cache(maxsize=1024)
def keyword_meant(word: str) -> Keyword | None:
    """Return the keyword that ``word`` comes nearest to, or None."""
    folded = word.casefold().rstrip(":.=")
    if len(folded) > _LONGEST:
        return None
    exact = BY_WORD.get(folded) or _MEANT.get(folded)
    if exact is not None:
        return exact
    swapped = next((word for word in BY_WORD if _letters_swapped(folded, word)), None)
    if swapped is not None:
        return BY_WORD[swapped]
    near = get_close_matches(folded, BY_WORD, n=1, cutoff=0.7)
    if near:
        return BY_WORD[near[0]]
    other = get_close_matches(folded, _MEANT, n=1, cutoff=0.8)
    return _MEANT[other[0]] if other else None


def _letters_swapped(word: str, other: str) -> bool:
    """Tell whether two letters beside each other changed places: the commonest slip at a keyboard."""
    if len(word) != len(other):
        return False
    apart = [at for at, pair in enumerate(zip(word, other, strict=True)) if pair[0] != pair[1]]
    return (
        len(apart) == 2
        and apart[1] == apart[0] + 1
        and (word[apart[0]], word[apart[1]]) == (other[apart[1]], other[apart[0]])
    )
