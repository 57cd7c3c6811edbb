"""A line copied with one digit or one sign that is not the same."""

from collections.abc import Iterator

from tutor.line.tree import Expr, Name, Neg, Num
from tutor.line.walk import every, parts
from tutor.marking.slips.spots import Hit


def copied_wrong(old: Expr, new: Expr, *, alone: bool) -> Iterator[Hit]:
    """The same writing but for one number whose digits changed, or one sign.

    ``alone``: nothing else in the line shows that it was copied, so the writing has to be longer.
    """
    if type(old) is not type(new) and not isinstance(old, Neg) and not isinstance(new, Neg):
        return
    if alone and sum(isinstance(node, Num | Name) for node in every(old)) < 3:
        return
    found = list(differences(old, new))
    if len(found) != 1:
        return
    was, now = found[0]
    if isinstance(was, Num) and isinstance(now, Num) and _miscopied(was.text, now.text):
        message = f"Maybe {was.text} was copied wrong. Compare this line with the one it comes from."
        yield Hit("copy-slip", message, 2)
    elif is_sign_change(was, now):
        message = "Maybe one sign was copied wrong. Compare this line with the one it comes from."
        yield Hit("copy-slip", message, 2)


def differences(old: Expr, new: Expr) -> Iterator[tuple[Expr, Expr]]:
    """Yield the smallest parts in which two expressions differ, in pairs."""
    if old == new:
        return
    before, after = parts(old), parts(new)
    inner = type(old) is type(new) and len(before) == len(after) and bool(before)
    if not inner or isinstance(old, Name | Num):
        yield old, new
        return
    for one, two in zip(before, after, strict=True):
        yield from differences(one, two)


def is_sign_change(was: Expr, now: Expr) -> bool:
    """Tell whether one of two parts is the other one with a minus."""
    return (isinstance(was, Neg) and was.inner == now) or (isinstance(now, Neg) and now.inner == was)


def _miscopied(was: str, now: str) -> bool:
    """Digits in another order, one digit changed, left out or written once more."""
    if was == now:
        return False
    if len(was) == len(now):
        return sorted(was) == sorted(now) or sum(a != b for a, b in zip(was, now, strict=True)) == 1
    longer, shorter = (was, now) if len(was) > len(now) else (now, was)
    return any(longer[:at] + longer[at + 1 :] == shorter for at in range(len(longer)))
