"""What the tests under fire share: the program, its commands that write, folders, complaints."""

import contextlib
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import traceback

ROOT = pathlib.Path(__file__).resolve().parents[2]
DEMO = ROOT / "networks-demo"
LEAT = os.path.realpath(sys.argv[1])
FAULT = os.path.realpath(sys.argv[2])  # the library of fault.cpp
LONGEST_S = 240

# Every command that writes, by name: the words before and after OUT, and OUT's name.
WRITERS = {
    "draw": (["draw", DEMO / "02-high-trough.yaml", "-o"], "out.svg", []),
    "draw pdf": (["draw", DEMO / "02-high-trough.yaml", "-o"], "out.pdf", []),
    "draw dot": (["draw", DEMO / "02-high-trough.yaml", "-o"], "out.dot", []),
    "profile": (["profile", DEMO / "01-over-the-rise.yaml", "-o"], "out.svg", []),
    "season": (["season", DEMO / "02-high-trough.yaml", "-o"], "out.svg",
               ["--from", "2026-07-01", "--to", "2026-07-07"]),
    "map": (["map", DEMO / "22-farm-on-the-map.yaml", "-o"], "out.geojson", []),
    "report": (["report", DEMO / "02-high-trough.yaml", "-o"], "out.html",
               ["--chapters", "farm,water"]),
    "size": (["size", DEMO / "20-which-pipe.yaml", "--write"], "out.yaml", []),
    "fit": (["fit", DEMO / "19-weak-line.yaml", "--write"], "out.yaml", []),
    "new": (["new"], "out.yaml", []),
}


def words_of(name, out):
    """The arguments of one of WRITERS for the file `out`."""
    before, _, after = WRITERS[name]
    return [*map(str, before), str(out), *after]


def out_of(name, folder):
    return pathlib.Path(folder) / WRITERS[name][1]


def run(words, env=None, stdout=subprocess.PIPE, **more):
    """leat with these arguments; its texts are bytes."""
    told = {**os.environ, "SOURCE_DATE_EPOCH": "1750000000", **(env or {})}
    return subprocess.run([LEAT, *map(str, words)], env=told, stdin=subprocess.DEVNULL,
                          stdout=stdout, stderr=subprocess.PIPE, timeout=LONGEST_S,
                          check=False, **more)


def faulty(fault):
    """The environment in which a call of the system goes wrong."""
    return {"LD_PRELOAD": FAULT, "LEAT_FAULT": fault}


@contextlib.contextmanager
def folder():
    """A folder of its own, gone afterwards. Others may look into it: some tests are others."""
    path = pathlib.Path(tempfile.mkdtemp(prefix="leat-fire-"))
    path.chmod(0o755)
    try:
        yield path
    finally:
        shutil.rmtree(path, ignore_errors=True)


def names_in(path):
    return sorted(entry.name for entry in pathlib.Path(path).iterdir())


def without_dates(text):
    """A PDF less its dates and ids, which tell when it was made; all else as it is."""
    text = re.sub(rb"/(CreationDate|ModDate) *\([^)]*\)", b"", text)
    text = re.sub(rb"/ID *\[[^\]]*\]", b"", text)
    return re.sub(rb"<xmp:(CreateDate|ModifyDate|MetadataDate)>[^<]*<", b"<", text)


class Complaint(Exception):
    """Something is not as it should be."""


def hold(is_so, what, ran=None):
    """Raises unless it is so."""
    if not is_so:
        told = ""
        if ran is not None:
            told = f"\n  exit {ran.returncode}\n  stderr: {ran.stderr!r}\n  stdout: {ran.stdout!r}"
        raise Complaint(what + told[:3000])


def run_tests(tests):
    """Runs every test and tells which failed; the process's exit status."""
    failed = 0
    for test in tests:
        sentence = " ".join(test.__doc__.split())
        try:
            told = test()
            print(f"ok      {sentence}{f' ({told})' if told else ''}", flush=True)
        except Exception as fault:  # pylint: disable=broad-except
            failed += 1
            print(f"FAILED  {sentence}", flush=True)
            if isinstance(fault, Complaint):
                print(f"  {fault}", flush=True)
            else:
                traceback.print_exc(file=sys.stdout)
    return 1 if failed else 0
