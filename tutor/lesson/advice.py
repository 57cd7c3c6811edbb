"""What a teacher meant by an entry that cannot be read: the same words, written as they are read."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from difflib import get_close_matches

from tutor.lesson.keywords import Keyword
from tutor.lesson.naming import is_length
from tutor.quantity.units import read_unit

_NUMBER = r"[-−+]?(?:\d+(?:[.,]\d+)?(?:/\d+)?|[.,]\d+)"
_NAME = r"[^\W\d_]+[\d₀-₉]?"
_STEP = re.compile(rf"(?:step|steps|by|in steps of|every)\s*(?:of\s*)?({_NUMBER})")
_BETWEEN = re.compile(
    rf"({_NUMBER})\s*[^\W\d]*[²³]?\s*(?:to|until|till|and|-|–|—|…|\.\.\.?|,|;)\s*({_NUMBER})(?!\s*[,;]\s*\d)"
)
_LIST = re.compile(rf"{_NUMBER}(?:\s*(?:[,;|/]|or|and|\s)\s*{_NUMBER})+")


def meant(keyword: Keyword, body: str) -> Iterator[str]:
    """Yield what the text behind a keyword may have been meant to be, the likeliest first.

    Whoever asks tries whether it can be read.
    """
    yield from _WAYS.get(keyword, _none)(" ".join(body.split()))


def _none(_body: str) -> Iterator[str]:
    return iter(())


def _point(number: str) -> str:
    return number.replace(",", ".")


def _vary(body: str) -> Iterator[str]:
    found = re.match(_NAME, body)
    if found is None:
        return
    name, rest = found[0], body[found.end() :]
    step = _STEP.search(rest)
    ending = f" step {_point(step[1])}" if step else ""
    rest = rest[: step.start()] if step else rest
    numbers = [_point(number) for number in re.findall(_NUMBER, _without_units(rest))]
    ends = _BETWEEN.search(rest)
    listed = re.match(r"\s*(?:in|=|:)?\s*[\[{(]?\s*" + _LIST.pattern, rest)
    if ends is not None and not (listed and (len(numbers) > 2 or rest.split()[:1] == ["in"])):
        yield f"{name} from {_point(ends[1])} to {_point(ends[2])}{ending}"
    if len(numbers) > 1 and (listed or "in" in rest.split()):
        yield f"{name} in {', '.join(numbers)}"
    if len(numbers) == 2:
        yield f"{name} from {numbers[0]} to {numbers[1]}{ending}"


def _without_units(text: str) -> str:
    return re.sub(r"(?<=\d)\s*[^\W\d_]+", " ", text)


def _find(body: str) -> Iterator[str]:
    yield re.sub(r"\s*,?\s+in\b", " in", body)
    found = re.fullmatch(rf"({_NAME})\s*(?:[:=]?\s*\??|,)\s*(?:\bin\b)?\s*[(\[]?([^()\[\]]*?)[)\]]?", body)
    if found is None:
        return
    unit = found[2].strip(" ?=")
    if unit and read_unit(unit) is not None:
        yield f"{found[1]} in {unit}"
    elif not unit and not body.endswith(" in"):
        yield found[1]


def find_meant(text: str) -> str:
    """Return ``r in cm`` for ``r cm`` or ``r (cm)``, "" where it is no name with its unit."""
    return next((one for one in _find(text) if " in " in one), "")


def finds_meant(names: Sequence[str], units: str) -> str:
    """Return the first find of several that share a line: ``B and C in °`` for ``B in ° and C in °``.

    ``units``: what stands behind the first ``in``. Returns "" where that is not several units.
    """
    pieces = re.split(r"\s*,\s*(?:and\s+)?|\s+and\s+", units)
    asked = [(name, unit) for name, sign, unit in (piece.rpartition(" in ") for piece in pieces) if unit]
    if len(pieces) < 2 or any(read_unit(unit) is None for _name, unit in asked):
        return ""
    first = asked[0][1]
    alike = [name.strip() for name, unit in asked if unit == first]
    return f"{' and '.join(filter(None, (*names, *alike)))} in {first}"


_IS = re.compile(r"(.*?\S)\s*(?::=|==|=>|:|\bis\b|\bequals\b|\bof\b)\s*=?\s*(\S.*)")


def _equals(body: str) -> Iterator[str]:
    if "=" not in body or re.search(r":=|==|=>", body):
        found = _IS.fullmatch(body)
        if found is not None:
            yield f"{found[1]} = {found[2]}"
    if "=" not in body and " " in body:
        name, value = body.split(" ", 1)
        yield f"{name} = {value}"


_WORDS = ("zero", "one", "two", "three", "four", "five", "six")
_PLACES = {"tenth": 1, "hundredth": 2, "thousandth": 3}


def _round(body: str) -> Iterator[str]:
    text = body.casefold()
    way = "up to" if re.search(r"\bup\b", text) else "down to" if re.search(r"\bdown\b", text) else "to"
    for word, places in _PLACES.items():
        if re.search(rf"\b{word}s?\b", text):
            yield f"{way} {places} {'place' if places == 1 else 'places'}"
    number = re.search(r"\d+", text)
    count = number[0] if number else next((str(n) for n, w in enumerate(_WORDS) if w in text.split()), "")
    if count and len(count) == 1 and count != "0":
        yield f"{way} {count} {'place' if count == '1' else 'places'}"
    elif re.search(r"whole|nearest|next|integer|unit|^(up|down)$|\b0\b", text):
        yield f"{way} a whole number"


def _pi(body: str) -> Iterator[str]:
    text = re.sub(r"[\s=≈]", "", body).replace(",", ".").casefold()
    yield {"3.14": "3.14", "22/7": "22/7", "π": "exact", "exact": "exact"}.get(text, "")


def _commas(body: str) -> Iterator[str]:
    yield re.sub(r"\s*(?:[,;|/]|,?\s+or\b)\s*", ", ", body).strip(" ,.")
    yield re.sub(r"\s*(?:[,;|/]|,?\s+(?:or|and)\b)\s*", ", ", body).strip(" ,.")


def choices_meant(text: str) -> str:
    """Return ``a, b, c`` for ``a; b; c`` or ``a or b or c``, "" where nothing parts it."""
    found = next(_commas(text))
    return found if "," in found else ""


def _figure(body: str) -> Iterator[str]:
    yield re.sub(r"\s*[:=]\s*", " ", re.sub(r"\s*[;|]\s*", ", ", body)).strip(" ,.")


def lengths_meant(text: str) -> str:
    """Return ``4 cm, 6 cm, 9 cm`` for three lengths written in some other way, "" for anything else."""
    found = re.findall(rf"({_NUMBER})\s*([^\W\d_]*)", text)
    if len(found) != 3:
        return ""
    units = [unit for _number, unit in found if is_length(unit)]
    usual = units[-1] if units else "cm"
    return ", ".join(f"{number.lstrip('-−,')} {unit if is_length(unit) else usual}" for number, unit in found)


def _within(body: str) -> Iterator[str]:
    numbers = re.findall(r"\d+(?:\.\d+)?", body)
    if len(numbers) == 2 and not re.search(r"[cd]m|in", body):
        yield f"{numbers[0]} mm and {numbers[1]}°"


def _write(body: str) -> Iterator[str]:
    yield body.split("=")[0].strip()


def _first(body: str) -> Iterator[str]:
    yield re.split(r"\s*[,;]", body)[0]


def _review(body: str) -> Iterator[str]:
    number = re.search(r"\d+", body)
    names = re.sub(r"\.lesson\b", "", re.sub(r"^.*?\bfrom\b|\d+\s*(?:problems?)?", "", body))
    listed = ", ".join(name for name in re.split(r"[\s,;]+|\band\b", names) if name and name != "of")
    if listed:
        yield f"{number[0] if number else 8} from {listed}"


_STEP_WORDS = ("formula", "label", "substitute", "units", "check")


def _steps(body: str) -> Iterator[str]:
    words = [word for word in re.split(r"[\s,;]+|\band\b", body.casefold()) if word]
    near = [get_close_matches(word[:20], _STEP_WORDS, n=1, cutoff=0.7) for word in words]
    if near and all(near):
        yield ", ".join(dict.fromkeys(found[0] for found in near))


def steps_meant(text: str) -> str:
    """Return ``formula, label`` for ``formulas label``, "" where it is no list of steps."""
    return next(_steps(text), "")


_WAYS: dict[Keyword, Callable[[str], Iterator[str]]] = {
    Keyword.VARY: _vary,
    Keyword.FIND: _find,
    Keyword.GIVEN: _equals,
    Keyword.PIECE: _equals,
    Keyword.ROUND: _round,
    Keyword.PI: _pi,
    Keyword.FIGURE: _figure,
    Keyword.NAMES: _commas,
    Keyword.COVERS: _commas,
    Keyword.CHOOSE: _commas,
    Keyword.ANSWER: _commas,
    Keyword.ALSO: _commas,
    Keyword.NEAR: _commas,
    Keyword.WITHIN: _within,
    Keyword.WRITE: _write,
    Keyword.WORD: _first,
    Keyword.REVIEW: _review,
    Keyword.STEPS: _steps,
}
