"""The figure of a problem: its kind, and which part bears which name."""

from collections.abc import Callable, Sequence
from difflib import get_close_matches

from tutor.figure.kinds import FIGURE_KINDS, FIGURE_WORDS, kind_called
from tutor.lesson.entries import Content
from tutor.lesson.model import Fault, FigurePart, FigureWords
from tutor.lesson.source import Phrase, Source
from tutor.visible import spelled


def read_figure(
    source: Source, content: Content, names: Sequence[str], speak_of: Callable[[str], bool]
) -> tuple[FigureWords | None, list[Fault]]:
    """Return the figure that the entry describes, and what is wrong with it.

    ``names`` are the names of the problem; ``speak_of`` tells of a further one whether its
    formulas have it.
    """
    written, *pieces = content.parts
    kind = kind_called(written.text)
    if not kind:
        return None, [_unknown_kind(source, written)]
    parts: list[FigurePart] = []
    faults: list[Fault] = []
    seen: set[str] = set()
    for piece in pieces:
        part = _part(source, kind, piece)
        if isinstance(part, Fault):
            faults.append(part)
            continue
        if part.role in seen:
            faults.append(source.fault(piece.start, f"The {part.role} is named twice. Take one away."))
        elif part.name and part.name not in names and not speak_of(part.name):
            faults.append(
                source.fault(
                    piece.at(len(piece.text) - len(part.name)),
                    f"“{spelled(part.name)}” is no name of this problem.",
                    f"{part.role} and one of {', '.join(names)}" if names else "",
                )
            )
        seen.add(part.role)
        parts.append(part)
    return FigureWords(kind, tuple(parts)), faults


def _unknown_kind(source: Source, written: Phrase) -> Fault:
    near = get_close_matches(written.text[:30].casefold(), FIGURE_KINDS, n=1, cutoff=0.6)
    same = get_close_matches(written.text[:30].casefold(), FIGURE_KINDS, n=1, cutoff=0.85)
    begun = [kind for kind in FIGURE_KINDS if written.text.casefold().startswith(kind.casefold() + " ")]
    if begun and not same:
        first = max(begun, key=len)
        return source.fault(
            written.start,
            "Commas stand between the kind of figure and its parts.",
            f"figure   {first}, {written.text[len(first) :].strip()}",
        )
    return source.fault(
        written.start,
        f"There is no figure “{spelled(written.text[:40])}”. There are {', '.join(FIGURE_KINDS)}.",
        f"figure   {near[0]}" if near else "",
    )


def _part(source: Source, kind: str, piece: Phrase) -> FigurePart | Fault:
    """Tell the role from the name; either may be of several words."""
    roles, words = FIGURE_KINDS[kind], FIGURE_WORDS[kind]
    text = piece.text
    if text.casefold() in words:
        return FigurePart(text.casefold(), "")
    for role in sorted(roles, key=len, reverse=True):
        if text.casefold() == role:
            return source.fault(
                piece.end, f"The {role} has no name here.", f"{role} and the letter that stands for it"
            )
        if text.casefold().startswith(role + " "):
            return FigurePart(role, text[len(role) + 1 :])
    like = get_close_matches(text[:30].casefold(), words, n=1, cutoff=0.75)
    if like:
        return source.fault(piece.start, f"Of a {kind} nobody can say “{spelled(text[:40])}”.", like[0])
    role, _, name = text.rpartition(" ")
    near = get_close_matches(role[:30].casefold(), roles, n=1, cutoff=0.6)
    return source.fault(
        piece.start,
        f"A {kind} has no part “{spelled(role[:40] or text[:40])}”. It has {', '.join((*roles, *words))}.",
        f"{near[0]} {name}" if near else "",
    )
