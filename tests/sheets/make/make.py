#!/usr/bin/python3
"""Makes the open part of the corpus: python3 make.py [name ...]. Run by hand; the PDFs are committed."""
import json
import os
import subprocess
import sys

from document import Sheet

HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, "..", "open")

U = dict(us=True, subs=False, jur=["US-OSHA", "US-NIOSH", "US-ACGIH"], page="letter", date="us")
X = "SECTION {n}: {t}"
SHEETS = [
    # name, product, language, producer, layout, style, override
    # a browser
    ("en-degreaser-01", "degreaser", "en", "chromium", "kv table, grid tables", dict(title="{S} {n}: {t}", s3="A", vp="hpa")),
    ("en-lacquer-02", "lacquer", "en", "chromium", "US, inline labels, text without codes", dict(U, title="{n}. {t}", kv="inline", s2="text", s3="D", rng="dash", s8="wide", s9="inline", s14="line", temp="F", vp="mmhg", bullets=True)),
    ("de-crosslinker-03", "crosslinker", "de", "chromium", "two columns", dict(title="{S} {n}: {t}", columns=2, kv="inline", s3="C", rng="sym", s8="lines", s9="inline", pt=8.5)),
    ("es-cleaner-04", "cleaner", "es", "chromium", "dotted labels, letter-spaced titles", dict(title="{n}. {t}", spaced=True, upper=True, kv="dots", s3="B", rng="symtight", s8="cells", s9="dots", header="full", borders=False, cellpad="4pt 4pt")),
    ("fr-stripwash-05", "stripwash", "fr", "chromium", "boxed titles, watermark", dict(title="{n}|{t}", h1box=True, kv="table", s3="E", rng="sym", s8="cells", watermark="COPIE", s14="modes", valign="middle")),
    ("en-wax-06", "wax", "en", "chromium", "stacked labels", dict(title="Section {n} - {t}", kv="stacked", s3="G", rng="pct", s8="lines", s9="stacked", subs=False, font="Liberation Serif", dates_at="end", date="long")),
    ("de-adhesive-07", "adhesive", "de", "chromium", "long, repeated heads, three-column section 9", dict(title="{n}. {t}", s3="A2", rng="mixed", s8="wide", s9="table3", pad=6, header="full", pt=10.5)),
    ("es-acid-08", "acid", "es", "chromium", "titles without numbers", dict(title="{t}", h1css="background:#eee;", upper=True, kv="tablecolon", s3="A", rng="endash", s8="table", s9="tablecolon", date="long")),
    ("en-pigment-09", "pigment", "en", "chromium", "landscape", dict(title="{S} {n}. {t}", landscape=True, s3="A", rng="openlow", s8="cells", say_none=False)),
    ("de-bleach-10", "bleach", "de", "chromium", "codes only", dict(title="{n} {t}", s2="codes", s3="B", codes_only=True, rng="less", s8="table", kv="table", hyphens=True, pt=9, labelwidth=22)),
    ("en-enzyme-11", "enzyme", "en", "chromium", "table of classes", dict(title="{S} {n}: {t}", classtable=True, s2="table", s3="A2", rng="ascii", cellpad="1pt 3pt", date="iso", s8="cells")),
    ("fr-lacquer-12", "lacquer", "fr", "chromium", "two columns, tables inside", dict(title="{s} {n} : {t}", columns=2, kv="stacked", s3="D", rng="to", s8="lines", s9="inline", pt=8, s2="codes_sep")),
    ("en-stripwash-13", "stripwash", "en", "chromium", "a wrong CAS number", dict(title="{n}. {t}", s3="D", rng="lessequal", s8="lines", kv="tablecolon", date="uslong"), {"ing": [("ammonia", 5, 10), ("naoh", 2, 5, {"bad": "1310-73-3"}), ("butylglycol", 1, 3)]}),
    # XeTeX
    ("de-degreaser-14", "degreaser", "de", "xetex", "serif, long tables", dict(title="{S} {n}: {t}", s3="A", rng="sym", s8="table", s9="table")),
    ("es-lacquer-15", "lacquer", "es", "xetex", "inline labels", dict(title="{S} {n}: {t}", kv="inline", s3="B", rng="dash", s8="lines", s9="inline", s14="subs", texfont="Carlito")),
    ("en-crosslinker-16", "crosslinker", "en", "xetex", "ligatures, dotted labels", dict(title="{n}  {t}", kv="dots", s3="E", rng="symtight", s8="cells", s9="dots", texfont="EB Garamond", texpt=11, header="full")),
    ("fr-cleaner-17", "cleaner", "fr", "xetex", "ruled titles", dict(title="{S} {n}: {t}", rule=True, kv="tablecolon", s3="A2", rng="ascii", s8="cells", s9="tablecolon", s2="text_codes")),
    ("en-adhesive-18", "adhesive", "en", "xetex", "US, no numbers of codes", dict(U, title="Section {n}: {t}", kv="tablecolon", s2="text", s3="D", rng="dash", s8="table", s9="tablecolon", temp="CF", s14="modes", vp="mmhg")),
    ("de-wax-19", "wax", "de", "xetex", "two columns", dict(title="{n}. {t}", columns=2, kv="stacked", s3="C", s3kv="inline", rng="pct", s8="lines", s9="inline", texpt=9)),
    ("es-aerosol-20", "aerosol", "es", "xetex", "long, watermark", dict(title="{S} {n}. {t}", s3="B", rng="mixed", pad=5, watermark="BORRADOR", s8="wide", s9="table3", header="full", texfont="Carlito")),
    ("en-mild-21", "mild", "en", "xetex", "nothing classified", dict(title="{n}. {t}", upper=True, kv="stacked", s3="F", rng="pct", s8="lines", s9="stacked", subs=False)),
    # pdfTeX
    ("en-aziridine-22", "aziridine", "en", "pdftex", "Latin Modern, ligatures", dict(title="SECTION {n}: {t}", s3="A", rng="pct", s8="lines", s9="table")),
    ("de-cleaner-23", "cleaner", "de", "pdftex", "justified with hyphens", dict(title="{n}. {t}", ragged=False, kv="inline", s3="B", rng="openlow", s8="cells", s9="inline", sans=True)),
    ("es-stripwash-24", "stripwash", "es", "pdftex", "inline labels", dict(title="{n}. {t}", upper=True, kv="inline", s3="D", rng="mixed", s8="lines", s9="dots", s2="text_codes", s14="subs", sans=True)),
    ("fr-adhesive-25", "adhesive", "fr", "pdftex", "two columns", dict(title="SECTION {n}: {t}", columns=2, kv="stacked", s3="C", s3kv="inline", rng="to", s8="lines", s9="inline", texpt=9, sans=True)),
    ("en-acid-26", "acid", "en", "pdftex", "US with codes", dict(U, title="{n}. {t}", kv="tablecolon", s3="D", rng="pctboth", s8="wide", s9="tablecolon", temp="F", s2="codes_text", plusspaces=True, s14="kv", sans=True)),
    # ReportLab
    ("en-softener-27", "softener", "en", "reportlab", "grid tables", dict(title="{S} {n}: {t}", s3="A", rng="sym", kvborders=True, h1back=True, s8="lines")),
    ("de-acid-28", "acid", "de", "reportlab", "rotated pages", dict(title="{S} {n}: {t}", s3="B", rng="sym", rotate=90, s8="cells", kv="tablecolon", s9="table3")),
    ("es-crosslinker-29", "crosslinker", "es", "reportlab", "middle aligned, no rules", dict(title="{n}. {t}", s3="A2", rng="ascii", valign="middle", borders=False, pady=4, s8="wide", kv="inline", s9="inline")),
    ("fr-wax-30", "wax", "fr", "reportlab", "letter-spaced titles", dict(title="RUBRIQUE {n}: {t}", upper=True, spaced=True, s3="E", rng="endash", s8="table", kv="table", header="full")),
    ("en-aerosol-31", "aerosol", "en", "reportlab", "two columns", dict(title="{n}. {t}", columns=2, kv="inline", s3="C", s3kv="inline", rng="openlow", s8="lines", s9="inline", pt=7.5, s14="line")),
    ("de-enzyme-32", "enzyme", "de", "reportlab", "long, page breaks in tables", dict(title="{n}. {t}", s3="B", rng="mixed", pad=7, s8="table", s9="table3", classtable=True, s2="table", header="full", date="dot", print_date=True)),
    ("es-pigment-33", "pigment", "es", "reportlab", "landscape, watermark", dict(title="{S} {n}: {t}", landscape=True, s3="G", rng="to", watermark="MUESTRA", s8="cells", kv="dots", s9="dots")),
    ("en-degreaser-34", "degreaser", "en", "reportlab", "US, trade secret", dict(U, title="Section {n}. {t}", kv="table", s3="D", rng="dash", s8="table", s9="table", temp="F", s2="text", vp="kpa", boldh1=False), {"ing": [("mea", 1, 5), ("butylglycol", 5, 10, {"ts": True}), ("metasilicate", 3, 5, {"norange": True})]}),
    ("de-wipes-35", "wipes", "de", "reportlab", "short", dict(title="{n}. {t}", s3="F", rng="pct", kv="stacked", s9="stacked", s8="lines", subs=False)),
    ("en-mild-36", "mild", "en", "reportlab", "section 2 against 3", dict(title="{n}. {t}", s3="A", rng="pct", s8="lines"), {"ing": [("sles", 15, 20), ("betaine", 5, 10), ("bit", 0.005, 0.01)], "contradictions": ["two_against_three"]}),
    # cairo
    ("en-bleach-37", "bleach", "en", "cairo", "table labels", dict(title="{S} {n}: {t}", s3="A", rng="sym", s8="cells")),
    ("de-lacquer-38", "lacquer", "de", "cairo", "two columns", dict(title="{n}. {t}", columns=2, kv="inline", s3="C", s3kv="inline", rng="symtight", s8="lines", s9="inline", pt=8)),
    ("es-adhesive-39", "adhesive", "es", "cairo", "letter-spaced titles, footer", dict(title="{S} {n}: {t}", spaced=True, h1up=1, s3="B", rng="dash", s8="wide", s9="table3", header="full", pt=8, borders=False, rowgap=9)),
    ("fr-acid-40", "acid", "fr", "cairo", "pages turned by their content", dict(title="{S} {n}: {t}", turned=True, s3="A2", rng="sym", s8="table", kv="tablecolon", s9="tablecolon")),
    ("en-softener-41", "softener", "en", "cairo", "plain titles of text size", dict(title="{n}. {t}", boldh1=False, h1up=0, kv="dots", s3="E", rng="ascii", s8="lines", s9="dots", font="DejaVu Serif", pt=8)),
    ("de-stripwash-42", "stripwash", "de", "cairo", "pH 13 and no corrosive statement", dict(title="{S} {n}: {t}", s3="D", rng="pct", s8="lines", kv="stacked", s9="stacked", subs=False, s2="codes_sep"), {"h": ["H315", "H319", "H400"], "signal": "warning", "p": ["P273", "P280", "P302+P352", "P391"], "contradictions": ["ph_without_corrosive"]}),
    ("en-lacquer-43", "lacquer", "en", "cairo", "over a hundred per cent", dict(title="SECTION {n} {t}", upper=True, s3="G", rng="dash", s8="wide", kv="table", s9="table", date="dash", supplier_block=True), {"ing": [("acetone", 50, 75), ("butylacetate", 40, 50), ("ethanol", 20, 25), ("pm", 2.5, 5)], "contradictions": ["over_100"]}),
    ("es-wax-44", "wax", "es", "cairo", "bottom aligned, trade secret", dict(title="{n} – {t}", s3="A", valign="bottom", rng="less", s8="cells", kv="table", watermark="COPIA"), {"ing": [("whitespirit", 50, 75), ("turpentine", 5, 10), ("rosin", 1, 2, {"ts": True})]}),
    ("en-cleaner-45", "cleaner", "en", "chromium", "sixty pages", dict(title="{S} {n}: {t}", s3="A", rng="sym", s8="table", pad=27, header="full", pt=14, dates_at="top")),
]


def extra(out):
    """What is no sheet, or holds no words."""
    import cairo
    tests = {"open-letter-46": "not_a_sheet", "open-price-list-47": "not_a_sheet", "open-scan-48": "no_text"}
    for name, kind in tests.items():
        s = cairo.PDFSurface(os.path.join(out, name + ".pdf"), 595, 842)
        c = cairo.Context(s)
        c.select_font_face("DejaVu Sans")
        c.set_font_size(11)
        lines = {"open-letter-46": ["Lindqvist Invented Works", "", "Dear customer,", "", "enclosed you find the safety data sheet of our degreaser. Please read", "section 8 (personal protection) before use and keep the first aid measures", "at hand. Other information is on our page.", "", "Yours, the workshop"] * 2,
                 "open-price-list-47": ["Price list", "1. Degreaser  12.40", "2. Leather soap  8.10", "3. Lacquer  21.00", "4. Hardener  33.50", "5. Wax  14.00", "Handling and storage fee: 4.00", "Disposal: 2.00", "Transport information: free above 100.00", "CAS 67-64-1 acetone 1 l 6.50", "6. Brushes 3.20", "7. Cloths 2.80"],
                 "open-scan-48": []}[name]
        for i, t in enumerate(lines):
            c.move_to(60, 80 + 18 * i)
            c.show_text(t)
        if kind == "no_text":
            img = cairo.ImageSurface(cairo.FORMAT_RGB24, 300, 420)
            d = cairo.Context(img)
            d.set_source_rgb(1, 1, 1)
            d.paint()
            d.set_source_rgb(0, 0, 0)
            d.set_font_size(9)
            for i, t in enumerate(["SECTION 1: Identification", "Product name: Scanned Soap", "SECTION 2: Hazards identification", "Danger"]):
                d.move_to(20, 30 + 16 * i)
                d.show_text(t)
            c.scale(595 / 300, 842 / 420)
            c.set_source_surface(img, 0, 0)
            c.paint()
        c.show_page()
        s.finish()
        json.dump({"file": name + ".pdf", "language": "en", "producer": "cairo", "layout": "a letter" if "letter" in name else "a list" if "list" in name else "a scan", "pages": 1, "expected": kind}, open(os.path.join(out, name + ".json"), "w"), indent=1)


def section_pages(pdf, sheet):
    """the page of each title, found by the words that were put there (pdftotext, without blanks)"""
    import re
    n = int(re.search(r"Pages:\s+(\d+)", subprocess.run(["pdfinfo", pdf], capture_output=True, text=True).stdout).group(1))
    squeeze = lambda t: re.sub(r"\W", "", t.replace("ﬁ", "fi").replace("ﬂ", "fl").replace("ﬀ", "ff").replace("ﬃ", "ffi").replace("|", "")).lower()
    pages = [squeeze(subprocess.run(["pdftotext", "-raw", "-f", str(i + 1), "-l", str(i + 1), pdf, "-"], capture_output=True, text=True).stdout) for i in range(n)]
    out, at, pos = [], 0, 0
    for blk in sheet.blocks:
        if blk[0] != "h1":
            continue
        key = squeeze(blk[2])
        found = 0
        i, start = at, pos
        while i < n:
            j = pages[i].find(key, start)
            if j >= 0:
                found, at, pos = i + 1, i, j + len(key)
                break
            i, start = i + 1, 0
        out.append(found)
    return n, out


def main():
    os.makedirs(OUT, exist_ok=True)
    wanted = sys.argv[1:]
    import render_html
    import render_pango
    import render_reportlab
    import render_tex
    R = {"chromium": render_html.render, "xetex": render_tex.render, "pdftex": lambda s, o: render_tex.render(s, o, "pdflatex"), "reportlab": render_reportlab.render, "cairo": render_pango.render}
    for i, row in enumerate(SHEETS):
        if wanted and row[0] not in wanted:
            continue
        sheet = Sheet(row[0], row[1], row[2], row[3], row[4], row[5], 1000 + i, row[6] if len(row) > 6 else None)
        pdf = os.path.abspath(os.path.join(OUT, row[0] + ".pdf"))
        try:
            R[row[3]](sheet, pdf)
        except Exception as error:  # the others are made all the same
            print(row[0], "FAILED", str(error)[-800:])
            continue
        n, sections = section_pages(pdf, sheet)
        if 0 in sections or len(sections) != 16:
            print("titles not found", row[0], sections)
        t = sheet.truth
        t["pages"], t["sections"] = n, sections
        json.dump(t, open(os.path.join(OUT, row[0] + ".json"), "w", encoding="utf-8"), ensure_ascii=False, indent=1)
        print(row[0], n, "pages", os.path.getsize(pdf) // 1024, "kB", flush=True)
    if not wanted:
        extra(OUT)


main()
