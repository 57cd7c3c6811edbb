"""Where the files that travel with the program are: the grammars and the lessons.

In a wheel they lie inside the package; in a checkout (and an editable install)
they stand beside it, at the top level.
"""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def _folder(name: str) -> Path:
    inside = _PACKAGE / name
    return inside if inside.is_dir() else _PACKAGE.parent / name


def grammar_text(name: str) -> str:
    """Return the text of ``grammar/<name>.lark``."""
    return (_folder("grammar") / f"{name}.lark").read_text(encoding="utf-8")


def lessons_folder() -> Path:
    """Return the folder of the lessons that ship."""
    return _folder("lessons")
