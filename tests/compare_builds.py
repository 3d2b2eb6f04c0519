"""Every command on every demo and test farm by two builds of leat: what differs, and nothing else.

Usage: compare_builds.py OLD_LEAT NEW_LEAT [--quick] [WORD ...]   WORD: commands with these words only
The old build gets the old build's farms: run it from a tree in which both read the same files.
JSON may gain keys; a key lost, renamed or changed is told. Exit status 1 where anything differs.
Not part of ./check: it needs a build of an earlier commit.
"""
import concurrent.futures
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[1]
FARMS = sorted([*ROOT.glob("networks-demo/*.yaml"), *ROOT.glob("tests/farms/*.yaml")])
BROKEN = sorted(ROOT.glob("tests/broken-farms/*.yaml"))
WEEK = ["--from", "2026-07-01", "--to", "2026-07-07"]
UNITS = [["--units", "SI"], ["--units", "US"]]
FORMS = {
    "read": [[], ["--json"], ["--csv"]],
    "solve": [[], ["--verbose", "--audit"], ["--json"], ["--csv"], ["--csv=pipes"], ["--csv=flags"],
              ["--case", "wide"], ["--case", "static"], ["--case", "wide", "--json"], ["--month", "Aug"],
              ["--spread", "60"], ["--spread", "60", "--json"], ["--spread", "60", "--csv"]],
    "draw": [["-o", "OUT.dot"], ["-o", "OUT.svg"], ["-o", "OUT.svg", "--by-position"]],
    "profile": [[], ["--json"], ["--csv"], ["-o", "OUT.svg"]],
    "prime": [[], ["--json"], ["--fill", "2 gal/min"]],
    "season": [WEEK, [*WEEK, "--json"], *([*WEEK, f"--csv={table}"] for table in
               ("troughs", "tanks", "ponds", "levels", "balance")), [*WEEK, "-o", "OUT.svg"],
               ["--from", "2026-01-01", "--to", "2026-12-31", "--json"],
               ["--from", "2026-01-01", "--to", "2026-12-31"],
               [*WEEK, "--spread", "10"], [*WEEK, "--spread", "10", "--json"]],
    "improve": [[], ["--json"], ["--csv"]],
    "size": [[], ["--json"], ["--csv"], ["--write", "OUT.yaml"]],
    "fit": [[], ["--json"], ["--csv"], ["--write", "OUT.yaml"]],
    "map": [["-o", "OUT.geojson"]],
    "report": [["-o", "OUT.html", *WEEK]],
    "compare": [[str(FARMS[0]), *WEEK], [str(FARMS[0]), *WEEK, "--json"], [str(FARMS[0]), *WEEK, "--csv"]],
}
SLOW = {"improve", "size", "fit", "report"}
ONCE = [[c, *f] for c in ("pipes", "fittings", "herd") for f in ([], ["--json"], ["--csv"])] + \
       [["new"], ["--help"], ["--manual"], ["--completion", "bash"], ["--completion", "zsh"]] + \
       [[c, "--help"] for c in ("new", "read", "solve", "draw", "profile", "prime", "season", "compare",
                                "try", "improve", "size", "fit", "map", "report", "pipes", "fittings", "herd")]


def runs(quick):
    yield from ONCE
    for farm in FARMS:
        for command, forms in FORMS.items():
            if quick and command in SLOW:
                continue
            for form in forms:
                for units in UNITS[:1] if quick or "--json" in form else UNITS:
                    takes_units = command not in ("map",) and not any(f.startswith("--csv") for f in form)
                    yield [command, str(farm), *form, *(units if takes_units else [])]
    for farm in BROKEN:
        yield ["solve", str(farm)]
        if not quick:
            yield ["season", str(farm), "--json"]


def told(leat, words):
    with tempfile.TemporaryDirectory() as here:
        asked = [w.replace("OUT", here + "/out") if w.startswith("OUT.") else w for w in words]
        ran = subprocess.run([leat, *asked], env={**os.environ, "SOURCE_DATE_EPOCH": "1750000000"},
                             stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                             timeout=600, check=False)
        files = b"".join(f.read_bytes() for f in sorted(pathlib.Path(here).iterdir()) if f.is_file())
        return ran.returncode, *(re.sub(re.escape(here).encode(), b"HERE", part)
                                 for part in (ran.stdout, ran.stderr, files))


def lost(old, new, where=""):
    """What of the old JSON the new one lacks or tells otherwise."""
    if isinstance(old, dict) and isinstance(new, dict):
        for key, value in old.items():
            if key not in new:
                yield f"{where}.{key} is gone"
            else:
                yield from lost(value, new[key], f"{where}.{key}")
    elif isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        for i, (a, b) in enumerate(zip(old, new)):
            yield from lost(a, b, f"{where}[{i}]")
    elif old != new or type(old) is not type(new):
        yield f"{where}: {json.dumps(old)[:120]} is now {json.dumps(new)[:120]}"


def difference(words, old, new):
    if old == new:
        return []
    if old[0] != new[0]:
        return [f"exit status {old[0]} is now {new[0]}: {new[2].decode(errors='replace')[:300]}"]
    out = []
    for name, a, b in zip(("stdout", "stderr", "files"), old[1:], new[1:]):
        if a == b:
            continue
        try:
            before, after = json.loads(a), json.loads(b)
        except ValueError:
            lines = list(zip(a.decode(errors="replace").splitlines(), b.decode(errors="replace").splitlines()))
            first = next((i for i, (x, y) in enumerate(lines) if x != y), len(lines))
            out.append(f"{name} line {first + 1}:" + "".join(
                f"\n    {sign} {text.decode(errors='replace').splitlines()[first][:160]}"
                for sign, text in (("-", a), ("+", b))
                if len(text.decode(errors="replace").splitlines()) > first))
            continue
        out += list(lost(before, after))[:5]
    return out


def main():
    options = [w for w in sys.argv[3:] if w.startswith("--")]
    only = [w for w in sys.argv[3:] if not w.startswith("--")]
    asked = [w for w in runs("--quick" in options) if not only or any(o in w for o in only)]

    def both(words):
        try:
            return words, difference(words, told(sys.argv[1], words), told(sys.argv[2], words))
        except subprocess.TimeoutExpired:
            return words, ["took more than 600 s"]

    count = 0
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        for words, found in pool.map(both, asked):
            if found:
                count += 1
                print("leat", *(w.replace(str(ROOT) + "/", "") for w in words))
                for each in found:
                    print("   ", each)
    print(f"{len(asked)} runs, {count} differ")
    return 1 if count else 0


if __name__ == "__main__":
    sys.exit(main())
