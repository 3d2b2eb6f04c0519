"""Fails when an #include runs against the arrows of DEVELOPERS.md.

Usage: include_arrows.py SOURCE_DIR
"""
import pathlib
import re
import sys

# folder (longest match wins): what it may include of ours, and which third-party headers
RULES = {
    "model": (["model"], []),
    "solver/nodal": (["solver/nodal"], ["Eigen"]),
    "solver/hydraulics": (["solver/hydraulics", "model/quantity.h"], []),
    # The audit must not lean on what it audits: it knows the farm and the printed answer, no law.
    "solver/audit": (["solver/audit", "solver/audit.h", "model", "solver/pipe_geometry.h",
                      "solver/steady_answer.h"], ["fmt"]),
    "solver/hydrology": (["solver/hydrology", "model/quantity.h"], []),
    "render": (["render", "solver", "model"], ["fmt", "nlohmann", "CLI", "graphviz", "httplib", "kainjow",
                                               "fontconfig"]),
    "solver": (["solver", "model"], ["fmt", "glpk"]),
}
# third-party headers that only these files may include
ONLY = {
    "yaml-cpp": ["model/yaml_tree.cpp"],
    "Eigen": ["solver/nodal/linear_step.cpp"],
    "graphviz": ["render/schematic/"],
    "httplib": ["render/page/page_server.cpp"],
    "kainjow": ["render/report/page.cpp"],
    "glpk": ["solver/size/linear_program.cpp"],
    "fontconfig": ["render/fonts.cpp"],
}



def rule_of(path):
    path = path.replace("solver/audit.", "solver/audit/audit.")
    best = max((folder for folder in RULES if path.startswith(folder + "/")), key=len)
    return RULES[best]


def main():
    root = pathlib.Path(sys.argv[1])
    faults = []
    seen = 0
    for folder in ("model", "solver", "render"):
        for file in sorted((root / folder).rglob("*")):
            if file.suffix not in (".h", ".cpp"):
                continue
            path = file.relative_to(root).as_posix()
            ours, _ = rule_of(path)
            for number, line in enumerate(file.read_text().splitlines(), 1):
                match = re.match(r'\s*#include\s+(["<])([^">]+)[">]', line)
                if not match:
                    continue
                seen += 1
                quote, header = match.groups()
                if quote == '"' and not any(header == o or header.startswith(o + "/") for o in ours):
                    if header != "version.h":
                        faults.append(f"{path}:{number}: {header} is not below {path}")
                for library, allowed in ONLY.items():
                    if header.startswith(library) and not any(path.startswith(a) for a in allowed):
                        faults.append(f"{path}:{number}: only {allowed} may include {library}")
    print("\n".join(faults) or f"{seen} includes follow the arrows")
    return 1 if faults or seen < 100 else 0


sys.exit(main())
