"""The workers, seen from the server: each request goes to one that is free, and is given a time."""

import asyncio
import os
import sys
from asyncio.subprocess import PIPE, Process
from collections.abc import Callable
from contextlib import suppress

import msgspec

from .asked import Refused
from .worker import LENGTH, PROGRESS, REFUSED

Hear = Callable[[bytes], None]

SECONDS = {"export": 90.0}  # a task may take, where that is not the usual time
USUAL = 6.0
WAITING = 30.0  # seconds a request waits for its turn


class Workers:
    """As many processes as there are processors, started when they are first needed, replaced when they die."""

    def __init__(self, count: int = 0) -> None:
        self._free: asyncio.LifoQueue[Process | None] = asyncio.LifoQueue()  # the last one still knows the rig
        self._all: set[Process] = set()
        self._kept: dict[tuple[str, bytes], bytes] = {}
        for _ in range(count or max(2, min(8, os.cpu_count() or 2))):
            self._free.put_nowait(None)

    async def ask(self, task: str, body: bytes, hear: Hear | None = None) -> bytes:
        """The JSON of an answer; `hear` is told what is said while it is being made.

        Raises Refused where there is none, or not in time.
        """
        seconds = SECONDS.get(task, USUAL)
        worker, done = await self._next(), False
        try:
            async with asyncio.timeout(seconds):
                worker = worker or await self._start()
                kind, data = await _exchange(worker, task, body, hear)
            done = True
        except TimeoutError:
            raise Refused(422, f"This takes longer than {seconds:.0f} seconds, and was stopped.") from None
        except (asyncio.IncompleteReadError, ConnectionError):
            raise Refused(500, _BROKEN) from None
        finally:
            if worker and not done:
                self._end(worker)
            self._free.put_nowait(worker if done else None)
        if kind == REFUSED:
            raise _refusal(data)
        return data

    async def keep(self, task: str, body: bytes) -> bytes:
        """`ask` for what is always the same: asked once, and remembered. Only for a handful of requests."""
        if (task, body) not in self._kept:
            self._kept[task, body] = await self.ask(task, body)
        return self._kept[task, body]

    async def warm(self, count: int = 0) -> None:
        """Starts so many workers (0: all) of those that are free, so that a figure need not wait for one."""
        waiting = [self._free.get_nowait() for _ in range(count or self._free.qsize())]
        for worker in reversed(waiting):
            self._free.put_nowait(worker or await self._start())

    async def close(self) -> None:
        """Ends all workers."""
        for worker in list(self._all):
            self._end(worker)
            await worker.wait()

    async def _next(self) -> Process | None:
        try:
            async with asyncio.timeout(WAITING):
                return await self._free.get()
        except TimeoutError:
            raise Refused(429, "Many are at work here at once. Try again in a moment.") from None

    async def _start(self) -> Process:
        # -P: never from the folder that is being served, where a file may have the name of a module
        worker = await asyncio.create_subprocess_exec(
            sys.executable, "-P", "-m", "gantline.loft.worker", stdin=PIPE, stdout=PIPE, limit=2**24
        )
        self._all.add(worker)
        return worker

    def _end(self, worker: Process) -> None:
        """Kills a worker; whoever is next starts another."""
        self._all.discard(worker)
        with suppress(ProcessLookupError):
            worker.kill()


_BROKEN = "That was a mistake of ours, not of yours. Please report it with this slip."


def _refusal(data: bytes) -> Refused:
    record = msgspec.json.decode(data)
    return Refused(record["status"], record["says"])


async def _exchange(worker: Process, task: str, body: bytes, hear: Hear | None) -> tuple[bytes, bytes]:
    """One request and its answer. A worker that was left in the middle of an answer is never used again."""
    assert worker.stdin
    for piece in (task.encode(), body):
        worker.stdin.write(LENGTH.pack(len(piece)) + piece)
    await worker.stdin.drain()
    while True:
        kind, data = await _receive(worker)
        if kind != PROGRESS:
            return kind, data
        if hear:
            hear(data)


async def _receive(worker: Process) -> tuple[bytes, bytes]:
    assert worker.stdout
    (length,) = LENGTH.unpack(await worker.stdout.readexactly(LENGTH.size))
    data = await worker.stdout.readexactly(length)
    return data[:1], data[1:]
