"""Compares the colours of a report with those that LittleCMS read from its CGATS text.

Arguments: the report, the CGATS text, what transicc made of it (Lab to Lab).
"""

import json
import sys
from pathlib import Path


def rows(text):
    body = text.split("BEGIN_DATA\n")[1].split("END_DATA")[0]
    return [line.split("\t") for line in body.splitlines() if line.strip()]


report, ours, theirs = (Path(p).read_text() for p in sys.argv[1:4])
report = json.loads(report)
zones = {(r["region"], z): v for r in report["readings"] for z, v in r["zones"].items()}
names = {r["id"]: r["name"] or r["id"] for r in report["scene"]["regions"]}
said = {(names[region], zone): v for (region, zone), v in zones.items()}
colours = {row[0].strip(): [float(v) for v in row[1:4]] for row in rows(theirs)}
worst = 0.0
for row in rows(ours):
    number, _, name, kind, zone, *lab, doubt = row
    want = said[name.strip('"'), zone]
    assert abs(float(doubt) - want["doubt"]) <= 0.0051, row
    for got, kept, exact in zip(colours[number], lab, want["lab"], strict=True):
        # transicc prints four digits.
        assert abs(got - float(kept)) <= 0.0051, (row, got)
        worst = max(worst, abs(got - exact))
assert len(colours) == len(rows(ours)) == len(zones), "rows are missing"
print(f"LittleCMS reads {len(colours)} colours, at most {worst:.4f} from the report (it prints four digits)")
