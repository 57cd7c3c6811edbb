"""What students type around mathematics: quotes, bullets, faces, “I think”, “(divide by 2)”.

Each becomes spaces, so that the line stays as long as it is and places stay.
"""

import re

from tutor.line.late import Late
from tutor.line.names import Names
from tutor.line.said import said

_RELATION = "[=<>≤≥≠≈]"
_THEN = rf"(?=\S.*{_RELATION})"

# Signs in front of a line: bullets, quotes of other lines, numbers of the task.
_IN_FRONT = Late(
    rf"\s*(?:[•‣▪●◦]|[*·](?=\s+\S.*{_RELATION})|[-–—](?=\s[A-Za-z]{{2}})|#\s?\d{{1,2}}[.:)]?(?=\s)"
    rf"|(?:[qn]o?|step|part|problem|question|number)\.?"
    rf"\s?(?:\d{{1,2}}|one|two|three|four|five)\s*(?:[.:)]\s*|\s){_THEN}|(?:ii|iii|iv|vi|vii|viii"
    rf"|ix)\)\s)\s*",
    re.IGNORECASE,
)
_LEAD = Late(
    r"\s*(?:(?:if|when|for|with|at|putting|using)\s+[a-z]\s*=\s*[-−–]?[\d./]+(?:\s*,?\s+then)?"
    r"(?=\s*[,:]?\s+[-−–(]*\d)|(?:(?:and|so|then|now|but|if)\s+)?(?:(?:which|that|this|it)\s+(?:means|gives|makes"
    r"|leaves|says|tells|is)(?:\s+(?:us|me))?"
    r"|(?:we|i|you|they)\s+(?:now\s+|just\s+|only\s+|then\s+|still\s+)?(?:get|got|have|find|found"
    r"|know|see|think|say|believe|had|need|end\s+up\s+with)"
    r"|i'?m\s+(?:pretty\s+)?sure|i\s+am\s+sure|we\s+are\s+left\s+with)(?:\s+that)?"
    r"|and|now|next|then|so|finally|lastly|at\s+last|first(?:ly)?|second(?:ly)?|last|well|ok(?:ay)?"
    r"|also|but|maybe|probably|perhaps|only|final"
    r"|given|known|if|since|because|after\s+that|in\s+the\s+end|(?:the|my"
    r"|our)?\s*final\s+(?:answer|solution)"
    r"|done)(?:\s*[,:;.]\s*|\s+)" + _THEN,
    re.IGNORECASE,
)

_SURE = (
    r"(?:i\s+(?:think|guess|hope|believe)|maybe|probably|right|yes|yep|yup|ok(?:ay)?|yay+|hooray"
    r"|done|finished|easy|lol|idk|qed|q\.\s?e\.\s?d)"
)
_PROVEN = (
    r"(?:(?:and|so|which|this|that|it|both\s+sides)\s+)*(?:(?:is|are)\s+)?(?:true|correct|right"
    r"|the\s+same|equal|it)"
    r"|(?:and|so)?\s*(?:it|this|that)\s+(?:works|checks|is\s+(?:true|right|correct))(?:\s+out)?"
)
_BEHIND = Late(
    rf"(?<=[\s,;.!?]){_SURE}[.!?]*$"
    rf"|(?<=[\s,;])(?<!always )(?<!never )(?<!not )(?<!s )(?:{_PROVEN})[.!?]*$|(?<=[\s,;])(?:and\s+"
    rf"|which\s+|this\s+|that\s+|it\s+)?(?:is|are)\s+(?:true|correct|right)[.!?]*$"
    r"|(?<=[\s,;])(?:and\s+)?(?:no|nothing)\s+(?:other|more|else)(?:\s+(?:solutions?|answers?"
    r"|numbers?|values?))?[.!]*$|(?<=\s)only[.!]*$"
    r"|(?<=[\s,;])(?<!\bno )(?:is\s+|as\s+)?(?:the|my|our|a)?\s*(?:(?:final|only|one)\s+)*"
    r"(?:answer|solution)[.!]*$"
    r"|(?<=\s)(?:by|after|from|when|while)\s+[a-z]+ing(?![a-z])[^=]*$"
    r"|(?<=[\s,;])(?:flip(?:ped|ping)?|switch(?:ed)?|turn(?:ed)?|swap(?:ped)?|chang(?:e"
    r"|ed))(?:\s+(?:the|both|around|it|sign|signs|sides|over))*[.!]*$"
    r"|\s*//\s*[A-Za-z÷].*$|\s*#\s*[A-Za-z].*$|\s+[-–—]{1,2}\s+(?!(?:sqrt|cbrt"
    r"|root)(?![A-Za-z]))[A-Za-z]{4,}[^=]*$"
    r"|\s*[(\[{]\s*[÷/:*×·]\s*(?:by\s+)?[-−–]?(?:\d[\d./]*[a-z]?|[a-z])\s*[)\]}]$"
    r"|(?<=[\w)])\s*[(\[{]\s*(?:yes|true|right|correct|ok|done|check(?:ed)?|answer"
    r"|final\s+answer)\s*[.!]*[)\]}]$"
    r"|(?<=\s)[:;=]['’]?-?[)(DPp3]+$|(?<=\s)\^_{0,2}\^$"
    r"|[\u2600-\u2712\u2714\u2719-\u273f\u2763-\u27bf\u2b00-\u2bff\U0001f000-\U0001faff\s]+$"
    r"|(?<=[\s.,])(?:[✓✔☑]+[\s.!]*)+$|(?<=[\w)²³°%])\s?\?+$"
    r"|(?<=[\d°%²³])\s*,\s*[a-z]{4,}(?:\s[a-z]+){0,6}[.!]?$|(?<=\s)\([a-z]{4,}(?:\s[a-z]+){0,6}\)$"
    r"|(?<=\s)[✗✘×]$|\s*(?:<[-=]{1,3}|←+)$|(?<=[a-z][a-z])!+$",
    re.IGNORECASE,
)
# "3 = 5 is false" tells what the line shows.
_UNTRUE = Late(
    r"([^A-Za-z<>≤≥]*=[^A-Za-z<>≤≥]*\d)\s*(?:[,;(–-]?\s*(?:(?:which|this|that|it"
    r"|but)\s+)*(?:is\s+)?(?:false|not\s+true|untrue|wrong|not\s+right|incorrect)\)?[.!]*|[✗✘×❌]+)\s*",
    re.IGNORECASE,
)
_ENDS_UNTRUE = Late(r"(?:false|true|wrong|right|incorrect|[✗✘×❌])\)?[.!]{0,3} ?$", re.IGNORECASE)
_NOTHING_LEFT = Late(r"\s*(?<![<–—-])[-–—/#|:;,]+\s*$")  # the arrow of "x = 4 <- answer" is taken off whole
_QUOTED = (
    ("“", "”"),
    ('"', '"'),
    ("'", "'"),
    ("`", "`"),
    ("**", "**"),
    ("__", "__"),
    ("*", "*"),
    ("_", "_"),
    ("«", "»"),
    ("$", "$"),
)
_BRACKETS = {"(": ")", "[": "]", "{": "}"}
_BOLD = Late(r"\*\*(?=\S[^*]*\S?\*\*)|(?<=\S)\*\*(?=\s*$)")

# A line in which none of these stands has nothing around it.
_ASKS = Late(r"[^\W\d_]{2}|^\s*[qQnN]\d|^\s*[•‣▪●◦*·#\"“'`_«$(\[{–—-]|[^\w)\]|²³°%½¼¾$\s]\s*$|[)\]}]$")
_LETTERS = re.compile(r"[^\W\d_]+(?:_\w+)?")
MAX_ROUNDS = 5


_VALUE = r"[-−–]?(?:\d[\d./]*[a-z]?|[a-z])"
_BOTH_SIDES = r"(?:(?:on|from|to|off)\s+)?(?:(?:both|each|all|the)\s+(?:two\s+)?sides?|each\s+side)"
_MISSES = r"(?:too\s+(?:big|small|large|low|high|much|little|few|many)|not\s+enough)"
# "Try x = 5", "First guess: x = 5" claims nothing: what is worked out with it does.
_TRIES = (
    r"(?:(?:so|now|next|then|first|ok(?:ay)?|i|i'?ll|we|we'?ll|let'?s|let\s+us|let\s+me|my|can|will"
    r"|could)[\s,]+){0,4}"
    r"(?:(?:first|second|third|next|1st|2nd|3rd)\s+)?(?:try|tried|trying|trial|attempt|(?<!i )guess"
    r"|guessing|guessed|test|testing|suppose|assume)"
    r"(?:\s+(?:it|again|with|out|that|is|no\.?|number|[1-9])){0,3}(?:\s*[:,]\s*|\s+)"
)
# A line with nothing to be marked: "✓", ":)", "it works"; under an equation "÷2", "−3 from both sides".
_NOTHING_TO_MARK = Late(
    rf"(?:{_SURE}|{_PROVEN}|[:;=8]['’]?-?[)(DPpOo/\\|]+|\^_*\^|[.…\s]+"
    rf"|[✓✔☑\u2600-\u27bf\u2b00-\u2bff\U0001f000-\U0001faff\s]+)[\s.!]*"
    rf"|[÷×·*:/]\s*(?:(?:{_BOTH_SIDES}\s+)?by\s+)?\(?{_VALUE}\)?(?:[\s=,"
    rf"|]+[÷×·*:/]\s*\(?{_VALUE}\)?)?(?:\s+{_BOTH_SIDES})?"
    rf"|(?:[a-z]\s*=\s*)?[-−–]?[\d./]+\s*[,:;–—-]?\s*(?:(?:is|it'?s|was|that\s+is)\s+(?:still\s+|way\s+|much\s+)?{_MISSES}|{_MISSES}"
    rf"|no|nope|wrong|[✗✘×❌])[\s.!]*"
    rf"|{_TRIES}[a-z]\s*(?:=|to\s+be)\s*[-−–]?[\d./]+(?:\s+first)?[\s.:,!?]*"
    rf"|[-+−–]\s*{_VALUE}\s+{_BOTH_SIDES}|(?:plus|minus|times|divided?(?:\s+by)?"
    rf"|multipl\w+(?:\s+by)?|add|subtract|take(?:\s+away)?)\s+{_VALUE}(?:\s+{_BOTH_SIDES})?",
    re.IGNORECASE,
)


def is_aside(text: str, names: Names) -> bool:
    """Tell whether a whole line is one: “it works!”, “✓”, “÷ 2” under an equation."""
    core = text.strip()
    return _NOTHING_TO_MARK.fullmatch(core) is not None and not names.find(core)


def without_asides(text: str, names: Names) -> str:
    """Return the line with spaces in the place of what is no mathematics around it."""
    if _ASKS.search(text) is None or not text.strip():
        return text
    text = _unquoted(text)
    untrue = _UNTRUE.fullmatch(text) if _ENDS_UNTRUE.search(text) else None
    if untrue is not None:
        return untrue[1] + " " * (len(text) - len(untrue[1]))
    for _ in range(MAX_ROUNDS):
        found = _IN_FRONT.match(text) or _LEAD.match(text)
        if found is None or found.end() == 0 or names.find(found[0].strip()) is not None:
            break
        text = " " * found.end() + text[found.end() :]
    for _ in range(MAX_ROUNDS):
        end = len(text.rstrip())
        behind = _BEHIND.search(text, 0, end)
        if behind is None or behind.start() == end or not _leaves_mathematics(text, behind.start(), end):
            break
        if said(behind[0].strip(" (),")) is not None:
            break  # "3 = 5 (impossible)": that is the answer
        if names.are_all(_LETTERS.findall(behind[0])):
            break  # "A = board - window cm2": the words are what the problem works with
        text = text[: behind.start()] + " " * (len(text) - behind.start())
        hanging = _NOTHING_LEFT.search(text, 0, len(text.rstrip()))
        if hanging is not None and text[: hanging.start()].strip():
            text = text[: hanging.start()] + " " * (len(text) - hanging.start())
    return _unquoted(text)


def _leaves_mathematics(text: str, start: int, end: int) -> bool:
    """Nothing is taken off that holds the only comparison, and something must be left."""
    left, off = text[:start], text[start:end]
    if re.search(r"[\d½-¾=<>≤≥≠≈ℝ∅}]", left) is None:
        return False  # "angle A is right" speaks of A
    return re.search(_RELATION, off) is None or re.search(_RELATION, left) is not None


def _unquoted(text: str) -> str:
    """Take quotes, stars and brackets off that stand around a whole line."""
    core = text.strip()
    for opening, closing in _QUOTED:
        inner = core[len(opening) : len(core) - len(closing)]
        around = (
            len(core) > len(opening) + len(closing) and core.startswith(opening) and core.endswith(closing)
        )
        if around and opening not in inner and closing not in inner and (opening != "'" or " " in inner):
            return _spaced(text, core, len(opening), len(closing))
    closing = _BRACKETS.get(core[:1], "")
    whole = bool(closing) and core.endswith(closing) and _close_at(core) == len(core) - 1
    if whole and re.search(_RELATION, core) and not any(sign in core for sign in ",|∈"):
        return _spaced(text, core, 1, 1)
    return text


def _spaced(text: str, core: str, front: int, back: int) -> str:
    start = text.index(core)
    end = start + len(core)
    return text[:start] + " " * front + text[start + front : end - back] + " " * back + text[end:]


def _close_at(core: str) -> int:
    """Return where the bracket that opens a line is closed."""
    depth = 0
    for at, sign in enumerate(core):
        depth += (sign in "([{") - (sign in ")]}")
        if depth == 0:
            return at
    return -1
