"""A long stream of JSON Lines is shared between two processes, and nobody can tell."""

import io
import json
import queue
import subprocess
import sys
import threading
import time
from collections.abc import Iterator

import pytest

from tutor.teacher import stream
from tutor.teacher.jsonl import answer_line, written


def lines(count: int) -> list[bytes]:
    """Return requests, right and wrong ones, and every hundredth one that cannot be used."""
    made = []
    for number in range(1, count + 1):
        good = {"id": number, "lines": [f"2x + {number} = {number + 8}", f"2x = {8 + number % 3 % 2}"]}
        made.append(b"no object\n" if number % 100 == 0 else json.dumps(good).encode() + b"\n")
    return made


def alone(sent: list[bytes]) -> bytes:
    return b"".join(written(answer_line(raw, number)[0]) for number, raw in enumerate(sent, 1))


class Waiting:
    """A source whose lines past the first few are held back until the second process has started."""

    def __init__(self, sent: list[bytes], seconds: list[stream._Second]) -> None:
        self._sent, self._seconds = sent, seconds

    def __iter__(self) -> Iterator[bytes]:
        for number, raw in enumerate(self._sent):
            if number == stream.LONG + 2 * stream.SHARED:
                while not (self._seconds and self._seconds[0].ready):
                    time.sleep(0.01)
            yield raw


@pytest.fixture
def seconds(monkeypatch: pytest.MonkeyPatch) -> list[stream._Second]:
    """Return the second processes that a stream starts."""
    made: list[stream._Second] = []

    class Watched(stream._Second):
        def __init__(self) -> None:
            super().__init__()
            self.asked = 0
            made.append(self)

        def ask(self, group: stream._Group) -> None:
            self.asked += 1
            super().ask(group)

    monkeypatch.setattr(stream, "_Second", Watched)
    return made


def test_two_processes_answer_as_one_does(seconds: list[stream._Second]) -> None:
    sent, sink = lines(1500), io.BytesIO()
    assert stream.serve(Waiting(sent, seconds), sink) == 2  # type: ignore[arg-type]
    assert sink.getvalue() == alone(sent)
    assert [second.asked > 0 for second in seconds] == [True]  # type: ignore[attr-defined]


def test_a_source_that_pauses_is_read_to_its_end(seconds: list[stream._Second]) -> None:
    sent, sink = lines(1500), io.BytesIO()

    class Pauses(Waiting):
        def __iter__(self) -> Iterator[bytes]:
            for number, raw in enumerate(super().__iter__()):
                if number > 600 and number % (2 * stream.SHARED) == 0:
                    # All that was handed over is answered, and nothing waits: no end of the stream.
                    while sink.getvalue().count(b"\n") < number:
                        time.sleep(0.001)
                yield raw

    assert stream.serve(Pauses(sent, seconds), sink) == 2  # type: ignore[arg-type]
    assert sink.getvalue() == alone(sent)


def test_a_second_process_that_goes_is_not_missed(seconds: list[stream._Second]) -> None:
    sent, sink = lines(1500), io.BytesIO()

    class Ends(Waiting):
        def __iter__(self) -> Iterator[bytes]:
            for number, raw in enumerate(super().__iter__()):
                if number == 1000:
                    seconds[0].end()
                yield raw

    assert stream.serve(Ends(sent, seconds), sink) == 2  # type: ignore[arg-type]
    assert sink.getvalue() == alone(sent)


def test_a_process_that_went_while_it_was_asked_ends_quietly() -> None:
    second = stream._Second()
    assert second._process is not None
    second._process.kill()
    second._process.wait()
    second.ask(stream._Group(1, [b"{}"]))
    assert second.answers(wait=True) == stream._GONE
    second.end()


def test_a_short_stream_starts_no_second_process(seconds: list[stream._Second]) -> None:
    sink = io.BytesIO()
    assert stream.serve(io.BytesIO(b"".join(lines(50))), sink) == 0
    assert seconds == []


def test_each_line_is_answered_before_the_next_is_sent() -> None:
    process = subprocess.Popen(
        [sys.executable, "-m", "tutor.cli", "check", "--jsonl"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    )
    assert process.stdin is not None
    assert process.stdout is not None
    answers: queue.Queue[bytes] = queue.Queue()

    def read(source: io.BufferedReader) -> None:
        for answer in source:
            answers.put(answer)

    threading.Thread(target=read, args=(process.stdout,), daemon=True).start()
    try:
        for raw in lines(8):
            process.stdin.write(raw)
            process.stdin.flush()
            assert json.loads(answers.get(timeout=60))["id"] == json.loads(raw)["id"]
        process.stdin.close()
        assert process.wait(timeout=60) == 0
    finally:
        process.kill()
        process.wait()


def test_a_source_that_cannot_be_read_is_a_fault_here(seconds: list[stream._Second]) -> None:
    class Broken:
        def __iter__(self) -> Iterator[bytes]:
            yield lines(1)[0]
            raise OSError("gone")

    sink = io.BytesIO()
    with pytest.raises(OSError, match="gone"):
        stream.serve(Broken(), sink)  # type: ignore[arg-type]
    assert sink.getvalue() == alone(lines(1))
