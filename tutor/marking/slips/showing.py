"""The smallest part of the typed line that shows what was changed."""

from tutor.line.poly import Mono, Number, Ratio
from tutor.line.tree import Add, Expr, Mul, Neg, Span
from tutor.line.walk import every
from tutor.marking.slips.spots import Values, exact, single, sum_of, terms_of


def changed_part(old: Expr, new: Expr, values: Values, moved: Expr | None = None) -> Span:
    """Return the span of what in ``new`` does not keep the value of its counterpart in ``old``.

    ``moved``: the part of ``old`` that was changed, where it is known.
    """
    if isinstance(new, Neg) and isinstance(new.inner, Add | Mul) and isinstance(old, Neg):
        return changed_part(old.inner, new.inner, values)
    if isinstance(new, Add):
        return _changed_terms(terms_of(old), new, values, moved)
    if isinstance(new, Mul) and isinstance(old, Mul):
        return _changed_factors(old, new, values)
    return new.span


def _changed_factors(old: Mul, new: Mul, values: Values) -> Span:
    left = list(old.factors)
    changed: list[Expr] = []
    for part in new.factors:
        twin = next((other for other in left if _same(other, part, values)), None)
        if twin is None:
            changed.append(part)
        else:
            left.remove(twin)
    if len(changed) == 1 and len(left) == 1:
        return changed_part(left[0], changed[0], values)
    return _from_to(changed) if changed else new.span


def _changed_terms(old: tuple[Expr, ...], new: Add, values: Values, moved: Expr | None) -> Span:
    """The terms that stand for the one term of ``old`` that changed, less those that are right."""
    found = exact([values.of(term) for term in new.terms])
    was = exact([values.of(term) for term in old])
    if found is None or was is None:
        return new.span
    holding = [at for at, term in enumerate(old) if any(node is moved for node in every(term))]
    for at in holding or range(len(old)):
        left = _without_runs(was[:at] + was[at + 1 :], found)
        if len(left) == 1 and len(old) > 1:
            return changed_part(old[at], new.terms[left[0]], values)
        if left:
            kept = _not_right(was[at], [(index, found[index]) for index in left])
            return _from_to([new.terms[index] for index in kept or left])
    kept = _not_right(sum_of(was), list(enumerate(found)))
    fresh = [index for index in kept if not any(found[index].same(value) for value in was)]
    return _from_to([new.terms[index] for index in fresh or kept]) if kept else new.span


def _without_runs(unchanged: list[Ratio], found: list[Ratio]) -> list[int]:
    """Return the terms left over when each unchanged term was found as some neighbours; [] if one was not."""
    left = list(range(len(found)))
    for value in unchanged:
        run = _run_of(value, left, found)
        if run is None:
            return []
        left = [index for index in left if index not in run]
    return left


def _run_of(value: Ratio, left: list[int], found: list[Ratio]) -> list[int] | None:
    for start in range(len(left)):
        for end in range(start + 1, len(left) + 1):
            if sum_of([found[index] for index in left[start:end]]).same(value):
                return left[start:end]
    return None


def _not_right(was: Ratio, terms: list[tuple[int, Ratio]]) -> list[int]:
    """Return the terms whose letters do not come out as often as they should."""
    sums: dict[Mono, Number] = {}
    for _, value in terms:
        one = single(value)
        if one is None:
            return [index for index, _ in terms]
        sums[one[1]] = sums.get(one[1], 0) + one[0]
    wrong = {mono for mono, count in sums.items() if was.above.terms.get(mono, 0) != count}
    return [index for index, value in terms if (one := single(value)) is not None and one[1] in wrong]


def _from_to(parts: list[Expr]) -> Span:
    return (parts[0].span[0], parts[-1].span[1])


def _same(old: Expr, new: Expr, values: Values) -> bool:
    was, now = values.of(old), values.of(new)
    return was is not None and now is not None and was.same(now)
