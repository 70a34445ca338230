"""The shape of each module: short, public names declared, everything public documented."""

from __future__ import annotations

import ast
from collections.abc import Iterator

from house_help import MODULES, ROOT

LONGEST_MODULE = 300
LONGEST_FUNCTION = 60

# The only places that may name a post that ships: no code asks which post it has before it.
NAMING = {
    "jawcam.cli.options": "the default, when neither a job nor the command line says",
    "jawcam.job.template": "a job file to start from",
    "jawcam.job.template_lathe": "a job file to start from",
    "jawcam.job.template_turned": "a job file to start from",
    "jawcam.job.keys": "an example of the key",
    "jawcam.reader.controls": "a control is called like the post that writes for it",
    "jawcam.reader.mills": "the same: rows of that table",
}

FUNCTIONS = ast.FunctionDef | ast.AsyncFunctionDef


def test_modules_are_short():
    long = {
        name: lines
        for name, module in MODULES.items()
        if (lines := len(module.text.splitlines())) > LONGEST_MODULE
    }
    assert long == {}


def test_functions_are_short():
    long = [
        f"{module.at(node.lineno)}: {node.name}: {node.end_lineno - node.lineno + 1} lines"
        for module in MODULES.values()
        for node in ast.walk(module.tree)
        if isinstance(node, FUNCTIONS) and node.end_lineno - node.lineno >= LONGEST_FUNCTION
    ]
    assert long == []


def test_every_module_says_what_it_is_for():
    assert [name for name, module in MODULES.items() if not ast.get_docstring(module.tree)] == []


def test_everything_public_is_documented():
    bad = [
        f"{module.at(node.lineno)}: {node.name}"
        for module in MODULES.values()
        for node in _public(module.tree)
        if not ast.get_docstring(node)
    ]
    assert bad == []


def _public(parent: ast.Module | ast.ClassDef) -> Iterator[ast.ClassDef | FUNCTIONS]:
    """The public classes and functions of a module, and the public methods of such a class."""
    for node in parent.body:
        if isinstance(node, ast.ClassDef | FUNCTIONS) and not node.name.startswith("_"):
            yield node
            if isinstance(node, ast.ClassDef):
                yield from _public(node)


def test_public_names_are_declared_and_exist():
    bad = []
    for name, module in MODULES.items():
        if name in {"jawcam", "jawcam.__main__"} or len(module.tree.body) == 1:
            continue
        declared = _declared(module.tree)
        if declared is None:
            bad.append(f"{name} has no __all__, or several")
            continue
        bad += [f"{name}: {missing}" for missing in sorted(set(declared) - _defined(module.tree))]
        if len(declared) != len(set(declared)):
            bad.append(f"{name}: a name stands twice in __all__")
    assert bad == []


def _declared(tree: ast.Module) -> list[str] | None:
    found = [
        ast.literal_eval(node.value)
        for node in tree.body
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "__all__"
    ]
    return found[0] if len(found) == 1 else None


def _defined(tree: ast.Module) -> set[str]:
    """The names that stand at the top of a module."""
    names: set[str] = set()
    for node in tree.body:
        if isinstance(node, ast.ClassDef | FUNCTIONS):
            names.add(node.name)
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            left = node.targets if isinstance(node, ast.Assign) else [node.target]
            names |= {n.id for t in left for n in ast.walk(t) if isinstance(n, ast.Name)}
        elif isinstance(node, ast.Import | ast.ImportFrom):
            names |= {alias.asname or alias.name for alias in node.names}
    return names


def test_no_code_asks_for_a_post_by_its_name():
    posts = sorted(path.stem for path in (ROOT / "posts").glob("*.toml"))
    assert posts
    naming = {
        name
        for name, module in MODULES.items()
        for node in ast.walk(module.tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
        if any(post in node.value for post in posts)
    }
    assert naming <= set(NAMING)
    default = [
        ast.unparse(node)
        for node in MODULES["jawcam.cli.options"].tree.body
        if any(post in ast.unparse(node) for post in posts)
    ]
    assert len(default) == 1
    assert default[0].startswith("DEFAULT_POST = ")
