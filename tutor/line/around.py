r"""Words and signs around mathematics: what leads a line in, and what is said behind it.

Each row has a line as an example and the pattern that takes something off it; the tests hold every
example to its own pattern. All are tried at once, in this order, case folded.
"""

import re
from typing import NamedTuple

from tutor.line.late import Late


class Row(NamedTuple):
    """A line, and the pattern that finds what stands in front of, or behind, its mathematics."""

    example: str
    pattern: str


# What stands in front of mathematics: a sign, a number, a letter that is no word, then more than that.
_MATHS_NEXT = r"(?=(?:[-−–+(\[{|√∛$\d]|[a-z]{1,2}(?![a-z])).*[=<>≤≥≠+−–*/^²³√(÷·×-])"
_EQUATION_NEXT = r"(?=\S.*[=<>≤≥≠])"
_COMPARED_NEXT = r"(?=\S.*[=<>≤≥])"
_NUMBER_OF_EQUATION = r"(?:[(\[]\d[)\]]|\b[IV]{1,3}|[①-⑳])"
_ROMAN = r"(?:\d{1,2}|[ivx]{1,4})"

# Numbering in front of a line; never the "3. " of "3. 14".
NUMBERING_ROWS = (
    Row("1) 2x = 8", r"(?:\d{1,2}|[A-Za-z])\)\s*(?=\S)"),
    Row("2. x = 4", r"\d{1,2}\.\s+(?=[A-Za-z(√])"),
    Row("2. 3x = 12", r"(?!3\.\s+14)\d{1,2}\.\s+(?=\d+[A-Za-z(].*=)"),
    Row("b. 3x = 12", r"[a-h]\.\s+(?=\S.*[=<>≤≥])"),
    Row("(ii) 3x = 12", r"\((?:[a-h]|i{1,3}|iv)\)\s+(?=\S)"),
    Row("② 3x = 12", r"[①-⑳](?!\s*[-+−–×·*]?\s*[①-⑳])\s*"),
)
BEFORE_ROWS = (
    Row(
        "so 2x = 8",
        r"(?:and\s+)?(?:so|then|therefore|thus|hence|which\s+gives|that\s+gives|gives|we\s+get|we\s+have"
        r"|this\s+means|means|let)(?![A-Za-z])\s*[,:]?",
    ),
    Row(
        "Check: 2(4) = 8",
        r"(?:(?:check|answer|formula|labels?|substitute|units|solution|solve|step|line|given|find)\s*\d*\s*:"
        r"|check(?=\s*[\d(√]|\s\S+.*=))",
    ),
    Row(
        "The answer is x = 4",
        r"(?:(?:the|my|our)\s+)?(?:only\s+|final\s+)?(?:answer|solution)(?:\s+is)?(?![A-Za-z])\s*(?=\S.*=)",
    ),
    Row("left side: 2 + 3", r"[a-z][a-z ]{2,}\d*:\s+(?=\S)"),
    Row("Team 7 in all: 7n = 21", rf"[^\W\d_][^\W\d_']+(?:\s+[a-z\d']+){{0,5}}\s?:\s+{_EQUATION_NEXT}"),
    Row(
        "Solve for x: 2x = 8",
        r"(?:solve|simplify|evaluate|factori[sz]e|factor|expand|calculate|compute|find|work\s+out|consider"
        r"|suppose|assume|write)(?:\s+(?:the|this|each|that|following|equation|inequality|expression|value\s+of"
        rf"|for\s+[a-z]|by\s+[a-z]+(?:\s+[a-z]+)?))*\s*[:,]?\s+{_MATHS_NEXT}",
    ),
    Row("when x = 4", r"(?:when|if|for|since|as|at|put|putting|using)\s+(?=[a-z]\s*=)"),
    Row(
        "Check x = 4: 2(4) = 8",
        r"(?:check|test|try|for|when|if|substitut[a-z]*|put|plug\s+in|let|at|using)"
        r"\s+[a-z]\s*=\s*[^:=<>≤≥]{1,12}(?::|,?\s+then(?![a-z]))\s*",
    ),
    Row("x = 4: 2(4) = 8", r"[a-z]\s*=\s*[-−–]?[\d./]+:\s+(?=\S.*[=+−–*/^²³(·×-])"),
    Row(
        "Now, 2x = 8",
        r"(?:now|next|also|again|similarly|finally|but|either|because|ans|soln?|eqn?|then)(?![a-z])"
        rf"\s*[.,:]?\s+{_EQUATION_NEXT}",
    ),
    Row(
        "Substituting y in the first one, we get 2x = 8",
        r"(?:substitut|putting|adding|subtracting|multiplying|dividing|from|by|using|in)[a-z]*"
        rf"\s[^=<>≤≥]*?[,:]\s+(?:we\s+(?:get|have|find)\s+)?{_EQUATION_NEXT}",
    ),
    Row(
        "This is a contradiction, no solution",
        r"(?:(?:this|that|which|it)\s+is\s+(?:an?\s+)?(?:contradiction|identity|false|true|impossible"
        r"|(?:always|never)\s+true)[^,.;]*[,.;]\s*(?=\S))",
    ),
    Row(
        "(1) + (2): 2x = 8",
        rf"{_NUMBER_OF_EQUATION}\s*[-+−–·×*]\s*(?:{_NUMBER_OF_EQUATION}|\d{{1,2}}(?=\s*:))\s*[,:]?\s+{_EQUATION_NEXT}",
    ),
    Row(
        "that is, x = 4",
        r"(?:i\.\s?e\.|that\s+is|which\s+(?:means|is)(?:\s+that)?|this\s+gives|giving)"
        rf"\s*,?\s+{_EQUATION_NEXT}",
    ),
    Row("Does 2(4) + 1 = 9?", r"(?:is|does|do)\s+(?=[-−–(√|\d][^a-z]*[=<>≤≥][^a-z]*(?:yes[.!]?)?$)"),
    Row(
        "it follows that x = 4",
        r"(?:it\s+(?:now\s+)?follows|(?:i|we|you|one)\s+(?:can\s+|must\s+)?(?:conclude|deduce|infer|work\s+out|calculate|solve)"
        r"|(?:i|we|you|one)\s+can\s+(?:now\s+)?(?:see|say|tell|write|find|get)"
        r"|(?:this|that|which|it)\s+(?:shows|implies|proves|yields|leads\s+to|results\s+in|(?:gives|leaves|tells|shows)\s+(?:us|me|you))"
        r"|(?:it\s+is\s+|it'?s\s+)?(?:clear(?:ly)?|obvious(?:ly)?|evident(?:ly)?)|in\s+other\s+words|by\s+inspection"
        r"|as\s+a\s+result|in\s+conclusion|consequently|we\s+end\s+with|q\.?e\.?d\.?)(?:\s+that)?(?![a-z])"
        rf"\s*[,:]?\s+{_MATHS_NEXT}",
    ),
    Row(
        "dividing by 2 gives x = 4",
        r"(?!.*(?:\bnot\b|n'?t\b|\bnever\b))(?:by\s+)?"
        r"(?:divid|multiply|add|subtract|simplify|solv|factor|expand|distribut|combin|collect|squar|cancel)"
        r"ing(?![a-z])[a-z0-9 ]{0,48}?(?:,\s*|\s)(?:(?:this|it|we|i|you|which)\s+)?"
        r"(?:gives?|get|got|obtain|leaves?|yields?|shows)"
        rf"(?:\s+(?:us|me|you))?(?:\s+that)?(?![a-z])\s*[,:]?\s+{_MATHS_NEXT}",
    ),
    Row(
        "we obtain x = 4",
        r"(?:(?:i|we|you)\s+obtain(?:ed)?|it\s+turns\s+out"
        rf"|leaving|yielding|giving|namely)(?:\s+that)?(?![a-z])\s*[,:]?\s+{_MATHS_NEXT}",
    ),
    Row("or x = 4", rf"or(?![a-z])\s*,?\s*{_COMPARED_NEXT}"),
    Row(
        "0 = 5 is false, no solution",
        r"[-−–\d.\s]+[=≠<>≤≥][-−–\d.\s]+is\s+(?:false|not\s+true|impossible|(?:never|always)\s+true|true)"
        r"\s*[,;.]\s*(?=\S)",
    ),
    Row("⇒ x = 4", r"∴|⇒|→|⟹|⇔|⟺|<=>|=>(?=\s*[A-Za-z(\d])|✓"),
)
_DOING = (
    r"subtract|add|added|divide(?!d)|divided\s+both|multiply|multiplied\s+both|distribute|combine|simplif|expand"
    r"|factor|substitut|collect|cancel|square\s+both|take|undo|rearrange|because|since|as\s+needed|given|by\s+the"
    r"|both\s+sides|rounded|round|to\s+the\s+nearest|nearest|check|like\s+terms|inverse|cross|where|if"
)
_NO_SIGN = "[^-+−–·*/×÷=<>≤≥]"  # behind one, "(−3 cm)" is a factor
# No pattern begins with spaces: those are taken off behind what is left.
AFTER_ROWS = (
    Row("2x = 8 subtract 3", rf"(?<![A-Za-z(\[-])(?:{_DOING})[A-Za-z]*(?![A-Za-z]|\s*[=(]).*$"),
    Row("2x = 8 (divide by 2)", rf"[(\[]\s*(?:{_DOING}|answer|solution)[^()=]*[)\]][.,;]?$"),
    Row("2x = 8 (both halved now)", r"(?<=\s)[(\[][a-z]{2,}\s[^()=]*[)\]][.,;]?$"),
    Row("2x = 8 (I halved both)", r"(?<=\s)[(\[]i\s+[a-z]{3,}[^()=]*[)\]][.,;]?$"),
    Row(
        "y = 3 in (2)",
        r"(?<=\S)\s+in(?:to)?\s+(?:equation\s*|eq\.?\s*)?(?:[(\[](?:\d|[ivx]+|[A-Z])[)\]]|[①-⑳])\s?[:,.]?$",
    ),
    Row(
        "x = 4 is the solution.",
        r"(?<=\s)(?:is\s+(?:the|a|our)\s+(?:solution|answer)|(?:is\s+)?(?:an?\s+)?true(?:\s+statement)?|works"
        r"|(?:is\s+)?correct|ok)[.!]?$",
    ),
    Row("8 = 8 ✓", r"[✓✔☑,;\s]+$"),
    Row("x = 4.", r"(?<!\.)\.$"),
    Row("x = 4, the answer we want", r"(?<=\s)the\s+(?:solution|answer|root)s?(?![a-z]).*$"),
    Row("x = 30 mL of 45% acid", r"(?<=[a-z]{2}\s)(?<!percent\s)of\s+[\d.]+\s?%(?:\s+[a-z]{3,})?[.!]?$"),
    Row("8 = 8 yes", r"(?<=\s)yes[.!]?$"),
    Row(
        "7 · 16 + 6 = 118, too big",
        r"(?<=[\d)])\s*[,;:–—-]?\s*(?:(?:that|this|which|it)\s+is\s+|it'?s\s+|(?:still|way|much|far|a\s+bit)\s+)*"
        r"(?:too\s+(?:big|small|large|low|high|much|little|few|many)|not\s+enough|more\s+than\s+enough)[.!]?$",
    ),
    Row("8 = 8 √", r"(?<=[\d)])\s?√$"),
    Row("x = 4 ∎", r"[∎■]$"),
    Row("x + 3 = 5?", r"(?<=[\w)\]²³|])\s?\?$"),  # it asks; "5 + ?" has a hole
    Row("x + y = 5 ... (1)", rf"(?:\.{{2,}}|…|⋯|·{{2,}}|‥)\s*[(\[]?(?:{_ROMAN}|[①-⑳])[)\]]?$"),
    Row("x + y = 5 ①", r"[①-⑳]$"),
    Row("x + y = 5 (ii)", r"(?<=\s)\(i{2,3}\)$"),
    Row("2x = 8 // halve it", r"(?<=\s)//(?!\s*[\d.]+$).*$"),
    Row("x + y = 5 —— (1)", rf"[─—]{{2,}}\s*[(\[]{_ROMAN}[)\]]$"),
    Row("x + y = 5 --- (1)", rf"-{{3,}}\s*[(\[]{_ROMAN}[)\]]$"),
    Row(
        "2x = 8 (÷2 on both sides)",
        rf"(?<={_NO_SIGN}\s)[(\[]\s*[-+−–÷×:·*/]\s*[\w./]+\s+[a-z]{{2,}}[^()=]*[)\]]$",
    ),
    Row("2x = 8 / : 2", r"(?<=\s)/\s*[:·×÷]\s*[\w./]+$"),
    Row("2x = 8 (÷ 2)", r"(?<=\s)[(\[]\s*[÷×:·*/]\s*[^()=]+[)\]]$"),
    Row("2x = 8  (− 3)", rf"(?<={_NO_SIGN}\s\s)[(\[]\s*[-+−–]\s*[^()=]+[)\]]$"),
)


def _any_of(rows: tuple[Row, ...]) -> str:
    return "|".join(row.pattern for row in rows)


NUMBERING = Late(rf"\s*(?:{_any_of(NUMBERING_ROWS)})")
BEFORE = Late(rf"\s*(?:{_any_of(BEFORE_ROWS)})\s*", re.IGNORECASE)
AFTER = Late(_any_of(AFTER_ROWS), re.IGNORECASE)
