"""The French sheets. Makers, products and people are invented."""

from content import TITLES
from helpers import NA, fill, ph
from render_fo import fop
from render_groff import groff_gs, gropdf
from render_html import weasyprint, wkhtmltopdf
from render_odt import libreoffice
from render_prawn import prawn

ORFILA = ("ORFILA (INRS)", "+33 (0)1 45 42 59 59")
SHEETS = []

# ---------------------------------------------------------------------------------------------------------------------------------------
SHEETS.append(dict(
    file="fr-degraissant-brevane", producer="weasyprint", layout="boxed-cells", render=weasyprint, voice="fr", prose="frA", kinds={"flam"},
    fill=fill("fr", gloves="Gants en nitrile, épaisseur 0,4 mm, temps de passage supérieur à 480 min (EN 374).", filter="Si la ventilation ne suffit pas : masque à filtre A2.",
              decomp="monoxyde de carbone, dioxyde de carbone, suies", incompat="Agents oxydants forts, acides concentrés.", reactions="Aucune en emploi normal.", waste="14 06 03*", national="Installations classées : rubrique 4331."),
    nd=["Non déterminé", "Aucune donnée disponible", "Donnée non précisée"],
    product="Dégraissant cuir Brévane DX 30", supplier="Ateliers Corvaselle SARL", date="2024-03-12", date_form="long", revision="4.2", head="RUBRIQUE {n} : {t}", sub="{s}.",
    use="Dégraissage à sec des cuirs pigmentés avant remise en couleur. Usage professionnel.", not_use="Toute application par pulvérisation.",
    address=["14, chemin des Tanneurs", "F-81990 Saint-Amans-le-Vieux", "Tél. : +33 (0)1 99 00 41 17 – Fax : +33 (0)1 99 00 41 18", "fds@corvaselle.example"],
    phones=[ORFILA, ("Société", "+33 (0)1 99 00 41 19 (heures de bureau)")], ufi="1T00-20RM-P00X-K3V9",
    h=["H226", "H304", "H336"], euh=["EUH066"], p=["P210", "P261", "P301+P310", "P331", "P403+P233", "P405", "P501"], picto="GHS02, GHS07, GHS08", signal="danger",
    c21="table", lab={"c.class": "Classe et catégorie", "c.h": "Mention H", "c.t": "Libellé"},
    contains="Hydrocarbures, C9-C11, n-alcanes, isoalcanes, cycliques, <2% aromatiques",
    ing=[dict(key="hc911", r="[75,100)"), dict(key="pm", r="[10,25)"), dict(key="limonene", r="[0.1,0.25)")],
    ing_as="table", cols=["name", "cas", "ec", "reach", "range", "class"], widths=[26, 12, 12, 16, 13, 21], range="clp", reach_tail="-XXXX",
    limits=[("pm", "EU", "twa", 375, 100), ("pm", "EU", "stel", 568, 150), ("pm", "FR", "twa", 188, 50), ("pm", "FR", "stel", 375, 100)], limits_as="wide",
    nine=dict(state="liquide limpide", colour="incolore", odour="d'agrumes, légère", ph="Sans objet (produit non aqueux)", melt="< -20 °C", boil="150 – 195 °C", flash="41 °C (coupelle fermée, ISO 2719)", lel="0,6 % vol. / 13,7 % vol.", vp="4,1 hPa à 20 °C", dens="0,781 g/cm³ à 15 °C", sol="très peu soluble", auto="> 230 °C", visc="1,2 mm²/s à 40 °C", voc="781 g/l"),
    t=dict(ph=NA, state="liquid", density=dict(low=0.781, high=0.781, celsius=15), flash=dict(celsius=41.0, sign="=", not_applicable=False), boiling=dict(low=150, high=195), vp=4.1, voc=dict(value=781, unit="g/l")),
    transport={"un": "3295", "name": "HYDROCARBURES LIQUIDES, N.S.A.", "class": "3", "pg": "III"},
    curly=True,
    o=dict(kv="table", codes="table", head_lines=lambda d: [("Version", d["revision"]), ("Date de révision :", d["date"])],
           css="""@page{size:A4;margin:25mm 16mm 20mm 16mm;@top-left{content:"FICHE DE DONNÉES DE SÉCURITÉ\\A Dégraissant cuir Brévane DX 30";white-space:pre;font:8pt Carlito}@top-right{content:"Version 4.2 du 12 mars 2024";font:8pt Carlito}@bottom-center{content:"Page " counter(page) " / " counter(pages);font:8pt Carlito}}
           body{font:9.5pt/1.3 Carlito} h1{font-size:16pt;text-align:center;margin:0} .product{font-size:13pt;text-align:center;font-weight:bold}.meta{text-align:right;margin:0} h2{font-size:11pt;border:1pt solid #000;background:#cfd8dc;padding:2pt 4pt;margin:10pt 0 3pt} h3{font-size:9.5pt;margin:5pt 0 2pt;text-decoration:underline}
           p{margin:2pt 0} table{border-collapse:collapse;width:100%;margin:3pt 0} td,th{border:.6pt solid #000;padding:2pt 3pt;vertical-align:top;text-align:left} td.l{width:34%;background:#f3f3f3} .c{width:22%} .ing td,.ing th{font-size:7.5pt} .note{font-size:8pt;font-style:italic} h2,h3{break-after:avoid}""")))

# ---------------------------------------------------------------------------------------------------------------------------------------
SHEETS.append(dict(
    file="fr-durcisseur-isocyanate", producer="libreoffice", layout="capitals-stacked-identifiers", render=libreoffice, voice="fr", prose="frA", kinds={"iso", "flam"},
    fill=fill("fr", gloves="Caoutchouc butyle (≥ 0,5 mm) ; changer aussitôt les gants souillés.", filter="Masque à adduction d'air lors de toute pulvérisation ; sinon filtre A2-P3.",
              decomp="oxydes de carbone, oxydes d'azote, vapeurs d'isocyanates, traces d'acide cyanhydrique", incompat="Amines, alcools, eau, bases fortes, métaux non protégés.", reactions="Réagit avec l'eau en dégageant du dioxyde de carbone ; surpression possible dans les récipients fermés.", waste="08 05 01*", national="Restrictions : annexe XVII, entrée 74 (diisocyanates) ; formation obligatoire avant l'utilisation professionnelle."),
    nd=["donnée non disponible", "non déterminé"],
    product="RETICUL ISO 75", supplier="Peausserie Chimie Dornange", date="2023-11-07", date_form="dmy/", revision="7", head="SECTION {n}: {t}", upper=True, sub="{s}.",
    use="Durcisseur pour finitions polyuréthanes en phase aqueuse sur cuir.", address=["Zone artisanale du Pré-Blanc, bâtiment C", "38999 Dornange (Isère), France", "Téléphone : 04 99 00 63 20", "Courriel : securite@dornange.example"],
    phones=[("Numéro d'appel d'urgence", "04 99 00 63 99 (24 h / 24)"), ORFILA], ufi="VF10-H0NC-800D-6K8E",
    h=["H226", "H332", "H317", "H335", "H412"], euh=["EUH204"], p=["P210", "P261", "P271", "P280", "P302+P352", "P304+P340", "P333+P313", "P501"], picto="SGH02, SGH07", signal="warning", c21="lines",
    contains="Diisocyanate d'hexaméthylène, oligomères ; diisocyanate d'hexaméthylène",
    ing=[dict(key="hdio", r="[70,80]"), dict(key="pma", r="[20,25]"), dict(key="dibk", r="[1,2.5)"), dict(key="hdi", r="(,0.3)", scl="Resp. Sens. 1; H334: C ≥ 0,5 %\nSkin Sens. 1; H317: C ≥ 0,5 %"), dict(name="Tensioactif phosphorique polymère", codes=["H412"], r="[1,3)", cas_shown="polymère", secret=False)],
    ing_as="table", cols=["stack", "range", "classl"], widths=[48, 20, 32], range="x", dash="–",
    limits=[("hdi", "FR", "twa", 0.075, 0.01), ("hdi", "FR", "stel", 0.15, 0.02), ("pma", "FR", "twa", 275, 50), ("pma", "FR", "stel", 550, 100)], limits_as="rows",
    nine=dict(state="Liquide visqueux", colour="jaunâtre", odour="d'ester", ph="Non applicable : réagit avec l'eau", boil="145 °C", flash="52 °C", vp="3,7 mbar (20 °C)", dens="1,07 (20 °C)", sol="non miscible, réagit", auto="315 °C", visc="> 60 mm²/s (40 °C)", voc="22,5 %"),
    nine_lab={"dens": "Densité relative"},
    t=dict(ph=NA, state="liquid", density=dict(low=1.07, high=1.07, celsius=20), flash=dict(celsius=52.0, sign="=", not_applicable=False), boiling=dict(low=145, high=145), vp=3.7, voc=dict(value=22.5, unit="%")),
    transport={"un": "1866", "name": "RÉSINE EN SOLUTION", "name_en": "RESIN SOLUTION", "class": "3", "pg": "III"}, transport_as="table",
    o=dict(kv="grid", colon=" :", font="Liberation Serif", fs=10.5, head_lines=lambda d: [("selon le règlement (CE) n° 1907/2006, modifié par (UE) 2020/878", "")], small=8.5, keep="auto", kvw=[38, 62], h2p='fo:border-bottom="1pt solid #000000"', codes="tab",
           header=lambda d: [("HF", "RETICUL ISO 75"), ("HFR", "Révision n° 7 du 07/11/2023    Imprimé le 15/01/2024    Page @N@ sur @C@")], footer=lambda d: [("HF", "Peausserie Chimie Dornange – fiche conforme au règlement REACH")])))

# ---------------------------------------------------------------------------------------------------------------------------------------
SHEETS.append(dict(
    file="fr-nettoyant-ammoniaque", producer="fop", layout="white-on-bars", render=fop, voice="fr", prose="frB", kinds={"corr"},
    fill=fill("fr", gloves="Gants en PVC ou en nitrile, 0,3 mm au moins (EN 374).", filter="Filtre K si l'odeur est forte.", decomp="ammoniac, oxydes d'azote", incompat="Acides, eau de Javel et tout produit chloré, cuivre, zinc, aluminium.", reactions="Réaction violente avec les acides. Avec l'eau de Javel : dégagement de gaz toxiques.", waste="20 01 29*", national="Étiquetage des détergents : < 5 % agents de surface non ioniques."),
    nd=["n.d.", "Pas d'information disponible"],
    product="Alcaline Sellier concentré", supplier="Maison Thévrault & Fils", date="2024-06-03", date_form="dmy-", revision="2.0", head="{n}. {t}", sub="{s}",
    use="Nettoyant ammoniaqué pour cuirs finis très encrassés, à diluer.", supplier_as="kv", address=[("Adresse", "3 quai de la Mégisserie-Basse, 87998 Saint-Junien-la-Roche"), ("Téléphone", "05 99 00 12 30"), ("Télécopie", "05 99 00 12 31"), ("Responsable de la fiche", "laboratoire@thevrault.example")],
    phones=[("Centre antipoison de Paris", "01 40 05 48 48"), ("Urgence société (jours ouvrés)", "05 99 00 12 39")], ufi=None,
    h=["H314", "H335", "H412"], euh=[], p=["P102", "P260", "P280", "P303+P361+P353", "P305+P351+P338", "P310", "P405", "P501"], picto="SGH05 SGH07", signal="danger", c21="semi", codes_as="both", plus="+",
    ing=[dict(key="nh3", r="[20,25)", scl="STOT SE 3; H335: C ≥ 5 %"), dict(key="itd", r="[1,3)"), dict(key="ethanol", r="[1,5)")],
    ing_as="table", cols=["range", "name", "ids", "class"], widths=[16, 28, 30, 26], range="clptight",
    limits=[("nh3", "FR", "twa", 7, 10), ("nh3", "FR", "stel", 14, 20), ("ethanol", "FR", "twa", 1900, 1000), ("ethanol", "FR", "stel", 9500, 5000)], limits_as="wide", thin=True,
    nine_order=["state", "colour", "odour", "melt", "boil", "flammab", "lel", "flash", "auto", "decomp", "ph", "visc", "sol", "logk", "vp", "dens", "vdens", "part", "voc"],
    nine=dict(state="Liquide", colour="Jaune pâle", odour="Piquante, d'ammoniac", ph="12,0 – 12,6 (10 g/l, 20 °C)", boil="≈ 98 °C", flash="Non concerné", vp="110 hPa (20 °C)", dens="0,96 ± 0,01 g/ml à 20 °C", sol="Miscible en toutes proportions", flammab="Non inflammable"),
    t=dict(ph=ph(12.0, 12.6, 1, 20), state="liquid", density=dict(low=0.95, high=0.97, celsius=20), flash=dict(celsius=None, sign=None, not_applicable=True), boiling=dict(low=98, high=98), vp=110.0),
    transport={"un": "2672", "name": "AMMONIAC EN SOLUTION aqueuse", "class": "8", "pg": "III"}, transport_as="line",
    o=dict(kv="table", colon="", font="Arimo", fs="9.5pt", border="0.4pt solid #9aa", h2='background-color="#1f4e5f" color="#ffffff" font-weight="bold" font-size="11pt" padding="3pt" space-before="9pt" space-after="3pt"', h3='font-weight="bold" color="#1f4e5f" space-before="5pt" space-after="1pt"', codes="table", codew=[24, 76],
           head_lines=lambda d: [("Date d'établissement :", "11-01-2021"), ("Date de révision :", d["date"]), ("Version :", "2.0, remplace la version 1.3")],
           header=lambda d: '<fo:block font-size="8pt" border-bottom="0.5pt solid #1f4e5f">Alcaline Sellier concentré <fo:leader leader-pattern="space"/> Fiche de données de sécurité</fo:block><fo:block font-size="8pt" text-align="right">Révision : 03-06-2024</fo:block>',
           footer=lambda d: '<fo:block font-size="8pt" text-align="center">@PAGE@</fo:block>')))

# ---------------------------------------------------------------------------------------------------------------------------------------
SHEETS.append(dict(
    file="fr-extrait-javel", producer="ghostscript", layout="label-dots-value", render=groff_gs, voice="fr", prose="frB", kinds={"corr"},
    fill=fill("fr", gloves="Néoprène ou caoutchouc naturel, 0,5 mm.", filter="Inutile si l'endroit est aéré ; sinon filtre B-P2.", decomp="chlore, acide hypochloreux, oxygène", incompat="Acides, ammoniaque, vinaigre, détartrants, métaux, peroxydes.", reactions="Avec un acide, même faible, libère du chlore, gaz toxique.", waste="16 09 04*", national="Règlement (UE) n° 528/2012 sur les produits biocides, TP2."),
    nd=["non mesuré", "sans information"],
    product="Extrait de Javel 9,6 % de l'atelier", supplier="Comptoir des Eaux Vives d'Ambrézac", date="2022-09-28", date_form="dmy.", revision="B", head="{n}  —  {t}", upper=True, sub="{s}",
    use="désinfection des locaux et du petit matériel ; ne convient pas au cuir", supplier_as="lines", address=["Route de la Source, 63997 Ambrézac-les-Bains", "tél. 04 99 00 77 01, télécopie 04 99 00 77 02"],
    phones=[("Urgence", "15 ou 112"), ORFILA], ufi=None, lab={"date": "Mise à jour", "rev": "Indice"},
    h=["H290", "H314", "H400", "H411"], euh=["EUH031", "EUH206"], p=["P102", "P234", "P260", "P273", "P280", "P301+P330+P331", "P305+P351+P338", "P391", "P501"], picto="corrosion ; environnement", signal="danger", c21="names", codes_as="both", plus="+", euh_last=True,
    ing=[dict(key="naocl", name="Hypochlorite de sodium, solution à 9,6 % de chlore actif", r="=9.6", codes=["H290", "H314", "H335", "H400", "H410"], scl="facteur M = 10 ; EUH031: C ≥ 5 %"), dict(key="naoh", r="(,1)"), dict(key="na2co3", r="[0.1,1)")],
    ing_as="para", range="x",
    limits=[("naoh", "FR", "twa", 2, None)], limits_as="para",
    nine=dict(state="liquide", colour="jaune-vert", odour="chlorée", ph="11,5 à 12,5 (pur, à 20 °C)", melt="-16 °C", boil="se décompose", flash="sans objet", dens="1,155 à 1,165 g/cm³ (20 °C)", sol="totale", vp="25 hPa à 20 °C", decomp="dès 35 °C", voc=None),
    t=dict(ph=ph(11.5, 12.5, None, 20), state="liquid", density=dict(low=1.155, high=1.165, celsius=20), flash=dict(celsius=None, sign=None, not_applicable=True), vp=25.0),
    transport={"un": "1791", "name": "HYPOCHLORITE EN SOLUTION", "class": "8", "pg": "III"}, transport_as="subs",
    o=dict(kv="dots", family="T", ps=11, head_lines=lambda d: [("Mise à jour :", d["date"]), ("Indice :", "B")], subfont="B", codein=3.9, justify=True,
           header=lambda d: ("Extrait de Javel", "", "mise à jour 28.09.2022"), footer=lambda d: ("Comptoir des Eaux Vives", "", "page %"), fit=74)))

# ---------------------------------------------------------------------------------------------------------------------------------------
SHEETS.append(dict(
    file="fr-savon-glycerine", producer="qtwebkit", layout="stacked-labels", render=wkhtmltopdf, voice="fr", prose="frB", kinds={"mild"},
    fill=fill("fr", gloves="Pas de gants nécessaires dans l'emploi prévu.", filter="Pas nécessaire.", decomp="oxydes de carbone", incompat="Aucune connue.", reactions="Aucune.", waste="20 01 30", national=""),
    nd=["Non pertinent pour ce produit", "Information non disponible"],
    product="Savon de selle à la glycérine L'Éperonnière", supplier="Savonnerie de la Haute-Vallière", date="2025-01-20", date_form="dmy/", revision="1", head="Section {n} – {t}", sub="{s}",
    use="Nettoyage du cuir lisse.", address=["2, place du Lavoir", "25996 Vaux-sur-Ognon", "Tél 03 99 00 55 10"], phones=[("Téléphone d'urgence", "+33 1 45 42 59 59 (ORFILA)")], ufi=None,
    h=[], euh=["EUH208", "EUH210"], euh208="Masse de réaction de 5-chloro-2-méthyl-2H-isothiazol-3-one et de 2-méthyl-2H-isothiazol-3-one (3:1)", p=[], signal="none", signal_print="Néant", codes_as="both", picto="Néant",
    ing=[dict(key="glycerol", r="[5,10]"), dict(key="sles", r="[1,2.5]"), dict(key="apg", r="(,1)"), dict(key="cmit", r="(,0.0015)", style="le")],
    ing_as="table", cols=["name", "ids", "range", "codes"], widths=[40, 26, 12, 22], range="a", no_reach=True,
    limits=[("glycerol", "FR", "twa", 10, None)], limits_as="rows", limit_names={"head": ["Agent", "N° CAS", "Source", "Valeur", "mg/m³", "ppm"]},
    nine=dict(state="Solide (pain)", colour="Ambre", odour="Discrète, de savon", ph="9,8 (solution à 1 %)", flash="Non pertinent", boil="Non pertinent", dens="1,1 kg/l", sol="Soluble", vp="Non pertinent", voc="0 %"),
    t=dict(ph=ph(9.8, 9.8, 1, None), state="solid", density=dict(low=1.1, high=1.1, celsius=None), flash=dict(celsius=None, sign=None, not_applicable=True), voc=dict(value=0, unit="%")),
    transport=None, not_regulated="Le produit n'est pas une marchandise dangereuse au sens des règlements de transport.",
    o=dict(kv="stack", colon=" :", head_lines=lambda d: [("Date de révision", d["date"]), ("Version", d["revision"])], args=["--zoom", "1.28", "-s", "A4", "-T", "18mm", "-B", "18mm", "-L", "20mm", "-R", "20mm"],
           css="body{font-family:'Lato';font-size:10pt;line-height:1.4} h1{font-weight:300;letter-spacing:.25em;font-size:17pt} h2{color:#7a4a12;border-bottom:2px solid #7a4a12;font-size:13pt;margin:16pt 0 4pt;page-break-after:avoid} h3{font-size:10.5pt;margin:8pt 0 2pt} p{margin:1pt 0}.l{color:#777;font-size:8.5pt;margin-top:4pt}.v{margin-left:12pt} table{border-collapse:collapse;width:100%}td,th{border-bottom:1px solid #aaa;text-align:left;vertical-align:top;padding:3pt;font-size:9pt}tr{page-break-inside:avoid}")))

# ---------------------------------------------------------------------------------------------------------------------------------------
SHEETS.append(dict(
    file="fr-essence-vinaigre", producer="gropdf", layout="two-columns", render=gropdf, voice="fr", prose="frB", kinds={"corr", "flam"},
    fill=fill("fr", gloves="Caoutchouc butyle 0,7 mm ou Viton.", filter="Filtre E ou ABEK.", decomp="oxydes de carbone, vapeurs acides", incompat="Bases fortes, eau de Javel, oxydants, carbonates, métaux.", reactions="Dégage du chlore avec l'eau de Javel.", waste="20 01 14*", national=""),
    nd=["pas de données", "non déterminé"],
    product="Essence de vinaigre 80", supplier="Vinaigrerie Montclarel", date="2024-10-01", date_form="dmy.", revision="3.1", head="{n}. {t}", sub="{s}",
    use="Détartrage ; après forte dilution, rinçage acide.", supplier_as="lines", address=["18, rue du Tonneau, 45995 Orlames", "Tél. : 02 99 00 18 18"], phones=[("Urgence", "02 99 00 18 15"), ("Antipoison", "ORFILA 01 45 42 59 59")], ufi="D7V2-90KA-S00T-2QYH",
    h=["H226", "H314"], p=["P210", "P260", "P280", "P301+P330+P331", "P303+P361+P353", "P305+P351+P338", "P310", "P501"], signal="danger", c21="semi", codes_as="codes", cls={"H314": "Skin Corr. 1B"},
    ing=[dict(key="acetic", r="[78,82]", scl="Skin Corr. 1A; H314: C ≥ 90 %")], ing_as="kv", cols=["name", "cas", "ec", "reach", "range", "class"], range="a",
    limits=[("acetic", "EU", "twa", 25, 10), ("acetic", "EU", "stel", 50, 20), ("acetic", "FR", "twa", 25, 10), ("acetic", "FR", "stel", 50, 20)], limits_as="para",
    nine=dict(state="liquide", colour="incolore", odour="piquante", ph="2,4 (à 1 % dans l'eau, 25 °C)", melt="-7 °C", boil="104-106 °C", flash="58 °C", lel="4 à 17 % vol.", vp="16 hPa (20 °C)", dens="1,07 g/cm3 (20 °C)", sol="miscible", auto="485 °C", logk="-0,17"),
    t=dict(ph=ph(2.4, 2.4, 1, 25), state="liquid", density=dict(low=1.07, high=1.07, celsius=20), flash=dict(celsius=58.0, sign="=", not_applicable=False), boiling=dict(low=104, high=106), vp=16.0),
    transport={"un": "2790", "name": "ACIDE ACÉTIQUE EN SOLUTION", "class": "8", "pg": "II"}, transport_as="subs",
    o=dict(kv="colon", colon=" :", family="H", ps=9, col=8.1, columns=2, head_lines=lambda d: [("Fiche révisée le", d["date"]), ("Version", d["revision"])], subfont="I", codein=3.2, rule=True, tps={"tox": 8},
           header=lambda d: ("Essence de vinaigre 80", "", "FDS v. 3.1"), footer=lambda d: ("01.10.2024", "%", "Vinaigrerie Montclarel"), args=["-P-pa4"])))

# ---------------------------------------------------------------------------------------------------------------------------------------
BILINGUAL = [f + " / " + u for f, u in zip(TITLES["fr"], TITLES["uk"])]
SHEETS.append(dict(
    file="fr-teinture-penetrante", producer="libreoffice", layout="landscape-bilingual", render=libreoffice, voice="fr", prose="frA", kinds={"flam"},
    fill=fill("fr", gloves="Gants en butyle ; le nitrile mince ne résiste que quelques minutes.", filter="Filtre AX lors d'un travail prolongé.", decomp="oxydes de carbone, oxydes de soufre, oxydes d'azote", incompat="Oxydants, acides forts, métaux alcalins.", reactions="Formation de mélanges explosifs avec l'air.", waste="08 01 11*", national=""),
    nd=["Non connu", "Pas de donnée"],
    product="Teinture pénétrante Noir Corbeau n° 12", supplier="Tinctoria Belmorand S.A.S.", date="2023-04-05", date_form="iso", revision="05-B", titles=BILINGUAL, head="{n}. {t}", sub="{s}",
    use="Coloration en pénétration des cuirs à tannage végétal.", address=["Usine de l'Écluse – 59994 Belmorand", "Standard 03 99 00 88 00 – Sécurité produits 03 99 00 88 04", "www.belmorand.example"], phones=[("Appel d'urgence", "03 99 00 88 88"), ORFILA, ("Belgique", "070 245 245")], ufi="E3D0-F1XN-U00V-JW4Q",
    h=["H225", "H319", "H336"], p=["P210", "P233", "P261", "P280", "P305+P351+P338", "P403+P235", "P501"], signal="danger", c21="lines", codes_as="run", picto="GHS02 GHS07",
    ing=[dict(key="ethanol", r="[40,60)"), dict(key="ipa", r="[15,20)"), dict(key="pm", r="[10,15)"), dict(key="ab1", cas="1064-48-9", bad=True, r="[2,5)"), dict(name="Colorant azoïque complexe métallique (secret de fabrication)", r="(,2]", style="max", secret=True, cas_shown="confidentiel", codes=["H412"])],
    ing_as="table", cols=["name", "cas", "ec", "reach", "range", "class"], widths=[27, 12, 11, 16, 13, 21], range="half", dash="/",
    limits=[("ethanol", "FR", "twa", 1900, 1000), ("ethanol", "FR", "stel", 9500, 5000), ("ipa", "FR", "stel", 980, 400), ("pm", "FR", "twa", 188, 50), ("pm", "FR", "stel", 375, 100)], limits_as="rows", thin=True,
    nine=dict(state="Liquide fluide", colour="Noir", odour="Alcoolique", ph="Non applicable", boil="78 °C à 121 °C", flash="14 °C", lel="1,7 % - 19 %", vp="58 hPa à 20 °C", dens="0,83 kg/dm³", sol="miscible", auto="270 °C", voc="91,3 %"),
    t=dict(ph=NA, state="liquid", density=dict(low=0.83, high=0.83, celsius=None), flash=dict(celsius=14.0, sign="=", not_applicable=False), boiling=dict(low=78, high=121), vp=58.0, voc=dict(value=91.3, unit="%")),
    transport={"un": "1263", "name": "PEINTURES", "name_en": "PAINT", "class": "3", "pg": "II"}, transport_as="table",
    o=dict(kv="tab", mid=": ", tab=8, font="Carlito", fs=10.5, size=("29.7cm", "21cm"), orient="landscape", width=25.7, head_lines=lambda d: [("Révision / Revision date", d["date"])], codes="tab", small=9, h2t='fo:color="#8a1c1c"',
           header=lambda d: [("HF", "TINCTORIA BELMORAND   Teinture pénétrante Noir Corbeau n° 12   rév. 05-B   2023-04-05")], footer=lambda d: [("HFR", "@N@/@C@")])))

# ---------------------------------------------------------------------------------------------------------------------------------------
SHEETS.append(dict(
    file="fr-colle-aerosol", producer="fop", layout="long-bordered", render=fop, voice="fr", prose="frA", kinds={"flam", "aero"},
    fill=fill("fr", gloves="Gants en nitrile (≥ 0,35 mm) ; remplacer toutes les heures.", filter="Filtre AX-P2 dans un local mal aéré.", decomp="oxydes de carbone, acide chlorhydrique, fumées irritantes", incompat="Oxydants forts, acides forts, chlorates.", reactions="Les vapeurs forment avec l'air des mélanges explosifs.", waste="16 05 04*", national="Directive 75/324/CEE modifiée, relative aux générateurs d'aérosols."),
    nd=["Aucune donnée n'est disponible", "Non précisé", "Non concerné par l'essai"],
    product="Fixatel Sellerie Spray", supplier="Adhésifs Rochemaurin SAS", date="2024-02-29", date_form="long", revision="11.0", head="RUBRIQUE {n}: {t}", sub="{s}.",
    use="Adhésif de contact en aérosol pour garnissage.", not_use="Usage grand public dans un local sans aération.", address=["Parc d'activités du Grand-Pré, 7 allée des Forges", "42993 Rochemaurin, France", "Tél : +33 4 99 00 20 20", "Fax : +33 4 99 00 20 21", "Internet : www.rochemaurin.example"], phones=[ORFILA, ("Suisse (Tox Info)", "145"), ("Société, 24 h/24", "+33 4 99 00 20 29")], ufi="7D50-C0E7-R00K-8V6T",
    h=["H222", "H229", "H315", "H336", "H411"], euh=["EUH208"], euh208="Colophane", p=["P102", "P210", "P211", "P251", "P261", "P271", "P273", "P280", "P302+P352", "P304+P340", "P391", "P410+P412", "P501"], picto="SGH02, SGH07, SGH09", signal="danger", c21="table", plus="+",
    lab={"c.class": "Classe", "c.h": "Code", "c.t": "Mention de danger"},
    ing=[dict(key="dme", r="[30,50)"), dict(key="hc7", r="[20,30)"), dict(key="cyhex", r="[5,10)", scl="Facteur M (aigu) = 1"), dict(key="acetone", r="[10,20)"), dict(key="butane", name="Butane (contenant moins de 0,1 % de buta-1,3-diène)", r="[2.5,10)"), dict(key="rosin", r="[0.1,1)"), dict(key="zno", r="(,0.25)"), dict(name="Polychloroprène modifié", r="[3,7]", style="spaced", cas_shown="polymère")],
    ing_as="table", cols=["cas", "ec", "name", "range", "class"], widths=[13, 12, 33, 17, 25], range="clp", no_reach=True,
    limits=[("dme", "EU", "twa", 1920, 1000), ("dme", "FR", "twa", 1920, 1000), ("cyhex", "EU", "twa", 700, 200), ("cyhex", "FR", "twa", 700, 200), ("cyhex", "FR", "stel", 1300, 375), ("acetone", "EU", "twa", 1210, 500), ("acetone", "FR", "twa", 1210, 500), ("acetone", "FR", "stel", 2420, 1000), ("butane", "FR", "twa", 1900, 800)], limits_as="wide",
    nine=dict(state="Aérosol", colour="Beige translucide", odour="De solvant", ph="Non concerné", boil="-24 °C à 98 °C", flash="< 0 °C", lel="1,2 % à 18,6 % en volume", vp="4 200 hPa à 20 °C", dens="0,70 g/cm³ à 20 °C", sol="Insoluble", auto="235 °C", voc="612 g/l"),
    t=dict(ph=NA, state="aerosol", density=dict(low=0.70, high=0.70, celsius=20), flash=dict(celsius=0.0, sign="<", not_applicable=False), boiling=dict(low=-24, high=98), vp=4200.0, voc=dict(value=612, unit="g/l")),
    transport={"un": "1950", "name": "AÉROSOLS inflammables", "class": "2.1", "pg": None, "env": "Oui (polluant marin)"}, transport_as="subs",
    before_16=[["p", "Modifications par rapport à la version 10.0 : rubriques 2, 3, 8, 14."]], sixteen=["ADR : accord relatif au transport international des marchandises dangereuses par route. FBC : facteur de bioconcentration. CL50 : concentration létale médiane. DL50 : dose létale médiane. DNEL : dose dérivée sans effet. PNEC : concentration prédite sans effet. VLCT : valeur limite court terme. VME : valeur moyenne d'exposition."],
    after_81=[["table", "dnel", ["DNEL (travailleurs)", "Voie", "Valeur"], [["Oxyde de diméthyle", "inhalation, long terme", "1894 mg/m³"], ["Cyclohexane", "inhalation, long terme", "700 mg/m³"], ["Cyclohexane", "cutanée, long terme", "2016 mg/kg/j"], ["Acétone", "inhalation, court terme", "2420 mg/m³"], ["Acétone", "cutanée, long terme", "186 mg/kg/j"]], [40, 35, 25]]],
    o=dict(kv="table", kvw=[40, 60], font="Roboto", fs="10.5pt", lh="1.4", border="0.8pt solid #000000", h2='border="1.2pt solid #000000" font-weight="bold" font-size="12pt" padding="4pt" space-before="14pt" space-after="5pt" text-align="center"', h3='font-weight="bold" font-style="italic" space-before="7pt" space-after="3pt"', codes="table", codew=[26, 74], table_size={"ing": "9pt", "limits": "8.5pt", "tox": "9pt"}, row=' keep-together.within-page="always"',
           head_lines=lambda d: [("Nom du produit :", d["product"]), ("Version 11.0 (29 février 2024) annule et remplace 10.0 (4 mai 2022)", "")], of=" sur ", top="24mm",
           header=lambda d: '<fo:table table-layout="fixed" width="100%" font-size="8pt"><fo:table-column column-width="proportional-column-width(60)"/><fo:table-column column-width="proportional-column-width(40)"/><fo:table-body><fo:table-row><fo:table-cell border="0.8pt solid black" padding="2pt"><fo:block>FICHE DE DONNÉES DE SÉCURITÉ (Règlement (CE) n° 1907/2006 - REACH)</fo:block><fo:block font-weight="bold">Fixatel Sellerie Spray</fo:block></fo:table-cell><fo:table-cell border="0.8pt solid black" padding="2pt"><fo:block>Date : 29 février 2024, version 11.0</fo:block><fo:block>@PAGE@</fo:block></fo:table-cell></fo:table-row></fo:table-body></fo:table>',
           footer=lambda d: '<fo:block font-size="7pt">Adhésifs Rochemaurin SAS</fo:block>')))

# ---------------------------------------------------------------------------------------------------------------------------------------
SHEETS.append(dict(
    file="fr-decapant-finition", producer="prawn", layout="statements-as-text", render=prawn, voice="fr", prose="frA", kinds={"corr"},
    fill=fill("fr", gloves="Gants en butyle, longs (EN 374, niveau 6).", filter="Filtre A-E, type 2.", decomp="oxydes de carbone, monoxyde de carbone par décomposition de l'acide formique", incompat="Bases, oxydants, eau de Javel, aluminium.", reactions="Réaction exothermique avec les bases.", waste="08 01 17*", national=""),
    nd=["Non communiqué", "Aucune information"],
    product="Décapant gel DG-7 pour finitions acryliques", supplier="Rénocuir Industrie Valsenne", date="2021-12-17", date_form="dmy/", revision="3", head="SECTION {n} - {t}", sub="{s}",
    use="Enlèvement des finitions sur cuir pigmenté.", supplier_as="kv", address=[("Rue", "31 bis, impasse de la Corroierie"), ("Ville", "12992 Valsenne"), ("Tél.", "05 99 00 91 44 / 05 99 00 91 45")], phones=[("Urgence", "ORFILA : 01 45 42 59 59")], ufi=None,
    h=["H302", "H314", "H332"], p=["P260", "P280", "P301+P330+P331", "P303+P361+P353", "P304+P340", "P305+P351+P338", "P405"], signal="danger", c21="text", codes_as="text",
    ing=[dict(key="bzoh", r="[35,45]"), dict(key="formic", r="[10,12.5]", scl="Skin Corr. 1B; H314: 10 % ≤ C < 90 %"), dict(name="Épaississant cellulosique", r="[1,3]", secret=True, cas_shown="secret commercial"), dict(key="hc1013", r="(,5]", codes=["H304"])],
    ing_as="table", cols=["name", "cas", "ec", "range", "codes"], widths=[36, 16, 14, 16, 18], range="max", no_reach=True,
    limits=[("formic", "EU", "twa", 9, 5), ("formic", "FR", "twa", 9, 5)], limits_as="across", limit_none="–",
    nine=dict(state="Gel (pâte thixotrope)", colour="Blanc laiteux", odour="Âcre", ph="1,8 – 2,2", boil="101 °C", flash="> 93 °C", dens="1,09 kg/L à 20 °C", sol="Partielle", vp="non communiquée", voc="52 g/l"),
    t=dict(ph=ph(1.8, 2.2), state="paste", density=dict(low=1.09, high=1.09, celsius=20), flash=dict(celsius=93.0, sign=">", not_applicable=False), boiling=dict(low=101, high=101), voc=dict(value=52, unit="g/l")),
    transport={"un": "3412", "name": "ACIDE FORMIQUE", "class": "8", "pg": "II"}, transport_as="line", modes=["ADR / RID", "IMDG"],
    o=dict(fonts=["/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf", "/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf"], paper="A4", margin=[60, 45, 50, 45], fs=8.5, rule=True, spacing=0.6, th="EEEEEE", head_lines=["Date de révision : 17/12/2021   Version : 3"], header=["Décapant gel DG-7", "17/12/2021"], number="p. <page>/<total>", tsize={"ing": 7.5})))
