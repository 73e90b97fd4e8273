"""Every *.cpp of the tree is compiled by this build: a test that nobody builds cannot fail.

In: the tree and the build folder with its compile_commands.json. A benchmark may instead be named in
the CMakeLists.txt beside it, since it is built only where the benchmark library is.
"""
import json
from pathlib import Path

import tree


def scan(root: Path, build: Path):
    commands = json.loads((build / "compile_commands.json").read_text())
    compiled = {Path(c["directory"], c["file"]).resolve() for c in commands}
    for file in tree.files(root, ".cpp"):
        if (root / file) in compiled:
            continue
        rules = root / file.parent / "CMakeLists.txt"
        if file.name.endswith("_bench.cpp") and rules.is_file() and file.name in rules.read_text():
            continue
        if file == Path("fuzz/replay_main.cpp") and not tree.files(root, "_fuzz.cpp"):
            continue
        yield f"{file}: no CMakeLists.txt builds it"


if __name__ == "__main__":
    tree.run(scan)
