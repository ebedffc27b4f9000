"""The held-out files that must be refused: scans, leaflets, an invoice, one behind a password, two damaged."""

import copy
import json
import os
import subprocess
import tempfile
import zlib

import specs_de_es
import specs_en
import specs_fr
from content import build
from render_fo import fop
from render_html import weasyprint


def sheet(module, file, **changes):
    """Another maker's version of a sheet, made into a folder of its own; gives the path."""
    spec = copy.copy(next(s for s in module.SHEETS if s["file"] == file))
    spec.update(changes)
    spec.pop("after", None)
    doc, _ = build(spec)
    tmp = tempfile.mkdtemp(prefix="held-")
    pdf = os.path.join(tmp, "made.pdf")
    spec["render"](doc, spec["o"], pdf, tmp)
    return pdf


def pictures(pages, pdf, line=None):
    """A PDF of nothing but pictures: (width, height, dictionary, bytes) each; line writes real text at the head, as a fax machine does."""
    objects = ["<< /Type /Catalog /Pages 2 0 R >>", None, "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>"]
    kids = []
    for i, (w, h, how, data) in enumerate(pages):
        text = f" BT /F 8 Tf 40 826 Td ({line.replace('@', str(i + 1))}) Tj ET" if line else ""
        draw = f"q 595 0 0 842 0 0 cm /I Do Q{text}".encode()
        n = len(objects) + 1
        kids.append(f"{n} 0 R")
        objects.append(f"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Contents {n + 1} 0 R /Resources << /XObject << /I {n + 2} 0 R >> /Font << /F 3 0 R >> >> >>")
        objects.append((f"<< /Length {len(draw)} >>", draw))
        objects.append((f"<< /Type /XObject /Subtype /Image /Width {w} /Height {h} {how} /Length {len(data)} >>", data))
    objects[1] = f"<< /Type /Pages /Count {len(kids)} /Kids [{' '.join(kids)}] >>"
    out, at = b"%PDF-1.4\n%\xe2\xe3\xcf\xd3\n", []
    for i, o in enumerate(objects):
        at.append(len(out))
        out += f"{i + 1} 0 obj\n".encode()
        out += o.encode() if isinstance(o, str) else o[0].encode() + b"\nstream\n" + o[1] + b"\nendstream"
        out += b"\nendobj\n"
    start = len(out)
    out += f"xref\n0 {len(objects) + 1}\n0000000000 65535 f \n".encode() + b"".join(f"{a:010d} 00000 n \n".encode() for a in at)
    out += f"trailer\n<< /Size {len(objects) + 1} /Root 1 0 R >>\nstartxref\n{start}\n%%EOF\n".encode()
    open(pdf, "wb").write(out)


def images(pdf, args, end):
    base = os.path.join(os.path.dirname(pdf), "p")
    subprocess.run(["pdftoppm", *args, pdf, base], check=True)
    folder = os.path.dirname(pdf)
    return [open(os.path.join(folder, f), "rb").read() for f in sorted(os.listdir(folder)) if f.endswith(end)]


def jpeg(data):
    i = 2
    while True:
        mark, size = data[i + 1], int.from_bytes(data[i + 2:i + 4], "big")
        if 0xC0 <= mark <= 0xC2:
            return int.from_bytes(data[i + 7:i + 9], "big"), int.from_bytes(data[i + 5:i + 7], "big"), "/ColorSpace /DeviceGray /BitsPerComponent 8 /Filter /DCTDecode", data
        i += 2 + size


def bitmap(data):
    _, size, rest = data.split(b"\n", 2)
    w, h = map(int, size.split())
    packed = zlib.compress(rest, 9)
    return w, h, "/ColorSpace /DeviceGray /BitsPerComponent 1 /Decode [1 0] /Filter /FlateDecode", packed


def plain(lang, voice, title, product, sections):
    return {"lang": lang, "voice": voice, "title": title, "product": product, "supplier": "", "date": "", "revision": "", "page": {"fr": "Page", "en": "Page", "de": "Seite"}[lang], "annex": [], "sections": [{"n": i + 1, "heading": h, "blocks": b} for i, (h, b) in enumerate(sections)]}


LEAFLET_FR = plain("fr", "fr", "FICHE TECHNIQUE", "Baume nourrissant Grand Cormier", [
    ("1. Description", [["p", "Baume incolore à base de cires naturelles, destiné aux cuirs lisses à tannage végétal ou minéral. Il nourrit, assouplit et protège sans encrasser la fleur."]]),
    ("2. Données techniques", [["kv", "Aspect", "pâte jaune clair"], ["kv", "Extrait sec", "68 % ± 2"], ["kv", "pH", "sans objet"], ["kv", "Densité", "0,91 à 20 °C"], ["kv", "Point d'éclair", "64 °C"], ["kv", "Rendement", "25 m² par kilogramme"]]),
    ("3. Mode d'emploi", [["p", "Dépoussiérer le cuir, le nettoyer si besoin avec un savon doux, laisser sécher une nuit. Appliquer une fine couche au chiffon, en mouvements circulaires. Laisser pénétrer une heure, puis lustrer à la brosse douce."], ["p", "Toujours faire un essai sur une partie cachée. Ne convient pas au daim ni au nubuck."]]),
    ("4. Conditionnement et stockage", [["table", "pack", ["Référence", "Contenance", "Colisage"], [["GC-050", "50 ml", "12"], ["GC-250", "250 ml", "6"], ["GC-001", "1 kg", "4"]], [40, 30, 30]], ["p", "Conserver entre 5 et 30 °C. Durée de conservation : 36 mois en emballage fermé."]]),
    ("5. Sécurité", [["p", "Contient de l'essence de térébenthine (N° CAS 8006-64-2). H317 Peut provoquer une allergie cutanée. P102 Tenir hors de portée des enfants. Consulter la fiche de données de sécurité, disponible sur demande auprès du fournisseur."]]),
    ("6. Remarque", [["p", "Les présentes indications résultent de notre expérience et ne dispensent pas l'utilisateur de ses propres essais. Cette fiche technique annule et remplace les précédentes. Édition de février 2024."]])])

LEAFLET_EN = plain("en", "us", "PRODUCT DATA SHEET", "Millcreek Waterborne Crosslinker WX", [
    ("Description", [["p", "A low-odor polycarbodiimide crosslinker for waterborne leather finishes. It raises wet rub fastness and flexing endurance. Pot life of the mix is about twelve hours."]]),
    ("Typical properties (not a specification)", [["table", "props", ["Property", "Value", "Method"], [["Active content", "40 %", "in-house"], ["Viscosity at 77 °F", "50-300 cP", "Brookfield LV2"], ["Weight per gallon", "8.8 lb", "pycnometer"], ["pH", "9-11", "10 % in water"], ["VOC", "less than 5 g/L", "calculated"], ["Flash point", "greater than 200 °F", "closed cup"]], [40, 30, 30]]]),
    ("How to use", [["li", ["Stir the finish slowly and add 3 to 5 parts of WX to 100 parts of finish.", "Stir for ten minutes. Filter through 100 mesh.", "Spray or roll as usual. Dry at 140 °F for three minutes.", "Full cure is reached after five days at room temperature."]]]),
    ("Storage", [["p", "Keep from freezing. Use within twelve months of the date on the pail."]]),
    ("Health and safety information", [["p", "Before handling read the Safety Data Sheet, which tells of hazards, first aid, handling and disposal. This bulletin is not a safety data sheet."]])])

INVOICE_DE = plain("de", "de", "RECHNUNG", "Rechnung Nr. 2024-01187", [
    ("Lieferanschrift", [["p", "Polsterei Amselgrund\nInh. B. Kranewitter\nHauptstraße 77\n09999 Amselgrund"], ["kv", "Rechnungsdatum", "14.03.2024"], ["kv", "Kundennummer", "40417"], ["kv", "USt-IdNr.", "DE000000000"]]),
    ("Positionen", [["table", "items", ["Pos.", "Artikel", "Menge", "Einzelpreis", "Gesamt"], [["1", "Lederreiniger mild, 1 l (Propan-2-ol < 5 %)", "6", "11,80 €", "70,80 €"], ["2", "Vernetzer CDX, 250 ml, UN 1866, Klasse 3, VG III", "2", "24,50 €", "49,00 €"], ["3", "Ammoniaklösung 5 %, 1 l", "1", "6,20 €", "6,20 €"], ["4", "Handschuhe Butyl, Gr. 9", "4", "8,90 €", "35,60 €"], ["5", "Gefahrgutzuschlag", "1", "9,00 €", "9,00 €"]], [8, 46, 10, 18, 18]], ["kv", "Nettobetrag", "170,60 €"], ["kv", "Umsatzsteuer 19 %", "32,41 €"], ["kv", "Rechnungsbetrag", "203,01 €"]]),
    ("Hinweise", [["p", "Zahlbar innerhalb von 14 Tagen ohne Abzug. Die Ware bleibt bis zur vollständigen Bezahlung unser Eigentum. Sicherheitsdatenblätter zu den gefährlichen Produkten erhalten Sie auf Anfrage oder auf unserer Internetseite."]])])

CSS = "@page{size:A4;margin:20mm} body{font:10pt/1.4 Carlito} table{border-collapse:collapse;width:100%} td,th{border:.5pt solid #999;padding:2pt 4pt;text-align:left} h2{font-size:11.5pt;margin:12pt 0 3pt}"


def make(held, steady):
    def done(name, lang, producer, layout, expected, note_pages):
        with open(os.path.join(held, name + ".json"), "w", encoding="utf-8") as f:
            json.dump({"file": name + ".pdf", "language": lang, "producer": producer, "layout": layout, "pages": note_pages, "expected": expected}, f, ensure_ascii=False, indent=1)
            f.write("\n")
        print(name, expected, os.path.getsize(os.path.join(held, name + ".pdf")) // 1024, "KiB")

    at = lambda name: os.path.join(held, name + ".pdf")

    made = sheet(specs_fr, "fr-nettoyant-ammoniaque", product="Crème démaquillante Vieux Chêne", supplier="Cirerie Bonnefond")
    got = [jpeg(d) for d in images(made, ["-r", "72", "-gray", "-jpeg", "-jpegopt", "quality=40"], ".jpg")]
    pictures(got, at("no-scan-gris"))
    done("no-scan-gris", "fr", "scanner", "grey-pictures", "no_text", len(got))

    made = sheet(specs_de_es, "de-schimmelentferner", product="Beize Rustikal 9", supplier="Farbenhof Lützelbach")
    got = [bitmap(d) for d in images(made, ["-r", "110", "-mono"], ".pbm")]
    pictures(got, at("no-fax"), "14.03.2024 09:41  FAX 0351 23125 99  FARBENHOF  S. @")
    done("no-fax", "de", "fax", "bitmap-with-fax-line", "no_text", len(got))

    for name, doc, lang, how, producer, o in [
            ("no-fiche-technique", LEAFLET_FR, "fr", weasyprint, "weasyprint", dict(kv="grid", css=CSS, head_lines=lambda d: [("Édition", "02/2024")])),
            ("no-product-bulletin", LEAFLET_EN, "en", fop, "fop", dict(kv="table", font="Lato", fs="10.5pt", h2='font-weight="bold" font-size="12pt" space-before="10pt" color="#225577"', h3="", header=lambda d: '<fo:block font-size="9pt">Millcreek Coatings, bulletin WX-3, 03/05/2024</fo:block>', footer=lambda d: '<fo:block>@PAGE@</fo:block>', head_lines=lambda d: [("Bulletin WX-3", "")])),
            ("no-rechnung", INVOICE_DE, "de", weasyprint, "weasyprint", dict(kv="grid", css=CSS, head_lines=lambda d: [("Lederbedarf Osterwald KG, Gerbergasse 3, 36999 Osterwald", "")]))]:
        tmp = tempfile.mkdtemp(prefix="held-")
        how(doc, o, at(name), tmp)
        steady(at(name))
        n = subprocess.run(["pdfinfo", at(name)], stdout=subprocess.PIPE, check=True).stdout.decode().split("Pages:")[1].split()[0]
        done(name, lang, producer, "leaflet" if name != "no-rechnung" else "invoice", "not_a_sheet", int(n))

    made = sheet(specs_de_es, "es-disolvente-limpieza", product="Quitagrasas Alcor", supplier="Químicas del Tajo Bajo, S.L.")
    steady(made)
    subprocess.run(["qpdf", "--allow-weak-crypto", "--static-id", "--static-aes-iv", "--encrypt", "cerrado", "owner", "128", "--use-aes=y", "--", made, at("no-con-clave")], check=True)
    done("no-con-clave", "es", "weasyprint", "password", "encrypted", 2)

    made = sheet(specs_en, "us-acid-rinse", product="Rust-Out for Leather", supplier="Prairie Hide Supply")
    steady(made)
    data = open(made, "rb").read()
    open(at("no-cut-short"), "wb").write(data[: len(data) * 2 // 5])
    done("no-cut-short", "en", "libreoffice", "truncated", "damaged", 0)

    made = sheet(specs_en, "us-lacquer-topcoat", product="Bridle Satin 60 Lacquer", supplier="Harrow & Pine Finishes, LLC")
    steady(made)
    data = open(made, "rb").read()
    open(at("no-wiped-middle"), "wb").write(data[:2000] + bytes(len(data) - 2600) + data[-600:])
    done("no-wiped-middle", "en", "fop", "overwritten", "damaged", 0)
