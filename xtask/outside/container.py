"""Checks a case file with Python's zipfile and hashlib: every part is sound, is listed with its length
and SHA-256, and nothing else is in it.

Arguments: the case file, a folder to unpack it into.
"""

import hashlib
import json
import sys
import zipfile
from pathlib import Path

with zipfile.ZipFile(sys.argv[1]) as container:
    assert container.testzip() is None, "a part is damaged"
    names = container.namelist()
    assert len(names) == len(set(names)), "a name stands twice"
    listed = json.loads(container.read("manifest.json"))["parts"]
    assert sorted([p["name"] for p in listed] + ["manifest.json"]) == sorted(names), "parts and manifest differ"
    for part in listed:
        data = container.read(part["name"])
        assert len(data) == part["bytes"], part
        assert hashlib.sha256(data).hexdigest() == part["sha256"], part
    case = json.loads(container.read("case.json"))
    for photo in case["photos"]:
        assert hashlib.sha256(container.read(photo["part"])).hexdigest() == photo["sha256"], photo["name"]
    container.extractall(Path(sys.argv[2]))
print(f"zipfile reads {len(names)} parts; {len(listed)} SHA-256 agree")
