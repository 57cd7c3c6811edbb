"""Whether an expression kept its value."""

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import NotExact
from tutor.line.tree import Bare, Chain, Expr, Pow, whole_number
from tutor.line.walk import every, names_in, sides, with_names
from tutor.marking.deciding.by_signs import Kept, kept_by_signs
from tutor.marking.deciding.claim import split_signs
from tutor.marking.deciding.facts import facts


def keeps_value(before: Bare, after: Bare, setting: Setting) -> Kept | None:
    """Tell whether an expression kept its value; None where that cannot be told here."""
    try:
        return Kept.ALWAYS if _same_cases(before, after, setting) else Kept.NOT
    except NotExact:
        letters = _in_exponents(before) | _in_exponents(after)
        if letters:
            return _at_numbers(before, after, sorted(letters), setting)
        return kept_by_signs(before.expr, after.expr, setting)


# Whole numbers for the letters of exponents. That two expressions agree at all of these places is no
# proof, but no wrong law of powers that was tried does.
_PLACES = ((2, 3, 7), (5, 2, 3), (3, 8, 2), (4, 5, 9))


def _in_exponents(bare: Bare) -> frozenset[str]:
    return frozenset(
        name for node in every(bare.expr) if isinstance(node, Pow) for name in names_in(node.exponent)
    )


def _at_numbers(before: Bare, after: Bare, letters: list[str], setting: Setting) -> Kept | None:
    """``xᵐ · xⁿ`` as ``xᵐ⁺ⁿ``: compared where each letter of an exponent is a whole number."""
    if len(letters) > len(_PLACES[0]):
        return None
    kept = Kept.ALWAYS
    for place in _PLACES:
        told: dict[str, Expr] = {
            name: whole_number(number) for name, number in zip(letters, place, strict=False)
        }
        old, new = (Bare(with_names(bare.expr, told)) for bare in (before, after))
        found = keeps_value(old, new, setting)
        if found is None or found is Kept.NOT:
            return found
        kept = found if found is Kept.ABOVE_ZERO else kept
    return kept


def _same_cases(before: Bare, after: Bare, setting: Setting) -> bool:
    old, new = ([value_of(case, setting) for case in _cases(bare)] for bare in (before, after))
    return all(any(a.same(b) for b in new) for a in old) and all(any(a.same(b) for b in old) for a in new)


def _cases(bare: Bare) -> list[Expr]:
    """The values that an expression stands for: two where a ± is in it."""
    if not facts(bare).either_sign:
        return [bare.expr]
    equation = Chain((bare.expr,), ())
    return [side for part in split_signs(equation) for side in sides(part)]
