"""What every part of the binding stands on: calls, errors, handles.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import ctypes
import threading
import typing

from ._library import load, number_of

_lib = load()

OK, E_NULL_POINTER, E_NOT_SET = 0, 101, 301


def _text(value):
    return value.decode("utf-8") if value is not None else None


def _shown(value):
    """What was given, short enough for a message."""
    if isinstance(value, _Handle):
        return _a(type(value).__name__)
    text = repr(value)
    return text if len(text) <= 60 else text[:57] + "..."


def _a(name):
    return ("an " if name[0] in "AEIOUaeiou" else "a ") + name


def _number(what, value):
    """A number that a call takes; `what` names it where it is none."""
    number = number_of(value)
    if number is None:
        raise TypeError(f"{what}: a number is needed, not {_shown(value)}")
    return number


def _bytes(text):
    """UTF-8 for a call, which would end at a null character in silence."""
    if not isinstance(text, str):
        raise TypeError(f"a text is needed, not {_shown(text)}")
    if "\0" in text:
        raise ValueError("a text without null characters is needed")
    return text.encode("utf-8")


def version() -> str:
    """Version of the library, such as "0.1.0"."""
    return _text(_lib.pvsize_version_text())


def caution() -> str:
    """The line to show with every result."""
    return _text(_lib.pvsize_caution())


def _kind_name(number):
    return _text(_lib.pvsize_kind_name(number))


def _full_name(number):
    kind = _lib.pvsize_term_kind(number)
    if kind:
        return f"{_kind_name(kind)}.{_text(_lib.pvsize_term_name(number))}"
    return _kind_name(number)


# errors

class Error(Exception):
    """A call failed. `status` is its number, `name` its name, `term` the
    parameter concerned ("module.voc") or None, `value` what was given and
    `range` what is allowed, each None where the failure has none; `reason` is the
    message without the place."""

    status: int
    name: str
    reason: str
    term: str | None
    index: int | None
    value: float | None
    range: tuple[float, float] | None

    def __init__(self, status, text, reason=None, term=None, index=None, value=None, allowed=None):
        super().__init__(text)
        self.status = status
        self.name = _text(_lib.pvsize_status_name(status))
        self.reason = text if reason is None else reason
        self.term, self.index, self.value, self.range = term, index, value, allowed


class ArgumentError(Error, TypeError):
    """A name, kind, type or index that does not exist here."""


class RangeError(Error, ValueError):
    """A value outside what is allowed."""


class StateError(Error):
    """Something needed has not been given."""


class CapacityError(Error):
    """A buffer was too small; the binding never lets this happen."""


class NoMemoryError(Error, MemoryError):
    """The allocator gave up."""


_ERRORS = {1: ArgumentError, 2: RangeError, 3: StateError, 4: CapacityError, 5: NoMemoryError}


def _call(name, *arguments):
    """A call by its name. What its types refuse is a TypeError that says why."""
    try:
        return getattr(_lib, "pvsize_" + name)(*arguments)
    except ctypes.ArgumentError as error:  # "argument 2: TypeError: why"
        raise TypeError(f"{name}: {str(error).split(': ', 2)[-1]}") from None


def _fill(call, *arguments):
    """Asks for the length, then for the text. `call` takes buffer, size, place."""
    length = ctypes.c_size_t()
    status = call(*arguments, None, 0, ctypes.byref(length))
    if status:
        return status, None
    buffer = ctypes.create_string_buffer(length.value + 1)
    status = call(*arguments, buffer, length.value + 1, ctypes.byref(length))
    return status, buffer.value.decode("utf-8")


class _Diag(threading.local):
    """The detail of the last failure; one for each thread."""

    def __init__(self):
        self.handle = ctypes.c_void_p()
        if _lib.pvsize_diag_new(None, ctypes.byref(self.handle)):
            raise MemoryError

    def __del__(self):
        if _lib:
            _lib.pvsize_diag_free(self.handle)

    def reason(self):
        return _fill(_lib.pvsize_diag_reason, self.handle)[1]

    def error(self, status):
        _, text = _fill(_lib.pvsize_diag_text, self.handle)
        reason = self.reason()
        value, low, high = ctypes.c_double(), ctypes.c_double(), ctypes.c_double()
        has_value = _lib.pvsize_diag_value(self.handle, ctypes.byref(value)) == OK
        has_range = _lib.pvsize_diag_range(self.handle, ctypes.byref(low),
                                           ctypes.byref(high)) == OK
        index = _lib.pvsize_diag_index(self.handle)
        return _ERRORS.get(status // 100, Error)(
            status, text, reason, _full_name(_lib.pvsize_diag_term(self.handle)),
            index if index >= 0 else None, value.value if has_value else None,
            (low.value, high.value) if has_range else None)


_diag = _Diag()


def _do(name, *arguments):
    """Calls and raises on failure."""
    status = _call(name, *arguments, _diag.handle)
    if status:
        raise _diag.error(status)


def _get(kind, name, *arguments):
    """Calls with a place for one result behind the arguments; returns it."""
    place = kind()
    _do(name, *arguments, ctypes.byref(place))
    return place.value


def _get_text(name, *arguments):
    def call(*all_arguments):
        return _call(name, *all_arguments, _diag.handle)
    status, text = _fill(call, *arguments)
    if status:
        raise _diag.error(status)
    return text


# handles

_H = typing.TypeVar("_H", bound="_Handle")
_Row = typing.TypeVar("_Row")


class _Handle:
    """Owns one object of the library; closed when left or forgotten."""

    _free: typing.Any = None
    _closed = False

    def __init__(self):
        self._handle = ctypes.c_void_p()

    @property
    def _handle(self):
        if self._closed:
            raise ArgumentError(
                E_NULL_POINTER,
                f"the {type(self).__name__} was closed: it cannot be used any more")
        return self._place

    @_handle.setter
    def _handle(self, place):
        self._place = place

    def close(self) -> None:
        """Gives the object back; later use raises."""
        if not self._closed and self._place:
            self._free(self._place)
        self._closed = True

    def __enter__(self: _H) -> _H:
        return self

    def __exit__(self, *_):
        self.close()

    def __del__(self):
        if getattr(self, "_place", None) and self._free:
            self.close()


def _handle_of(value, cls):
    """The handle behind an object of a class; anything else is refused by name."""
    if not isinstance(value, cls):
        raise TypeError(f"{_a(cls.__name__)} is needed, not {_shown(value)}")
    return value._handle

class _Made(_Handle):
    """Made empty, for calls to fill; the names of its calls begin with `_calls`."""

    _calls = ""

    def __init__(self):
        super().__init__()
        _do(f"{self._calls}_new", None, ctypes.byref(self._handle))


class _Page(_Made):
    """One that is rendered as a whole."""

    def render(self, markdown: bool = False) -> str:
        """All of it as text."""
        return _get_text(f"{self._calls}_render", self._handle, 2 if markdown else 1)

    def __str__(self):
        return self.render()


class _Sequence(_Handle, typing.Generic[_Row]):
    """Rows that the library counts; read one by one, in slices, or in a loop."""

    def __len__(self) -> int:
        raise NotImplementedError

    def _row(self, i: int) -> _Row:
        raise NotImplementedError

    @typing.overload
    def __getitem__(self, i: int) -> _Row: ...

    @typing.overload
    def __getitem__(self, i: slice) -> list[_Row]: ...

    def __getitem__(self, i):
        count = len(self)
        if isinstance(i, slice):
            return [self._row(k) for k in range(count)[i]]
        try:
            return self._row(range(count)[i])
        except IndexError:
            rows = f"it has rows 0 to {count - 1}" if count else "it has no rows"
            raise IndexError(f"{type(self).__name__}: no row {i}; {rows}") from None
        except TypeError:
            raise TypeError(f"{type(self).__name__}: a row is read by a whole number, rows by a "
                            f"slice, not by {_shown(i)}") from None

    def __iter__(self) -> typing.Iterator[_Row]:
        return (self._row(i) for i in range(len(self)))
