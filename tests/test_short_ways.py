"""The short ways for everyday lines say what the long ways say: search for slips, account, trees."""

import json
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.line.kept_table import line_table
from tutor.line.lexing import Scanner
from tutor.line.names import Names
from tutor.line.parse import parse
from tutor.line.reader import Readings, read
from tutor.line.table import MAX_TREES, Automaton, Raw
from tutor.line.tree import Chain
from tutor.marking.deciding.everyday import form_of
from tutor.marking.deciding.state import Known, Spec
from tutor.marking.deciding.state import settings as ways_of
from tutor.marking.judging import aftermath
from tutor.marking.slips import find, formulas, lowered, moves, units
from tutor.marking.slips.nowhere import leads_from_nowhere
from tutor.marking.task import Task
from tutor.marking.telling import account, witness
from tutor.marking.telling.account import Account
from tutor.marking.working import mark_lines, start
from tutor.teacher.jsonl import answer_line

NUMBERS = ["0", "1", "2", "3", "4", "6", "9", "12", "45", "90", "180", "0.5", "2.5", "1/2", "3/4"]


@st.composite
def sides(draw: st.DrawFn) -> str:
    """Sides of one and two terms most of all; a longer one, a bracket or a fraction now and then."""
    number, times = draw(st.sampled_from(NUMBERS)), draw(st.sampled_from(["", *NUMBERS]))
    minus, sign = draw(st.sampled_from(["", "", "-"])), draw(st.sampled_from("+-"))
    letter = f"{times} x" if "/" in times else f"{times}x"
    return minus + draw(
        st.sampled_from(
            [
                number,
                letter,
                f"{letter} {sign} {number}",
                f"{letter} {sign} {number}",
                f"{number} {sign} {letter}",
                f"{letter} {sign} {letter}",
                f"{number}({letter} {sign} 3)",
                f"({letter} {sign} {number})/2",
                f"{letter} {sign} {number} - 2",
                f"{number} - (-{number})",
                f"{letter} - (-{letter})",
            ]
        )
    )


LINES = st.builds(
    lambda left, rel, right: f"{left} {rel} {right}", sides(), st.sampled_from(["=", "=", "=", "<"]), sides()
)


def chain(text: str) -> Chain:
    found = read(text, Names(frozenset({"x"})))
    assert isinstance(found, Readings)
    first = found.statements[0]
    assert isinstance(first, Chain)
    return first


def told(lines: list[str]) -> str:
    answer, _ = answer_line(json.dumps({"lines": lines, "find": "x"}).encode("utf-8"), 1)
    return json.dumps(answer, sort_keys=True)


def without_short_ways(patch: pytest.MonkeyPatch) -> None:
    """Search and tell as if no line were an everyday one, but for the decision itself."""
    patch.setattr(find, "leads_from_nowhere", lambda *_: False)
    patch.setattr(moves, "leads_nowhere", lambda *_: False)
    patch.setattr(moves, "are_plain", lambda *_: False)
    patch.setattr(formulas, "may_be_wrong", lambda *_: True)
    patch.setattr(units, "_any_units", lambda *_: True)
    patch.setattr(account, "_everyday_moves", lambda *_: None)
    patch.setattr(aftermath, "is_small", lambda *_: False)


@settings(max_examples=400)
@given(LINES, LINES, LINES)
def test_everything_said_of_a_line_is_the_same(first: str, second: str, third: str) -> None:
    lines = [first, second, third]
    short = told(lines)
    with pytest.MonkeyPatch.context() as patch:
        without_short_ways(patch)
        assert told(lines) == short


def test_slipped_steps_are_searched_alike() -> None:
    """Lines that come from the one above by one wrong move, so that something is found."""
    chance = random.Random(3)
    found = 0
    for _ in range(400):
        a, b, c, d = (chance.choice([-7, -3, -2, -1, 1, 2, 3, 5, 8, 12]) for _ in range(4))
        line = f"{a}x + {b} = {c}x + {d}"
        typed = chance.choice(
            [
                f"{a}x = {c}x + {d + b}",
                f"{a}x = {c}x + {d}",
                f"{a + c}x + {b} = {d}",
                f"{a - c}x = {d + b}",
                f"{c - a}x - {b} = {d}",
                f"x + {b} = {c}x + {d}",
                f"-{a}x - {b} = {c}x + {d}",
                f"{a + b}x = {c}x + {d}",
                f"{a * b}x = {c}x + {d}",
                f"{a + b}x = {c + d}x",
                f"{c}x + {d} = {a}x + {b + 1}",
                f"{b} = {c}x + {d} + {a}x",
                f"{a}x + {b} = {d}x + {c}",
            ]
        ).replace("--", "")
        lines = [line.replace("+ -", "- "), typed.replace("+ -", "- ")]
        short = told(lines)
        found += '"slip": "' in short
        with pytest.MonkeyPatch.context() as patch:
            without_short_ways(patch)
            assert told(lines) == short
    assert found > 60


def test_where_no_search_is_made_none_would_find_a_wrong_move() -> None:
    """Numbers that a wrong move could make of those above, so that there is much to be found."""
    chance = random.Random(7)
    passed_over = found = 0
    for _ in range(4000):
        a, b, c, d = (chance.randint(-9, 9) for _ in range(4))
        b, c = chance.choice([0, b, b]), chance.choice([0, c])
        near = [a, b, c, d, a + c, a - c, b + d, d - b, 0, 1, -a, -b, -c, -d, a * b, a + b, 2 * c, d - a]
        typed = [chance.choice([*near, d - b - a, d * a, chance.randint(-9, 9)]) for _ in range(4)]
        above, line = chain(equation(a, b, c, d)), chain(equation(*typed))
        known = mark_lines(Task(find=("x",)), [equation(a, b, c, d)]).known
        if known.base is None or form_of(above) == form_of(line):
            continue
        setting = ways_of(known, line)[0]
        nowhere = leads_from_nowhere(known, line)
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(find, "leads_from_nowhere", lambda *_: False)
            slip = find.find_slip(known, line, setting)
        assert slip is None or not nowhere, (equation(a, b, c, d), equation(*typed), slip)
        passed_over, found = passed_over + nowhere, found + (slip is not None)
    assert passed_over > 1500
    assert found > 60


def equation(a: int, b: int, c: int, d: int) -> str:
    """Write ``ax + b = cx + d`` without a term that is 0, where there is another."""
    left, right = (
        "".join(
            f" {'-' if size < 0 else '+'} {abs(size)}{name}" for size, name in ((x, "x"), (n, "")) if size
        )
        for x, n in ((a, b), (c, d))
    )
    return f"{left.removeprefix(' + ') or '0'} = {right.removeprefix(' + ') or '0'}"


@settings(max_examples=300)
@given(LINES, st.integers(-9, 9), st.sampled_from([-3, -2, -1, 2, 4, 6]), st.integers(-5, 5))
def test_both_sides_of_a_right_step_are_told_alike(line: str, number: int, times: int, more: int) -> None:
    """What is said of the coefficients is what is said of the values of the sides."""
    above = chain(line)
    left, right = line.split(" = ") if " = " in line else line.split(" < ")
    typed = chain(f"{times}({left}) + {more}x + {number} = {times}({right}) + {more}x + {number}")
    for one, other in ((above, typed), (typed, above)):
        setting = ways_of(start(Task(find=("x",))).known, other)[0]
        short = account.account(one, other, setting)
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(account, "_everyday_moves", lambda *_: None)
            long = account.account(one, other, setting)
        assert said_of(short) == said_of(long)


def said_of(found: Account | None) -> tuple[object, ...] | None:
    if found is None:
        return None
    moves = [(move.words, move.plain, move.kept) for move in found.moves]
    return (str(found), found.cost, found.swapped, found.shared is None, moves)


@settings(max_examples=200)
@given(LINES)
def test_a_witness_is_asked_for_alike(line: str) -> None:
    known = mark_lines(Task(find=("x",)), [line]).known
    if known.base is None or not known.base.premises:
        return
    ground = known.base.ground(ways_of(known, known.base.premises[0])[0])
    settled = [value for found in ground.values().values() for value in found]
    for value in (*settled, *(value + 1 for value in settled)):
        setting = ways_of(known, known.base.premises[0])[0]
        assert witness.asked_for(known, value, setting) == (value in settled)


@settings(max_examples=200)
@given(LINES, LINES)
def test_a_broken_line_is_carried_alike(line: str, typed: str) -> None:
    working = mark_lines(Task(find=("x",)), [line, typed, "x = 1"])
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(aftermath, "is_small", lambda *_: False)
        other = mark_lines(Task(find=("x",)), [line, typed, "x = 1"])
    assert carried(working.known) == carried(other.known)


def carried(known: Known) -> list[tuple[object, ...]]:
    return [(spec.premises, spec.positive, spec.line, spec.gained) for spec in known.carried]


def test_one_unknown_alone_is_no_formula() -> None:
    """The search of the problem's formulas ends before it begins, and would find nothing."""
    known = mark_lines(Task(find=("x",)), ["2x + 3 = 11"]).known
    assert isinstance(known.base, Spec) and known.base.form() is not None
    setting = ways_of(known, known.base.premises[0])[0]
    assert lowered.places(known.base, setting, frozenset()) == ()


def as_text(raw: Raw) -> tuple[object, ...]:
    return raw.kind, raw.start, raw.end, raw.text, tuple(map(as_text, raw.kids))


@settings(max_examples=200)
@given(LINES, LINES)
def test_a_remembered_tree_is_the_tree_that_is_worked_out(one: str, other: str) -> None:
    for text in (one, other, one):
        fresh = Automaton(_TABLE)
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr("tutor.line.parse._machine", lambda fresh=fresh: (fresh, _SCANNER))
            worked_out = parse(text)
        assert as_text(parse(text)) == as_text(worked_out)


def test_trees_are_remembered_up_to_a_bound() -> None:
    machine = Automaton(_TABLE)
    machine._trees.update({(str(at),): () for at in range(MAX_TREES)})
    tokens, refusal = _SCANNER.tokens("2x = 8", 0, 6)
    assert refusal is None
    first, again = machine.parse(tokens), machine.parse(tokens)
    assert as_text(first) == as_text(again)
    assert len(machine._trees) == MAX_TREES


_TABLE = line_table()
_SCANNER = Scanner(_TABLE)
