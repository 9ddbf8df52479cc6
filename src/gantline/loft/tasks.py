"""What a worker can be asked to do: a name, the request it reads, and the function that answers. Nothing here keeps
anything from one request to the next."""

from collections.abc import Callable
from typing import Any

from .asked import Edit, HandOut, Offers, Say, See, Tag, Tell, Thumbnail, read

Hear = Callable[[dict[str, Any]], None]  # is told what is said while an answer is made


def run(task: str, body: bytes, hear: Hear) -> Any:
    """The answer to a request. Raises Refused where there is none, KeyError for a task that is none."""
    return TASKS[task](body, hear)


def _see(body: bytes, _: Hear) -> Any:
    from .seeing import see

    return see(read(body, See))


def _account(body: bytes, _: Hear) -> Any:
    from .telling import tell

    return tell(read(body, Tell))


def _say(body: bytes, _: Hear) -> Any:
    from .telling import say

    return say(read(body, Say))


def _present(body: bytes, _: Hear) -> Any:
    from .presenting import present

    return present(read(body, Tell))


def _export(body: bytes, hear: Hear) -> Any:
    from .exporting import hand_out

    return hand_out(read(body, HandOut), hear)


def _offers(body: bytes, _: Hear) -> Any:
    from .making.offering import offers

    asked = read(body, Offers)
    return {"offers": offers(asked.text, asked.rope)}


def _edit(body: bytes, _: Hear) -> Any:
    from .making import edit

    asked = read(body, Edit)
    return edit(asked.text, asked.action)


def _tag(body: bytes, _: Hear) -> Any:
    from .making import tag

    asked = read(body, Tag)
    return tag(asked.text, asked.of)


def _gains(body: bytes, _: Hear) -> Any:
    from .shelf import gains

    return gains()


def _thumbnail(body: bytes, _: Hear) -> Any:
    from .shelf import thumbnail

    return thumbnail(read(body, Thumbnail))


TASKS: dict[str, Callable[[bytes, Hear], Any]] = {
    "see": _see, "account": _account, "say": _say, "present": _present, "export": _export,
    "offers": _offers, "edit": _edit, "tag": _tag, "gains": _gains, "thumbnail": _thumbnail,
}  # fmt: skip
