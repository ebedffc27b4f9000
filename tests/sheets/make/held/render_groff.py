"""Blocks to troff, through groff's PostScript and Ghostscript, or through gropdf."""

import os
import subprocess


def e(s):
    s = s.replace("\\", "\\e")
    return "\n".join(("\\&" + l if l[:1] in ".'" else l) for l in s.split("\n"))


def br(s):
    return e(s).replace("\n", "\n.br\n")


def table(widths, header, rows, total, box, size):
    unit = lambda w: f"{total * w / 100 - 0.42:.2f}c"
    fmt = " ".join(f"lw({unit(w)})p{size}" for w in widths)
    out = [".", (".TS H" if header else ".TS"), f"{box}{' ' if box else ''}tab(@);" if box else "tab(@);"]
    if header:
        out += [" ".join(f"lbw({unit(w)})p{size}" for w in widths), fmt + "."]
        out.append("@".join("T{\n.ad l\n" + br(h) + "\nT}" for h in header))
        out.append(".TH")
    else:
        out.append(fmt + ".")
    for r in rows:
        out.append("@".join("T{\n.ad l\n" + br(c) + "\nT}" for c in r))
    out.append(".TE")
    return out


def source(doc, o):
    kv = o.get("kv", "dots")
    fam, ps = o.get("family", "T"), o.get("ps", 10)
    width = o.get("ll", 17.0)
    col = o.get("col", width)
    out = [f".nr LL {width}c", f".nr PO {o.get('po', 2.0)}c", f".nr PS {ps}", f".nr VS {ps + o.get('lead', 2)}", f".nr HM 2.2c", ".nr FM 2c", ".nr PD 0.25v", f".fam {fam}", f".ds FAM {fam}"]
    lt, ct, rt = o["header"](doc)
    lf, cf, rf = o["footer"](doc)
    # ms prints its headers with the titles LH CH RH and LF CF RF; % is the page number.
    out += [f".ds LH {lt}", f".ds CH {ct}", f".ds RH {rt}", f".ds LF {lf}", f".ds CF {cf}", f".ds RF {rf}"]
    out += [".LP", ".ps +4", ".ft B", ".ce 1", e(doc["title"]), ".ft R", ".ps -4", ".sp 0.5"]
    for l, v in o["head_lines"](doc):
        out += [f"{e(l)} {e(v)}", ".br"]
    if o.get("columns"):
        out.append(".2C")
    for s in doc["sections"]:
        out += [".ne 5", ".sp 0.7"]
        if o.get("rule"):
            out += ["\\l'\\n(.lu'", ".br"]
        out += [".ft B", f".ps +{o.get('hps', 1)}", ".na", e(s["heading"]), ".br", f".ps -{o.get('hps', 1)}", ".ft R", ".ad b" if o.get("justify") else ".ad l"]
        for b in s["blocks"]:
            if b[0] == "sub":
                out += [".sp 0.4", ".ne 3", ".ft " + o.get("subfont", "I"), e((b[1] + " " + b[2]).strip()), ".br", ".ft R"]
            elif b[0] == "kv" and b[2] == "":
                out += [".sp 0.2", ".ne 2", e(b[1]) + " :" if doc["lang"] == "fr" else e(b[1]) + ":", ".br"]
            elif b[0] == "kv":
                if kv == "dots" and len(b[1]) + len(b[2]) < o.get("fit", 70) and "\n" not in b[2]:
                    out += [".br", f".ta \\n(.luR", f"{e(b[1])} \x01 {e(b[2])}", ".br"]
                elif kv == "colon":
                    out += [".br", f"\\fB{e(b[1])}{o.get('colon', ':')}\\fP", br(b[2]), ".br"]
                elif kv == "tag":
                    out += [".br", f".in {o.get('tagin', 5.5)}c", f".ti -{o.get('tagin', 5.5)}c", f".ta {o.get('tagin', 5.5)}c", e(b[1]) + "\t" + br(b[2]), ".br", ".in 0"]
                else:
                    out += [".br", e(b[1]) + o.get("colon", ":"), ".br", ".in 0.6c", br(b[2]), ".br", ".in 0"]
            elif b[0] == "p":
                out += [br(b[1]) if b[1] else ".sp 0.4", ".br"]
            elif b[0] == "note":
                out += [".ps -2", br(b[1]), ".br", ".ps +2"]
            elif b[0] == "li":
                for i in b[1]:
                    out += ["\\(bu " + e(i), ".br"]
            elif b[0] == "codes":
                for c, t in b[1]:
                    w = o.get("codein", 3.6)
                    if len(c) > 14:
                        out += [e(c), ".br", f".in {w}c", e(t), ".br", ".in 0"]
                    else:
                        out += [f".in {w}c", f".ti -{w}c", f".ta {w}c", e(c) + "\t" + e(t), ".br", ".in 0"]
            elif b[0] == "table":
                _, key, cols, rows, widths = b
                out += table(widths, cols, rows, col, o.get("box", "allbox"), o.get("tps", {}).get(key, ps - 2))
            else:
                raise ValueError(b[0])
    return "\n".join(out) + "\n"


def run(doc, o, pdf, tmp, device):
    src = os.path.join(tmp, "in.ms")
    open(src, "w", encoding="utf-8").write((o["pre"] + "\n" if o.get("pre") else "") + source(doc, o))
    env = dict(os.environ, SOURCE_DATE_EPOCH="1700000000")
    lang = {"fr": ["-mfr"], "de": ["-mde"], "es": [], "en": []}[doc["lang"]]
    cmd = ["groff", "-k", "-Kutf8", "-t", "-ms", *lang, f"-T{device}", *o.get("args", []), src]
    made = subprocess.run(cmd, check=True, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=env)
    noise = [l for l in made.stderr.decode().splitlines() if "can't break" not in l and "cannot adjust" not in l and l.strip()]
    if noise:
        print("groff:", noise[:6])
    if device == "pdf":
        open(pdf, "wb").write(made.stdout)
    else:
        ps = os.path.join(tmp, "in.ps")
        open(ps, "wb").write(made.stdout)
        subprocess.run(["gs", "-q", "-dNOPAUSE", "-dBATCH", "-sDEVICE=pdfwrite", f"-sPAPERSIZE={o.get('paper', 'a4')}", "-dAutoRotatePages=/None", "-sOutputFile=" + pdf, ps], check=True, env=env)


def groff_gs(doc, o, pdf, tmp):
    run(doc, o, pdf, tmp, "ps")


def gropdf(doc, o, pdf, tmp):
    run(doc, o, pdf, tmp, "pdf")
