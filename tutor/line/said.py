"""Answers in words: “there is no solution”, “x can be any number”, also behind a comparison."""

import re

from tutor.line.late import Late
from tutor.line.tree import Phrase

_OPENS = r"(?:(?:and|so|then|therefore|thus|hence|well|ok(?:ay)?|but|∴|⇒|→|⟹|[-=]{1,2}>)[\s,:]*)?"
_IT = (
    r"(?:(?:(?:(?:it|this|that|they|(?:the|this|that|our|my)\s+(?:whole\s+)?(?:equation|inequality"
    r"|problem|system|statement|one|line)|[a-z])\s+)?"
    r"(?:is|are|has|have|gives?|means|(?:would|will|can|could|may|might|must|should)\s+(?:be"
    r"|have))\s+(?:that\s+)?"
    r"|(?:it|that|this)'s\s+|there(?:\s+is|\s+are|'s|s|\s+must\s+be|\s+can\s+be)\s+|[a-z]\s*[=:∈]\s*"
    r"|(?:(?:it\s+)?works|true)\s+for\s+|for\s+"
    r"|(?:(?:the|my|our)\s+)?(?:final\s+)?(?:answers?|solutions?|ans)(?:\s+set)?\s*(?:is|are|="
    r"|:)?\s*))?(?:true\s+for\s+)?(?:an?\s+|the\s+)?"
)
_WORKS = (
    r"(?:\s+(?:works?|fits?|exists?|are?\s+possible|is\s+possible|can\s+work|will\s+work"
    r"|would\s+work|makes?\s+(?:it|this)\s+true|at\s+all|can\s+be\s+found))?"
)
_OF = r"(?:\s+(?:of|for|to|in)\s+(?:[a-z]|it|this|that|(?:this|the)\s+(?:equation|problem)))?"
# A reason behind it; never a condition that the answer depends on.
_WHY = (
    r"(?:\s*[,.;:(–—-](?!.*(?:except|but|when|if|great|less|more|bigg|small|over|under|above|below"
    r"|posit|negat))[^=<>≤≥]*|\s+(?:because|since|bc|cause)\b.*)?"
)

_SAYS = {
    Phrase.NO_SOLUTION: (
        rf"(?:no\s+(?:real\s+|possible\s+|valid\s+|such\s+)?(?:solutions?|sols?|solns?|answers?"
        rf"|numbers?|values?|roots?|[a-z]){_OF}{_WORKS}"
        r"|none(?:\s+of\s+(?:them|these))?(?:\s+works?)?|nothing(?:\s+(?:works|fits|makes\s+(?:it"
        r"|this)\s+true))?|(?:0|zero)\s+(?:solutions?|answers?)"
        r"|empty\s+set|[∅Øø]|\{\s*\}|impossible|not\s+possible|unsolvable|not\s+solvable"
        r"|never(?:\s+(?:true|equal|works?|possible|the\s+same))?|always\s+false|contradiction"
        r"|(?:[a-z]\s+)?(?:can'?t|can\s?not)\s+be\s+solved|(?:[a-z]\s+)?does(?:\s*n'?t|\s+not)\s+exist|dne)"
        r"|there\s+(?:isn't|aren't|is\s+not|are\s+not)\s+(?:an?|any)\s+(?:solutions?|answers?)"
        r"|(?:it|this|[a-z])\s+(?:doesn't|does\s+not)\s+have\s+(?:an?|any)\s+(?:solutions?|answers?|values?)"
    ),
    Phrase.ALL_NUMBERS: (
        rf"(?:(?:all|any|every|each)\s+(?:real\s+|possible\s+|single\s+)?(?:numbers?|values?|reals?"
        rf"|[a-z])(?:\s+[a-z])?{_OF}(?:{_WORKS}|\s+(?:is|are)(?:\s+an?)?\s+(?:solutions?|answers?|possible|true"
        rf"|right))"
        r"|(?:all|any)\s+of\s+them|(?:anything|everything)(?:\s+(?:works|fits|is\s+a\s+solution))?"
        r"|infinit(?!y$)\w*(?:\s+(?:many|numbers?\s+of|amounts?\s+of))?(?:\s+(?:solutions?|answers?"
        r"|numbers?|values?|possibilities))?"
        r"|(?:unlimited|endless|∞)\s+(?:solutions?|answers?)|always(?:\s+(?:true|equal|works?|right"
        r"|correct|the\s+same))?|identity|ℝ|(?<=∈)\s*R)"
    ),
    Phrase.YES: r"(?:yes|yep|yeah)\s+(?:it|they|this|these|that|you|we|because|since)\b[^=<>≤≥]*",
    Phrase.NO: r"(?:no|nope)\s+(?:it|they|this|these|that|you|we|because|since)\b[^=<>≤≥]*",
}
_SAID = {
    phrase: Late(_OPENS + _IT + "(?:" + says + ")" + (_WHY if phrase in _SAYS else ""), re.IGNORECASE)
    for phrase, says in _SAYS.items()
}


def said(core: str) -> Phrase | None:
    """Return the answer in words that the whole line is, or None."""
    core = core.strip(" .!✓✔☑)")
    for phrase, pattern in _SAID.items():
        if pattern.fullmatch(core):
            return phrase
    return None


# -- several steps on one line -------------------------------------------------------------------

_STEP = Late(
    r"\s*(?:[,;]\s*)?(?:[→⇒⟹⇔⟺∴]|<=>|(?<![A-Za-z])(?:so|then|thus|hence|therefore)(?![A-Za-z])[,:]?)\s*",
    re.IGNORECASE,
)
_BEHIND = Late(r"\s*[,;:.(–—-]\s*|\s+", re.IGNORECASE)
_RELATION = Late("[=<>≤≥≠≈]")
_PHRASE_LIKE = Late(
    r"(?<![a-z])(?:no|none|nothing|zero|all|any|every|each|infin|imposs|not|ident|always|never"
    r"|contra|empty|unsolv|does)|[∅Øℝ]",
    re.IGNORECASE,
)
# "218.4/8 = 27.3, so 28 lanterns"
NUMBER_ALONE = Late(r"(\s*)(\d+(?:\.\d+)?)(?:\s[A-Za-z]+){0,4}[.!]?\s*")
MAX_STEPS = 6
MAX_TRIES = 12


# "x = 5, check: 2·5 + 3 = 13", "x = 5 (2·5 + 3 = 13)", "x = 5 since 10/2 = 5"
# No part can give back what it took: a long run of spaces or digits is gone over once.
_VALUE = r"[^A-Za-z<>≤≥=\d]*+\d[^A-Za-z<>≤≥=]*+"
_EQUAL = rf"{_VALUE}(?:={_VALUE})++"
_CHECK = Late(
    rf"\s*+(?:[,;.]\s*+)?(?:check(?:ing)?\s*+:?|because|since)\s*+(?={_EQUAL}$)"
    rf"|(?<=[\w)°²³])\s++\(\s*+(?={_EQUAL}(?<=\))$)",
    re.IGNORECASE,
)
_ANSWER_ALONE = Late(r"\s*[A-Za-z]\s*=\s*[-−–]?\s?[\d./]+\s*")


def _at_commas(text: str) -> list[int]:
    """Return where the steps begin in ``2x + 3 = 13, 2x = 10, x = 5``: equations in one letter."""
    parts = re.split("[,;]", text)
    equal = all(len(_RELATION.findall(part)) == 1 and "=" in part for part in parts)
    if not equal or len(parts) > MAX_STEPS or len(set(re.findall(r"[^\W\d_]", text))) != 1:
        return [0]
    if _ANSWER_ALONE.fullmatch(parts[0]) is not None:
        return [0]
    return [0, *(found.end() for found in re.finditer("[,;]", text))]


def steps_in(text: str, *, first: bool = False) -> tuple[str, ...]:
    """Take ``2x = 10 → x = 5`` and ``3 = 5, no solution`` apart: each step at its place.

    The line comes in the signs of the grammar. One that is a single step comes back alone.
    ``first``: it is the first line and nothing else is known, so that a comma can part steps too.
    """
    if _RELATION.search(text) is None:
        return (text,)
    cuts = [0]
    for found in _STEP.finditer(text):
        before, behind = text[cuts[-1] : found.start()], text[found.end() :]
        ends = behind[:behind_end] if (behind_end := _next_step(behind)) else behind
        if (
            _RELATION.search(before)
            and before.strip()[-1:] not in "=<>≤≥≠≈"
            and (_RELATION.search(ends) or said(ends) or NUMBER_ALONE.fullmatch(ends))
        ):
            cuts.append(found.end())
        if len(cuts) == MAX_STEPS:
            break
    if first and len(cuts) == 1:
        cuts = _at_commas(text)
    steps = [(start, end) for start, end in zip(cuts, [*cuts[1:], len(text)], strict=True)]
    start, end = steps[-1]
    check = _CHECK.search(text, start, end)
    if check is not None and _RELATION.search(text, start, check.start()) is not None:
        steps[-1:] = [(start, check.start()), (check.end(), end)]
        start, end = steps[-1]
    phrase = _phrase_behind(text, start, end)
    if phrase is not None:
        steps[-1:] = [(start, phrase), (phrase, end)]
    if len(steps) == 1:
        return (text,)
    return tuple(" " * start + _alone(text[start:end]) for start, end in steps)


def _alone(step: str) -> str:
    """Return a step without what leads on from it, and without the bracket around a check."""
    step = _STEP_BEHIND.sub("", step)
    return step[:-1] if step.endswith(")") and step.count(")") > step.count("(") else step


_STEP_BEHIND = Late(_STEP.pattern + r"$|[\s,;:(–—-]+$", re.IGNORECASE)


def _next_step(text: str) -> int:
    found = _STEP.search(text)
    return found.start() if found is not None else 0


def _phrase_behind(text: str, start: int, end: int) -> int | None:
    """Return where the answer in words begins that stands behind a comparison."""
    if _PHRASE_LIKE.search(text, start, end) is None or said(text[start:end]) is not None:
        return None
    relation = max((found.start() for found in _RELATION.finditer(text, start, end)), default=-1)
    if relation < 0:
        return None
    for tried, gap in enumerate(_BEHIND.finditer(text, relation + 1, end)):
        if tried == MAX_TRIES:
            return None
        before = text[relation + 1 : gap.start()].strip()
        if before and said(text[gap.end() : end]) in (Phrase.NO_SOLUTION, Phrase.ALL_NUMBERS):
            return gap.end()
    return None
