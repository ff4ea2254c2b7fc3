"""Checks JSON files against published schemas with the `jsonschema` library.

Arguments: the folder of schemas, then FILE SCHEMA pairs. Prints one line for each.
"""

import json
import sys
from pathlib import Path

import jsonschema


def checked(schema_file, value):
    schema = json.loads(schema_file.read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(value)


def values(node):
    if isinstance(node, dict):
        return sum(map(values, node.values()))
    return sum(map(values, node)) if isinstance(node, list) else 1


schemas, rest = Path(sys.argv[1]), sys.argv[2:]
for file, name in zip(rest[::2], rest[1::2], strict=True):
    value = json.loads(Path(file).read_text())
    checked(schemas / f"{name}.schema.json", value)
    reports = [p["reading"]["report"] for p in value.get("photos", []) if "reading" in p] if name == "case" else []
    for report in reports:
        checked(schemas / "report.schema.json", report)
    inside = f", with {len(reports)} reports in it" if reports else ""
    print(f"{Path(file).name} is a {name}: {values(value)} values{inside}")
