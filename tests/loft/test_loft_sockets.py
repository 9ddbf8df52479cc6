"""Attacks that are no HTTP, or far too much of it, against a server that really runs."""

import json
import socket
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from inside import PLANTER, tree_hash
from outside import Outside, loft, status


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Outside]:
    folder = tmp_path_factory.mktemp("sockets") / "rigs"
    folder.mkdir()
    (folder / "planter.rig").write_text(PLANTER, encoding="utf-8")
    before = tree_hash(folder)
    with loft(folder) as running:
        yield running
    assert tree_hash(folder) == before


def answered(running: Outside) -> None:
    """The server is alive and answers at once."""
    start = time.monotonic()
    assert status(running.get("/api/files")) == 200
    assert time.monotonic() - start < 5  # far more than it takes: only a hang fails


BROKEN: dict[str, tuple[bytes, set[int]]] = {
    "A05 no host": (b"GET / HTTP/1.1\r\n\r\n", {400}),
    "A05 no host, older": (b"GET / HTTP/1.0\r\n\r\n", {400}),
    "A05 two hosts": (b"GET / HTTP/1.1\r\nhost: 127.0.0.1:1\r\nHOST\r\n\r\n", {400}),
    "A05 absolute form": (b"GET http://evil.example/api/files HTTP/1.1\r\nHOST\r\n\r\n", {400, 404}),
    "A30 both lengths": (
        b"POST /api/see HTTP/1.1\r\nHOST\r\ncontent-length: 4\r\ntransfer-encoding: chunked\r\n\r\n0\r\n\r\n", {400}),
    "A30 two lengths": (b"POST /api/see HTTP/1.1\r\nHOST\r\ncontent-length: 4\r\ncontent-length: 5\r\n\r\n", {400}),
    "A30 negative length": (b"POST /api/see HTTP/1.1\r\nHOST\r\ncontent-length: -1\r\n\r\n", {400}),
    "A30 folded header": (b"GET / HTTP/1.1\r\nHOST\r\nx: a\r\n b\r\nhost: evil.example\r\n\r\n", {400, 403}),
    "A30 space before colon": (b"GET / HTTP/1.1\r\nHOST\r\nx : a\r\n\r\n", {400}),
    "A30 null in a header": (b"GET / HTTP/1.1\r\nHOST\r\nx: a\0b\r\n\r\n", {400}),
    "A30 header of 1 MB": (b"GET / HTTP/1.1\r\nHOST\r\nx: " + b"a" * 2**20 + b"\r\n\r\n", {400, 431}),
    "A30 10,000 headers": (b"GET / HTTP/1.1\r\nHOST\r\n" + b"x: a\r\n" * 10_000 + b"\r\n", {400, 431}),
    "A30 200 headers": (b"GET / HTTP/1.1\r\nHOST\r\n" + b"x: a\r\n" * 200 + b"\r\n", {400, 431}),
    "A30 address of 1 MB": (b"GET /" + b"a" * 2**20 + b" HTTP/1.1\r\nHOST\r\n\r\n", {400, 414}),
    "A30 not HTTP": (b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" + b"\0" * 200, {400}),
    "A30 bytes past ASCII": ("GET /api/file?name=é.rig HTTP/1.1\r\nHOST\r\n\r\n".encode(), {400, 404}),
    "A28 2 GB announced": (
        b"POST /api/see HTTP/1.1\r\nHOST\r\ncontent-type: application/json\r\nx-gantline: 1\r\n"
        b"content-length: 2147483648\r\n\r\n", {413}),
    "A28 a length of a mile": (
        b"POST /api/see HTTP/1.1\r\nHOST\r\ncontent-length: " + b"9" * 5000 + b"\r\n\r\n", {400, 413}),
    "A13 socket": (
        b"GET /api/see HTTP/1.1\r\nHOST\r\norigin: null\r\nconnection: upgrade\r\nupgrade: websocket\r\n"
        b"sec-websocket-version: 13\r\nsec-websocket-key: dGhlIHNhbXBsZSBub25jZQ==\r\n\r\n", {403}),
    "A13 socket of ours": (
        b"GET /api/see HTTP/1.1\r\nHOST\r\nconnection: upgrade\r\nupgrade: websocket\r\n"
        b"sec-websocket-version: 13\r\nsec-websocket-key: dGhlIHNhbXBsZSBub25jZQ==\r\n\r\n", {405}),
    "A31 TRACE": (b"TRACE / HTTP/1.1\r\nHOST\r\n\r\n", {405}),
    "A31 CONNECT": (b"CONNECT evil.example:443 HTTP/1.1\r\nHOST\r\n\r\n", {400, 404, 405}),
    "A31 get": (b"get / HTTP/1.1\r\nHOST\r\n\r\n", {405}),
}  # fmt: skip


@pytest.mark.parametrize("name", BROKEN)
def test_what_is_no_request_is_refused(running: Outside, name: str) -> None:
    sent, right = BROKEN[name]
    answer = running.say(sent.replace(b"HOST\r\n", running.head))
    assert status(answer) in right, answer[:300]
    assert b"Traceback" not in answer
    answered(running)


def test_a30_a_second_request_hidden_in_the_body_of_a_refused_one_is_not_heard(running: Outside) -> None:
    hidden = b"GET /api/files HTTP/1.1\r\n" + running.head + b"\r\n"
    first = b"POST /api/see HTTP/1.1\r\n" + running.head
    first += b"transfer-encoding: chunked\r\ncontent-length: 4\r\n\r\n0\r\n\r\n"
    answer = running.say(first + hidden, patience=2.0)
    assert status(answer) == 400
    assert answer.count(b"HTTP/1.1 ") == 1


def test_a30_bare_line_feeds_smuggle_nothing(running: Outside) -> None:
    """A server may read them as line ends (RFC 9112, 2.2): then every header behind one counts as any other."""
    answer = running.say(
        b"GET /api/files HTTP/1.1\n" + running.head + b"x: y\nhost: evil.example\r\n\r\n", patience=2.0
    )
    assert status(answer) == 400


def test_a28_idle_sockets_and_slow_ones_hold_nobody_up(running: Outside) -> None:
    lines = [socket.create_connection(("127.0.0.1", running.port)) for _ in range(200)]
    try:
        for number, line in enumerate(lines):
            line.sendall(
                b"G" if number % 2 else b"POST /api/see HTTP/1.1\r\n" + running.head + b"content-length: 9\r\n"
            )
        answered(running)
    finally:
        for line in lines:
            line.close()
    answered(running)


def test_a28_a_request_that_never_ends_is_closed(running: Outside) -> None:
    """Chunked without an end: past the largest body it is cut, however it is sent."""
    head = b"POST /api/see HTTP/1.1\r\n" + running.head + b"content-type: application/json\r\nx-gantline: 1\r\n"
    piece = b"10000\r\n" + b"a" * 0x10000 + b"\r\n"
    answer = running.say(head + b"transfer-encoding: chunked\r\n\r\n", *[piece] * 20, patience=3.0)
    assert status(answer) in (0, 413)
    answered(running)


def test_a_lesson_nobody_waits_for_any_more_is_given_up(running: Outside) -> None:
    body = json.dumps({"text": PLANTER, "what": "lesson"}).encode()
    head = b"POST /api/export HTTP/1.1\r\n" + running.head + b"content-type: application/json\r\nx-gantline: 1\r\n"
    for _ in range(3):  # more than there are workers on a small machine
        with socket.create_connection(("127.0.0.1", running.port), timeout=10) as line:
            line.sendall(head + b"content-length: %d\r\n\r\n" % len(body) + body)
            while b"composing" not in line.recv(65536):
                continue
    record = json.dumps({"text": PLANTER}).encode()
    head = b"POST /api/see HTTP/1.1\r\n" + running.head + b"content-type: application/json\r\nx-gantline: 1\r\n"
    assert status(running.say(head + b"content-length: %d\r\n\r\n" % len(record) + record)) == 200


def test_a33_asked_to_serve_everybody_it_asks_back_and_warns(tmp_path: Path) -> None:
    from gantline.cli import main

    assert main(["loft", str(tmp_path), "--listen", "0.0.0.0", "--no-browser"]) == 1
    with loft(tmp_path, "--listen", "127.0.0.1", "--name", "http://loft.example:8000") as shared:
        assert shared.process.stdout
        assert "Everyone who has this address can read and change" in shared.process.stdout.readline()
