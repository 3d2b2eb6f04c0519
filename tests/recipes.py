"""Counts the sources in which each thing stands that a recipe adds: a command, an option, a finding's
code, a column, a key of the farm file. Adding one must not mean to write its name in many places; a
sentence that sends somebody to another command or option is no part of adding it and is not counted.

Usage: recipes.py SOURCE_DIR LEAT            fails where one stands in more sources than its recipe lists
                                             and recipes.debts does not say so, or where a debt is paid
       recipes.py SOURCE_DIR LEAT --debts    writes recipes.debts anew
       recipes.py SOURCE_DIR LEAT --counts   how many of each kind there are, in how many sources
       recipes.py SOURCE_DIR LEAT --where    the sources of those that stand in too many
"""
import collections
import json
import pathlib
import re
import subprocess
import sys

# The most sources (of model, solver and render; tests and documents come on top) each may stand in.
RECIPES = {
    "command": 5,  # its folder and the registry
    "option": 2,   # where it is declared, and where the command line or another option asks for it
    "code": 2,     # the list of codes and its theme; its words (render/words) come on top
    "column": 1,   # its row
    "key": 4,      # struct, row, use, and the schema while that is written by hand
}
FLOORS = ("model", "solver", "render")
SUFFIXES = (".h", ".cpp", ".js", ".json", ".in")
# Farms on which every table with its columns can be asked for.
DEMO = ("19-weak-line.yaml", "24-pond-against-the-sun.yaml", "20-which-pipe.yaml")
DAYS = ["--from", "2026-01-01", "--to", "2026-01-02"]


class Sources:
    """Every source, as the set of its string literals and of the words in them."""

    def __init__(self, root):
        self.literals = {}
        self.words = {}
        self.names = {}
        for floor in FLOORS:
            for file in sorted((root / floor).rglob("*")):
                if file.suffix not in SUFFIXES:
                    continue
                path = file.relative_to(root).as_posix()
                text = re.sub(r"^\s*(//|#include).*$", "", file.read_text(encoding="utf-8"), flags=re.M)
                raw = re.findall(r'R"\((.*?)\)"', text, re.S)
                found = [*re.findall(r'"((?:[^"\\\n]|\\.)*)"', text), *raw]
                # A key of the JSON, row["size"], is no command, code or key of the file.
                self.literals[path] = set(re.findall(r'(?<!\[)"((?:[^"\\\n]|\\.)*)"', text))
                joined = "\n".join(found)
                self.words[path] = set(re.findall(r"\w+", joined))
                self.names[path] = set(re.findall(r"\bCode::\w+", text))

    def with_literal(self, word, *folders):
        """The sources of these folders in which it stands as a literal of its own."""
        return {p for p, found in self.literals.items() if word in found and p.startswith(folders)}

    def with_word(self, word):
        return {p for p, found in self.words.items() if word in found}

    def with_name(self, name):
        return {p for p, found in self.names.items() if name in found}


def printed(leat, words):
    ran = subprocess.run([leat, *map(str, words)], capture_output=True, text=True, timeout=300, check=False)
    return ran.stdout if ran.returncode <= 1 else ""


def options_by_command(leat):
    """What completion offers: every command with its options."""
    script = printed(leat, ["--completion", "bash"])
    return {command: options.split()
            for command, options in re.findall(r"^    ([a-z]+)\) options='([^']*)'", script, re.M)}


def tables_by_command(leat):
    """The tables that --csv of a command can name; one without a name where there is but one."""
    script = printed(leat, ["--completion", "bash"])
    named = dict(re.findall(r"^    '([a-z]+) --csv'\).*words='([^']*)'", script, re.M))
    return {command: [f"--csv={t}" for t in named.get(command, "").split()] or ["--csv"]
            for command, options in options_by_command(leat).items() if "--csv" in options}


def columns(leat, root):
    """The heads of every CSV that bear a unit or are of two words: plain words ("name") mean many things."""
    found = set()
    for command, tables in tables_by_command(leat).items():
        options = options_by_command(leat)[command]
        for farm in [root / "networks-demo" / name for name in DEMO]:
            takes_farm = "--month" in options or "--to" in options
            files = [farm] * (2 if command == "compare" else 1) if takes_farm else []
            for table in tables:
                words = [command, *files, table, *(DAYS if "--to" in options else [])]
                head = printed(leat, words).split("\n", maxsplit=1)[0].split(",")
                found |= {key for key in head if "_" in key}
    return found


def codes(root):
    """The first column of OUTPUT.md's table of codes."""
    text = (root / "render/OUTPUT.md").read_text(encoding="utf-8")
    table = text.split("\n## Flag codes\n", 1)[1].split("\n## ", 1)[0]
    return set(re.findall(r"^\| ([a-z]+(?:-[a-z]+)*) \|", table, re.M)) - {"code"}


def keys(root):
    """Every property of the schema."""
    found = set()

    def look(node):
        if isinstance(node, dict):
            found.update(node.get("properties", {}))
            for part in node.values():
                look(part)
        elif isinstance(node, list):
            for part in node:
                look(part)

    look(json.loads((root / "model/keys/farm.schema.json").read_text(encoding="utf-8")))
    return found


def enumerator(code):
    """near-vapour is Code::NearVapour."""
    return "Code::" + "".join(part.capitalize() for part in code.split("-"))


def standing(root, leat):
    """By kind and word: the sources in which it stands."""
    sources = Sources(root)
    found = collections.defaultdict(dict)
    by_command = options_by_command(leat)
    for command in by_command:
        found["command"][command] = sources.with_literal(command, "render/cli/", "render/commands/")
    for option in sorted({o for options in by_command.values() for o in options if o.startswith("--")}):
        found["option"][option] = sources.with_literal(option, "render/")
    for code in sorted(codes(root)):
        everywhere = sources.with_literal(code, "solver/", "render/") | sources.with_name(enumerator(code))
        found["code"][code] = {p for p in everywhere if not p.startswith("render/words/")}
    for column in sorted(columns(leat, root)):
        found["column"][column] = sources.with_word(column)
    # Only these read and write the farm file; elsewhere the same word is a key of the JSON.
    for key in sorted(keys(root)):
        found["key"][key] = sources.with_literal(key, "model/", "render/page/")
    return found


def main():
    root, leat = pathlib.Path(sys.argv[1]), sys.argv[2]
    debts_file = pathlib.Path(__file__).with_name("recipes.debts")
    found = standing(root, leat)
    debts_now = {f"{kind}: {word}: stands in {len(paths)} sources": sorted(paths)
                 for kind, words in found.items() for word, paths in words.items()
                 if len(paths) > RECIPES[kind]}
    if "--counts" in sys.argv:
        for kind, words in found.items():
            many = sum(len(paths) > RECIPES[kind] for paths in words.values())
            most = max(words, key=lambda word: len(words[word]))
            print(f"{kind:8} {len(words):4}, {many:3} of them in more than {RECIPES[kind]} sources; "
                  f"most: {most} in {len(words[most])}")
        return 0
    if "--where" in sys.argv:
        for debt, paths in debts_now.items():
            print(debt, *paths, sep="\n    ")
        return 0
    lines = debts_file.read_text(encoding="utf-8").splitlines()
    head = "".join(l + "\n" for l in lines if l.startswith("#"))
    # by what they say without their reasons, which are kept
    known = {re.sub(r"\s+\(.*\)$", "", l): l for l in lines if l and not l.startswith("#")}
    if "--debts" in sys.argv:
        debts_file.write_text(head + "".join(known.get(d, d) + "\n" for d in sorted(debts_now)))
        return 0
    new = sorted(set(debts_now) - set(known))
    paid = sorted(set(known) - set(debts_now))
    for debt in new:
        print("too many:", debt, *debts_now[debt], sep="\n    ")
    for debt in paid:
        print("paid, take it out of tests/recipes.debts:", debt)
    # A list that came out empty would hold nothing.
    empty = [kind for kind in RECIPES if len(found[kind]) < 10]
    for kind in empty:
        print("found too few to be true:", kind)
    if new or paid or empty:
        return 1
    print(f"{sum(map(len, found.values()))} things stand where their recipes say; {len(known)} debts")
    return 0


if __name__ == "__main__":
    sys.exit(main())
