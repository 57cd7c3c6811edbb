"""Entries put where they belong: on the lesson's own card or on that of a problem."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from tutor.lesson.entries import Content, read_entry
from tutor.lesson.keywords import BY_WORD, OF_A_PROBLEM, OF_THE_LESSON, REPEATS, Keyword
from tutor.lesson.layout import Entry
from tutor.lesson.model import Fault
from tutor.lesson.source import Source

# No lesson of a school hour comes near these; past them a file is some other thing.
MOST_PROBLEMS = 200
MOST_OF_A_KIND = 40
LONGEST = 4000  # characters of one entry


@dataclass(slots=True)
class Card:
    """The entries of the lesson itself or of one problem.

    ``head`` is the ``problem`` entry, None on the lesson's card. ``seen`` has the entries
    that stand there (the first of each), ``read`` what could be read in them, ``unread``
    where something could not.
    """

    head: Entry | None = None
    seen: dict[Keyword, Entry] = field(default_factory=dict)
    read: dict[Keyword, list[Content]] = field(default_factory=dict)
    unread: set[Keyword] = field(default_factory=set)

    def all(self, *keywords: Keyword) -> list[Content]:
        """Return what was read under these keywords, in the order of the file."""
        found = [content for keyword in keywords for content in self.read.get(keyword, [])]
        return sorted(found, key=lambda content: content.entry.offset)

    def one(self, keyword: Keyword) -> Content | None:
        """Return what was read under a keyword that stands once, or None."""
        found = self.read.get(keyword)
        return found[0] if found else None


@dataclass(slots=True)
class Outline:
    """The cards of a lesson, and every fault met on the way."""

    source: Source
    lesson: Card = field(default_factory=Card)
    problems: list[Card] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)


def outline(source: Source, entries: Iterable[Entry]) -> Outline:
    """Read the entries and put each on its card."""
    made = Outline(source)
    stray = Card()
    for entry in entries:
        if entry.keyword is Keyword.PROBLEM and len(made.problems) == MOST_PROBLEMS:
            message = f"A lesson has at most {MOST_PROBLEMS} problems. Begin a new file here."
            made.faults.append(source.fault(entry.offset, message))
            break
        if entry.keyword is Keyword.PROBLEM:
            made.problems.append(Card(entry))
            _put(made, made.problems[-1], entry)
            continue
        fault, card = _belongs(made, stray, entry)
        if fault is not None:
            made.faults.append(fault)
        if fault is None or entry.keyword not in card.seen:
            _put(made, card, entry)
    return made


def _belongs(made: Outline, stray: Card, entry: Entry) -> tuple[Fault | None, Card]:
    """Return the card an entry belongs on, and what is wrong with the place where it stands."""
    word = entry.keyword.value
    if entry.keyword in OF_A_PROBLEM:
        if made.problems:
            return None, made.problems[-1]
        told = bool(stray.seen)
        fault = made.source.fault(
            entry.offset, f"“{word}” belongs to a problem, and none has begun.", Keyword.PROBLEM.example
        )
        return None if told else fault, stray
    if not made.problems:
        return None, made.lesson
    head = made.problems[-1].head
    at_the_edge = head is not None and entry.indent <= head.indent
    if entry.keyword in OF_THE_LESSON or at_the_edge:
        fault = made.source.fault(
            entry.offset,
            f"“{word}” speaks of the whole lesson: it stands above the first problem"
            + ("." if entry.keyword in OF_THE_LESSON else ", or further right for this problem alone."),
        )
        return fault, made.lesson
    return None, made.problems[-1]


def _put(made: Outline, card: Card, entry: Entry) -> None:
    before = card.seen.get(entry.keyword)
    if before is not None and entry.keyword not in REPEATS:
        line, _column = made.source.place(before.offset)
        made.faults.append(
            made.source.fault(
                entry.offset,
                f"“{entry.keyword.value}” stands once, and line {line} has one already. Take one away.",
            )
        )
        return
    card.seen.setdefault(entry.keyword, entry)
    pieces = sum(len(content.parts) for content in card.read.get(entry.keyword, []))
    content: Content | Fault | None = None
    if len(entry.body) > LONGEST:
        message = f"This is longer than {LONGEST} letters, too long for one screen. Make it shorter."
        content = made.source.fault(entry.offset, message)
    elif pieces <= MOST_OF_A_KIND:
        content = read_entry(made.source, entry)
        if isinstance(content, Content) and pieces + len(content.parts) > MOST_OF_A_KIND:
            message = f"“{entry.keyword.value}” has more than {MOST_OF_A_KIND} pieces here, too many to show."
            made.faults.append(made.source.fault(entry.offset, message))
    match content:
        case Fault():
            made.faults.append(content)
            # What stands in an entry that cannot be read may have been meant for another.
            card.unread |= {entry.keyword, *(BY_WORD[word] for word in entry.body.split() if word in BY_WORD)}
        case Content():
            card.read.setdefault(entry.keyword, []).append(content)
        case None:  # past the limit, which is said already
            pass
