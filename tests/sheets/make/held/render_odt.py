"""Blocks to a flat OpenDocument text, for LibreOffice."""

import os
import subprocess
from xml.sax.saxutils import escape

NS = " ".join(f'xmlns:{k}="urn:oasis:names:tc:opendocument:xmlns:{v}:1.0"' for k, v in {"office": "office", "style": "style", "text": "text", "table": "table", "fo": "xsl-fo-compatible", "svg": "svg-compatible"}.items())


def e(s):
    return escape(s).replace("\n", "<text:line-break/>")


class Odt:
    def __init__(self, doc, o):
        self.doc, self.o, self.styles, self.n = doc, o, [], 0

    def para(self, s, style="Body"):
        return f'<text:p text:style-name="{style}">{e(s)}</text:p>'

    def table(self, widths, header, rows, border=True, size=None, first="Cell"):
        self.n += 1
        t = f"T{self.n}"
        total = self.o.get("width", 17.0)
        self.styles.append(f'<style:style style:name="{t}" style:family="table"><style:table-properties style:width="{total}cm" table:align="left" fo:margin-bottom="0.2cm"/></style:style>')
        out = [f'<table:table table:name="{t}" table:style-name="{t}">']
        for i, w in enumerate(widths):
            self.styles.append(f'<style:style style:name="{t}.{i}" style:family="table-column"><style:table-column-properties style:column-width="{total * w / 100:.2f}cm"/></style:style>')
            out.append(f'<table:table-column table:style-name="{t}.{i}"/>')
        cs = "Boxed" if border else "Open"
        ps = size or "Cell"
        row = lambda r, style, cstyle: '<table:table-row table:style-name="Row">' + "".join(f'<table:table-cell table:style-name="{cstyle}" office:value-type="string">' + self.para(c, style if i or style != ps else (first if first != "Cell" else ps)) + "</table:table-cell>" for i, c in enumerate(r)) + "</table:table-row>"
        if header:
            out.append("<table:table-header-rows>" + row(header, "Head" + (ps if ps != "Cell" else ""), cs + "Head" if border else cs) + "</table:table-header-rows>")
        out += [row(r, ps, cs) for r in rows]
        out.append("</table:table>" + ('<text:p text:style-name="Gap"/>'))
        return "".join(out)

    def body(self):
        doc, o = self.doc, self.o
        kv = o.get("kv", "table")
        out = [self.para(doc["title"], "Title")]
        for l, v in o["head_lines"](doc):
            out.append(self.para(f"{l} {v}", "Body"))
        inner = []
        for s in doc["sections"]:
            if o.get("bar"):
                inner.append(self.table([100], None, [[s["heading"]]], True, "Bar").replace('style-name="Boxed"', 'style-name="BarCell"'))
            else:
                inner.append(f'<text:h text:style-name="H2" text:outline-level="1">{e(s["heading"])}</text:h>')
            run = []

            def flush():
                if not run:
                    return
                if kv in ("table", "grid"):
                    inner.append(self.table(o.get("kvw", [34, 66]), None, [[l + o.get("colon", ""), v] for l, v in run], kv == "table", first="Label"))
                elif kv == "tab":
                    inner.extend(f'<text:p text:style-name="Tabbed">{e(l)}<text:tab/>{o.get("mid", ": ")}{e(v)}</text:p>' for l, v in run)
                else:
                    inner.extend(f'<text:p text:style-name="Body"><text:span text:style-name="Strong">{e(l)}{o.get("colon", ":")} </text:span>{e(v)}</text:p>' for l, v in run)
                run.clear()

            for b in s["blocks"]:
                if b[0] == "kv" and b[2] != "":
                    run.append((b[1], b[2]))
                    continue
                flush()
                if b[0] == "kv":
                    inner.append(self.para(b[1] + o.get("colon", ""), "Lead"))
                elif b[0] == "sub":
                    inner.append(self.para((b[1] + " " + b[2]).strip(), "H3"))
                elif b[0] == "p":
                    inner.append(self.para(b[1]))
                elif b[0] == "note":
                    inner.append(self.para(b[1], "Note"))
                elif b[0] == "li":
                    inner += [self.para("– " + i) for i in b[1]]
                elif b[0] == "codes":
                    if o.get("codes") == "table":
                        inner.append(self.table(o.get("codew", [18, 82]), None, b[1], kv == "table"))
                    else:
                        inner += [f'<text:p text:style-name="Code">{e(c)}<text:tab/>{e(t)}</text:p>' if o.get("codes") == "tab" else self.para(f'{c}{o.get("code_sep", " ")}{t}') for c, t in b[1]]
                elif b[0] == "table":
                    inner.append(self.table(b[4], b[2], b[3], True, "Small" if o.get("small") else None))
                elif b[0] == "break":
                    inner.append('<text:p text:style-name="Break"/>')
                else:
                    raise ValueError(b[0])
            flush()
        if o.get("columns"):
            out.append('<text:section text:style-name="Cols" text:name="cols">' + "".join(inner) + "</text:section>")
        else:
            out += inner
        return "".join(out)

    def text(self):
        doc, o = self.doc, self.o
        body = self.body()
        font, fs = o["font"], o["fs"]
        w, h = o.get("size", ("21cm", "29.7cm"))
        tab0 = '<style:tab-stops><style:tab-stop style:position="0cm"/></style:tab-stops>'

        def p(name, para="", txt="", tabs=""):
            size = "" if "font-size" in txt else f'fo:font-size="{fs}pt"'
            return f'<style:style style:name="{name}" style:family="paragraph"><style:paragraph-properties {para}>{tabs}</style:paragraph-properties><style:text-properties style:font-name="F" {size} {txt}/></style:style>'

        cell = o.get("border", "0.5pt solid #000000")
        num = '<text:page-number text:select-page="current"/>'
        count = "<text:page-count>9</text:page-count>"
        fix = lambda s: e(s).replace("@N@", num).replace("@C@", count)
        return f'''<?xml version="1.0" encoding="UTF-8"?>
<office:document {NS} office:version="1.2" office:mimetype="application/vnd.oasis.opendocument.text">
<office:font-face-decls><style:font-face style:name="F" svg:font-family="'{font}'"/></office:font-face-decls>
<office:styles/>
<office:automatic-styles>
<style:page-layout style:name="PL"><style:page-layout-properties fo:page-width="{w}" fo:page-height="{h}" fo:margin-top="{o.get("mt", "1.2cm")}" fo:margin-bottom="1.2cm" fo:margin-left="2cm" fo:margin-right="2cm" style:print-orientation="{o.get("orient", "portrait")}"/>
<style:header-style><style:header-footer-properties fo:min-height="1.4cm" fo:margin-bottom="0.3cm"/></style:header-style><style:footer-style><style:header-footer-properties fo:min-height="0.9cm" fo:margin-top="0.3cm"/></style:footer-style></style:page-layout>
<style:style style:name="Cols" style:family="section"><style:section-properties><style:columns fo:column-count="2" fo:column-gap="0.7cm"/></style:section-properties></style:style>
{p("Body", 'fo:margin-bottom="0.08cm"' + (' fo:text-align="justify"' if o.get("justify") else ""))}{p("Title", 'fo:text-align="center" fo:margin-bottom="0.2cm"', f'fo:font-size="{fs + 7}pt" fo:font-weight="bold" {o.get("title", "")}')}
{p("H2", 'fo:margin-top="0.35cm" fo:margin-bottom="0.1cm" fo:keep-with-next="always" ' + o.get("h2p", ""), f'fo:font-size="{fs + 1.5}pt" fo:font-weight="bold" ' + o.get("h2t", ""))}{p("H3", 'fo:margin-top="0.18cm" fo:margin-bottom="0.05cm" fo:keep-with-next="always"', o.get("h3t", 'fo:font-weight="bold"'))}
{p("Lead", 'fo:margin-top="0.1cm" fo:keep-with-next="always"', o.get("leadt", 'fo:font-style="italic"'))}{p("Note", "", f'fo:font-size="{fs - 2}pt"')}{p("Cell")}{p("HeadCell", "", 'fo:font-weight="bold"')}{p("Head", "", 'fo:font-weight="bold"')}{p("Label", "", o.get("labelt", ""))}
{p("Small", "", f'fo:font-size="{o.get("small", fs)}pt"')}{p("HeadSmall", "", f'fo:font-size="{o.get("small", fs)}pt" fo:font-weight="bold"')}{p("Bar", "", 'fo:font-weight="bold" fo:color="#ffffff"')}{p("Gap", "", 'fo:font-size="4pt"')}{p("Break", 'fo:break-after="page"')}
{p("Tabbed", f'fo:margin-left="{o.get("tab", 6)}cm" fo:text-indent="-{o.get("tab", 6)}cm"', "", tab0)}{p("Code", 'fo:margin-left="3.6cm" fo:text-indent="-3.6cm"', "", tab0)}
{p("HF", 'fo:text-align="left"', f'fo:font-size="{fs - 1.5}pt"')}{p("HFR", 'fo:text-align="right"', f'fo:font-size="{fs - 1.5}pt"')}
<style:style style:name="Strong" style:family="text"><style:text-properties fo:font-weight="bold"/></style:style>
<style:style style:name="Row" style:family="table-row"><style:table-row-properties fo:keep-together="{o.get("keep", "always")}"/></style:style>
<style:style style:name="Boxed" style:family="table-cell"><style:table-cell-properties fo:border="{cell}" fo:padding="0.08cm"/></style:style>
<style:style style:name="BoxedHead" style:family="table-cell"><style:table-cell-properties fo:border="{cell}" fo:padding="0.08cm" fo:background-color="{o.get("th", "#d9d9d9")}"/></style:style>
<style:style style:name="BarCell" style:family="table-cell"><style:table-cell-properties fo:padding="0.1cm" fo:background-color="{o.get("bar", "#204060")}"/></style:style>
<style:style style:name="Open" style:family="table-cell"><style:table-cell-properties fo:padding="0.05cm"/></style:style>
{"".join(self.styles)}
</office:automatic-styles>
<office:master-styles><style:master-page style:name="Standard" style:page-layout-name="PL"><style:header>{"".join(f'<text:p text:style-name="{st}">{fix(s)}</text:p>' for st, s in o["header"](doc))}</style:header><style:footer>{"".join(f'<text:p text:style-name="{st}">{fix(s)}</text:p>' for st, s in o["footer"](doc))}</style:footer></style:master-page></office:master-styles>
<office:body><office:text>{body}</office:text></office:body></office:document>'''


def libreoffice(doc, o, pdf, tmp):
    src = os.path.join(tmp, "in.fodt")
    open(src, "w", encoding="utf-8").write(Odt(doc, o).text())
    subprocess.run(["soffice", f"-env:UserInstallation=file://{tmp}/profile", "--headless", "--convert-to", "pdf", "--outdir", tmp, src], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=dict(os.environ, SOURCE_DATE_EPOCH="1700000000"))
    os.replace(os.path.join(tmp, "in.pdf"), pdf)
