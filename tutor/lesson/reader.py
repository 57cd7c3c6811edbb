"""Lesson text to a Lesson, or to everything that is wrong with it at once."""

import hashlib
import re
from dataclasses import replace
from difflib import get_close_matches
from functools import lru_cache
from pathlib import Path

from tutor.lesson.fresh import SAMPLE_SEED, Template, drawn
from tutor.lesson.keywords import Keyword
from tutor.lesson.kinds import kind_of, misfits
from tutor.lesson.layout import cut
from tutor.lesson.likely import likely_find
from tutor.lesson.mathematics import SOURCES, parts_of
from tutor.lesson.model import Fault, Lesson, Problem, Review, Settings
from tutor.lesson.outline import Card, Outline, outline
from tutor.lesson.oversights import oversights
from tutor.lesson.problems import Defaults, read_pi, read_steps
from tutor.lesson.settings import read_settings
from tutor.lesson.source import Source, source_of
from tutor.lesson.variation import TOO_FEW, Effort, read_variation
from tutor.quantity.pi import Pi
from tutor.visible import spelled

FORMAT = "1"
SUFFIX = ".lesson"
LARGEST = 1_000_000  # bytes of a file, characters of a text
MOST_LINES = 10_000
MOST_FAULTS = 40

# Why a file could not be opened, in a teacher's words.
_NO_FILE = "There is no such file. Look at the name and the folder."
_NOT_ALLOWED = "This file may not be read. Ask for permission, or copy it to a folder of your own."
_FOLDER = "This is a folder. Name one lesson file in it."
_NO_LESSON_FILE = "This is not a file that can be read."
_TOO_LARGE = "This file is larger than 1 MB, which no lesson is. Is it the right one?"
_TOO_LONG = f"This file has more than {MOST_LINES} lines, which no lesson has. Is it the right one?"
_NOT_TEXT = "This is not a text file. A lesson is plain text."
_NOT_UTF8 = "This file is not saved as UTF-8. Save it again with that encoding."
_EMPTY = "This file is empty. A lesson begins with its title."


def load_lesson(path: Path) -> tuple[Lesson | None, tuple[Fault, ...]]:
    """Read a lesson file. Whatever is wrong with the file or its text comes back as faults."""
    return _load(path, path.parent)


def _load(path: Path, folder: Path | None) -> tuple[Lesson | None, tuple[Fault, ...]]:
    name = str(path)
    try:
        if path.is_dir():
            return None, (_whole(name, _FOLDER),)
        if not path.exists():
            return None, (_whole(name, _NO_FILE),)
        if not path.is_file():
            return None, (_whole(name, _NO_LESSON_FILE),)
        with path.open("rb") as file:
            data = file.read(LARGEST + 1)
    except PermissionError:
        return None, (_whole(name, _NOT_ALLOWED),)
    except (OSError, ValueError):  # ValueError: a name with a NUL in it
        return None, (_whole(name, _NO_LESSON_FILE),)
    return _read_bytes(data, name, folder)


def _read_bytes(data: bytes, name: str, folder: Path | None) -> tuple[Lesson | None, tuple[Fault, ...]]:
    if len(data) > LARGEST:
        return None, (_whole(name, _TOO_LARGE),)
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):  # the mark of UTF-16
        return None, (_whole(name, _NOT_UTF8),)
    if b"\0" in data:
        return None, (_whole(name, _NOT_TEXT),)
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        source = source_of(data.decode("utf-8", "replace"), name)
        before = source_of(data[: error.start].decode("utf-8"), name).text
        return None, (source.fault(min(len(before), len(source.text)), _NOT_UTF8),)
    return read_lesson(text, name, folder)


def read_lesson(text: str, path: str, folder: Path | None = None) -> tuple[Lesson | None, tuple[Fault, ...]]:
    """Read the text of a lesson; ``path`` is named in the faults. Never raises for what is in it.

    ``folder`` is where the lessons lie that a review draws from.
    """
    if len(text) > LARGEST:
        return None, (_whole(path, _TOO_LARGE),)
    if _NAMES_OTHERS.search(text) is None:
        return _read_alone(text, path)
    return _read(text, path, folder)


# What a review draws from lies in other files, which change without it.
_NAMES_OTHERS = re.compile(rf"^[^\S\n]*{Keyword.REVIEW.value}\b", re.IGNORECASE | re.MULTILINE)


@lru_cache(maxsize=32)
def _read_alone(text: str, path: str) -> tuple[Lesson | None, tuple[Fault, ...]]:
    """Read a lesson that draws from no other; a review reads those of its folder once more."""
    return _read(text, path, None)


def _read(text: str, path: str, folder: Path | None) -> tuple[Lesson | None, tuple[Fault, ...]]:
    source = source_of(text, path)
    if "\0" in source.text:
        return None, (source.fault(source.text.index("\0"), _NOT_TEXT),)
    if not source.text.strip():
        return None, (_whole(path, _EMPTY, Keyword.LESSON.example),)
    if len(source.starts) > MOST_LINES:
        return None, (source.fault(source.starts[MOST_LINES], _TOO_LONG),)
    entries, faults = cut(source)
    made = outline(source, entries)
    problems, problem_faults = _problems(made)
    settings, setting_faults = read_settings(source, made.lesson)
    review, review_faults = _review(made, folder)
    told = {(fault.line, fault.column) for fault in problem_faults}
    # A keyword that is mistyped and has no place there is one mistake.
    faults = tuple(fault for fault in faults if (fault.line, fault.column) not in told)
    found = [*faults, *made.faults, *_lesson_faults(made), *problem_faults, *setting_faults, *review_faults]
    if found:
        return None, _in_order(found)
    return _lesson(made, problems, settings, review), ()


def _problems(made: Outline) -> tuple[tuple[Problem, ...], list[Fault]]:
    pi, faults = read_pi(made.source, made.lesson)
    steps, check, step_faults = read_steps(made.source, made.lesson)
    faults += step_faults
    every_step = made.lesson.one(Keyword.EVERY) is not None
    defaults = Defaults(pi or Pi.EXACT, every_step, steps, check)
    problems: list[Problem] = []
    lines: dict[str, int] = {}
    effort = Effort()
    for card in made.problems:
        if len(faults) > MOST_FAULTS:  # nobody reads more
            break
        effort.left -= sum(_weight(content.entry.body) for content in card.all(*SOURCES, Keyword.SHOW))
        if effort.left < 0 and card.head is not None:
            message = "This lesson has too much to work out. Put its problems from here on into another file."
            faults.append(made.source.fault(card.head.offset, message))
            break
        problem, more = _problem(made.source, card, defaults, effort)
        faults += more
        _say_what_to_find(made, card)
        name = card.one(Keyword.PROBLEM)
        if name is not None and problem.name in lines:
            faults.append(
                made.source.fault(
                    name.first.start,
                    f"Line {lines[problem.name]} has a problem of this name already.",
                    f"problem  {problem.name} 2",
                )
            )
        lines.setdefault(problem.name, problem.line)
        problems.append(problem)
    return tuple(problems), faults


def _say_what_to_find(made: Outline, card: Card) -> None:
    """Let an empty ``find`` be told with a name of its problem: its entry alone knows none."""
    entry = card.seen.get(Keyword.FIND)
    if entry is None or entry.body:
        return
    line = made.source.place(entry.offset)[0]
    for at, fault in enumerate(made.faults):
        if fault.line == line and fault.instead == Keyword.FIND.example:
            made.faults[at] = replace(fault, instead=likely_find(card))


def _weight(mathematics: str) -> int:
    """Return about how long a formula takes to be understood, as conditions to be worked out."""
    if re.search(r"[)|]\s*(\^\s*[^23\s]|\^\s*[23]\d|[⁴-⁹])", mathematics):
        return 700
    return 110 if re.search(r"[)|]\s*[*·×]?\s*[(|]|[)|]\s*[\^²³]", mathematics) else 10


def _problem(source: Source, card: Card, defaults: Defaults, effort: Effort) -> tuple[Problem, list[Fault]]:
    """Return a problem with the first numbers that may be drawn for it."""
    own_pi, _told_later = read_pi(source, card)
    variation, faults = read_variation(source, card, own_pi or defaults.pi, effort)
    template = Template(source, card, defaults, variation)
    if variation is None:
        problem, more = template.problem(None)
        if faults or Keyword.VARY in card.unread:
            # Where numbers cannot be read, what waits for them is no second fault.
            more = [*faults, *misfits(source, card, kind_of(card))]
        return problem, more or list(oversights(source, card, parts_of(card), problem, None))
    name = card.one(Keyword.PROBLEM)
    sample = next(variation.sequence(SAMPLE_SEED, name.first.text if name else ""), None)
    # Where few draws will do, those of one seed may all be left out: one that was found is taken.
    problem, more = template.problem(sample or next(variation.sequence("any")))
    more = more or list(oversights(source, card, parts_of(card), problem, variation))
    if more or not variation.whole_answers:
        return problem, more
    whole = next(template.sequence(SAMPLE_SEED, problem.name, effort=effort), None)
    if whole is not None:
        return whole, []
    where = card.all(Keyword.WHERE)[0].entry.offset
    message = "No numbers that were tried give a whole answer. Vary the answer itself and work back from it."
    return problem, [source.fault(where, TOO_FEW if effort.left < 0 else message)]


def _lesson_faults(made: Outline) -> list[Fault]:
    faults: list[Fault] = []
    seen = made.lesson.seen
    if Keyword.LESSON not in seen:
        faults.append(made.source.fault(0, "The lesson has no title.", Keyword.LESSON.example))
    number = made.lesson.one(Keyword.FORMAT)
    if Keyword.FORMAT not in seen:
        faults.append(
            made.source.fault(0, "The lesson does not say how it is written.", Keyword.FORMAT.example)
        )
    elif number is not None and number.first.text != FORMAT:
        faults.append(
            made.source.fault(
                number.first.start,
                f"This lesson is written in format {spelled(number.first.text[:10])}; "
                f"only format {FORMAT} can be read here.",
                Keyword.FORMAT.example,
            )
        )
    if not made.problems and Keyword.REVIEW not in seen:
        faults.append(
            made.source.fault(len(made.source.text), "The lesson has no problem.", Keyword.PROBLEM.example)
        )
    return faults


# How many lessons a review may draw from, and problems it may have.
MOST_LESSONS = 20
MOST_DRAWN = 60


def _review(made: Outline, folder: Path | None) -> tuple[Review | None, list[Fault]]:
    """Return what a review draws from. It names files of its own folder, never a path."""
    content = made.lesson.one(Keyword.REVIEW)
    if content is None:
        return None, []
    source, (number, *names) = made.source, content.parts
    if made.problems and made.problems[0].head is not None:
        message = "A review takes its problems from other lessons and has none of its own."
        return None, [source.fault(made.problems[0].head.offset, message)]
    if len(number.text) > 3 or not 1 <= int(number.text) <= MOST_DRAWN:
        message = f"A review has 1 to {MOST_DRAWN} problems."
        return None, [source.fault(number.start, message, Keyword.REVIEW.example)]
    if len(names) > MOST_LESSONS:
        message = f"A review draws from at most {MOST_LESSONS} lessons."
        return None, [source.fault(names[MOST_LESSONS].start, message)]
    pool: list[Lesson] = []
    faults: list[Fault] = []
    texts = [name.text for name in names]
    for at, name in enumerate(names):
        if name.text in texts[:at]:
            faults.append(
                source.fault(name.start, f"“{spelled(name.text[:40])}” is named twice. Take one away.")
            )
            continue
        lesson, message = _beside(folder, name.text)
        if lesson is None:
            faults.append(source.fault(name.start, message, _renamed(folder, number.text, texts, at)))
        else:
            pool.append(lesson)
    there = sum(len(lesson.problems) for lesson in pool)
    if not faults and there < int(number.text):
        message = f"These lessons have {there} {'problem' if there == 1 else 'problems'} to draw from."
        fewer = Keyword.REVIEW.written(f"{there} from {', '.join(texts)}")
        faults.append(source.fault(number.start, message, fewer))
    return Review(int(number.text), tuple(name.text for name in names), tuple(pool)), faults


# What Windows takes for a device, whatever its ending.
_DEVICES = re.compile(r"con|prn|aux|nul|com\d|lpt\d", re.IGNORECASE)


def _renamed(folder: Path | None, count: str, names: list[str], at: int) -> str:
    """Return the entry with one name as a lesson of the folder is called, "" where none is like it."""
    there = _stems(folder)
    bare = names[at][:60].removesuffix(SUFFIX)
    near = [bare] if bare in there else get_close_matches(bare, there, n=1, cutoff=0.7)
    if " " in bare and all(name in there for name in bare.split()):
        near = [", ".join(bare.split())]
    if not near or near[0] in names:
        return ""
    return Keyword.REVIEW.written(f"{count} from {', '.join([*names[:at], near[0], *names[at + 1 :]])}")


def _stems(folder: Path | None) -> list[str]:
    try:
        found = sorted(path.stem for path in folder.iterdir() if path.suffix == SUFFIX) if folder else []
    except OSError:
        return []
    return found[:_MOST_NAMED]


# More lessons of one folder are not compared with a name that is not among them.
_MOST_NAMED = 500


def _beside(folder: Path | None, name: str) -> tuple[Lesson | None, str]:
    """Return the lesson of a file in the same folder, or a sentence that says why not."""
    shown = spelled(name[:40])
    if not re.fullmatch(r"[\w-]{1,60}", name) or _DEVICES.fullmatch(name):
        return None, f"“{shown}” is no name of a lesson file: letters, digits, - and _, without its ending."
    if folder is None:
        return None, "A review draws from lessons beside its own file, and not from another review."
    # Without a folder a review that it names cannot be read either: none draws from another.
    lesson, faults = _load(folder / f"{name}{SUFFIX}", None)
    if lesson is None:
        first = f" {spelled(faults[0].message)}" if faults else ""
        return None, f"The lesson “{shown}” in this folder cannot be used.{first}"
    return lesson, ""


def _lesson(
    made: Outline, problems: tuple[Problem, ...], settings: Settings, review: Review | None
) -> Lesson:
    def text(keyword: Keyword) -> str:
        content = made.lesson.one(keyword)
        return content.first.text if content else ""

    covers = made.lesson.one(Keyword.COVERS)
    written = made.source.text
    pool = () if review is None else review.pool
    covered = "".join((written, *(lesson.fingerprint for lesson in pool)))
    lesson = Lesson(
        title=text(Keyword.LESSON),
        grade=text(Keyword.GRADE),
        covers=tuple(code.text for code in covers.parts) if covers else (),
        problems=problems,
        fingerprint=hashlib.sha256(covered.encode("utf-8", "surrogatepass")).hexdigest(),
        path=made.source.path,
        text=written,
        settings=settings,
        review=review,
    )
    return lesson if review is None else drawn(lesson, SAMPLE_SEED)


def _in_order(faults: list[Fault]) -> tuple[Fault, ...]:
    """Return the faults as they come in the file, each place once, and not more than anyone reads."""
    unique = {(fault.line, fault.column, fault.message): fault for fault in faults}
    ordered = sorted(unique.values(), key=lambda fault: (fault.line, fault.column))
    left = len(ordered) - MOST_FAULTS
    if left > 0:
        here = ordered[MOST_FAULTS]
        ordered[MOST_FAULTS:] = [replace(here, message=f"From here on there are {left} more.", instead="")]
    return tuple(ordered)


def _whole(path: str, message: str, instead: str = "") -> Fault:
    return Fault(path, 1, 1, "", message, instead)
