"""Figures in a terminal: to scale in dots, labels whole, apart and beside what they name."""

import math
import unicodedata
from collections.abc import Mapping

import pytest
from figure_scenes import scenes
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len

from tutor.figure.kinds import draw
from tutor.figure.scene import Scene
from tutor.figure.terminal import to_terminal

often = settings(deadline=None, max_examples=60)

Dots = set[tuple[int, int]]  # column, row, downward


def scene_of(kind: str, sizes: Mapping[str, float], labels: Mapping[str, str] | None = None) -> Scene:
    scene, sentence = draw(kind, sizes, labels or {})
    assert scene is not None, sentence
    return scene


def dots(rows: tuple[str, ...]) -> Dots:
    """Return the braille dots of rows (Unicode Standard, Braille Patterns: dots 1 to 8 are bits 0 to 7)."""
    places = ((0, 0), (0, 1), (0, 2), (1, 0), (1, 1), (1, 2), (0, 3), (1, 3))
    return {
        (2 * column + dx, 4 * row + dy)
        for row, text in enumerate(rows)
        for column, letter in enumerate(text)
        if 0x2800 <= ord(letter) <= 0x28FF
        for bit, (dx, dy) in enumerate(places)
        if (ord(letter) - 0x2800) >> bit & 1
    }


def span(found: Dots) -> tuple[int, int]:
    """Return how many steps there are from the first dot to the last, across and down."""
    xs, ys = [x for x, _ in found], [y for _, y in found]
    return max(xs) - min(xs), max(ys) - min(ys)


def row_of(rows: tuple[str, ...], text: str) -> int:
    [row] = [index for index, row in enumerate(rows) if text in row]
    return row


# --- to scale


@often
@given(columns=st.integers(12, 120), rows=st.integers(4, 50))
def test_a_circle_is_round_in_dots(columns: int, rows: int) -> None:
    found = dots(to_terminal(scene_of("circle", {"radius": 7.5}), columns, rows))
    across, down = span(found)
    assert across == down
    middle_x, middle_y = min(x for x, _ in found) + across / 2, min(y for _, y in found) + down / 2
    far = [math.hypot(x - middle_x, y - middle_y) for x, y in found]
    outline = [distance for distance in far if distance > 0.8 * across / 2]
    assert max(outline) <= across / 2 + 0.75
    # Every eighth of a turn is drawn, so that it is a whole circle.
    turns = {
        int(math.degrees(math.atan2(y - middle_y, x - middle_x)) // 45)
        for x, y in found
        if abs(math.hypot(x - middle_x, y - middle_y) - across / 2) < 0.75
    }
    assert turns >= set(range(-4, 4))


@often
@given(straight=st.floats(5, 80), ends=st.floats(10, 30))
def test_the_straight_and_the_ends_of_a_track_are_to_scale(straight: float, ends: float) -> None:
    found = dots(to_terminal(scene_of("track", {"straight": straight, "ends": ends}), 80, 24))
    across, down = span(found)
    assert across / down == pytest.approx((straight + ends) / ends, abs=1.5 * across / down / down)
    # Between the bows, the only dots in the middle are those of the two dashed ends.
    top, left = min(y for _, y in found), min(x for x, _ in found)
    inside = {
        x
        for x, y in found
        if top + down * 0.3 < y < top + down * 0.7 and left + down * 0.2 < x < left + across - down * 0.2
    }
    assert max(inside) - min(inside) == pytest.approx(straight / ends * down, abs=1.5 + straight / ends)


@often
@given(length=st.floats(2, 40), width=st.floats(2, 40), height=st.floats(2, 40))
def test_a_box_keeps_its_shape(length: float, width: float, height: float) -> None:
    across, down = span(
        dots(to_terminal(scene_of("box", {"length": length, "width": width, "height": height}), 70, 30))
    )
    back = width * math.sqrt(0.5)
    assert abs(across * (height + back) - down * (length + back)) <= 1.5 * max(length + back, height + back)


@often
@given(second=st.floats(8, 172))
def test_an_angle_is_drawn_at_its_true_size(second: float) -> None:
    found = dots(to_terminal(scene_of("angles", {"first": 180 - second, "second": second}), 80, 24))
    base = max(y for _, y in found)
    line = [x for x, y in found if y == base]
    corner = (max(line) + min(line)) / 2
    arm = (max(line) - min(line)) / 2
    end_x, end_y = max(
        found, key=lambda dot: math.hypot(dot[0] - corner, dot[1] - base) * (dot[1] < base - 1)
    )
    assert math.hypot(end_x - corner, end_y - base) == pytest.approx(arm, abs=1.5)
    assert math.degrees(math.atan2(base - end_y, end_x - corner)) == pytest.approx(second, abs=1.5)


def test_hidden_edges_have_gaps_and_seen_ones_have_none() -> None:
    found = dots(to_terminal(scene_of("rectangle", {"length": 9, "width": 4}), 60, 20))
    across, down = span(found)
    assert len(found) == 2 * (across + down)
    box = dots(to_terminal(scene_of("box", {"length": 10, "width": 7, "height": 6}), 60, 20))
    top = min(y for _, y in box)
    corner = min(x for x, y in box if y == top)  # from here the hidden upright edge goes down
    upright = [(corner, y) in box for y in range(top + 1, top + 9)]
    assert upright.count(False) == upright.count(True) == 4


@often
@given(columns=st.integers(12, 120), rows=st.integers(4, 50))
def test_a_circle_in_plain_letters_has_no_gap(columns: int, rows: int) -> None:
    found = to_terminal(scene_of("circle", {"radius": 7.5}), columns, rows, plain=True)
    cells = {(x, y) for y, row in enumerate(found) for x, letter in enumerate(row) if letter != " "}
    for x, y in (cell for cell in cells if found[cell[1]][cell[0]] != "o"):
        near = {(x + dx, y + dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1)} & cells
        assert len(near) >= 3  # itself and one on each side


# --- labels

EXAMPLES: dict[str, tuple[dict[str, float], dict[str, str]]] = {
    "circle": ({"radius": 7.5}, {"radius": "r = ?", "circumference": "C = 47.1 cm"}),
    "box": (
        {"length": 10, "width": 7, "height": 6},
        {"length": "L = 10 cm", "width": "W = ?", "height": "H = 6 cm", "volume": "V = 420 cm³"},
    ),
    "angles": ({"first": 132, "second": 48}, {"first": "A = 3x + 12", "second": "B = x + 8"}),
    "track": (
        {"straight": 20, "ends": 12},
        {"straight": "s = ?", "ends": "d = 12 m", "path": "P = 77.68 m"},
    ),
    "frame": (
        {"outer length": 60, "outer width": 40, "border": 5},
        {
            "outer length": "a = 60 cm",
            "outer width": "b = 40 cm",
            "border": "t = 5 cm",
            "length": "l = ?",
            "width": "w = ?",
        },
    ),
    "rectangle": ({"length": 9, "width": 4}, {"length": "L = 9 ft", "width": "w = ?", "area": "A = ?"}),
    "triangle": ({"base": 12, "height": 5}, {"base": "b = 12 cm", "height": "h = 5 cm", "area": "A = ?"}),
}


@pytest.mark.parametrize("area", [(36, 12), (60, 20), (80, 30), (28, 10)])
@pytest.mark.parametrize("plain", [False, True])
@pytest.mark.parametrize("kind", EXAMPLES)
def test_at_usual_areas_every_label_is_whole_beside_a_drawing(
    kind: str, plain: bool, area: tuple[int, int]
) -> None:
    sizes, labels = EXAMPLES[kind]
    rows = to_terminal(scene_of(kind, sizes, labels), *area, plain=plain)
    whole = "\n".join(rows)
    for text in labels.values():
        assert (text.replace("³", "^3") if plain else text) in whole
    assert len(rows) <= area[1]
    assert all(cell_len(row) <= area[0] for row in rows)
    assert sum(map(len, rows)) > 2 * sum(map(len, labels.values()))


@settings(deadline=None, max_examples=80)
@given(scene=scenes(), columns=st.integers(12, 90), rows=st.integers(4, 30))
def test_labels_never_cover_each_other_and_rows_keep_within_the_area(
    scene: Scene, columns: int, rows: int
) -> None:
    found = to_terminal(scene, columns, rows)
    assert len(found) <= rows
    assert all(cell_len(row) <= columns for row in found)
    if not dots(found):  # no room for a drawing: the labels alone, as many as there are rows
        assert len(found) == min(rows, len(scene.labels))
        return
    whole = "\n".join(found)
    assert whole.count("⟨") == len(scene.labels)
    for label in scene.labels:
        cuts = (label.text, *(label.text[:end] + "…" for end in range(1, len(label.text))))
        assert any(cut in whole for cut in cuts)
    for row in found:
        for text in (label.text for label in scene.labels):
            if text in row:  # one free cell on both sides
                before, after = row.split(text, 1)
                assert before[-1:] in {"", " "}
                assert after[:1] in {"", " "}


@often
@given(second=st.floats(15, 165), columns=st.integers(36, 90), rows=st.integers(12, 30), plain=st.booleans())
def test_the_name_of_an_angle_stands_between_its_arms(
    second: float, columns: int, rows: int, plain: bool
) -> None:
    labels = {"first": "AA", "second": "BB"}
    found = to_terminal(
        scene_of("angles", {"first": 180 - second, "second": second}, labels), columns, rows, plain=plain
    )
    base = max(index for index, row in enumerate(found) if row.strip())
    line = found[base]
    corner = (len(line) - len(line.lstrip()) + len(line.rstrip())) / 2
    for text, low, high in (("BB", 0, second), ("AA", second, 180)):
        row = row_of(found, text)
        across, up = found[row].index(text) + 1 - corner, 2 * (base - row)
        # A cell is coarse: half a row of it is allowed for.
        slack = math.degrees(math.atan2(1.5, math.hypot(across, up)))
        assert low - slack <= math.degrees(math.atan2(up, across)) <= high + slack


def test_labels_of_a_circle_stand_inside_and_outside() -> None:
    sizes, labels = EXAMPLES["circle"]
    rows = to_terminal(scene_of("circle", sizes, labels), 36, 12)
    assert rows[row_of(rows, "r = ?")].index("r = ?") < rows[row_of(rows, "r = ?")].rindex("⠸")
    assert rows[row_of(rows, "C =")].endswith("C = 47.1 cm")


def test_a_label_takes_the_side_a_teacher_would_take() -> None:
    sizes, labels = EXAMPLES["frame"]
    rows = to_terminal(scene_of("frame", sizes, labels), 60, 20)
    order = [row_of(rows, labels[role]) for role in ("outer length", "length", "width", "border")]
    assert order == sorted(order)
    assert row_of(rows, "a = 60 cm") == 0
    assert rows[row_of(rows, "b = 40 cm")].startswith("b = 40 cm")


def test_a_long_label_is_cut_and_leaves_the_drawing_its_room() -> None:
    rows = to_terminal(scene_of("circle", {"radius": 3}, {"radius": "r = " + "9" * 500}), 36, 12)
    assert "…" in "".join(rows)
    assert len(dots(rows)) > 60


# --- hostile text

HOSTILE = st.one_of(
    st.text(max_size=30),
    st.sampled_from(
        [
            "\x1b[31mred",
            "[/]",
            "[red]r",
            "a\nb",
            "\x00",
            "\u202eabc",
            "a\u0301" * 40,
            "r\ud800",
            "é" * 9,
            "半径 = ?",
            "\u200b",
        ]
    ),
)


@settings(deadline=None, max_examples=80)
@given(scene=scenes(HOSTILE), columns=st.integers(-2, 60), rows=st.integers(-2, 20), plain=st.booleans())
def test_any_text_stays_one_row_of_printable_letters_within_the_area(
    scene: Scene, columns: int, rows: int, plain: bool
) -> None:
    found = to_terminal(scene, columns, rows, plain=plain)
    assert len(found) <= max(rows, 0)
    for row in found:
        assert cell_len(row) <= columns
        assert not any(unicodedata.category(letter)[0] == "C" for letter in row)
        assert not plain or row.isascii()
        row.encode("utf-8")


def test_brackets_are_shown_as_they_are() -> None:
    rows = to_terminal(scene_of("circle", {"radius": 3}, {"radius": "[red]r[/]"}), 60, 20)
    assert "[red]r[/]" in "".join(rows)


# --- small areas, plain letters


@pytest.mark.parametrize("area", [(11, 12), (36, 3), (5, 2)])
def test_too_small_an_area_shows_the_labels_alone(area: tuple[int, int]) -> None:
    sizes, labels = EXAMPLES["box"]
    rows = to_terminal(scene_of("box", sizes, labels), *area)
    assert rows == tuple(
        text if len(text) <= area[0] else text[: area[0] - 1].rstrip() + "…"
        for text in [label.text for label in scene_of("box", sizes, labels).labels][: area[1]]
    )


@pytest.mark.parametrize("area", [(0, 10), (10, 0), (-3, -3)])
def test_no_area_shows_nothing(area: tuple[int, int]) -> None:
    assert to_terminal(scene_of("circle", {"radius": 3}, {"radius": "r"}), *area) == ()


def test_plain_letters_draw_the_same_figure() -> None:
    sizes, labels = EXAMPLES["rectangle"]
    assert to_terminal(scene_of("rectangle", sizes, labels), 30, 9, plain=True) == (
        "      +---------------------+",
        "      |                     |",
        "w = ? |       A = ?         |",
        "      |                     |",
        "      |                     |",
        "      +---------------------+",
        "             L = 9 ft",
    )


def test_the_circle_of_the_lesson_looks_like_this() -> None:
    sizes, labels = EXAMPLES["circle"]
    assert to_terminal(scene_of("circle", sizes, labels), 36, 12) == (
        "       ⢀⡠⠔⠒⠊⠉⠉⠉⠉⠒⠒⠤⣀   C = 47.1 cm",
        "     ⢀⠔⠁            ⠑⢄",
        "   ⢀⠔⠁                ⠑⢄",
        "  ⢀⠎                   ⠈⢆",
        "  ⡸              r = ?  ⠸⡀",
        "  ⡇          ⣤⣄⣀⣀⣀⣀⣀⣀⣀⣀⣀⣀⡇",
        "  ⡇          ⠉⠁          ⡇",
        "  ⢸                     ⢸",
        "   ⢣                   ⢠⠃",
        "    ⠑⢄               ⢀⠔⠁",
        "      ⠑⢄⡀          ⣀⠔⠁",
        "        ⠈⠑⠒⠢⠤⠤⠤⠤⠒⠒⠉",
    )
