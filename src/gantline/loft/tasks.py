"""What a worker can be asked to do: a name, the request it reads, and the function that answers. Nothing here keeps
anything from one request to the next."""

from collections.abc import Callable
from typing import Any

from .asked import Edit, Offers, See, Tell, Thumbnail, read


def run(task: str, body: bytes) -> Any:
    """The answer to a request. Raises Refused where it cannot be read, KeyError for a task that is none."""
    return TASKS[task](body)


def _see(body: bytes) -> Any:
    from .seeing import see

    return see(read(body, See))


def _account(body: bytes) -> Any:
    from .telling import tell

    return tell(read(body, Tell))


def _offers(body: bytes) -> Any:
    from .making import offers

    asked = read(body, Offers)
    return {"offers": offers(asked.text, asked.rope)}


def _edit(body: bytes) -> Any:
    from .making import edit

    asked = read(body, Edit)
    return edit(asked.text, asked.action)


def _thumbnail(body: bytes) -> str:
    from .shelf import thumbnail

    return thumbnail(read(body, Thumbnail))


TASKS: dict[str, Callable[[bytes], Any]] = {
    "see": _see,
    "account": _account,
    "offers": _offers,
    "edit": _edit,
    "thumbnail": _thumbnail,
}
