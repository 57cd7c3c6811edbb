"""Answers in a sentence: ``The area is 60 cm².``, ``∴ The tree is 37.5 ft tall.``"""

import re
from dataclasses import replace

from tutor.line.late import Late
from tutor.line.meaning import Setting
from tutor.line.reader import Unread, read_before
from tutor.line.spoken import is_spoken, meant
from tutor.line.tree import Bare, Chain, Expr, Measure, Name, Note, Rel
from tutor.line.walk import every
from tutor.marking.deciding.answers import worked_out
from tutor.marking.deciding.follow import Found, How, search
from tutor.marking.deciding.state import Known
from tutor.marking.judging.aftermath import Judged, broken, stands
from tutor.marking.judging.wrong_units import unit_broken, unit_fault
from tutor.marking.telling.reasons import why_breaks
from tutor.marking.verdict import Verdict
from tutor.quantity.dimension import COUNT

# One sentence with one number in it: words, the value with its unit, words behind a unit.
_WORDS = r"[^\d=<>≤≥+*/^√(]*?"
_SENTENCE = Late(
    rf"(?P<words>{_WORDS}[A-Za-z]{{2}}{_WORDS}\s)(?P<value>[-−–]?[$€£₹]?\s?\d[^=<>≤≥]*?)[.!]?\s*"
)
_SUBJECT = Late(
    r"(?:∴|therefore|so|thus|hence|then)?\s*,?\s*(?:the|its)\s+(?P<name>[A-Za-z ]+?)"
    r"\s+(?:is|was|equals)(?:\s+(?:about|approximately|around|exactly))?",
    re.IGNORECASE,
)
_OFF = Late(
    r"(?:not|n't|about\s+half|twice|times|more|less|than|ratio|percent\s+of|each\s+of)(?![A-Za-z])",
    re.IGNORECASE,
)

MAX_SENTENCE = 120


def answer_said(known: Known, text: str, note: Note, index: int) -> Judged | None:
    """Mark a sentence that says the value of what is asked for, None where it says something else.

    A sentence that names what is asked for is held to it; any other one is an answer where its
    number is the right one, and a remark where it is not.
    """
    if known.base is None or not known.context.find or not known.base.premises:
        return None
    told = _SENTENCE.fullmatch(text) if len(text) <= MAX_SENTENCE else None
    if told is None or _OFF.search(told["words"]):
        return None
    value = read_before(" " * told.start("value") + told["value"], known.context.names)
    if isinstance(value, Unread) or not isinstance(value.statements[0], Bare):
        return None
    expr = value.statements[0].expr
    if not worked_out(expr) or any(isinstance(node, Name) for node in every(expr)):
        return None
    subject = _SUBJECT.fullmatch(told["words"].strip())
    named = meant(subject["name"], known.context.names) if subject is not None else ""
    for name in known.context.find:
        judged = _says(known, name, expr, note, index, sure=name == named)
        if judged is not None:
            return judged
    return None


def _says(known: Known, name: str, value: Expr, note: Note, index: int, *, sure: bool) -> Judged | None:
    assert known.base is not None
    statement = Chain((Name(name, note.span), value), (Rel.EQ,), note.span)
    found = _followed(known, statement)
    bare = None
    if found is None and isinstance(value, Measure) and value.unit.dimension != COUNT:
        bare = _followed(known, Chain((statement.sides[0], value.inner), statement.rels, statement.span))
    fault = unit_fault(known, statement) if found is not None or bare is not None else None
    if fault is not None:
        return unit_broken(known, statement, index, fault, found or bare or Found(How.BREAKS, Setting()))
    if found is not None:
        verdict = Verdict.ROUNDS if found.how is How.ROUNDS else Verdict.FOLLOWS
        return stands(known, statement, index, verdict, found)
    if bare is not None:  # the number is right, and its unit is another one
        wrong = search(known, statement, (known.base, *known.more))
        return broken(known, statement, index, why_breaks(known, statement, wrong), units=True)
    if not sure or not any(answer.name == name for answer in known.answers):
        return None
    wrong = search(known, statement, (known.base, *known.more))
    if wrong.how is not How.BREAKS:
        return None
    return broken(known, statement, index, why_breaks(known, statement, wrong))


def _followed(known: Known, statement: Chain) -> Found | None:
    assert known.base is not None
    found = search(known, statement, (known.base,))
    return found if found.how in (How.FOLLOWS, How.ROUNDS) else None


def also_answers(known: Known, judged: Judged) -> Judged:
    """Take ``Sum of angles = 720°`` as the answer for S too, where that is its value."""
    statement = judged.statement
    if not judged.mark.verdict.stands or not isinstance(statement, Chain) or known.base is None:
        return judged
    head = statement.sides[0]
    if not isinstance(head, Name) or not is_spoken(head.name) or not worked_out(statement.sides[-1]):
        return judged
    for name in known.context.find:
        if not _begins_like(head.name, name):
            continue
        answer = Chain((Name(name, head.span), statement.sides[-1]), (Rel.EQ,), statement.span)
        found = _followed(judged.known, answer)
        if found is not None:
            after = stands(judged.known, answer, -1, judged.mark.verdict, found).known
            return replace(judged, known=replace(judged.known, answers=after.answers))
    return judged


def _begins_like(words: str, letter: str) -> bool:
    return any(word[:1].lower() == letter[:1].lower() for word in words.split())
