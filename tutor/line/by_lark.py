"""The grammar of a line, worked out by lark: its table of moves and its terminals as plain data."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, ClassVar

from lark import Lark, Token
from lark.parsers.lalr_analysis import Shift

from tutor.line.table import Rule, Table


class _KeepsBars:
    """Tells lark to keep a terminal that no rule names: the scanner tells BAR apart."""

    always_accept: ClassVar[tuple[str, ...]] = ("BAR",)

    def process(self, stream: Iterator[Token]) -> Iterator[Token]:
        return stream


def lark_of(grammar: str) -> Lark:
    """Return lark's reading of the text of a grammar."""
    return Lark(
        grammar,
        parser="lalr",
        lexer="basic",
        postlex=_KeepsBars(),
        keep_all_tokens=True,
        maybe_placeholders=False,
    )


def table_of(read: Lark) -> Table:
    """Return the table of a grammar that lark has read: the same one each time."""
    conf = read.parse_interactive("").parser_state.parse_conf
    leaves = dict(
        sorted((str(rule.expansion[0].name), str(rule.alias)) for rule in read.rules if _is_leaf(rule))
    )
    shifts: dict[int, dict[str, int]] = {}
    reductions: dict[int, dict[str, Rule]] = {}
    for state, row in conf.states.items():
        moves = [(leaves.get(str(sign), str(sign)), *move) for sign, move in row.items()]
        shifts[state] = {name: where for name, action, where in moves if action is Shift}
        reductions[state] = {name: _rule(rule) for name, action, rule in moves if action is not Shift}
    order = _in_order(conf.start_state, shifts)
    number = {state: at for at, state in enumerate(order)}
    rules = sorted({rule for row in reductions.values() for rule in row.values()})
    return Table(
        number[conf.start_state],
        number[conf.end_state],
        [{name: number[where] for name, where in sorted(shifts[state].items())} for state in order],
        [{name: rules.index(rule) for name, rule in sorted(reductions[state].items())} for state in order],
        rules,
        leaves,
        *_terminals(read),
    )


def _in_order(start: int, shifts: Mapping[int, Mapping[str, int]]) -> list[int]:
    """Return the states as they are reached: lark numbers them in another order at each start."""
    order = [start]
    seen = {start}
    for state in order:  # it grows meanwhile
        for _, where in sorted(shifts[state].items()):
            if where not in seen:
                seen.add(where)
                order.append(where)
    return order


def _terminals(read: Lark) -> tuple[str, list[tuple[str, str]]]:
    """Return what is passed over, and the others in the order that lark's basic lexer tries them in."""
    ignored = [each for each in read.terminals if each.name in read.ignore_tokens]
    ranked = sorted(
        (each for each in read.terminals if each.name not in read.ignore_tokens),
        key=lambda each: (-each.priority, -each.pattern.max_width, -len(each.pattern.value), each.name),
    )
    spaces = "|".join(each.pattern.to_regexp() for each in ignored)
    return spaces, [(str(each.name), each.pattern.to_regexp()) for each in ranked]


def _is_leaf(rule: Any) -> bool:
    return len(rule.expansion) == 1 and rule.alias is not None and rule.expansion[0].is_term


def _rule(rule: Any) -> Rule:
    origin, parts = str(rule.origin.name), _named(rule.expansion)
    bare = len(parts) == 1 and rule.alias is None and rule.options.expand1
    splices = any(part.startswith("_") for part in parts)
    nothing = bare or origin.startswith("_") or _is_leaf(rule)
    return Rule(origin, len(parts), "" if nothing else str(rule.alias or origin), splices)


def _named(parts: Sequence[Any]) -> list[str]:
    return [str(part.name) for part in parts]
