"""A line in the signs of the grammar: what is typed in their place gives way, sign for sign.

A student types ``x is at least 5``, ``2x = 10 -> x = 5``, ``root 49``, ``4x6``. Each of these
becomes the sign it stands for and spaces: the line stays as long as it is, and places stay.
"""

import re
from collections.abc import Callable
from typing import NamedTuple

from tutor.line.asides import without_asides
from tutor.line.names import Names

_Found = re.Match[str]

_VALUE = r"[-+−–±]?\s?(?:[\d.√∛(|\[$€£½⅓⅔¼¾π?∠]|[A-Za-z](?![A-Za-z]))"
_UNIT = r"(?:mm|cm|dm|km|m|in|ft|yd|mi|inch|inches|feet|foot|yards?|miles?|(?:centi|milli|kilo)?met(?:er|re)s?)"

# Nothing of what follows stands in a line without one of these.
_ASKS = re.compile(
    r"[^\W\d_]{2}|[-−–—=]>|^\s*[>#(]|\+\s?/?\s?[-−–]|[-−–]/\+|[<>=] [<>=]|===|=/=|=\?|\?=|&&|\|\||[<][A-Za-z]"
    r"|\d\s?[xX]\s?[\d(]|\$[-−–]|\d[m][23]|\^\s?[°o]|\d[_']\d|\?\?|∓|→|[A-Za-z]:\s|[|∣]\s*[|√xX]|[\w)]\. "
)


def respelled(text: str, names: Names) -> str:
    """Return the line in the signs of the grammar; as long as it was."""
    text = without_asides(_turned(text, names), names)
    if _ASKS.search(text) is None:
        return text
    for rule in _SIGNS:
        text = rule.pattern.sub(rule.sign, text)
    text = _with_times(text, names)
    text = _with_angles(text)
    text = _LABELLED.sub(lambda found: found[1] + "=" if names.find(found[1]) else found[0], text)
    if re.search(r"[^\W\d_]{2}|^\s*A:", text) is None:
        return text
    for rule in _WORDS:
        text = rule.pattern.sub(rule.sign, text)
    text = _with_letters(text, names)
    text = _OR_LESS.sub(lambda found: _padded("≤≥"[found[2].lower() in _MORE_WORDS] + " " + found[1], found), text)
    if names.asked and (found := _ANY_NUMBER.search(text)) and not re.search("[=<>≤≥]", text[: found.start()]):
        text = _ANY_NUMBER.sub(lambda found: _padded(names.asked, found), text)
    text = _ORDER.sub(lambda found: _related(found, names), text)
    return _with_the_asked(text, names)


class _Rule(NamedTuple):
    pattern: re.Pattern[str]
    sign: Callable[[_Found], str]


def _padded(sign: str, found: _Found) -> str:
    return sign + " " * (len(found[0]) - len(sign))


def _rule(pattern: str, sign: str) -> _Rule:
    """Put a sign in the place of what is found, behind its first group where there is one."""
    compiled = re.compile(pattern, re.IGNORECASE)

    def replaced(found: _Found) -> str:
        return _padded((found[1] if compiled.groups else "") + sign, found)

    return _Rule(compiled, replaced)


_SIGNS = (
    _rule(r"<[-−–=]{1,3}>", "⇔"),
    _rule(r"(?:[-−–—]{1,3}|={2,3})>", "→"),
    # "2x = 10 => x = 5": between two comparisons it is an arrow, in "x => 5" it is ≥.
    _rule(r"([=<>≤≥][^=<>≤≥→]{1,60})=>(?=[^=<>≤≥→]+[=<>≤≥])", "→"),
    _rule(r"^(\s*[A-Za-z]\s*)→(?=\s*[-−–±]?\s?[\d.√(][^=<>≤≥]*$)", "="),
    _rule(r"^\s*>{1,3}(?=\s+[^<>≤≥]*=[^<>≤≥]*$)", "→"),
    _rule(r"((?:^|[=<>≤≥≈(\[{,;]|\bor\b)\s*)(?:\+\s?/?\s?[-−–]|[-−–]/\+)(?=\s*[\d.√(|A-Za-z$])", "±"),
    _rule(r"\+\s/\s[-−–]", "±"),
    _rule(r"> =", "≥"),
    _rule(r"< =", "≤"),
    _rule(r"= >(?=\s*[-−–.\d])", "≥"),
    _rule(r"= <(?=\s*[-−–.\d])", "≤"),
    _rule(r"=/=", "≠"),
    _rule(r"(=\s*)\?{2,}", "?"),
    _rule(r"(?<=\d)'(?=\d{3}(?!\d))", " "),  # 1'000
    _rule(r"∓(?=[^±]*$)", "±"),
    _rule(r"===|\?=|=\?\s?(?=[\d(])", "="),
    _rule(r"&&", "&"),
    _rule(r"(\d\s*)\|\|(?=\s*[A-Za-z]\s*[=<>≤≥])", "∨"),
    _Rule(re.compile(r"(\$)([-−–])(?=\s?[\d.])"), lambda found: found[2] + found[1]),
    _Rule(
        re.compile(rf"(?<=\d)( ?{_UNIT})([23])(?![\d.\w])", re.IGNORECASE),
        lambda found: found[1] + "²³"["23".index(found[2])],
    ),
    _rule(r"(?<=\d)\^\s?(?:°|o(?![A-Za-z]))", "°"),
    _rule(r"(?<=\d)_(?=\d+/\d)", " "),
    _rule(r"^\s*\(1\)(?=\s+[A-Za-z][^=]*=)", ""),
    # Two sentences, and what is done to both sides behind a stroke.
    _rule(r"([=<>≤≥][^=<>≤≥]*[\w)])\.(?=\s+[\w(][^=<>≤≥]*[=<>≤≥])", ","),
    _rule(r"([=<>≤≥][^|∣]*?)\s+[|∣]{1,2}\s*(?:√|sqrt|[xX]\s?\d+|[-+−–÷:/*·×]\s?[\w.]+|[A-Za-z]{3,}[^|∣=<>≤≥]*)\s*$", ""),
)

_TIMES = re.compile(rf"(?<=[\d)])(\s?)[xX](?=\s?(?:\d*\.\d|\d|\())|(?<=\d)(\s?{_UNIT}\s?)[xX](?=\s?[\d.])")
_LETTERS_TIMES = re.compile(r"(?<![A-Za-z])[A-Za-z](?:[xX][A-Za-z])+(?![A-Za-z])")
_POWER_LIKE = re.compile(r"\s?[23](?![\d.])")


def _with_times(text: str, names: Names) -> str:
    """``4x6``, ``8cmx7cm``, ``bxh``: the x between two numbers, and where the problem has no x.

    ``2x3`` beside an x is left alone: it can be a power too.
    """
    known = names.find("x") is not None

    def times(found: _Found) -> str:
        before = found[1] if found[1] is not None else found[2]
        behind = found.string[found.end() :]
        apart = before.endswith(" ") and behind.startswith(" ")
        if apart and not known:
            return found[0]  # the row settles it
        if known and found[2] is None and (apart or behind[:1] in " (" or before or _POWER_LIKE.match(behind)):
            return found[0]
        return before + "×"

    def product(found: _Found) -> str:
        letters = found[0][::2]
        if known or any(letter in "xX" or names.find(letter) is None for letter in letters):
            return found[0]
        return "×".join(letters)

    if "x" not in text and "X" not in text:
        return text
    return _LETTERS_TIMES.sub(product, _TIMES.sub(times, text))


_ANGLE = re.compile(r"(^|[-+−–(]\s*|=\s+)(m\s?)?<\s?([A-Z]{1,3}(?![A-Za-z])|[a-z](?=\s*=))(?=[^>]*=)")


def _with_angles(text: str) -> str:
    """``<A + <B = 180``: the sign of an angle as it is typed on a plain keyboard."""
    if "<" not in text or "=" not in text:
        return text
    return _ANGLE.sub(lambda found: found[0].replace("<", "∠"), text)


_WORDS = (
    _rule(r"\bplus\s*(?:/|or)\s*minus\b", "±"),
    _rule(r"(?:\bthe\s+)?\b(?:square\s?root|sq\.?\s?root|sqroot)\b(?:\s+of\b)?(?=\s*[\d(√.A-Za-z])", "√"),
    _rule(r"(?:\bthe\s+)?\b(?:cube\s?root|cubic\s+root)\b(?:\s+of\b)?(?=\s*[\d(√.A-Za-z])", "∛"),
    _rule(r"\broot\b(?:\s+of\b)?(?!\s*\(\s*\d{1,3}\s*,)(?=\s*(?:[\d(.]|[A-Za-z](?![A-Za-z])))", "√"),
    _rule(r"(?<=\d)(\s?)(?:degrees?\s+celsius|deg\s+C)\b", "°C"),
    _rule(r"(?<=\d)(\s?)(?:degrees?\s+fahrenheit|deg\s+F)\b", "°F"),
    _rule(r"(?<=[\d)])(\s?)(?:deg[re]{2,4}s{1,2}|dgre{1,2}s)\b", "°"),
    _rule(r"\bmultiplied\s+by\b", "×"),
    _rule(r"((?<!is )(?<!\w\w)(?:[\w)\]]))\s+over\b(?=\s+(?:[-−–]?[\d(]|[A-Za-z](?![A-Za-z])))", " /"),
    _rule(r"=\s*(?:about|around|roughly|approx(?:imately|\.)?)(?![A-Za-z])", "≈"),
    _Rule(
        re.compile(rf"(?<=\d)\s(sq|cu)(?={_UNIT}(?![A-Za-z]))", re.IGNORECASE),
        lambda found: found[1] + " ",
    ),
    _rule(rf"\bsquared(?=\s+{_UNIT}(?![A-Za-z]))", "square"),
    _rule(rf"\bcubed(?=\s+{_UNIT}(?![A-Za-z]))", "cubic"),
    _rule(rf"(\d\s?{_UNIT}\.?\s+)sq\b\.?(?!\s*[A-Za-z(])", "²"),
    _rule(rf"(\d\s?{_UNIT}\.?\s+)cu\b\.?(?!\s*[A-Za-z(])", "³"),
    _Rule(
        re.compile(rf"(?<=\d)(\s?)({_UNIT})((?:\s?[·*×]\s?\2){{1,2}})(?![A-Za-z\d²³^])"),
        lambda found: _padded(found[1] + found[2] + "²³"[len(re.findall("[·*×]", found[3])) - 1], found),
    ),
    _rule(r"\bor\s+else\b", "or"),
    _rule(r"^\s*either\b", ""),
    _rule(r"(\d\s*)[,;]?\s*\b(?:but\s+also|and\s+also|also)\b", "and"),
    # Between two comparisons: steps of one line.
    _rule(
        r"([=<>≤≥][^=<>≤≥]*?)(?:[,;]\s*)?\b(?:and\s+so|which\s+(?:means|gives|makes|is)|that\s+(?:means|gives)"
        r"|this\s+(?:means|gives)|means(?:\s+that)?|gives|implies|leads\s+to|and\s+then|so\s+(?:we|i|you)\s+get)\b"
        r"(?=[^=<>≤≥]*[=<>≤≥])",
        "→",
    ),
    _rule(r"(?:\bthe\s+)?\bvalue\s+(?:of|for)\b(?=\s+[A-Za-z]\s*(?:=|:|≈|is\b|equals|must|has|would|will))", ""),
)

# -- a comparison in words ----------------------------------------------------------------------

_BE = r"(?:(?:must|has\s+to|will|should|would|can\s+only|could|may|might)\s+be|is|are)"
_MORE = r"(?:greater|more|bigger|larger|higher)"
_LESS = r"(?:less|smaller|lower|fewer)"
_OR_EQUAL = r"\s+than\s+or\s+(?:is\s+)?(?:equal(?:s)?(?:\s+to)?|the\s+same\s+as)"
_ORDERS = {
    "ge": rf"(?:{_BE}\s+)?(?:{_MORE}{_OR_EQUAL}|at\s+least|(?:no|not)\s+{_LESS}\s+than)",
    "le": rf"(?:{_BE}\s+)?(?:{_LESS}{_OR_EQUAL}|at\s+most|(?:no|not)\s+{_MORE}\s+than)",
    # "5 less than x" takes away; "is less" and "smaller" compare.
    "gt": rf"(?:{_BE}\s+{_MORE}|greater|bigger|larger)\s+than",
    "lt": rf"(?:{_BE}\s+{_LESS}|smaller)\s+than",
    "ne": (
        r"(?:is\s+not|isn't|are\s+not|aren't|does\s+not|doesn't|can\s?not|can't|must\s+not|not)\s+(?:be\s+|equals?(?:\s+to)?)+"
        r"|is\s+not|isn't|is\s+never"
    ),
    "ap": rf"(?:{_BE}\s+)?(?:about|approx(?:imately|\.)?|roughly|around|almost)(?:\s+equal\s+to)?",
    "eq": (
        rf"{_BE}\s+(?:exactly\s+|just\s+|only\s+)?(?:equal\s+to|the\s+same\s+as)"
        r"|(?:must|would|will|should|has\s+to|can\s+only)\s+equal|equals?\s+to|(?:is\s+)?equals?(?:\s+to)?"
        rf"|{_BE}(?:\s+(?:exactly|just|only))?"
    ),
}
_MORE_WORDS = frozenset({"more", "greater", "bigger", "larger", "higher", "above", "over"})
_OR_LESS = re.compile(
    r"\bis\s+([-−–]?[\d./]+)\s+or\s+(less|fewer|lower|smaller|below|under|more|greater|bigger|larger|higher|above|over)\b",
    re.IGNORECASE,
)
_ANY_NUMBER = re.compile(
    r"(?:\b[a-z]\s+(?:can\s+be|is|could\s+be|must\s+be)\s+)?\b(?:(?:any|all|every|each)\s+(?:real\s+)?)?numbers?(?:\s+that\s+(?:is|are))?"
    rf"(?=\s+(?:{_MORE}|{_LESS})\s+than\b|\s+at\s+(?:least|most)\b|\s*[<>≤≥])",
    re.IGNORECASE,
)
_SIGN_OF = {"ge": "≥", "le": "≤", "gt": ">", "lt": "<", "ne": "≠", "ap": "≈", "eq": "="}
_ORDER = re.compile(
    r"\b(?:" + "|".join(f"(?P<{kind}>{pattern})" for kind, pattern in _ORDERS.items()) + r")(?![A-Za-z'])",
    re.IGNORECASE,
)
_ENDS_A_VALUE = re.compile(
    r"(?:[\d)\]}|°%π²³?$€£¢′]|(?<![A-Za-z'])[A-Za-z](?:_?\w)?|∠\s?\w+|angle\s+\w{1,3}|squared|cubed|percent|"
    + _UNIT
    + r")\s*$",
    re.IGNORECASE,
)
_CLAUSE = re.compile(r"[=<>≤≥≠≈,;→]|\b(?:or|and|so)\b", re.IGNORECASE)
_BEGINS_A_VALUE = re.compile(rf"\s*(?:{_VALUE}|[±√∛]|pi\b|angle\s|negative\s|minus\s|plus\s)", re.IGNORECASE)
_COMPARES = re.compile(r"\b(?:more|less|times\s+as|as\s+many|twice|half|than)\b", re.IGNORECASE)
_FINE = frozenset(
    {"angle", "plus", "minus", "times", "divided", "by", "squared", "cubed", "percent", "of", "pi", "over", "sqrt", "m"}
    | {"sq", "square", "cubic", "cu", "so", "then", "therefore", "thus", "hence", "and", "or", "now", "check", "let"}
)


def _related(found: _Found, names: Names) -> str:
    """Put the sign for a comparison in words, where a value stands on both sides of it."""
    text = found.string
    left = _CLAUSE.split(text[: found.start()])[-1]
    right = text[found.end() :]
    if not left.strip() or _ENDS_A_VALUE.search(left) is None or _BEGINS_A_VALUE.match(right) is None:
        return found[0]
    if _COMPARES.search(right) is not None:
        return found[0]
    for word in re.findall(r"[A-Za-z']{2,}", left):
        if word.lower() not in _FINE and names.find(word) is None and not _is_unit(word):
            return found[0]
    kind = found.lastgroup
    return _padded(_SIGN_OF[kind or "eq"], found)


def _is_unit(word: str) -> bool:
    return re.fullmatch(_UNIT, word, re.IGNORECASE) is not None


# -- words for the letters of the problem --------------------------------------------------------

# "The area is 24": a measure goes by its first letter, where the problem has that letter.
_MEASURES = (
    "area|volume|perimeter|circumference|radius|diameter|height|width|length|base|side|distance|time|rate|speed|cost"
)
_MEASURE = re.compile(
    rf"(?:\bthe\s+|\bits\s+)?(?<![A-Za-z])({_MEASURES})(?![A-Za-z'])(?:\s+of\s+(?:the|this|a|one)\s+[a-z]{{3,12}})?(\s*:(?=\s*[-−–]?[\d.$]))?"
    r"(?=\s*(?:[=≈:+*×·/)−–\d-]|is\b|equals\b|x\s|times\b|$))",
    re.IGNORECASE,
)
_OPEN_WORDS = re.compile(r"\b(?:what|find|how|which)\b", re.IGNORECASE)


def _with_letters(text: str, names: Names) -> str:
    """``area = base × height`` as ``A = b × h``, where these are letters of the problem."""
    if not names.known or _OPEN_WORDS.search(text):
        return text

    def letter(found: _Found) -> str:
        word = found[1]
        if names.find(word) is not None:
            return found[0]
        low = word[0].lower()
        cases = [name for name in (low, low.upper()) if name in names.known]
        if len(cases) != 1:
            return found[0]
        return _padded(cases[0] + " =" if found[2] else cases[0], found)

    return _MEASURE.sub(letter, text)


# "b: 4 cm", where nothing is compared.
_LABELLED = re.compile(r"(?<![^\s,;])([A-Za-z]):(?=\s+[-−–]?[\d.$][^=<>≤≥]*$)")

# -- the answer -----------------------------------------------------------------------------------

_ANSWER = re.compile(
    r"\s*(?:(?:so|then|therefore|thus|hence|and)[\s,]+)?(?:(?:the|my|our)\s+)?(?:(?:two|both|2)\s+(?=answers|solutions))?"
    r"(?:(?:final\s+)?(?:answers?|ans|solutions?|result)\b\.?\s*(?:is|are|was|would\s+be|must\s+be|equals|=|:)?"
    r"|it(?:'s|\s+is|\s+equals|\s*=)|A:)\s*(?=[-−–+±$€£√]?\s?[\d.√½⅓⅔¼¾π][^+*×·(){}=<>≤≥≈]*$)",
    re.IGNORECASE,
)
_IS_IT = re.compile(
    r"(?<=[\d°%²³π])(\s*)(?:is|was)\s+(?:the|my|our)\s+(?:final\s+)?(?:answer|solution)\b", re.IGNORECASE
)


def _with_the_asked(text: str, names: Names) -> str:
    """``answer: 5`` as ``x = 5`` where x alone is asked for."""
    if not names.asked:
        return text
    said = f"{names.asked} ="
    if text.lstrip()[:2] == "A:" and not names.find("A") and "=" in text:
        return text.replace("A:", "  ", 1)
    found = _ANSWER.match(text)
    if found is not None and len(found[0]) >= len(said) and not (found[0].strip() == "A:" and names.find("A")):
        rest = text[found.end() :]
        several = _SEVERAL.search(found[0]) is not None
        return _padded(said, found) + (re.sub(r"\band\b", "or ", rest) if several else rest)
    return text


_SEVERAL = re.compile("answers|solutions", re.IGNORECASE)


def _turned(text: str, names: Names) -> str:
    """``5 is the answer`` as ``5 = x``."""
    found = _IS_IT.search(text) if names.asked and "is" in text else None
    behind = f" = {names.asked}"
    if found is None or re.search("[=<>≤≥≈]", text[: found.start()]) or len(found[0]) < len(behind):
        return text
    return text[: found.start()] + _padded(behind, found) + text[found.end() :]


# -- second ways -----------------------------------------------------------------------------------

_SIGNED = re.compile(r"((?:^|[=<>≤≥≈(,;]|\bor\b)\s*\+)\s?[-−–]")
_NUMBERED = re.compile(r"\s*(?:\(\d{1,2}\)|\d{1,2}:)\s+(?=[A-Za-z].*[=<>≤≥])")
_DONE_BEHIND = re.compile(r"(?<=[\w)])(?:\s+[/÷:]\d+|\s+[(\[]\s?[-+−–]\s?\d+\s?[)\]])$")
_HIGH_ZERO = re.compile(r"(?<=\d\d)(?<!10)⁰(?![⁰¹²³⁴-⁹])")
_EITHER = re.compile(r"(=\s*\+?)(\d+(?:\.\d+)?)\s?/(?=\s?[-−–+]\s?\2\s*$)")
_TWO_EQUATIONS = re.compile(r"(?<=[\w)°%²³])\s(?=[A-Za-z](?:_?\d)?\s?[=:]\s?[^=]+$)")


_BY_DIGITS = re.compile(r"⁰|\d[xX]\d|^\s*\(\d+\)|/\s?[-−–+]\s?\d[\d.]*\s*$")


def decided_by_digits(text: str) -> bool:
    """Tell whether another number in a line could have it read in another way: ``4x6``, ``5/-5``."""
    return _BY_DIGITS.search(text) is not None


def other_spellings(text: str, names: Names) -> tuple[str, ...]:
    """Return what else a line can be meant as: read too, behind the first way."""
    found: list[str] = []
    if "+" in text and (signed := _SIGNED.search(text)) and "/" not in signed[0]:
        found.append(text)
    if (number := _NUMBERED.match(text)) is not None:
        found.append(" " * number.end() + text[number.end() :])
    if "=" in text and (done := _DONE_BEHIND.search(text)) is not None:
        found.append(text[: done.start()] + " " * len(done[0]))
    if "⁰" in text and _HIGH_ZERO.search(text):
        found.append(_HIGH_ZERO.sub("°", text))
    if "/" in text and _EITHER.search(text) is not None:
        found.append(_EITHER.sub(lambda each: each[1] + each[2] + "," + " " * (len(each[0]) - len(each[1] + each[2]) - 1), text))
    if text.count("=") > 1 and (gap := _TWO_EQUATIONS.search(text)) and "=" in text[: gap.start()]:
        found.append(text[: gap.start()] + "," + text[gap.end() :])
    if " and " in text and (mixed := re.search(r"(?<=\d) and (?=\d+/\d+(?![\w.]))", text)):
        found.append(text[: mixed.start()] + " " * 5 + text[mixed.end() :])
    return tuple(each for each in found)
