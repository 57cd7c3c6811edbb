"""Labels in the drawing and below it, for any figure however far out of shape."""

import re
from itertools import combinations

import pytest
from figure_geometry import drawn
from figure_scenes import scenes
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.figure.examples import EXAMPLES
from tutor.figure.ground import Cell, Extent, Grid, Ground, Room
from tutor.figure.kinds import FIGURE_KINDS, draw, is_angle
from tutor.figure.legend import in_rows, short_form
from tutor.figure.placing import Wish, place
from tutor.figure.scene import Point, Scene, Spot
from tutor.figure.terminal import to_terminal

GRIDS = [Grid(2, 4, 1, 0), Grid(1, 1, 2, 1)]
DIRECTIONS = [Point(0, 0), Point(1, 0), Point(-1, 0), Point(0, 1), Point(0, -1), Point(0.6, 0.8)]
CELLS = st.sets(st.tuples(st.integers(0, 30), st.integers(0, 12)), min_size=1, max_size=60)


@st.composite
def wishes(draw_one: st.DrawFn) -> Wish:
    spot = st.builds(Spot, st.builds(Point, st.floats(0, 60), st.floats(0, 48)), st.sampled_from(DIRECTIONS))
    across = draw_one(st.integers(1, 14))
    spots = tuple(draw_one(st.lists(spot, min_size=1, max_size=3)))
    return Wish(across, draw_one(st.integers(1, 2)), spots, draw_one(st.integers(0, across)))


def inside(box: Extent) -> set[Cell]:
    return {(x, y) for x in range(box.left, box.right) for y in range(box.top, box.bottom)}


@settings(deadline=None, max_examples=60)
@given(
    wanted=st.lists(wishes(), max_size=5),
    ink=CELLS,
    grid=st.sampled_from(GRIDS),
    room=st.builds(Room, st.integers(20, 60), st.integers(8, 25)) | st.none(),
    below=st.booleans(),
)
def test_no_label_touches_the_drawing_or_another_label(
    wanted: list[Wish], ink: set[Cell], grid: Grid, room: Room | None, below: bool
) -> None:
    placed = place(wanted, Ground(ink, [], grid), room=room, below=below)
    if placed is None:  # without an end of room, or with a way out, there always is a place
        assert room is not None
        return
    assert len(placed.boxes) == len(wanted)
    assert placed.extent.fits(room)
    boxes = [box for box in placed.boxes if box is not None]
    assert len(boxes) == len(wanted) or below
    for box in boxes:
        around = Extent(
            box.left - grid.gap_across,
            box.top - grid.gap_down,
            box.right + grid.gap_across,
            box.bottom + grid.gap_down,
        )
        assert inside(around).isdisjoint(ink)
        assert placed.extent.joined(box) == placed.extent
        for other in boxes:
            assert other is box or inside(around).isdisjoint(inside(other))
    for wish, place_of in zip(wanted, placed.boxes, strict=True):
        if place_of is not None:
            width = place_of.right - place_of.left
            assert width == wish.across or (below and width == wish.short)


# --- names and values

VALUES = st.sampled_from(["r = 6 cm", "A = 36 cm²", "area A = 36 cm²", "x", "C = ?", "B = (3x + 12)°"])


@settings(deadline=None, max_examples=40)
@given(
    scene=scenes(VALUES),
    area=st.sampled_from([(38, 14), (60, 25), (80, 24)]),
    plain=st.booleans(),
)
def test_every_label_is_told_whole_in_the_drawing_or_below_it(
    scene: Scene, area: tuple[int, int], plain: bool
) -> None:
    rows = to_terminal(scene, *area, plain=plain)
    assert len(rows) <= area[1]
    whole = "\n".join(rows)
    for label in scene.labels:
        text = label.text.replace("²", "^2").replace("°", " deg") if plain else label.text
        assert text in whole
    assert any("⠀" < letter <= "⣿" or letter in "+-|/\\" for letter in whole)


@pytest.mark.parametrize("kind", [kind for kind in FIGURE_KINDS if not is_angle(kind, "")])
def test_one_size_50_times_the_others_is_still_drawn_and_told(kind: str) -> None:
    sizes = EXAMPLES[kind].sizes
    texts = {role: f"{role[0]} = {index} cm" for index, role in enumerate(sizes)}
    for role in sizes:
        for factor, area in ((50, (38, 14)), (0.02, (60, 25))):
            scene, sentence = draw(kind, {**sizes, role: sizes[role] * factor}, texts)
            if scene is None:
                assert sentence
                continue
            rows = to_terminal(scene, *area)
            whole = "\n".join(rows)
            assert all(label.text in whole for label in scene.labels)
            assert all(len(row) <= area[0] for row in rows)


@pytest.mark.parametrize("kind", EXAMPLES)
def test_the_example_of_each_kind_needs_at_most_three_values_below(kind: str) -> None:
    area = (36, 13)
    names = [piece.split() for piece in EXAMPLES[kind].entry.split(", ")[1:]]
    sizes = EXAMPLES[kind].sizes
    texts = {" ".join(words[:-1]): f"{words[-1]} = 12 cm" for words in names}
    labels = {role: text for role, text in texts.items() if role in FIGURE_KINDS[kind]}
    rows = to_terminal(drawn(kind, sizes, labels), *area)
    told_below = [row for row in rows[-2:] if re.fullmatch(r"\s*((\w[\w ]*: )?\S+ = 12 cm\s*)+", row)]
    beside = sum(row.count("= 12 cm") for row in told_below)
    assert beside <= 3
    assert all(text in "\n".join(rows) for text in labels.values())


def test_a_name_stays_where_it_belongs_and_its_value_goes_below() -> None:
    labels = {"radius": "r = 3.25 centimetres", "length": "L = 16 cm"}
    sizes = {"length": 16, "width": 10, "hole radius": 3.25}
    rows = to_terminal(drawn("rectangle with hole", sizes, {"hole radius": labels["radius"]}), 38, 14)
    assert rows[-1].strip() == "r = 3.25 centimetres"
    assert len([row for row in rows[:-1] if " r " in row]) == 1


def test_what_has_no_place_at_all_is_told_with_the_part_that_it_names() -> None:
    scene = drawn("frame", {"outer length": 60, "outer width": 2, "border": 0.5}, {"length": "L = 59 cm"})
    assert to_terminal(scene, 38, 14)[-1].strip() == "length: L = 59 cm"


@pytest.mark.parametrize(
    ("text", "short"),
    [("r = 6 cm", "r"), ("area A = 36", "area A"), ("r", ""), (" = 3", ""), ("r = ", ""), ("a=b", "")],
)
def test_the_short_form_is_the_name(text: str, short: str) -> None:
    assert short_form(text) == short


def test_entries_below_share_rows_as_far_as_they_fit() -> None:
    assert in_rows(["aaaa", "bbbb", "cccc", "dddddddddddddddd"], "  ", len, 10) == (
        "aaaa  bbbb",
        "cccc",
        "dddddddddddddddd",
    )


def test_labels_keep_their_order_apart_from_each_other() -> None:
    # Two labels of one spot take two places.
    spot = Spot(Point(10, 10), Point(1, 0))
    placed = place([Wish(4, 1, (spot,)), Wish(4, 1, (spot,))], Ground({(4, 2)}, [], GRIDS[0]))
    assert placed is not None
    for one, other in combinations(placed.boxes, 2):
        assert one is not None
        assert other is not None
        assert inside(one).isdisjoint(inside(other))
