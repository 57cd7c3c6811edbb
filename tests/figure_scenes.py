"""Figures of every kind with sizes drawn at random, for the properties that all of them have."""

from hypothesis import assume
from hypothesis import strategies as st

from tutor.figure.examples import EXAMPLES
from tutor.figure.kinds import FIGURE_KINDS, FIGURE_WORDS, draw, is_angle
from tutor.figure.scene import Scene

KINDS = tuple(FIGURE_KINDS)


@st.composite
def scenes(
    draw_one: st.DrawFn, texts: st.SearchStrategy[str] | None = None, kinds: tuple[str, ...] = KINDS
) -> Scene:
    """Draw any figure with sizes that exist, some of its roles labelled, as far out of shape as 1 to 50.

    Without ``texts`` each label is a run of its own letter in ⟨⟩, so that one that is covered is missed.
    """
    kind = draw_one(st.sampled_from(kinds))
    sizes = {
        role: size
        * (1 if is_angle(kind, role) else draw_one(st.sampled_from([1, 1, 1, 0.1, 7]) | st.floats(0.15, 7.5)))
        for role, size in EXAMPLES[kind].sizes.items()
    }
    sizes.update(draw_one(turns(kind)))
    roles = draw_one(st.lists(st.sampled_from(FIGURE_KINDS[kind]), unique=True))
    if texts is None:
        labels = {
            role: "⟨" + "abcdefghijkl"[i] * draw_one(st.integers(1, 12)) + "⟩" for i, role in enumerate(roles)
        }
    else:
        labels = {role: draw_one(texts) for role in roles}
    words = draw_one(st.sampled_from([(), *((word,) for word in FIGURE_WORDS[kind])]))
    scene, _why = draw(kind, sizes, labels, words)
    assume(scene is not None)
    assert scene is not None
    return scene


@st.composite
def turns(draw_one: st.DrawFn, kind: str) -> dict[str, float]:
    """Draw the angles of a figure that has angles alone; none for another kind."""
    part = draw_one(st.floats(0.02, 0.98))
    match kind:
        case "angles" | "right angle":
            total = 90.0 if kind == "right angle" else draw_one(st.sampled_from([90.0, 180.0]))
            return {"first": total * part, "second": total * (1 - part)}
        case "straight angle":
            more = draw_one(st.floats(0.02, 0.98)) * (1 - part)
            return {"first": 180 * part, "second": 180 * more, "third": 180 * (1 - part - more)}
        case "crossing":
            return {"left": 180 * part}
        case "parallel lines":
            return {"upper top right": 180 * part}
        case "triangle angles":
            return {"left": 180 * part, "right": draw_one(st.floats(0.02, 0.98)) * 180 * (1 - part)}
        case _:
            return {}
