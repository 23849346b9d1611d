#!/usr/bin/env python3
"""The schemas in docs/schema against an independent validator (python3-jsonschema) and the program.

schemas.py SETTEE SOURCE_DIR [COUNT [SEED]]

Every file that is shipped fits its schema. COUNT changed copies of each good file (50, some 500 in
all) go to the program's reader and to the validator. What the reader takes, the schema must take; what the
reader refuses and the schema takes must be refused for a reason that a schema can't hold: REASONS,
which docs/files.md lists.
"""
import copy
import glob
import json
import os
import random
import re
import subprocess
import sys
import tempfile
import zlib

from jsonschema import Draft202012Validator

# What the reader says, by the rows of docs/files.md's table.
REASONS = {
    # a journal is known by its first key
    # and a lesson that begins with "left" looks like a shot
    "order of keys": r"the first key must be|expected nothing more after the end of the value"
    r"|known: lane, slot, stance|unknown key \"[a-z_]+\"; did you mean",
    "bytes": r"found text of \d+ bytes",
    "once": r"a second time|in slot \d+, where",
    "other keys": r"at most the differential|the smaller first|a range with rotation_deg"
    r"|the lower board first|a start before the end|feet, the length|readings by rising distance"
    r"|found \d+ others|found \d+ with urethane|and in \"|only after a \"left\"|found \d+ pairs|are not in a house of|would be on lane|found a \"spare_foul\""
    r"|not among those (of \"left\"|left)|both \"oil_by\" and \"suits\"",
    "balls of a game": r"\.score\.balls: ",
    "braces": r"a brace that means nothing here",
    "what can't have been": r"a gutter ball leaves|wide misses the head pin"
    r"|takes the 1 pin down|stands alone can be ringing",
    "calendar": r"allowed: a date such as",
    "names": r"allowed: about:nothing|found (length|volume|ratio) ",
    "other files": r": no such file|the path .* is too long",
    "other lines": r"found entry \d+ where",
}

SETTEE, SOURCE = sys.argv[1], sys.argv[2]
COUNT = int(sys.argv[3]) if len(sys.argv) > 3 else 50
SEED = int(sys.argv[4]) if len(sys.argv) > 4 else 1
GOOD = os.path.join(SOURCE, "tests/data/good")
problems = []


def load_schemas():
    schemas = {}
    for path in sorted(glob.glob(os.path.join(SOURCE, "docs/schema/*.json"))):
        with open(path, encoding="utf-8") as file:
            schema = json.load(file)
        Draft202012Validator.check_schema(schema)
        assert schema["$id"].endswith("/" + os.path.basename(path)), path
        schemas[os.path.basename(path)[:-5]] = schema
    return schemas


SCHEMAS = load_schemas()
VALIDATORS = {name: Draft202012Validator(schema) for name, schema in SCHEMAS.items()}
LINE = Draft202012Validator(
    {"$ref": "#/$defs/shot", "$defs": SCHEMAS["settee-shots-1"]["$defs"]}
)


def kind_of(value):
    if isinstance(value, dict) and isinstance(value.get("format"), str):
        return value["format"].replace("/", "-")
    return "settee-shots-1"


def read(path):
    """A list of values: one, or one a line."""
    with open(path, encoding="utf-8") as file:
        text = file.read()
    if path.endswith((".jsonl", ".journal")):
        return [json.loads(line) for line in text.splitlines() if line.strip()]
    return [json.loads(text)]


def fits(name, values):
    """Whether the values of a file of that (good) name fit the schema."""
    if name.endswith(".jsonl"):
        return len(values) <= 600 and all(LINE.is_valid(value) for value in values)
    if name.endswith(".journal"):
        entry = VALIDATORS["settee-journal-1"]
        return all(entry.is_valid(value) and ("format" in value) == (at == 0)
                   for at, value in enumerate(values))
    return VALIDATORS[kind_of(read(os.path.join(GOOD, name))[0])].is_valid(values[0])


def sealed(value):
    """A journal's line with the sum that belongs to it."""
    value = {key: item for key, item in value.items() if key != "sum"}
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))[:-1]
    return '%s,"sum":"%08x"}' % (text, zlib.crc32(text.encode("utf-8")))


def write(path, name, values):
    with open(path, "w", encoding="utf-8") as file:
        for value in values:
            plain = not name.endswith(".journal")
            file.write((json.dumps(value, ensure_ascii=False) if plain else sealed(value)) + "\n")


def check(paths, home):
    """What the program says of each file: None for ok, else the fault."""
    said = {}
    for at in range(0, len(paths), 200):
        run = subprocess.run([SETTEE, "check", "--json", *paths[at:at + 200]], text=True,
                             capture_output=True, check=False, encoding="utf-8",
                             env={"HOME": home, "PATH": "/usr/bin:/bin"})
        for row in json.loads(run.stdout)["files"]:
            said[row["file"]] = None if row["ok"] else row["fault"]
    return [said[path] for path in paths]


# ---- changes ----

ODD = [None, True, False, 0, 1, -1, 0.5, 1e9, "", " ", "x", "left", "2026-02-30", "\u0007", [], {},
       [1], [[]], {"x": 1}, "é" * 40, "a" * 47, "a" * 48, "a" * 64, "a\u0007b", "\u202e", "#20a0fF"]


def places(value, found):
    """Every (container, key) in the value, but for the sums of a journal."""
    items = value.items() if isinstance(value, dict) else enumerate(value)
    for key, item in items:
        if key == "sum":
            continue
        found.append((value, key))
        if isinstance(item, (dict, list)):
            places(item, found)
    return found


def limits(schema, found):
    """Every bound that the schema names: the values to try at and beyond."""
    if isinstance(schema, dict):
        for key, item in schema.items():
            if key in ("minimum", "maximum") and abs(item) < 1e6:
                found.append(item)
            limits(item, found)
    elif isinstance(schema, list):
        for item in schema:
            limits(item, found)
    return found


BOUNDS = {name: sorted(set(limits(schema, []))) for name, schema in SCHEMAS.items()}


def words(schema, found):
    if isinstance(schema, dict):
        found.extend(item for item in schema.get("enum", []) if isinstance(item, str))
        for item in schema.values():
            words(item, found)
    elif isinstance(schema, list):
        for item in schema:
            words(item, found)
    return found


WORDS = {name: sorted(set(words(schema, []))) for name, schema in SCHEMAS.items()}


def keys(schema, found):
    if isinstance(schema, dict):
        if isinstance(schema.get("properties"), dict):
            found.extend(schema["properties"])
        for item in schema.values():
            keys(item, found)
    elif isinstance(schema, list):
        for item in schema:
            keys(item, found)
    return found


KEYS = {name: sorted(set(keys(schema, [])) - {"sum"}) for name, schema in SCHEMAS.items()}


def new_value(rng, kind, old):
    bounds = BOUNDS[kind] or [0]
    number = isinstance(old, (int, float)) and not isinstance(old, bool)
    if number and rng.random() < 0.8:
        return rng.choice(bounds) + rng.choice([0, 0, 0, 0.001, -0.001, 1, -1, 0.5])
    if isinstance(old, str) and rng.random() < 0.6:
        return rng.choice([rng.choice(WORDS[kind] or [""]), old + "\u0007", " " + old, old.upper(),
                           old + "x", old[:-1]])
    return copy.deepcopy(rng.choice(ODD))


def change(rng, kind, value):
    found = places(value, [])
    if not found:
        return
    where, key = rng.choice(found)
    act = rng.randrange(6)
    if act == 0 and isinstance(where, dict):
        del where[key]
    elif act == 0:
        where.pop(key)
    elif act == 1 and isinstance(where, dict):
        where[rng.choice(KEYS[kind] + ["x"])] = new_value(rng, kind, where[key])
    elif act == 1:
        where.insert(key, copy.deepcopy(where[key]))
    elif act == 2 and isinstance(where, dict):  # the same keys in another order
        order = list(where.items())
        rng.shuffle(order)
        where.clear()
        where.update(order)
    elif act == 2:
        where[:] = where * rng.choice([2, 9, 41])
    elif act == 3:  # a value from elsewhere
        other, there = rng.choice(found)
        where[key] = copy.deepcopy(other[there])
    else:
        where[key] = new_value(rng, kind, where[key])


def mutated(rng, name, kind):
    values = read(os.path.join(GOOD, name))
    for _ in range(rng.choice([1, 1, 1, 2, 3])):
        change(rng, kind, rng.choice([value for value in values if value] or [{}]))
    return values


def shipped():
    count = 0
    for pattern in ("patterns/*.json", "themes/*.json", "src/builtin/*/*.json",
                    "tests/data/good/*"):
        for path in sorted(glob.glob(os.path.join(SOURCE, pattern))):
            values = read(path)
            kind = kind_of(values[0])
            validator = LINE if path.endswith(".jsonl") else VALIDATORS[kind]
            for value in values:
                for error in validator.iter_errors(value):
                    problems.append("%s: %s" % (path, error.message[:200]))
            count += 1
    print("%d shipped files fit their schemas" % count)
    assert count > 30


def every_format(home):
    """The program names its formats when it is given another."""
    path = os.path.join(home, "format.json")
    with open(path, "w", encoding="utf-8") as file:
        file.write('{"format": "x"}')
    named = set(re.findall(r"settee-[a-z]+/\d", check([path], home)[0]))
    assert len(named) > 5
    for name in named:
        if name.replace("/", "-") not in SCHEMAS:
            problems.append("no schema for " + name)


def compare(home, good):
    name = os.path.basename(good)
    kind = kind_of(read(good)[0])
    rng = random.Random("%s %d" % (name, SEED))
    paths, verdicts = [], []
    while len(paths) < COUNT:
        values = mutated(rng, name, kind)
        path = os.path.join(home, "%d-%s" % (len(paths), name))
        write(path, name, values)
        paths.append(path)
        verdicts.append(fits(name, values))
    reasons, both = {}, [0, 0]
    for path, fit, fault in zip(paths, verdicts, check(paths, home)):
        if fault is None and not fit:
            with open(path, encoding="utf-8") as file:
                problems.append("the reader takes what the schema refuses: " + file.read()[:2000])
        elif fault is not None and fit:
            reason = next((key for key, words in REASONS.items() if re.search(words, fault)), None)
            reasons[reason] = reasons.get(reason, 0) + 1
            if reason is None:
                problems.append("the schema takes what the reader refuses: " + fault)
        else:
            both[fit] += 1
        os.remove(path)
    print("%s: %d taken and %d refused by both, %d by the reader alone %s" %
          (name, both[1], both[0], sum(reasons.values()), reasons or ""))
    assert both[0] and (both[1] or COUNT < 100)


def documented():
    with open(os.path.join(SOURCE, "docs/files.md"), encoding="utf-8") as file:
        page = file.read()
    for reason in REASONS:
        if "| %s |" % reason not in page:
            problems.append("docs/files.md lacks the row of %s" % reason)
    for name in SCHEMAS:
        if "schema/%s.json" % name not in page:
            problems.append("docs/files.md names no schema/%s.json" % name)


def main():
    shipped()
    documented()
    with tempfile.TemporaryDirectory() as home:
        for name in os.listdir(GOOD):  # what an event names
            with open(os.path.join(GOOD, name), "rb") as file:
                text = file.read()
            with open(os.path.join(home, name), "wb") as file:
                file.write(text)
        every_format(home)
        for good in sorted(glob.glob(os.path.join(GOOD, "*"))):
            compare(home, good)
    for problem in sorted(set(problems))[:20]:
        print("PROBLEM " + problem)
    sys.exit(1 if problems else 0)


main()
