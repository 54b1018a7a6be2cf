#!/usr/bin/env python3
"""Holds the tree to its own rules: floors only look down, tests name their truth, no machine paths.

Run from anywhere: check_tree.py [SOURCE_DIR]. Prints each breach; exit 1 when there is one.
"""

import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else pathlib.Path(__file__).parents[2]).resolve()
TRUTH_FLOORS = ("geometry", "measure", "plan", "imaging")
PAGE_LAYERS = {"state": 0, "words": 0, "routes.js": 0, "server": 1, "picture": 2, "gestures": 2, "panels": 2, "main.js": 3}


def tracked_files():
    listed = subprocess.run(["git", "-C", ROOT, "ls-files"], capture_output=True, text=True, check=True)
    return [ROOT / line for line in listed.stdout.splitlines() if (ROOT / line).is_file()]


def floors():
    """Each floor with every floor it may use, from the pritchel_floor() calls themselves."""
    text = (ROOT / "src/CMakeLists.txt").read_text()
    direct = {}
    for body in re.findall(r"^pritchel_floor\(\s*(.*?)\)", text, re.S | re.M):
        words = body.split()
        uses = []
        if "USES" in words:
            for word in words[words.index("USES") + 1:]:
                if word.isupper():
                    break
                uses.append(word)
        direct[words[0]] = uses

    def below(name, seen):
        for use in direct.get(name, []):
            if use not in seen:
                seen.add(use)
                below(use, seen)
        return seen

    return {name: below(name, {name}) for name in direct}


def upward_includes(allowed):
    for floor, may_use in allowed.items():
        for path in sorted((ROOT / "src" / floor).rglob("*")):
            if path.suffix not in (".h", ".cpp"):
                continue
            for target in re.findall(r'#include "([^"]+)"', path.read_text()):
                first = target.split("/")[0]
                if ".." in target or (first in allowed and first not in may_use):
                    yield f"{path.relative_to(ROOT)}: includes {target}, which isn't below {floor}"


def page_imports():
    page = ROOT / "src/page"
    for path in sorted(page.rglob("*.js")):
        own = path.relative_to(page).parts[0]
        for target in re.findall(r"""(?:from|import)\s+["']([^"']+)["']""", path.read_text()):
            if not target.startswith("."):
                yield f"{path.relative_to(ROOT)}: imports {target} from outside the page"
                continue
            other = (path.parent / target).resolve().relative_to(page.resolve()).parts[0]
            if other != own and PAGE_LAYERS.get(other, 9) >= PAGE_LAYERS.get(own, 3):
                yield f"{path.relative_to(ROOT)}: imports {target}, which isn't below it"


def cases_without_truth():
    for floor in TRUTH_FLOORS:
        for path in sorted((ROOT / "tests" / floor).glob("*.cpp")):
            lines = path.read_text().splitlines()
            for number, line in enumerate(lines):
                if not line.startswith("TEST_CASE"):
                    continue
                body = "\n".join(lines[number:])
                body = body[: body.find("\n}")]
                checks_number = re.search(r"Approx|std::abs\(.*<|WithinAbs|WithinRel", body)
                above = number - 1
                while above >= 0 and lines[above].startswith("//"):
                    above -= 1
                if checks_number and not any("Truth:" in each for each in lines[above + 1: number]):
                    yield f"{path.relative_to(ROOT)}:{number + 1}: checks a number without a Truth: line"


def machine_paths():
    bad = re.compile(r"(?<![\w.])/(?:work|home|root)/[\w.]|registry\.[a-z]+js|deb\.debian\.org")
    for path in tracked_files():
        if path == pathlib.Path(__file__).resolve() or path.suffix in (".dcm", ".pdf", ".png", ".jpg"):
            continue
        text = path.read_text(errors="replace")
        for number, line in enumerate(text.splitlines(), 1):
            if bad.search(line):
                yield f"{path.relative_to(ROOT)}:{number}: holds a machine path or a registry's host"


def main():
    allowed = floors()
    if "measure" not in allowed:
        print("src/CMakeLists.txt: no floors found")
        return 1
    breaches = [
        *upward_includes(allowed),
        *page_imports(),
        *cases_without_truth(),
        *machine_paths(),
    ]
    for breach in breaches:
        print(breach)
    print(f"{len(allowed)} floors, {len(breaches)} breaches")
    return 1 if breaches else 0


if __name__ == "__main__":
    sys.exit(main())
