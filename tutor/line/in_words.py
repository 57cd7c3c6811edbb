"""Words that stand for signs: “is at least”, “root 49”, “the area is”, “answer:”."""

import re

from tutor.line.late import Late
from tutor.line.names import Names
from tutor.line.rules import UNIT, VALUE, Found, Rule, padded, rule


def in_signs(text: str, names: Names) -> str:
    """Return the line with signs in the place of the words for them; as long as it was."""
    for each in _WORDS:
        text = each.pattern.sub(each.sign, text)
    text = _with_letters(text, names)
    text = _OR_LESS.sub(_or_less, text)
    some = _ANY_NUMBER.search(text) if names.asked else None
    if some is not None and re.search("[=<>≤≥]", text[: some.start()]) is None:
        text = _ANY_NUMBER.sub(lambda found: padded(names.asked, found), text)
    text = _ORDER.sub(lambda found: _related(found, names), text)
    return _with_the_asked(text, names)


_WORDS = (
    rule(r"\bplus\s*(?:/|or)\s*minus\b", "±"),
    rule(r"(?:\bthe\s+)?\b(?:square\s?root|sq\.?\s?root|sqroot)\b(?:\s+of\b)?(?=\s*[\d(√.A-Za-z])", "√"),
    rule(r"(?:\bthe\s+)?\b(?:cube\s?root|cubic\s+root)\b(?:\s+of\b)?(?=\s*[\d(√.A-Za-z])", "∛"),
    rule(r"\broot\b(?:\s+of\b)?(?!\s*\(\s*\d{1,3}\s*,)(?=\s*(?:[\d(.]|[A-Za-z](?![A-Za-z])))", "√"),
    rule(r"(?<=\d)(\s?)(?:degrees?\s+celsius|deg\s+C)\b", "°C"),
    rule(r"(?<=\d)(\s?)(?:degrees?\s+fahrenheit|deg\s+F)\b", "°F"),
    rule(r"(?<=[\d)])(\s?)(?:deg[re]{2,4}s{1,2}|dgre{1,2}s)\b", "°"),
    rule(r"\bto\s+the\s+(?:second|2nd)\s+power(?:\s+of)?\b", "^2"),
    rule(r"\bto\s+the\s+(?:third|3rd)\s+power(?:\s+of)?\b", "^3"),
    rule(r"\bto\s+the\s+(?:fourth|4th)\s+power(?:\s+of)?\b", "^4"),
    rule(r"(?<![A-Za-z])([A-Za-z])squared\b", "²"),
    rule(r"(?<![A-Za-z])([A-Za-z])cubed\b", "³"),
    rule(r"\bmultiplied\s+by\b", "×"),
    rule(r"((?<!is )(?<!\w\w)(?:[\w)\]]))\s+over\b(?=\s+(?:[-−–]?[\d(]|[A-Za-z](?![A-Za-z])))", " /"),
    rule(r"=\s*(?:about|around|roughly|approx(?:imately|\.)?)(?![A-Za-z])", "≈"),
    Rule(
        Late(rf"(?<=\d)\s(sq|cu)(?={UNIT}(?![A-Za-z]))", re.IGNORECASE),
        lambda found: found[1] + " ",
    ),
    rule(rf"\bsquared(?=\s+{UNIT}(?![A-Za-z]))", "square"),
    rule(rf"\bcubed(?=\s+{UNIT}(?![A-Za-z]))", "cubic"),
    rule(rf"(\d\s?{UNIT}\.?\s+)sq\b\.?(?!\s*[A-Za-z(])", "²"),
    rule(rf"(\d\s?{UNIT}\.?\s+)cu\b\.?(?!\s*[A-Za-z(])", "³"),
    Rule(
        Late(rf"(?<=\d)(\s?)({UNIT})((?:\s?[·*×]\s?\2){{1,2}})(?![A-Za-z\d²³^])"),
        lambda found: padded(found[1] + found[2] + "²³"[len(re.findall("[·*×]", found[3])) - 1], found),
    ),
    rule(r"\bor\s+else\b", "or"),
    rule(r"^\s*either\b", ""),
    rule(r"(\d\s*)[,;]?\s*\b(?:but\s+also|and\s+also|also)\b", "and"),
    # Between two comparisons: steps of one line.
    rule(
        r"([=<>≤≥][^=<>≤≥]*?)(?:[,;]\s*)?\b(?:and\s+so|which\s+(?:means|gives|makes|is)"
        r"|that\s+(?:means|gives)"
        r"|this\s+(?:means|gives)|means(?:\s+that)?|gives|implies|leads\s+to|and\s+then|so\s+(?:we|i"
        r"|you)\s+get)\b"
        r"(?=[^=<>≤≥]*[=<>≤≥])",
        "→",
    ),
    rule(
        r"(?:\bthe\s+)?\bvalue\s+(?:of|for)\b(?=\s+[A-Za-z]\s*(?:=|:|≈|is\b|equals|must|has|would|will))", ""
    ),
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
        r"(?:is\s+not|isn't|are\s+not|aren't|does\s+not|doesn't|can\s?not|can't|must\s+not"
        r"|not)\s+(?:be\s+|equals?(?:\s+to)?)+"
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
_OR_LESS = Late(
    r"\bis\s+([-−–]?[\d./]+)\s+or\s+(less|fewer|lower|smaller|below|under|more|greater|bigger|larger"
    r"|higher|above|over)\b",
    re.IGNORECASE,
)


def _or_less(found: Found) -> str:
    """``is −3 or less`` as ``≤ −3``."""
    return padded("≤≥"[found[2].lower() in _MORE_WORDS] + " " + found[1], found)


_ANY_NUMBER = Late(
    r"(?:\b[a-z]\s+(?:can\s+be|is|could\s+be|must\s+be)\s+)?\b(?:(?:any|all|every"
    r"|each)\s+(?:real\s+)?)?numbers?(?:\s+that\s+(?:is|are))?"
    rf"(?=\s+(?:{_MORE}|{_LESS})\s+than\b|\s+at\s+(?:least|most)\b|\s*[<>≤≥])",
    re.IGNORECASE,
)
_SIGN_OF = {"ge": "≥", "le": "≤", "gt": ">", "lt": "<", "ne": "≠", "ap": "≈", "eq": "="}
_ORDER = Late(
    r"\b(?:" + "|".join(f"(?P<{kind}>{pattern})" for kind, pattern in _ORDERS.items()) + r")(?![A-Za-z'])",
    re.IGNORECASE,
)
_ENDS_A_VALUE = Late(
    r"(?:[\d)\]}|°%π²³?$€£¢′]|(?<![A-Za-z'])[A-Za-z](?:_?\w)?|∠\s?\w+|angle\s+\w{1,3}|squared|cubed|percent|"
    + UNIT
    + r")\s*$",
    re.IGNORECASE,
)
_CLAUSE = Late(r"[=<>≤≥≠≈,;→]|\b(?:or|and|so)\b", re.IGNORECASE)
_BEGINS_A_VALUE = Late(rf"\s*(?:{VALUE}|[±√∛]|pi\b|angle\s|negative\s|minus\s|plus\s)", re.IGNORECASE)
_COMPARES = Late(r"\b(?:more|less|times\s+as|as\s+many|twice|half|than)\b", re.IGNORECASE)
_FINE = frozenset(
    {
        "angle",
        "plus",
        "minus",
        "times",
        "divided",
        "by",
        "squared",
        "cubed",
        "percent",
        "of",
        "pi",
        "over",
        "sqrt",
        "m",
    }
    | {
        "sq",
        "square",
        "cubic",
        "cu",
        "so",
        "then",
        "therefore",
        "thus",
        "hence",
        "and",
        "or",
        "now",
        "check",
        "let",
    }
)


def _related(found: Found, names: Names) -> str:
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
    return padded(_SIGN_OF[kind or "eq"], found)


def _is_unit(word: str) -> bool:
    return re.fullmatch(UNIT, word, re.IGNORECASE) is not None


# -- words for the letters of the problem --------------------------------------------------------

# "The area is 24": a measure goes by its first letter, where the problem has that letter.
_MEASURES = (
    "area|volume|perimeter|circumference|radius|diameter|height|width|length|base|side"
    "|distance|time|rate|speed|cost"
)
_MEASURE = Late(
    rf"(?:\bthe\s+|\bits\s+)?(?<![A-Za-z])({_MEASURES})(?![A-Za-z'])(?:\s+of\s+(?:the|this|a"
    rf"|one)\s+[a-z]{{3,12}})?(\s*:(?=\s*[-−–]?[\d.$]))?"
    r"(?=\s*(?:[=≈:+*×·/)−–\d-]|is\b|equals\b|x\s|times\b|$))",
    re.IGNORECASE,
)
_OPEN_WORDS = Late(r"\b(?:what|find|how|which)\b", re.IGNORECASE)


def _with_letters(text: str, names: Names) -> str:
    """``area = base × height`` as ``A = b × h``, where these are letters of the problem."""
    if not names.asked or _OPEN_WORDS.search(text):
        return text

    def letter(found: Found) -> str:
        word = found[1]
        if names.find(word) is not None:
            return found[0]
        low = word[0].lower()
        cases = [name for name in (low, low.upper()) if name in names.known]
        if len(cases) != 1 or _STANDS_FOR.search(text, 0, found.start()):
            return found[0]
        return padded(cases[0] + " =" if found[2] else cases[0], found)

    return _MEASURE.sub(letter, text)


# "Let h = height of the tree": a letter is said to stand for the word, which is no letter then.
_STANDS_FOR = Late(
    r"(?:^|[\s,;])[A-Za-z]\s*(?:=|:|\bbe\b|\bis\b|\bstands\s+for\b|\brepresents\b)\s*(?:(?:the|its|an?)\s+)?$",
    re.IGNORECASE,
)


# -- the answer -----------------------------------------------------------------------------------

_ANSWER = Late(
    r"\s*(?:(?:so|then|therefore|thus|hence|and)[\s,]+)?(?:(?:the|my|our)\s+)?(?:(?:two|both"
    r"|2)\s+(?=answers|solutions))?"
    r"(?:(?:final\s+)?(?:answers?|ans|solutions?|result)\b\.?\s*(?:is|are|was|would\s+be|must\s+be"
    r"|equals|:-|=>|→|=|:|[-–—](?=\s))?"
    r"|it(?:'s|\s+is|\s+equals|\s*=)|A:)\s*(?=[-−–+±$€£√]?\s?[\d.√½⅓⅔¼¾π][^+*×·(){}=<>≤≥≈]*$)",
    re.IGNORECASE,
)
_IS_IT = Late(
    r"(?<=[\w°%²³])(\s*)(?:is|was)\s+(?:the|my|our)\s+(?:final\s+)?(?:answer|solution)\b", re.IGNORECASE
)


def _with_the_asked(text: str, names: Names) -> str:
    """``answer: 5`` as ``x = 5`` where x alone is asked for."""
    if not names.asked:
        return text
    said = f"{names.asked} ="
    if text.lstrip()[:2] == "A:" and not names.find("A") and "=" in text:
        return text.replace("A:", "  ", 1)
    found = _ANSWER.match(text)
    if (
        found is not None
        and len(found[0]) >= len(said)
        and not (found[0].strip() == "A:" and names.find("A"))
    ):
        rest = text[found.end() :]
        several = _SEVERAL.search(found[0]) is not None
        return padded(said, found) + (re.sub(r"\band\b", "or ", rest) if several else rest)
    return text


_SEVERAL = Late("answers|solutions", re.IGNORECASE)


_NUMBER_FIRST = Late(r"\s*[-−–+±$€£√]?\s?[\d.√½π][^=<>≤≥≈]*$")


def turned(text: str, names: Names) -> str:
    """``5 is the answer`` as ``5 = x``."""
    found = _IS_IT.search(text) if names.asked and "is" in text else None
    behind = f" = {names.asked}"
    if found is None or not _NUMBER_FIRST.match(text[: found.start()]) or len(found[0]) < len(behind):
        return text
    return text[: found.start()] + padded(behind, found) + text[found.end() :]
