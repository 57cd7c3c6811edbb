"""The parts of the page that need no screen: lettering, rows, words, waiting, the clerk."""

import asyncio
import functools
import unicodedata

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from textual.binding import Binding
from textual.color import Color
from textual.theme import Theme

from tutor.marking.task import Task
from tutor.marking.verdict import Mark, Step, Verdict
from tutor.marking.working import StepState, WorkLine, mark_lines
from tutor.page.app import EvenlineApp
from tutor.page.clerk import Clerk
from tutor.page.help_screen import help_text
from tutor.page.key_row import Key, place_keys, row_of
from tutor.page.lettering import cells, fold, pieces, shorten, underline
from tutor.page.look import CORRECTION_INK, FIRST_INK, THEMES, look_of
from tutor.page.next_words import step_sentence
from tutor.page.ruling import GUTTER, Written, rows
from tutor.page.shelf_screen import ShelfScreen
from tutor.page.steps_row import steps_row
from tutor.page.turns import Turns
from tutor.page.work_screen import WorkScreen
from tutor.visible import visible

ANY_TEXT = st.text(max_size=120)


@given(ANY_TEXT)
def test_visible_text_keeps_its_length_and_cannot_steer_a_terminal(text: str) -> None:
    shown = visible(text)
    assert len(shown) == len(text)
    assert not any(unicodedata.category(char) in {"Cc", "Cf", "Cs"} for char in shown)


def test_control_characters_have_pictures() -> None:
    assert visible("a\x1b[31m\x00\x7f\u202e") == "a␛[31m␀␡�"


@given(ANY_TEXT.map(visible), st.integers(2, 40))
def test_pieces_join_to_the_text_and_fit(text: str, width: int) -> None:
    parts = pieces(text, width)
    assert "".join(text[a:b] for a, b in parts) == text
    assert all(cells(text[a:b]) <= width for a, b in parts)


def test_a_long_line_is_cut_between_its_numbers() -> None:
    line = "A = 3*20 + 12 = 60 + 12 = 72, B = 180 - 72 = 108"
    assert [line[a:b] for a, b in pieces(line, 36)] == [
        "A = 3*20 + 12 = 60 + 12 = 72, B = ",
        "180 - 72 = 108",
    ]
    assert [len("1+1+1+1+1+1"[a:b]) for a, b in pieces("1+1+1+1+1+1", 4)] == [4, 4, 3]


@given(ANY_TEXT.map(visible), st.integers(2, 40))
def test_folded_words_are_all_there_and_fit(text: str, width: int) -> None:
    folded = fold(text, width)
    assert "".join("".join(folded).split()) == "".join(text.split())
    assert all(cells(row) <= width for row in folded)


def test_a_short_calculation_is_not_torn_apart() -> None:
    assert fold("This line says n = 12, but then line 1 says 92 = 87.", 37) == (
        "This line says n = 12, but then line",
        "1 says 92 = 87.",
    )
    assert fold("This line says that n = 12.", 22) == ("This line says that", "n = 12.")
    assert fold("1 + 2 + 3 + 4 + 5 + 6 + 7 + 8 + 9", 12) == ("1 + 2 + 3 +", "4 + 5 + 6 +", "7 + 8 + 9")


@given(ANY_TEXT.map(visible), st.integers(1, 30))
@example("⿰0", 2)
def test_shortened_text_fits(text: str, width: int) -> None:
    assert cells(shorten(text, width)) <= width


def test_the_underline_counts_cells_not_characters() -> None:
    assert underline("面積 = 5r", 5, 7) == "       ~~"
    assert underline("3 +", 3, 3) == "   ~"


def written(mark: Mark, *, text: str = "47.1 = 5.14r", struck: bool = False) -> Written:
    return Written(4, text, WorkLine(text, struck=struck, mark=mark), FIRST_INK)


@given(ANY_TEXT, st.integers(0, 120), st.integers(0, 40), st.integers(24, 90))
def test_no_row_is_wider_than_the_page(text: str, start: int, length: int, width: int) -> None:
    mark = Mark(Verdict.BREAKS, message=text, note=text, account=text, span=(start, start + length))
    for chosen in (False, True):
        for row in rows(written(mark, text=text), width, chosen=chosen):
            assert row.cell_length <= width


def test_the_underline_goes_on_under_a_folded_line() -> None:
    mark = Mark(Verdict.BREAKS, span=(10, 30))
    shown = [row.plain[GUTTER:].rstrip(" ▁") for row in rows(written(mark, text="1" * 36), GUTTER + 21)]
    assert shown[:4] == ["1" * 20, " " * 10 + "~" * 10, "1" * 16, "~" * 10]


@pytest.mark.parametrize("verdict", list(Verdict))
def test_every_verdict_has_its_own_sign_and_is_explained(verdict: Verdict) -> None:
    look = look_of(verdict)
    assert cells(look.sign) == 1
    assert [look_of(other).sign for other in Verdict].count(look.sign) == 1
    assert f"  {look.sign} " in help_text().plain
    first = rows(written(Mark(verdict)), 80, wide=True)[0].plain
    assert look.sign in first[:GUTTER]
    assert look.word in first


def test_a_line_that_leaves_steps_out_stands_and_says_what_to_do() -> None:
    mark = Mark(Verdict.LEAPS, message="Write one line between.")
    shown = [row.plain for row in rows(written(mark, text="x = 6"), 60)]
    assert shown[0][:GUTTER].startswith(" »") and "steps left out" in shown[0]
    assert shown[1][GUTTER:] == "Write one line between."


def test_a_struck_line_says_so_in_words() -> None:
    assert "struck out" in rows(written(Mark(Verdict.FOLLOWS), struck=True), 80)[0].plain


def test_the_inks_differ_by_word_and_sign() -> None:
    assert FIRST_INK.word != CORRECTION_INK.word
    assert FIRST_INK.upright != CORRECTION_INK.upright
    for ink in (FIRST_INK, CORRECTION_INK):
        assert f"margin of the {ink.word}" in help_text().plain


def test_an_equation_alone_has_words_of_its_own_for_its_steps() -> None:
    asked = {Step.FORMULA: StepState.STANDS, Step.SUBSTITUTE: StepState.NEXT}
    steps = tuple((step, asked.get(step, StepState.NOT_ASKED)) for step in Step)
    assert steps_row(steps).plain == "✓ equation   ▸ solve: next"
    measured = tuple((step, asked.get(step, StepState.OPEN)) for step in Step)
    assert steps_row(measured).plain == "✓ formula   · label   ▸ substitute: next   · units"


def test_a_label_without_its_unit_is_told_from_one_that_is_missing() -> None:
    box = Task(
        formulas=("V = L W H",),
        givens=(("V", "756 cm^3"), ("L", "14 cm"), ("H", "6 cm")),
        find=("W",),
        units=("cm",),
    )
    said = step_sentence(mark_lines(box, ["V = L W H", "L = 14", "V = 756 cm^3"]).progress)
    assert said.endswith("Still missing: H, W. Still without its unit: L.")
    assert "without" not in step_sentence(mark_lines(box, ["V = L W H", "L = 14 cm"]).progress)


def test_help_names_every_key_of_the_footer() -> None:
    names = {"escape": "Esc", "enter": "Enter", "up": "↑", "ctrl+q": "Ctrl+Q"}
    told = help_text().plain
    for holder in (EvenlineApp, WorkScreen):
        for binding in holder.BINDINGS:
            assert isinstance(binding, Binding)
            if binding.show:
                assert names.get(binding.key, binding.key.upper()) in told


def test_no_row_of_the_tables_in_the_help_is_folded_at_80_columns() -> None:
    tables = [row for row in help_text().plain.splitlines() if row.startswith("  ")]
    assert len(tables) > 30
    assert [row for row in tables if cells(row) > 75] == []


def test_keys_mean_the_same_on_every_screen() -> None:
    on_shelf = {b.key: b.action for b in ShelfScreen.BINDINGS if isinstance(b, Binding) and b.key[0] == "f"}
    at_work = {b.key: b.action for b in WorkScreen.BINDINGS if isinstance(b, Binding)}
    for key, action in on_shelf.items():
        assert at_work.get(key, action) == action


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_text_can_be_told_from_its_ground(theme: Theme) -> None:
    # WCAG 2.1, success criterion 1.4.3 (4.5 : 1) and 1.4.6 (7 : 1) for the high contrast theme.
    least = 7.0 if "contrast" in theme.name else 4.5
    ground = Color.parse(theme.background or "")
    inks = [theme.foreground, theme.primary, theme.success, theme.warning, theme.error]
    inks += [theme.variables[name] for name in ("first-ink", "second-ink", "quiet")]
    for ink in inks:
        assert _contrast(Color.parse(ink or ""), ground) >= least, ink


def _contrast(one: Color, other: Color) -> float:
    """WCAG 2.1, contrast ratio: (L1 + 0.05) / (L2 + 0.05) of the relative luminances."""
    low, high = sorted((_luminance(one), _luminance(other)))
    return (high + 0.05) / (low + 0.05)


def _luminance(colour: Color) -> float:
    """WCAG 2.1, relative luminance of an sRGB colour."""
    parts = [v / 255 for v in (colour.r, colour.g, colour.b)]
    red, green, blue = (v / 12.92 if v <= 0.03928 else ((v + 0.055) / 1.055) ** 2.4 for v in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


async def test_wishes_are_done_in_their_order_and_can_be_given_up() -> None:
    tasks: list[asyncio.Task[None]] = []
    done: list[str] = []
    turns = Turns(lambda work: tasks.append(asyncio.ensure_future(work)), lambda: done.append("idle"))

    async def do(name: str) -> None:
        await asyncio.sleep(0)
        done.append(name)
        if name == "stop":
            assert turns.give_up() == ("3x",)

    for name, text in (("a", "x"), ("b", ""), ("stop", "2x"), ("c", "3x"), ("d", " ")):
        turns.add(functools.partial(do, name), text)
    assert turns.busy
    assert turns.texts == ("x", "2x", "3x")
    await asyncio.gather(*tasks)
    assert done == ["a", "b", "stop", "idle"]
    assert not turns.busy


async def test_the_clerk_works_in_order_and_hands_bugs_back() -> None:
    clerk = Clerk()
    done: list[int] = []

    def fail() -> int:
        raise ValueError("a bug")

    asked = [asyncio.ensure_future(clerk.ask(functools.partial(done.append, n))) for n in range(5)]
    await asyncio.gather(*asked)
    assert done == [0, 1, 2, 3, 4]
    with pytest.raises(ValueError, match="a bug"):
        await clerk.ask(fail)
    clerk.tell(lambda: done.append(fail()))
    assert await clerk.ask(lambda: 7) == 7  # still at work after both bugs
    assert clerk.dismiss(5)


KEYS = [Key("enter", "Enter", "mark", True), Key("f3", "F3", "strike", False), Key("f5", "F5", "next", True)]


def test_the_keys_are_close_together_where_there_are_many() -> None:
    wide = place_keys(KEYS, 80)
    assert [one.key.name for one in wide] == ["Enter", "F3", "F5"]
    assert row_of(wide).plain == " Enter mark   F3 strike   F5 next"
    assert row_of(place_keys(KEYS, 28)).plain == "Enter mark F3 strike F5 next"


def test_a_key_that_does_nothing_now_goes_first_where_there_is_no_room() -> None:
    assert row_of(place_keys(KEYS, 27)).plain == " Enter mark   F5 next"


def test_then_the_last_keys_go() -> None:
    assert row_of(place_keys(KEYS, 17)).plain == " Enter mark"
    assert place_keys(KEYS, 5) == ()


@pytest.mark.parametrize("never_here", [{"f9"}, {"f2", "f4", "f6"}], ids=["line by line", "handed in"])
def test_all_keys_of_the_work_screen_but_the_arrow_fit_into_80_columns(never_here: set[str]) -> None:
    names = {"escape": "Esc", "enter": "Enter", "up": "↑"}
    shown = [b for b in WorkScreen.BINDINGS if isinstance(b, Binding) and b.show and b.key not in never_here]
    keys = [Key(b.key, names.get(b.key, b.key.upper()), b.description, True) for b in shown]
    placed = place_keys(keys, 80)
    fitting = [key.name for key in keys if key.name != "↑" or "f2" in never_here]
    assert [one.key.name for one in placed] == fitting
    assert placed[-1].end <= 80
