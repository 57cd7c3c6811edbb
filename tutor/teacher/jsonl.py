"""Marking for other programs: one JSON object a line in, one a line out."""

import json
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from tutor.line.meaning import value_of
from tutor.line.names import Names, abbreviations, attached_letters, plain
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.reader import Unread, read_before
from tutor.line.spoken import is_spoken
from tutor.line.tree import Bare, Chain, Note, Onward, Rel, Statement
from tutor.line.walk import statement_names
from tutor.marking.deciding.claim import always_holds
from tutor.marking.deciding.context import prepare
from tutor.marking.deciding.first_line import evaluated_at
from tutor.marking.task import Task
from tutor.marking.working import WorkLine, mark_lines
from tutor.quantity.pi import Pi
from tutor.quantity.units import read_unit

MAX_LINES = 400
_FIELDS = frozenset(["id", "lines", "find", "formula", "givens", "units", "pi", "every_step", "struck"])
_WRITTEN = json.JSONEncoder(ensure_ascii=False, check_circular=False)  # made once, not once a line
_PI = {"3.14": Pi.DECIMAL, "22/7": Pi.FRACTION, "exact": Pi.EXACT}


@dataclass(frozen=True, slots=True)
class Request:
    """One object that was sent, checked."""

    id: Any
    task: Task
    lines: tuple[str, ...]
    struck: frozenset[int]


def written(answer: Mapping[str, Any]) -> bytes:
    """Return an answer as it goes out: one line."""
    return _WRITTEN.encode(answer).encode("utf-8", "backslashreplace") + b"\n"


def answer_line(raw: bytes, number: int) -> tuple[dict[str, Any], bool]:
    """Return the answer to one line of input, and whether the line was good."""
    request, identity, error = read_request(raw)
    if request is None:
        return {"id": identity, "line": number, "error": error}, False
    try:
        return {"id": request.id, **answered(request)}, True
    except Exception as fault:
        # A fault of ours in one object must not end the stream for all the others.
        error = f"could not be marked: a fault in Evenline ({type(fault).__name__})"
        return {"id": request.id, "line": number, "error": error}, False


def read_request(raw: bytes) -> tuple[Request | None, Any, str]:
    """Return the request, or its id as far as it could be read and what is wrong with it."""
    try:
        text = raw.decode("utf-8")
        sent = json.loads(text) if text[:1] == _MARK else _READ.decode(text)
    except UnicodeDecodeError:
        return None, None, "not UTF-8"
    except (ValueError, RecursionError) as problem:
        return None, None, f"not a JSON object: {str(problem)[:200]}"
    if not isinstance(sent, dict):
        return None, None, "not a JSON object"
    identity = sent.get("id")
    error = _wrong(sent)
    if error:
        return None, identity, error
    lines = tuple(sent["lines"])
    task, error = _task(sent, lines)
    if task is None:
        return None, identity, error
    return Request(identity, task, lines, frozenset(sent.get("struck", []))), identity, ""


def _no_constant(name: str) -> None:
    raise ValueError(f"{name} is not a number")


def _finite(written: str) -> float:
    """Refuse 1e999: it would be answered as Infinity, which is not JSON."""
    value = float(written)
    if not math.isfinite(value):
        raise ValueError(f"{written[:20]} is too large a number")
    return value


def _no_twice(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    made = dict(pairs)
    if len(made) != len(pairs):
        raise ValueError("a field stands twice")
    return made


# Made once, not once a line. A mark of the byte order in front is refused by "loads" alone.
_READ = json.JSONDecoder(parse_constant=_no_constant, parse_float=_finite, object_pairs_hook=_no_twice)
_MARK = "\ufeff"


def _is_texts(value: object) -> bool:
    return isinstance(value, list) and all(isinstance(item, str) for item in value)


def _wrong(sent: Mapping[str, Any]) -> str:
    if not sent.keys() <= _FIELDS:
        return f"unknown field: {min(sent.keys() - _FIELDS)}"
    if "lines" not in sent:
        return "the field lines is missing"
    if not _is_texts(sent["lines"]):
        return "lines must be a list of texts"
    if len(sent["lines"]) > MAX_LINES:
        return f"more than {MAX_LINES} lines"
    for name in ("find", "formula", "units"):
        if name in sent and not (isinstance(sent[name], str) or _is_texts(sent[name])):
            return f"{name} must be a text or a list of texts"
    givens = sent.get("givens", {})
    if not isinstance(givens, dict) or not all(_is_value(value) for value in givens.values()):
        return "givens must be an object of texts"
    if not isinstance(sent.get("pi", "exact"), str) or sent.get("pi", "exact") not in _PI:
        return 'pi must be "3.14", "22/7" or "exact"'
    if not isinstance(sent.get("every_step", False), bool):
        return "every_step must be true or false"
    struck = sent.get("struck", [])
    inside = range(len(sent["lines"]))
    if not isinstance(struck, list) or not all(type(at) is int and at in inside for at in struck):
        return "struck must be a list of indexes of lines"
    return ""


def _is_value(value: object) -> bool:
    return isinstance(value, str) or (isinstance(value, int | float) and not isinstance(value, bool))


def _listed(value: object) -> tuple[str, ...]:
    if value is None:
        return ()
    return (value,) if isinstance(value, str) else tuple(str(item) for item in value)  # type: ignore[attr-defined]


def _task(sent: Mapping[str, Any], lines: tuple[str, ...]) -> tuple[Task | None, str]:
    formulas = _listed(sent.get("formula"))
    givens = tuple((str(name), str(value)) for name, value in sent.get("givens", {}).items())
    find = _listed(sent.get("find"))
    if not find and not formulas:
        find, error = _the_one_unknown(lines, givens)
        if error:
            return None, error
    units = _listed(sent.get("units"))
    if len(units) > max(1, len(find)):
        return None, "more units than names to find"
    if len(units) == 1:
        units = units * len(find)
    pi = _PI[sent.get("pi", "exact")]
    return _checked(formulas, givens, find, units, pi, sent.get("every_step", False))


# A stream mostly asks for the same thing again and again.
@lru_cache(maxsize=64)
def _checked(
    formulas: tuple[str, ...],
    givens: tuple[tuple[str, str], ...],
    find: tuple[str, ...],
    units: tuple[str, ...],
    pi: Pi,
    every_step: bool,
) -> tuple[Task | None, str]:
    task = Task(formulas, givens, find, units, pi, every_step)
    problems = prepare(task)[1]
    if problems:
        first = problems[0]
        return None, f"{first.field} {first.index + 1}: {first.message}"
    return task, ""


_LETTERS = re.compile(r"[^\W\d_]+")


def _lone_letter(lines: tuple[str, ...]) -> frozenset[str]:
    """Return the one letter of all lines, if it is no unit: they are then read once, as they are marked."""
    found = frozenset(run for line in lines for run in _LETTERS.findall(line))
    if len(found) != 1:
        return _NONE
    letter = min(found)
    return found if len(letter) == 1 and read_unit(letter) is None else _NONE


_NONE: frozenset[str] = frozenset()


def _the_one_unknown(
    lines: tuple[str, ...], givens: tuple[tuple[str, str], ...]
) -> tuple[tuple[str, ...], str]:
    """Without ``find`` the one letter of the equations is meant; expressions ask for nothing."""
    letters: set[str] = set()
    attached: set[str] = set()
    known = Names(frozenset(name for name, _ in givens)).joined(_lone_letter(lines))
    identities = True
    told = {name for name, _ in givens}
    for line in lines:
        at = evaluated_at(line, known)
        if at is not None:
            told |= {name for chain in at[1] for name in statement_names(chain)}
            continue  # "5a − 2b for a = 3, b = −4" tells what its letters are
        found = read_before(line, known)
        if isinstance(found, Unread) or isinstance(found.statements[0], Bare | Note | Onward):
            continue
        identities = identities and _rewrites(found.statements[0])
        letters |= statement_names(found.statements[0])
        attached |= attached_letters(line)
    letters -= told
    short = {name for name in abbreviations(lines) if set(name) <= letters}
    if any(map(is_spoken, letters)):
        # "Area of square = 6 · 6 = 36": words are not asked for.
        letters = {name for name in letters if not is_spoken(name)}
        identities = identities or len(letters) != 1
    elif short and letters <= set("".join(short)):
        return (tuple(short), "") if len(short) == 1 else ((), "")
    # "x1 = 3, x2 = -3" names two solutions of x.
    letters = {name for name in letters if plain(name).partition("_")[0] not in letters - {name}}
    if identities:
        return (), ""  # "2x + 3x = 5x" rewrites an expression: nothing is asked for
    if not letters:
        # "40 + 0.5m ≤ 90": nothing else can be the unknown, so m is no metre here.
        letters = attached - told
    if len(letters) > 1:
        return (), f"find is missing: {', '.join(sorted(letters))} could each be meant"
    return tuple(letters), ""


def _rewrites(statement: Statement) -> bool:
    """Tell whether a line only writes an expression in other ways: ``a³/b³`` for ``(a/b)³``, b not 0."""
    if always_holds(statement):
        return True
    if not isinstance(statement, Chain) or not all(rel is Rel.EQ for rel in statement.rels):
        return False
    pairs = zip(statement.sides, statement.sides[1:], strict=False)
    try:
        return all(value_of(left).same(value_of(right)) for left, right in pairs)
    except (NotExact, DividedByZero):
        return False


def answered(request: Request) -> dict[str, Any]:
    """Return what is said of a request, without its id."""
    working = mark_lines(request.task, request.lines, request.struck)
    reached = working.reached
    return {
        "first_wrong": reached.first_wrong,
        "finished": reached.finished,
        "units": reached.units.value if reached.units is not None else None,
        "lines": [_line(line) for line in working.lines],
    }


def _line(line: WorkLine) -> dict[str, Any]:
    mark = line.mark
    said: dict[str, Any] = {
        "text": line.text,
        "verdict": mark.verdict.value,
        "reason": mark.reason.value if mark.reason is not None else None,
        "slip": mark.slip,
        "message": mark.message or mark.note,
        # What is missing at the end of a line is marked one sign past it, where a caret goes.
        "span": [min(at, len(line.text)) for at in mark.span] if mark.span is not None else None,
        "read_as": mark.read_as,
        "account": mark.account,
    }
    if mark.ties:
        said["ties"] = list(mark.ties)
    return said
