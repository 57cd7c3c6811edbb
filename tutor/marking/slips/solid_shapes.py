"""Wrong moves with boxes: space inside and faces outside."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations

from tutor.line.tree import Expr, Neg, Num, whole_number
from tutor.marking.slips.flat_shapes import rectangle
from tutor.marking.slips.shapes import alike, doubled_terms, no_letters, plus, product_seen, times, without
from tutor.marking.slips.wrong import Wrong

_ONCE = "Maybe each face was counted once. How many faces of each size are there?"
_SPACE = "Maybe the space inside was worked out. How much covers all the faces?"


def box_space(expr: Expr, formula: bool) -> Iterator[Wrong]:
    """Yield the wrong moves at L·W·H."""
    product = product_seen(expr)
    if product is None or product.pi or product.down or product.minus or len(product.up) != 3:
        return
    if any(isinstance(part, Num) for part in product.up) if formula else not no_letters(expr):
        return
    if any(isinstance(part, Neg) for part in product.up):
        return  # (−3)³ is no space
    x, y, z = product.up
    # 2³ taken for 2·3 has a name of its own, and so has a size that grows by 3².
    cost = 1 if not product.powered else 3 if formula else 2
    faces = (times(x, y), times(x, z), times(y, z))
    yield Wrong(
        "dimensions-added-for-volume",
        plus(x, y, z),
        "Maybe {0}, {1} and {2} were added; here they multiply. Work that out once more.",
        (x, y, z),
        cost,
        "there {0}, {1} and {2} are added",
    )
    yield Wrong(
        "volume-as-visible-faces",
        plus(*faces),
        "Maybe the faces that show were added up. What fills the space inside?",
        cost=cost,
        there="there the faces that show are added up",
    )
    yield Wrong(
        "volume-as-visible-faces-doubled",
        times(whole_number(2), plus(*faces)),
        "Maybe all the faces were added up. What fills the space inside?",
        cost=cost,
        there="there all the faces are added up",
    )


def pieces_added(expr: Expr, formula: bool) -> Iterator[Wrong]:
    """Yield the sizes of one piece of a longer sum added: ``8·5 + 3·2`` as ``8 + 5 + 3·2``."""
    product = product_seen(expr)
    if product is None or product.powered or len(product.up) != len(set(product.up)):
        return
    if not formula and any(isinstance(part, Num) and part.value < SMALLEST_SIZE for part in product.up):
        return  # 2·6 in a sum is rather twice 6, and 2 + 6 near it by chance
    for wrong in (*rectangle(expr, formula), *box_space(expr, formula)):
        if wrong.name in ("sides-added-for-area", "dimensions-added-for-volume"):
            yield replace(wrong, cost=wrong.cost + 1)


SMALLEST_SIZE = 3


def box_faces(expr: Expr, formula: bool) -> Iterator[Wrong]:
    """Yield the wrong moves at 2LW + 2LH + 2WH, however it is written, and at a cube's 6s²."""
    if not (formula or no_letters(expr)):
        return
    pairs = doubled_terms(expr)
    if pairs is not None and len(pairs) == 3:
        yield from _faces_counted(tuple(times(*pair) for pair in pairs))
        sizes = _sizes(pairs)
        if sizes is not None:
            yield _space(times(*sizes))
    product = product_seen(expr)
    if product is None or product.pi or product.down or product.minus or len(product.up) != 3:
        return
    side = without(product.up, 6)
    if side is not None and alike(side[0], side[1]):
        x = side[0]
        yield _space(times(x, x, x))
        yield Wrong("surface-faces-not-doubled", times(whole_number(3), x, x), _ONCE, there=_THERE_ONCE)


_THERE_ONCE = "there each face is counted once"


def _space(tree: Expr) -> Wrong:
    return Wrong("volume-given-for-surface-area", tree, _SPACE, there="there the space inside was worked out")


def _faces_counted(faces: tuple[Expr, ...]) -> Iterator[Wrong]:
    """All faces once, or some of them."""
    yield Wrong("surface-faces-not-doubled", plus(*faces), _ONCE, there=_THERE_ONCE)
    for many in (1, 2):
        for once in combinations(range(3), many):
            terms = [face if at in once else times(whole_number(2), face) for at, face in enumerate(faces)]
            yield Wrong(
                "surface-faces-not-doubled",
                plus(*terms),
                "Maybe a face was counted once. How many faces of each size are there?",
                cost=2,
                there="there a face is counted once",
            )


def _sizes(pairs: tuple[tuple[Expr, ...], ...]) -> tuple[Expr, ...] | None:
    """Return L, W and H from the pairs (L, W), (L, H), (W, H) in any order."""
    if any(len(pair) != 2 for pair in pairs):
        return None
    first, second, third = pairs
    for x, y in (first, first[::-1]):
        shared = _other(second, x)
        if shared is None:
            continue
        last = _other(third, y)
        if last is not None and alike(last, shared):
            return x, y, shared
    return None


def _other(pair: tuple[Expr, ...], one: Expr) -> Expr | None:
    if alike(pair[0], one):
        return pair[1]
    return pair[0] if alike(pair[1], one) else None
