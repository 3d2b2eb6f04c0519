"""Reads every include and holds the rooms of leat against their rules; draws their arrows.

Usage: rooms.py SOURCE_DIR            fails where a rule is broken that rooms.debts does not list, or
                                      where a debt it lists is paid
       rooms.py SOURCE_DIR --debts    writes rooms.debts anew
       rooms.py SOURCE_DIR --counts   files and lines by room, long functions
LEAT_REFRESH=1 draws the rooms with their rules and arrows into DEVELOPERS.md anew.
"""
import collections
import os
import pathlib
import re
import sys

FLOORS = ("model", "solver", "render")
# Each room may include itself and what is listed. "model" stands for all rooms of that floor, "^" for
# all rooms listed before this one on its own floor: the order of this table is the order of the house.
ARROWS = {
    "model/text": [],
    "model/quantity": ["model/text"],
    "model/farm": ["model/quantity", "model/text/source_position.h"],
    "model/catalogue": ["model/farm", "model/quantity", "model/text"],
    "model/keys": ["^"],
    "model/edit": ["^"],
    "solver/hydraulics": ["model/quantity"],
    "solver/hydrology": ["model/quantity"],
    "solver/nodal": [],
    "solver/answer": ["model/farm", "model/quantity", "model/text", "solver/nodal"],
    "solver/network": ["model", "^"],
    "solver/flow": ["model", "^"],
    "solver/findings": ["model", "^"],
    "solver/steady": ["model", "^"],
    "solver/day": ["model", "solver/hydrology", "solver/answer", "solver/network"],
    "solver/season": ["model", "^"],
    "solver/uncertainty": ["model", "^"],
    "solver/prime": ["model", "^"],
    "solver/profile": ["model", "^"],
    "solver/fit": ["model", "^"],
    "solver/improve": ["model", "^", "solver/compare"],
    "solver/size": ["model", "^"],
    "solver/compare": ["model", "solver/answer", "solver/flow", "solver/findings", "solver/steady",
                       "solver/season", "solver/prime"],
    # The audit must not lean on what it audits: it knows the farm and the printed answer, no law.
    "solver/audit": ["model", "solver/answer", "solver/network/pipe_geometry.h"],
    "render/io": ["model"],
    "render/words": ["model", "solver"],
    "render/document": ["model", "solver/answer", "render/words"],
    "render/pictures": ["model", "solver", "render/io", "render/words", "render/document"],
    "render/page": ["model", "solver", "render/words", "render/document", "render/pictures"],
    "render/commands": ["model", "solver", "^"],
    "render/cli": ["model", "render/commands", "render/document", "render/io", "render/words"],
}
# third-party and system headers: only these rooms or files may include them
ONLY = {
    "yaml-cpp/": ["model/text/yaml_tree.cpp"],
    "Eigen/": ["solver/nodal/linear_step.cpp"],
    "graphviz/": ["render/pictures/schematic/"],
    "httplib.h": ["render/commands/try/page_server.cpp"],
    "kainjow/": ["render/document/"],
    "glpk.h": ["solver/size/linear_program.cpp"],
    "fontconfig/": ["render/io/fonts.cpp"],
    "nlohmann/": ["render/document/", "render/commands/", "render/page/", "render/cli/"],
    "CLI/": ["render/cli/parse.cpp"],
    "fmt/": ["model/", "render/"],
    # The operating system: in model the loader's files alone, in solver the threads of its studies.
    "thread": ["render/io/", "solver/uncertainty/on_all_cores.cpp"],
    "mutex": ["render/io/", "solver/uncertainty/on_all_cores.cpp", "solver/size/linear_program.cpp"],
    "atomic": ["render/io/", "solver/uncertainty/on_all_cores.cpp"],
    "chrono": ["render/io/"],
    "ctime": ["render/io/"],
    "csignal": ["render/io/"],
    "fstream": ["render/io/", "model/text/file_text.cpp"],
    "filesystem": ["render/io/", "model/text/", "model/keys/beside_file"],
    "spawn.h": ["render/io/"],
    "unistd.h": ["render/io/"],
    "poll.h": ["render/io/"],
    "fcntl.h": ["render/io/"],
    "sys/": ["render/io/"],
}
KINDS = "Spring|Creek|Pond|Tank|Trough|Outlet|Tee"
KIND_FILES = 20   # files outside keys and audit that may ask a place for its kind
LONGEST = 60      # lines of a function
RULE = re.compile(r"^// Room: (.+)$")


def room_of(path):
    """The room a file lies in: its floor and folder. A command's folder is part of commands."""
    return "/".join(path.split("/")[:2])


def may_include(room, header):
    rooms = list(ARROWS)
    allowed = [room]
    for arrow in ARROWS[room]:
        if arrow == "^":
            floor = room.split("/")[0]
            allowed += [r for r in rooms[: rooms.index(room)] if r.startswith(floor + "/")]
        else:
            allowed.append(arrow)
    return any(header == a or header.startswith(a + "/") for a in allowed)


class House:
    def __init__(self, root):
        self.root = root
        self.texts = {}
        self.faults = []
        self.arrows = collections.defaultdict(collections.Counter)
        for floor in FLOORS:
            for file in sorted((root / floor).rglob("*")):
                if file.suffix in (".h", ".cpp"):
                    self.texts[file.relative_to(root).as_posix()] = file.read_text(encoding="utf-8")
        self.rooms = sorted({room_of(p) for p in self.texts if p.count("/") > 1},
                            key=lambda r: list(ARROWS).index(r) if r in ARROWS else 99)

    def fault(self, rule, where, what):
        self.faults.append(f"{rule}: {where}: {what}")

    def read_includes(self):
        """Every include against the arrows, and the circles of rooms that remain."""
        self.seen = 0
        for path, text in self.texts.items():
            room = room_of(path)
            if path.count("/") < 2 or room not in ARROWS:
                self.fault("room", path, "lies in no room")
                continue
            for match in re.finditer(r'^\s*#include\s+(["<])([^">]+)[">]', text, re.M):
                quote, header = match.groups()
                self.seen += 1
                if quote == '"' and "/" in header:
                    if room_of(header) != room:
                        self.arrows[room][room_of(header)] += 1
                    if not may_include(room, header):
                        self.fault("arrow", path, header)
                for library, allowed in ONLY.items():
                    ours = header == library or (library.endswith("/") and header.startswith(library))
                    if ours and not any(path.startswith(a) for a in allowed):
                        self.fault("library", path, header)

    def find_circles(self):
        for start in self.rooms:
            for room in sorted(self.arrows[start]):
                if room > start and start in self.reach(room):
                    self.fault("circle", start, room)

    def reach(self, start):
        reached, open_rooms = set(), [start]
        while open_rooms:
            for room in self.arrows[open_rooms.pop()]:
                if room not in reached:
                    reached.add(room)
                    open_rooms.append(room)
        return reached

    def read_rules(self):
        """Each room says its rule once: a line `// Room: ...` at the head of one of its headers."""
        self.rules = {}
        for path, text in self.texts.items():
            for line in text.splitlines()[:6]:
                match = RULE.match(line)
                if match and path.endswith(".h"):
                    if room_of(path) in self.rules:
                        self.fault("rule", path, "its room says its rule twice")
                    self.rules[room_of(path)] = match.group(1)
        for room in self.rooms:
            if room not in self.rules:
                self.fault("rule", room, "no header says the room's rule")

    def read_sources(self):
        """What the sources of one floor or room must not hold."""
        kinds = re.compile(rf"(?:get_if|holds_alternative|std::get)<(?:model::)?(?:{KINDS})>")
        asking = []
        for path, text in self.texts.items():
            if path.startswith("solver/") and "UnitSystem" in text:
                self.fault("units", path, "the solver knows no system of units")
            if kinds.search(text) and room_of(path) not in ("model/keys", "solver/audit"):
                asking.append(path)
            for name, lines in long_functions(text):
                self.fault("length", path, f"{name} is longer than {LONGEST} lines")
        if len(asking) > KIND_FILES:
            for path in asking:
                self.fault("kind", path, "asks a place for its kind")
        self.asking = asking

    def hold(self):
        self.read_includes()
        self.find_circles()
        self.read_rules()
        self.read_sources()
        return sorted(set(self.faults))


def long_functions(text):
    """Names and lengths of functions longer than LONGEST: from a line that opens a body to its end."""
    lines = text.split("\n")
    i = 0
    while i < len(lines):
        indent = re.match(r"^( {0,1}| {2})([A-Za-z_~\[].*)?$", lines[i])
        opens = lines[i].rstrip().endswith("{") and "(" in lines[i] or lines[i].strip().endswith(") {")
        if opens and not re.match(r"\s*(if|for|while|switch|namespace|struct|class|enum|else|\})", lines[i]):
            first = i
            is_lambda = re.search(r"\[[^\]]*\]\s*\(", lines[i])
            while not is_lambda and first > 0 and len(lines[first]) - len(lines[first].lstrip()) > 2:
                first -= 1
            depth = 0
            for j in range(i, len(lines)):
                code = re.sub(r'"(\\.|[^"\\])*"|\'(\\.|[^\'\\])\'|//.*', "", lines[j])
                depth = 1 if j == i else depth + code.count("{") - code.count("}")
                if depth <= 0:
                    if j - first > LONGEST:
                        name = re.search(r"([\w:~]+)\s*\(", lines[first])
                        yield (name.group(1) if name else lines[first].strip()), j - first + 1
                    break
            # bodies inside are read too
        i += 1


def counts(house):
    print(f"{'room':26} {'files':>5} {'lines':>6}")
    total = [0, 0]
    for room in house.rooms:
        own = {p: t for p, t in house.texts.items() if room_of(p) == room}
        lines = sum(t.count("\n") for t in own.values())
        total[0] += len(own)
        total[1] += lines
        print(f"{room:26} {len(own):5} {lines:6}")
    print(f"{'all':26} {total[0]:5} {total[1]:6}")
    print(f"files that ask a place for its kind, outside keys and audit: {len(house.asking)}")


def picture(house):
    """The rooms as DEVELOPERS.md shows them: a floor a table, a line a room: its rule, and the rooms it includes."""
    out = []
    for floor in reversed(FLOORS):
        out += ["", f"**{floor}**", "", "| room | its rule | stands on |", "|---|---|---|"]
        for room in reversed([r for r in house.rooms if r.startswith(floor + "/")]):
            below = [r for r in house.rooms if r in house.arrows[room]]
            own = [r.split("/")[1] for r in below if r.startswith(floor + "/")]
            floors = [f for f in FLOORS if f != floor and any(r.startswith(f + "/") for r in below)]
            out.append(f"| `{room.split('/')[1]}` | {house.rules.get(room, '')} | {', '.join(own + floors)} |")
    return "\n".join(out) + "\n"


def hold_picture(house, document):
    """Whether DEVELOPERS.md shows the rooms as they are; draws them anew where asked to."""
    text = document.read_text(encoding="utf-8")
    head, rest = text.split("<!-- rooms -->\n", 1)
    tail = rest.split("<!-- /rooms -->", 1)[1]
    drawn = f"{head}<!-- rooms -->\n{picture(house)}<!-- /rooms -->{tail}"
    if drawn != text and os.environ.get("LEAT_REFRESH"):
        document.write_text(drawn, encoding="utf-8")
    elif drawn != text:
        house.fault("picture", "DEVELOPERS.md", "shows other rooms or arrows: LEAT_REFRESH=1 draws them anew")


def main():
    root = pathlib.Path(sys.argv[1])
    debts_file = pathlib.Path(__file__).with_name("rooms.debts")
    house = House(root)
    faults = house.hold()
    hold_picture(house, root / "DEVELOPERS.md")
    faults = sorted(set(house.faults))
    if "--counts" in sys.argv:
        counts(house)
        return 0
    head = "".join(l for l in debts_file.read_text().splitlines(True) if l.startswith("#"))
    if "--debts" in sys.argv:
        debts_file.write_text(head + "".join(f + "\n" for f in faults))
        return 0
    debts = [l for l in debts_file.read_text().splitlines() if l and not l.startswith("#")]
    known = {re.sub(r"\s+\(.*\)$", "", d) for d in debts}
    new = [f for f in faults if f not in known]
    paid = sorted(known - set(faults))
    for fault in new:
        print("broken:", fault)
    for debt in paid:
        print("paid, take it out of tests/rooms.debts:", debt)
    if not new and not paid:
        print(f"{house.seen} includes follow the arrows of {len(house.rooms)} rooms; {len(debts)} debts")
    return 1 if new or paid or house.seen < 100 else 0


if __name__ == "__main__":
    sys.exit(main())
