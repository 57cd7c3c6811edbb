"""The words that a student still has to study, for the command."""

from collections.abc import Sequence
from pathlib import Path
from typing import IO

from tutor.lesson.shelf import shelf
from tutor.record.place import code_problem, record_path
from tutor.record.study import words_of_code
from tutor.teacher.folding import folded
from tutor.visible import visible

WIDTH = 78
_INDENT = "    "


def print_words(code: str, folders: Sequence[Path], out: IO[str], err: IO[str]) -> int:
    """Print the words that the student of ``code`` missed and has not corrected, with their meanings.

    ``folders`` hold the lessons. Returns 0, or 2 and a sentence on ``err`` where there is no
    record or it cannot be read.
    """
    problem = code_problem(code)
    if not problem and not record_path(code).exists():
        name = record_path(code).stem
        problem = f"There is no work of {name} on this machine. Say your code: evenline --code K7 words"
    if problem:
        print(problem, file=err)
        return 2
    lessons = [entry.lesson for entry in shelf(folders) if entry.lesson is not None]
    words, sentence = words_of_code(code, lessons)
    if sentence:
        print(visible(sentence), file=err)
        return 2
    for found in words:
        print(visible(found.word), file=out)
        for row in folded(visible(found.meaning), WIDTH - len(_INDENT)):
            print(_INDENT + row, file=out)
    if not words:
        print("There is no word to study: none was missed, or all are corrected.", file=out)
    return 0
