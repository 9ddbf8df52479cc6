"""The locks at the door, before any route is looked at: each is enough by itself to keep another site out.

A request passes when its Host is one of ours, no other site sent it, and it carries the token of this run; when it
brings words, they are JSON, sent by our own page, not too long and not too slow.
"""

import asyncio
import hmac
import secrets
from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from typing import Any
from urllib.parse import parse_qs

import msgspec
from msgspec import Struct

from .sentence import page

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]

LONGEST = 512 * 1024  # bytes of a body: two texts of 64 KiB, written as JSON
SLOWEST = 10.0  # seconds for a body to arrive
MOST_HEADERS = 100
OWN_HEADER = (b"x-gantline", b"1")
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; "
    "connect-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
)
ALWAYS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "no-referrer",
    "cross-origin-resource-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cache-control": "no-store",
}
EARLIER = "This page belongs to an earlier start of the loft. Open the address it printed last."


class Keys(Struct, frozen=True):
    """Who may come in: the names this server goes by (Host as browsers send it), and the token of this run."""

    origins: tuple[str, ...]
    token: str
    cookie: str = "gantline"

    def secure(self, host: str) -> bool:
        """Whether browsers reach this name of ours over https only."""
        return f"https://{host}" in self.origins and f"http://{host}" not in self.origins

    @property
    def hosts(self) -> frozenset[str]:
        return frozenset(origin.partition("://")[2] for origin in self.origins)


def new_token() -> str:
    """A token of 192 bits that nobody can guess."""
    return secrets.token_urlsafe(24)


def loopback(port: int) -> tuple[str, ...]:
    """The origins of a server that only this machine can reach."""
    return tuple(f"http://{host}:{port}" for host in ("127.0.0.1", "localhost", "[::1]"))


class Turned(Exception):
    """Turned away at the door: the status, and why in a sentence."""

    def __init__(self, status: int, says: str) -> None:
        super().__init__(says)
        self.status = status
        self.says = says


def guarded(app: App, keys: Keys) -> App:
    """The app behind its locks."""

    async def door(scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "lifespan":
            await app(scope, receive, send)
        elif scope["type"] == "http":
            await request(scope, receive, send)
        else:
            await send({"type": "websocket.close", "code": 1008})

    async def request(scope: Scope, receive: Receive, send: Send) -> None:
        headers = scope["headers"]
        try:
            _host(headers, keys)
            if _brings_token(scope, keys):
                await _let_in(send, keys, _values(headers, b"host")[0].lower())
                return
            _site(headers, keys)
            _token(headers, keys)
            body = await _body(scope["method"], headers, receive)
        except Turned as turned:
            await _answer(send, turned, html=scope["path"] == "/")
            return
        await app(scope, _read(body, receive), _sealed(send))

    return door


def _values(headers: Iterable[tuple[bytes, bytes]], name: bytes) -> list[str]:
    return [value.decode("latin-1") for key, value in headers if key == name]


def _host(headers: list[tuple[bytes, bytes]], keys: Keys) -> None:
    """The exact names we go by, with the port; no cleverness."""
    hosts = _values(headers, b"host")
    if len(hosts) != 1 or not hosts[0] or len(headers) > MOST_HEADERS:
        raise Turned(400, "A request names its host once, and has no more than a hundred headers.")
    if _values(headers, b"transfer-encoding") and _values(headers, b"content-length"):
        raise Turned(400, "A request says its length in one way.")
    if hosts[0].lower() not in keys.hosts:
        raise Turned(403, "This address is not one the loft goes by. Open the address it printed.")


def _site(headers: list[tuple[bytes, bytes]], keys: Keys) -> None:
    """Nothing that another site has sent."""
    if any(value not in ("same-origin", "none") for value in _values(headers, b"sec-fetch-site")):
        raise Turned(403, "Another site has sent this. The loft only answers its own page.")
    host = _values(headers, b"host")[0].lower()
    own = {origin for origin in keys.origins if origin.endswith(f"://{host}")}
    if any(origin not in own for origin in _values(headers, b"origin")):
        raise Turned(403, "Another site has sent this. The loft only answers its own page.")


def _token(headers: list[tuple[bytes, bytes]], keys: Keys) -> None:
    pairs = (pair.strip().partition("=") for header in _values(headers, b"cookie") for pair in header.split(";"))
    found = [value for name, _, value in pairs if name == keys.cookie]
    if len(found) != 1 or not _same(found[0], keys.token):
        raise Turned(401, EARLIER)


def _brings_token(scope: Scope, keys: Keys) -> bool:
    """Whether this opens the page with the printed address. The token is worth nothing anywhere else."""
    if scope["path"] != "/" or scope["method"] != "GET" or not scope["query_string"]:
        return False
    given = parse_qs(scope["query_string"].decode("latin-1")).get("token", [])
    return len(given) == 1 and _same(given[0], keys.token)


def _same(given: str, token: str) -> bool:
    return hmac.compare_digest(given.encode("utf-8", "replace"), token.encode())


async def _body(method: str, headers: list[tuple[bytes, bytes]], receive: Receive) -> bytes:
    """What a request brings, all of it. A length that is announced and too large is not read."""
    lengths = _values(headers, b"content-length")
    if any(not length.isdecimal() or int(length[:12]) > LONGEST for length in lengths):
        raise Turned(413, f"More than {LONGEST // 1024} KiB are not read.")
    if method in ("POST", "PUT", "DELETE", "PATCH"):
        kinds = _values(headers, b"content-type")
        if len(kinds) != 1 or kinds[0].partition(";")[0].strip().lower() != "application/json":
            raise Turned(415, "Only application/json is read.")
        if OWN_HEADER not in headers:
            raise Turned(403, "Another program has sent this. The loft only answers its own page.")
    try:
        async with asyncio.timeout(SLOWEST):
            return await _gather(receive)
    except TimeoutError:
        raise Turned(408, f"A request has {SLOWEST:.0f} seconds to arrive.") from None


async def _gather(receive: Receive) -> bytes:
    body = bytearray()
    while True:
        message = await receive()
        if message["type"] != "http.request":
            raise Turned(400, "The request broke off.")
        body += message.get("body", b"")
        if len(body) > LONGEST:
            raise Turned(413, f"More than {LONGEST // 1024} KiB are not read.")
        if not message.get("more_body", False):
            return bytes(body)


def _read(body: bytes, receive: Receive) -> Receive:
    """The body given once more to the app, then whatever the connection says."""
    waiting = [{"type": "http.request", "body": body, "more_body": False}]

    async def again() -> Message:
        return waiting.pop() if waiting else await receive()

    return again


def _sealed(send: Send) -> Send:
    """Adds what every answer carries, where the answer does not say it already."""

    async def sealed(message: Message) -> None:
        if message["type"] == "http.response.start":
            named = {key.lower() for key, _ in message["headers"]}
            more = [(k.encode(), v.encode()) for k, v in ALWAYS.items() if k.encode() not in named]
            message = {**message, "headers": [*message["headers"], *more]}
        await send(message)

    return sealed


async def _answer(send: Send, turned: Turned, html: bool) -> None:
    """Why not: a small page where a person asked for one, else JSON. The connection ends, and the rest is not read."""
    if html:
        body, policy = page(turned.says)
        kind, more = b"text/html; charset=utf-8", {"content-security-policy": policy}
    else:
        body, kind, more = msgspec.json.encode({"says": turned.says}), b"application/json", {}
    await _give(send, turned.status, body, [(b"content-type", kind), (b"connection", b"close")], more)


async def _let_in(send: Send, keys: Keys, host: str) -> None:
    """Swaps the token in the address for a cookie, and goes on to the page without it.

    The page goes on by itself, not by a redirect: a browser keeps a strict cookie back on a redirect that began
    elsewhere, and the address with the token would stay in the history.
    """
    body, policy = page("Opening the loft.", onward=True)
    cookie = f"{keys.cookie}={keys.token}; Path=/; HttpOnly; SameSite=Strict{'; Secure' * keys.secure(host)}"
    headers = [(b"content-type", b"text/html; charset=utf-8"), (b"set-cookie", cookie.encode())]
    await _give(send, 200, body, headers, {"content-security-policy": policy})


async def _give(send: Send, status: int, body: bytes, headers: list[tuple[bytes, bytes]], more: dict[str, str]) -> None:
    always = [(key.encode(), value.encode()) for key, value in {**ALWAYS, **more}.items()]
    length = (b"content-length", str(len(body)).encode())
    await send({"type": "http.response.start", "status": status, "headers": [*headers, length, *always]})
    await send({"type": "http.response.body", "body": body})
