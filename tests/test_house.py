"""The house rules: what the README promises, who may import what, what travels in the wheel."""

import argparse
import ast
import importlib.metadata
import io
import json
import os
import re
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from tutor import __version__, cli
from tutor.lesson.reader import read_lesson

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")

TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "grammar", "lessons", "tests", "tutor"}
ROOMS = ["quantity", "line", "marking", "figure", "lesson", "record", "teacher", "page"]
FORBIDDEN_CALLS = {"eval", "exec", "sympify", "parse_expr", "from_markup"}


def _files() -> list[Path]:
    """All files of the project, relative to its root; what .gitignore names is left out."""
    if (ROOT / ".git").exists() and shutil.which("git"):
        command = [
            "git",
            "-c",
            "safe.directory=*",
            "ls-files",
            "-z",
            "--cached",
            "--others",
            "--exclude-standard",
        ]
        listed = subprocess.run(command, cwd=ROOT, capture_output=True, check=True).stdout.decode("utf-8")
        names = [Path(name) for name in listed.split("\0") if name]
    else:  # a copy without its history
        names = [path.relative_to(ROOT) for path in ROOT.rglob("*") if path.is_file()]
        built = {"__pycache__", "build", "dist", "snapshot_report.html"}
        names = [
            path
            for path in names
            if not any(part in built or part.endswith(".egg-info") for part in path.parts)
            and not (path.parts[0].startswith(".") and path.parts[0] != ".ci")
        ]
    return sorted(path for path in names if (ROOT / path).is_file())


def _blocks(text: str, language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", text, re.DOTALL | re.MULTILINE)


# -- the documents ---------------------------------------------------------------------------


def test_ci_runs_the_very_test_command_of_the_readme() -> None:
    commands = [line for block in _blocks(README, "sh") for line in block.splitlines() if "pytest" in line]
    assert len(commands) == 1, "the README names one command that passes the tests"
    ci = (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()
    assert commands[0] in ci
    for check in ("ruff check .", "ruff format --check .", "mypy", "lint-imports"):
        assert f".venv/bin/{check}" in ci


def test_the_readme_opens_with_the_job_and_then_shows_the_page() -> None:
    title, job, picture = [part for part in README.split("\n\n") if part.strip()][:3]
    assert title == "# Evenline"
    assert re.match(r"\w", job) and "12" in job and "terminal" in job
    found = re.fullmatch(r"!\[[^\]]+\]\((tests/page/page\.svg)\)", picture.strip())
    assert found, "the third part is the picture that tests/page/test_page_real.py keeps true"
    assert (ROOT / found[1]).read_text(encoding="utf-8").lstrip().startswith("<svg")


def test_every_file_that_a_document_names_is_there() -> None:
    for document in (README, DEVELOPERS):
        links = re.findall(r"\]\((?!https?:|#)([^)#]+)\)", document)
        code = re.findall(r"`((?:tutor|tests|grammar|lessons|\.ci)/[\w./-]+)`", document)
        for name in {*links, *code}:
            assert (ROOT / name).exists(), name


def test_the_lesson_in_the_readme_is_a_piece_of_the_lesson_that_ships() -> None:
    shipped = (ROOT / "lessons" / "04-hoops.lesson").read_text(encoding="utf-8")
    extracts = _blocks(README, "lesson")
    assert extracts
    for extract in extracts:
        head, problem = extract.split("\n\n", 1)
        assert head in shipped
        assert problem.rstrip() in shipped
        lesson, faults = read_lesson(extract, "README.md")
        assert lesson is not None and not faults


def _commands() -> dict[str, argparse.ArgumentParser]:
    parser = cli._parser()
    (found,) = (action for action in parser._actions if isinstance(action, argparse._SubParsersAction))
    return dict(found.choices)


@pytest.mark.parametrize("command", sorted(_commands()))
def test_every_command_is_explained_in_the_readme(command: str) -> None:
    assert re.search(rf"`evenline (--code \w+ )?{command}\b", README)


def test_the_readme_shows_what_check_really_prints(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    work, marked = _blocks(README, "text")[:2]
    file = tmp_path / "hoop.txt"
    file.write_text(work, encoding="utf-8")
    assert cli.main(["check", str(file)]) == 1
    assert capsys.readouterr().out.rstrip() == marked.rstrip()


def test_the_readme_shows_what_jsonl_really_answers() -> None:
    from tutor.teacher.stream import serve

    sent, answered = _blocks(README, "json")[:2]
    sink = io.BytesIO()
    assert serve(io.BytesIO(json.dumps(json.loads(sent)).encode()), sink) == 0
    got = json.loads(sink.getvalue())
    shown = json.loads(answered)
    lines = shown.pop("lines")
    assert {key: got[key] for key in shown} == shown
    assert [{key: line[key] for key in part} for part, line in zip(lines, got["lines"], strict=True)] == lines


def test_the_version_is_the_same_everywhere() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert project["version"] == __version__


# -- the rooms -------------------------------------------------------------------------------


def test_only_the_agreed_names_stand_at_the_top() -> None:
    tops = {path.parts[0] for path in _files()}
    assert {name for name in tops if not name.startswith(".")} == TOP_LEVEL
    rooms = {path.parts[1] for path in _files() if path.parts[0] == "tutor" and len(path.parts) > 2}
    assert rooms == set(ROOMS)


def _sources() -> list[Path]:
    return [path for path in _files() if path.parts[0] == "tutor" and path.suffix == ".py"]


def _imports(tree: ast.AST) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.module or "."


def _forbidden(tree: ast.AST) -> Iterator[str]:
    for node in ast.walk(tree):
        names = []
        match node:
            case ast.Name(id=name) | ast.Attribute(attr=name):
                names = [name]
            case ast.Import(names=aliases) | ast.ImportFrom(names=aliases):
                names = [alias.name.rpartition(".")[2] for alias in aliases]
        yield from (name for name in names if name in FORBIDDEN_CALLS)


@pytest.mark.parametrize(
    "planted",
    ["eval('1')", "import builtins; builtins.exec('1')", "from sympy import sympify as s", "a.parse_expr"],
)
def test_the_search_for_forbidden_calls_finds_one_that_is_planted(planted: str) -> None:
    assert list(_forbidden(ast.parse(planted)))


@pytest.mark.parametrize("path", _sources(), ids=str)
def test_a_module_keeps_the_rules_of_its_room(path: Path) -> None:
    tree = ast.parse((ROOT / path).read_text(encoding="utf-8"))
    imports = set(_imports(tree))
    roots = {name.partition(".")[0] for name in imports}
    assert not list(_forbidden(tree)), "typed text is never run as code or read as markup"
    assert roots <= set(sys.stdlib_module_names) | {
        "tutor",
        "lark",
        "sympy",
        "platformdirs",
        "textual",
        "rich",
    }
    room = path.parts[1]
    if room != "page":
        assert not roots & {"textual", "rich"}, "only the page knows Textual"
    if room in ROOMS:
        above = set(ROOMS[: ROOMS.index(room) + 1])
        used = {name.split(".")[1] for name in imports if name.startswith("tutor.")} & set(ROOMS)
        assert used <= above, "a room uses only the rooms above it"


@pytest.mark.parametrize(
    ("module", "absent"),
    [
        ("tutor.marking.working", {"textual", "rich", "sympy"}),
        ("tutor.lesson.reader", {"textual", "rich", "sympy"}),
        ("tutor.record.desk", {"textual", "rich", "sympy"}),
        ("tutor.teacher.check_file", {"textual", "rich", "sympy"}),
        ("tutor.teacher.jsonl", {"textual", "rich", "sympy"}),
        ("tutor.cli", {"textual", "rich", "sympy", "lark"}),
        ("tutor.page.app", {"sympy", "lark"}),
    ],
)
def test_what_importing_a_module_does_not_load(module: str, absent: set[str]) -> None:
    code = f"import sys, {module}; print(*sorted({{name.partition('.')[0] for name in sys.modules}}))"
    run = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert not absent & set(run.stdout.split())


# -- the wheel -------------------------------------------------------------------------------


def _pip(*arguments: str) -> None:
    run = subprocess.run(
        [sys.executable, "-m", "pip", *arguments], capture_output=True, text=True, check=False
    )
    assert run.returncode == 0, run.stdout + run.stderr


def _isolation() -> list[str]:
    """Build with the setuptools that is here, if it is new enough; else pip fetches one."""
    try:
        major = int(importlib.metadata.version("setuptools").partition(".")[0])
    except importlib.metadata.PackageNotFoundError:
        major = 0
    return ["--no-build-isolation"] if major >= 77 else []


@pytest.fixture(scope="module")
def clean(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the project as a fresh clone would have it."""
    clean = tmp_path_factory.mktemp("clean")
    for path in _files():
        (clean / path).parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(ROOT / path, clean / path)
    return clean


@pytest.fixture(scope="module")
def installed(clean: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the wheel of that copy installed into it."""
    wheels = tmp_path_factory.mktemp("wheels")
    _pip("wheel", str(clean), "--no-deps", "--wheel-dir", str(wheels), *_isolation())
    (wheel,) = wheels.glob("evenline-*.whl")
    target = tmp_path_factory.mktemp("installed")
    _pip("install", "--no-deps", "--no-index", "--target", str(target), str(wheel))
    return target


def test_the_wheel_carries_what_the_program_reads(clean: Path, installed: Path) -> None:
    for path in (file.relative_to(clean) for file in clean.rglob("*")):
        read = path.suffix in (".lark", ".lesson", ".tcss", ".py", ".typed")
        if path.parts[0] in ("grammar", "lessons", "tutor") and read:
            inside = path if path.parts[0] == "tutor" else Path("tutor") / path
            assert (installed / inside).read_bytes() == (clean / path).read_bytes()
    assert not (installed / "tests").exists()


def _command(installed: Path, folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    program = shutil.which("evenline", path=str(installed / "bin"))
    assert program is not None
    here = {**os.environ, "PYTHONPATH": str(installed), "PYTHONUTF8": "1"}
    return subprocess.run(
        [program, *arguments], cwd=folder, env=here, capture_output=True, encoding="utf-8", check=False
    )


def test_the_installed_command_works_from_any_folder(installed: Path, tmp_path: Path) -> None:
    said = _command(installed, tmp_path, "--version")
    assert (said.returncode, said.stdout.strip()) == (0, f"evenline {__version__}")
    work = tmp_path / "work.txt"
    work.write_text("6n + 15 = 87\n6n = 72\nn = 12\n", encoding="utf-8")
    right = _command(installed, tmp_path, "check", "work.txt")
    assert (right.returncode, right.stderr) == (0, "")
    assert "Nothing broke." in right.stdout
    lesson = installed / "tutor" / "lessons" / "03-borders-and-paths.lesson"
    audited = _command(installed, tmp_path, "audit", str(lesson))
    assert audited.returncode == 0, audited.stdout + audited.stderr


def test_the_installed_program_finds_its_own_lessons(installed: Path, tmp_path: Path) -> None:
    code = (
        "from tutor.resources import lessons_folder; from tutor.lesson.shelf import shelf\n"
        "print(lessons_folder()); print(*[entry.lesson.title for entry in shelf([lessons_folder()])])"
    )
    here = {**os.environ, "PYTHONPATH": str(installed), "PYTHONUTF8": "1"}
    run = subprocess.run(
        [sys.executable, "-c", code],
        cwd=tmp_path,
        env=here,
        capture_output=True,
        encoding="utf-8",
        check=True,
    )
    folder, titles = run.stdout.splitlines()
    assert Path(folder) == installed / "tutor" / "lessons"
    assert titles.startswith("Lantern Parade")
