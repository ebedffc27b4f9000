"""Blocks to PDF by ReportLab."""
import html

from reportlab.lib import colors
from reportlab.lib.pagesizes import A4, letter
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.platypus import BaseDocTemplate, Frame, PageTemplate, Paragraph, Spacer, Table, TableStyle

from phrases import L

D = "/usr/share/fonts/truetype/dejavu/"
pdfmetrics.registerFont(TTFont("DV", D + "DejaVuSans.ttf"))
pdfmetrics.registerFont(TTFont("DVB", D + "DejaVuSans-Bold.ttf"))
pdfmetrics.registerFontFamily("DV", normal="DV", bold="DVB", italic="DV", boldItalic="DVB")


def render(sheet, out):
    st = sheet.style
    size = A4 if st["page"] == "a4" else letter
    if st.get("landscape"):
        size = (size[1], size[0])
    pt = st.get("pt", 8.5)
    esc = lambda t: html.escape(t, quote=False).replace("\n", "<br/>")
    n = ParagraphStyle("n", fontName="DV", fontSize=pt, leading=pt * 1.3, spaceAfter=2)
    c = ParagraphStyle("c", parent=n, spaceAfter=0)
    h1 = ParagraphStyle("h1", parent=n, fontName="DVB" if st.get("boldh1", True) else "DV", fontSize=pt + 2, leading=pt * 1.6, spaceBefore=8, spaceAfter=3, keepWithNext=1, backColor=colors.HexColor("#dddddd") if st.get("h1back") else None)
    h2 = ParagraphStyle("h2", parent=n, fontName="DVB", spaceBefore=4, keepWithNext=1)
    big = ParagraphStyle("big", parent=n, fontName="DVB", fontSize=15, leading=20)
    W = size[0] - 90
    colw = W if st["columns"] == 1 else (W - 20) / 2
    grid = [("VALIGN", (0, 0), (-1, -1), {"top": "TOP", "middle": "MIDDLE", "bottom": "BOTTOM"}[st.get("valign", "top")]), ("LEFTPADDING", (0, 0), (-1, -1), 3), ("RIGHTPADDING", (0, 0), (-1, -1), 3), ("TOPPADDING", (0, 0), (-1, -1), st.get("pady", 2)), ("BOTTOMPADDING", (0, 0), (-1, -1), st.get("pady", 2))]
    if st.get("borders", True):
        grid.append(("GRID", (0, 0), (-1, -1), .4, colors.grey))
    f = []
    for blk in sheet.blocks:
        k = blk[0]
        if k == "h1":
            t = blk[2]
            f.append(Paragraph(esc(" ".join(t) if st["spaced"] else t), h1))
        elif k == "h2":
            f.append(Paragraph(esc(blk[1]), h2))
        elif k in ("p", "small"):
            f.append(Paragraph(esc(blk[1]), n))
        elif k == "big":
            f.append(Paragraph(esc(blk[1]), big))
        elif k == "list":
            f += [Paragraph("• " + esc(t), n) for t in blk[1]]
        elif k == "plist":
            f += [Paragraph(esc(t), n) for t in blk[1]]
        elif k == "kv":
            mode = blk[2]
            if mode == "inline":
                f += [Paragraph("<b>%s:</b> %s" % (esc(r[0]), esc(r[1])), n) for r in blk[1]]
            elif mode == "stacked":
                for r in blk[1]:
                    f += [Paragraph(esc(r[0]), h2), Paragraph(esc(r[1]), n)]
            elif mode == "dots":
                f += [Paragraph("%s %s %s" % (esc(r[0]), "." * max(3, 50 - len(r[0])), esc(r[1])), n) for r in blk[1]]
            else:
                colon = ":" if mode == "tablecolon" else ""
                t = Table([[Paragraph(esc(r[0]) + colon, c), Paragraph(esc(r[1]), c)] for r in blk[1]], colWidths=[colw * .36, colw * .64], hAlign="LEFT")
                t.setStyle(TableStyle(grid[:5] + (grid[5:] if st.get("kvborders") else [])))
                f.append(t)
        elif k == "table":
            tot = sum(blk[3])
            t = Table([[Paragraph("<b>%s</b>" % esc(x), c) for x in blk[1]]] + [[Paragraph(esc(x), c) for x in r] for r in blk[2]], colWidths=[colw * w / tot for w in blk[3]], repeatRows=1)
            t.setStyle(TableStyle(grid))
            f += [t, Spacer(1, 4)]
    doc = BaseDocTemplate(out, pagesize=size, title="sheet", leftMargin=45, rightMargin=45, topMargin=60, bottomMargin=50, invariant=1)

    def page(canvas, d):
        if st["rotate"]:          # drawn on its side, and shown upright by the entry of the page
            canvas.translate(size[1], 0)
            canvas.rotate(90)
        canvas.saveState()
        canvas.setFont("DV", 7.5)
        if st["header"]:
            canvas.drawString(45, size[1] - 36, sheet.header[0])
            for i, t in enumerate(sheet.header[1:]):
                canvas.drawRightString(size[0] - 45, size[1] - 30 - 9 * i, t)
        if st["footer"]:
            canvas.drawCentredString(size[0] / 2, 28, "%s %d" % (L["page"][sheet.k], d.page))
        if st["watermark"]:
            canvas.setFont("DVB", 80)
            canvas.setFillGray(.9)
            canvas.translate(size[0] / 2, size[1] / 2)
            canvas.rotate(45)
            canvas.drawCentredString(0, 0, st["watermark"])
        canvas.restoreState()
    frames = [Frame(45, 50, W, size[1] - 110, id="a", leftPadding=0, rightPadding=0)] if st["columns"] == 1 else [Frame(45, 50, colw, size[1] - 110, id="a", leftPadding=0, rightPadding=0), Frame(45 + colw + 20, 50, colw, size[1] - 110, id="b", leftPadding=0, rightPadding=0)]
    doc.addPageTemplates([PageTemplate(id="p", frames=frames, onPage=page)])

    class Turned(Canvas):
        def showPage(self):
            self._pageRotation = st["rotate"]
            Canvas.showPage(self)
    doc.build(f, canvasmaker=Turned)
