"""Where a student's record lives, and which codes can name one."""

import os
import re
from pathlib import Path

import platformdirs

SUFFIX = ".evenline"

_CODE = re.compile(r"[A-Za-z0-9_-]{1,32}")

# Names that Windows keeps for devices, with any ending (common practice, no source).
_DEVICES = frozenset(
    {"CON", "PRN", "AUX", "NUL"} | {f"{port}{digit}" for port in ("COM", "LPT") for digit in range(10)}
)


def code_problem(code: str) -> str:
    """Return "" where ``code`` can name a student, else a sentence that says what to type."""
    if not code:
        return "A student code is missing. Type the code your teacher gave you, such as K7."
    if not _CODE.fullmatch(code):
        return (
            "That code cannot be used. A code has 1 to 32 letters (A to Z), digits, _ or -, "
            "and no spaces, such as K7."
        )
    if code.upper() in _DEVICES:
        return f"Windows keeps the name {code.upper()} for itself. Choose another code, such as K7."
    return ""


def home() -> Path:
    """Return the private folder: EVENLINE_HOME where it is set, else the usual one of the system."""
    chosen = os.environ.get("EVENLINE_HOME", "")
    if chosen:
        return Path(chosen)
    return Path(platformdirs.user_data_dir("evenline", appauthor=False))


def record_path(code: str) -> Path:
    """Return the file of one student.

    Small and capital letters are one code, as they are one file on Windows and macOS.
    Raises ValueError for a code that ``code_problem`` refuses: ask that first.
    """
    problem = code_problem(code)
    if problem:
        raise ValueError(problem)
    return home() / f"{code.upper()}{SUFFIX}"


def make_private(folder: Path) -> None:
    """Make each missing folder on the way to ``folder``, for its owner only.

    A folder that is there keeps its permissions. On Windows the permissions are those of
    the user's profile. Raises OSError.
    """
    if folder.is_dir():
        return
    if folder.parent != folder:  # a drive that is not there is its own parent
        make_private(folder.parent)
    folder.mkdir(mode=0o700, exist_ok=True)
