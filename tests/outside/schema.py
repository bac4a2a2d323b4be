"""The JSON Schema of a sheet, by a validator that knows nothing of the program.

The sheets that the program reads are valid, and so are those that it writes; sheets that are spoilt
one key at a time are invalid exactly where the program refuses to read them (exit code 2).
Validator: `jsonschema` (draft 2020-12). The reader of TOML is Python's own.
"""

import copy
import datetime
import json
import subprocess
import tempfile
import tomllib
from pathlib import Path

from jsonschema import Draft202012Validator


def as_json(value):
    """A tree of TOML as JSON has it: a day as text."""
    if isinstance(value, dict):
        return {key: as_json(v) for key, v in value.items()}
    if isinstance(value, list):
        return [as_json(v) for v in value]
    return value.isoformat() if isinstance(value, datetime.date) else value


def inline(value):
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{json.dumps(k)} = {inline(v)}" for k, v in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(inline(v) for v in value) + "]"
    if isinstance(value, datetime.date):
        return value.isoformat()
    return json.dumps(value, ensure_ascii=False)


def as_toml(tree):
    return "".join(f"{json.dumps(key)} = {inline(value)}\n" for key, value in tree.items())


def places(tree, path=()):
    """Every key with a value of its own, as a path; what stands in braces is one value."""
    for key, value in tree.items():
        here = (*path, key)
        if isinstance(value, dict) and key != "sections":
            yield from places(value, here)
        else:
            yield here


def sections(tree, path=()):
    for key, value in tree.items():
        if isinstance(value, dict) and key != "sections":
            if any(not isinstance(v, dict) for v in value.values()):
                yield (*path, key)
            yield from sections(value, (*path, key))


def put(tree, path, value):
    """The tree with one value set, or taken out where it is None."""
    tree = copy.deepcopy(tree)
    inside = tree
    for key in path[:-1]:
        inside = inside[key]
    if value is None:
        del inside[path[-1]]
    else:
        inside[path[-1]] = value
    return tree


def needs_others(tree, path, value):
    """Changes of which only the whole sheet, or arithmetic, tells whether they are right."""
    match path:
        case ("finish", _, "elastic"):
            return value is None or isinstance(value, str)
        case ("finish", "left_leg" | "right_leg", "kind"):
            # Then the keys beside it are judged by the kind for both legs.
            return value is None
        case ("elastic", _, "picot"):
            # Less than the width.
            return isinstance(value, float | int | str)
    # An inch in quotes may be a fraction, and a pattern does not divide.
    return tree["sheet"]["units"] == "in" and value == "7"


VARIABLE = ["body", "fabric", "style", "gusset", "finish"]


def with_variant(tree, path, value):
    """The sheet with a variant that changes one key, or takes an empty section where it is None."""
    inner = {} if value is None else {path[-1]: value}
    for key in reversed(path[:-1]):
        inner = {key: inner}
    return {**tree, "variant": [{"name": "other", **inner}]}


def spoilt(tree):
    """Sheets with one thing changed, each under a name; some of them are still right."""
    for path in places(tree):
        value = tree
        for key in path:
            value = value[key]
        for new in [None, True, 7, -7, 1e6, -1e6, 1e-3, "7", "", "no such word", "two\nlines", [], [1], {"a": 1}]:
            if new is not None and type(new) is type(value) and new == value or needs_others(tree, path, new):
                continue
            yield f"{'.'.join(path)} = {new!r}", put(tree, path, new)
    for path in sections(tree):
        yield f"{'.'.join(path)}.no_such_key", put(tree, (*path, "no_such_key"), 1)
    for path in [p for p in sections(tree) if p[0] != "elastic"]:
        yield f"no {'.'.join(path)}", put(tree, path, None)
        yield f"{'.'.join(path)} = 3", put(tree, path, 3)
    for path in [p for p in places(tree) if p[0] in VARIABLE]:
        for new in [None, True, 7, -7, 1e6, 1e-3, "7", "", "no such word", [], {"a": 1}]:
            if new is None or not needs_others(tree, path, new):
                yield f"a variant with {'.'.join(path)} = {new!r}", with_variant(tree, path, new)
    for path in [("body", "no_such_key"), ("hip_girth",), ("seams", "side"), ("finish", "no_such_edge", "kind")]:
        yield f"a variant with {'.'.join(path)} = 7", with_variant(tree, path, 7)
    yield "a variant of nothing", {**tree, "variant": [{"name": "other"}]}
    yield "a variant without a name", {**tree, "variant": [{"gusset": {"layers": 1}}]}
    yield "an unknown section", {**tree, "no_such_section": {}}
    for edges, finish in tree["finish"].items():
        for name, value in [("length", 50), ("reduction", 5), ("depth", 1), ("bite", 0.3), ("from", "body"), ("lap", 0.2)]:
            if name not in finish and name != "from":
                yield f"finish.{edges}.{name} = {value}", put(tree, ("finish", edges, name), value)


def checks(record, sheet, job):
    schema = json.loads(subprocess.run([job["program"], "schema"], check=True, capture_output=True).stdout)
    Draft202012Validator.check_schema(schema)
    validator = Draft202012Validator(schema, format_checker=Draft202012Validator.FORMAT_CHECKER)
    with open(job["sheet"], "rb") as f:
        tree = tomllib.load(f)
    fault = next(validator.iter_errors(as_json(tree)), None)
    yield {"name": "the sheet is valid by the schema", "ok": fault is None, "detail": str(fault)[:300]}
    if job.get("variants"):
        yield written(job, validator)
        yield from agreement(job, validator, tree)


def written(job, validator):
    """What `new` writes is valid in every unit."""
    faults = []
    with tempfile.TemporaryDirectory() as folder:
        for units in ["cm", "mm", "in"]:
            path = Path(folder) / f"{units}.toml"
            subprocess.run([job["program"], "new", path, "--units", units], check=True, capture_output=True)
            tree = tomllib.loads(path.read_text(encoding="utf-8"))
            faults += [f"{units}: {e.message}" for e in validator.iter_errors(as_json(tree))]
    return {"name": "new sheets are valid by the schema", "ok": not faults, "detail": "; ".join(faults)[:300]}


def agreement(job, validator, tree):
    refused, read, apart = 0, 0, []
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "spoilt.toml"
        for name, bad in spoilt(tree):
            path.write_text(as_toml(bad), encoding="utf-8")
            code = subprocess.run([job["program"], "check", path], capture_output=True).returncode
            valid = validator.is_valid(as_json(bad))
            refused += not valid
            read += valid
            if valid != (code in (0, 1)):
                apart.append(f"{name}: valid {valid}, exit code {code}")
    detail = f"{len(apart)} of {refused + read}: {'; '.join(apart[:8])}"
    yield {"name": "schema and reader refuse the same sheets", "ok": not apart, "detail": detail}
    many = refused > 200 and read > 20
    yield {"name": "many spoilt sheets were tried", "ok": many, "detail": f"{refused} refused, {read} read"}
