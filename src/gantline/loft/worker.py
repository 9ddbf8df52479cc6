"""A worker: a process of its own that answers one request after the other, so that none can hold up the page.

Spoken over its standard input and output: a task's name and its body come in, lines of answer go out; each is led by
its length. An answer is a byte that says what it is, and JSON.
"""

import gc
import resource
import struct
import sys
from typing import Any, BinaryIO

import msgspec

from .asked import Refused, written
from .tasks import run

LENGTH = struct.Struct(">I")
GOOD, REFUSED, PROGRESS = b"g", b"r", b"p"
MEMORY = 2 * 1024**3  # bytes of data a worker may hold


def main() -> None:
    """Answers until nobody asks any more."""
    resource.setrlimit(resource.RLIMIT_DATA, (MEMORY, MEMORY))
    asked, answers = sys.stdin.buffer, sys.stdout.buffer
    sys.stdout = sys.stderr  # what a library prints is no answer
    _warm()
    while (task := take(asked)) is not None:
        body = take(asked) or b""
        give(answers, *_answer(task.decode("ascii"), body, answers))


def _warm() -> None:
    """Loads all that a figure needs, so that the first one need not wait; what is loaded then is never looked at by the
    garbage collector, which would go through it at every other answer."""
    run("see", b'{"text": "fixed a sheaves 1\\nload b weight 1 N\\nrope c: b, over a, hand"}', lambda _: None)
    gc.collect()
    gc.freeze()
    gc.set_threshold(50_000)


def _answer(task: str, body: bytes, answers: BinaryIO) -> tuple[bytes, bytes]:
    def hear(record: dict[str, Any]) -> None:
        give(answers, PROGRESS, msgspec.json.encode(record))

    try:
        return GOOD, written(run(task, body, hear))
    except Refused as refused:
        return REFUSED, msgspec.json.encode({"status": refused.status, "says": refused.says})
    except (MemoryError, RecursionError):
        return REFUSED, msgspec.json.encode({"status": 413, "says": "This rig is too large to be shown here."})
    except Exception as error:  # ours: the page is told, and the next request is answered
        says = f"That was a mistake of ours, not of yours ({type(error).__name__}). Please report it with this slip."
        return REFUSED, msgspec.json.encode({"status": 500, "says": says})


def take(stream: BinaryIO) -> bytes | None:
    """One piece, or None where the other side has gone."""
    head = stream.read(LENGTH.size)
    return stream.read(LENGTH.unpack(head)[0]) if len(head) == LENGTH.size else None


def give(stream: BinaryIO, kind: bytes, data: bytes) -> None:
    stream.write(LENGTH.pack(len(data) + 1) + kind + data)
    stream.flush()


if __name__ == "__main__":
    main()
