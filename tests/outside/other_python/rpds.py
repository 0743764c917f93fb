"""What `referencing` needs of the compiled package rpds, in plain Python."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Set
from typing import Any


class HashTrieMap(Mapping[Any, Any]):
    def __init__(self, value: Any = (), **more: Any) -> None:
        self._held = dict(value, **more)

    @classmethod
    def convert(cls, value: Any) -> HashTrieMap:
        return value if isinstance(value, cls) else cls(value)

    def __getitem__(self, key: Any) -> Any:
        return self._held[key]

    def __iter__(self) -> Iterator[Any]:
        return iter(self._held)

    def __len__(self) -> int:
        return len(self._held)

    def insert(self, key: Any, value: Any) -> HashTrieMap:
        return HashTrieMap({**self._held, key: value})

    def remove(self, key: Any) -> HashTrieMap:
        return HashTrieMap({k: v for k, v in self._held.items() if k != key})

    def update(self, *others: Any) -> HashTrieMap:
        held = dict(self._held)
        for each in others:
            held.update(each)
        return HashTrieMap(held)


class HashTrieSet(Set[Any]):
    def __init__(self, value: Iterable[Any] = ()) -> None:
        self._held = frozenset(value)

    def __contains__(self, item: object) -> bool:
        return item in self._held

    def __iter__(self) -> Iterator[Any]:
        return iter(self._held)

    def __len__(self) -> int:
        return len(self._held)

    def insert(self, item: Any) -> HashTrieSet:
        return HashTrieSet(self._held | {item})

    def update(self, *others: Iterable[Any]) -> HashTrieSet:
        return HashTrieSet(self._held.union(*others))

    def discard(self, item: Any) -> HashTrieSet:
        return HashTrieSet(self._held - {item})


class List:
    def __init__(self, *items: Any) -> None:
        self._held = tuple(items[0]) if len(items) == 1 else items

    def __iter__(self) -> Iterator[Any]:
        return iter(self._held)

    def __len__(self) -> int:
        return len(self._held)

    @property
    def rest(self) -> List:
        return List(self._held[1:])

    def push_front(self, item: Any) -> List:
        return List((item, *self._held))
