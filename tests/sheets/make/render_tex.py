"""Blocks to PDF by XeTeX or pdfTeX."""
import os
import subprocess
import tempfile

MAP = {"\\": r"\textbackslash{}", "&": r"\&", "%": r"\%", "#": r"\#", "_": r"\_", "{": r"\{", "}": r"\}", "$": r"\$", "~": r"\textasciitilde{}", "^": r"\textasciicircum{}"}
PDFTEX = {"≥": r"$\geq$", "≤": r"$\leq$", "<": r"\textless{}", ">": r"\textgreater{}", "°": r"\textdegree{}", "³": r"\textsuperscript{3}", "–": "--", "’": "'", "…": r"\dots{}", "º": r"\textordmasculine{}", "µ": r"$\mu$", "¡": r"\textexclamdown{}"}


def esc(t, eng):
    out = "".join(MAP.get(c, c) for c in t)
    if eng == "pdflatex":
        out = "".join(PDFTEX.get(c, c) for c in out)
    return out.replace("\n", r"\newline ")


def render(sheet, out, engine="xelatex"):
    st = sheet.style
    e = lambda t: esc(t, engine)
    babel = {"en": "english", "de": "ngerman", "es": "spanish", "fr": "french"}[sheet.lang]
    pt = {9: "9pt", 10: "10pt", 11: "11pt"}[st.get("texpt", 10)]
    h = [r"\documentclass[%s,%s]{extarticle}" % (pt, "a4paper" if st["page"] == "a4" else "letterpaper"), r"\usepackage[margin=20mm,headheight=22pt]{geometry}", r"\usepackage{longtable,array,fancyhdr,lastpage,enumitem,multicol,graphicx}" + (r"\usepackage[expansion=false]{microtype}\pdfcompresslevel=9 \pdfobjcompresslevel=2" if engine == "pdflatex" else "")]
    if engine == "xelatex":
        h += [r"\usepackage{fontspec}", r"\setmainfont{%s}" % st.get("texfont", "Liberation Serif")]
    else:
        h += [r"\usepackage[T1]{fontenc}", r"\usepackage[utf8]{inputenc}", r"\usepackage{textcomp,lmodern}"]
        if st.get("sans"):
            h.append(r"\renewcommand{\familydefault}{\sfdefault}")
    h += [r"\setlength{\parindent}{0pt}\setlength{\parskip}{3pt}", r"\pagestyle{fancy}\fancyhf{}"]
    if sheet.lang == "en" or engine == "pdflatex":
        h.append(r"\hyphenpenalty=50")
    if st["header"]:
        h += [r"\lhead{\small %s}" % e(sheet.header[0]), r"\rhead{\small %s}" % e(" · ".join(sheet.header[1:])) if engine == "xelatex" else r"\rhead{\small %s}" % e(" -- ".join(sheet.header[1:]))]
    else:
        h.append(r"\renewcommand{\headrulewidth}{0pt}")
    if st["footer"]:
        from phrases import L
        h.append(r"\cfoot{\small %s \thepage\ %s \pageref{LastPage}}" % (L["page"][sheet.k], L["of"][sheet.k]))
    if st["watermark"]:
        h += [r"\usepackage{eso-pic,xcolor}", r"\AddToShipoutPictureBG{\AtPageCenter{\makebox(0,0){\rotatebox{50}{\textcolor[gray]{0.88}{\fontsize{80}{80}\selectfont %s}}}}}" % e(st["watermark"])]
    b = [r"\begin{document}\raggedright" if st.get("ragged", True) else r"\begin{document}"]
    two = st["columns"] == 2
    if two:
        b.append(r"\begin{multicols}{2}")
    width = 0.47 if two else 1.0
    for blk in sheet.blocks:
        k = blk[0]
        if k == "h1":
            t = e(blk[2])
            if st["spaced"]:
                t = r"\,".join(("{%s}" % e(c)) if c != " " else r"\ \ " for c in blk[2])
            b.append(r"\vspace{6pt}{\large\bfseries %s\par}\nopagebreak" % t if not st.get("rule") else r"\vspace{6pt}\hrule\vspace{3pt}{\large %s\par}\nopagebreak\vspace{2pt}\hrule\vspace{3pt}" % t)
        elif k == "h2":
            b.append(r"{\itshape %s\par}\nopagebreak" % e(blk[1]))
        elif k in ("p", "small"):
            b.append(e(blk[1]) + r"\par")
        elif k == "big":
            b.append(r"{\LARGE %s\par}" % e(blk[1]))
        elif k == "list":
            b.append(r"\begin{itemize}[nosep]%s\end{itemize}" % "".join(r"\item %s " % e(t) for t in blk[1]))
        elif k == "plist":
            b += [e(t) + r"\par" for t in blk[1]]
        elif k == "kv":
            mode = blk[2]
            if mode == "inline":
                b += [r"\textbf{%s:} %s\par" % (e(r[0]), e(r[1])) for r in blk[1]]
            elif mode == "stacked":
                b += [r"\textbf{%s}\\ %s\par" % (e(r[0]), e(r[1])) for r in blk[1]]
            elif mode == "dots":
                b += [r"%s \dotfill\ %s\par" % (e(r[0]), e(r[1])) for r in blk[1]]
            else:
                for r in blk[1]:
                    b.append(r"\parbox[t]{%.2f\linewidth}{\raggedright %s%s}\hspace{.02\linewidth}\parbox[t]{%.2f\linewidth}{\raggedright %s}\par" % (.34, e(r[0]), ":" if mode == "tablecolon" else "", .60, e(r[1])))
        elif k == "table":
            tot = sum(blk[3])
            n = len(blk[3])
            spec = "".join(r">{\raggedright\arraybackslash}p{%.3f\textwidth}" % (width * (0.98 - 0.024 * n) * w / tot) for w in blk[3])
            if two:   # longtable cannot stand in columns
                rows = [blk[1]] + blk[2]
                b.append(r"{\small\begin{tabular}{%s}\hline %s\hline\end{tabular}}\par" % (spec, " ".join(" & ".join(e(c) for c in r) + r"\\ \hline" for r in rows)))
            else:
                head = " & ".join(r"\textbf{%s}" % e(c) if "\n" not in c else e(c) for c in blk[1]) + r"\\"
                line = r"\hline " if st.get("borders", True) else ""
                b.append(r"{\small\begin{longtable}{%s}%s%s%s\endhead %s\end{longtable}}" % (spec, line, head, line, (r" " + line).join(" & ".join(e(c) for c in r) + r"\\" + ("[%spt]" % st.get("rowgap", 3)) for r in blk[2])))
    if two:
        b.append(r"\end{multicols}")
    b.append(r"\end{document}")
    with tempfile.TemporaryDirectory() as d:
        open(os.path.join(d, "a.tex"), "w", encoding="utf-8").write("\n".join(h + b))
        for _ in range(2):
            r = subprocess.run([engine, "-interaction=nonstopmode", "-halt-on-error", "a.tex"], cwd=d, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
        if r.returncode:
            raise RuntimeError(r.stdout.decode("latin-1")[-1500:])
        os.replace(os.path.join(d, "a.pdf"), out) if os.stat(d).st_dev == os.stat(os.path.dirname(out)).st_dev else open(out, "wb").write(open(os.path.join(d, "a.pdf"), "rb").read())
