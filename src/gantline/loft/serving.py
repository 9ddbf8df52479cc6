"""The loft started: a socket, an address with its token, and the server behind it until it is stopped."""

import asyncio
import socket
from collections.abc import Callable
from pathlib import Path
from typing import Any

import uvicorn
from msgspec import Struct
from uvicorn.protocols.http.h11_impl import H11Protocol

from .app import application
from .folder import Folder
from .guard import App, Keys
from .routes import Loft
from .workers import Workers

QUIET = 10.0  # seconds a connection may stay silent before its request is whole
CONNECTIONS = 1000
HEADERS = 32 * 1024  # bytes of a request line with its headers


class Place(Struct, frozen=True):
    """Where and what to serve: a bound socket, the folder, the file to open first, and the keys to come in."""

    socket: socket.socket
    folder: Path
    file: str | None
    keys: Keys


def serve(place: Place, ready: Callable[[], None]) -> None:
    """Serves until it is stopped; `ready` is called once the page can be opened. Raises OSError for the folder."""
    folder = Folder(place.folder)
    folder.sweep()
    loft = Loft(folder, Workers(), place.file)
    server = server_of(application(loft, place.keys), ready)
    asyncio.run(server.serve(sockets=[place.socket]))


def server_of(app: App, ready: Callable[[], None]) -> uvicorn.Server:
    """The server round an application. It logs nothing but its own failures, and nothing of a request."""
    config = uvicorn.Config(
        app, http=_Patient, ws="none", loop="asyncio", lifespan="on", access_log=False, log_level="error",
        server_header=False, date_header=False, proxy_headers=False, h11_max_incomplete_event_size=HEADERS,
        timeout_graceful_shutdown=2,
    )  # fmt: skip
    return _Server(config, ready)


class _Server(uvicorn.Server):
    """A server that says when it can be reached."""

    def __init__(self, config: uvicorn.Config, ready: Callable[[], None]) -> None:
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        if self.started:
            self._ready()


class _Patient(H11Protocol):
    """The protocol with an end to its patience: a connection whose request does not come in time is closed."""

    _patience: asyncio.TimerHandle | None = None

    def connection_made(self, transport: Any) -> None:
        super().connection_made(transport)
        if len(self.connections) > CONNECTIONS:
            transport.abort()
        else:
            self._wait()

    def data_received(self, data: bytes) -> None:
        super().data_received(data)
        if self._busy():
            self._stop_waiting()
        else:
            self._wait()

    def connection_lost(self, exc: Exception | None) -> None:
        self._stop_waiting()
        super().connection_lost(exc)

    def _busy(self) -> bool:
        """Whether a request is being answered; its body has a time of its own at the guard."""
        return self.cycle is not None and not self.cycle.response_complete

    def _wait(self) -> None:
        if self._patience is None:
            self._patience = self.loop.call_later(QUIET, self._give_up)

    def _stop_waiting(self) -> None:
        if self._patience is not None:
            self._patience.cancel()
            self._patience = None

    def _give_up(self) -> None:
        if not self._busy():
            self.transport.close()
