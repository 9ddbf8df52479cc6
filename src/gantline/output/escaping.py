"""What comes from a file as text that can never become markup."""

import re

_NOT_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")


def escape(text: str) -> str:
    """Text safe in XML content and attributes; characters XML does not allow become U+FFFD."""
    text = _NOT_XML.sub("\ufffd", text)
    return (
        text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace('"', "&quot;")
        .replace("'", "&#39;")
    )
