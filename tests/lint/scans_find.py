"""The scans held against small trees made here: a clean one without findings, then one fault at a
time, which exactly the scan it belongs to must name."""
import json
import sys
import tempfile
import unittest
from pathlib import Path

import house_rules
import includes
import sources_cited
import tests_built

CLEAN = {
    "cmake/rp_engine.cmake": "set(RP_LAYERS base catalog analysis store app)\n",
    "base/CMakeLists.txt": "rp_engine(rp_base LAYER base SOURCES a.cpp)\n",
    "base/a.hpp": "// Source: [one-source].\nint a(int i);\n",
    "base/a.cpp": '#include "base/a.hpp"\nint a(int i) { return "x[i-1]"[i-1]; }\n',
    "base/a_test.cpp": '#include "analysis/fit/f.hpp"\n',
    "analysis/fit/CMakeLists.txt": "rp_engine(rp_fit LAYER analysis SOURCES f.cpp)\n",
    "analysis/fit/README.md": "See [a page](x.md), [two-words](y.md) and [two-source].\n",
    "analysis/fit/f.hpp": '#include "base/a.hpp"\n#include <vector>\n',
    "analysis/air/CMakeLists.txt": "rp_engine(rp_air LAYER analysis SOURCES g.cpp)\n",
    "analysis/air/README.md": "Air.\n",
    "analysis/air/g.hpp": '#include "base/a.hpp"\n',
    "app/run.cpp": '#include <fstream>\n#include "analysis/fit/f.hpp"\n#include "analysis/air/g.hpp"\n',
    "docs/sources.bib": "@misc{one-source,\n  note = {looked up}\n}\n@misc{two-source,\n  note = {from memory}\n}\n",
    "README.md": "x\n", "LICENSE": "x\n", "CHANGELOG.md": "x\n", "CONTRIBUTING.md": "x\n",
    "start": "x\n", "check": "x\n", ".ci/run": "x\n",
}
SCANS = {"includes": includes.scan, "sources": sources_cited.scan, "rules": house_rules.scan}


def findings(change: dict, uncompiled=()) -> dict:
    """What each scan says of the clean tree with some files replaced; silent scans are left out."""
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder).resolve()
        tree = CLEAN | change
        for name, content in tree.items():
            (root / name).parent.mkdir(parents=True, exist_ok=True)
            (root / name).write_text(content)
        build = root / "build"
        build.mkdir()
        commands = [{"directory": str(root), "file": n} for n in tree if n.endswith(".cpp") and n not in uncompiled]
        (build / "compile_commands.json").write_text(json.dumps(commands))
        said = {name: list(scan(root)) for name, scan in SCANS.items()}
        said["built"] = list(tests_built.scan(root, build))
        return {name: lines for name, lines in said.items() if lines}


FAULTS = [  # scan, part of the finding, file, content
    ("includes", "looks upward to analysis", "base/a.cpp", '#include "analysis/fit/f.hpp"\n'),
    ("includes", "looks upward to app", "analysis/fit/f.hpp", "#include <app/run.hpp>\n"),
    ("includes", "do not know each other", "analysis/air/g.hpp", '// x\n#include "analysis/fit/f.hpp"\n'),
    ("includes", "without '..'", "analysis/air/g.hpp", '#include "../fit/f.hpp"\n'),
    ("includes", "touch the world", "analysis/air/g.hpp", "#include <fstream>\n"),
    ("includes", "is no layer", "base/b.hpp", '#include "start"\n#include "docs/sources.bib"\n'),
    ("includes", "nobody's header", "base/a.cpp", '#include "base/a_test.cpp"\n'),
    ("sources", "[three-source] has no entry", "base/a.cpp", "int a; // [three-source] Table 2\n"),
    ("sources", "[three-source] has no entry", "base/a.cpp", 'auto a = "[three-source] 5.2";\n'),
    ("sources", "[three-source] has no entry", "base/a.cpp", 'int b = 1\'000; auto a = R"(x\n[three-source])";\n'),
    ("sources", "one-source is cited nowhere", "base/a.hpp", "int a(int i);\n"),
    ("sources", "how it is known", "docs/sources.bib",
     CLEAN["docs/sources.bib"].replace("from memory", "a book")),
    ("sources", "stands here twice", "docs/sources.bib",
     CLEAN["docs/sources.bib"] + "@misc{one-source,\n  note = {looked up}\n}\n"),
    ("sources", "not closed", "docs/sources.bib", CLEAN["docs/sources.bib"] + "@misc{x-y,\n"),
    ("rules", "500", "base/a.cpp", "\n" * 501),
    ("rules", "300", "base/b.hpp", "\n" * 301),
    ("rules", "left for later", "base/a.cpp", "// TODO: more\n"),
    ("rules", "path of one machine", "base/a.cpp", 'auto a = "/work/main/x";\n'),
    ("rules", "LICENSE: missing", "LICENSE", ""),
    ("rules", "model page", "analysis/power/CMakeLists.txt", "rp_engine(rp_power LAYER analysis)\n"),
]


class Scans(unittest.TestCase):
    def test_clean_tree_has_no_findings(self):
        self.assertEqual(findings({}), {})

    def test_each_fault_is_found_by_its_scan(self):
        for scan, part, file, content in FAULTS:
            with self.subTest(part=part, file=file, content=content[:60]):
                said = findings({file: content})
                self.assertIn(scan, said)
                self.assertTrue(any(part in line for line in said[scan]), said)
                self.assertTrue(said.keys() <= {scan, "sources"}, said)

    def test_circle_between_folders(self):
        said = findings({"tools/x/a.hpp": '#include "tools/y/b.hpp"\n', "tools/y/b.hpp": '#include "tools/x/a.hpp"\n'})
        self.assertEqual(said, {"includes": ["folders in a circle: tools/x -> tools/y -> tools/x"]})

    def test_a_program_may_touch_the_world(self):
        self.assertEqual(findings({"base/page_main.cpp": "#include <fstream>\n"}), {})

    def test_a_source_that_nobody_builds(self):
        for file in ("base/a_test.cpp", "base/a.cpp", "base/b_fuzz.cpp", "base/b_bench.cpp"):
            said = findings({file: ""} if "/b_" in file else {}, uncompiled=(file,))
            self.assertEqual(said.get("built"), [f"{file}: no CMakeLists.txt builds it"])

    def test_a_subscript_or_a_class_of_characters_is_no_source(self):
        for line in ("x[ab-1];\n", '"[a-z0-9]";\n', "// in [10-20]\n", "[[no-key]];\n"):
            self.assertEqual(findings({"base/c.hpp": line}), {}, line)


if __name__ == "__main__":
    sys.exit(unittest.main())
