"""Small rules of the house: sizes of files, nothing left for later, no path of one machine, and the
pages a stranger looks for."""
import re
from pathlib import Path

import tree

LINES = {".cpp": 500, ".hpp": 300}
DATA = re.compile(r"tools/make_demo_\w+\.cpp|catalog/brief_keys\.hpp")  # tables written as code: no limit
LATER = re.compile(r"\b(TODO|FIXME)\b")
MACHINE = re.compile(r"(?<![\w.:}$/-])/(?:work|home|root)/[\w.]")
PAGES = ("README.md", "LICENSE", "CHANGELOG.md", "CONTRIBUTING.md", "docs/sources.bib", "start", "check", ".ci/run")
TEXTS = (".cpp", ".hpp", ".md", ".py", ".sh", ".cmake", "CMakeLists.txt", ".toml", ".csv", ".json", ".html",
         "start", "check", "run", "tidy", "format", "fuzz")


def scan(root: Path):
    for page in PAGES:
        if not (root / page).is_file() or not (root / page).stat().st_size:
            yield f"{page}: missing or empty"
    for rules in tree.files(root, "CMakeLists.txt"):
        engine = re.search(r"^\s*rp_engine\(", tree.text(root, rules), re.M)
        if engine and rules.parts[0] in ("analysis", "decision", "evidence"):
            if not (root / rules.parent / "README.md").is_file():
                yield f"{rules.parent}/README.md: an engine has its model page"
    for file in tree.files(root, *TEXTS):
        if file.parts[:2] == ("tests", "lint"):
            continue  # the rules and their test name what they forbid
        content = tree.text(root, file)
        lines = content.count("\n")
        if lines > LINES.get(file.suffix, lines) and not DATA.fullmatch(str(file)):
            yield f"{file}: {lines} lines; {file.suffix} files end at {LINES[file.suffix]}: split what answers two questions"
        for pattern, what in ((LATER, "left for later"), (MACHINE, "a path of one machine")):
            for match in pattern.finditer(content):
                yield f"{file}:{tree.line_of(content, match.start())}: {match.group(0)}: {what}"


if __name__ == "__main__":
    tree.run(scan)
