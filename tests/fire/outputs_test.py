"""Output that cannot be written: every command that writes says so with the file's name and what to
do, exits with 2, leaves no half file, and leaves what was there as it was.
Usage: outputs_test.py LEAT FAULT_LIBRARY
"""

import errno
import json
import os
import pathlib
import re
import resource
import shutil
import subprocess
import sys
import urllib.error
import urllib.request

import fire
from fire import FAULT, LEAT, WRITERS, faulty, folder, hold, names_in, out_of, run, words_of

OLD = b"what was there\n"


def refused(ran, out, *words):
    """Exit 2, the file's name and the words on stderr, nothing about success."""
    said = ran.stderr.decode()
    hold(ran.returncode == 2, "not exit 2", ran)
    hold(str(out) in said, f"{out} is not named", ran)
    for word in words:
        hold(word in said, f"{word!r} is not said", ran)
    hold("wrote" not in said, "it says it wrote", ran)


def every_writing_command_is_under_fire():
    """Every command that can write over a file is among those that these tests run."""
    script = run(["--completion", "bash"]).stdout.decode()
    options = dict(re.findall(r"^    ([a-z]+)\) options='([^']*)'", script, re.M))
    writing = {command for command in options if "--replace" in options[command].split()}
    tried = {before[0] for before, _, _ in WRITERS.values()}
    hold(writing == tried, f"those that write: {sorted(writing)}, those tried: {sorted(tried)}")


def a_full_disk_is_told():
    """A disk that fills while the file is written is told with what to do, and nothing is left."""
    for name in WRITERS:
        for call in ("write", "fsync"):
            with folder() as here:
                out = out_of(name, here)
                ran = run(words_of(name, out), faulty(f"{call} {errno.ENOSPC}"))
                refused(ran, out, "No space left on device", "make room on that disk")
                hold(names_in(here) == [], f"{name}: left {names_in(here)}", ran)


def the_old_file_stays():
    """Where a file was to be replaced and cannot be, it stays byte for byte, at every step."""
    for name in WRITERS:
        for fault in ("write 28", "fsync 5", "rename 28"):
            with folder() as here:
                out = out_of(name, here)
                out.write_bytes(OLD)
                ran = run([*words_of(name, out), "--replace"], faulty(fault))
                refused(ran, out)
                hold(out.read_bytes() == OLD, f"{name}: the old file is gone", ran)
                hold(names_in(here) == [out.name], f"{name}: left {names_in(here)}", ran)


def a_size_limit_is_told():
    """Where no file may be so large (ulimit -f), that is told and the process is not killed."""
    for name in WRITERS:
        with folder() as here:
            out = out_of(name, here)
            ran = run(words_of(name, out),
                      preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100)))
            refused(ran, out, "File too large", "make room")
            hold(names_in(here) == [], f"{name}: left {names_in(here)}", ran)


def a_small_disk_fills():
    """A real disk of a few kilobytes that fills is told, and nothing is left on it."""
    with folder() as here:
        script = ('mount -t tmpfs -o size=8k none "$1" && cd "$1" && shift && '
                  '"$@"; status=$?; ls -A; exit $status')
        for name in ("draw", "report", "map"):
            out = out_of(name, here)
            told = subprocess.run(
                ["unshare", "--map-root-user", "--mount", "sh", "-c", script, "sh", str(here),
                 LEAT, *words_of(name, out)],
                stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                timeout=fire.LONGEST_S, check=False)
            if b"unshare" in told.stderr or b"mount:" in told.stderr:
                return "not tried: no disk can be mounted here"
            refused(told, out, "No space left on device", "make room")
            hold(told.stdout == b"", f"{name}: left {told.stdout}", told)
    return None


def what_is_no_file_is_refused():
    """A folder, a device or a missing folder in the place of OUT is refused before the work."""
    for name in WRITERS:
        with folder() as here:
            out = out_of(name, here)
            out.mkdir()
            for flag in ([], ["--replace"]):
                refused(run([*words_of(name, out), *flag]), out, "not a plain file")
            missing = out_of(name, here / "no such folder")
            refused(run(words_of(name, missing)), missing, "make the folder first")
            below = out_of(name, here / "file")
            (here / "file").write_bytes(OLD)
            refused(run(words_of(name, below)), below, "Not a directory", "make the folder first")
            device = here / ("dev" + out.suffix)
            device.symlink_to("/dev/full")
            refused(run([*words_of(name, device), "--replace"]), device, "not a plain file")
            hold(device.is_symlink(), "the link is gone")
            long = here / ("n" * 300 + out.suffix)
            refused(run(words_of(name, long)), long, "choose a shorter name")
            hold(sorted([out.name, "file", device.name]) == names_in(here),
                 f"{name}: left {names_in(here)}")


def in_anothers_name(uid=65534):
    """Root may write anywhere: become nobody, where root."""
    def become():
        if os.geteuid() == 0:
            os.setgroups([])
            os.setgid(uid)
            os.setuid(uid)
    return become


def a_folder_not_ours_is_refused():
    """A folder that is not ours to write in is refused, and so is a file in it."""
    with folder() as here:
        # Nobody may not be able to read where this repository stands.
        program = here / "leat"
        shutil.copy(LEAT, program)
        closed = here / "closed"
        closed.mkdir()
        tried = 0
        for name in WRITERS:
            out = out_of(name, closed)
            words = words_of(name, out)
            if name != "new":
                copy = here / pathlib.Path(words[1]).name
                shutil.copy(words[1], copy)
                words[1] = str(copy)
            closed.chmod(0o555)
            ran = subprocess.run([program, *words], stdin=subprocess.DEVNULL,
                                 stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                                 timeout=fire.LONGEST_S, check=False,
                                 preexec_fn=in_anothers_name())
            refused(ran, out, "Permission denied", "yours to write in")
            closed.chmod(0o755)
            hold(names_in(closed) == [], f"{name}: left {names_in(closed)}")
            tried += 1
        hold(tried == len(WRITERS), "not all were tried")


def an_existing_file_is_kept():
    """A file that is there is kept, before any work is done; --replace writes over it."""
    for name in WRITERS:
        with folder() as here:
            out = out_of(name, here)
            out.write_bytes(OLD)
            refused(run(words_of(name, out)), out, "is there already", "--replace")
            hold(out.read_bytes() == OLD, f"{name}: written over")
            out.chmod(0o640)
            ran = run([*words_of(name, out), "--replace"])
            hold(ran.returncode in (0, 1), f"{name}: not replaced", ran)
            hold(out.read_bytes() != OLD, f"{name}: not written")
            hold(out.stat().st_mode & 0o777 == 0o640, f"{name}: other permissions")
            hold(names_in(here) == [out.name], f"{name}: left {names_in(here)}")


def the_farm_is_never_written_over():
    """OUT that is the farm file, its base or its CSV file, by any name or link, is refused."""
    with folder() as here:
        tried = 0
        for name in WRITERS:
            if name == "new":
                continue
            words = words_of(name, "OUT")
            farm = here / "farm.yaml"
            shutil.copy(words[1], farm)
            (here / "variant.yaml").write_text("based on: farm.yaml\nfarm: Other\n")
            text = farm.read_bytes()
            words[1] = str(farm)
            ending = out_of(name, here).suffix
            names = [here / f"link{ending}", here / f"hard{ending}", here / f"two{ending}"]
            names[0].symlink_to("farm.yaml")
            os.link(farm, names[1])
            names[2].symlink_to(names[0].name)
            if ending == ".yaml":
                names += [farm, here / "." / "farm.yaml", here / ".." / here.name / "farm.yaml"]
            for file in (farm, here / "variant.yaml"):
                words[1] = str(file)
                for out in names:
                    asked = [str(out) if word == "OUT" else word for word in words]
                    for flag in ([], ["--replace"]):
                        refused(run([*asked, *flag]), out, "the farm is read from")
                        tried += 1
            hold(farm.read_bytes() == text, f"{name}: the farm was written over")
            for entry in here.iterdir():
                entry.unlink()
        hold(tried > 100, f"only {tried} tried")
        shutil.copytree(fire.ROOT / "tests/farms", here, dirs_exist_ok=True)
        csv = here / "yields.csv"
        text = csv.read_bytes()
        for farm in ("every-key.yaml",):
            link = here / "farm.svg"
            link.symlink_to("yields.csv")
            ran = run(["draw", here / farm, "-o", link, "--replace"])
            refused(ran, link, "the farm is read from")
        hold(csv.read_bytes() == text, "the CSV file was written over")


def the_pdf_beside_a_report_is_checked():
    """A PDF that cannot be written is told before the report is made, with its own name."""
    with folder() as here:
        pdf = here / "out.pdf"
        pdf.write_bytes(OLD)
        words = words_of("report", here / "out.html")
        refused(run([*words, "--pdf"]), pdf, "is there already")
        hold(names_in(here) == ["out.pdf"], f"left {names_in(here)}")


def a_link_stays_a_link():
    """Writing through a symbolic link writes what it leads to, there already or not; the link
    stays, and one that leads to itself or into a missing folder is refused."""
    for name in WRITERS:
        with folder() as here:
            out = out_of(name, here)
            (here / "kept").mkdir()
            real = here / "kept" / ("real" + out.suffix)
            out.symlink_to(real)
            ran = run(words_of(name, out))
            hold(ran.returncode in (0, 1), f"{name}: not written", ran)
            hold(out.is_symlink() and real.is_file(), f"{name}: the link is gone")
            fresh = fire.without_dates(real.read_bytes())
            refused(run(words_of(name, out)), out, "is there already")
            real.write_bytes(OLD)
            ran = run([*words_of(name, out), "--replace"])
            hold(out.is_symlink() and fire.without_dates(real.read_bytes()) == fresh,
                 f"{name}: not through the link", ran)
            hold(names_in(here / "kept") == [real.name], f"{name}: left files")
            loop = here / ("loop" + out.suffix)
            loop.symlink_to(loop.name)
            refused(run([*words_of(name, loop), "--replace"]), loop, "leads back to itself")
            hold(loop.is_symlink(), f"{name}: the loop was replaced")
            astray = here / ("astray" + out.suffix)
            astray.symlink_to("no such folder/file")
            refused(run(words_of(name, astray)), astray, "make the folder first")


def saved_by_the_page(fault, prepare, name):
    """What the page of leat try answers when the farm is to be saved under that name, and what then
    lies in the farm's folder beside the farm."""
    with folder() as here:
        farm = here / "farm.yaml"
        shutil.copy(fire.DEMO / "02-high-trough.yaml", farm)
        prepare(here)
        before = farm.read_bytes()
        running = subprocess.Popen([LEAT, "try", str(farm), "--no-browser", "--json"],
                                   stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                                   stderr=subprocess.PIPE,
                                   env={**os.environ, **(faulty(fault) if fault else {})})
        try:
            said = b""
            while not said.endswith(b"}\n") or said.count(b"{") != said.count(b"}"):
                line = running.stdout.readline()
                hold(line, "leat try never told its address")
                said += line
            request = urllib.request.Request(json.loads(said)["address"] + "save",
                                             json.dumps({"name": name}).encode())
            try:
                with urllib.request.urlopen(request, timeout=20) as answer:
                    told = answer.status, json.load(answer)
            except urllib.error.HTTPError as refusal:
                told = refusal.code, json.load(refusal)
        finally:
            running.terminate()
            running.communicate(timeout=20)
        hold(running.returncode == 0, f"leat try ended with {running.returncode}")
        hold(farm.read_bytes() == before, "the farm file was changed")
        return (*told, [entry for entry in names_in(here) if entry != "farm.yaml"])


def the_page_saves_whole_or_not():
    """The page's save tells a full disk, an existing name or link, and leaves no half file."""
    def nothing(_):
        pass

    status, answer, left = saved_by_the_page("", nothing, "new.yaml")
    hold((status, answer, left) == (200, {"saved": "new.yaml"}, ["new.yaml"]), f"{status} {answer}")
    for fault in ("write 28", "fsync 28", "link 28"):
        status, answer, left = saved_by_the_page(fault, nothing, "new.yaml")
        hold(status == 500 and "No space left on device" in answer["problem"]
             and "new.yaml" in answer["problem"] and "make room" in answer["problem"] and not left,
             f"{fault}: {status} {answer} {left}")
    status, answer, left = saved_by_the_page("", lambda here: (here / "new.yaml").write_bytes(OLD),
                                             "new.yaml")
    hold(status == 409 and left == ["new.yaml"], f"{status} {answer} {left}")
    status, answer, left = saved_by_the_page(
        "", lambda here: (here / "new.yaml").symlink_to("elsewhere.yaml"), "new.yaml")
    hold(status == 409 and left == ["new.yaml"], f"{status} {answer} {left}")
    for name in ("../new.yaml", "/tmp/new.yaml", "new.txt", "", ".yaml", "a\0.yaml", "n" * 300):
        status, answer, left = saved_by_the_page("", nothing, name)
        hold(status == 403 and not left, f"{name!r}: {status} {answer} {left}")


def json_tells_it_too():
    """With --json the same stands on stdout as a problem with its code."""
    for name in WRITERS:
        with folder() as here:
            out = out_of(name, here / "gone")
            ran = run([*words_of(name, out), "--json"])
            refused(ran, out)
            problem = json.loads(ran.stdout)["problems"][0]
            hold(problem["code"] == "cannot-write" and str(out) in problem["text"]
                 and problem["hint"], f"{name}: {problem}")


def a_full_stdout_is_told():
    """A result that does not fit where stdout goes is a failure with its reason."""
    farm = fire.DEMO / "02-high-trough.yaml"
    lines = [["solve", farm], ["read", farm], ["prime", fire.DEMO / "01-over-the-rise.yaml"],
             ["season", farm, "--from", "2026-07-01", "--to", "2026-07-03"],
             ["compare", farm, fire.DEMO / "01-over-the-rise.yaml", "--from", "2026-07-01",
              "--to", "2026-07-02"],
             ["draw", farm, "-o", "-"], ["pipes"], ["fittings"], ["herd"], ["new"], ["--help"],
             ["try", farm, "--no-browser"], ["solve", farm, "--json"], ["solve", "none", "--json"]]
    for words in lines:
        with open("/dev/full", "wb") as full:
            ran = run(words, stdout=full)
        hold(ran.returncode == 2, f"{words}: not exit 2", ran)
        hold(b"could not be written" in ran.stderr, f"{words}: not told", ran)
        if words[0] != "try":
            hold(b"No space left on device" in ran.stderr, f"{words}: no reason", ran)


def the_schema_has_a_name_of_its_own():
    """A farm that would take the schema's name is refused before either is written."""
    for name in ["farm.schema.json", "./farm.schema.json"]:
        with folder() as here:
            for more in [[], ["--replace"]]:
                ran = run(["new", f"{here}/{name}", "--schema", *more])
                hold(ran.returncode == 2 and b"farm.schema.json" in ran.stderr, name, ran)
                hold(not fire.names_in(here), f"{name}: something was written", ran)


if __name__ == "__main__":
    sys.exit(fire.run_tests([
        a_full_disk_is_told, the_old_file_stays, a_size_limit_is_told, a_small_disk_fills,
        what_is_no_file_is_refused, a_folder_not_ours_is_refused, an_existing_file_is_kept,
        the_farm_is_never_written_over, the_pdf_beside_a_report_is_checked, a_link_stays_a_link,
        the_page_saves_whole_or_not, json_tells_it_too, a_full_stdout_is_told,
        the_schema_has_a_name_of_its_own]))
