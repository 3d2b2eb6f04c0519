"""Two runs of any command give the same bytes, in whatever locale: every demo farm, every command.
The second run is in a locale with a decimal comma, put into force before main begins.
Usage: same_bytes_test.py LEAT FAULT_LIBRARY
LEAT_FIRE=all runs every command on every farm; else the slow ones run on a few farms.
"""

import concurrent.futures
import locale
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

import fire
from fire import DEMO, FAULT, hold, names_in, run

ALL = os.environ.get("LEAT_FIRE") == "all"
WEEK = ["--from", "2026-07-01", "--to", "2026-07-07"]
YEAR = ["--from", "2026-01-01", "--to", "2026-12-31"]
# FARM and OUT stand for the files; the second word says how many farms are enough for ./check.
COMMANDS = [
    (["read", "FARM"], 99), (["read", "FARM", "--json"], 99), (["read", "FARM", "--csv"], 3),
    (["solve", "FARM", "--verbose", "--audit"], 99), (["solve", "FARM", "--json"], 99),
    (["solve", "FARM", "--csv=pipes"], 99), (["solve", "FARM", "--case", "wide"], 99),
    (["solve", "FARM", "--case", "static", "--csv"], 3), (["solve", "FARM", "--csv=flags"], 3),
    (["solve", "FARM", "--spread", "60", "--json"], 4), (["solve", "FARM", "--units", "US"], 4),
    (["draw", "FARM", "-o", "OUT.svg"], 3), (["draw", "FARM", "-o", "OUT.dot", "--json"], 99),
    (["draw", "FARM", "-o", "OUT.png"], 2), (["draw", "FARM", "-o", "OUT.pdf"], 2),
    (["draw", "FARM", "-o", "OUT.svg", "--by-position"], 2),
    (["profile", "FARM"], 99), (["profile", "FARM", "--json"], 99),
    (["profile", "FARM", "-o", "OUT.svg"], 3), (["profile", "FARM", "-o", "OUT.png"], 2),
    (["profile", "FARM", "-o", "OUT.pdf"], 2), (["profile", "FARM", "--csv"], 3),
    (["prime", "FARM"], 99), (["prime", "FARM", "--json"], 3),
    (["season", "FARM", *WEEK], 4), (["season", "FARM", *WEEK, "--json"], 4),
    (["season", "FARM", *WEEK, "--csv=levels"], 2), (["season", "FARM", *WEEK, "-o", "OUT.svg"], 2),
    (["season", "FARM", *YEAR, "-o", "OUT.pdf"], 0), (["improve", "FARM"], 3),
    (["improve", "FARM", "--json"], 0), (["size", "FARM"], 2),
    (["size", "FARM", "--write", "OUT.yaml"], 2), (["fit", "FARM"], 2),
    (["fit", "FARM", "--json"], 0), (["fit", "FARM", "--write", "OUT.yaml"], 2),
    (["map", "FARM", "-o", "OUT.geojson"], 2), (["report", "FARM", "-o", "OUT.html", *WEEK], 1),
    (["compare", "FARM", str(DEMO / "01-over-the-rise.yaml"), *WEEK], 2),
]
ONCE = [["pipes"], ["pipes", "--json"], ["fittings"], ["fittings", "--csv"], ["herd"],
        ["herd", "--units", "US"], ["new"], ["--help"], ["--version"], ["solve", "--help"]]
# Farms that have something to say to a command that most farms refuse.
BEST = {"size": "20-", "fit": "19-", "map": "22-", "season": "23-", "improve": "21-",
        "profile": "01-", "prime": "01-"}


def everything(words, env):
    """Exit status, both streams and every file of one run."""
    with fire.folder() as here:
        asked = [word.replace("OUT", str(here / "out")) if word.startswith("OUT") else word
                 for word in words]
        ran = run(asked, env)
        name = str(here).encode()
        files = {entry: (here / entry).read_bytes() for entry in names_in(here)}
        for entry, text in files.items():
            if entry.endswith(".pdf"):
                files[entry] = fire.without_dates(text)
        return (ran.returncode, ran.stdout.replace(name, b"HERE"),
                ran.stderr.replace(name, b"HERE"), files)


def comma_locale(folder):
    """The environment of a locale with a decimal comma; none where it cannot be made."""
    made = pathlib.Path(folder) / "de_DE.UTF-8"
    if not shutil.which("localedef") or subprocess.run(
            ["localedef", "-i", "de_DE", "-f", "UTF-8", str(made)], stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL, check=False).returncode not in (0, 1) or not made.is_dir():
        return None
    env = {"LOCPATH": str(folder), "LC_ALL": "de_DE.UTF-8", "LANG": "de_DE.UTF-8"}
    told = subprocess.run([sys.executable, "-c", "import locale; "
                           "locale.setlocale(locale.LC_ALL, ''); "
                           "print(locale.localeconv()['decimal_point'])"],
                          env={**os.environ, **env}, stdout=subprocess.PIPE, check=True)
    hold(told.stdout.strip() == b",", "the locale made has no decimal comma")
    return {**env, "LD_PRELOAD": FAULT, "LEAT_LOCALE": "1"}


def jobs():
    farms = sorted(DEMO.glob("*.yaml"))
    for words, enough in COMMANDS:
        best = BEST.get(words[0], "02-")
        ranked = sorted(farms, key=lambda farm: not farm.name.startswith(best))
        for farm in ranked if ALL else ranked[:enough]:
            yield [str(farm) if word == "FARM" else word for word in words]
    yield from ONCE


def two_runs_give_the_same_bytes():
    """Two runs of a command give the same bytes, a decimal comma in force or not."""
    with tempfile.TemporaryDirectory() as folder:
        comma = comma_locale(folder)
        count = 0
        written = 0
        complaints = []

        def compare(words):
            plain = everything(words, {"LC_ALL": "C.UTF-8"})
            return words, plain, everything(words, comma or {"LC_ALL": "C.UTF-8"})

        with concurrent.futures.ThreadPoolExecutor(os.cpu_count() or 1) as pool:
            for words, one, other in pool.map(compare, jobs()):
                count += 1
                written += bool(one[3])
                for what, first, second in zip(("exit status", "stdout", "stderr", "files"),
                                               one, other):
                    if first != second:
                        complaints.append(f"{' '.join(words)}: {what} differs:\n"
                                          f"  {str(first)[:600]}\n  {str(second)[:600]}")
                if one[0] not in (0, 1, 2):
                    complaints.append(f"{words}: exit {one[0]}")
        hold(not complaints, "\n".join(complaints[:5]))
        hold(count > 200 and written > 20, f"only {count} commands, {written} wrote")
        return f"{count} commands, {written} of them wrote files" + (
            "" if comma else "; no locale with a comma could be made")


if __name__ == "__main__":
    locale.setlocale(locale.LC_ALL, "C")
    sys.exit(fire.run_tests([two_runs_give_the_same_bytes]))
