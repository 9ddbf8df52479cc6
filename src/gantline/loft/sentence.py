"""A page that says one sentence: at the door, where the page itself may not be given yet."""

import hashlib
from base64 import b64encode
from html import escape

_STYLE = (
    "body{font:1.3rem/1.5 'STIX Two Text','Times New Roman',serif;margin:20vh auto;max-width:32rem;padding:0 1.5rem;"
    "color:#1d2530;background:#fff}@media(prefers-color-scheme:dark){body{color:#edf1f4;background:#14191f}"
    "a{color:inherit}}"
)
_MARK = b64encode(hashlib.sha256(_STYLE.encode()).digest()).decode()
_POLICY = f"default-src 'none'; style-src 'sha256-{_MARK}'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"


def page(says: str, onward: bool = False) -> tuple[bytes, str]:
    """The page and the policy it is sent with; `onward` goes on to the loft at once."""
    refresh = '<meta http-equiv="refresh" content="0;url=/">' if onward else ""
    link = '<p><a href="/">Go on</a></p>' if onward else ""
    text = (
        f'<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>Gantline loft</title>{refresh}'
        f"<style>{_STYLE}</style></head>\n<body><main><h1>Gantline</h1><p>{escape(says)}</p>{link}</main></body></html>\n"
    )
    return text.encode(), _POLICY
