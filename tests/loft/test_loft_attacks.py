"""Every attack of the list on every address, with no token, a wrong one and the right one: none is let in, none breaks
the server, and nothing in the folder changes."""

import itertools
import json
import sys
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import unquote

import pytest
from inside import COOKIE, HOST, KEYS, OWN, PLANTER, PORT, TOKEN, Headers, Inside, tree_hash

from gantline.loft.guard import ALWAYS, LONGEST, POLICY, Keys

BODY = {"text": PLANTER}
SAMPLES: dict[tuple[str, str], tuple[str, object]] = {
    ("GET", "/"): ("/", None),
    ("GET", "/page/{name}"): ("/page/plates.css", None),
    ("GET", "/assets/{name}"): ("/assets/STIXTwoText-400.woff2", None),
    ("POST", "/api/see"): ("/api/see", BODY),
    ("POST", "/api/account"): ("/api/account", BODY),
    ("POST", "/api/say"): ("/api/say", BODY | {"step": "meet"}),
    ("POST", "/api/present"): ("/api/present", BODY),
    ("POST", "/api/export"): ("/api/export", BODY | {"what": "answer"}),
    ("POST", "/api/offers"): ("/api/offers", BODY | {"rope": ""}),
    ("POST", "/api/tag"): ("/api/tag", BODY | {"of": "beam"}),
    ("POST", "/api/edit"): ("/api/edit", BODY | {"action": {"do": "tidy"}}),
    ("GET", "/api/shelf"): ("/api/shelf", None),
    ("GET", "/shelf/{name}"): ("/shelf/planter", None),
    ("GET", "/api/files"): ("/api/files", None),
    ("GET", "/api/file"): ("/api/file?name=planter.rig", None),
    ("PUT", "/api/file"): ("/api/file", {"name": "planter.rig", "text": "# gone\n", "base": PLANTER}),
    ("GET", "/api/history"): ("/api/history?name=planter.rig", None),
    ("GET", "/nowhere"): ("/nowhere", None),  # an address that is none is guarded as well
    ("POST", "/nowhere"): ("/nowhere", BODY),
}
ROUTES = sorted(SAMPLES)
QUIET = [route for route in ROUTES if route != ("PUT", "/api/file")]  # those that leave the folder as it is

_FOREIGN = [f"evil.example{port}" for port in ("", f":{PORT}")]
_TRICKS = [f"{name}:{PORT}" for name in (
    "localhost.evil.example", "127.0.0.1.evil.example", "localhost@evil.example", "evil.example#localhost",
)]  # fmt: skip
_CLEVER = [f"{name}:{PORT}" for name in (
    "0.0.0.0", "[::]", "127.1", "2130706433", "0x7f000001", "[::ffff:127.0.0.1]", "127.0.0.2", "gantline.localhost",
)]  # fmt: skip
_NEAR = ["127.0.0.1:1", "localhost", "127.0.0.1", f"localhost.:{PORT}", f"127.0.0.1:{PORT}:1", f" 127.0.0.1:{PORT}"]
HOSTS = [(f"A01 {host}", host) for host in _FOREIGN]
HOSTS += [(f"A02 {host}", host) for host in _TRICKS] + [(f"A03 {host}", host) for host in _CLEVER]
HOSTS += [(f"A04 {host}", host) for host in _NEAR]
ORIGINS = [
    ("A06 another site", "http://evil.example"), ("A07 null", "null"),
    ("A08 another port", "http://127.0.0.1:1"), ("A09 prefix", f"http://{HOST}.evil.example"),
    ("A09 scheme", f"https://{HOST}"), ("A09 newline", f"http://{HOST}\n.evil.example"),
    ("A09 no address", "not-a-url"),
    ("A09 no port", "http://127.0.0.1:notaport"), ("A09 other name of ours", f"http://localhost:{PORT}"),
    ("A09 empty", ""),
]  # fmt: skip
SITES = [("A10 cross-site", "cross-site"), ("A10 same-site", "same-site"), ("A10 unknown", "who-knows")]
WRONG = [
    ("A14 none", ""), ("A14 empty", "gantline="), ("A14 wrong", "gantline=wrong"), ("A14 longer", f"gantline={TOKEN}x"),
    ("A14 shorter", f"gantline={TOKEN[:-1]}"), ("A14 upper case", f"gantline={TOKEN.upper()}"),
    ("A14 of an earlier run", "gantline=another-token-of-another-run-12345"), ("A14 other name", f"other={TOKEN}"),
    ("A14 quoted", f'gantline="{TOKEN}x"'), ("A14 no cookie at all", "\x7f;;;="),
    ("A14 not latin", "gantline=\xe9\xe9"),
]  # fmt: skip
TOKENS: list[tuple[str, Headers]] = [
    ("no token", []), ("wrong token", [("cookie", "gantline=wrong")]), ("right token", [COOKIE]),
]  # fmt: skip

Case = tuple[str, str, str, Headers, set[int]]  # its name, method, path, headers, and the answers that are right


def lawful(route: tuple[str, str]) -> tuple[str, str, bytes]:
    """Method, path and body of a request that would be answered."""
    path, record = SAMPLES[route]
    return route[0], path, b"" if record is None else json.dumps(record).encode()


def hostile() -> Iterator[Case]:
    for route, (held, token) in itertools.product(ROUTES, TOKENS):
        method, path, _ = lawful(route)
        own = OWN if method != "GET" else []
        told = f"{method} {path}, {held}"
        for name, host in HOSTS:
            yield f"{name}: {told}", method, path, [("host", host), *token, *own], {403}
        yield f"A05 no host: {told}", method, path, [*token, *own], {400}
        yield f"A05 empty host: {told}", method, path, [("host", ""), *token, *own], {400}
        yield f"A05 two hosts: {told}", method, path, [("host", HOST), ("host", HOST), *token, *own], {400}
        yield f"A30 two lengths: {told}", method, path, [
            ("host", HOST), *token, *own, ("content-length", "3"), ("transfer-encoding", "chunked")], {400}  # fmt: skip
        for name, origin in ORIGINS:
            yield f"{name}: {told}", method, path, [("host", HOST), *token, *own, ("origin", origin)], {403}
        for name, site in SITES:
            yield f"{name}: {told}", method, path, [("host", HOST), *token, *own, ("sec-fetch-site", site)], {403}
        yield f"A28 2 GB: {told}", method, path, [
            ("host", HOST), COOKIE, *own, ("content-length", "2147483648")], {413}  # fmt: skip


def without_the_token() -> Iterator[Case]:
    for route, (name, cookie) in itertools.product(ROUTES, WRONG):
        method, path, _ = lawful(route)
        yield f"{name}: {method} {path}", method, path, [("host", HOST), ("cookie", cookie), *OWN], {401}
        yield f"{name}, in the address: {method} {path}", method, f"{path.split('?')[0]}?token={TOKEN}x", [
            ("host", HOST), ("cookie", cookie), *OWN], {401}  # fmt: skip
    for method, path in ROUTES:  # the right token counts in the address of the page alone
        if path != "/":
            yield f"A15 {method} {path}", method, f"{SAMPLES[method, path][0].split('?')[0]}?token={TOKEN}", [
                ("host", HOST), *OWN], {401}  # fmt: skip


def forms() -> Iterator[Case]:
    kinds = ("text/plain", "multipart/form-data; boundary=x", "application/x-www-form-urlencoded", "application/json2",
             "text/json", "")  # fmt: skip
    for route, kind in itertools.product([route for route in ROUTES if route[0] != "GET"], kinds):
        method, path, _ = lawful(route)
        yield f"A11 {kind}: {method} {path}", method, path, [
            ("host", HOST), COOKIE, ("content-type", kind), ("x-gantline", "1")], {415}  # fmt: skip
        yield f"A11 no kind: {method} {path}", method, path, [("host", HOST), COOKIE, ("x-gantline", "1")], {415}
        yield f"A11 own header missing: {method} {path}", method, path, [
            ("host", HOST), COOKIE, ("content-type", "application/json")], {403}  # fmt: skip


def methods() -> Iterator[Case]:
    for (method, path), other in itertools.product(ROUTES, ("TRACE", "CONNECT", "get", "OPTIONS", "DELETE", "PATCH")):
        allowed = {404} if path == "/nowhere" else {405}
        yield f"A31 {other} {method} {path}", other, SAMPLES[method, path][0], [("host", HOST), COOKIE, *OWN], allowed
    for path in ("/", "/page/plates.css", "/assets/STIXTwoText-400.woff2", "/shelf/planter"):
        for other in ("PUT", "POST"):
            yield f"A31 {other} {path}", other, path, [("host", HOST), COOKIE, *OWN], {405}


def preflight() -> Iterator[Case]:
    for method, path in ROUTES:
        yield f"A17 {method} {path}", "OPTIONS", SAMPLES[method, path][0], [
            ("host", HOST), ("origin", "http://evil.example"), ("access-control-request-method", "PUT"),
            ("access-control-request-headers", "x-gantline"), ("access-control-request-private-network", "true"),
        ], {403}  # fmt: skip


CASES = [*hostile(), *without_the_token(), *forms(), *methods(), *preflight()]


@pytest.fixture(scope="module")
def fortress(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Inside]:
    folder = tmp_path_factory.mktemp("fortress") / "rigs"
    folder.mkdir()
    (folder / "planter.rig").write_text(PLANTER, encoding="utf-8")
    inside = Inside(folder)
    yield inside
    inside.close()


def test_every_address_has_its_sample(fortress: Inside) -> None:
    """A route that is added without being attacked fails here."""
    table = {(method, route.path) for route in fortress.loft.table() for method in route.methods - {"HEAD"}}
    assert table == set(SAMPLES) - {("GET", "/nowhere"), ("POST", "/nowhere")}


@pytest.mark.parametrize("route", QUIET, ids=" ".join)
def test_our_own_page_is_let_in(fortress: Inside, route: tuple[str, str]) -> None:
    """Otherwise every attack below would be refused for nothing."""
    method, path, body = lawful(route)
    own = [("host", HOST), COOKIE, *(OWN if method != "GET" else []), ("sec-fetch-site", "same-origin")]
    status = fortress.raw(method, path, [*own, ("origin", f"http://{HOST}")], body).status
    assert status == (404 if path == "/nowhere" else 200)


def test_thousands_of_attacks_and_none_let_in(fortress: Inside) -> None:
    assert len(CASES) >= 2000
    before = tree_hash(fortress.folder)
    let_in = []
    for name, method, path, headers, right in CASES:
        body = next((lawful(route)[2] for route in ROUTES if SAMPLES[route][0] == path and route[0] == method), b"{}")
        reply = fortress.raw(method, path, headers, body)
        if reply.status not in right or _gives_away(reply.body) or "access-control-allow-origin" in reply.headers:
            let_in.append((name, reply.status))
    assert not let_in, let_in[:20]
    assert tree_hash(fortress.folder) == before


def _gives_away(body: bytes) -> bool:
    said = body.decode("utf-8", "replace")
    return TOKEN in said or "Traceback" in said or ".py" in said or str(Path(__file__).parents[2]) in said


@pytest.mark.parametrize("route", QUIET, ids=" ".join)
def test_a18_every_answer_carries_its_locks(fortress: Inside, route: tuple[str, str]) -> None:
    method, path, body = lawful(route)
    for headers in ([("host", HOST), COOKIE, *OWN], [("host", HOST), *OWN], [("host", "evil.example")]):
        reply = fortress.raw(method, path, headers, body)
        for name, value in ALWAYS.items():
            if name not in ("content-security-policy", "cache-control"):
                assert reply.headers[name] == value
        policy = reply.headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe-eval" not in policy
        assert "frame-ancestors 'none'" in policy or "sandbox" in policy


def test_a27_the_policy_allows_nothing_inline_and_nothing_from_elsewhere(fortress: Inside) -> None:
    assert fortress.get("/").headers["content-security-policy"] == POLICY
    for rule in ("default-src 'none'", "script-src 'self'", "style-src 'self'", "connect-src 'self'",
                 "base-uri 'none'", "frame-ancestors 'none'"):  # fmt: skip
        assert rule in POLICY
    assert "unsafe" not in POLICY
    assert "http" not in POLICY


def test_a26_pictures_are_in_a_sandbox(fortress: Inside) -> None:
    assert fortress.get("/shelf/planter").headers["content-security-policy"].endswith("sandbox")


def test_a12_no_get_changes_anything(fortress: Inside) -> None:
    before = tree_hash(fortress.folder)
    for method, path in ROUTES:
        if method == "GET":
            fortress.get(SAMPLES[method, path][0])
    assert tree_hash(fortress.folder) == before


def test_a13_sockets_are_closed_unheard(fortress: Inside) -> None:
    said: list[dict[str, object]] = []

    async def send(message: dict[str, object]) -> None:
        said.append(message)

    async def receive() -> dict[str, object]:
        return {"type": "websocket.connect"}

    for headers in ([("host", HOST), COOKIE], [("host", HOST)], [("host", "evil.example"), COOKIE]):
        scope = {"type": "websocket", "path": "/api/see", "headers": [(k.encode(), v.encode()) for k, v in headers]}
        fortress.wait(fortress.app(scope, receive, send))
    assert {message["type"] for message in said} == {"websocket.close"}


PATHS = [
    "../planter.rig", "..%2fplanter.rig", "%2e%2e/planter.rig", "..%252fplanter.rig", "..%c0%afplanter.rig",
    "....//planter.rig", "..\\planter.rig", "/etc/passwd", "C:\\x.rig", "file:///x.rig", "planter.rig%00",
    "\\\\host\\share\\x.rig", "//host/share/x.rig", ".gantline/lock", ".gantline", ".hidden.rig", "CON.rig", "aux.rig",
    "com1.rig", "lpt9.x.rig", "x.rig::$DATA", "planter.rig.", "sub/planter.rig", "planter", "", ".", "..", ".rig",
    "planter.svg", "rigs-private/x.rig", "x" * 5000 + ".rig", "two%0alines.rig", "a/../../b.rig", "-x.rig",
]  # fmt: skip


WHERE = ["/api/file?name=", "/api/history?name=", "/page/", "/assets/", "/shelf/", "/"]
OURS = {("/", ""), ("/", "."), ("/", ".."), ("/shelf/", "planter")}  # spellings of addresses that are there


@pytest.mark.parametrize(("where", "name"), sorted({*itertools.product(WHERE, PATHS)} - OURS), ids=lambda x: x[:24])
def test_a19_to_a22_no_path_leads_out(fortress: Inside, where: str, name: str) -> None:
    reply = fortress.get(f"{where}{name}")
    assert reply.status in (400, 404)
    assert b"passwd" not in reply.body
    assert b"root:" not in reply.body


def test_a19_a_name_that_leads_out_is_refused_before_any_file_is_opened(fortress: Inside) -> None:
    """Asked of the interpreter itself, which tells of every file it opens and every connection it makes."""
    fortress.get("/api/file?name=planter.rig")
    told: list[str] = []
    listening = [True]

    def hear(event: str, given: tuple[object, ...]) -> None:
        if listening and event in ("open", "os.listdir", "os.scandir", "socket.connect", "socket.getaddrinfo"):
            told.append(f"{event} {given[0]}")

    sys.addaudithook(hear)
    try:
        for name in PATHS:
            fortress.get(f"/api/file?name={name}")
            fortress.get(f"/api/history?name={name}")
            fortress.get(f"/page/{name}")
        refused, told[:] = list(told), []
        fortress.get("/api/file?name=planter.rig")
    finally:
        listening.clear()
    assert refused == []
    assert any("planter.rig" in each for each in told), "the hook does hear what is opened"


@pytest.mark.parametrize(
    "name", [*PATHS, "two\nlines.rig", "tab\t.rig", "null\0.rig", "right\u202eto-left.rig", " x.rig"]
)
def test_a23_nothing_is_saved_elsewhere(fortress: Inside, name: str) -> None:
    before = tree_hash(fortress.folder.parent)
    reply = fortress.keep(unquote(name), "# words\n", None)
    assert reply.status == 400
    assert len(reply.json()["says"]) > 20
    assert tree_hash(fortress.folder.parent) == before


@pytest.mark.parametrize("target", ["//evil.example", "///google.com", "\\\\tree", "https:///a%40b/", f"//{{{HOST}}}"])
def test_a24_nobody_is_sent_elsewhere(fortress: Inside, target: str) -> None:
    for path in (target, f"/?next={target}", f"/{target}", f"/?token={TOKEN}&next={target}"):
        reply = fortress.get(path)
        assert "location" not in reply.headers
        assert not 300 <= reply.status < 400


def test_a15_the_token_is_swapped_for_a_cookie_and_stands_in_no_answer(fortress: Inside) -> None:
    reply = fortress.raw("GET", f"/?token={TOKEN}", [("host", HOST), ("sec-fetch-site", "cross-site")])
    assert reply.status == 200
    assert reply.headers["set-cookie"] == f"gantline={TOKEN}; Path=/; HttpOnly; SameSite=Strict"
    assert reply.headers["referrer-policy"] == "no-referrer"
    assert TOKEN.encode() not in reply.body
    for route in ROUTES:
        method, path, body = lawful(route)
        if method != "PUT":
            reply = fortress.raw(method, path, [("host", HOST), COOKIE, *OWN], body)
            assert TOKEN not in str(reply.headers)
            assert TOKEN.encode() not in reply.body


def test_a16_guesses_are_all_refused(fortress: Inside) -> None:
    assert fortress.guesses(f"gantline={guess:032x}" for guess in range(100_000)) == {401}
    assert fortress.get("/api/files").status == 200


def test_a16_a_token_is_drawn_by_chance_and_long() -> None:
    from gantline.loft.guard import new_token

    tokens = {new_token() for _ in range(1000)}
    assert len(tokens) == 1000
    assert min(map(len, tokens)) >= 128 / 6


def test_a28_a_body_without_end_is_cut(fortress: Inside) -> None:
    reply = fortress.raw("POST", "/api/see", [("host", HOST), COOKIE, *OWN], b"[" * (LONGEST + 1))
    assert reply.status == 413


def test_names_of_ours_are_exact() -> None:
    assert KEYS.hosts == {HOST, f"localhost:{PORT}", f"[::1]:{PORT}"}


def test_a04_letters_of_any_size_in_our_own_name(fortress: Inside) -> None:
    """Host names have no case: the one spelling that may differ, and it does the same everywhere."""
    for method, path in (("GET", "/api/files"), ("GET", "/"), ("GET", "/page/plates.css")):
        assert fortress.raw(method, path, [("host", f"LOCALHOST:{PORT}"), COOKIE]).status == 200


def test_behind_a_proxy_the_public_name_is_ours_and_its_cookie_is_secure(tmp_path: Path) -> None:
    inside = Inside(tmp_path, Keys(("https://loft.example", *KEYS.origins), TOKEN))
    try:
        reply = inside.raw("GET", f"/?token={TOKEN}", [("host", "loft.example")])
        assert reply.headers["set-cookie"].endswith("; Secure")
        own = [("host", "loft.example"), COOKIE]
        assert inside.raw("GET", "/api/files", [*own, ("origin", "https://loft.example")]).status == 200
        for origin in ("http://loft.example", f"http://{HOST}", "https://loft.example:8347"):
            assert inside.raw("GET", "/api/files", [*own, ("origin", origin)]).status == 403
    finally:
        inside.close()
