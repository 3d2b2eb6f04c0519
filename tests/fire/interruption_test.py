"""A run that is ended (Ctrl-C, SIGTERM, a closed terminal) dies of that signal after it has undone
what was half done, says so with the file's name, and leaves no other program running.
Usage: interruption_test.py LEAT FAULT_LIBRARY
"""

import os
import signal
import stat
import subprocess
import sys
import time

import fire
from fire import DEMO, LEAT, WRITERS, faulty, folder, hold, names_in, out_of, run, words_of

OLD = b"what was there\n"
LONG = "2026-01-01", "2075-12-31"  # no season may be longer
# Runs that take far longer than they are let.
LONG_RUNS = {
    "season": ["season", DEMO / "02-high-trough.yaml", "--from", LONG[0], "--to", LONG[1],
               "--step", "1 min"],
    "season -o": ["season", DEMO / "02-high-trough.yaml", "--from", LONG[0], "--to", LONG[1],
                  "--step", "1 min", "-o", "OUT.svg"],
    "spread": ["solve", DEMO / "05-tangle.yaml", "--spread", "100000"],
    "report": ["report", DEMO / "05-tangle.yaml", "--from", LONG[0], "--to", LONG[1],
               "-o", "OUT.html"],
    "compare": ["compare", DEMO / "05-tangle.yaml", DEMO / "02-high-trough.yaml", "--from", LONG[0],
                "--to", LONG[1], "--step", "1 min"],
}


def died_of(ran, number):
    hold(ran.returncode == -number, f"it did not die of {number}", ran)


def ended_while_writing():
    """Ended in the middle of writing, no command leaves half a file or changes the old one."""
    for index, name in enumerate(WRITERS):
        word, number, said = [("SIGTERM", signal.SIGTERM, "SIGTERM"),
                              ("SIGINT", signal.SIGINT, "Ctrl-C")][index % 2]
        with folder() as here:
            out = out_of(name, here)
            ran = run(words_of(name, out), faulty(f"fsync {word}"))
            died_of(ran, number)
            hold(f"ended by {said}" in ran.stderr.decode(), f"{name}: not told", ran)
            hold(f"'{out}' was not written" in ran.stderr.decode(), f"{name}: not told", ran)
            hold(names_in(here) == [], f"{name}: left {names_in(here)}", ran)
            out.write_bytes(OLD)
            ran = run([*words_of(name, out), "--replace"], faulty(f"fsync {word}"))
            died_of(ran, number)
            hold(f"'{out}' is as it was" in ran.stderr.decode(), f"{name}: not told", ran)
            hold(out.read_bytes() == OLD, f"{name}: the old file is gone")
            hold(names_in(here) == [out.name], f"{name}: left {names_in(here)}", ran)


def start(words, env=None, **more):
    return subprocess.Popen([LEAT, *map(str, words)], stdin=subprocess.DEVNULL,
                            stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                            env={**os.environ, **(env or {})}, **more)


def is_waiting(number):
    """Whether leat has begun and waits for signals: they are blocked, and a thread of its own waits."""
    try:
        with open(f"/proc/{number}/status", encoding="utf-8") as told:
            fields = dict(line.split(":\t", 1) for line in told if ":\t" in line)
    except OSError:
        return False
    return int(fields["Threads"]) > 1 and int(fields["SigBlk"], 16) != 0


def begun(running):
    """Waits until leat is well into its run."""
    end = time.monotonic() + 60
    while not is_waiting(running.pid):
        hold(running.poll() is None, "over too soon")
        hold(time.monotonic() < end, "it never began")
        time.sleep(0.005)
    time.sleep(0.1)
    hold(running.poll() is None, "over too soon")


def finish(running):
    """What an ended process came to; one that will not end is a complaint."""
    try:
        out, err = running.communicate(timeout=90)
    except subprocess.TimeoutExpired:
        running.kill()
        raise fire.Complaint("it did not end when told") from None
    return subprocess.CompletedProcess(running.args, running.returncode, out, err)


def ended_while_computing():
    """Ended in the middle of a long run, a command says so at once and writes nothing."""
    for name, words in LONG_RUNS.items():
        for number in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
            with folder() as here:
                asked = [str(word).replace("OUT", str(here / "out")) for word in words]
                running = start(asked)
                begun(running)
                running.send_signal(number)
                ran = finish(running)
                died_of(ran, number)
                hold(b"leat: ended by " in ran.stderr and b"run it again" in ran.stderr,
                     f"{name}: not told", ran)
                for word in asked:
                    if str(here) in word:
                        hold(f"'{word}' was not written" in ran.stderr.decode(), "not told", ran)
                hold(ran.stdout == b"", f"{name}: printed half an answer", ran)
                hold(names_in(here) == [], f"{name}: left {names_in(here)}")


def false_program(here, name, script):
    """A program of that name that stands before all others."""
    path = here / "bin" / name
    path.parent.mkdir(exist_ok=True)
    path.write_text(f"#!/bin/sh\n{script}\n")
    path.chmod(path.stat().st_mode | stat.S_IXUSR)
    return {"PATH": f"{path.parent}:{os.environ['PATH']}"}


def wait_for(path):
    end = time.monotonic() + 60
    while not (path.exists() and path.read_text().strip()):
        hold(time.monotonic() < end, f"{path.name} never came")
        time.sleep(0.01)
    return int(path.read_text())


def is_running(number):
    """Whether a process is there and no mere name on the list of the dead."""
    try:
        with open(f"/proc/{number}/stat", encoding="utf-8") as told:
            return told.read().rsplit(")", 1)[1].split()[0] not in "ZX"
    except OSError:
        return False


def gone(number):
    end = time.monotonic() + 10
    while is_running(number):
        if time.monotonic() > end:
            return False
        time.sleep(0.02)
    return True


def ended_while_printing():
    """Ended while Chromium prints, leat ends Chromium and what it started, and tidies up."""
    for number in (signal.SIGINT, signal.SIGTERM):
        with folder() as here:
            env = false_program(here, "chromium",
                                f"sleep 60 & echo $! > {here}/child; wait")
            temporary = here / "tmp"
            temporary.mkdir()
            out = here / "out.html"
            running = start([*words_of("report", out), "--pdf"],
                            {**env, "TMPDIR": str(temporary)})
            child = wait_for(here / "child")
            hold(names_in(temporary) != [], "nothing was being printed")
            running.send_signal(number)
            ran = finish(running)
            died_of(ran, number)
            hold(f"'{here}/out.pdf' was not written" in ran.stderr.decode(), "not told", ran)
            hold(gone(child), "what Chromium started runs on")
            hold(names_in(temporary) == [], f"left {names_in(temporary)}")
            hold(names_in(here) == ["bin", "child", "out.html", "tmp"], f"left {names_in(here)}")


def ended_while_drawing():
    """Ended while gnuplot draws, leat ends gnuplot; Ctrl-C reaches leat alone."""
    for name in ("profile", "season"):
        with folder() as here:
            env = false_program(here, "gnuplot", f"echo $$ > {here}/child; exec sleep 60")
            out = out_of(name, here)
            running = start(words_of(name, out), env, start_new_session=True)
            child = wait_for(here / "child")
            os.killpg(running.pid, signal.SIGINT)  # as the terminal does
            ran = finish(running)
            died_of(ran, signal.SIGINT)
            hold(f"'{out}' was not written" in ran.stderr.decode(), "not told", ran)
            hold(gone(child), "gnuplot runs on")
            hold(names_in(here) == ["bin", "child"], f"left {names_in(here)}")


def a_program_that_fails():
    """A gnuplot that fails or dies is told and leaves no file."""
    for script in ("exit 3", "echo half; exit 1", "kill -9 $$", "exec true"):
        with folder() as here:
            env = false_program(here, "gnuplot", script)
            out = out_of("profile", here)
            ran = run(words_of("profile", out), env)
            hold(ran.returncode == 2 and b"gnuplot could not draw it" in ran.stderr, script, ran)
            hold(names_in(here) == ["bin"], f"left {names_in(here)}")


def turned_off_signals_stay_off():
    """A run started with the closed terminal's signal turned off (nohup) goes on."""
    words = ["season", DEMO / "02-high-trough.yaml", "--from", "2026-01-01", "--to", "2035-12-31"]
    running = start(words, preexec_fn=lambda: signal.signal(signal.SIGHUP, signal.SIG_IGN))
    begun(running)
    running.send_signal(signal.SIGHUP)
    ran = finish(running)
    hold(ran.returncode in (0, 1) and ran.stdout, "it did not go on", ran)


def the_page_ends_well():
    """The page of leat try ends by Ctrl-C and SIGTERM with exit 0."""
    for number in (signal.SIGINT, signal.SIGTERM):
        running = start(["try", DEMO / "02-high-trough.yaml", "--no-browser", "--json"])
        running.stdout.readline()
        running.send_signal(number)
        ran = finish(running)
        hold(ran.returncode == 0 and b"the page has ended" in ran.stderr, "not well", ran)


if __name__ == "__main__":
    sys.exit(fire.run_tests([
        ended_while_writing, ended_while_computing, ended_while_printing, ended_while_drawing,
        a_program_that_fails, turned_off_signals_stay_off, the_page_ends_well]))
