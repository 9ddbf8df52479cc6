"""The server as one application: the routes behind the guard."""

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

import msgspec
from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from .guard import App, Keys, guarded
from .pages import read_all
from .routes import Loft

FIRST_FIGURE = 1.0  # seconds after the start in which it is expected


def application(loft: Loft, keys: Keys) -> App:
    """The guarded application. It starts and ends the workers with itself."""

    @asynccontextmanager
    async def life(_: Starlette) -> AsyncIterator[None]:
        await loft.workers.warm(1)
        rest = asyncio.create_task(_rest(loft))
        yield
        rest.cancel()
        await loft.workers.close()

    app = Starlette(routes=loft.table(), lifespan=life, exception_handlers={HTTPException: _not_here, Exception: _ours})
    app.router.redirect_slashes = False  # an address is right or it is not; nobody is sent anywhere
    return guarded(app, keys)


async def _rest(loft: Loft) -> None:
    """What can wait: the first figure has the machine to itself."""
    await asyncio.to_thread(read_all)
    await asyncio.sleep(FIRST_FIGURE)
    await loft.workers.warm()


async def _not_here(_: Request, error: Exception) -> Response:
    status = error.status_code if isinstance(error, HTTPException) else 404
    says = "This address takes no such request." if status == 405 else "There is no such page here."
    return Response(msgspec.json.encode({"says": says}), status, media_type="application/json")


async def _ours(_: Request, error: Exception) -> Response:
    says = f"That was a mistake of ours, not of yours ({type(error).__name__}). Please report it with this slip."
    return Response(msgspec.json.encode({"says": says}), 500, media_type="application/json")
