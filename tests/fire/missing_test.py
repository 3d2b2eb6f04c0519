"""What leat may have to do without: gnuplot, Chromium, a browser, fonts, somebody who reads.
Usage: missing_test.py LEAT FAULT_LIBRARY
"""

import os
import subprocess
import sys

import fire
from fire import DEMO, LEAT, folder, hold, names_in, out_of, run, words_of

NOTHING = {"PATH": "/nowhere"}


def without_gnuplot():
    """Without gnuplot a picture is refused with what to install, no file is left, and the table is
    printed all the same."""
    for name in ("profile", "season"):
        with folder() as here:
            out = out_of(name, here)
            ran = run(words_of(name, out), NOTHING)
            hold(ran.returncode == 2, f"{name}: not exit 2", ran)
            hold(b"gnuplot" in ran.stderr and b"gnuplot-nox" in ran.stderr, "not told", ran)
            hold(ran.stdout != b"", f"{name}: no table", ran)
            hold(names_in(here) == [], f"{name}: left {names_in(here)}")


def without_chromium():
    """Without Chromium a report is written, its PDF is not, and how to print it is told."""
    with folder() as here:
        ran = run([*words_of("report", here / "out.html"), "--pdf"], NOTHING)
        hold(ran.returncode == 2, "not exit 2", ran)
        hold(b"Chromium" in ran.stderr and b"print it from there" in ran.stderr, "not told", ran)
        hold(names_in(here) == ["out.html"], f"left {names_in(here)}")


def a_report_without_gnuplot():
    """Without gnuplot a report is written with the reason where its pictures would stand."""
    with folder() as here:
        out = here / "out.html"
        ran = run(["report", DEMO / "01-over-the-rise.yaml", "-o", out, "--chapters", "profiles"],
                  NOTHING)
        hold(out.is_file(), "no report", ran)
        hold("gnuplot" in out.read_text(), "no reason in it")


def without_programs():
    """With no other program on the machine, all else works and gives the same."""
    farm = DEMO / "02-high-trough.yaml"
    for words in (["solve", farm], ["draw", farm, "-o", "-"], ["read", farm], ["prime", farm],
                  ["map", DEMO / "22-farm-on-the-map.yaml", "-o", "-"],
                  ["season", farm, "--from", "2026-07-01", "--to", "2026-07-03"]):
        with_all = run(words)
        without = run(words, NOTHING)
        hold(with_all.returncode == without.returncode and with_all.stdout == without.stdout,
             f"{words} differs", without)


def without_fonts():
    """Without a single font SVG is drawn, PNG and PDF are refused with what to install, and nothing
    but leat's own words stands on stderr."""
    with folder() as here:
        empty = here / "fonts.conf"
        empty.write_text('<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">'
                         "<fontconfig></fontconfig>")
        env = {"FONTCONFIG_FILE": str(empty), "XDG_CACHE_HOME": str(here), "HOME": str(here)}
        for name, ending in (("draw", "svg"), ("draw", "png"), ("draw", "pdf"), ("draw", "dot"),
                             ("profile", "svg"), ("profile", "png"), ("season", "pdf"),
                             ("report", "html")):
            out = here / f"out.{ending}"
            out.unlink(missing_ok=True)
            ran = run(words_of(name, out), env)
            if ending in ("png", "pdf"):
                hold(ran.returncode == 2 and b"there is no font" in ran.stderr
                     and b"fonts-dejavu-core" in ran.stderr and not out.exists(),
                     f"{name} {ending}: not refused", ran)
            else:
                hold(ran.returncode in (0, 1) and out.is_file(), f"{name} {ending}: not drawn", ran)
            for line in ran.stderr.decode().splitlines():
                hold("WARNING" not in line and "Fontconfig" not in line and "Pango" not in line
                     and "** " not in line, f"{name} {ending}: strange words", ran)


def a_reader_that_stops():
    """A reader that stops early (leat ... | head) is no failure, says nothing, and OUT is whole."""
    farm = DEMO / "05-tangle.yaml"
    with folder() as here:
        lines = [["solve", farm], ["solve", farm, "--json"], ["read", farm, "--csv"], ["pipes"],
                 ["herd"], ["draw", farm, "-o", "-"], ["report", farm, "-o", "-"], ["new"],
                 ["season", farm, "--csv", "--from", "2026-07-01", "--to", "2026-07-09"],
                 ["draw", farm, "-o", here / "out.svg", "--json"],
                 ["prime", DEMO / "01-over-the-rise.yaml"], ["fit", DEMO / "19-weak-line.yaml"],
                 ["size", DEMO / "20-which-pipe.yaml", "--write", here / "out.yaml"]]
        for words in lines:
            reading, writing = os.pipe()
            os.close(reading)  # the reader is gone before a word is written
            with os.fdopen(writing, "wb") as gone:
                ran = run(words, stdout=gone)
            hold(ran.returncode == 0, f"{words}: {ran.returncode}", ran)
            hold(b"written" not in ran.stderr and b"ipe" not in ran.stderr.replace(b"pipe ", b""),
                 f"{words}: complains", ran)
        hold((here / "out.svg").read_text().rstrip().endswith("</svg>"), "half a drawing")
        hold(b"pipes:" in (here / "out.yaml").read_bytes(), "half a farm")
        # Closed in the middle: what is larger than the pipe holds.
        told = subprocess.run(["bash", "-c", f'"$0" pipes --json | head -1 | wc -l; '
                               'echo ${PIPESTATUS[0]}', LEAT], stdout=subprocess.PIPE,
                              stderr=subprocess.PIPE, timeout=fire.LONGEST_S, check=False)
        hold(told.stdout.split() == [b"1", b"0"] and told.stderr == b"", "not quiet", told)


def without_streams():
    """Started with closed streams, leat does not take its own files for them."""
    farm = DEMO / "01-over-the-rise.yaml"
    with folder() as here:
        for closing in ("0<&-", "1>&-", "2>&-", "0<&- 1>&- 2>&-", "0<&- 2>&-"):
            for words in (f"draw {farm} -o {here}/out.svg --json",
                          f"profile {farm} -o {here}/out.svg",
                          f"season {farm} -o {here}/out.svg --from 2026-07-01 --to 2026-07-02"):
                told = subprocess.run(["bash", "-c", f"'{LEAT}' {words} {closing}"],
                                      stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                                      timeout=fire.LONGEST_S, check=False)
                hold(told.returncode in (0, 1), f"{words} {closing}: {told.returncode}", told)
                drawn = (here / "out.svg").read_text().strip()
                hold(drawn.startswith("<?xml") and drawn.endswith("</svg>"),
                     f"{words} {closing}: not a drawing: {drawn[:80]}")
                hold(names_in(here) == ["out.svg"], f"left {names_in(here)}")
                (here / "out.svg").unlink()


def what_is_no_farm():
    """A farm file that is a folder, a device without end or not ours to read is told."""
    with folder() as here:
        closed = here / "closed.yaml"
        closed.write_text("farm: Test\n")
        closed.chmod(0)
        files = [here, "/dev/zero", "/dev/full", here / "gone.yaml", here / "loop.yaml"]
        (here / "loop.yaml").symlink_to("loop.yaml")
        if os.geteuid() != 0:
            files.append(closed)
        for file in files:
            for words in (["solve", file], ["try", file, "--no-browser"],
                          ["compare", file, DEMO / "01-over-the-rise.yaml"],
                          ["draw", file, "-o", here / "out.svg"]):
                ran = run(words)
                hold(ran.returncode == 2 and str(file).encode() in ran.stderr
                     and b"cannot be read" in ran.stderr, f"{words}", ran)


def threads_are_not_needed():
    """Where the machine gives no second thread one does all, with the same answer."""
    dry_year = DEMO / "23-dry-year.yaml"
    for words in [["solve", DEMO / "05-tangle.yaml", "--spread", "40"],
                  ["season", dry_year, "--from", "2026-08-18", "--to", "2026-08-21", "--spread",
                   "4"],
                  ["improve", DEMO / "02-high-trough.yaml"]]:
        usual = run(words)
        alone = run(words, env=fire.faulty("pthread_create 11"))
        hold(usual.returncode in (0, 1), f"{words}: no answer", usual)
        hold(alone.returncode == usual.returncode, f"{words}: another exit", alone)
        hold(alone.stdout == usual.stdout, f"{words}: another answer", alone)


if __name__ == "__main__":
    sys.exit(fire.run_tests([
        without_gnuplot, without_chromium, a_report_without_gnuplot, without_programs,
        without_fonts, a_reader_that_stops, without_streams, what_is_no_farm,
        threads_are_not_needed]))
