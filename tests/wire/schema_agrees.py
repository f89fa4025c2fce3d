#!/usr/bin/python3
"""protocols/child.schema.json and the program must agree about the form of every child file of the tests.

Exit 77 (skipped) without the Debian package python3-jsonschema.
"""
import json
import pathlib
import sys

try:
    import jsonschema
except ImportError:
    print("python3-jsonschema is not installed")
    sys.exit(77)

ROOT = pathlib.Path(sys.argv[1])
CASES = ROOT / "tests" / "findings"
# Mistakes of form are the schema's too. The others need a calendar, a scale, an age or the bytes themselves.
FORM = {"wrong-type", "wrong-word", "missing-key", "unknown-key", "missing-unit", "wrong-unit", "bad-number", "wrong-use"}

schema = json.loads((ROOT / "protocols" / "child.schema.json").read_text())
jsonschema.Draft202012Validator.check_schema(schema)
validator = jsonschema.Draft202012Validator(schema)
wrong = []
counts = {"accepted": 0, "refused": 0}

for path in sorted((CASES / "good" / "child").glob("*.json")) + [ROOT / "protocols" / "demo-child.json"]:
    counts["accepted"] += 1
    for error in validator.iter_errors(json.loads(path.read_text())):
        wrong.append(f"{path.name}: the schema refuses what the program reads: {error.message}")

for path in sorted((CASES / "bad" / "child").glob("*.json")):
    kinds = {line.split(" ")[0] for line in path.with_suffix(".expect").read_text().splitlines() if line}
    if not kinds <= FORM:
        continue
    counts["refused"] += 1
    if validator.is_valid(json.loads(path.read_text())):
        wrong.append(f"{path.name}: the schema takes what the program refuses")

print(f"{counts['accepted']} accepted, {counts['refused']} refused")
print("\n".join(wrong))
sys.exit(1 if wrong or min(counts.values()) == 0 else 0)
