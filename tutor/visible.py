"""Text of students and lessons made safe to show: what would steer a terminal is shown instead of obeyed."""

import unicodedata

# Control, format, half, private and unassigned code points, and those that end a line.
_UNSHOWABLE = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})


def visible(text: str) -> str:
    """Return ``text`` with each control sign as its picture (ESC is ␛), other unshowable ones as �.

    One code point stays one code point, so a span of the text as typed is one of the text as shown.
    """
    return text if text.isprintable() else "".join(_picture(sign) or "�" for sign in text)


def spelled(text: str) -> str:
    """Return ``text`` as ``visible`` does, but with <U+202E> in the place of �: for a teacher to look for."""
    return text if text.isprintable() else "".join(_picture(s) or f"<U+{ord(s):04X}>" for s in text)


def _picture(sign: str) -> str:
    """Return a sign or its picture, "" for an unshowable one that has none."""
    code = ord(sign)
    if code < 0x20:
        return chr(0x2400 + code)
    if code == 0x7F:
        return "␡"
    return "" if unicodedata.category(sign) in _UNSHOWABLE else sign
