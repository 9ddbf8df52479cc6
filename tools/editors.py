"""Many editors at one loft: each has its own rig open, changes a number, looks, and changes it again.

`python tools/editors.py 200` starts a loft on a free port and says what two hundred of them met.
"""

import asyncio
import json
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from random import Random
from statistics import median, quantiles
from typing import NamedTuple

SHELF = Path(__file__).parent.parent / "src" / "gantline" / "shelf"
RIGS = [path.read_text(encoding="utf-8") for path in sorted(SHELF.glob("*.rig"))]


class Met(NamedTuple):
    """What the editors met: how long each answer took (s), and every answer that was no figure."""

    seconds: list[float]
    errors: list[str]

    @property
    def middle(self) -> float:
        return median(self.seconds)

    @property
    def most(self) -> float:
        """What 95 of 100 answers stayed below."""
        return quantiles(self.seconds, n=20)[-1]


def edit_together(editors: int, edits: int, rest: float) -> Met:
    """So many editors make so many edits each, with `rest` seconds between two, at a loft of their own."""
    with tempfile.TemporaryDirectory() as folder:
        command = [sys.executable, "-m", "gantline", "loft", folder, "--no-browser", "--port", "0"]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
            try:
                assert process.stdout
                found = re.search(r":(\d+)/\?token=([\w-]+)", process.stdout.readline())
                assert found
                return asyncio.run(_all(int(found[1]), found[2], editors, edits, rest))
            finally:
                process.terminate()


async def _all(port: int, token: str, editors: int, edits: int, rest: float) -> Met:
    met = Met([], [])
    await asyncio.gather(*(_editor(port, token, number, edits, rest, met) for number in range(editors)))
    return met


async def _editor(port: int, token: str, number: int, edits: int, rest: float, met: Met) -> None:
    chance = Random(number)
    reader, writer = await asyncio.open_connection("127.0.0.1", port)
    try:
        for edit in range(edits):
            await asyncio.sleep(rest * 2 * chance.random())
            text = re.sub(r"\d+ N", f"{100 + edit} N", RIGS[number % len(RIGS)], count=1)
            start = time.perf_counter()
            status, answer = await _see(reader, writer, port, token, f"{text}# editor {number}\n")
            met.seconds.append(time.perf_counter() - start)
            if status != 200 or not answer["svg"]:
                met.errors.append(f"{status} {str(answer)[:200]}")
    except (OSError, asyncio.IncompleteReadError) as error:
        met.errors.append(repr(error))
    finally:
        writer.close()


async def _see(
    reader: asyncio.StreamReader, writer: asyncio.StreamWriter, port: int, token: str, text: str
) -> tuple[int, dict[str, object]]:
    body = json.dumps({"text": text}).encode()
    head = (
        f"POST /api/see HTTP/1.1\r\nhost: 127.0.0.1:{port}\r\ncookie: gantline-{port}={token}\r\nx-gantline: 1\r\n"
        f"content-type: application/json\r\ncontent-length: {len(body)}\r\n\r\n"
    )
    writer.write(head.encode() + body)
    await writer.drain()
    said = (await reader.readuntil(b"\r\n\r\n")).decode("latin-1")
    length = re.search(r"content-length: (\d+)", said)
    assert length
    return int(said.split()[1]), json.loads(await reader.readexactly(int(length[1])))


if __name__ == "__main__":
    found = edit_together(int(sys.argv[1]), 10, 1.0)
    print(f"{len(found.seconds)} answers, {len(found.errors)} errors, median {found.middle * 1e3:.0f} ms, "
          f"95 of 100 below {found.most * 1e3:.0f} ms")  # fmt: skip
