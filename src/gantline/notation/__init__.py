"""The notation: text to tree and back. Knows no machine and no physics."""

from .parse import parse
from .tree import Attribute, Contact, Remark, Run, Statement, Tree, Word, Written

__all__ = ["Attribute", "Contact", "Remark", "Run", "Statement", "Tree", "Word", "Written", "parse"]
