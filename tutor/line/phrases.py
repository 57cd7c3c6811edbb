"""Words around and instead of mathematics: "so", "no solution", a line of words alone."""

import re

from tutor.line.around import AFTER, BEFORE, NUMBERING
from tutor.line.late import Late
from tutor.line.names import Names
from tutor.line.said import said
from tutor.line.tree import Phrase
from tutor.quantity.units import CUBE_WORDS, SQUARE_WORDS, base_unit

# What is done to both sides, behind a stroke: "2x = 8 | : 2".
_STROKE = Late(r"[|∣‖]\s*[-+−–·∙•⋅*×/÷:][^|∣‖]*$|(?<=[\w)\]²³]\s)\|\s+[-+−–·*×/÷:][^|]*\|$")

# "0 = 8, false" tells what the line shows; a comparison that is called false is another matter.
_FALSE = Late(
    r"[^<>≤≥]*=[^<>≤≥]*\d(\s*[,;.]?\s+[(\[]?(?:(?:which|this|that)?\s*is\s+|an?\s+)?(?:false|contradiction|impossible|not\s+true|untrue)[)\]]?[.,;!]?|\s*[×✗✘][.,;]?)",
    re.IGNORECASE,
)
# The quick question before it.
_ENDS_FALSE = Late(r"(?:false|true|[×✗✘])[)\]]?[.!]?\s?$", re.IGNORECASE)

MAX_PEELS = 6

# "The equation is an …", "The solution set is …", "it has …"
_SUBJECT = (
    r"(?:(?:(?:the|this|that|our|given|original)\s+)*(?:linear\s+)?(?:equation|inequality|system|statement|it|solution(?:\s+set)?|this|that)s?"
    r"\s+(?:is|has|are)\s+|there\s+are\s+)?(?:an?\s+)?"
)

_PHRASES = {
    Phrase.NO_SOLUTION: (
        rf"(?:[a-z𝕃𝕊]\s*[=∈]\s*)?{_SUBJECT}(?:(?:there\s+(?:is|are)\s+)?no\s+(?:real\s+)?(?:solutions?|answers?|roots?)|none|∅|Ø|no\s+(?:such\s+)?(?:real\s+)?numbers?"
        r"|(?:the\s+)?empty\s+set|inconsistent|impossible|not\s+possible|never\s+true|contradiction|\{\s*\})"
    ),
    Phrase.ALL_NUMBERS: (
        rf"(?:[a-z]\s*(?:=|can\s+be|is|∈)\s*)?{_SUBJECT}\{{?(?:(?:all|any|every)\s+(?:real\s+)?(?:numbers?|values?)(?:\s+(?:is\s+a\s+solution|are\s+solutions|works?))?|all\s+reals)\}}?"
        rf"|(?:[a-z𝕃𝕊]\s*[=∈]\s*)?{_SUBJECT}(?:ℝ|\{{\s*[a-z]\s*[|:∣]\s*[a-z]\s*(?:is\s+(?:a|any)\s+real\s+number|∈\s*ℝ)\s*\}}|\(\s*[-−–]\s*∞\s*,\s*\+?∞\s*\))"
        rf"|{_SUBJECT}(?:infinitely\s+many(?:\s+solutions?)?|infinite\s+(?:number\s+of\s+)?solutions?|identity|always\s+true|true\s+for\s+(?:all|every)\s+(?:real\s+)?(?:numbers?|values?\s+of\s+[a-z]|[a-z]))"
    ),
    Phrase.YES: r"yes(?:\s*[,.:;]\s*.*)?",
    Phrase.NO: r"no(?:\s*[,.:;]\s*.*)?",
}
_COMPILED = {phrase: Late(pattern, re.IGNORECASE) for phrase, pattern in _PHRASES.items()}

_ANSWERS = (Phrase.NO_SOLUTION, Phrase.ALL_NUMBERS)
_SENTENCES = Late(r"\s*[.;,]\s+(?:so\s+)?", re.IGNORECASE)

_WORD = Late(r"[^\W\d_⁰-⁹₀-₉²³¹¼-¾⅐-⅞]+")
_MATHS = Late(r"[=<>≤≥≠≈+*×·÷/^√²³|±~∠]|(?<!\w)[-−–]\s*\d|\d\s*[-−–]|\w\s*[(\[]|[\\_]")


# A line in which none of these stands is mathematics and nothing else.
_NO_MATHS_ALONE = Late(
    r"[^\W\d_]{2}|^[\s∴⇒→⟹⇔⟺=<✓{÷×:/*─―—_]|[\s.!,;?✓✔☑√×∎■]$|[∅ℝ①-⑳…⋯‥─—]|---|^\w{1,2}[.)][\s\w(]|^[(\[]\w[)\]]\s"
    r"|[|∣‖]\s*[-+−–·∙•⋅*×/÷:]|[\d)]:\s|\s[(\[]\s*(?:[-+−–÷×:·*/]|[i\d][)\]]$)|//|\.\.|·\s*·|\+[-−–]|^\s*[-−–+]\s*[\w./]+(?:\s\s|\s*=\s*[-−–+])|^---"
)


def has_no_words(text: str) -> bool:
    """Tell, quickly, that nothing in a line could be peeled off or be a phrase or a remark."""
    return bool(text) and _NO_MATHS_ALONE.search(text) is None


_COMPARES = Late("[=<>≤≥≠≈]")


def peel(text: str) -> tuple[int, int]:
    """Return the [start, end) of a line without the words around it."""
    start, end = 0, len(text)
    numbering = NUMBERING.match(text)
    if numbering is not None:
        start = numbering.end()
    for _ in range(MAX_PEELS):
        found = BEFORE.match(text, start)
        if found is None or found.end() == start:
            break
        start = found.end()
    bars = sum(map(text.count, "|∣‖"))
    closed = bars == 2 and text.rstrip()[-1] in "|∣"
    if (bars == 1 or closed) and (stroke := _STROKE.search(text.rstrip(), start)):
        end = stroke.start()
    if _ENDS_FALSE.search(text, start, end) and (called := _FALSE.fullmatch(text, start, end)):
        end = called.start(1)
    end = _without_spaces(text, start, end)
    for _ in range(MAX_PEELS):
        tail = AFTER.search(text, start, end) if start < end else None
        if tail is None or (_COMPARES.search(tail[0]) and not _COMPARES.search(text, start, tail.start())):
            break  # "x add 3 = 7": the only comparison is no remark
        end = _without_spaces(text, start, tail.start())
    while start < end and text[start] == " ":
        start += 1
    return start, end


def _without_spaces(text: str, start: int, end: int) -> int:
    return start + len(text[start:end].rstrip())


def as_phrase(core: str) -> Phrase | None:
    """Return the answer in words that the whole line is, or None."""
    core = core.rstrip(" .!")
    for phrase, pattern in _COMPILED.items():
        if pattern.fullmatch(core):
            return phrase
    parts = _SENTENCES.split(core)
    if len(parts) == 1 or any(map(_MATHS.search, parts)):
        return said(core)
    # "Identity; all real numbers": the same said twice.
    told = {phrase for part in parts for phrase in _ANSWERS if _COMPILED[phrase].fullmatch(part)}
    return told.pop() if len(told) == 1 else said(core)


def is_words_alone(core: str, names: Names, *, lets: bool = False) -> bool:
    """Tell whether a line is a remark: words that are no names, and no mathematics.

    ``lets``: “let” stood in front of it, and it may say in one word what a letter stands for.
    """
    if _MATHS.search(core):
        return _says_in_words(core, names, lets=lets)
    words = plain_words(core, names)
    if not words:
        return False
    if len(words) >= 3 and _SENTENCE.search(core):
        return True  # "5 less than twice a number is 11"
    starts_with_number = core[:1].isdecimal() or core[:1] in ".$("
    return not starts_with_number


_SENTENCE = Late(
    r"(?<![A-Za-z])(?:is|are|was|were|what|how|than|find|has|have|gives)(?![A-Za-z])", re.IGNORECASE
)

# "x = the number of boxes": what a letter stands for, said in words.
_STANDS_FOR = Late(r"[A-Za-z]\w?(?:\s*[-+−]\s*\w{1,3})*\s*=\s*([^\W\d_]+(?:[\s,'’-]+[^\W\d_]+)*)[.!]?")


def _says_in_words(core: str, names: Names, *, lets: bool) -> bool:
    told = _STANDS_FOR.fullmatch(core)
    if told is None or _MATHS.search(told[1]) or not plain_words(told[1], names):
        return False
    return lets or len(told[1].split()) > 1


def plain_words(text: str, names: Names) -> list[str]:
    """Return the words of three letters and more that are no name, no unit and no word of mathematics."""
    words = (found[0] for found in _WORD.finditer(text))
    return [word for word in words if len(word) >= 3 and not _has_a_use(word, names)]


def _has_a_use(word: str, names: Names) -> bool:
    return (
        names.find(word) is not None
        or names.take_apart(word, after_number=False) is not None
        or base_unit(word) is not None
        or word.lower() in _MATHS_WORDS
    )


_MATHS_WORDS = (
    SQUARE_WORDS
    | CUBE_WORDS
    | {
        "sqrt",
        "cbrt",
        "root",
        "abs",
        "angle",
        "plus",
        "minus",
        "times",
        "divided",
        "equals",
        "equal",
        "squared",
    }
    | {"cubed", "percent", "sin", "cos", "tan", "log"}
)
