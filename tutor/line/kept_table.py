"""The table of the line's grammar, kept between one start of the program and the next.

lark takes longer to work it out than a class of lines takes to be marked. It is kept as JSON in the
folder that the system has for what can be made again, and made again wherever it does not fit.
"""

import json
import os
from contextlib import suppress
from importlib.util import find_spec
from pathlib import Path
from typing import Any
from zlib import crc32

from tutor.line.table import Rule, Table
from tutor.resources import grammar_text

_MAKER = Path(__file__).with_name("by_lark.py")


def line_table() -> Table:
    """Return the table of ``grammar/line.lark``."""
    grammar = grammar_text("line")
    made_from = _made_from(grammar)
    place = None if made_from is None else _place()
    found = None if place is None else _kept(place, made_from)
    if found is not None:
        return found
    from tutor.line.by_lark import lark_of, table_of  # lark is loaded where there is something to read

    table = table_of(lark_of(grammar))
    if place is not None:
        _keep(place, made_from, table)
    return table


def _place() -> Path | None:
    """Return the file: in EVENLINE_CACHE where that is set, else where the system wants it."""
    chosen = os.environ.get("EVENLINE_CACHE", "")
    if chosen:
        return Path(chosen) / "line.json"
    import platformdirs

    return Path(platformdirs.user_cache_dir("evenline", appauthor=False)) / "line.json"


def _made_from(grammar: str) -> list[Any] | None:
    """Return all that a table depends on, None where that cannot be told: then it is not kept."""
    library = find_spec("lark")
    if library is None or library.origin is None:
        return None
    try:
        return [grammar, *_stamp(Path(library.origin)), *_stamp(_MAKER)]
    except OSError:
        return None


def _stamp(file: Path) -> tuple[int, int]:
    found = file.stat()
    return found.st_size, found.st_mtime_ns


def _kept(place: Path, made_from: list[Any] | None) -> Table | None:
    """Return the table that is kept, None where it is another one, or was damaged."""
    try:
        check, _, text = place.read_text(encoding="utf-8").partition("\n")
        if check != _check(text):
            return None
        kept = json.loads(text)
        if kept["made from"] != made_from:
            return None
        table = Table(**kept["table"])
        rules = [Rule(*rule) for rule in table.rules]
        terminals = [(name, pattern) for name, pattern in table.terminals]
    except (OSError, ValueError, TypeError, KeyError):
        return None
    return table._replace(rules=rules, terminals=terminals)


def _keep(place: Path, made_from: list[Any] | None, table: Table) -> None:
    """Write a table down. Where that cannot be done it is worked out next time, as it was now."""
    text = json.dumps({"made from": made_from, "table": table._asdict()}, separators=(",", ":"))
    beside = place.with_name(f"{place.name}.{os.getpid()}")
    with suppress(OSError):
        place.parent.mkdir(parents=True, exist_ok=True)
        beside.write_text(f"{_check(text)}\n{text}", encoding="utf-8", newline="\n")
        beside.replace(place)  # at once, whoever else reads or writes it
    with suppress(OSError):
        beside.unlink(missing_ok=True)


def _check(text: str) -> str:
    return f"{crc32(text.encode()):08x}"
