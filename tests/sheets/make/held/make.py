"""Makes the held-out sheets: python3 make.py [NAME ...]. Run by hand; see README.md for the packages it wants."""

import json
import os
import re
import shutil
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, HERE)
HELD = os.path.normpath(os.path.join(HERE, "..", "..", "held"))
os.environ["SOURCE_DATE_EPOCH"] = "1700000000"
os.environ["TZ"] = "UTC"

from content import build  # noqa: E402


def steady(pdf):
    """The same bytes from the same text: dates and file identifiers out of the clock are written over, keeping every length."""
    data = open(pdf, "rb").read()
    data = re.sub(rb"D:\d{14}", b"D:20231114221320", data)
    data = re.sub(rb"(<xmp:(?:CreateDate|ModifyDate|MetadataDate)>)(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d)", rb"\g<1>2023-11-14T22:13:20", data)
    data = re.sub(rb"(<(?:pdf|xmp):(?:CreationDate|CreateDate)>)(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d)", rb"\g<1>2023-11-14T22:13:20", data)
    data = re.sub(rb"/ID\s*\[\s*<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>", lambda m: m.group(0).replace(m.group(1), b"0" * len(m.group(1))).replace(m.group(2), b"0" * len(m.group(2))), data)
    data = re.sub(rb"(/DocChecksum /)([0-9A-F]{32})", lambda m: m.group(1) + b"0" * 32, data)
    data = re.sub(rb"uuid:[0-9a-f-]{36}", b"uuid:00000000-0000-0000-0000-000000000000", data)
    open(pdf, "wb").write(data)


def squeeze(s):
    s = s.replace("ﬁ", "fi").replace("ﬂ", "fl").replace("ﬀ", "ff").replace("ﬃ", "ffi").replace("’", "'").replace("\u00ad", "").replace("\u2011", "-")
    return re.sub(r"[\s\u00a0\u202f]+|(?<=\w)[-‐]\n", "", s).casefold()


def pages_of(pdf):
    out = subprocess.run(["pdftotext", "-enc", "UTF-8", pdf, "-"], check=True, stdout=subprocess.PIPE).stdout.decode()
    return out.split("\f")[:-1]


def title_pages(doc, pages, file):
    found = [0] * 16
    flat = [squeeze(p).replace("-", "").replace("‐", "") for p in pages]
    for s in doc["sections"]:
        want = squeeze(s["heading"]).replace("-", "").replace("‐", "")
        hits = [i + 1 for i, p in enumerate(flat) if want in p]
        if len(hits) != 1:
            print(f"  {file}: title {s['n']} on pages {hits}")
        found[s["n"] - 1] = hits[0] if hits else -1
    real = [x for x in found if x]
    if real != sorted(real):
        print(f"  {file}: titles out of order {found}")
    return found


def main():
    import specs_fr
    sheets = list(specs_fr.SHEETS)
    for more in ("specs_de_es", "specs_en"):
        if os.path.exists(os.path.join(HERE, more + ".py")):
            sheets += __import__(more).SHEETS
    wanted = sys.argv[1:]
    os.makedirs(HELD, exist_ok=True)
    for spec in sheets:
        if wanted and spec["file"] not in wanted:
            continue
        doc, truth = build(spec)
        pdf = os.path.join(HELD, spec["file"] + ".pdf")
        tmp = tempfile.mkdtemp(prefix="held-")
        try:
            spec["render"](doc, spec["o"], pdf, tmp)
        finally:
            shutil.rmtree(tmp)
        steady(pdf)
        if "after" in spec:
            spec["after"](pdf)
        pages = pages_of(pdf)
        truth["pages"] = len(pages)
        truth["sections"] = title_pages(doc, pages, spec["file"])
        with open(pdf[:-4] + ".json", "w", encoding="utf-8") as f:
            json.dump(truth, f, ensure_ascii=False, indent=1)
            f.write("\n")
        print(f"{spec['file']}: {len(pages)} pages, {os.path.getsize(pdf) // 1024} KiB, sections {truth['sections']}")
    if not wanted or any(w.startswith("no-") for w in wanted):
        if os.path.exists(os.path.join(HERE, "refusals.py")):
            import refusals
            refusals.make(HELD, steady)


if __name__ == "__main__":
    main()
