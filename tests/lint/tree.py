"""What the scans share: which files are ours, the layers, and how findings are told."""
import os
import re
import sys
from pathlib import Path

SKIP = {"build", "out", ".git", ".cache", "node_modules", "__pycache__"}


def files(root: Path, *suffixes: str) -> list:
    """Every file of the tree with one of the suffixes (or whole names), relative to root, sorted."""
    found = []
    for folder, folders, names in os.walk(root):
        folders[:] = sorted(f for f in folders if f not in SKIP)
        found += [Path(folder, n).relative_to(root) for n in names if n.endswith(suffixes)]
    return sorted(found)


def text(root: Path, file: Path) -> str:
    return (root / file).read_text(encoding="utf-8", errors="replace")


def layers(root: Path) -> list:
    """The order of the house, from the one place where it stands."""
    return re.search(r"set\(RP_LAYERS ([^)]*)\)", text(root, Path("cmake/rp_engine.cmake"))).group(1).split()


def is_test(file: Path) -> bool:
    return bool(re.search(r"_(test|bench|fuzz)\.cpp$", file.name)) or file.parts[0] in ("tests", "fuzz")


def line_of(content: str, offset: int) -> int:
    return content.count("\n", 0, offset) + 1


def run(scan) -> None:
    """scan(root, *more) yields findings; prints them all and fails if there is one."""
    findings = sorted(scan(*(Path(a).resolve() for a in sys.argv[1:])))
    print(*findings, sep="\n", end="\n" if findings else "")
    print(f"{len(findings)} findings")
    sys.exit(1 if findings else 0)
