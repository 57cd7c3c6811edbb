"""Rules that put a sign in the place of other writing, as long as that was."""

import re
from collections.abc import Callable
from typing import NamedTuple

from tutor.line.late import Late

Found = re.Match[str]

VALUE = r"[-+−–±]?\s?(?:[\d.√∛(|\[$€£½⅓⅔¼¾π?∠]|[A-Za-z](?![A-Za-z]))"
UNIT = (
    r"(?:mm|cm|dm|km|m|in|ft|yd|mi|inch|inches|feet|foot|yards?|miles?|(?:centi|milli|kilo)?met(?:er|re)s?)"
)


class Rule(NamedTuple):
    """What is looked for, and what stands in its place."""

    pattern: Late
    sign: Callable[[Found], str]


def padded(sign: str, found: Found) -> str:
    """Return a sign with spaces behind it, as long as what was found."""
    return sign + " " * (len(found[0]) - len(sign))


def rule(pattern: str, sign: str) -> Rule:
    """Put a sign in the place of what is found, behind its first group where there is one."""

    def replaced(found: Found) -> str:
        return padded((found[1] if found.re.groups else "") + sign, found)

    return Rule(Late(pattern, re.IGNORECASE), replaced)
