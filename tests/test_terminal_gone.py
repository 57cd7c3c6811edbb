"""The terminal goes away and no signal says so."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

pytestmark = pytest.mark.skipif(os.name == "nt", reason="pseudo-terminals are a POSIX thing")


def test_the_page_ends_when_its_terminal_is_gone(tmp_path: Path) -> None:
    """With the hang-up signal held back, closing the terminal still ends the program."""
    import pty

    ours, theirs = pty.openpty()
    page = subprocess.Popen(
        [sys.executable, "-m", "tutor"],
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
        env={**os.environ, "EVENLINE_HOME": str(tmp_path), "TERM": "xterm-256color"},
        preexec_fn=lambda: signal.signal(signal.SIGHUP, signal.SIG_IGN),
    )
    os.close(theirs)
    try:
        seen = b""
        until = time.monotonic() + 60
        while b"Evenline" not in seen and time.monotonic() < until:
            seen += os.read(ours, 65536)
        assert b"Evenline" in seen
        os.close(ours)
        assert page.wait(60) != 0
    finally:
        page.kill()
        page.wait()
