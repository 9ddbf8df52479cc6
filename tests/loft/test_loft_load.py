"""Two hundred editors at one loft at once: nobody is turned away."""

import asyncio
import socket
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from inside import Inside

from gantline.loft import serving, starting

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "tools"))
from editors import edit_together


def test_two_hundred_editors_and_no_error() -> None:
    with ThreadPoolExecutor(1) as apart:  # a browser driven from the same process keeps the main thread's loop busy
        met = apart.submit(edit_together, 200, 1, 0.3).result()
    assert met.errors == []
    assert len(met.seconds) == 200


def test_small_answers_are_sent_at_once() -> None:
    """Only on a socket named TCP does asyncio switch off the wait for a full packet."""
    with starting._bound("127.0.0.1", 0) as bound:
        assert bound.proto == socket.IPPROTO_TCP


def test_a_connection_on_which_no_request_comes_is_closed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """One silent, one that sends a letter now and then, one that was answered and then sends half a request."""
    monkeypatch.setattr(serving, "QUIET", 0.3)
    inside = Inside(tmp_path)

    async def closed(first: bytes, letters: bytes, port: int) -> bool:
        reader, writer = await asyncio.open_connection("127.0.0.1", port)
        try:
            writer.write(first)
            if first:
                await reader.readuntil(b"\r\n\r\n")
            for letter in letters:
                await asyncio.sleep(0.05)
                writer.write(bytes([letter]))
            async with asyncio.timeout(10):
                while await reader.read(1000):
                    pass
            return True
        except ConnectionError:
            return True
        finally:
            writer.close()

    async def all_closed() -> list[bool]:
        with socket.create_server(("127.0.0.1", 0)) as bound:
            port = bound.getsockname()[1]
            server = serving.server_of(inside.app, lambda: None)
            running = asyncio.create_task(server.serve(sockets=[bound]))
            while not server.started:
                await asyncio.sleep(0.01)
            found = await asyncio.gather(
                closed(b"", b"", port), closed(b"", b"GET / HTTP/1.1", port), closed(b"", b"G" * 40, port),
                closed(b"GET / HTTP/1.1\r\nhost: a\r\n\r\n", b"GET /", port),
            )  # fmt: skip
            server.should_exit = True
            await running
            return found

    try:
        assert inside.wait(all_closed()) == [True] * 4
    finally:
        inside.close()
