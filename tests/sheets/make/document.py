"""One sheet as blocks, with its truth. Blocks: ("h1", number, text) ("h2", text) ("p", text) ("kv", [(label, value[, remark])], mode)
("table", [head], [rows], [relative widths]) ("list", [text]) ("big", text) ("small", text)."""
import random

from phrases import ALT, JUR, KIND, L, LANGS, SUB, TEXT, TITLES, wording
from products import P, SUPPLIERS
from substances import S

MONTHS = {"en": "January February March April May June July August September October November December".split(),
          "de": "Januar Februar März April Mai Juni Juli August September Oktober November Dezember".split(),
          "es": "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre".split(),
          "fr": "janvier février mars avril mai juin juillet août septembre octobre novembre décembre".split()}
CLASSES = {"H225": "Flam. Liq. 2", "H226": "Flam. Liq. 3", "H220": "Flam. Gas 1A", "H222": "Aerosol 1", "H229": "Aerosol 1", "H280": "Press. Gas", "H272": "Ox. Sol. 3", "H290": "Met. Corr. 1", "H301": "Acute Tox. 3", "H302": "Acute Tox. 4",
           "H304": "Asp. Tox. 1", "H310": "Acute Tox. 2", "H311": "Acute Tox. 3", "H312": "Acute Tox. 4", "H314": "Skin Corr. 1B", "H315": "Skin Irrit. 2", "H317": "Skin Sens. 1", "H318": "Eye Dam. 1", "H319": "Eye Irrit. 2", "H330": "Acute Tox. 2", "H331": "Acute Tox. 3", "H332": "Acute Tox. 4",
           "H334": "Resp. Sens. 1", "H335": "STOT SE 3", "H336": "STOT SE 3", "H341": "Muta. 2", "H351": "Carc. 2", "H361d": "Repr. 2", "H373": "STOT RE 2", "H400": "Aquatic Acute 1", "H410": "Aquatic Chronic 1", "H411": "Aquatic Chronic 2", "H412": "Aquatic Chronic 3"}


class Sheet:
    def __init__(self, name, product, lang, producer, layout, style, seed, override=None):
        self.name, self.lang, self.producer, self.layout = name, lang, producer, layout
        self.k = LANGS.index(lang)
        self.style = dict(title="SECTION {n}: {t}", kv="table", s2="codes_text", s3="A", rng="sym", s8="table", s9="table", s14="kv", date="auto", temp="C", subs=True, page="a4", columns=1,
                          header=True, footer=True, watermark=None, upper=False, spaced=False, classtable=False, first="", kv1=None, short=False, pad=0, rotate=0)
        self.style.update(style)
        self.rnd = random.Random(seed)
        self.p = dict(P[product])
        self.p.update(override or {})
        self.blocks = []
        self.truth = {}
        self.pick_memory = {}
        self.build()

    def w(self, key):
        if key not in self.pick_memory:
            self.pick_memory[key] = self.rnd.choice(L[key][self.k].split("|"))
        return self.pick_memory[key]

    def t(self, key):
        return TEXT[key][self.k]

    def num(self, x):
        s = ("%.6f" % x).rstrip("0").rstrip(".")
        return s if self.lang == "en" else s.replace(".", ",")

    def date(self, y, m, d):
        f = self.style["date"]
        if f == "auto":
            f = {"en": "eu_slash", "de": "dot", "es": "eu_slash", "fr": "eu_slash"}[self.lang]
        return {"iso": "%04d-%02d-%02d" % (y, m, d), "dot": "%02d.%02d.%04d" % (d, m, y), "eu_slash": "%02d/%02d/%04d" % (d, m, y), "us": "%02d/%02d/%04d" % (m, d, y), "dash": "%02d-%02d-%04d" % (d, m, y),
                "long": {"en": "%d %s %d", "de": "%d. %s %d", "es": "%d de %s de %d", "fr": "%d %s %d"}[self.lang] % (d, MONTHS[self.lang][m - 1], y),
                "uslong": "%s %d, %d" % (MONTHS["en"][m - 1], d, y)}[f]

    def range_text(self, low, high):
        """printed range and its truth"""
        f, n = self.style["rng"], self.num
        r = dict(low=low, low_open=False, high=high, high_open=False, unit="%")
        if f == "sym":
            r["high_open"] = True
            return "≥ %s - < %s" % (n(low), n(high)), r
        if f == "symtight":
            r["high_open"] = True
            return "≥%s–<%s %%" % (n(low), n(high)), r
        if f == "ascii":
            r["high_open"] = True
            return ">=%s - <%s %%" % (n(low), n(high)), r
        if f == "dash":
            return "%s - %s" % (n(low), n(high)), r
        if f == "endash":
            return "%s–%s" % (n(low), n(high)), r
        if f == "pct":
            return "%s - %s %%" % (n(low), n(high)), r
        if f == "pctboth":
            return "%s%% - %s%%" % (n(low), n(high)), r
        if f == "to":
            return "%s %s %s %%" % (n(low), {"en": "to", "de": "bis", "es": "a", "fr": "à"}[self.lang], n(high)), r
        if f == "openlow":
            r["low_open"] = True
            return "> %s - ≤ %s" % (n(low), n(high)), r
        if f == "less":
            r.update(low=None, high_open=True)
            return "< %s" % n(high), r
        if f == "lessequal":
            r.update(low=None)
            return "<= %s" % n(high), r
        if f == "single":
            r.update(low=high)
            return "%s %%" % n(high), r
        if f == "mixed":
            self.style["rng"] = self.rnd.choice(["sym", "dash", "less", "lessequal", "endash", "openlow"])
            out = self.range_text(low, high)
            self.style["rng"] = "mixed"
            return out
        if f == "vol":
            r["unit"] = "% v/v"
            return "%s - %s %% v/v" % (n(low), n(high)), r
        raise ValueError(f)

    def h1(self, n):
        options = TITLES[n, self.lang]
        t = options[0]
        if self.style.get("us") and self.lang == "en" and n in (1, 2, 4, 5, 16):
            t = options[1]
        if self.style["upper"]:
            t = t.replace("ß", "SS").upper()
        s = self.style["title"].format(n=n, t=t, S=L["section"][self.k], s=L["section"][self.k].capitalize())
        self.blocks.append(("h1", n, s))

    def h2(self, number, key=None):
        text = SUB[number][self.k] if key is None else L[key][self.k].split("|")[0]
        if self.style["subs"]:
            self.blocks.append(("h2", "%s%s %s" % (number, self.rnd.choice(["", "."]) if False else "", text)))

    def kv(self, rows, mode=None):
        self.blocks.append(("kv", rows, mode or self.style["kv"]))

    def para(self, text):
        for t in (text if isinstance(text, list) else [text]):
            self.blocks.append(("p", t))

    def f_or_c(self, c, decimals=0):
        if self.style["temp"] == "F":
            return "%s °F" % self.num(round(c * 9 / 5 + 32))
        if self.style["temp"] == "CF":
            return "%s °C (%s °F)" % (self.num(c), self.num(round(c * 9 / 5 + 32)))
        return "%s °C" % self.num(c)

    def seen_c(self, c):
        return round((round(c * 9 / 5 + 32) - 32) * 5 / 9, 1) if self.style["temp"] == "F" else c

    def build(self):
        p, st, k, lang = self.p, self.style, self.k, self.lang
        tr = self.truth
        tr.update(file=self.name + ".pdf", language=lang, producer=self.producer, layout=self.layout, pages=0, expected="facts")
        tr["product"] = p["names"][k]
        tr["supplier"] = self.rnd.choice(SUPPLIERS[lang])
        y, m, d = self.rnd.randint(2021, 2025), self.rnd.randint(1, 12), self.rnd.randint(13, 28) if st["date"] in ("auto", "us") and self.rnd.random() < 0.7 else self.rnd.randint(1, 12)
        tr["revision_date"] = "%04d-%02d-%02d" % (y, m, d)
        tr["revision"] = st.get("version") or "%d.%d" % (self.rnd.randint(1, 6), self.rnd.randint(0, 9))
        tr["ufi"] = p.get("ufi") if not st.get("us") else None
        printed = self.date(min(y + 1, 2026), (m % 12) + 1, 3)
        date = self.date(y, m, d)
        self.header = [tr["product"], "%s: %s" % (self.w("revdate"), date), "%s %s" % (self.w("version"), tr["revision"])] if st["header"] == "full" else [tr["product"], tr["supplier"]]
        head_rows = [(self.w("revdate"), date), (self.w("version"), tr["revision"])]
        if st.get("print_date"):
            head_rows.append((self.w("printdate"), printed))
        self.blocks.append(("big", L["sheet"][k]))
        if not st.get("us"):
            self.blocks.append(("small", L["according"][k]))
        dates_at = st.get("dates_at", "top")
        if st["header"] == "full":
            dates_at = "header"
        if dates_at == "top":
            self.kv(head_rows, st["kv1"] or st["kv"])
        # 1
        self.h1(1)
        self.h2("1.1")
        rows = [(self.w("product"), tr["product"])]
        if tr["ufi"]:
            rows.append(("UFI", tr["ufi"]))
        self.kv(rows)
        self.h2("1.2")
        self.kv([(self.w("use"), self.t("use"))])
        self.h2("1.3")
        if st.get("supplier_block"):
            self.para(tr["supplier"])
            self.para("Example Lane 4, 10000 Inventown" if lang == "en" else "Beispielweg 4, 10000 Musterstadt" if lang == "de" else "Calle Ficticia 4, 10000 Villa Inventada" if lang == "es" else "4 rue Fictive, 10000 Ville Inventée")
            self.para("%s: +00 555 0100" % self.w("phone"))
        else:
            self.kv([(self.w("supplier"), tr["supplier"]), (self.w("address"), "4 Example Lane, Inventown" if lang == "en" else "Beispielweg 4, Musterstadt" if lang == "de" else "Calle Ficticia 4, Villa Inventada" if lang == "es" else "4 rue Fictive, Ville Inventée"), (self.w("phone"), "+00 555 0100")])
        self.h2("1.4")
        self.kv([(self.w("emergency"), "+00 555 0199 (24 h)")])
        # 2
        self.h1(2)
        self.h2("2.1")
        h, euh, pp = p["h"], p.get("euh", []), p["p"]
        codes = []

        def add(c):
            if c not in codes:
                codes.append(c)
        fill = S[p["ing"][-1][0]][4][k]
        if h:
            if st["classtable"]:
                self.blocks.append(("table", ["Hazard class" if lang == "en" else "Gefahrenklasse" if lang == "de" else "Clase de peligro" if lang == "es" else "Classe de danger", "H-Code"], [[CLASSES[c], c] for c in h], [3, 1]))
                [add(c) for c in h]
            elif st["s2"] != "text":
                if st.get("s21", True):
                    self.para(self.w("classif") + ":" if not st.get("us") else "GHS classification:")
                    self.para("; ".join("%s, %s" % (CLASSES[c], c) for c in h))
                    [add(c) for c in h]
            else:
                self.para("; ".join(CLASSES[c].replace(".", "") for c in h))
        else:
            self.para(self.w("notclass") if not st.get("us") else "This mixture is not classified as hazardous under 29 CFR 1910.1200.")
        self.h2("2.2")
        sig = p["signal"]
        if sig:
            self.kv([(self.w("signal"), L[sig][k].upper() if st.get("sigupper") else L[sig][k])])
            tr["signal_word"] = sig
        elif st.get("say_none", True):
            self.kv([(self.w("signal"), self.w("none"))])
            tr["signal_word"] = "none"
        else:
            tr["signal_word"] = None

        def statement(c):
            if st["s2"] == "codes_text":
                return "%s %s" % (c.replace("+", " + ") if st.get("plusspaces") else c, wording(c, lang, fill))
            if st["s2"] == "text_codes":
                return "%s (%s)" % (wording(c, lang, fill).rstrip("."), c)
            if st["s2"] == "codes_sep":
                return "%s: %s" % (c, wording(c, lang, fill))
            return wording(c, lang, fill)
        for key, group in (("hstat", h), ("suppl", euh), ("pstat", pp)):
            if not group:
                continue
            if st["s2"] == "codes":
                self.para("%s: %s" % (self.w(key), ", ".join(group)))
            elif st["s2"] == "table":
                self.blocks.append(("table", [self.w(key), ""], [[c, wording(c, lang, fill)] for c in group], [1, 4]))
            else:
                self.blocks.append(("h2" if st.get("h3") else "p", self.w(key) + ("" if st.get("h3") else ":")))
                self.blocks.append(("list" if st.get("bullets") else "plist", [statement(c) for c in group]))
            [add(c) for c in group]
        self.h2("2.3")
        self.para(self.t(2))
        tr["codes"] = codes
        # 3
        self.h1(3)
        self.h2("3.2")
        tr["ingredients"], tr["bad_cas"] = [], []
        rows = []
        for item in p["ing"]:
            key, low, high = item[:3]
            opt = item[3] if len(item) > 3 else {}
            cas, ec, index, reach, names, own, limits = S[key]
            text, r = self.range_text(low, high)
            name = names[k]
            shown_cas = cas
            ts = bool(opt.get("ts"))
            if ts:
                shown_cas = L["ts"][k]
            if opt.get("bad"):
                shown_cas = opt["bad"]
                tr["bad_cas"].append(opt["bad"])
            if opt.get("norange"):
                text, r = L["ts"][k], None
            show_ec, show_reach = ec and not ts and not st.get("us"), reach and not ts and not st.get("us")
            row = dict(name=name, cas=shown_cas, ec=ec if show_ec else None, reach=reach if show_reach else None, index=index if show_ec else None, range=text, codes=own if not st.get("us") else [], ts=ts)
            rows.append(row)
            tr["ingredients"].append(dict(name=name, cas=None if ts or opt.get("bad") else cas, ec=None, reach=None, range=r, trade_secret=ts or bool(opt.get("norange")), codes=[]))
        self.section3(rows)
        if not st.get("us"):
            self.para(self.t(3))
        # 4 .. 6
        for n in (4, 5, 6):
            self.h1(n)
            self.para(self.t(n))
            for i in range(st["pad"]):
                self.para(self.t(n))
        # 7
        self.h1(7)
        self.h2("7.1")
        self.para(self.t("handling"))
        if st["subs"]:
            self.h2("7.2", "storage")
            self.para(self.t("storage"))
        else:
            self.kv([(L["storage"][k], self.t("storage"))], "inline" if st["kv"] != "stacked" else "stacked")
        # 8
        self.h1(8)
        self.h2("8.1")
        self.section8()
        self.h2("8.2")
        self.para(self.t("ppe"))
        # 9
        self.h1(9)
        self.h2("9.1")
        self.section9()
        # 10
        self.h1(10)
        self.para(self.t(10))
        if st["subs"]:
            self.h2("10.5", "incompat")
            self.para(self.t("incompat"))
        else:
            self.kv([(self.w("incompat"), self.t("incompat"))])
        for n in (11, 12):
            self.h1(n)
            self.para(self.t(n))
            for i in range(st["pad"]):
                self.para(self.t(n))
        self.h1(13)
        if st["subs"]:
            self.h2("13.1", "waste")
        self.para(self.t("waste"))
        self.h1(14)
        self.section14()
        self.h1(15)
        self.para(self.t(15))
        self.h1(16)
        if dates_at == "end":
            self.kv(head_rows)
        self.para(self.t(16))
        if st["s2"] not in ("text",) and not st.get("us"):
            own = sorted({c for i in p["ing"] for c in S[i[0]][5]})
            self.blocks.append(("plist", ["%s %s" % (c, wording(c, lang, "…")) for c in own]))
        tr["contradictions"] = list(p.get("contradictions", []))

    def section3(self, rows):
        st, w, f = self.style, self.w, self.style["s3"]
        t = self.truth["ingredients"]
        cl = [", ".join("%s, %s" % (CLASSES[c], c) if c in CLASSES else c for c in r["codes"]) or "-" for r in rows]
        if st.get("codes_only"):
            cl = [", ".join(r["codes"]) or "-" for r in rows]
        rng = w("c_range")
        if f in ("A", "A2"):   # every identifier has its column
            head = [w("c_name"), w("c_cas"), w("c_ec"), rng, w("c_class")]
            body = [[r["name"], r["cas"], r["ec"] or "-", r["range"], c] for r, c in zip(rows, cl)]
            if f == "A2":
                head, body = [head[1], head[2], head[0], head[4], head[3]], [[b[1], b[2], b[0], b[4], b[3]] for b in body]
                self.blocks.append(("table", head, body, [2.0, 2.0, 4, 4, 2.2]))
            else:
                self.blocks.append(("table", head, body, [4, 2.1, 2.0, 2.2, 4]))
            for x, r in zip(t, rows):
                x["ec"], x["codes"] = r["ec"], r["codes"]
        elif f == "B":         # identifiers stacked in one cell
            body = []
            for r, c, x in zip(rows, cl, t):
                ids = ["CAS: %s" % r["cas"] if not r["ts"] else r["cas"]] + (["%s: %s" % ({"en": "EC", "de": "EG", "es": "CE", "fr": "CE"}[self.lang], r["ec"])] if r["ec"] else []) + (["REACH: %s" % r["reach"]] if r["reach"] else [])
                body.append([r["name"], "\n".join(ids), c, r["range"]])
                x["ec"], x["reach"], x["codes"] = r["ec"], r["reach"], r["codes"]
            self.blocks.append(("table", [w("c_name"), {"en": "Identifiers", "de": "Identifikatoren", "es": "Identificadores", "fr": "Identifiants"}[self.lang], w("c_class"), rng], body, [4, 4, 4, 2.2]))
        elif f == "C":         # a block of labels for each
            for r, c, x in zip(rows, cl, t):
                kv = [(w("c_name"), r["name"]), (w("c_cas"), r["cas"])]
                if r["ec"]:
                    kv.append((w("c_ec"), r["ec"]))
                if r["reach"]:
                    kv.append((w("c_reach"), r["reach"]))
                kv.append((rng, r["range"]))
                if r["codes"]:
                    kv.append((w("c_class"), c))
                self.kv(kv, st.get("s3kv"))
                x["ec"], x["reach"], x["codes"] = r["ec"], r["reach"], r["codes"]
        elif f == "D":         # three columns
            self.blocks.append(("table", [w("c_name"), w("c_cas"), rng], [[r["name"], r["cas"], r["range"]] for r in rows], [4, 2, 2]))
        elif f == "E":         # numbers on the left, name over classification, range on the right
            body = []
            for r, c, x in zip(rows, cl, t):
                body.append(["\n".join([r["cas"]] + [i for i in (r["ec"], r["index"], r["reach"]) if i]), r["name"] + "\n" + c, r["range"]])
                x["ec"], x["reach"], x["codes"] = r["ec"], r["reach"], r["codes"]
            self.blocks.append(("table", ["%s\n%s\n%s\n%s" % (w("c_cas"), w("c_ec"), w("c_index"), w("c_reach")), w("c_name") + "\n" + w("c_class"), rng], body, [3, 6, 2]))
        elif f == "F":         # sentences
            self.blocks.append(("list", ["%s (CAS %s): %s" % (r["name"], r["cas"], r["range"] + ("" if "%" in r["range"] else " %")) for r in rows]))
        elif f == "G":         # range first
            self.blocks.append(("table", [rng, w("c_name"), w("c_cas"), w("c_class")], [[r["range"], r["name"], r["cas"], c] for r, c in zip(rows, cl)], [2, 4, 2, 4]))
            for x, r in zip(t, rows):
                x["codes"] = r["codes"]

    def section8(self):
        st, k, n = self.style, self.k, self.num
        j_wanted = st.get("jur") or {"en": ["EU", "UK"], "de": ["DE", "EU"], "es": ["ES"], "fr": ["FR"]}[self.lang]
        lim, truth = [], []
        for item in self.p["ing"]:
            if len(item) > 3 and (item[3].get("ts") or item[3].get("bad")):
                continue
            cas, names, limits = S[item[0]][0], S[item[0]][4], S[item[0]][6]
            mine = [(j, kd, mg, ppm) for j in j_wanted for kd, mg, ppm in limits.get(j, [])]
            if mine:
                lim.append((names[k], cas, mine))
                truth += [dict(cas=cas, jurisdiction=j, kind=kd, mg_m3=mg, ppm=ppm) for j, kd, mg, ppm in mine]
        self.truth["limits"] = truth
        if not lim:
            self.para({"en": "No substances with exposure limits.", "de": "Keine Stoffe mit Grenzwerten.", "es": "Sin sustancias con valores límite.", "fr": "Pas de substances avec valeurs limites."}[self.lang])
            return
        f = st["s8"]

        def v(mg, ppm):
            return ", ".join(([("%s ppm" % n(ppm))] if ppm is not None else []) + (["%s mg/m³" % n(mg)] if mg is not None else []))
        if f == "table":
            rows = [[name, cas, JUR[j][k], KIND[kd][k], n(ppm) if ppm is not None else "-", n(mg) if mg is not None else "-"] for name, cas, mine in lim for j, kd, mg, ppm in mine]
            self.blocks.append(("table", [self.w("c_name"), self.w("c_cas"), self.w("lim_basis"), self.w("lim_type"), "ppm", "mg/m³"], rows, [4, 2.2, 3, 3, 1.4, 1.6]))
        elif f == "lines":
            for name, cas, mine in lim:
                self.para("%s (CAS %s)" % (name, cas))
                self.blocks.append(("plist", ["%s, %s: %s" % (JUR[j][k], KIND[kd][k], v(mg, ppm)) for j, kd, mg, ppm in mine]))
        elif f == "cells":
            rows = [[name, cas, JUR[j][k], "%s: %s" % (KIND[kd][k], v(mg, ppm))] for name, cas, mine in lim for j, kd, mg, ppm in mine]
            self.blocks.append(("table", [self.w("c_name"), self.w("c_cas"), self.w("lim_basis"), {"en": "Limit value", "de": "Grenzwert", "es": "Valor límite", "fr": "Valeur limite"}[self.lang]], rows, [4, 2, 3, 5]))
        elif f == "wide":      # one row a substance and basis, TWA and STEL side by side
            rows = []
            for name, cas, mine in lim:
                for j in dict.fromkeys(x[0] for x in mine):
                    d = {kd: (mg, ppm) for jj, kd, mg, ppm in mine if jj == j}
                    if "ceiling" in d:
                        truth[:] = [x for x in truth if not (x["cas"] == cas and x["jurisdiction"] == j and x["kind"] == "ceiling")]
                    cell = lambda kd, i: n(d[kd][i]) if kd in d and d[kd][i] is not None else "-"
                    if "twa" in d or "stel" in d:
                        rows.append([name, cas, JUR[j][k], cell("twa", 1), cell("twa", 0), cell("stel", 1), cell("stel", 0)])
            a, b = KIND["twa"][k].split(" (")[0], KIND["stel"][k].split(" (")[0]
            self.blocks.append(("table", [self.w("c_name"), self.w("c_cas"), self.w("lim_basis"), a + " ppm", a + " mg/m³", b + " ppm", b + " mg/m³"], rows, [4, 2.2, 3, 1.4, 1.6, 1.6, 1.6]))

    def section9(self):
        p, st, n, tr, k = self.p, self.style, self.num, self.truth, self.k
        rows = [(self.w("state"), ALT["state"][p["state"]][k]), (self.w("colour"), self.t("color")), (self.w("odour"), self.t("smell"))]
        tr["state"] = p["state"]
        ph = p["ph"]
        if ph[0] == "na":
            rows.append((self.w("ph"), self.w("na")))
            tr["ph"] = dict(low=None, high=None, concentration_pct=None, celsius=None, not_applicable=True)
        else:
            low, high, conc, c = ph
            text = n(low) if low == high else "%s - %s" % (n(low), n(high)) if self.rnd.random() < 0.6 else "%s–%s" % (n(low), n(high))
            inside = []
            if conc:
                inside.append({"en": "%s %% in water", "de": "%s %% in Wasser", "es": "%s %% en agua", "fr": "%s %% dans l'eau"}[self.lang] % n(conc))
            if c:
                inside.append("%s °C" % n(c) if st["temp"] != "F" else "%s °F" % n(c * 9 / 5 + 32))
            if inside:
                text += " (" + ", ".join(inside) + ")"
            rows.append((self.w("ph"), text))
            tr["ph"] = dict(low=low, high=high, concentration_pct=conc, celsius=c, not_applicable=False)
        rows.append((self.w("melting"), self.w("nd")))
        b = p["boiling"]
        if b:
            rows.append((self.w("boiling"), self.f_or_c(b[0]) if b[0] == b[1] else "%s - %s" % (n(b[0]) if st["temp"] != "F" else n(round(b[0] * 9 / 5 + 32)), self.f_or_c(b[1])) if st["temp"] != "CF" else "%s - %s °C" % (n(b[0]), n(b[1]))))
            tr["boiling_c"] = dict(low=self.seen_c(b[0]), high=self.seen_c(b[1]))
        else:
            rows.append((self.w("boiling"), self.w("nd")))
            tr["boiling_c"] = None
        f = p["flash"]
        if f[0] == "na":
            rows.append((self.w("flash"), self.w("na")))
            tr["flash_point"] = dict(celsius=None, sign="=", not_applicable=True)
        else:
            rows.append((self.w("flash"), (f[0] + " " if f[0] != "=" else "") + self.f_or_c(f[1]) + self.rnd.choice(["", " (closed cup)" if self.lang == "en" else " (DIN 51755)"])))
            tr["flash_point"] = dict(celsius=self.seen_c(f[1]), sign=f[0], not_applicable=False)
        if p["vp"] is not None:
            u = st.get("vp", "hpa")
            if u == "hpa":
                rows.append((self.w("vp"), "%s hPa (20 °C)" % n(p["vp"])))
                tr["vapour_pressure_hpa"] = p["vp"]
            elif u == "mmhg":
                mm = round(p["vp"] / 1.33322, 1)
                rows.append((self.w("vp"), "%s mmHg @ 68 °F" % n(mm)))
                tr["vapour_pressure_hpa"] = round(mm * 1.33322, 1)
            elif u == "kpa":
                rows.append((self.w("vp"), "%s kPa" % n(p["vp"] / 10)))
                tr["vapour_pressure_hpa"] = p["vp"]
            elif u == "mbar":
                rows.append((self.w("vp"), "ca. %s mbar" % n(p["vp"])))
                tr["vapour_pressure_hpa"] = p["vp"]
        else:
            tr["vapour_pressure_hpa"] = None
        d = p["density"]
        if d:
            u = st.get("du", "g/cm³")
            scale = {"g/cm³": 1, "g/ml": 1, "kg/m³": 1000, "kg/l": 1, "": 1}[u]
            val = n(d[0] * scale) if d[0] == d[1] else "%s - %s" % (n(d[0] * scale), n(d[1] * scale))
            label = self.w("density")
            if u == "":
                label = L["density"][k].split("|")[-1] if self.lang == "en" else label
            rows.append((label, ("%s %s (%s °C)" % (val, u, n(d[2]))) if u else "%s (%s °C)" % (val, n(d[2]))))
            tr["density_g_ml"] = dict(low=d[0], high=d[1], celsius=d[2])
        else:
            tr["density_g_ml"] = None
        rows.append((self.w("solub"), self.t("mix")))
        rows.append((self.w("visc"), self.w("nd")))
        rows.append((self.w("autoign"), self.w("nd")))
        v = p["voc"]
        if v:
            rows.append((self.w("voc"), "%s %s" % (n(v[0]), v[1])))
            tr["voc"] = dict(value=v[0], unit=v[1])
        else:
            tr["voc"] = None
        if st["s9"] == "table3":
            self.blocks.append(("table", [self.w("propcol"), self.w("valcol"), self.w("remcol")], [[a, c, self.rnd.choice(["", "-", "DIN 51757", ""])] for a, c in rows], [5, 4, 2]))
        else:
            self.kv(rows, st["s9"])

    def section14(self):
        p, st, k = self.p, self.style, self.k
        t = p["transport"]
        if not t:
            self.para(self.w("nodg"))
            self.truth["transport"] = None
            return
        un, cl, pg, name = t
        self.truth["transport"] = {"un": un, "class": cl, "packing_group": pg}
        if st["s14"] == "kv":
            self.kv([(self.w("un"), "UN " + un), (self.w("shipname"), name), (self.w("class"), cl), (self.w("pg"), pg or "-")])
        elif st["s14"] == "subs":
            for i, (key, value) in enumerate([("un", "UN" + un), ("shipname", name), ("class", cl), ("pg", pg or "-")]):
                self.blocks.append(("h2", "14.%d. %s" % (i + 1, L[key][k].split("|")[0])))
                self.para(value)
        elif st["s14"] == "modes":
            self.blocks.append(("table", ["", "ADR/RID", "IMDG", "IATA"], [[self.w("un"), "UN " + un, "UN " + un, "UN " + un], [self.w("shipname"), name, name, name], [self.w("class"), cl, cl, cl], [self.w("pg"), pg or "-", pg or "-", pg or "-"]], [3, 3, 3, 3]))
        elif st["s14"] == "line":
            self.para("ADR/RID: UN %s, %s, %s%s" % (un, name, cl, ", " + pg if pg else ""))
