"""A real loft in a process of its own, spoken to over raw sockets, so that what is sent may be no HTTP at all."""

import contextlib
import os
import re
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

from msgspec import Struct


class Outside(Struct, frozen=True):
    """A loft that runs: its address, port and token, and its process."""

    address: str
    port: int
    token: str
    process: subprocess.Popen[str]

    @property
    def head(self) -> bytes:
        """Host and cookie, as our own page sends them."""
        return f"host: 127.0.0.1:{self.port}\r\ncookie: gantline-{self.port}={self.token}\r\n".encode()

    def say(self, *pieces: bytes, patience: float = 0.0) -> bytes:
        """The answer to these bytes; with `patience`, everything that comes until the line is closed, or silent for so
        many seconds."""
        with socket.create_connection(("127.0.0.1", self.port), timeout=patience or 10.0) as line:
            heard = b""
            with contextlib.suppress(OSError):
                for piece in pieces:
                    line.sendall(piece)
            with contextlib.suppress(OSError):
                while (patience or not _whole(heard)) and (more := line.recv(65536)):
                    heard += more
            return heard

    def get(self, path: str) -> bytes:
        return self.say(b"GET " + path.encode() + b" HTTP/1.1\r\nconnection: close\r\n" + self.head + b"\r\n")


def _whole(heard: bytes) -> bool:
    """Whether these bytes are a whole answer, by the length it says it has."""
    head, end, body = heard.partition(b"\r\n\r\n")
    length = re.search(rb"content-length: (\d+)", head)
    return bool(end) and length is not None and len(body) >= int(length[1])


def status(answer: bytes) -> int:
    """The status of the first answer; 0 where the connection was closed without a word."""
    found = re.match(rb"HTTP/1\.[01] (\d+)", answer)
    return int(found[1]) if found else 0


@contextlib.contextmanager
def loft(where: Path, *options: str) -> Iterator[Outside]:
    """A loft on a free port, ended with the block."""
    command = [sys.executable, "-P", "-m", "gantline", "loft", str(where), "--no-browser", "--port", "0", *options]
    environment = {**os.environ, "PYTHONUNBUFFERED": "1"}
    process = subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=environment, start_new_session=True
    )
    try:
        assert process.stdout
        line = process.stdout.readline()
        found = re.fullmatch(r"(http://[^/]+:(\d+))/\?token=([\w-]+)\n", line)
        assert found, (line, process.stderr and process.stderr.read() if process.poll() is not None else "")
        yield Outside(found[1], int(found[2]), found[3], process)
    finally:
        with contextlib.suppress(ProcessLookupError):
            os.killpg(process.pid, signal.SIGKILL)
        process.communicate()
