"""Includes go down: to a lower layer or the own engine. Neighbours on a layer do not know each other,
folders form no circle, and what lies below the store does not touch the world.

An engine is the nearest folder above a file whose CMakeLists.txt calls rp_engine(). Tests,
benchmarks and fuzz targets may use anything; they are held only to the spelling of the path.
"""
import re
from pathlib import Path

import tree

INCLUDE = re.compile(r'^[ \t]*#[ \t]*include[ \t]*(["<])([^">]+)[">]', re.M)
# Files, streams, processes, the clock of the day: docs/decisions/0001-layers.md.
WORLD = {"iostream", "fstream", "filesystem", "cstdio", "stdio.h", "ctime", "unistd.h", "sqlite3.h"}


def is_program(file: Path) -> bool:
    return file.name.endswith("_main.cpp")  # a main() of its own: a small front door beside its engine


def engine_of(root: Path, file: Path) -> str:
    for folder in file.parents:
        rules = root / folder / "CMakeLists.txt"
        if folder != Path(".") and rules.is_file() and re.search(r"^\s*rp_engine\(", rules.read_text(), re.M):
            return str(folder)
    return file.parts[0]


def circle(graph: dict):
    """One circle as a list of folders, or None. Depth first, in name order."""
    done, path = set(), []

    def visit(node):
        if node in path:
            return path[path.index(node):] + [node]
        if node in done:
            return None
        path.append(node)
        for after in sorted(graph.get(node, ())):
            found = visit(after)
            if found:
                return found
        path.pop()
        done.add(node)
        return None

    for start in sorted(graph):
        found = visit(start)
        if found:
            return found
    return None


def scan(root: Path):
    order = tree.layers(root)
    store = order.index("store")
    graph = {}
    for file in tree.files(root, ".cpp", ".hpp"):
        content = tree.text(root, file)
        own = file.parts[0]
        for match in INCLUDE.finditer(content):
            bracket, name = match.groups()
            place = f"{file}:{tree.line_of(content, match.start())}"
            if ".." in name.split("/"):
                yield f"{place}: {name}: written from the top of the tree, without '..'"
                continue
            if tree.is_test(file):
                continue
            if bracket == "<" and name in WORLD and own in order and order.index(own) < store and not is_program(file):
                yield f"{place}: <{name}> in {own}: only the store, app and the front doors touch the world"
            target = Path(name) if "/" in name else file.parent / name
            theirs = target.parts[0]
            if theirs not in order and not (bracket == '"' and (root / target).is_file()):
                continue  # from outside the house
            if tree.is_test(target):
                yield f"{place}: {name}: a test is nobody's header"
            if target.parent != file.parent:
                graph.setdefault(str(file.parent), set()).add(str(target.parent))
            if own not in order:
                continue  # tools/ may look everywhere
            if theirs not in order:
                yield f"{place}: {name}: {theirs}/ is no layer of the house"
            elif order.index(theirs) > order.index(own):
                yield f"{place}: {name}: {own} looks upward to {theirs}"
            elif theirs == own and engine_of(root, target) != engine_of(root, file):
                yield f"{place}: {name}: engines on one layer do not know each other"
    found = circle(graph)
    if found:
        yield "folders in a circle: " + " -> ".join(found)


if __name__ == "__main__":
    tree.run(scan)
