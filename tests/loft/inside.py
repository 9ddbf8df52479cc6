"""The loft called from inside: requests are made up byte by byte, so that they may be as wrong as an attacker's."""

import asyncio
import hashlib
import json
import threading
from collections.abc import Coroutine, Iterable, Sequence
from pathlib import Path
from typing import Any, TypeVar
from urllib.parse import unquote

from msgspec import Struct

from gantline.loft.app import application
from gantline.loft.folder import Folder
from gantline.loft.guard import Keys, loopback
from gantline.loft.routes import Loft
from gantline.loft.workers import Workers

PORT = 8347
HOST = f"127.0.0.1:{PORT}"
TOKEN = "right-token-of-this-run-0123456789"
KEYS = Keys(loopback(PORT), TOKEN, "gantline")
PLANTER = (Path(__file__).resolve().parents[2] / "src/gantline/shelf/planter.rig").read_text(encoding="utf-8")
COOKIE = ("cookie", f"gantline={TOKEN}")
OWN = [("content-type", "application/json"), ("x-gantline", "1")]

Headers = Sequence[tuple[str, str]]
Answer = TypeVar("Answer")


class Reply(Struct, frozen=True):
    status: int
    headers: dict[str, str]
    body: bytes

    def json(self) -> Any:
        return json.loads(self.body)


class Inside:
    """One application on one folder, with a loop in a thread of its own (a browser that is driven from the same process
    keeps the main thread's loop busy); `close` ends it and its workers."""

    def __init__(self, folder: Path, keys: Keys = KEYS, opened_on: str | None = None) -> None:
        self.folder = folder
        self.loop = asyncio.new_event_loop()
        self.thread = threading.Thread(target=self.loop.run_forever, daemon=True)
        self.thread.start()
        self.workers = Workers(1)
        self.loft = Loft(Folder(folder), self.workers, opened_on)
        self.app = application(self.loft, keys)

    def raw(self, method: str, path: str, headers: Headers, body: bytes = b"") -> Reply:
        """A request exactly as given: `path` is what stands in the request line."""
        raw_path, _, query = path.partition("?")
        scope = {
            "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": method, "scheme": "http",
            "path": unquote(raw_path), "raw_path": raw_path.encode(),
            "query_string": query.encode("latin-1", "replace"),
            "root_path": "", "headers": [(k.lower().encode(), v.encode("latin-1", "replace")) for k, v in headers],
            "client": ("127.0.0.1", 50000), "server": ("127.0.0.1", PORT), "state": {},
        }  # fmt: skip
        return self.wait(self._call(scope, body))

    def guesses(self, tokens: Iterable[str]) -> set[int]:
        """Every status that is answered to these tokens, one request each."""

        async def all_of_them() -> set[int]:
            head = {"type": "http", "method": "GET", "path": "/api/files", "query_string": b""}
            return {
                (
                    await self._call({**head, "headers": [(b"host", HOST.encode()), (b"cookie", token.encode())]}, b"")
                ).status
                for token in tokens
            }

        return self.wait(all_of_them())

    def wait(self, work: Coroutine[Any, Any, Answer]) -> Answer:
        """What comes of work in the loft's loop."""
        return asyncio.run_coroutine_threadsafe(work, self.loop).result()

    async def _call(self, scope: dict[str, Any], body: bytes) -> Reply:
        sent: list[dict[str, Any]] = []
        waiting = [{"type": "http.request", "body": body, "more_body": False}]

        async def receive() -> dict[str, Any]:
            if waiting:
                return waiting.pop()
            await asyncio.sleep(3600)
            return {"type": "http.disconnect"}

        async def send(message: dict[str, Any]) -> None:
            sent.append(message)

        await self.app(scope, receive, send)
        heads = {key.decode(): value.decode() for key, value in sent[0]["headers"]}
        return Reply(sent[0]["status"], heads, b"".join(each.get("body", b"") for each in sent[1:]))

    def get(self, path: str, *more: tuple[str, str]) -> Reply:
        """A request as our own page sends it."""
        return self.raw("GET", path, [("host", HOST), COOKIE, *more])

    def send(self, path: str, record: Any, method: str = "POST") -> Reply:
        return self.raw(method, path, [("host", HOST), COOKIE, *OWN], json.dumps(record).encode())

    def keep(self, name: str, text: str, base: str | None, says: str = "") -> Reply:
        return self.send("/api/file", {"name": name, "text": text, "base": base, "says": says}, "PUT")

    def close(self) -> None:
        self.wait(self.workers.close())
        self.wait(self.loop.shutdown_default_executor())
        self.loop.call_soon_threadsafe(self.loop.stop)
        self.thread.join()
        self.loop.close()


def tree_hash(folder: Path) -> str:
    """What stands in a folder, dot files and links too: names, kinds and bytes."""
    mark = hashlib.sha256()
    for path in sorted(folder.rglob("*")):
        mark.update(str(path.relative_to(folder)).encode())
        mark.update(b"link" if path.is_symlink() else path.read_bytes() if path.is_file() else b"folder")
    return mark.hexdigest()
