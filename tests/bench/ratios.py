"""Reads what Google Benchmark wrote and prints the ratios that matter, each against its target."""

import json
import math
import sys

# Farms in a set: tests/bench/farm_sets.cpp.
FARMS = {"symmetric/20": 32, "unsymmetric/20": 32, "limit-free/20": 32, "limit-free/100": 16}
NANOSECONDS = {"ns": 1.0, "us": 1e3, "ms": 1e6, "s": 1e9}


def read(paths):
    """Least processor time in ns, the counters and all rates of draws of each benchmark, by name."""
    times, counters, rates = {}, {}, {}
    for path in paths:
        with open(path, encoding="utf-8") as file:
            for row in json.load(file)["benchmarks"]:
                if row["run_type"] != "iteration":
                    continue
                if row.get("error_occurred"):
                    sys.exit(f"{row['name']}: {row['error_message']}")
                name = row["run_name"].removesuffix("/iterations:1")
                time = row["cpu_time"] * NANOSECONDS[row["time_unit"]]
                times[name] = min(time, times.get(name, time))
                counters[name] = row
                if "draws_a_second" in row:
                    rates.setdefault(name, []).append(row["draws_a_second"])
    return times, counters, rates


def line(what, figure, target, holds):
    word = "" if holds is None else ("pass" if holds else "MISS")
    print(f"{what:<66} {figure:>14}  {target:<14} {word}")


def at_most(what, figure, limit):
    line(what, f"{figure:.2f}", f"at most {limit:g}", figure <= limit)


def at_least(what, figure, limit):
    line(what, f"{figure:.2f}", f"at least {limit:g}", figure >= limit)


def main(paths):
    times, counters, rates = read(paths)
    for farms in ("symmetric/20", "unsymmetric/20"):
        floor = times[f"floor/{farms}"]
        at_most(f"{farms}: cold solve, in floors", times[f"cold/{farms}"] / floor, 6)
        at_most(f"{farms}: with search, ordering, analysis, in floors",
                times[f"whole/{farms}"] / floor, 6)
        line(f"{farms}: the loss laws once an iteration, in floors",
             f"{times[f'losses/{farms}'] / floor:.2f}", "", None)
        line(f"{farms}: losses asked for, times an iteration",
             f"{counters[f'whole/{farms}']['sweeps']:.2f}", "", None)
        warm = counters[f"warm/{farms}"]
        line(f"{farms}: most iterations of a warm solve", f"{warm['most']:.0f}", "at most 3",
             warm["most"] <= 3)
        line(f"{farms}: warm solves that changed, within 3 iterations",
             f"{warm['within_three']:.0f} of {warm['changed']:.0f}", "", None)
        line(f"{farms}: warm solve, in cold solves",
             f"{times[f'warm/{farms}'] / times[f'cold/{farms}']:.2f}", "", None)
    steps = counters["season/year"]["steps"]
    at_most("season: a step of a year by the hour, 20 places, in cold solves",
            times["season/year"] / steps / times["season/cold-step"], 0.45)
    line("season: iterations a step", f"{counters['season/year']['iterations'] / steps:.2f}", "",
         None)
    at_most("season: a year by the hour, seconds", times["season/year"] * 1e-9, 0.5)
    rate = max(rates["spread/20"])
    line("spread: draws a second of one core, 16 farms of 20 nodes", f"{rate:.0f}", "", None)
    one, two = (f"spread/threads/{threads}/process_time/real_time" for threads in (1, 2))
    line("spread: 10 000 draws of one farm, a second of processor time",
         f"{10000 / (times[one] * 1e-9):.0f}", "", None)
    line("spread: the same, a second by the clock, on two threads", f"{max(rates[two]):.0f}",
         "wanted 25000", None)
    at_most("spread: processor time on two threads, in that on one", times[two] / times[one], 1.2)
    for farms, limit in (("limit-free/20", 3), ("limit-free/100", 8)):
        if f"peer/{farms}" not in times:
            continue
        peer = counters[f"peer/{farms}"]
        at_least(f"{farms}: peer, in cold solves",
                 times[f"peer/{farms}"] / times[f"cold/{farms}"], limit)
        line(f"{farms}: peer with its own defaults, in cold solves",
             f"{times[f'peer/as delivered/{farms}'] / times[f'cold/{farms}']:.2f}", "", None)
        line(f"{farms}: our loss laws once an iteration, in cold solves",
             f"{times[f'losses/{farms}'] / times[f'cold/{farms}']:.2f}", "", None)
        line(f"{farms}: peer, in solves with search, ordering, analysis",
             f"{times[f'peer/{farms}'] / times[f'whole/{farms}']:.2f}", "", None)
        line(f"{farms}: iterations of the peer, ours",
             f"{peer['iterations']:.0f}, {counters[f'whole/{farms}']['iterations']:.0f}", "", None)
        line(f"{farms}: largest difference of flows, unsolved by the peer",
             f"{peer['difference']:.0e}, {peer['unsolved']:.0f}", "at most 1e-6",
             peer["difference"] <= 1e-6 and peer["unsolved"] == 0)
    at_most("friction with its slope, in log10 and pow",
            times["friction/turbulent"] / times["friction/log10 and pow"], 3)
    for pipes in (10000, 100000):
        at_most(f"loading {pipes} pipes, in loadings of a tenth",
                times[f"load/{pipes}"] / times[f"load/{pipes // 10}"], 12)
    for shape in ("bush", "comb", "ribbon"):
        small, middle, large = (f"scale/{shape}/{n}" for n in (1000, 10000, 100000))
        nodes = [counters[name]["nodes"] for name in (small, middle)]
        power = math.log(times[middle] / times[small]) / math.log(nodes[1] / nodes[0])
        at_most(f"{shape}: time grows from 1 000 to 10 000 places as n to the", power, 1.2)
        at_most(f"{shape}: iterations at 10 000 places", counters[middle]["iterations"], 40)
        line(f"{shape}: iterations at 1 000, 100 000 places",
             f"{counters[small]['iterations']:.0f}, {counters[large]['iterations']:.0f}", "", None)
        at_most(f"{shape}: seconds at 10 000 places", times[middle] / 1e9, 0.4)
        at_most(f"{shape}: seconds at 100 000 places", times[large] / 1e9, 20)
        at_most(f"{shape}: kilobytes a node at 100 000 places",
                counters[large]["bytes_a_node"] / 1e3, 2)
    for name in sorted(counters):
        if name.startswith("solved/"):
            row = counters[name]
            line(f"random farms with limits solved: {name.removeprefix('solved/')}",
                 f"{row['solved']:.0f} of {row['farms']:.0f}", "", None)
    print("\nOne cold solve: " + ", ".join(
        f"{farms} {times[f'cold/{farms}'] / count / 1e3:.1f} us"
        for farms, count in FARMS.items()))


if __name__ == "__main__":
    main(sys.argv[1:])
