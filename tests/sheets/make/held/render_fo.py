"""Blocks to XSL-FO, for Apache FOP."""

import os
import subprocess
from xml.sax.saxutils import escape


def e(s):
    return escape(s)


def lines(s, attrs=""):
    return "".join(f"<fo:block{attrs}>{e(l)}</fo:block>" for l in s.split("\n")) if "\n" in s else f"<fo:block{attrs}>{e(s)}</fo:block>"


def table(widths, header, rows, o, size="", border=True):
    cell = f'border="{o.get("border", "0.4pt solid #555555")}" padding="2pt"' if border else 'padding="1.5pt"'
    out = [f'<fo:table table-layout="fixed" width="100%" space-after="5pt"{size}>']
    out += [f'<fo:table-column column-width="proportional-column-width({w})"/>' for w in widths]
    if header:
        out.append(f'<fo:table-header><fo:table-row background-color="{o.get("th", "#dddddd")}">' + "".join(f'<fo:table-cell {cell}><fo:block font-weight="bold">{e(h)}</fo:block></fo:table-cell>' for h in header) + "</fo:table-row></fo:table-header>")
    out.append("<fo:table-body>")
    for r in rows:
        out.append(f'<fo:table-row{o.get("row", "")}>' + "".join(f'<fo:table-cell {cell}>{lines(c)}</fo:table-cell>' for c in r) + "</fo:table-row>")
    out.append("</fo:table-body></fo:table>")
    return "".join(out)


H1 = 'font-size="16pt" font-weight="bold" text-align="center"'
BOLD = 'font-weight="bold"'


def flow(doc, o):
    kv = o.get("kv", "table")
    out = []
    if o.get("cover", True):
        out.append(f'<fo:block {o.get("h1", H1)}>{e(doc["title"])}</fo:block>')
        for l, v in o["head_lines"](doc):
            out.append(f'<fo:block font-size="9pt">{e(l)} {e(v)}</fo:block>')
    for s in doc["sections"]:
        out.append(f'<fo:block {o["h2"]} keep-with-next.within-page="always">{e(s["heading"])}</fo:block>')
        run = []

        def flush():
            if not run:
                return
            if kv in ("table", "grid"):
                out.append(table(o.get("kvw", [35, 65]), None, [(l + o.get("colon", ""), v) for l, v in run], o, border=kv == "table"))
            elif kv == "dots":
                for l, v in run:
                    if len(l) + len(v) < 80 and "\n" not in v:
                        out.append(f'<fo:block text-align-last="justify">{e(l)} <fo:leader leader-pattern="dots"/> {e(v)}</fo:block>')
                    else:
                        out.append(f'<fo:block>{e(l)}:</fo:block>' + lines(v, ' margin-left="12pt"'))
            else:
                for l, v in run:
                    first, *rest = v.split("\n")
                    out.append(f'<fo:block space-after="2pt"><fo:inline {o.get("kvl", BOLD)}>{e(l)}{o.get("colon", ":")} </fo:inline>{e(first)}</fo:block>' + "".join(f'<fo:block margin-left="20pt">{e(x)}</fo:block>' for x in rest))
            run.clear()

        for b in s["blocks"]:
            if b[0] == "kv" and b[2] != "":
                run.append((b[1], b[2]))
                continue
            flush()
            if b[0] == "kv":
                out.append(f'<fo:block font-weight="bold" space-before="3pt" keep-with-next.within-page="always">{e(b[1])}</fo:block>')
            elif b[0] == "sub":
                out.append(f'<fo:block {o["h3"]} keep-with-next.within-page="always">{e((b[1] + " " + b[2]).strip())}</fo:block>')
            elif b[0] == "p":
                out.append(lines(b[1], ' space-after="2pt"'))
            elif b[0] == "note":
                out.append(f'<fo:block font-size="7pt" font-style="italic">{e(b[1])}</fo:block>')
            elif b[0] == "li":
                out += [f'<fo:block margin-left="8pt">• {e(i)}</fo:block>' for i in b[1]]
            elif b[0] == "codes":
                if o.get("codes") == "table":
                    out.append(table(o.get("codew", [18, 82]), None, b[1], o, border=kv == "table"))
                else:
                    out += [f'<fo:block margin-left="8pt" text-indent="-8pt" start-indent="8pt">{e(c)}{o.get("code_sep", " ")}{e(t)}</fo:block>' for c, t in b[1]]
            elif b[0] == "table":
                out.append(table(b[4], b[2], b[3], o, ' font-size="%s"' % o.get("table_size", {}).get(b[1], "8pt")))
            elif b[0] == "break":
                out.append('<fo:block break-after="page"/>')
            else:
                raise ValueError(b[0])
        flush()
    return "".join(out)


def fop(doc, o, pdf, tmp):
    w, h = o.get("size", ("210mm", "297mm"))
    src = os.path.join(tmp, "in.fo")
    n = f'{e(doc["page"])} <fo:page-number/>{o.get("of", " / ")}<fo:page-number-citation ref-id="end"/>'
    header = o["header"](doc).replace("@PAGE@", n)
    footer = o["footer"](doc).replace("@PAGE@", n)
    cols = f' column-count="{o["columns"]}" column-gap="7mm"' if o.get("columns") else ""
    ref = f' reference-orientation="{o["rotate"]}"' if o.get("rotate") else ""
    text = f'''<?xml version="1.0" encoding="utf-8"?>
<fo:root xmlns:fo="http://www.w3.org/1999/XSL/Format" font-family="{o["font"]}" font-size="{o["fs"]}" line-height="{o.get("lh", "1.25")}" xml:lang="{doc["lang"]}">
<fo:layout-master-set><fo:simple-page-master master-name="p" page-width="{w}" page-height="{h}"{ref} margin="{o.get("margin", "12mm 16mm 10mm 18mm")}">
<fo:region-body margin-top="{o.get("top", "20mm")}" margin-bottom="14mm"{cols}/><fo:region-before extent="{o.get("top", "20mm")}"/><fo:region-after extent="11mm"/></fo:simple-page-master></fo:layout-master-set>
<fo:page-sequence master-reference="p"><fo:static-content flow-name="xsl-region-before">{header}</fo:static-content><fo:static-content flow-name="xsl-region-after">{footer}</fo:static-content>
<fo:flow flow-name="xsl-region-body">{flow(doc, o)}<fo:block id="end"/></fo:flow></fo:page-sequence></fo:root>'''
    open(src, "w", encoding="utf-8").write(text)
    conf = os.path.join(os.path.dirname(os.path.abspath(__file__)), "fop.xconf")
    subprocess.run(["fop", "-q", "-c", conf, src, pdf], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
