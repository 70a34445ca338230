"""The modules of jawcam as their source shows them, nothing imported, nothing run."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "jawcam"


@dataclass(frozen=True)
class Import:
    """One name that a module takes: `from source import name`, or `import source` (no name)."""

    source: str
    name: str
    line: int
    level: int  # how many dots stand before the source
    at_top: bool  # outside of functions: loaded with the module

    @property
    def library(self) -> str:
        return self.source.partition(".")[0]


@dataclass(frozen=True)
class Module:
    path: Path
    name: str  # jawcam.reader.read; a package's own module is called like the package

    @cached_property
    def text(self) -> str:
        return self.path.read_text(encoding="utf-8")

    @cached_property
    def tree(self) -> ast.Module:
        return ast.parse(self.text, str(self.path))

    @cached_property
    def imports(self) -> tuple[Import, ...]:
        return tuple(_imports(self.tree, at_top=True))

    @property
    def is_package(self) -> bool:
        return self.path.name == "__init__.py"

    @property
    def room(self) -> str:
        """The folder or, of a module that stands alone, its name; "" for jawcam/__init__.py."""
        return room_of(self.name)

    def at(self, line: int) -> str:
        return f"{self.path.relative_to(ROOT)}:{line}"


def room_of(name: str) -> str:
    parts = name.split(".")
    return parts[1] if len(parts) > 1 else ""


def _imports(node: ast.AST, *, at_top: bool) -> Iterator[Import]:
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.Import):
            for alias in child.names:
                yield Import(alias.name, "", child.lineno, 0, at_top)
        elif isinstance(child, ast.ImportFrom):
            for alias in child.names:
                yield Import(child.module or "", alias.name, child.lineno, child.level, at_top)
        else:
            inside = isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda)
            yield from _imports(child, at_top=at_top and not inside)


def _name(path: Path) -> str:
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


MODULES = {_name(path): Module(path, _name(path)) for path in sorted(PACKAGE.rglob("*.py"))}


def targets(module: Module) -> Iterator[tuple[str, Import]]:
    """The modules of jawcam that a module imports, in functions too, and by which statement."""
    for found in module.imports:
        if found.library == "jawcam":
            inner = f"{found.source}.{found.name}"  # `from jawcam.room import module`
            yield (inner if inner in MODULES else found.source), found


def closure(name: str) -> set[str]:
    """All modules that are loaded when one is, itself among them, and those that its functions
    load; the packages that they lie in are not counted (they hold nothing)."""
    seen: set[str] = set()
    waiting = [name]
    while waiting:
        current = waiting.pop()
        if current not in seen:
            seen.add(current)
            waiting += [target for target, _ in targets(MODULES[current]) if target in MODULES]
    return seen
