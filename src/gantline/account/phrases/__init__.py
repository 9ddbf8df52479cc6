"""The words of explanations, one folder a language. A language brings frames and the few functions of `Language`."""

from types import ModuleType

from . import en

LANGUAGES: dict[str, ModuleType] = {"en": en}

__all__ = ["LANGUAGES", "en"]
