"""Every address of the loft, in one table. The guard stands before all of them; none can be added outside it."""

import asyncio
import os
from collections.abc import AsyncIterator, Awaitable, Callable
from typing import Any

import msgspec
from starlette.requests import Request
from starlette.responses import Response, StreamingResponse
from starlette.routing import Route

from . import keeping, pages, shelf, wording
from .asked import Keep, Refused, read
from .folder import Folder
from .listing import Listing
from .workers import Workers

Handler = Callable[[Request], Awaitable[Response]]


class Loft:
    """What the routes share: the folder, the workers, and the file the loft was opened on. No session."""

    def __init__(self, folder: Folder, workers: Workers, opened_on: str | None = None) -> None:
        self.folder = folder
        self.workers = workers
        self.opened_on = opened_on
        self.listing = Listing(folder)

    def table(self) -> list[Route]:
        """All routes."""
        return [
            _get("/", self.start),
            *(_get(f"/{folder}/{{name}}", self.pieces(folder)) for folder in pages.FOLDERS),
            _post("/api/see", self.task("see")),
            _post("/api/account", self.task("account")),
            _post("/api/offers", self.task("offers")),
            _post("/api/edit", self.task("edit")),
            _post("/api/tag", self.task("tag")),
            _post("/api/say", self.task("say")),
            _post("/api/present", self.task("present")),
            _post("/api/export", self.export),
            _get("/api/shelf", self.shelf),
            _get("/shelf/{name}", self.thumbnail),
            _get("/api/files", self.files),
            _get("/api/file", self.file),
            Route("/api/file", _told(self.keep), methods=["PUT"]),
            _get("/api/history", self.history),
        ]

    async def start(self, request: Request) -> Response:
        """The page, with all it begins with: words, files, shelf, and the file the loft was opened on."""
        begun = {"words": wording.words(), "files": self._files(), "shelf": shelf.listed(), "file": self._opened()}
        return _sent(pages.begun(msgspec.json.encode(begun)), request)

    def pieces(self, folder: str) -> Handler:
        """Files of the page; unchanged ones are not sent again."""

        async def piece(request: Request) -> Response:
            found = pages.piece(folder, request.path_params["name"])
            if found is None:
                raise Refused(404, "There is no such page here.")
            return _sent(found, request)

        return piece

    def task(self, name: str) -> Handler:
        """A request that a worker answers. What is wrong with a text is its answer too, and has the status 422."""

        async def answer(request: Request) -> Response:
            data = await self.workers.ask(name, await request.body())
            return Response(data, 422 if data.startswith(b'{"problems":[{') else 200, media_type="application/json")

        return answer

    async def export(self, request: Request) -> Response:
        """Lines of JSON: what is being made, then the file itself, or why there is none."""
        return StreamingResponse(self._made(await request.body()), media_type="application/x-ndjson")

    async def _made(self, body: bytes) -> AsyncIterator[bytes]:
        heard: asyncio.Queue[bytes | None] = asyncio.Queue()
        making = asyncio.create_task(self.workers.ask("export", body, heard.put_nowait))
        making.add_done_callback(lambda _: heard.put_nowait(None))
        try:
            while (line := await heard.get()) is not None:
                yield line + b"\n"
            yield await making + b"\n"
        except Refused as refused:
            yield msgspec.json.encode({"refused": refused.says}) + b"\n"
        finally:
            making.cancel()  # nobody reads on: the worker is let go

    async def shelf(self, _: Request) -> Response:
        """Every ready rig, with what it gains: a worker has solved them all."""
        gains = msgspec.json.decode(await self.workers.keep("gains", b"{}"))
        return _json({"rigs": [{**rig, "gain": gains[rig["name"]]} for rig in shelf.listed()]})

    async def thumbnail(self, request: Request) -> Response:
        """The figure of a ready rig, drawn by a worker and kept: the same for everyone."""
        name, theme = request.path_params["name"], request.query_params.get("theme", "light")
        data = await self.workers.keep("thumbnail", msgspec.json.encode({"name": name, "theme": theme}))
        policy = "default-src 'none'; style-src 'unsafe-inline'; sandbox"
        headers = {"content-security-policy": policy, "cache-control": "private, max-age=3600"}
        return Response(msgspec.json.decode(data), media_type="image/svg+xml", headers=headers)

    async def files(self, _: Request) -> Response:
        from starlette.concurrency import run_in_threadpool

        return _json({**self._files(), "rigs": await run_in_threadpool(self.listing.rigs)})

    def _files(self) -> dict[str, Any]:
        name = os.fsencode(self.folder.path.name).decode("utf-8", "replace")  # a name may be no text
        return {"folder": name, "opened_on": self.opened_on, "files": self.folder.names()}

    def _opened(self) -> dict[str, Any] | None:
        """The file the loft was opened on; what is wrong with it is said when it is asked for."""
        try:
            return keeping.opened(self.folder, self.opened_on) if self.opened_on else None
        except Refused:
            return None

    async def file(self, request: Request) -> Response:
        """A file; 304 where it is still the one the page has."""
        record = keeping.opened(self.folder, request.query_params.get("name", ""))
        words = record["script"]
        etag = f'"{record["etag"]}{words["etag"] if words else ""}"'
        if request.headers.get("if-none-match") == etag:
            return Response(status_code=304, headers={"etag": etag})
        return _json(record, headers={"etag": etag})

    async def keep(self, request: Request) -> Response:
        from starlette.concurrency import run_in_threadpool

        asked = read(await request.body(), Keep)
        status, record = await run_in_threadpool(keeping.keep, self.folder, asked)
        return _json(record, status)

    async def history(self, request: Request) -> Response:
        return _json(keeping.earlier(self.folder, request.query_params.get("name", "")))


def _get(path: str, handler: Handler) -> Route:
    return Route(path, _told(handler), methods=["GET"])


def _post(path: str, handler: Handler) -> Route:
    return Route(path, _told(handler), methods=["POST"])


def _told(handler: Handler) -> Handler:
    """A refusal is an answer: its status, and its sentence."""

    async def told(request: Request) -> Response:
        try:
            return await handler(request)
        except Refused as refused:
            return _json({"says": refused.says}, refused.status)

    return told


def _json(record: Any, status: int = 200, headers: dict[str, str] | None = None) -> Response:
    return Response(msgspec.json.encode(record), status, headers, "application/json")


def _sent(piece: pages.Piece, request: Request) -> Response:
    headers = {"etag": piece.etag, "cache-control": "no-cache", "vary": "accept-encoding"}
    if request.headers.get("if-none-match") == piece.etag:
        return Response(status_code=304, headers=headers)
    if piece.small and "gzip" in request.headers.get("accept-encoding", ""):
        return Response(piece.small, headers={**headers, "content-encoding": "gzip"}, media_type=piece.kind)
    return Response(piece.data, headers=headers, media_type=piece.kind)
