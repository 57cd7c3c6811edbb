"""The lessons that lie in some folders."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from tutor.lesson.model import Fault, Lesson
from tutor.lesson.reader import SUFFIX, load_lesson


@dataclass(frozen=True, slots=True)
class ShelfEntry:
    """One lesson file; ``lesson`` is None where ``faults`` say why."""

    path: Path
    lesson: Lesson | None
    faults: tuple[Fault, ...]


def shelf(folders: Sequence[Path]) -> tuple[ShelfEntry, ...]:
    """Return the lessons of the folders in their order, each folder by file name.

    A file that is reached twice is named once. A folder that cannot be looked into is an
    entry of its own with a fault.
    """
    entries: list[ShelfEntry] = []
    seen: set[Path] = set()
    for folder in folders:
        try:
            files = sorted(path for path in folder.iterdir() if path.suffix.casefold() == SUFFIX)
        except FileNotFoundError:
            entries.append(_closed(folder, "There is no such folder."))
            continue
        except OSError:
            entries.append(_closed(folder, "This folder cannot be looked into."))
            continue
        for path in files:
            real = path.absolute()
            if real not in seen:
                seen.add(real)
                entries.append(ShelfEntry(path, *load_lesson(path)))
    return tuple(entries)


def _closed(folder: Path, message: str) -> ShelfEntry:
    return ShelfEntry(folder, None, (Fault(str(folder), 1, 1, "", message),))
