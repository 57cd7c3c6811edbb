"""The command. Thin: it reads the arguments and calls the room that does the work."""

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from tutor import __version__

OK, BROKE, UNREADABLE = 0, 1, 2
MOST_ROWS = 1000

_ABOUT = """\
Evenline checks the lines of a maths solution, each against the line above.
Without a command it opens the shelf of lessons in the terminal.
"""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; returns the exit code (0 fine, 1 a line broke, 2 bad input)."""
    _speak_utf8()
    given = _parser().parse_args(arguments)
    try:
        return int(given.run(given))
    except BrokenPipeError:
        # The reader of our output went away: nothing is left to say to it.
        sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115, PTH123
        return OK
    except KeyboardInterrupt:
        return UNREADABLE


def _speak_utf8() -> None:
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(encoding="utf-8", errors="replace")


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="evenline", description=_ABOUT, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("--version", action="version", version=f"evenline {__version__}")
    parser.add_argument("--code", default="me", help="the student's code (default: me); no names, please")
    parser.add_argument(
        "--lessons", type=Path, action="append", default=[], metavar="FOLDER", help="a folder of lessons"
    )
    parser.set_defaults(run=_shelf)
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")

    check = commands.add_parser(
        "check",
        help="mark the lines in a text file, without a screen",
        description=(
            "Mark a plain text file of lines and print it with a mark and a reason at each line.\n"
            "Head lines (find r / formula C = 2 pi r / given C = 47.1 cm / units cm / pi 3.14) may stand\n"
            "above an empty line; the work follows below it. A line that begins with ~ is struck out.\n"
            "Exit code: 0 nothing broke; 1 a line broke, struck out or not; 2 something could not be read."
        ),
        formatter_class=argparse.RawTextHelpFormatter,
    )
    check.add_argument("file", nargs="?", help="the text file; - for standard input")
    check.add_argument(
        "--jsonl",
        action="store_true",
        help="read one JSON object a line from standard input, write one a line",
    )
    check.set_defaults(run=_check)

    new = commands.add_parser(
        "new",
        help="begin a lesson from a pattern",
        description=(
            "Write a small good lesson into a new file, to be changed by you.\n"
            "A pattern that nobody knows is answered with the names of all."
        ),
        formatter_class=argparse.RawTextHelpFormatter,
    )
    new.add_argument("pattern", help="equation, circle, angles, box, review, …")
    new.add_argument("file", type=Path, help="the new file; its name ends in .lesson")
    new.set_defaults(run=_new)

    audit = commands.add_parser(
        "audit",
        help="look a lesson over: can it be read, worked out, drawn",
        description=(
            "Read lesson files, work each problem out with several of its draws, and say what is wrong\n"
            "with file, line and column. What begins with “advice:” may stay as it is.\n"
            "Exit code: 0 no fault, 2 there are faults."
        ),
        formatter_class=argparse.RawTextHelpFormatter,
    )
    audit.add_argument("lesson", nargs="+", type=Path, help="a .lesson file")
    how = audit.add_mutually_exclusive_group()
    how.add_argument(
        "--thorough",
        action="store_true",
        help="take up to 40 draws of every problem and mark each line of its solution (slow)",
    )
    how.add_argument("--draws", action="store_true", help="print draws and their answers as tables")
    how.add_argument("--tidy", action="store_true", help="rewrite the file in the standard layout")
    audit.set_defaults(run=_audit)

    key = commands.add_parser(
        "key",
        help="print the answer key of a lesson, with the working",
        description=(
            "Print each question of a lesson, its working line by line, and its answers.\n"
            "Where numbers are drawn, the draws and their answers stand below in a table.\n"
            "All of it is worked out, nothing is stored."
        ),
        formatter_class=argparse.RawTextHelpFormatter,
    )
    key.add_argument("lesson", type=Path, help="a .lesson file")
    whose = key.add_mutually_exclusive_group()
    whose.add_argument(
        "--for",
        dest="student",
        type=Path,
        metavar="FILE",
        help="with the numbers of one student: the file that was handed in",
    )
    whose.add_argument("--seed", type=int, metavar="N", help="with the numbers that are drawn from a seed")
    key.add_argument(
        "--draws",
        type=_count,
        default=None,
        metavar="N",
        help="how many draws of a problem stand in its table at most (0: none)",
    )
    key.set_defaults(run=_key)

    report = commands.add_parser(
        "report",
        help="print what the students missed, from the files they handed in",
        description=(
            "Read the files that students handed in, mark every line again with your own lesson,\n"
            "and print who missed what, at which line, and what is still to correct."
        ),
        formatter_class=argparse.RawTextHelpFormatter,
    )
    report.add_argument("lesson", type=Path, help="your .lesson file")
    report.add_argument("files", nargs="+", type=Path, help="files or folders that were handed in")
    report.set_defaults(run=_report)

    words = commands.add_parser(
        "words",
        help="print the words that you still have to study",
        description="Print the words that were missed and are not corrected yet, with what they mean.",
    )
    words.set_defaults(run=_words)

    hand_in = commands.add_parser(
        "hand-in",
        help="copy your work into the teacher's folder",
        description=(
            "Write one whole copy of your work into a folder, such as a stick.\n"
            "Nothing else leaves this machine."
        ),
    )
    hand_in.add_argument("folder", type=Path, help="the folder to write to")
    hand_in.set_defaults(run=_hand_in)

    erase = commands.add_parser(
        "erase",
        help="erase a student's record from this machine",
        description="Erase everything that is stored for one code. This cannot be taken back.",
    )
    erase.add_argument("erase_code", metavar="CODE", help="the student's code")
    erase.set_defaults(run=_erase)
    return parser


def _count(text: str) -> int:
    """Read a number of rows that somebody may want to see."""
    if not (text.isascii() and text.isdigit() and len(text) <= 4 and int(text) <= MOST_ROWS):
        raise argparse.ArgumentTypeError(f"{text[:20]!r} is no number from 0 to {MOST_ROWS}")
    return int(text)


def _shelf(given: argparse.Namespace) -> int:
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        print("Evenline needs a terminal for its page. Without one use: evenline check FILE", file=sys.stderr)
        return UNREADABLE
    from tutor.page.app import run
    from tutor.page.terminal_watch import watch_terminal
    from tutor.resources import lessons_folder

    watch_terminal()

    return run([lessons_folder(), *given.lessons], given.code)


def _check(given: argparse.Namespace) -> int:
    if given.jsonl:
        from tutor.teacher.stream import serve

        return serve(sys.stdin.buffer, sys.stdout.buffer)
    if given.file is None:
        print("Name a file of lines, or - for standard input. See: evenline check --help", file=sys.stderr)
        return UNREADABLE
    from tutor.teacher.check_file import check_file

    return check_file(given.file, sys.stdout, sys.stderr)


def _new(given: argparse.Namespace) -> int:
    from tutor.lesson.patterns import write_pattern
    from tutor.teacher.folding import told

    done, sentence = write_pattern(given.pattern, given.file)
    print(told(sentence), file=sys.stdout if done else sys.stderr)
    return OK if done else UNREADABLE


def _audit(given: argparse.Namespace) -> int:
    from tutor.teacher.lessons import audit_files, print_draws, tidy_files

    if given.draws:
        return print_draws(given.lesson, sys.stdout)
    if given.tidy:
        return tidy_files(given.lesson, sys.stdout)
    return audit_files(given.lesson, sys.stdout, thorough=given.thorough)


def _key(given: argparse.Namespace) -> int:
    from tutor.teacher.key import print_key

    return print_key(
        given.lesson,
        sys.stdout,
        sys.stderr,
        student=given.student,
        seed=given.seed,
        most=given.draws,
    )


def _report(given: argparse.Namespace) -> int:
    from tutor.teacher.report import print_report

    return print_report(given.lesson, given.files, sys.stdout, sys.stderr)


def _words(given: argparse.Namespace) -> int:
    from tutor.resources import lessons_folder
    from tutor.teacher.study_list import print_words

    return print_words(given.code, [lessons_folder(), *given.lessons], sys.stdout, sys.stderr)


def _hand_in(given: argparse.Namespace) -> int:
    from tutor.teacher.records import hand_in_code

    return hand_in_code(given.code, given.folder, sys.stdout, sys.stderr)


def _erase(given: argparse.Namespace) -> int:
    from tutor.teacher.records import erase_code

    return erase_code(given.erase_code, sys.stdout, sys.stderr)


if __name__ == "__main__":
    sys.exit(main())
