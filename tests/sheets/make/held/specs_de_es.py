"""The German and Spanish sheets. Makers, products and people are invented."""

import os
import subprocess

from helpers import NA, fill, ph
from render_fo import fop
from render_html import htmldoc, weasyprint, wkhtmltopdf
from render_odt import libreoffice

SHEETS = []


def owner_locked(pdf):
    """Opens without a password, but may not be changed: common among suppliers. Its pages lie on their side and say so."""
    subprocess.run(["qpdf", "--allow-weak-crypto", "--static-id", "--static-aes-iv", "--encrypt", "", "owner", "128", "--use-aes=y", "--modify=none", "--", "--rotate=+90:1-z", pdf, pdf + ".x"], check=True)
    os.replace(pdf + ".x", pdf)


SHEETS.append(dict(
    file="de-vernetzer-carbodiimid", producer="fop", layout="two-columns-serif", render=fop, voice="de", prose="de", kinds={"flam"},
    fill=fill("de", gloves="Butylkautschuk, 0,5 mm, Durchbruchzeit über 240 min.", filter="Bei unzureichender Lüftung Kombinationsfilter A-P2.", decomp="Kohlenmonoxid, Stickoxide, Isocyanate in Spuren", incompat="Säuren, Amine, starke Oxidationsmittel.", reactions="Mit Säuren exotherme Reaktion.", waste="08 01 11*", national="Technische Anleitung Luft: Klasse 5.2.5.", lgk="3", wgk="2 (deutlich wassergefährdend, Selbsteinstufung)"),
    nd=["nicht bestimmt", "keine Daten verfügbar"], product="Verknüpfer CDX 50", supplier="Hollerbeck Lederchemie GmbH", date="2024-03-12", date_form="dmy.", revision="2.3", head="ABSCHNITT {n}: {t}", sub="{s}.",
    use="Vernetzer für wässrige Zurichtungen.", address=["Weißgerberstraße 9", "79999 Unterholzheim", "Telefon +49 (0)761 23125-10", "Telefax +49 (0)761 23125-11", "sdb@hollerbeck.example"], phones=[("Notruf", "Giftinformationszentrum Freiburg, +49 761 19240")], ufi="5V70-E0WS-M00Y-QH7P",
    h=["H226", "H317", "H336"], euh=["EUH204"], p=["P210", "P261", "P272", "P280", "P302+P352", "P333+P313", "P501"], picto="GHS02, GHS07", signal="warning", c21="lines", plus=" + ", contains="Polycarbodiimid, aliphatisch",
    ing=[dict(name="Polycarbodiimid, aliphatisch", r="[45,55]", cas_shown="Polymer", codes=["H317"]), dict(key="pma", r="[40,50)"), dict(key="hdi", r="(,0.1)")],
    ing_as="kv", cols=["name", "cas", "ec", "reach", "range", "class"], range="half", dash="entfällt",
    limits=[("pma", "EU", "twa", 275, 50), ("pma", "EU", "stel", 550, 100), ("pma", "DE", "twa", 270, 50), ("hdi", "DE", "twa", 0.035, 0.005)], limits_as="para",
    nine=dict(state="flüssig", colour="gelblich", odour="esterartig", ph="nicht anwendbar", boil="145 °C", flash="47 °C (DIN EN ISO 3679)", lel="1,5 Vol.-% / 10,8 Vol.-%", vp="3,8 hPa (20 °C)", dens="1,03 g/cm³ (20 °C)", sol="emulgierbar", auto="315 °C", voc="48 %"),
    t=dict(ph=NA, state="liquid", density=dict(low=1.03, high=1.03, celsius=20), flash=dict(celsius=47.0, sign="=", not_applicable=False), boiling=dict(low=145, high=145), vp=3.8, voc=dict(value=48, unit="%")),
    transport={"un": "1866", "name": "HARZLÖSUNG", "class": "3", "pg": "III"}, transport_as="subs",
    o=dict(kv="inline", font="Tinos", fs="9pt", columns=2, h2='font-weight="bold" font-size="9.5pt" space-before="8pt" space-after="2pt" border-bottom="0.5pt solid black" text-align="left"', h3='font-style="italic" space-before="4pt"', code_sep=": ",
           head_lines=lambda d: [("Überarbeitet am:", d["date"]), ("Version:", "2.3"), ("Druckdatum:", "02.05.2024")],
           header=lambda d: '<fo:block font-size="8pt" border-bottom="0.5pt solid black">Sicherheitsdatenblatt gemäß Verordnung (EG) Nr. 1907/2006 (REACH) – Verknüpfer CDX 50 – überarbeitet am 12.03.2024</fo:block>',
           footer=lambda d: '<fo:block font-size="8pt" text-align="right">@PAGE@</fo:block>')))

SHEETS.append(dict(
    file="de-haendegel", producer="weasyprint", layout="ligatures-hyphenated", render=weasyprint, voice="de", prose="de", kinds={"flam"},
    fill=fill("de", gloves="Bei bestimmungsgemäßer Verwendung nicht erforderlich.", filter="Nicht erforderlich.", decomp="Kohlenmonoxid, Kohlendioxid", incompat="Starke Oxidationsmittel.", reactions="Dämpfe bilden mit Luft zündfähige Gemische.", waste="07 06 04*", national="Biozidprodukte-Verordnung (EU) Nr. 528/2012, Produktart 1.", lgk="3", wgk="1"),
    nd=["Nicht bestimmt", "Keine Angaben", "Für dieses Produkt nicht von Belang"], product="Werkstatt-Händegel „Saubere Pfote“", supplier="Pfefferlein & Söhne OHG", date="2023-07-03", date_form="longde", revision="1.4", head="{n} {t}", sub="{s}", lab={"date": "Stand", "rev": "Ausgabe", "name": "Produktname"},
    use="Händedesinfektion in der Werkstatt.", supplier_as="kv", address=[("Straße", "Am Pfaffenfließ 22"), ("Ort", "04999 Oberflöha"), ("Fon", "0341 23125 60"), ("E-Mail", "auskunft@pfefferlein.example")], phones=[("Giftnotruf Erfurt", "0361 730730"), ("Notfalltelefon Österreich", "+43 1 406 43 43")], ufi=None,
    h=["H225", "H319"], p=["P102", "P210", "P233", "P305+P351+P338", "P337+P313", "P501"], picto="Flamme, Ausrufezeichen", signal="danger", c21="semi", codes_as="paren", plus=" + ",
    ing=[dict(key="ethanol", r="[60,75]", unit="% v/v", shown="60–75 % (V/V)"), dict(key="mek", r="(,1]"), dict(key="glycerol", r="[1,3]"), dict(name="Carbomer", r="(,0.5)", cas_shown="–")],
    ing_as="table", cols=["cas", "name", "range", "codes", "reach"], widths=[15, 30, 15, 20, 20], range="endash", dash="–", no_ec=True,
    limits=[("ethanol", "DE", "twa", 380, 200), ("mek", "EU", "twa", 600, 200), ("mek", "EU", "stel", 900, 300), ("mek", "DE", "twa", 600, 200), ("glycerol", "DE", "twa", 200, None)], limits_as="rows",
    nine=dict(state="flüssig, gelartig", colour="farblos, klar", odour="nach Alkohol", ph="6,5–7,5 (unverdünnt, 20 °C)", boil="ca. 78 °C", flash="22 °C", lel="3,5 % (V) – 15 % (V)", vp="57 hPa", dens="0,87–0,89 g/ml bei 20 °C", sol="vollständig mischbar", auto="425 °C", voc="70 Gew.-%"),
    t=dict(ph=ph(6.5, 7.5, None, 20), state="liquid", density=dict(low=0.87, high=0.89, celsius=20), flash=dict(celsius=22.0, sign="=", not_applicable=False), boiling=dict(low=78, high=78), vp=57.0, voc=dict(value=70, unit="%")),
    transport={"un": "1170", "name": "ETHANOL, LÖSUNG", "class": "3", "pg": "II"}, transport_as="line",
    o=dict(kv="inline", colon=":", head_lines=lambda d: [("Ausgabe 1.4,", "Stand: " + d["date"])],
           css="""@page{size:A4;margin:22mm 24mm;@bottom-left{content:"Händegel „Saubere Pfote“, Ausgabe 1.4";font:8pt 'Linux Libertine O'}@bottom-right{content:counter(page);font:8pt 'Linux Libertine O'}}
           body{font:11pt/1.35 'Linux Libertine O';hyphens:auto;text-align:justify;font-variant-ligatures:common-ligatures} h1{font-weight:normal;letter-spacing:.3em;font-size:17pt;text-align:center} .product{text-align:center;font-size:14pt;font-style:italic} .meta{text-align:center} h2{font-size:13pt;font-variant:normal;letter-spacing:.14em;margin:14pt 0 4pt;text-align:left;break-after:avoid} h3{font-size:11pt;font-style:italic;font-weight:normal;margin:6pt 0 2pt;break-after:avoid;text-align:left} p{margin:0 0 3pt} table{border-collapse:collapse;width:100%;margin:4pt 0} td,th{border-top:.5pt solid #777;padding:2pt 4pt;font-size:9pt;text-align:left;vertical-align:top;hyphens:none}""")))

SHEETS.append(dict(
    file="de-schimmelentferner", producer="libreoffice", layout="bars-tables", render=libreoffice, voice="de", prose="de", kinds={"corr"},
    fill=fill("de", gloves="Nitrilkautschuk, 0,4 mm.", filter="Filter B-P2 bei Aerosolbildung.", decomp="Chlor, Chlorwasserstoff", incompat="Säuren, Ammoniak, Metalle, andere Reiniger.", reactions="Mit Säuren entsteht giftiges Chlorgas.", waste="20 01 29*", national="Chemikalien-Verbotsverordnung beachten.", lgk="12", wgk="2"),
    nd=["nicht verfügbar", "entfällt"], product="SPORENFREI Keller & Polster", supplier="Reinhardtsgrimmer Hausmittel AG", date="2022-02-14", date_form="dmy.", revision="09", head="{n}. {t}", upper=True, sub="{s}",
    use="Schimmelentferner für mineralische Flächen. Nicht auf Leder anwenden.", address=["Industriehof 4 · 01999 Reinhardtsgrimma-Ost", "Fon 0351 23125-0 · Fax 0351 23125-99"], phones=[("Notrufnummer", "0351 23125-77 (Mo–Fr 8–16 Uhr)"), ("Giftnotruf", "030 19240")], ufi="52R0-K0JD-Q00H-NX5A", lab={"date": "Bearbeitungsdatum", "rev": "Fassung", "c.class": "Klasse", "c.h": "H-Satz", "c.t": "Wortlaut"},
    h=["H315", "H319", "H411"], euh=["EUH031", "EUH206"], p=["P102", "P261", "P273", "P280", "P305+P351+P338", "P391", "P501"], signal="warning", c21="table", codes_as="run", euh_first=True,
    ing=[dict(key="naocl", name="Natriumhypochlorit, Lösung 4 % Cl aktiv", r="[2.5,5)", codes=["H290", "H314", "H400", "H410"], scl="M = 10; EUH031: C ≥ 5 %"), dict(key="naoh", r="[0.5,1)", scl="Eye Irrit. 2; H319: 0,5 % ≤ C < 2 %")],
    ing_as="table", cols=["ids", "name", "classl", "range"], widths=[28, 26, 28, 18], range="clp",
    limits=[], nine=dict(state="flüssig", colour="hellgelb", odour="nach Chlor", ph="12,4 bis 13,0", flash="entfällt", dens="1,08 g/ml", sol="mischbar", boil="101 °C"),
    t=dict(ph=ph(12.4, 13.0), state="liquid", density=dict(low=1.08, high=1.08, celsius=None), flash=dict(celsius=None, sign=None, not_applicable=True), boiling=dict(low=101, high=101)),
    contradictions=["ph_without_corrosive"],
    transport={"un": "3082", "name": "UMWELTGEFÄHRDENDER STOFF, FLÜSSIG, N.A.G. (Hypochlorit)", "name_en": "ENVIRONMENTALLY HAZARDOUS SUBSTANCE, LIQUID, N.O.S.", "class": "9", "pg": "III"}, transport_as="table",
    o=dict(kv="table", colon="", font="Liberation Sans", fs=10, bar="#3b3b3b", kvw=[30, 70], small=8.5, head_lines=lambda d: [("Bearbeitungsdatum:", d["date"]), ("Fassung:", "09, ersetzt Fassung 08 vom 03.08.2020")], border="0.5pt solid #888888", codes="table",
           header=lambda d: [("HF", "SPORENFREI Keller & Polster"), ("HF", "Bearbeitungsdatum: 14.02.2022")], footer=lambda d: [("HFR", "Seite @N@ von @C@")])))

SHEETS.append(dict(
    file="de-lederwachs", producer="htmldoc", layout="plain-html", render=htmldoc, voice="de", prose="de", kinds={"mild"},
    fill=fill("de", gloves="Nitril, bei längerem Kontakt.", filter="Bei guter Lüftung nicht nötig.", decomp="Kohlenoxide, Acrolein", incompat="Starke Oxidationsmittel.", reactions="Getränkte Lappen können sich selbst entzünden; in Wasser einweichen oder im Metallbehälter sammeln.", waste="08 01 11*", national="", lgk="11", wgk="2"),
    nd=["keine Information", "nicht zutreffend"], product="Sattlerwachs Nr. 3 mit Terpentin", supplier="Wachszieherei Immenried", date="2020-11-26", date_form="dmy.", revision="4", head="{n}. {t}", sub="{s}",
    use="Pflege von Glattleder und Nähten.", address=["Bienengasse 1, 88999 Immenried", "Tel. 07522 23125"], phones=[("Auskunft im Notfall", "Vergiftungs-Informations-Zentrale, 0761 19240")], ufi=None,
    h=["H315", "H317", "H319", "H411"], p=["P102", "P261", "P273", "P280", "P302+P352", "P333+P313", "P501"], signal="warning", c21="lines", codes_as="both", other_hazards="Getränkte Tücher können sich selbst entzünden.",
    ing=[dict(key="turp", r="[15,25]"), dict(key="hc1013", r="[5,15]"), dict(name="Bienenwachs", cas="8012-89-3", ec="232-383-7", r="[30,50]", codes=[]), dict(name="Carnaubawachs", cas="8015-86-9", ec="232-399-4", r="[5,10]", codes=[])],
    ing_as="table", cols=["name", "cas", "ec", "range", "codes"], widths=[32, 16, 16, 14, 22], range="endash",
    limits=[], no_limits="Keine Grenzwerte zu nennen.",
    nine=dict(state="pastös", colour="honiggelb", odour="nach Terpentin", ph="nicht zutreffend", flash="> 61 °C", dens="ca. 0,89 g/ml", sol="unlöslich", melt="62-65 °C", voc="240 g/l"),
    t=dict(ph=NA, state="paste", density=dict(low=0.89, high=0.89, celsius=None), flash=dict(celsius=61.0, sign=">", not_applicable=False), voc=dict(value=240, unit="g/l")),
    transport=None, not_regulated="Kein Gefahrgut; die Sondervorschrift 375 wird in Anspruch genommen.",
    o=dict(kv="grid", colon=":", head_lines=lambda d: [("Überarbeitet am:", d["date"]), ("Version:", d["revision"])], args=["--size", "a4", "--header", "..t", "--footer", "../", "--bodyfont", "helvetica", "--fontsize", "10", "--left", "20mm", "--right", "15mm"])))

SHEETS.append(dict(
    file="es-disolvente-limpieza", producer="weasyprint", layout="short-run-in", render=weasyprint, voice="es", prose="es", kinds={"flam"},
    fill=fill("es", gloves="Guantes de butilo, 0,7 mm, EN 374.", filter="Filtro AX si la ventilación es insuficiente.", decomp="monóxido y dióxido de carbono", incompat="Oxidantes fuertes, ácidos y álcalis fuertes.", reactions="No se conocen.", waste="14 06 03*", national="RD 117/2003 sobre emisiones de compuestos orgánicos volátiles."),
    nd=["No disponible", "Sin datos"], product="Disolvente limpiador Zahína 210", supplier="Curtidos y Químicas Alborada, S.L.", date="2024-12-03", date_form="longes", revision="6", head="SECCIÓN {n}: {t}", upper=True, sub="{s}",
    use="Limpieza de acabados nitrocelulósicos.", supplier_as="lines", address=["Polígono La Tenería, nave 14, 41999 Alborada del Río (Sevilla)", "Tel. 955 000 210, fax 955 000 211"], phones=[("Servicio de Información Toxicológica", "+34 91 562 04 20 (24 h)")], ufi="GWK1-50FT-E00P-VC9R",
    h=["H225", "H319", "H336"], euh=["EUH066"], p=["P210", "P233", "P261", "P280", "P305+P351+P338", "P403+P235", "P501"], signal="danger", c21="semi", codes_as="run",
    ing=[dict(key="acetone", r="[25,50)"), dict(key="buac", r="[25,50)"), dict(key="etac", r="[10,25)"), dict(key="toluene", r="(,0.1)")],
    ing_as="para", range="clp",
    limits=[("acetone", "ES", "twa", 1210, 500), ("buac", "ES", "twa", 241, 50), ("buac", "ES", "stel", 724, 150), ("etac", "EU", "twa", 734, 200), ("etac", "EU", "stel", 1468, 400)], limits_as="para",
    nine=dict(state="Líquido", colour="Incoloro", odour="Afrutado", ph="No aplicable", boil="56 - 127 °C", flash="-9 °C", lel="1,2 - 13 %", vp="13,5 kPa (20 °C)", dens="0,85 g/cm³ (20 °C)", sol="Parcial", auto="370 °C", voc="100 %"),
    t=dict(ph=NA, state="liquid", density=dict(low=0.85, high=0.85, celsius=20), flash=dict(celsius=-9.0, sign="=", not_applicable=False), boiling=dict(low=56, high=127), vp=135.0, voc=dict(value=100, unit="%")),
    transport={"un": "1993", "name": "LÍQUIDO INFLAMABLE, N.E.P. (acetona, acetato de n-butilo)", "class": "3", "pg": "II"}, transport_as="line", tox_table=False,
    o=dict(kv="inline", colon=":", head_lines=lambda d: [("Fecha de revisión:", d["date"] + " · Versión: 6")],
           css="""@page{size:A4;margin:14mm 12mm;@top-center{content:"Zahína 210 · 3 de diciembre de 2024 · pág. " counter(page);font:7pt Arimo}} body{font:7pt/1.2 Arimo;columns:3;column-gap:5mm} .top{column-span:all;border:.8pt solid #000;padding:3pt} h1{font-size:11pt;margin:0} p{margin:0 0 1pt} h2{font-size:7.6pt;margin:4pt 0 1pt;background:#000;color:#fff;padding:1pt 2pt;break-after:avoid} h3{font-size:7pt;margin:2pt 0 0;break-after:avoid} ul{margin:0;padding-left:8pt}""")))

SHEETS.append(dict(
    file="es-reticulante-aziridina", producer="fop", layout="rotated-page", render=fop, voice="es", prose="es", kinds={"corr"}, after=owner_locked,
    fill=fill("es", gloves="Guantes de goma butílica o laminados; cambiarlos tras cada uso.", filter="Equipo con suministro de aire si se pulveriza; si no, filtro A-P3.", decomp="óxidos de nitrógeno, óxidos de carbono", incompat="Ácidos, agua ácida, cloruros metálicos, oxidantes.", reactions="Polimerización violenta en presencia de ácidos.", waste="08 05 01*", national="RD 665/1997 sobre agentes cancerígenos o mutágenos, si procede."),
    nd=["No determinado", "No se dispone de datos", "n/d"], product="Reticulante AZ-3 Maroquinera", supplier="Poliquímica Valdeherrera, S.A.", date="2024-05-21", date_form="iso", revision="3.0", head="{n}.- {t}", sub="{s}",
    use="Reticulante de resinas acuosas. Exclusivamente uso industrial.", not_use="Aplicación por pulverización fuera de cabina.", address=["C/ Adobería, 77 · 08994 Valdeherrera", "Teléfono: 937 000 100 · 937 000 101", "calidad@valdeherrera.example"], phones=[("Urgencias", "937 000 199"), ("Instituto Nacional de Toxicología", "915 620 420")], ufi="1HA3-D0UX-J00N-4YTK",
    h=["H317", "H318", "H341", "H411"], p=["P260", "P272", "P273", "P280", "P302+P352", "P305+P351+P338", "P308+P313", "P333+P313", "P405", "P501"], signal="danger", c21="table", picto="GHS05, GHS07, GHS08, GHS09", codes_as="both",
    lab={"c.class": "Clase", "c.h": "Frase", "c.t": "Texto"},
    ing=[dict(key="azir", r="[95,100]"), dict(key="mazir", r="(,0.1)"), dict(key="tea", r="(,1)", codes=["H225", "H302", "H311", "H314", "H331", "H335"])],
    ing_as="table", cols=["name", "cas", "ec", "range", "class"], widths=[34, 12, 12, 14, 28], range="clptight", no_reach=True,
    limits=[("tea", "EU", "twa", 8.4, 2), ("tea", "EU", "stel", 12.6, 3), ("tea", "ES", "twa", 8.4, 2), ("tea", "ES", "stel", 12.6, 3)], limits_as="wide",
    nine=dict(state="Líquido viscoso", colour="Amarillo pálido", odour="Amoniacal", ph="10,5 (al 10 % en agua)", boil="210 °C (se polimeriza)", flash="> 100 °C (copa cerrada)", vp="0,05 hPa a 25 °C", dens="1.08 g/ml a 25 °C", sol="Miscible"),
    t=dict(ph=ph(10.5, 10.5, 10, None), state="liquid", density=dict(low=1.08, high=1.08, celsius=25), flash=dict(celsius=100.0, sign=">", not_applicable=False), boiling=dict(low=210, high=210), vp=0.05),
    transport={"un": "3082", "name": "SUSTANCIA LÍQUIDA PELIGROSA PARA EL MEDIO AMBIENTE, N.E.P.", "class": "9", "pg": "III", "env": "Sí"}, transport_as="subs",
    o=dict(kv="dots", font="Carlito", fs="10.5pt", size=("297mm", "210mm"), rotate="90", h2='font-weight="bold" font-size="12pt" space-before="9pt" space-after="2pt" background-color="#e8e8e8"', h3='font-weight="bold" font-size="10pt" space-before="5pt"', codes="table", kvw=[30, 70], border="0.3pt solid #000000",
           head_lines=lambda d: [("Fecha de revisión:", d["date"]), ("Versión:", "3.0")], of=" de ",
           header=lambda d: '<fo:block font-size="8pt" text-align="right">Reticulante AZ-3 Maroquinera / 2024-05-21 / versión 3.0</fo:block>', footer=lambda d: '<fo:block font-size="8pt" text-align="center">@PAGE@</fo:block>')))

SHEETS.append(dict(
    file="es-toallitas-cuero", producer="qtwebkit", layout="side-labels", render=wkhtmltopdf, voice="es", prose="es", kinds={"mild"},
    fill=fill("es", gloves="No son necesarios.", filter="No es necesaria.", decomp="óxidos de carbono", incompat="Ninguno conocido.", reactions="Ninguna.", waste="15 02 03", national=""),
    nd=["No procede", "Sin determinar"], product="Toallitas Marisma para piel lisa", supplier="Laboratorios Guadalera", date="2023-10-09", date_form="dmy/", revision="2", head="{n}. {t}", upper=True, sub="{s}", lab={"2.2": "Elementos de la etiqueta"},
    use="Limpieza ligera de tapicerías.", address=["Avda. de los Curtidores 5, 11999 Guadalera", "Tel.: 956 000 300"], phones=[("Tel. de emergencia", "915 62 04 20")], ufi=None,
    h=[], p=[], signal="none", euh=["EUH208", "EUH210"], euh208="1,2-bencisotiazol-3(2H)-ona", codes_as="both", descr="Paño de viscosa impregnado con una solución acuosa.",
    ing=[dict(key="apg", r="[10,20)"), dict(key="pheneth", r="(,1)"), dict(key="bit", r="(,0.05)"), dict(key="glycerol", r="[1,5)")],
    ing_as="table", cols=["name", "ids", "range", "class"], widths=[30, 28, 16, 26], range="le", contradictions=["two_against_three"],
    limits=[("glycerol", "ES", "twa", 10, None)], limits_as="across",
    nine=dict(state="Toallita impregnada", colour="Blanca", odour="A limpio", ph="5,5 a 6,5 (líquido de impregnación)", flash="No procede", boil="100 °C (líquido)", dens="1,01 kg/l (líquido)", sol="No procede", vp="No procede"),
    t=dict(ph=ph(5.5, 6.5), state="cloth", density=dict(low=1.01, high=1.01, celsius=None), flash=dict(celsius=None, sign=None, not_applicable=True), boiling=dict(low=100, high=100)),
    transport=None, transport_as="na",
    o=dict(kv="grid", head_lines=lambda d: [("Fecha de revisión:", d["date"]), ("Versión", d["revision"])], args=["--zoom", "1.28", "-s", "A4", "-T", "15mm", "-B", "15mm"], codes="table",
           css="body{font-family:'Roboto Condensed';font-size:11pt} h1{background:#1c5d3a;color:#fff;padding:8px;font-size:16pt} h2{font-size:12pt;color:#fff;background:#1c5d3a;padding:3px 6px;page-break-after:avoid} h3{font-size:11pt;margin:6px 0 2px} p{margin:2px 0} table{width:100%;border-collapse:collapse} .kv td{padding:2px 4px;vertical-align:top}.kv td.l{width:38%;text-align:right;color:#1c5d3a;border-right:2px solid #1c5d3a} .t td,.t th{border:1px solid #1c5d3a;padding:3px;vertical-align:top;text-align:left;font-size:10pt} tr{page-break-inside:avoid}")))
