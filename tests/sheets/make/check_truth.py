"""Checks every NAME.json beside NAME.pdf in the folders given against the schema of ../README.md: python3 check_truth.py ../held ../open.
With --text it also looks up each value in the words of the PDF (wants pdftotext)."""

import json
import os
import re
import subprocess
import sys
import unicodedata

FACTS = ["product", "supplier", "revision_date", "revision", "signal_word", "codes", "ingredients", "bad_cas", "ufi", "ph", "state", "density_g_ml",
         "flash_point", "boiling_c", "vapour_pressure_hpa", "voc", "limits", "transport", "sections", "contradictions"]
HEAD = ["file", "language", "producer", "layout", "pages", "expected"]
STATES = {"liquid", "solid", "paste", "gas", "aerosol", "cloth", None}
WHERE = {"EU", "DE", "UK", "ES", "FR", "US-OSHA", "US-NIOSH", "US-ACGIH"}
CODE = re.compile(r"(H\d{3}[A-Za-z]{0,2}|EUH\d{3}[A-Z]?|P\d{3}(\+P\d{3})*)\Z")
faults = []


def number(x):
    return isinstance(x, (int, float)) and not isinstance(x, bool)


def check_digit(cas):
    d = cas.replace("-", "")
    return sum((i + 1) * int(c) for i, c in enumerate(reversed(d[:-1]))) % 10 == int(d[-1])


def ec_digit(ec):
    d = [int(c) for c in ec.replace("-", "")]
    return sum((i + 1) * x for i, x in enumerate(d[:6])) % 11 == d[6]


def keys(name, what, value, wanted):
    if set(value) != set(wanted):
        faults.append(f"{name}: {what} has {sorted(set(value) ^ set(wanted))} too many or too few")
        return False
    return True


def check(name, t):
    say = lambda s: faults.append(f"{name}: {s}")
    if t.get("file") != name + ".pdf":
        say("file is not its own name")
    if t.get("language") not in ("en", "de", "fr", "es"):
        say("language")
    expected = t.get("expected")
    if expected not in ("facts", "no_text", "not_a_sheet", "encrypted", "damaged"):
        say("expected")
    if not keys(name, "the whole", t, HEAD + (FACTS if expected == "facts" else [])) or expected != "facts":
        return
    if t["revision_date"] is not None and not re.fullmatch(r"\d{4}-[01]\d-[0-3]\d", t["revision_date"]):
        say("revision_date")
    if t["signal_word"] not in ("danger", "warning", "none", None):
        say("signal_word")
    if len(set(t["codes"])) != len(t["codes"]) or not all(CODE.match(c) for c in t["codes"]):
        say("codes")
    for i in t["ingredients"]:
        keys(name, "an ingredient", i, ["name", "cas", "ec", "reach", "range", "trade_secret", "codes"])
        if i["cas"] is not None and not (re.fullmatch(r"\d{2,7}-\d\d-\d", i["cas"]) and check_digit(i["cas"])):
            say(f"CAS {i['cas']}")
        if i["ec"] is not None and not (re.fullmatch(r"\d{3}-\d{3}-\d", i["ec"]) and ec_digit(i["ec"])):
            say(f"EC {i['ec']}")
        if i["reach"] is not None and not re.fullmatch(r"\d\d-\d{10}-\d\d", i["reach"]):
            say(f"REACH {i['reach']}")
        if not all(CODE.match(c) for c in i["codes"]):
            say(f"codes of {i['name']}")
        r = i["range"]
        if r is not None:
            keys(name, "a range", r, ["low", "low_open", "high", "high_open", "unit"])
            if r["unit"] not in ("%", "% v/v") or (r["low"] is None and r["high"] is None) or (None not in (r["low"], r["high"]) and r["low"] > r["high"]):
                say(f"range of {i['name']}")
    for c in t["bad_cas"]:
        if check_digit(c):
            say(f"bad_cas {c} is a good one")
    if t["ph"] is not None:
        keys(name, "ph", t["ph"], ["low", "high", "concentration_pct", "celsius", "not_applicable"])
        if t["ph"]["not_applicable"] != (t["ph"]["low"] is None) or (t["ph"]["low"] is not None and not 0 <= t["ph"]["low"] <= t["ph"]["high"] <= 14):
            say("ph")
    if t["state"] not in STATES:
        say("state")
    for what, wanted in (("density_g_ml", ["low", "high", "celsius"]), ("boiling_c", ["low", "high"]), ("voc", ["value", "unit"]), ("transport", ["un", "class", "packing_group"]), ("flash_point", ["celsius", "sign", "not_applicable"])):
        if t[what] is not None:
            keys(name, what, t[what], wanted)
    if t["flash_point"] is not None and t["flash_point"]["sign"] not in ("=", ">", "<", None):
        say("flash_point")
    if t["voc"] is not None and t["voc"]["unit"] not in ("%", "g/l"):
        say("voc")
    if t["vapour_pressure_hpa"] is not None and not number(t["vapour_pressure_hpa"]):
        say("vapour_pressure_hpa")
    for l in t["limits"]:
        keys(name, "a limit", l, ["cas", "jurisdiction", "kind", "mg_m3", "ppm"])
        if l["jurisdiction"] not in WHERE or l["kind"] not in ("twa", "stel", "ceiling") or (l["mg_m3"] is None and l["ppm"] is None):
            say(f"limit {l}")
    if t["transport"] is not None and not re.fullmatch(r"\d{4}", t["transport"]["un"]):
        say("transport")
    real = [p for p in t["sections"] if p]
    if len(t["sections"]) != 16 or real != sorted(real) or not all(0 <= p <= t["pages"] for p in t["sections"]):
        say(f"sections {t['sections']}")
    if not set(t["contradictions"]) <= {"ph_without_corrosive", "over_100", "two_against_three"}:
        say("contradictions")
    # What a sheet holds of itself: contradictions the numbers alone show are named, and no other is.
    low = sum(i["range"]["low"] or 0 for i in t["ingredients"] if i["range"] and i["range"]["unit"] == "%")
    if (low > 100) != ("over_100" in t["contradictions"]):
        say(f"low ends sum to {low:g} against {t['contradictions']}")
    p = t["ph"]
    extreme = bool(p and p["low"] is not None and (p["low"] <= 2 or p["high"] >= 11.5))
    if extreme and not {"H314", "H318", "H290"} & set(t["codes"]) and "ph_without_corrosive" not in t["contradictions"]:
        print(f"{name}: note: pH {p['low']}-{p['high']} without a corrosive code; the sheet must state a reason")
    if "ph_without_corrosive" in t["contradictions"] and (not extreme or {"H314", "H318", "H290"} & set(t["codes"])):
        say("ph_without_corrosive is not so")


def squeeze(s):
    s = unicodedata.normalize("NFKC", s).replace("’", "'").replace("\u00ad", "").replace("‐", "-").replace("−", "-")
    return re.sub(r"[\s-]+", "", s).casefold()


def words(folder, name, t):
    """Each stated value stands somewhere in the text; written numbers with either decimal mark."""
    out = subprocess.run(["pdftotext", "-enc", "UTF-8", os.path.join(folder, name + ".pdf"), "-"], stdout=subprocess.PIPE, check=True).stdout.decode()
    if out.count("\f") != t["pages"]:
        faults.append(f"{name}: {out.count(chr(12))} pages, not {t['pages']}")
    flat = squeeze(out)
    # Cells of a table can come out line by line, so long names are looked up word by word.
    bag = set(re.findall(r"\w+", unicodedata.normalize("NFKC", out).casefold()))
    need = [t["product"], t["supplier"], t["revision"], t["ufi"]] + t["bad_cas"]
    if t["transport"]:
        need += [t["transport"]["un"], t["transport"]["class"]]
    for i in t["ingredients"]:
        need += [i["cas"], i["ec"]] + i["codes"]
        if i["reach"] and squeeze(i["reach"]) not in flat and not all(part in flat for part in i["reach"].split("-")):
            faults.append(f"{name}: {i['reach']} not in the text")
        for w in re.findall(r"\w+", unicodedata.normalize("NFKC", i["name"]).casefold()):
            if w not in bag and squeeze(w) not in flat and len(w) < 12:
                faults.append(f"{name}: word {w!r} of {i['name']} not in the text")
    for n in need:
        if n and squeeze(n) not in flat:
            faults.append(f"{name}: {n!r} not in the text")
    from_text = re.sub(r"(?<=\d)[\u00a0\u202f ](?=\d{3}\b)", "", unicodedata.normalize("NFKC", out)).replace(",", ".")
    numbers = {float(x) for x in re.findall(r"\d+(?:\.\d+)?", from_text)}
    for l in t["limits"]:
        for v in (l["mg_m3"], l["ppm"]):
            if v is not None and v not in numbers:
                faults.append(f"{name}: limit {v} not in the text")
    for i in t["ingredients"]:
        for v in (i["range"]["low"], i["range"]["high"]) if i["range"] else ():
            if v is not None and v not in numbers:
                faults.append(f"{name}: bound {v} not in the text")
    return flat


def main():
    text = "--text" in sys.argv
    seen = 0
    for folder in [a for a in sys.argv[1:] if not a.startswith("--")]:
        names = {f.rsplit(".", 1)[0] for f in os.listdir(folder) if f.endswith((".pdf", ".json"))}
        for name in sorted(names):
            path = os.path.join(folder, name)
            if not os.path.exists(path + ".pdf") or not os.path.exists(path + ".json"):
                faults.append(f"{name}: one of the two files is missing")
                continue
            t = json.load(open(path + ".json", encoding="utf-8"))
            check(name, t)
            seen += 1
            if text and t.get("expected") == "facts":
                words(folder, name, t)
    for f in faults:
        print(f)
    print(f"{seen} sheets, {len(faults)} faults")
    return 1 if faults or not seen else 0


if __name__ == "__main__":
    sys.exit(main())
