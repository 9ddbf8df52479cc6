"""The notation: text to tree and back. Knows no machine and no physics."""

from .alone import alone
from .edit import with_value
from .parse import MOST_BYTES, MOST_CONTACTS, MOST_PARTS, parse, parse_bytes
from .problems import MOST_PROBLEMS, Notes, did_you_mean
from .scan import comment_start, lines_of, words_of
from .statement import ATTRIBUTES, RESERVED, STATEMENTS
from .tidy import tidy
from .tree import Attribute, Contact, Remark, Run, Statement, Tree, Word, Written

__all__ = [
    "ATTRIBUTES", "MOST_BYTES", "MOST_CONTACTS", "MOST_PARTS", "MOST_PROBLEMS", "RESERVED", "STATEMENTS", "Attribute",
    "Contact", "Notes", "Remark", "Run", "Statement", "Tree", "Word", "Written", "alone", "comment_start",
    "did_you_mean", "lines_of", "parse", "parse_bytes", "tidy", "with_value", "words_of",
]  # fmt: skip
