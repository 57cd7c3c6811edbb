"""Figures on paper: true size in millimetres, labels clear of lines, any text escaped."""

import math
import re
import xml.etree.ElementTree as ET
from collections.abc import Mapping

import pytest
from figure_scenes import scenes
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, box
from shapely.geometry.base import BaseGeometry

from tutor.figure.examples import EXAMPLES
from tutor.figure.kinds import FIGURE_KINDS, draw
from tutor.figure.scene import Dot, Scene, Segment, Shade, trace
from tutor.figure.svg import to_svg
from tutor.figure.terminal import to_terminal

SVG = "{http://www.w3.org/2000/svg}"


def scene_of(kind: str, sizes: Mapping[str, float], labels: Mapping[str, str] | None = None) -> Scene:
    scene, sentence = draw(kind, sizes, labels or {})
    assert scene is not None, sentence
    return scene


def parsed(scene: Scene, scale: float) -> ET.Element:
    return ET.fromstring(to_svg(scene, millimetres_per_unit=scale))


def number(element: ET.Element, name: str) -> float:
    return float(element.attrib[name])


def length(line: ET.Element) -> float:
    x1, y1, x2, y2 = (number(line, name) for name in ("x1", "y1", "x2", "y2"))
    return math.hypot(x2 - x1, y2 - y1)


def test_a_side_of_6_cm_measures_60_mm_on_paper() -> None:
    root = parsed(scene_of("rectangle", {"length": 6, "width": 4}), 10)
    assert sorted(length(line) for line in root.iter(f"{SVG}line")) == pytest.approx([40, 40, 60, 60])


@pytest.mark.parametrize("kind", FIGURE_KINDS)
def test_the_view_box_counts_millimetres_of_paper(kind: str) -> None:
    root = parsed(scene_of(kind, EXAMPLES[kind].sizes), 10)
    _left, _top, width, height = map(float, root.attrib["viewBox"].split())
    assert root.attrib["width"] == f"{width:g}mm"
    assert root.attrib["height"] == f"{height:g}mm"


@settings(deadline=None, max_examples=30)
@given(radius=st.floats(0.5, 40), scale=st.sampled_from([1.0, 5.0, 10.0]))
def test_a_circle_has_its_radius_in_millimetres(radius: float, scale: float) -> None:
    root = parsed(scene_of("circle", {"radius": radius}), scale)
    radii = [number(circle, "r") for circle in root.iter(f"{SVG}circle") if "stroke-width" in circle.attrib]
    assert radii == [pytest.approx(radius * scale, abs=1e-3)]


@settings(deadline=None, max_examples=40)
@given(second=st.floats(5, 175))
def test_the_bow_of_an_angle_goes_from_arm_to_arm_the_right_way_round(second: float) -> None:
    root = parsed(scene_of("angles", {"first": 180 - second, "second": second}), 10)
    arms = [[number(line, name) for name in ("x1", "y1", "x2", "y2")] for line in root.iter(f"{SVG}line")]
    corner_x, corner_y = arms[0][:2]
    turns = {}
    for path in root.iter(f"{SVG}path"):
        start_x, start_y, radius, _, _, large, sweep, end_x, end_y = map(
            float, re.findall(r"-?[\d.]+", path.attrib["d"])
        )
        begin = math.degrees(math.atan2(corner_y - start_y, start_x - corner_x)) % 360
        end = math.degrees(math.atan2(corner_y - end_y, end_x - corner_x)) % 360
        assert (large, sweep) == (0, 0)
        turns[radius] = (begin, end)
    assert turns[12] == pytest.approx((second, 180), abs=0.05)
    assert turns[16] == pytest.approx((0, second), abs=0.05)


# --- labels

# Widths in parts of an em of a wide common sans-serif font (measured on the advance widths of DejaVu
# Sans, from memory): what a text takes at least.
ADVANCE = {
    " ": 0.32, "\N{NO-BREAK SPACE}": 0.32, "=": 0.84, "?": 0.53, ":": 0.34, "i": 0.28, "j": 0.28, "l": 0.28, "t": 0.39,
    "r": 0.41, "³": 0.4,
}  # fmt: skip


def text_boxes(root: ET.Element) -> list[BaseGeometry]:
    """Return the ink of each text: from the baseline up to the height of a capital, as wide as it may be."""
    [group] = [group for group in root.iter(f"{SVG}g") if "font-size" in group.attrib]
    size = number(group, "font-size")
    found = []
    for text in group.iter(f"{SVG}text"):
        assert text.text
        half = size * sum(ADVANCE.get(letter, 0.62) for letter in text.text) / 2
        x, y = number(text, "x"), number(text, "y")
        found.append(box(x - half, y - 0.73 * size, x + half, y))
    return found


def ink(scene: Scene, scale: float) -> list[tuple[BaseGeometry, float]]:
    """Return the lines of a scene in mm on paper, each with half its width."""
    bounds = scene.bounds()
    lines: list[tuple[BaseGeometry, float]] = []
    for shape in scene.shapes:
        if isinstance(shape, Shade):
            continue
        step = math.inf if isinstance(shape, Segment) else 0.5 / scale
        points = [((p.x - bounds.left) * scale, (bounds.top - p.y) * scale) for p in trace(shape, step)]
        lines.append((Point(points[0]), 0.7) if isinstance(shape, Dot) else (LineString(points), 0.25))
    return lines


@settings(deadline=None, max_examples=60)
@given(scene=scenes(), scale=st.sampled_from([1.0, 4.0, 10.0]))
def test_labels_touch_no_line_and_no_other_label_and_lie_on_the_paper(scene: Scene, scale: float) -> None:
    root = parsed(scene, scale)
    shown = [text.text or "" for text in root.iter(f"{SVG}text")]
    assert all(any(label.text in text for text in shown) for label in scene.labels)
    boxes = text_boxes(root)
    left, top, width, height = map(float, root.attrib["viewBox"].split())
    paper = box(left, top, left + width, top + height)
    for index, text in enumerate(boxes):
        assert paper.contains(text)
        assert not any(text.intersects(other) for other in boxes[:index])
        near = [line.wkt for line, half in ink(scene, scale) if text.distance(line) <= half]
        assert near == [], (shown[index], text.wkt)


@pytest.mark.parametrize("kind", FIGURE_KINDS)
def test_every_label_is_written_and_read_out(kind: str) -> None:
    texts = {role: f"{role} = ?" for role in FIGURE_KINDS[kind]}
    scene = scene_of(kind, EXAMPLES[kind].sizes, {r: t for r, t in texts.items() if r != "third"})
    root = parsed(scene, 10)
    shown = [text.text or "" for text in root.iter(f"{SVG}text")]
    title = root.findtext(f"{SVG}title") or ""
    assert title.startswith(kind)
    for label in scene.labels:
        assert any(label.text in text for text in shown)
        assert label.text in title


def test_a_value_that_finds_no_place_is_told_below_and_its_name_stays() -> None:
    scene = scene_of("rectangle", {"length": 6, "width": 4}, {"area": f"A = {'1' * 30}", "length": "L"})
    texts = [text.text for text in parsed(scene, 5).iter(f"{SVG}text")]
    assert texts == ["L", "A", f"A = {'1' * 30}"]


def test_a_label_stands_across_no_line_from_what_it_names() -> None:
    # The window is 2 mm high: its length would have to stand outside the board.
    labels = {"length": "L = 58 cm", "outer length": "F = 60 cm"}
    scene = scene_of("frame", {"outer length": 60, "outer width": 4, "border": 1}, labels)
    root = parsed(scene, 1)
    low = max(number(line, "y2") for line in root.iter(f"{SVG}line"))
    for text in root.iter(f"{SVG}text"):
        assert text.text in {"F = 60 cm", "length: L = 58 cm"}
        assert (number(text, "y") > low) == (text.text != "F = 60 cm")


HOSTILE = [
    "<script>alert(1)</script>",
    "\"'&]]>",
    "</text></svg>",
    "\x00\x1b[31m",
    "\ufffe",
    "r\ud800",
    "\u202er = 3",
]


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_labels_stay_text(text: str) -> None:
    root = parsed(scene_of("circle", {"radius": 3}, {"radius": f"r{text}"}), 10)
    assert {element.tag.removeprefix(SVG) for element in root.iter()} <= {
        "svg", "title", "rect", "g", "line", "circle", "path", "text"
    }  # fmt: skip
    [shown] = [element.text or "" for element in root.iter(f"{SVG}text")]
    shown = shown.removeprefix("radius: ")  # below the drawing, where there is no room in it
    assert shown == "r" + "".join(letter for letter in text if letter.isprintable())


@settings(deadline=None, max_examples=30)
@given(text=st.text(max_size=80))
def test_any_label_gives_a_document_that_can_be_read(text: str) -> None:
    assert parsed(scene_of("circle", {"radius": 3}, {"radius": text}), 10).tag == f"{SVG}svg"


def test_a_very_large_drawing_is_still_drawn_at_true_size() -> None:
    root = parsed(scene_of("track", {"straight": 400, "ends": 60}, {"ends": "d", "path": "P"}), 1000)
    assert max(length(line) for line in root.iter(f"{SVG}line")) == pytest.approx(400_000)


@pytest.mark.parametrize("scale", [0, -1, math.nan, math.inf])
def test_a_scale_that_is_none_is_a_bug_of_the_caller(scale: float) -> None:
    with pytest.raises(ValueError, match="positive"):
        to_svg(scene_of("circle", {"radius": 3}), millimetres_per_unit=scale)


def test_terminal_and_paper_show_the_same_labels() -> None:
    labels = {"length": "L = 10 cm", "width": "W = ?", "height": "H = 6 cm", "volume": "V = 420 cm³"}
    scene = scene_of("box", EXAMPLES["box"].sizes, labels)
    shown = "\n".join(to_terminal(scene, 60, 20))
    assert all((text.text or "") in shown for text in parsed(scene, 10).iter(f"{SVG}text"))
