"""A page that says one sentence: at the door, where the page itself may not be given yet."""

import hashlib
from base64 import b64encode

from gantline.output.markup import Markup, element

_STYLE = (
    "body{font:1.3rem/1.5 'STIX Two Text','Times New Roman',serif;margin:20vh auto;max-width:32rem;padding:0 1.5rem;"
    "color:#1d2530;background:#fff}@media(prefers-color-scheme:dark){body{color:#edf1f4;background:#14191f}"
    "a{color:inherit}}"
)
_MARK = b64encode(hashlib.sha256(_STYLE.encode()).digest()).decode()
_POLICY = f"default-src 'none'; style-src 'sha256-{_MARK}'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"


def page(says: str, onward: bool = False) -> tuple[bytes, str]:
    """The page and the policy it is sent with; `onward` goes on to the loft at once."""
    head = element(
        "head", element("meta", charset="utf-8"), element("title", "Gantline loft"),
        element("meta", http_equiv="refresh", content="0;url=/") if onward else None, element("style", Markup(_STYLE)),
    )  # fmt: skip
    link = element("p", element("a", "Go on", href="/")) if onward else None
    body = element("body", element("main", element("h1", "Gantline"), element("p", says), link))
    return f"<!DOCTYPE html>\n{element('html', head, body, lang='en')}".encode(), _POLICY
