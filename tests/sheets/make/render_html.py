"""Blocks to PDF by a browser."""
import html
import os
import subprocess
import tempfile


def esc(t):
    return html.escape(t).replace("\n", "<br>")


def render(sheet, out):
    st = sheet.style
    size = {"a4": "A4", "letter": "Letter"}[st["page"]]
    font = st.get("font", "Liberation Sans")
    pt = st.get("pt", 9.5)
    css = ["@page{size:%s%s;margin:18mm 16mm 18mm 16mm}" % (size, " landscape" if st.get("landscape") else ""), "body{font:%spt/1.35 '%s',sans-serif;margin:0;hyphens:%s}" % (pt, font, "auto" if st.get("hyphens") else "manual"),
           "h1{font-size:%spt;margin:10pt 0 4pt;%s}" % (pt + 2, st.get("h1css", "")), "h2{font-size:%spt;margin:6pt 0 2pt}" % (pt + .3), "p{margin:2pt 0 4pt}.big{font-size:15pt;font-weight:bold}",
           "table{border-collapse:collapse;width:100%%;margin:3pt 0}td,th{vertical-align:%s;text-align:left;padding:%s;%s}" % (st.get("valign", "top"), st.get("cellpad", "2pt 4pt"), "border:.5pt solid #666" if st.get("borders", True) else ""),
           "table.kv td{border:none}table.kv td:first-child{width:%s%%}" % st.get("labelwidth", 32), ".plist div{margin:1pt 0}tr{break-inside:%s}" % ("auto" if st.get("rowbreak") else "avoid"),
           ".dots{display:flex}.dots span:nth-child(2){flex:1;border-bottom:1px dotted #555;margin:0 3pt 3pt}", ".stk b{display:block;margin-top:3pt}"]
    if st["spaced"]:
        css.append("h1{letter-spacing:.35em}")
    if st["columns"] == 2:
        css.append(".body{columns:2;column-gap:9mm}h1{break-after:avoid}")
    if st["watermark"]:
        css.append(".wm{position:fixed;top:40%;left:5%;font-size:90pt;color:#0001;transform:rotate(-35deg);z-index:-1;white-space:nowrap}")
    if st["header"]:
        css.append(".run{width:100%%;margin:0;border:none}.run>thead>tr>th,.run>tbody>tr>td{border:none!important;padding:0}.hd{display:flex;justify-content:space-between;font-size:%spt;border-bottom:.5pt solid #999;margin-bottom:6pt;font-weight:normal}" % (pt - 1.5))
    b = []
    for blk in sheet.blocks:
        k = blk[0]
        if k == "h1":
            t = esc(blk[2])
            b.append("<h1>%s</h1>" % t if not st.get("h1box") else "<table class=h1><tr><td style='width:12%%;background:#ddd'><b>%d</b></td><td style='background:#ddd'><b>%s</b></td></tr></table>" % (blk[1], esc(blk[2].split("|")[-1])))
        elif k == "h2":
            b.append("<h2>%s</h2>" % esc(blk[1]))
        elif k in ("p", "small"):
            b.append("<p>%s</p>" % esc(blk[1]))
        elif k == "big":
            b.append("<p class=big>%s</p>" % esc(blk[1]))
        elif k == "list":
            b.append("<ul>%s</ul>" % "".join("<li>%s</li>" % esc(t) for t in blk[1]))
        elif k == "plist":
            b.append("<div class=plist>%s</div>" % "".join("<div>%s</div>" % esc(t) for t in blk[1]))
        elif k == "kv":
            mode = blk[2]
            if mode == "inline":
                b += ["<p><b>%s:</b> %s</p>" % (esc(r[0]), esc(r[1])) for r in blk[1]]
            elif mode == "stacked":
                b += ["<p class=stk><b>%s</b>%s</p>" % (esc(r[0]), esc(r[1])) for r in blk[1]]
            elif mode == "dots":
                b += ["<div class=dots><span>%s</span><span></span><span>%s</span></div>" % (esc(r[0]), esc(r[1])) for r in blk[1]]
            else:
                colon = ":" if mode == "tablecolon" else ""
                b.append("<table class=kv>%s</table>" % "".join("<tr><td>%s%s</td><td>%s</td></tr>" % (esc(r[0]), colon, esc(r[1])) for r in blk[1]))
        elif k == "table":
            tot = sum(blk[3])
            cols = "".join("<col style='width:%d%%'>" % (100 * w / tot) for w in blk[3])
            b.append("<table>%s<thead><tr>%s</tr></thead><tbody>%s</tbody></table>" % (cols, "".join("<th>%s</th>" % esc(h) for h in blk[1]), "".join("<tr>%s</tr>" % "".join("<td>%s</td>" % esc(c) for c in r) for r in blk[2])))
    body = "<div class=body>%s</div>" % "\n".join(b)
    if st["header"]:
        head = "<div class=hd>%s</div>" % "".join("<span>%s</span>" % esc(t) for t in sheet.header)
        body = "<table class=run><thead><tr><th>%s</th></tr></thead><tbody><tr><td>%s</td></tr></tbody></table>" % (head, body) if st["columns"] == 1 else head + body
    wm = "<div class=wm>%s</div>" % st["watermark"] if st["watermark"] else ""
    doc = "<!doctype html><html lang=%s><meta charset=utf-8><title>x</title><style>%s</style><body>%s%s</body></html>" % (sheet.lang, "\n".join(css), wm, body)
    with tempfile.TemporaryDirectory() as d:
        path = os.path.join(d, "a.html")
        open(path, "w", encoding="utf-8").write(doc)
        subprocess.run(["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer" if not st["footer"] else "--no-pdf-header-footer", "--print-to-pdf=" + out, "file://" + path], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=120)
