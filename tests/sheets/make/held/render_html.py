"""Blocks to HTML, for WeasyPrint, wkhtmltopdf and HTMLDOC."""

import os
import subprocess
from html import escape


def e(s):
    return escape(s, quote=False).replace("\n", "<br/>")


def body(doc, o):
    """o: kv = table|grid|inline|dots|stack; plain = no CSS reader (HTMLDOC)."""
    kv = o.get("kv", "grid")
    attr = ' border="1" cellpadding="3" cellspacing="0" width="100%"' if o.get("plain") else ""
    kvattr = (' border="1" cellpadding="3" cellspacing="0" width="100%"' if kv == "table" else ' border="0" cellpadding="2" width="100%"') if o.get("plain") else ""
    out = []
    if o.get("cover", True):
        out.append(f'<div class="top"><h1>{e(doc["title"])}</h1>')
        if o.get("subtitle"):
            out.append(f'<p class="subtitle">{e(o["subtitle"])}</p>')
        out.append(f'<p class="product">{e(doc["product"])}</p>')
        for l, v in o["head_lines"](doc):
            out.append(f'<p class="meta">{e(l)} {e(v)}</p>')
        out.append("</div>")
    for s in doc["sections"]:
        if o.get("plain") and o.get("bar"):
            out.append(f'<table width="100%" cellpadding="4"><tr><td bgcolor="{o["bar"]}"><font color="#ffffff"><b>{e(s["heading"])}</b></font></td></tr></table>')
        else:
            out.append(f'<h2>{e(s["heading"])}</h2>')
        out.append('<div class="body">')
        run = []

        def flush():
            if not run:
                return
            if kv in ("table", "grid"):
                out.append(f'<table class="kv"{kvattr}>')
                for l, v in run:
                    w = ' width="34%"' if o.get("plain") else ""
                    out.append(f'<tr><td class="l" valign="top"{w}>{e(l + o.get("colon", ""))}</td><td class="v">{e(v) or "&#160;"}</td></tr>')
                out.append("</table>")
            else:
                for l, v in run:
                    if kv == "inline":
                        out.append(f'<p class="kvi"><b>{e(l)}{o.get("colon", ":")}</b> {e(v)}</p>')
                    elif kv == "dots":
                        out.append(f'<div class="kvd"><span class="l">{e(l)}</span><span class="v">{e(v)}</span></div>')
                    elif kv == "stack":
                        out.append(f'<p class="l">{e(l)}</p><p class="v">{e(v)}</p>')
            run.clear()

        for b in s["blocks"]:
            if b[0] == "kv" and not (b[2] == "" and kv != "table"):
                run.append((b[1], b[2]))
                continue
            flush()
            if b[0] == "kv":
                out.append(f'<p class="kh"><b>{e(b[1])}{o.get("colon", ":")}</b></p>')
            elif b[0] == "sub":
                out.append(f'<h3>{e((b[1] + " " + b[2]).strip())}</h3>')
            elif b[0] == "p":
                out.append(f"<p>{e(b[1])}</p>")
            elif b[0] == "note":
                out.append(f'<p class="note">{e(b[1])}</p>')
            elif b[0] == "li":
                out.append("<ul>" + "".join(f"<li>{e(i)}</li>" for i in b[1]) + "</ul>")
            elif b[0] == "codes":
                if o.get("codes") == "table":
                    out.append(f'<table class="codes"{kvattr}>' + "".join(f'<tr><td class="c" valign="top">{e(c)}</td><td>{e(t)}</td></tr>' for c, t in b[1]) + "</table>")
                else:
                    sep = o.get("code_sep", " ")
                    out += [f'<p class="code">{e(c)}{sep}{e(t)}</p>' for c, t in b[1]]
            elif b[0] == "table":
                _, key, cols, rows, widths = b
                out.append(f'<table class="t {key}"{attr}><colgroup>' + "".join(f'<col style="width:{w}%"/>' for w in widths) + "</colgroup><thead><tr>")
                out.append("".join((f'<th width="{w}%">' if o.get("plain") else "<th>") + e(c) + "</th>" for c, w in zip(cols, widths)) + "</tr></thead><tbody>")
                for r in rows:
                    out.append("<tr>" + "".join(f"<td>{e(c)}</td>" for c in r) + "</tr>")
                out.append("</tbody></table>")
            elif b[0] == "break":
                out.append('<div class="break"></div>')
            else:
                raise ValueError(b[0])
        flush()
        out.append("</div>")
    for a in doc["annex"]:
        out.append(f'<h2>{e(a)}</h2>')
    return "\n".join(out)


def page(doc, o):
    extra = "".join(o.get("extra", []))
    return f'<!DOCTYPE html><html lang="{doc["lang"]}"><head><meta charset="utf-8"/><title>{e(doc["title"])}</title><style>{o.get("css", "")}</style></head><body>{extra}{body(doc, o)}</body></html>'


def weasyprint(doc, o, pdf, tmp):
    src = os.path.join(tmp, "in.html")
    open(src, "w", encoding="utf-8").write(page(doc, o))
    subprocess.run(["/usr/bin/weasyprint", "-q", src, pdf], check=True)


def wkhtmltopdf(doc, o, pdf, tmp):
    src = os.path.join(tmp, "in.html")
    open(src, "w", encoding="utf-8").write(page(doc, o))
    subprocess.run(["wkhtmltopdf", "-q", *o.get("args", []), src, pdf], check=True, env=dict(os.environ, QT_QPA_PLATFORM="offscreen"))


def htmldoc(doc, o, pdf, tmp):
    src = os.path.join(tmp, "in.html")
    o = dict(o, plain=True)
    text = f'<html><head><title>{e(doc["product"])}</title></head><body>{body(doc, o)}</body></html>'
    open(src, "w", encoding="cp1252").write(text)
    subprocess.run(["htmldoc", "--quiet", "--webpage", "--charset", "cp-1252", "-t", "pdf14", *o["args"], "-f", pdf, src], check=True)
