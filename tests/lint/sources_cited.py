"""Sources both ways: every [key] in code, tables and pages has an entry in docs/sources.bib, every
entry is cited somewhere and says in its note how it is known.

A key is lower-case words and digits joined by hyphens, in square brackets of its own. In C++ only
comments and strings are read, so that no subscript or attribute is taken for one.
"""
import re
from pathlib import Path

import tree

# At least one hyphen, a first word of two characters or more with a letter: [a-z] and [10-20] are none.
KEY = re.compile(r"(?<![\w\])\[])\[((?=[0-9]*[a-z])[a-z0-9]{2,}(?:-[a-z0-9]+)+)\](?!\])")
PROSE = re.compile(
    r"""(?P<skip>\b\d[\w.']*|'(?:\\.|[^'\\\n])*')      # numbers with separators, characters
      |(?P<take>//[^\n]*|/\*.*?\*/
               |R"(?P<raw>[^(\s"]*)\(.*?\)(?P=raw)"
               |"(?:\\.|[^"\\\n])*")""",
    re.S | re.X)
PRINTED = re.compile(r"^```text out\n.*?^```$", re.M | re.S)
ENTRY = re.compile(r"^@(\w+)\{([^,\s]+),(.*?)^\}", re.M | re.S)
NOTE = re.compile(r"^\s*note\s*=\s*\{(.*?)\}\s*,?\s*$", re.M | re.S)
KNOWN = ("looked up", "from memory", "computed")


def prose(file: Path, content: str):
    """(offset, text) of what a person reads in the file."""
    if file.suffix in (".cpp", ".hpp"):
        for match in PROSE.finditer(content):
            if match.group("take"):
                yield match.start(), match.group("take")
    elif file.suffix == ".md":  # what a program printed, quoted on a page, cites nothing
        yield 0, PRINTED.sub(lambda block: re.sub(r"[^\n]", " ", block.group()), content)
    else:
        yield 0, content


def citations(root: Path):
    for file in tree.files(root, ".cpp", ".hpp", ".md", ".csv", ".cmake", "CMakeLists.txt"):
        if file.parts[:2] == ("tests", "lint"):
            continue
        content = tree.text(root, file)
        for start, part in prose(file, content):
            for match in KEY.finditer(part):
                link = file.suffix == ".md" and (
                    part[match.end():match.end() + 1] in ("(", "[")
                    or re.match(r"\n?\[[^\]]*\]: ", part[max(0, match.start() - 1):]))
                if not link:
                    yield match.group(1), f"{file}:{tree.line_of(content, start + match.start())}"


def scan(root: Path):
    book = Path("docs/sources.bib")
    content = tree.text(root, book)
    entries = {}
    for match in ENTRY.finditer(content):
        place, key = f"{book}:{tree.line_of(content, match.start())}", match.group(2)
        note = NOTE.search(match.group(3))
        if key in entries:
            yield f"{place}: {key} stands here twice"
        entries[key] = place
        if not KEY.fullmatch(f"[{key}]"):
            yield f"{place}: {key} is no key that can be cited: two words or more, joined by hyphens"
        if not note or not any(word in note.group(1).lower() for word in KNOWN):
            yield f"{place}: {key} needs a note that says how it is known: {', '.join(KNOWN)}"
    if len(entries) != len(re.findall(r"^\s*@\w+\{", content, re.M)):
        yield f"{book}: an entry is not closed by a brace at the start of a line, or stands indented"
    cited = set()
    for key, place in citations(root):
        cited.add(key)
        if key not in entries:
            yield f"{place}: [{key}] has no entry in {book}"
    for key in entries.keys() - cited:
        yield f"{entries[key]}: {key} is cited nowhere"


if __name__ == "__main__":
    tree.run(scan)
