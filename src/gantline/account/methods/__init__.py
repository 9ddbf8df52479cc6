"""Ways to explain a rig, one file each. A method has NAME, `accepts(rig, answer)` and `explain(rig, answer)`."""

from types import ModuleType

from . import carry, count, free_body, newton, rope_length, stages, work

METHODS: dict[str, ModuleType] = {
    module.NAME: module for module in (count, free_body, carry, rope_length, work, stages, newton)
}
