"""The items of a row, each looked at by itself: letters, words, a function, a unit below the line."""

from tutor.line.names import Names
from tutor.line.numerals import small_power
from tutor.line.table import Raw
from tutor.quantity.units import Unit, base_unit, counted, simple


def unit_below(under: Raw, names: Names) -> Unit | None:
    """Return the unit that stands below the line behind a measure: ``km/h``, ``m/s²``, ``$/box``.

    Where the problem has an h, the h of ``km/h`` can be that h too: the caller asks which.
    """
    run, power = letters_of(under)
    if run is None or (run is not under and power is None):
        return None
    base = base_unit(run.text)
    if names.find(run.text) is not None and (base is None or len(run.text) > 1):
        return None
    if base is not None:
        return simple(base, power or 1)
    return counted(run.text) if run is under and len(run.text) >= 3 else None


def words_in(item: Raw) -> tuple[str, ...]:
    """Return the words that an item is: ``boxes``, ``candles/box``; none where it is something else."""
    if item.kind == "name":
        return (item.text,)
    if item.kind == "over" and item.kids[0].kind == item.kids[2].kind == "name":
        return (item.kids[0].text, "per", item.kids[2].text)
    return ()


def is_function(items: list[Raw], at: int) -> bool:
    """``f(x)`` and ``g(2)``, where the problem has no such letter to multiply."""
    if items[at].text not in ("f", "g") or at + 1 >= len(items):
        return False
    bracket = items[at + 1]
    return bracket.kind == "bracket" and bracket.start == items[at].end and bool(argument_of(bracket))


def argument_of(bracket: Raw) -> str:
    """Return the name or number that alone stands in a bracket, else nothing."""
    inside = bracket.kids[1]
    sign = "−" if inside.kind == "negative" else ""
    alone = inside.kids[1] if sign else inside
    return sign + alone.text if alone.kind in ("name", "number") else ""


def letters_of(item: Raw) -> tuple[Raw | None, int | None]:
    """Return the run of letters of a name or of a name raised to a power, and a small whole power."""
    if item.kind == "name":
        return item, None
    if item.kind in ("raised", "raised_small") and item.kids[0].kind == "name":
        raised = item.kids[-1]
        exponent = small_power((raised.kids[1] if raised.kind == "bracket" else raised).text)
        return item.kids[0], int(exponent) if exponent.isdecimal() and len(exponent) == 1 else None
    return None, None


def neighbours(raw: Raw) -> list[Raw]:
    """Return the items of a row, tight ones and loose ones, from left to right."""
    if raw.kind == "beside":
        return [*neighbours(raw.kids[0]), *neighbours(raw.kids[2])]
    if raw.kind == "tight":
        return [kid for kid in raw.kids if kid.kind != "TIGHT"]
    return [raw]
