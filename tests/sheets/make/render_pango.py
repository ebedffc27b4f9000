"""Blocks to PDF by cairo and pango, with a small engine of our own for the flow."""
import cairo
import gi

gi.require_version("Pango", "1.0")
gi.require_version("PangoCairo", "1.0")
from gi.repository import Pango, PangoCairo  # noqa: E402

from phrases import L  # noqa: E402


def render(sheet, out):
    st = sheet.style
    W, H = (595, 842) if st["page"] == "a4" else (612, 792)
    if st.get("landscape"):
        W, H = H, W
    turn = st.get("turned")          # the page is drawn on its side and turned by its content
    surface = cairo.PDFSurface(out, *((W, H) if not turn else (H, W)))
    c = cairo.Context(surface)
    font, pt = st.get("font", "Inter"), st.get("pt", 9)
    M = 46
    cols = st["columns"]
    cw = (W - 2 * M - (cols - 1) * 22) / cols
    state = dict(x=M, y=70, col=0, page=0)

    def layout(text, width, size=pt, bold=False, italic=False, spacing=0):
        lay = PangoCairo.create_layout(c)
        d = Pango.FontDescription("%s %s %s" % (font, "Bold" if bold else "Italic" if italic else "", size))
        lay.set_font_description(d)
        lay.set_width(int(width * Pango.SCALE))
        lay.set_wrap(Pango.WrapMode.WORD_CHAR)
        lay.set_text(text, -1)
        if spacing:
            a = Pango.AttrList()
            a.insert(Pango.attr_letter_spacing_new(int(spacing * Pango.SCALE)))
            lay.set_attributes(a)
        return lay, lay.get_pixel_size()[1]

    def begin():
        state["page"] += 1
        c.save()
        if turn:
            c.translate(H, 0)
            c.rotate(3.14159265358979 / 2)
        if st["watermark"]:
            c.save()
            c.translate(W / 2, H / 2)
            c.rotate(-.8)
            c.set_source_rgb(.9, .9, .9)
            lay, h = layout(st["watermark"], 900, 70, True)
            c.move_to(-220, -h / 2)
            PangoCairo.show_layout(c, lay)
            c.restore()
        c.set_source_rgb(0, 0, 0)
        if st["header"]:
            for i, t in enumerate(sheet.header):
                lay, _ = layout(t, 300, 7.5)
                c.move_to(M if i == 0 else W - M - lay.get_pixel_size()[0], 28 if i == 0 else 28 + 10 * (i - 1))
                PangoCairo.show_layout(c, lay)
        if st["footer"]:
            lay, _ = layout("%s %d" % (L["page"][sheet.k], state["page"]), 300, 7.5)
            c.move_to(W - M - lay.get_pixel_size()[0], H - 30)
            PangoCairo.show_layout(c, lay)
        state.update(x=M, y=62, col=0)

    def end():
        c.restore()
        c.show_page()

    def room(h):
        if state["y"] + h > H - 46:
            if state["col"] + 1 < cols:
                state["col"] += 1
                state.update(x=M + state["col"] * (cw + 22), y=62)
            else:
                end()
                begin()
            return True
        return False

    def put(text, x, width, **kw):
        lay, h = layout(text, width, **kw)
        c.move_to(x, state["y"])
        PangoCairo.show_layout(c, lay)
        return h

    def para(text, gap=3, indent=0, keep=0, **kw):
        _, h = layout(text, cw - indent, **kw)
        room(h + keep)
        put(text, state["x"] + indent, cw - indent, **kw)
        state["y"] += h + gap

    def row(cells, widths, gap, bold=False, line=False, valign="top"):
        hs = [layout(t, w - 6, bold=bold)[1] for t, w in zip(cells, widths)]
        x = state["x"]
        top = state["y"]
        for t, w, h in zip(cells, widths, hs):
            state["y"] = top + (0 if valign == "top" else (max(hs) - h) / 2 if valign == "middle" else max(hs) - h)
            put(t, x, w - 6, bold=bold)
            x += w
        state["y"] = top + max(hs) + gap
        if line:
            c.set_line_width(.4)
            c.move_to(state["x"], state["y"] - gap / 2)
            c.line_to(state["x"] + cw, state["y"] - gap / 2)
            c.stroke()
        return hs

    begin()
    for blk in sheet.blocks:
        k = blk[0]
        if k == "h1":
            state["y"] += 5
            para(blk[2], keep=40, size=pt + st.get("h1up", 2), bold=st.get("boldh1", True), spacing=4 if st["spaced"] else 0)
        elif k == "h2":
            para(blk[1], keep=24, gap=1, italic=True)
        elif k in ("p", "small"):
            para(blk[1])
        elif k == "big":
            para(blk[1], size=15)
        elif k == "list":
            for t in blk[1]:
                para("– " + t, indent=8)
        elif k == "plist":
            for t in blk[1]:
                para(t, gap=1)
        elif k == "kv":
            mode = blk[2]
            for r in blk[1]:
                if mode == "inline":
                    para("%s: %s" % (r[0], r[1]))
                elif mode == "stacked":
                    para(r[0], gap=0, bold=True, keep=20)
                    para(r[1], indent=6)
                elif mode == "dots":
                    para("%s %s %s" % (r[0], "." * max(4, 60 - len(r[0])), r[1]))
                else:
                    ws = [cw * .36, cw * .64]
                    room(max(layout(t, w - 6)[1] for t, w in zip(r, ws)))
                    row([r[0] + (":" if mode == "tablecolon" else ""), r[1]], ws, 3)
        elif k == "table":
            tot = sum(blk[3])
            ws = [cw * w / tot for w in blk[3]]
            gap = st.get("rowgap", 5)
            head = lambda: row(blk[1], ws, gap, bold=True, line=True)
            room(60)
            head()
            for r in blk[2]:
                need = max(layout(t, w - 6)[1] for t, w in zip(r, ws))
                if room(need + 4):
                    head()
                row(r, ws, gap, line=st.get("borders", True), valign=st.get("valign", "top"))
            state["y"] += 3
    end()
    surface.finish()
