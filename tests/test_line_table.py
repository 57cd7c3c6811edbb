"""The short ways of reading hold to the grammar file: same tokens and same trees as lark, same values."""

import re
from functools import lru_cache
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lark import Lark, Token, Tree
from lark.exceptions import UnexpectedCharacters, UnexpectedToken
from lark.lexer import TerminalDef
from test_line import CORPUS, TWO_READINGS
from test_line_properties import LINE_SIGNS

from tutor.line import tree
from tutor.line.by_lark import lark_of, table_of
from tutor.line.lexing import BEGINNINGS, Scanner
from tutor.line.meaning import value_of
from tutor.line.names import Names
from tutor.line.poly import Poly, Ratio
from tutor.line.reader import Readings, read
from tutor.line.table import Automaton, Raw, Unexpected
from tutor.line.walk import PARTS
from tutor.resources import grammar_text

SILENT = {"TIGHT": "", "LOOSE": ""}
TOLD_APART = {"BAR_OPEN": "BAR", "BAR_CLOSE": "BAR"}
LINES = [text for text, _ in CORPUS] + [text for text, *_ in TWO_READINGS]


READ = lark_of(grammar_text("line"))
TABLE = table_of(READ)


@lru_cache(maxsize=1)
def machine() -> tuple[Lark, Automaton, Scanner]:
    return READ, Automaton(TABLE), Scanner(TABLE)


def terminal_of(kind: str) -> str:
    """Return the terminal that a token of ours is for lark."""
    return {leaf: terminal for terminal, leaf in TABLE.leaves.items()}.get(kind, kind)


def by_lark(tokens: list[Raw]) -> object:
    """Feed our tokens to lark's own parser; None where it refuses them."""
    parser = machine()[0].parse_interactive("")
    try:
        for token in tokens:
            parser.feed_token(Token(terminal_of(token.kind), token.text))
        return plain(parser.feed_eof())  # type: ignore[no-untyped-call]
    except UnexpectedToken:
        return None


def plain(tree: object) -> object:
    """Return a tree of lark's or of ours as nested lists: the kind, then what is inside."""
    if isinstance(tree, Tree):
        kinds = set(TABLE.leaves.values())
        if tree.data in kinds:
            return [str(tree.data), str(tree.children[0])]
        return [str(tree.data), *map(plain, tree.children)]
    if isinstance(tree, Token):
        # Where a rule takes a terminal as it is (money takes NUMBER), ours is a leaf already.
        return [TABLE.leaves.get(tree.type, tree.type), str(tree)]
    assert isinstance(tree, Raw)
    return [tree.kind, *map(plain, tree.kids)] if tree.kids else [tree.kind, tree.text]


def check_tree(text: str) -> None:
    tokens, _ = machine()[2].tokens(text, 0, len(text))
    try:
        ours = plain(machine()[1].parse(tokens))
    except Unexpected:
        ours = None
    assert ours == by_lark(tokens), text


def check_tokens(text: str) -> None:
    """Compare with lark's lexer, up to the place where either stops."""
    tokens, refusal = machine()[2].tokens(text, 0, len(text))
    ours = [
        (TOLD_APART.get(token.kind, terminal_of(token.kind)), token.text, token.start)
        for token in tokens
        if token.kind not in SILENT
    ]
    theirs = []
    try:
        for token in machine()[0].lex(text):
            theirs.append((token.type, str(token), token.start_pos))
    except UnexpectedCharacters:
        assert refusal is not None
    assert ours == theirs[: len(ours)]
    assert refusal is not None or len(ours) == len(theirs)


@pytest.mark.parametrize("text", LINES)
def test_tokens_and_tree_are_those_of_lark(text: str) -> None:
    check_tokens(text)
    check_tree(text)


@given(st.text(LINE_SIGNS, max_size=30))
@settings(max_examples=400, deadline=None)
def test_any_signs_give_the_tokens_and_the_tree_of_lark(text: str) -> None:
    check_tokens(text)
    check_tree(text)


TERMINALS = [each for each in READ.terminals if each.name not in READ.ignore_tokens]


@pytest.mark.parametrize("terminal", TERMINALS, ids=lambda each: str(each.name))
def test_no_terminal_begins_with_a_sign_whose_row_leaves_it_out(terminal: TerminalDef) -> None:
    pattern, name = terminal.pattern.to_regexp(), str(terminal.name)

    @given(st.from_regex(pattern))
    @settings(max_examples=60, deadline=None)
    def holds(found: str) -> None:
        # from_regex may put anything in front; the match itself is what counts.
        match = re.search(pattern, found)
        assert match is not None
        for signs, names in BEGINNINGS.items():
            assert match[0][0] not in signs or name in names

    holds()


# -- walking and working out ---------------------------------------------------------------


def test_every_kind_of_node_can_be_walked() -> None:
    assert set(PARTS) == set(get_args(tree.Expr))


TERMS = st.sampled_from(
    ["x", "3x", "-x", "12", "-7", "0.5x", "-2.25", "0", "0x", "1/3x", "xy", "2(x + 1)", "π", "3π"]
)


@given(st.lists(TERMS, min_size=2, max_size=6))
@settings(deadline=None)
def test_the_short_way_to_a_sum_gives_what_its_terms_give(terms: list[str]) -> None:
    names = Names(frozenset({"x", "y"}))
    whole = read(" + ".join(terms), names)
    assert isinstance(whole, Readings) and isinstance(whole.statements[0], tree.Bare)
    alone = Ratio(Poly({}))
    for term in terms:
        part = read(term, names)
        assert isinstance(part, Readings) and isinstance(part.statements[0], tree.Bare)
        alone = alone + value_of(part.statements[0].expr)
    value = value_of(whole.statements[0].expr)
    assert value.above == alone.above and value.below == alone.below
    assert all(type(size) is int or size.denominator != 1 for size in value.above.terms.values())
