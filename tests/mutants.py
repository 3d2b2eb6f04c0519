"""Flips one sign, comparison or constant of the hydraulics at a time and asks whether a test notices.

    tests/mutants.py                          every flip of solver/hydraulics and solver/nodal
    tests/mutants.py --file friction.cpp      those of one file (may be given again)
    tests/mutants.py --share 1/10             one flip in ten, always the same ones
    tests/mutants.py --list                   the flips, without trying them

Each flip is made in a copy of the tree (.build/mutants), compiled, and met by the test programs,
cheapest first, until one fails. A program that does not end counts as having noticed. What came
out is kept in .build/mutants/results.tsv; a run that was stopped goes on where it was, a flip that
no test noticed is tried again once the sources or the tests have changed. After tests were taken
out, --fresh tries all again.

tests/mutants.known lists flips that no test can notice, each with its reason; they are not tried
(unless --known). The exit status is 1 when a flip survived that is not on that list.

Finding operators leans on clang-format: a binary operator has a space on both sides, a template's
bracket, a pointer's star and a minus sign have not.
"""
import argparse
import csv
import hashlib
import os
import pathlib
import re
import resource
import shutil
import signal
import subprocess
import sys
import threading
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent
WORK = ROOT / ".build" / "mutants"
KNOWN = ROOT / "tests" / "mutants.known"
FOLDERS = ["solver/hydraulics", "solver/nodal"]
# What the copied tree needs to build the test programs and to run them.
COPIED = ["CMakeLists.txt", "model", "solver", "render", "tests", "networks-demo"]
# Cheapest first; each meets the flips of the folders it can see that are still unnoticed.
PROGRAMS = {
    "hydraulics_test": ["solver/hydraulics"],
    "nodal_test": ["solver/nodal"],
    "solver_test": FOLDERS,
    "law_test": FOLDERS,
}
ENVIRONMENT = {**os.environ, "LEAT_FARMS": "300"}
MEMORY_BYTES = 4 << 30  # a flip may make a loop gather without end

# What stands in the source -> what a flip puts there.
BINARY = {
    "+": ["-"],
    "-": ["+"],
    "*": ["/"],
    "/": ["*"],
    "<": [">=", "<="],
    ">": ["<=", ">="],
    "<=": [">", "<"],
    ">=": ["<", ">"],
    "==": ["!="],
    "!=": ["=="],
    "&&": ["||"],
    "||": ["&&"],
    "+=": ["-="],
    "-=": ["+="],
}
WORDS = {
    "std::min": "std::max",
    "std::max": "std::min",
    "std::abs": "",
    "true": "false",
    "false": "true",
}
BINARY_PATTERN = re.compile(r"(?<=\s)(&&|\|\||[-+]=|[<>=!]=|[-+*/<>])(?=\s)")
SIGN_PATTERN = re.compile(r"(?<=[\s(\[{,])-(?=[\w(.])")
NOT_PATTERN = re.compile(r"(?<=[\s(\[{,!])!(?=[\w(])")
WORD_PATTERN = re.compile(r"(?<![\w:])(" + "|".join(WORDS) + r")(?!\w)")
NUMBER_PATTERN = re.compile(r"(?<![\w.])(\d+\.\d+(?:e[-+]?\d+)?|\d+e[-+]?\d+|\d+)(?![\w.'])")
# Comments, texts, characters, directives and template brackets hold nothing to flip.
PASSED_OVER = re.compile(
    r"//[^\n]*|/\*.*?\*/|\"(?:\\.|[^\"\\\n])*\"|'(?:\\.|[^'\\\n])'"
    r"|^[ \t]*#[^\n]*|\bstatic_assert\(.*?\);|\boperator\S+\(",
    re.DOTALL | re.MULTILINE,
)
TEMPLATE_BRACKET = re.compile(r"(?<=\w)<[\w:,& *]*>")


class Flip:
    """One change of one place of one file."""

    def __init__(self, file, text, start, end, new):
        self.file = file
        self.mutant = text[:start] + new + text[end:]
        line_start = text.rfind("\n", 0, start) + 1
        line_end = text.find("\n", end)
        self.number = text.count("\n", 0, start) + 1
        self.before = text[line_start:line_end].strip()
        self.after = (text[line_start:start] + new + text[end:line_end]).strip()
        self.outcome = "survived"  # so far
        self.nth = 1  # of the flips of the file that read the same

    @property
    def folder(self):
        return str(pathlib.PurePosixPath(self.file).parent)

    @property
    def key(self):
        return (self.file, self.before, self.after, self.nth)


def changed_number(written):
    """Another constant: one hundredth more, one more where it counts, one where it is zero."""
    if re.fullmatch(r"\d+", written):
        return str(int(written) + 1)
    return "1.0" if float(written) == 0.0 else f"({written} * 1.01)"


def flips_of(file, text):
    code = PASSED_OVER.sub(lambda match: re.sub(r"[^\n]", " ", match.group()), text)
    code = TEMPLATE_BRACKET.sub(lambda match: "_" * len(match.group()), code)
    found = []
    for match in BINARY_PATTERN.finditer(code):
        found += [(match.start(), match.end(), new) for new in BINARY[match.group()]]
    for pattern in (SIGN_PATTERN, NOT_PATTERN):
        found += [(match.start(), match.end(), "") for match in pattern.finditer(code)]
    for match in WORD_PATTERN.finditer(code):
        found.append((match.start(), match.end(), WORDS[match.group()]))
    for match in NUMBER_PATTERN.finditer(code):
        found.append((match.start(), match.end(), changed_number(match.group())))
    flips = [Flip(file, text, *place) for place in sorted(found)]
    seen = {}
    for flip in flips:
        reads = (flip.before, flip.after)
        flip.nth = seen[reads] = seen.get(reads, 0) + 1
    return flips


def read_known():
    """The flips of mutants.known: (file, before, after, nth of those that read so) -> reason."""
    known = {}
    file = before = ""
    waiting = []
    for line in KNOWN.read_text().splitlines() if KNOWN.exists() else []:
        mark, _, rest = line.partition(" ")
        if mark == "-":
            before = rest.strip()
        elif re.fullmatch(r"\+\d*", mark):
            waiting.append((file, before, rest.strip(), int(mark[1:] or 1)))
        elif mark == "why:":
            known.update({key: rest.strip() for key in waiting})
            waiting = []
        elif mark == "file:":
            file = rest.strip()
        elif mark and mark != "#":
            sys.exit(f"{KNOWN}: a line must start with file:, -, +, why: or #: {line}")
    if waiting:
        sys.exit(f"{KNOWN}: the last flips have no why:")
    return known


def sources_hash():
    digest = hashlib.sha256()
    for folder in ("model", "solver", "tests"):
        for path in sorted((ROOT / folder).rglob("*")):
            if path.suffix in (".cpp", ".h", ".yaml"):
                digest.update(path.read_bytes())
    return digest.hexdigest()[:16]


def copy_if_changed(source, target):
    """Copies a file or folder, touching only what differs, and removes what is no more there."""
    if source.is_dir():
        target.mkdir(parents=True, exist_ok=True)
        wanted = {child.name for child in source.iterdir()}
        for child in list(target.iterdir()):
            if child.name not in wanted:
                shutil.rmtree(child) if child.is_dir() else child.unlink()
        for child in source.iterdir():
            copy_if_changed(child, target / child.name)
    elif not target.exists() or target.read_bytes() != source.read_bytes():
        shutil.copyfile(source, target)


class Tree:
    """A copy of the sources with its own build."""

    def __init__(self, number):
        self.path = WORK / f"tree-{number}"
        self.build = self.path / ".build"
        self.path.mkdir(parents=True, exist_ok=True)
        for name in COPIED:
            copy_if_changed(ROOT / name, self.path / name)
        # As shared libraries the flipped folders are linked anew without the programs that use
        # them, which is most of the work of a flip; the great headers are read once, not each time.
        linked = "leat_room(solver nodal LIBRARIES Eigen3::Eigen)\n"
        self.rewrite("solver/CMakeLists.txt", linked, linked + "target_precompile_headers("
                     "solver_nodal PRIVATE <Eigen/SparseCholesky> <Eigen/SparseLU>)\n")
        self.environment = {
            **ENVIRONMENT,
            "CCACHE_BASEDIR": str(self.path),
            "CCACHE_NOHASHDIR": "1",
            "CCACHE_SLOPPINESS": "pch_defines,time_macros",
        }
        launcher = ["-DCMAKE_CXX_COMPILER_LAUNCHER=ccache"] if shutil.which("ccache") else []
        self.must_run(
            ["cmake", "-S", self.path, "-B", self.build, "-G", "Ninja", "-DLEAT_DEVELOPER=ON",
             "-DLEAT_SHARED_ROOMS=solver_nodal;solver_hydraulics",
             "-DCMAKE_BUILD_TYPE=Release", "-DCMAKE_LINK_DEPENDS_NO_SHARED=ON",
             "-DCMAKE_CXX_FLAGS_RELEASE=-O1 -w -D_GLIBCXX_ASSERTIONS", *launcher])

    def rewrite(self, name, before, after):
        text = (self.path / name).read_text()
        if before not in text:
            sys.exit(f"{name} holds no more: {before}")
        (self.path / name).write_text(text.replace(before, after))

    def build_command(self, program):
        return ["cmake", "--build", self.build, "-j", "1", "--target", program]

    def must_run(self, command):
        done = subprocess.run(command, cwd=self.path, env=self.environment,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
        if done.returncode != 0:
            sys.exit(done.stdout)

    def run_test(self, program, limit_s):
        """'' when the program is content, else why not."""
        def in_child():
            resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))
            resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        process = subprocess.Popen(
            [self.build / "tests" / program, "--abort"], cwd=self.path, env=self.environment,
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True,
            preexec_fn=in_child)
        try:
            return "" if process.wait(limit_s) == 0 else program
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, signal.SIGKILL)
            process.wait()
            return program + " (no end)"

    def prepare(self, program):
        """Builds a program on the sources as they are, which must pass; the seconds it takes."""
        self.must_run(self.build_command(program))
        start = time.monotonic()
        if self.run_test(program, 600):
            sys.exit(f"{program} fails on the sources as they are")
        return time.monotonic() - start

    def outcome(self, flip, program, limit_s):
        file = self.path / flip.file
        as_it_was = file.read_text()
        file.write_text(flip.mutant)
        try:
            built = subprocess.run(
                self.build_command(program), cwd=self.path, env=self.environment,
                stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
            if built.returncode != 0:
                # A build may end by starting a new program, to list its tests.
                if "Error running test executable" in built.stdout:
                    return "noticed", program + " (start)"
                return "no compile", ""
            noticed_by = self.run_test(program, limit_s)
            return ("noticed", noticed_by) if noticed_by else ("survived", "")
        finally:
            file.write_text(as_it_was)


class Results:
    """What came out, kept on disk after each flip so that a stopped run loses nothing."""

    FIELDS = ["file", "line", "before", "after", "nth", "outcome", "by", "file_hash", "sources_hash"]

    def __init__(self, fresh):
        self.path = WORK / "results.tsv"
        self.lock = threading.Lock()
        self.sources_hash = sources_hash()
        self.rows = {}  # key of the flip -> fields
        if self.path.exists() and not fresh:
            with self.path.open(newline="") as file:
                for row in csv.DictReader(file, delimiter="\t"):
                    key = (row["file"], row["before"], row["after"], int(row["nth"]))
                    self.rows[key] = row

    def holds(self, flip, file_hash):
        row = self.rows.get(flip.key)
        if row is None or row["file_hash"] != file_hash:
            return False
        return row["outcome"] != "survived" or row["sources_hash"] == self.sources_hash

    def put(self, flip, file_hash, outcome, by):
        values = [flip.file, flip.number, flip.before, flip.after, flip.nth, outcome, by,
                  file_hash, self.sources_hash]
        with self.lock:
            self.rows[flip.key] = dict(zip(self.FIELDS, values))
            whole = self.path.with_suffix(".new")  # a stop while writing must not cost the rest
            with whole.open("w", newline="") as file:
                writer = csv.DictWriter(file, self.FIELDS, delimiter="\t")
                writer.writeheader()
                writer.writerows(self.rows.values())
            whole.replace(self.path)


def arguments():
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--file", action="append", default=[],
                        help="only files whose path holds this")
    parser.add_argument("--share", default="1/1", help="1/10 tries every tenth flip")
    parser.add_argument("--jobs", type=int, default=1, help="trees worked in side by side")
    parser.add_argument("--list", action="store_true", help="print the flips and stop")
    parser.add_argument("--known", action="store_true", help="try the known survivors as well")
    parser.add_argument("--fresh", action="store_true", help="forget what earlier runs found")
    given = parser.parse_args()
    share = re.fullmatch(r"1/([1-9]\d*)", given.share)
    if not share:
        parser.error("--share is written 1/10")
    given.every = int(share.group(1))
    return given


def wanted_flips(given):
    texts = {}
    flips = []
    for folder in FOLDERS:
        for path in sorted((ROOT / folder).iterdir()):
            file = path.relative_to(ROOT).as_posix()
            if path.suffix in (".cpp", ".h") and (
                    not given.file or any(part in file for part in given.file)):
                texts[file] = path.read_text()
                flips += flips_of(file, texts[file])
    return flips[::given.every], texts


def try_all(flips, given, results, hashes):
    trees = [Tree(number) for number in range(given.jobs)]
    for program, folders in PROGRAMS.items():
        meeting = [flip for flip in flips if flip.folder in folders]
        if not meeting:
            continue
        usual_s = max(tree.prepare(program) for tree in trees)
        print(f"{len(meeting)} flips meet {program} ({usual_s:.1f} s)", flush=True)
        waiting = list(enumerate(meeting, 1))[::-1]

        def work(tree):
            while waiting:
                try:
                    count, flip = waiting.pop()
                except IndexError:
                    return
                start = time.monotonic()
                outcome, by = tree.outcome(flip, program, 10.0 * usual_s + 10.0)
                last = program == list(PROGRAMS)[-1]
                if outcome != "survived" or last:
                    results.put(flip, hashes[flip.file], outcome, by)
                flip.outcome = outcome
                print(f"{count}/{len(meeting)} {time.monotonic() - start:.1f} s {outcome} {by}: "
                      f"{flip.file}:{flip.number} {flip.after}", flush=True)

        threads = [threading.Thread(target=work, args=(tree,)) for tree in trees]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        flips = [flip for flip in flips if flip.outcome == "survived"]


def main():
    given = arguments()
    known = read_known()
    flips, texts = wanted_flips(given)
    if given.list:
        for flip in flips:
            mark = "  (known)" if flip.key in known else ""
            print(f"{flip.file}:{flip.number}{mark}\n  - {flip.before}\n  + {flip.after}")
        print(f"{len(flips)} flips")
        return 0
    WORK.mkdir(parents=True, exist_ok=True)
    results = Results(given.fresh)
    hashes = {file: hashlib.sha256(text.encode()).hexdigest()[:16] for file, text in texts.items()}
    to_try = [flip for flip in flips if given.known or flip.key not in known]
    undone = [flip for flip in to_try if not results.holds(flip, hashes[flip.file])]
    print(f"{len(flips)} flips, {len(flips) - len(to_try)} of them known to change no result, "
          f"{len(undone)} to try")
    if undone:
        try_all(undone, given, results, hashes)

    counts = {}
    new = []
    for flip in to_try:
        outcome = results.rows[flip.key]["outcome"]
        per_file = counts.setdefault(flip.file, {})
        per_file[outcome] = per_file.get(outcome, 0) + 1
        if outcome == "survived" and flip.key not in known:
            new.append(flip)
        if outcome != "survived" and flip.key in known:
            print(f"known, yet {outcome}: {flip.file}:{flip.number}\n  + {flip.after}")
    for flip in flips:
        if flip.key in known and flip not in to_try:
            per_file = counts.setdefault(flip.file, {})
            per_file["known"] = per_file.get("known", 0) + 1
    print(f"{'file':36}{'noticed':>10}{'no compile':>12}{'known':>8}{'survived':>10}")
    for file, per_file in sorted(counts.items()):
        print(f"{file:36}{per_file.get('noticed', 0):10}{per_file.get('no compile', 0):12}"
              f"{per_file.get('known', 0):8}{per_file.get('survived', 0):10}")
    if given.every == 1:
        there = {flip.key for flip in flips}
        for key in known:
            if key[0] in texts and key not in there:
                print(f"mutants.known names a flip that is no more: {key[0]}\n  - {key[1]}\n"
                      f"  + {key[2]}")
    for flip in new:
        print(f"survived: {flip.file}:{flip.number}\n  - {flip.before}\n  + {flip.after}")
    return 1 if new else 0


sys.exit(main())
