"""The keys of the work screen: which action of the record each needs, and when it is in the row of keys."""

from textual.binding import Binding, BindingType

from tutor.record.state import Action, LessonState

BINDINGS: list[BindingType] = [
    Binding("enter", "mark", "mark", id="work.mark"),
    Binding("f1", "app.help", "help", id="work.help"),
    Binding("escape", "shelf", "out", id="work.shelf"),
    Binding("f2", "hint", "hint", id="work.hint"),
    Binding("f9", "hand_in", "hand in", id="work.hand_in"),
    Binding("f3", "strike", "strike", id="work.strike"),
    Binding("f4", "appeal", "sure", id="work.appeal"),
    Binding("f5", "next", "next", id="work.next"),
    Binding("f6", "again", "again", id="work.again"),
    Binding("f7", "take_back", "undo", id="work.undo"),
    # Last, since it is the first to go where the row is full.
    Binding("up", "last_line", "last", id="work.last"),
    Binding("down", "later_line", "later", id="work.later", show=False),
    # The page of lines would take them first.
    Binding("pagedown", "read(1)", "read on", id="work.read_on", show=False, priority=True),
    Binding("pageup", "read(-1)", "read back", id="work.read_back", show=False, priority=True),
]

# Keys that are not here are always there.
_NEEDS = {
    "mark": frozenset({Action.SUBMIT, Action.FINISH, Action.NEXT, Action.START_CORRECTION}),
    "last_line": frozenset({Action.SUBMIT}),
    "hint": frozenset({Action.HINT}),
    "hand_in": frozenset({Action.FINISH}),
    "strike": frozenset({Action.STRIKE}),
    "take_back": frozenset({Action.TAKE_BACK}),
    "appeal": frozenset({Action.APPEAL}),
    "next": frozenset({Action.NEXT}),
    "again": frozenset({Action.START_CORRECTION}),
}


def in_the_row(action: str, state: LessonState, *, busy: bool) -> bool | None:
    """Tell whether a key works now: True, None in grey, False not even that.

    While something is ``busy``, what is allowed is known when the key's turn comes.
    """
    needed = _NEEDS.get(action)
    if needed is None:
        return True
    if not _has_a_place(action, state):
        return False
    problem = state.problems[state.current]
    if busy or needed & problem.actions:
        return True
    return False if action == "again" else None  # it is rare


def _has_a_place(action: str, state: LessonState) -> bool:
    """Tell whether a key may ever do something while this attempt is open."""
    hidden = state.problems[state.current].current.hidden
    match action:
        case "hint":
            return state.lesson.settings.hints and not hidden
        case "appeal" | "again":
            return not hidden
        case "hand_in":
            return hidden  # Enter closes what was marked line by line
        case _:
            return True
