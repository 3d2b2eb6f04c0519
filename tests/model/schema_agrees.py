"""Checks that model/farm.schema.json and the loader agree.

Every demo farm and every farm of tests/farms passes the schema; every broken farm is refused by it,
but for those whose first line says `# schema: cannot say` (a name that does not exist, a level that
does not fit). Usage: schema_agrees.py [REPOSITORY]
"""

import json
import pathlib
import re
import sys

import jsonschema
import yaml


class CoreLoader(yaml.SafeLoader):
    """YAML 1.2's plain rules, as editors read: only true, false, null and numbers are no text."""


CoreLoader.yaml_implicit_resolvers = {}
YAML_CORE = [
    ("tag:yaml.org,2002:null", r"^(~|null|Null|NULL|)$", ["~", "n", "N", ""]),
    ("tag:yaml.org,2002:bool", r"^(true|True|TRUE|false|False|FALSE)$", list("tTfF")),
    ("tag:yaml.org,2002:int", r"^[-+]?[1-9][0-9]*$|^[-+]?0$", list("-+0123456789")),
    ("tag:yaml.org,2002:float", r"^[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?$",
     list("-+.0123456789")),
]
for tag, pattern, first in YAML_CORE:
    CoreLoader.add_implicit_resolver(tag, re.compile(pattern), first)


def faults(validator, path):
    """What the schema has against the file; a file that is no YAML counts as refused."""
    try:
        # A reader that takes everything as bytes: what is no UTF-8 must be refused, not repaired.
        farm = yaml.load(path.read_bytes().decode("utf-8"), Loader=CoreLoader)
    except (yaml.YAMLError, UnicodeDecodeError, ValueError, TypeError, RecursionError) as fault:
        return [f"not readable: {type(fault).__name__}"]
    return [f"{list(error.absolute_path)}: {error.message[:120]}"
            for error in validator.iter_errors(farm)]


def main():
    here = pathlib.Path(__file__).resolve()
    root = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else here.parents[2]
    schema = json.loads((root / "model/farm.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft7Validator.check_schema(schema)
    validator = jsonschema.Draft7Validator(schema)
    complaints = []
    good = sorted([*(root / "networks-demo").glob("*.yaml"), *(root / "tests/farms").glob("*.yaml")])
    for path in good:
        complaints += [f"{path.name}: the loader takes it, the schema says {fault}"
                       for fault in faults(validator, path)]
    broken = sorted((root / "tests/broken-farms").glob("*.yaml"))
    excused = 0
    for path in broken:
        if path.read_bytes().startswith(b"# schema: cannot say"):
            excused += 1
            continue
        if not faults(validator, path):
            complaints.append(f"{path.name}: the loader refuses it, the schema does not")
    if len(good) < 2 or len(broken) - excused < 60:
        complaints.append(f"only {len(good)} good and {len(broken) - excused} broken farms looked at")
    print("\n".join(complaints) or
          f"{len(good)} good farms pass, {len(broken) - excused} broken ones are refused")
    return 1 if complaints else 0


if __name__ == "__main__":
    sys.exit(main())
