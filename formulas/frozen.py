"""Rows, answers and their parts: frozen dataclasses that are made at once.

The library compiles six methods anew for every dataclass, about a millisecond each time; every
command would wait for a hundred of them. Here all classes share one set of methods, and each is
a dataclass in every other way: `replace`, `asdict` and `fields` know it.
"""

from __future__ import annotations

import dataclasses
from dataclasses import Field, FrozenInstanceError
from typing import Any, ClassVar, dataclass_transform


@dataclass_transform(frozen_default=True, field_specifiers=(dataclasses.field,))
class Frozen:
    """What holds its values from the day it is made: `class Lot(Frozen):` and the fields below.

    Of `dataclasses.field` a default and a default_factory are heeded; a class that asks for more,
    or for a `__post_init__`, is refused with TypeError.
    """

    __dataclass_fields__: ClassVar[dict[str, Field[Any]]]

    def __init_subclass__(cls) -> None:
        dataclasses.dataclass(init=False, repr=False, eq=False)(cls)
        plain = all(
            one.init and one.repr and one.compare and one.hash is None and one.kw_only is False
            for one in dataclasses.fields(cls)
        )
        if not plain or hasattr(cls, "__post_init__"):
            raise TypeError(f"{cls.__qualname__} asks for more than Frozen does: use @dataclass")

    def __init__(self, *args: Any, **values: Any) -> None:
        fields = self.__dataclass_fields__
        if len(args) == len(fields) and not values:
            self.__dict__.update(zip(fields, args, strict=True))
            return
        if args:
            given = dict(zip(fields, args, strict=False))
            if len(given) < len(args) or given.keys() & values.keys():
                raise TypeError(f"{_name(self)}() got more values than it has fields: {args}")
            values = given | values
        if values.keys() != fields.keys():
            if unknown := values.keys() - fields.keys():
                raise TypeError(f"{_name(self)}() has no field {', '.join(sorted(unknown))}")
            values = {
                name: values[name] if name in values else _default(self, field)
                for name, field in fields.items()
            }
        self.__dict__.update(values)

    def __setattr__(self, name: str, _: Any) -> None:
        raise FrozenInstanceError(f"cannot assign to field {name!r}")

    def __delattr__(self, name: str) -> None:
        raise FrozenInstanceError(f"cannot delete field {name!r}")

    def __eq__(self, other: object) -> bool:
        if other.__class__ is not self.__class__:
            return NotImplemented
        ours, theirs = self.__dict__, other.__dict__
        if len(ours) == len(theirs) == len(self.__dataclass_fields__):
            return ours == theirs
        return _values(self) == _values(other)  # one of them holds a property it worked out

    def __hash__(self) -> int:
        return hash(_values(self))

    def __repr__(self) -> str:
        told = ", ".join(
            f"{name}={value!r}"
            for name, value in zip(self.__dataclass_fields__, _values(self), strict=True)
        )
        return f"{_name(self)}({told})"


def _name(one: Frozen) -> str:
    return one.__class__.__qualname__


def _values(one: Any) -> tuple[Any, ...]:
    held = one.__dict__
    return tuple([held[name] for name in one.__dataclass_fields__])


def _default(one: Frozen, field: Field[Any]) -> Any:
    if field.default is not dataclasses.MISSING:
        return field.default
    if field.default_factory is not dataclasses.MISSING:
        return field.default_factory()
    raise TypeError(f"{_name(one)}() misses a value for {field.name!r}")
