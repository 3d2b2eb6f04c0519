"""Checks that model/keys/farm.schema.json and the loader agree, and that it explains every key.

Every demo farm and every farm of tests/farms passes the schema; every broken farm is refused by it,
but for those whose first line says `# schema: cannot say (KIND)`: KINDS below. Every key has its own
description, with an example that is right. Usage: schema_agrees.py [REPOSITORY]
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


# Why a schema cannot say what is wrong: the word that a broken farm's first line gives.
KINDS = {
    "yaml": "bytes and YAML that nothing is left of when the schema is asked",
    "names": "which names there are, and how many pipes lead where",
    "fit": "two values that must fit each other, or a list that must rise",
    "amounts": "how large an amount is: with its unit it is a text",
    "files": "what stands in another file",
}


def excuse(path):
    """The kind in the first line of a broken farm; None where it gives none."""
    found = re.match(rb"# schema: cannot say(?: \((\w+)\))?", path.read_bytes())
    return found and (found[1] or b"nothing").decode()


def keys_of(part, where=""):
    """Every key the schema knows, with what it says of it."""
    if isinstance(part, dict):
        known = part.get("properties")
        for key, value in (known.items() if isinstance(known, dict) else []):
            yield f"{where}/{key}", value
        for key, value in part.items():
            if key not in ("if", "then", "else"):  # these demand, and explain nothing
                yield from keys_of(value, f"{where}/{key}")
    elif isinstance(part, list):
        for item in part:
            yield from keys_of(item, where)


def words_of(value, definitions):
    """The words a value must be one of; empty where it may be anything else."""
    if "$ref" in value:
        return words_of(definitions[value["$ref"].rsplit("/", 1)[-1]], definitions)
    return value.get("enum", [])


def complaints_of_keys(schema):
    """What is wrong with how the keys are explained."""
    found = list(keys_of(schema))
    complaints = [] if len(found) > 200 else [f"only {len(found)} keys found in the schema"]
    months = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split()
    for where, value in found:
        key = where.rsplit("/", 1)[-1]
        text = value.get("description", "")
        if len(text.split()) < 3 or not text.endswith(".") or not text[:1].isupper() \
                and not text.startswith("yes: "):
            complaints.append(f"{where} is not described in a sentence: {text!r}")
        has_example = value.get("examples") or ", such as " in text or "yes: " in text
        if key not in months and not has_example and not words_of(value, schema["definitions"]):
            complaints.append(f"{where} has no example")
        one = {"definitions": schema["definitions"], **value}
        if "$ref" in value:  # beside $ref nothing is looked at
            one = {"definitions": schema["definitions"], "allOf": [{"$ref": value["$ref"]}]}
        validator = jsonschema.Draft7Validator(one)
        for example in value.get("examples", []):
            complaints += [f"{where}: its example {example!r} is refused: {fault.message[:80]}"
                           for fault in validator.iter_errors(example)]
    return complaints


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
    root = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else here.parents[3]
    schema = json.loads((root / "model/keys/farm.schema.json").read_text(encoding="utf-8"))
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
        kind = excuse(path)
        refused = bool(faults(validator, path))
        excused += kind is not None
        if kind is None and not refused:
            complaints.append(f"{path.name}: the loader refuses it, the schema does not")
        elif kind is not None and kind not in KINDS:
            complaints.append(f"{path.name}: {kind} is no reason why a schema cannot say it")
        elif kind not in (None, "yaml") and refused:
            complaints.append(f"{path.name}: the schema can say it after all; take the remark off")
    complaints += complaints_of_keys(schema)
    if len(good) < 2 or len(broken) - excused < 60:
        complaints.append(f"only {len(good)} good and {len(broken) - excused} broken farms looked at")
    print("\n".join(complaints) or
          f"{len(good)} good farms pass, {len(broken) - excused} broken ones are refused")
    return 1 if complaints else 0


if __name__ == "__main__":
    sys.exit(main())
