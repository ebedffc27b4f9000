"""The English sheets, American and British. Makers, products and people are invented."""

from helpers import NA, fill, ph
from render_fo import fop
from render_groff import groff_gs, gropdf
from render_html import htmldoc, weasyprint, wkhtmltopdf
from render_odt import libreoffice
from render_prawn import prawn

SHEETS = []
US_LAB = {"date": "Revision Date", "rev": "Revision", "name": "Product name"}

SHEETS.append(dict(
    file="us-acid-rinse", producer="libreoffice", layout="letter-bold-inline", render=libreoffice, voice="us", prose="us", kinds={"corr"}, lab=US_LAB,
    fill=fill("us", gloves="Neoprene or butyl gloves, apron.", filter="NIOSH-approved respirator with acid gas cartridge and P100 filter if mist is formed.", decomp="carbon monoxide, formic acid.", incompat="Bleach, chlorites, strong bases, silver salts, strong oxidizers.", reactions="Contact with bleach releases chlorine gas.", waste="D002 (corrosive)", national="California Proposition 65: no listed substance is knowingly present."),
    nd=["Not determined", "No data available", "N/D"], product="Sour Rinse No. 4", supplier="Tannerfield Supply Co.", date="2024-03-05", date_form="mdy/", revision="5", head="SECTION {n}: {t}", upper=True, sub="",
    use="Acid rinse for vegetable tanned leather; iron stain removal.", address=["4120 Old Bark Road", "Millcreek Falls, OH 44000", "Phone (330) 555-0142"], phones=[("Emergency phone number", "(800) 555-0199 (24 hours)"), ("Poison control (US)", "1-800-222-1222")],
    h=["H302", "H318"], p=["P264", "P270", "P280", "P301+P310", "P305+P351+P338", "P310", "P501"], signal="danger", c21="text", codes_as="text", cls={"H302": "Acute toxicity, oral - Category 4", "H318": "Serious eye damage - Category 1"},
    ing=[dict(key="oxalic", r="[15,20]"), dict(key="citrica", r="[5,10]"), dict(key="water", r="[70,80]", codes=[])],
    ing_as="table", cols=["name", "cas", "range"], widths=[50, 25, 25], range="spaced", no_ing_codes=True,
    limits=[("oxalic", "US-OSHA", "twa", 1, None), ("oxalic", "US-ACGIH", "twa", 1, None), ("oxalic", "US-ACGIH", "stel", 2, None), ("oxalic", "US-NIOSH", "twa", 1, None), ("oxalic", "US-NIOSH", "stel", 2, None)], limits_as="across",
    nine=dict(state="Liquid", colour="Clear, colorless", odour="None", ph="1.1 (as supplied, 68 °F)", melt="30 °F", boil="214 °F", flash="Not applicable (water based)", dens="1.09 (water = 1)", vp="17.5 mm Hg at 68 °F", sol="Complete", voc="0 g/L"),
    t=dict(ph=ph(1.1, 1.1, None, 20), state="liquid", density=dict(low=1.09, high=1.09, celsius=None), flash=dict(celsius=None, sign=None, not_applicable=True), boiling=dict(low=101.1, high=101.1), vp=23.3, voc=dict(value=0, unit="g/l")),
    transport={"un": "3265", "name": "Corrosive liquid, acidic, organic, n.o.s. (oxalic acid)", "class": "8", "pg": "III"}, transport_as="kv", modes=["DOT (ground)"], h16=False,
    before_16=[["table", "nfpa", ["HMIS", "Rating"], [["Health", "3"], ["Flammability", "0"], ["Physical hazard", "0"]], [60, 40]]],
    o=dict(kv="inline", colon=":", font="Liberation Sans", fs=10.5, size=("21.59cm", "27.94cm"), width=17.5, head_lines=lambda d: [("Issue Date: 06/14/2016", ""), ("Revision Date:", d["date"]), ("Revision:", "5"), ("Supersedes: 11/02/2021", "")], h2p='fo:border-top="2pt solid #000000"', code_sep=": ", leadt='fo:font-weight="bold"',
           header=lambda d: [("HF", "Sour Rinse No. 4"), ("HFR", "Revision Date: 03/05/2024")], footer=lambda d: [("HFR", "Page @N@ of @C@")])))

SHEETS.append(dict(
    file="us-lacquer-topcoat", producer="fop", layout="jurisdictions-side-by-side", render=fop, voice="us", prose="us", kinds={"flam"}, lab=US_LAB,
    fill=fill("us", gloves="Butyl or laminate gloves; nitrile protects for minutes only.", filter="Organic vapor cartridge; supplied air when spraying.", decomp="carbon monoxide, carbon dioxide, nitrogen oxides.", incompat="Oxidizers, strong acids, strong bases, amines.", reactions="None in normal use. Dried film burns violently.", waste="D001 (ignitable)", national="Massachusetts, New Jersey and Pennsylvania right to know: acetone, n-butyl acetate."),
    nd=["No information", "NE", "Not established"], product="Bridle Gloss 77 Lacquer", supplier="Harrow & Pine Finishes, LLC", date="2023-12-03", date_form="mdy/", revision="2.2", head="Section {n}. {t}", sub="", 
    use="Spray topcoat for leather goods. For industrial use only.", supplier_as="kv", address=[("Address", "88 Saddleback Drive, Pinewater, TX 75000"), ("Telephone", "214-555-0117"), ("Fax", "214-555-0118")], phones=[("24-hour emergency", "888-555-0160")],
    h=["H225", "H319", "H336"], euh=[], p=["P210", "P233", "P261", "P271", "P280", "P304+P340", "P305+P351+P338", "P403+P235", "P501"], signal="danger", c21="names", cls={"H225": "FLAMMABLE LIQUIDS – Category 2", "H319": "EYE IRRITATION – Category 2A", "H336": "SPECIFIC TARGET ORGAN TOXICITY (SINGLE EXPOSURE) (narcotic effects) – Category 3"}, codes_as="both", plus="+",
    ing=[dict(key="buac", r="[40,50]"), dict(key="acetone", r="[30,40]"), dict(key="ipa", name="Isopropyl alcohol", r="[20,25]"), dict(key="nc", r="[12,18]", cas="9004-70-0"), dict(name="Plasticizer blend", secret=True, shown="Proprietary", cas_shown="Trade secret"), dict(name="Acrylic polymer", r="[5,10]", secret=True, cas_shown="Proprietary"), dict(key="toluene", r="(,0.1)")],
    ing_as="table", cols=["cas", "name", "range"], widths=[25, 50, 25], range="endash", no_ing_codes=True, contradictions=["over_100"],
    limits=[("buac", "US-OSHA", "twa", 710, 150), ("buac", "US-ACGIH", "twa", None, 50), ("buac", "US-ACGIH", "stel", None, 150), ("buac", "US-NIOSH", "twa", 710, 150), ("buac", "US-NIOSH", "stel", 950, 200), ("acetone", "US-OSHA", "twa", 2400, 1000), ("acetone", "US-ACGIH", "twa", None, 250), ("acetone", "US-ACGIH", "stel", None, 500), ("acetone", "US-NIOSH", "twa", 590, 250), ("ipa", "US-OSHA", "twa", 980, 400), ("ipa", "US-ACGIH", "twa", None, 200), ("ipa", "US-ACGIH", "stel", None, 400), ("toluene", "US-OSHA", "twa", None, 200), ("toluene", "US-OSHA", "ceiling", None, 300), ("toluene", "US-ACGIH", "twa", None, 20)], limits_as="across",
    nine=dict(state="Liquid", colour="Colorless to light amber", odour="Fruity", ph="N/A", boil="133 °F to 260 °F (56 °C to 127 °C)", flash="1 °F (-17 °C), Tag closed cup", lel="1.2 % / 12.8 %", vp="185 mm Hg @ 68 °F", vdens="2.0 to 4.0", dens="7.18 lb/gal", evap="3.1", sol="Slight", auto="752 °F (400 °C)", voc="4.98 lb/gal (597 g/L)"),
    nine_lab={"dens": "Weight per gallon"},
    t=dict(ph=NA, state="liquid", density=dict(low=0.86, high=0.86, celsius=None), flash=dict(celsius=-17.0, sign="=", not_applicable=False), boiling=dict(low=56, high=127), vp=246.6, voc=dict(value=597, unit="g/l")),
    transport={"un": "1263", "name": "Paint", "class": "3", "pg": "II"}, transport_as="kv", modes=["U.S. DOT", "IMDG", "IATA"], h16=False,
    o=dict(kv="grid", colon=":", kvw=[30, 70], font="Arimo", fs="10pt", size=("8.5in", "11in"), h2='font-weight="bold" font-size="13pt" color="#a03010" space-before="12pt" space-after="3pt" border-bottom="1.5pt solid #a03010"', h3='font-weight="bold" space-before="5pt"', codes="list", code_sep=" - ", of=" of ", table_size={"limits": "8pt", "ing": "10pt"}, th="#f0e0d8",
           head_lines=lambda d: [("Revision date 12/03/2023", ""), ("Revision 2.2   Print date 01/08/2024", "")],
           header=lambda d: '<fo:block font-size="8pt">Bridle Gloss 77 Lacquer (12/03/2023)</fo:block>', footer=lambda d: '<fo:block font-size="8pt" text-align="right">@PAGE@</fo:block>')))

SHEETS.append(dict(
    file="us-finish-stripper", producer="ghostscript", layout="typewriter-tags", render=groff_gs, voice="us", prose="us", kinds={"flam"}, lab=US_LAB,
    fill=fill("us", gloves="PVA or laminate gloves.", filter="Organic vapor cartridge.", decomp="carbon monoxide, peroxides.", incompat="Oxidizers, acids.", reactions="May form peroxides on long storage in opened containers.", waste="D001", national="None listed."),
    nd=["ND", "Not tested"], product="Peel-Rite Leather Finish Remover", supplier="Copperhill Chemical Works Inc.", date="2021-07-19", date_form="longus", revision="C", head="{n}. {t}", upper=True, sub="", omit=[12, 13],
    use="Removes acrylic and nitrocellulose finishes.", supplier_as="lines", address=["P.O. Box 311, Copperhill Junction, MT 59000", "Tel. 406-555-0175 / 406-555-0176"], phones=[("Emergency", "406-555-0101")],
    h=["H225", "H319"], p=["P210", "P233", "P264", "P280", "P305+P351+P338", "P337+P313"], signal="danger", c21="names", codes_as="text", cls={"H225": "Flammable liquid, category 2", "H319": "Eye irritation, category 2A"},
    ing=[dict(key="dioxol", r="[55,65]"), dict(key="bzoh", r="[20,30]"), dict(key="ethanol", r="[5,15]"), dict(name="Wetting agent", r="(,2]", style="max", secret=True, cas_shown="trade secret")],
    ing_as="table", cols=["name", "cas", "range"], widths=[46, 27, 27], range="to", no_ing_codes=True,
    limits=[("dioxol", "US-ACGIH", "twa", None, 20), ("ethanol", "US-OSHA", "twa", 1900, 1000), ("ethanol", "US-ACGIH", "stel", None, 1000), ("ethanol", "US-NIOSH", "twa", 1900, 1000)], limits_as="rows",
    nine=dict(state="Liquid", colour="Clear", odour="Ether-like", ph="Does not apply", boil="165-401 °F", flash="37 °F TCC", lel="2.1-20.5 vol %", vp="9.3 kPa at 68 °F", dens="1.05", sol="Miscible"),
    nine_lab={"dens": "Specific gravity (water = 1)"},
    t=dict(ph=NA, state="liquid", density=dict(low=1.05, high=1.05, celsius=None), flash=dict(celsius=2.8, sign="=", not_applicable=False), boiling=dict(low=73.9, high=205.0), vp=93.0),
    transport={"un": "1993", "name": "Flammable liquids, n.o.s. (1,3-dioxolane)", "class": "3", "pg": "II"}, transport_as="line", modes=["DOT"], h16=False,
    o=dict(kv="tag", tagin=6.5, family="C", ps=10, ll=16.5, po=2.4, paper="letter", head_lines=lambda d: [("PEEL-RITE LEATHER FINISH REMOVER", ""), ("REVISION DATE:", d["date"]), ("REVISION:", "C")], subfont="R", box="", hps=0, args=["-P-pletter"],
           header=lambda d: ("PEEL-RITE LEATHER FINISH REMOVER", "", "PAGE %"), footer=lambda d: ("", "July 19, 2021", ""))))

SHEETS.append(dict(
    file="us-alkaline-degreaser", producer="prawn", layout="hanging-labels", render=prawn, voice="us", prose="us", kinds={"corr"}, lab=US_LAB,
    fill=fill("us", gloves="Neoprene or nitrile gloves, 15 mil.", filter="Not required with good ventilation.", decomp="carbon oxides.", incompat="Acids, aluminum, zinc, tin.", reactions="Hydrogen may form on contact with light metals.", waste="D002", national="California Proposition 65: none. New Jersey: 2-butoxyethanol."),
    nd=["Not available", "Not applicable to this mixture"], product="Tack Room Degreaser HD", supplier="Bluestem Barn Products", date="2025-02-10", date_form="dMy", revision="1.3", head="{n}. {t}", upper=True, sub="",
    use="Heavy duty degreaser for hardware and synthetic tack. Not for leather.", supplier_as="kv", address=[("Street", "700 Feedlot Lane"), ("City", "Dry Fork, KS 67000"), ("Customer service", "620-555-0133"), ("Technical", "620-555-0134")], phones=[("Emergency (transport)", "800-555-0121"), ("Emergency (medical)", "800-555-0122")],
    h=["H290", "H314"], p=["P234", "P260", "P280", "P301+P330+P331", "P303+P361+P353", "P305+P351+P338", "P310", "P390", "P405", "P501"], signal="danger", c21="text", codes_as="paren", cls={"H290": "Corrosive to metals, Category 1", "H314": "Skin corrosion, Category 1B"},
    ing=[dict(key="water", r="[75,90]", codes=[]), dict(key="metasil", r="[5,10]"), dict(key="butoxy", r="[3,7]"), dict(key="na2co3", r="[1,5]"), dict(key="sas", r="[1,3]", bad=True, cas="97489-15-4")],
    ing_as="table", cols=["name", "cas", "range"], widths=[56, 22, 22], range="spaced/tight", no_ing_codes=True,
    limits=[("butoxy", "US-OSHA", "twa", 240, 50), ("butoxy", "US-ACGIH", "twa", None, 20), ("butoxy", "US-NIOSH", "twa", 24, 5)], limits_as="para",
    nine=dict(state="Liquid", colour="Green", odour="Mild solvent", ph="12.9 (concentrate); 11.2 (1:20)", boil="212 °F (100 °C)", flash="> 200 °F (93 °C)", dens="1.06 @ 77 °F", sol="Complete", voc="5 %"),
    t=dict(ph=ph(12.9), state="liquid", density=dict(low=1.06, high=1.06, celsius=25), flash=dict(celsius=93.0, sign=">", not_applicable=False), boiling=dict(low=100, high=100), voc=dict(value=5, unit="%")),
    transport={"un": "1760", "name": "Corrosive liquid, n.o.s. (disodium metasilicate)", "class": "8", "pg": "III"}, transport_as="kv", modes=["DOT", "IMDG"], h16=False,
    o=dict(fonts=["/usr/share/fonts/truetype/roboto/unhinted/RobotoTTF/Roboto-Regular.ttf", "/usr/share/fonts/truetype/roboto/unhinted/RobotoTTF/Roboto-Bold.ttf"], paper="LETTER", margin=[60, 50, 50, 50], fs=10, kv="hang", bar="556B2F", head_lines=["Revision Date: 10-Feb-2025", "Revision: 1.3"], header=["Tack Room Degreaser HD", "10-Feb-2025"], number="<page> of <total>", th="DDE5CC")))

SHEETS.append(dict(
    file="uk-edge-dye", producer="weasyprint", layout="watermark-floating-box", render=weasyprint, voice="uk", prose="uk", kinds={"mild"},
    fill=fill("uk", gloves="Nitrile gloves, 0.2 mm, for splash contact.", filter="None needed at the bench.", decomp="carbon oxides, oxides of sulphur and nitrogen.", incompat="Strong oxidising agents.", reactions="None known.", waste="08 01 12", national=""),
    nd=["No data available", "Not determined", "Not relevant"], product="Kestrel Edge Dye – Chestnut", supplier="Wainfleet Saddlers' Sundries Ltd", date="2024-03-12", date_form="dmy/", revision="2.1", head="SECTION {n}: {t}", sub="{s}.",
    use="Colouring of cut leather edges.", supplier_as="kv", address=[("Address", "Unit 6, Old Tanyard, Lower Marsham, LN0 0ZZ"), ("Tel", "01632 960 410"), ("Email", "sds@wainfleet.example")], phones=[("Emergency", "01632 960 411 (office hours)"), ("NHS", "111")], ufi=None,
    h=["H412"], euh=["EUH208"], euh208="1,2-Benzisothiazol-3(2H)-one, 2-Methylisothiazol-3(2H)-one", p=["P102", "P273", "P501"], signal="none", c21="lines", codes_as="both",
    ing=[dict(key="ao7", r="[1,3)"), dict(key="dpm", r="[1,5)", codes=[], class_none="Not classified"), dict(name="C.I. Acid Brown 75 preparation", r="[1,2.5)", codes=["H412"], cas_shown="Not disclosed", secret=True), dict(key="ddac", r="[0.25,0.5)"), dict(key="bit", r="(,0.05)"), dict(key="mit", r="(,0.0015)")],
    ing_as="table", cols=["name", "ids", "range", "class"], widths=[30, 25, 18, 27], range="clp", no_reach=True,
    limits=[("dpm", "UK", "twa", 308, 50), ("dpm", "EU", "twa", 308, 50)], limits_as="wide",
    nine=dict(state="Liquid", colour="Brown", odour="Faint", ph="7.5 – 8.5", boil="100 °C", flash="Not relevant", dens="1.02 g/ml", sol="Miscible with water", vp="23 hPa at 20 °C", voc="38 g/l"),
    t=dict(ph=ph(7.5, 8.5), state="liquid", density=dict(low=1.02, high=1.02, celsius=None), flash=dict(celsius=None, sign=None, not_applicable=True), boiling=dict(low=100, high=100), vp=23.0, voc=dict(value=38, unit="g/l")),
    transport=None, curly=True,
    o=dict(kv="grid", codes="table", head_lines=lambda d: [("Revision date:", d["date"]), ("Version", d["revision"]), ("Supersedes", "04/05/2021 (2.0)")], extra=['<div class="wm">UNCONTROLLED COPY</div>'],
           css="""@page{size:A4;margin:20mm 18mm;@top-right{content:"Kestrel Edge Dye – Chestnut";font:8pt Lato}@bottom-left{content:"12/03/2024 · v2.1";font:8pt Lato}@bottom-right{content:"Page " counter(page) " of " counter(pages);font:8pt Lato}}
           .wm{position:fixed;top:110mm;left:0;width:170mm;text-align:center;font:bold 44pt Lato;color:#dddddd;transform:rotate(-38deg);z-index:-1} body{font:9.5pt/1.35 Lato} .top{float:right;width:62mm;border:1pt solid #345;padding:4pt;margin:0 0 4pt 6pt} h1{font-size:13pt;margin:0} .product{font-weight:bold;margin:2pt 0}.meta{margin:0} h2{font-size:11pt;color:#345;border-left:5pt solid #345;padding-left:4pt;margin:11pt 0 3pt;break-after:avoid} h3{font-size:9.5pt;margin:5pt 0 1pt;break-after:avoid} p{margin:0 0 2pt} table{width:100%;border-collapse:collapse} td,th{padding:1.5pt 4pt;vertical-align:top;text-align:left} .kv td.l{width:36%;font-weight:bold} .t{margin:3pt 0} .t th{background:#345;color:#fff} .t td{border-bottom:.5pt solid #345;font-size:8.5pt} .c{width:24%}""")))

SHEETS.append(dict(
    file="uk-mould-remover", producer="prawn", layout="run-in-narrow-table", render=prawn, voice="uk", prose="uk", kinds={"corr"},
    fill=fill("uk", gloves="Nitrile gloves, 0.3 mm, EN ISO 374-1.", filter="Half mask with P2 filter if sprayed.", decomp="hydrogen chloride, oxides of nitrogen and carbon.", incompat="Anionic detergents, soap, oxidisers, bleach.", reactions="None known.", waste="20 01 29*", national="GB Biocidal Products Regulation, PT2."),
    nd=["not measured", "no data"], product="Spore-Ban Leather Mould Wash", supplier="Penhallow Restoration Chemicals", date="2022-08-31", date_form="long", revision="3", head="Section {n}: {t}", sub="{s}",
    use="Removal of mould from leather and books.", supplier_as="kv", address=[("Address", "The Old Net Loft, Harbour Lane, Port Senner TR0 0AA"), ("Telephone", "01632 960 077")], phones=[("Out of hours", "01632 960 078"), ("National Poisons Information Service (doctors only)", "0344 892 0111")], ufi=None,
    h=["H314", "H410"], euh=[], p=["P102", "P260", "P273", "P280", "P303+P361+P353", "P305+P351+P338", "P310", "P391", "P501"], signal="danger", c21="semi", codes_as="run", plus=" + ", cls={"H314": "Skin Corr. 1B"},
    ing=[dict(key="bac", r="[5,10)", scl="M (acute) = 10; M (chronic) = 1"), dict(key="ddac", r="[2.5,5)", scl="M (acute) = 10"), dict(key="ipa", r="[1,3)"), dict(key="itd", r="(,3]")],
    ing_as="table", cols=["name", "cas", "ec", "range", "class"], widths=[28, 15, 15, 17, 25], range="le", no_reach=True,
    limits=[("ipa", "UK", "twa", 999, 400), ("ipa", "UK", "stel", 1250, 500)], limits_as="para",
    nine=dict(state="liquid", colour="clear, pale straw", odour="of pine", ph="6.8 (1 % solution at 25 °C)", boil="approx. 100 °C", flash=None, dens="relative density 0.99 (20 °C)", sol="fully miscible", vp=None),
    t=dict(ph=ph(6.8, 6.8, 1, 25), state="liquid", density=dict(low=0.99, high=0.99, celsius=20), boiling=dict(low=100, high=100)),
    transport={"un": "1903", "name": "DISINFECTANT, LIQUID, CORROSIVE, N.O.S. (quaternary ammonium compounds)", "class": "8", "pg": "III"}, transport_as="subs",
    o=dict(fonts=["/usr/share/fonts/truetype/lato/Lato-Regular.ttf", "/usr/share/fonts/truetype/lato/Lato-Bold.ttf"], paper="A4", margin=[62, 70, 55, 70], fs=10, head_lines=["Spore-Ban Leather Mould Wash", "Revision date: 31 August 2022, version 3"], header=["Penhallow Restoration Chemicals", "Spore-Ban Leather Mould Wash"], number="Page <page> of <total>", borders=["bottom"], tsize={"ing": 8})))

SHEETS.append(dict(
    file="uk-polyurethane-matt", producer="htmldoc", layout="html-bars-boxed", render=htmldoc, voice="uk", prose="uk", kinds={"mild"},
    fill=fill("uk", gloves="Nitrile gloves.", filter="Mask with P2 filter when spraying.", decomp="oxides of carbon and nitrogen.", incompat="Strong acids, oxidising agents.", reactions="None known.", waste="08 01 12", national=""),
    nd=["Not known", "Not applicable"], product="Ashdown Matt Finish PU-20", supplier="Ashdown Leather Coatings plc", date="2023-05-01", date_form="dMy", revision="8", head="{n}) {t}", sub="{s}",
    use="Water based polyurethane topcoat.", supplier_as="lines", address=["Forest Works, Hartswood TN00 0PU, United Kingdom", "Phone +44 1632 960 880", "Fax +44 1632 960 881"], phones=[("Emergency phone", "+44 1632 960 899")], ufi=None,
    h=["H334", "H317"], euh=["EUH210"], p=["P261", "P280", "P284", "P342+P311"], signal="danger", c21="lines", codes_as="codes", contradictions=["two_against_three"],
    ing=[dict(key="dmae", r="[0.1,0.5]"), dict(key="dpm", r="[3,6]"), dict(key="bit", r="[0.01,0.05]", codes=["H302", "H315", "H317", "H318", "H400"]), dict(name="Polyurethane dispersion", r="[25,30]", cas_shown="polymer"), dict(name="Silica", cas="7631-86-9", ec="231-545-4", r="[1,3]", codes=[])],
    ing_as="table", cols=["name", "cas", "ec", "range", "codes"], widths=[30, 16, 16, 14, 24], range="to",
    limits=[("dpm", "UK", "twa", 308, 50), ("dmae", "UK", "twa", 7.4, 2), ("dmae", "UK", "stel", 22, 6)], limits_as="rows",
    nine=dict(state="Liquid", colour="Milky white", odour="Slight, of amine", ph="8.0 to 9.0", boil="100 °C", flash="Not applicable", dens="1.04 kg/l", sol="Dilutable", voc="60 g/l"),
    t=dict(ph=ph(8.0, 9.0), state="liquid", density=dict(low=1.04, high=1.04, celsius=None), flash=dict(celsius=None, sign=None, not_applicable=True), boiling=dict(low=100, high=100), voc=dict(value=60, unit="g/l")),
    transport=None, not_regulated="Not regulated.",
    o=dict(kv="table", bar="#24407a", head_lines=lambda d: [("Revision date:", d["date"]), ("Version:", d["revision"])], args=["--size", "a4", "--header", "t..", "--footer", "..1", "--bodyfont", "times", "--fontsize", "11"])))

# A bundle: the sheet, then exposure scenarios until sixty pages are full.
def scenarios():
    uses = ["Industrial spraying inside a booth", "Industrial application by roller or brush", "Cleaning of equipment by wiping", "Transfer from drum to can", "Professional cleaning with cloth and pad", "Professional spraying outside a booth", "Dipping and pouring of parts", "Mixing in batch processes", "Laboratory use", "Consumer use in cleaning agents", "Storage and sampling", "Maintenance of closed systems"]
    out = []
    for i in range(54):
        use = uses[i % len(uses)]
        out += [["break"], ["sub", "", f"Annex – Exposure scenario {i + 1}: {use}"], ["kv", "Process category", f"PROC {1 + i % 19}"], ["kv", "Environmental release category", f"ERC {1 + i % 11}"], ["kv", "Substance share", "Covers percentage substance in the product up to 100 % (unless stated differently)"],
                ["kv", "Physical form", f"Liquid, vapour pressure {0.5 + i % 7} kPa at standard conditions"], ["kv", "Duration", f"Covers daily exposures up to {1 + i % 8} hours"], ["kv", "Assumptions", "Use at not more than 20 °C above ambient temperature"],
                ["table", "es", ["Route", "Local exposure", "DNEL", "Risk ratio"], [["Inhalation, long-term", f"{3 + i * 2} mg/m³", "500 mg/m³", f"{(3 + i * 2) / 500:.3f}"], ["Dermal, long-term", f"{1 + i} mg/kg/day", "888 mg/kg/day", f"{(1 + i) / 888:.4f}"]], [34, 22, 22, 22]],
                ["p", "Operational conditions and risk management measures: provide a good standard of general ventilation (not less than 3 to 5 air changes per hour). Wear chemically resistant gloves tested to EN 374. Handle only at places with forced extraction (efficiency of at least 90 %). Put lids on containers at once after use."],
                ["p", "Advice to check compliance: predicted exposures are not expected to exceed the limits when the measures above are followed. Where other measures are adopted users should ensure that risks are managed to at least equivalent levels."]]
    return out


SHEETS.append(dict(
    file="uk-bundle-cleaner", producer="fop", layout="sheet-with-annexes", render=fop, voice="uk", prose="uk", kinds={"flam"},
    fill=fill("uk", gloves="Nitrile gloves of at least 0.45 mm, EN ISO 374-1 type A.", filter="Combination filter A1P2.", decomp="carbon monoxide and carbon dioxide.", incompat="Strong oxidising agents, alkali metals.", reactions="Vapour may form an explosive mixture with air.", waste="14 06 03*", national=""),
    nd=["No information available", "Not determined"], product="Calder Spirit Cleaner IPA-E", supplier="Hebblethwaite Solvents Limited", date="2024-01-09", date_form="dmy.", revision="14.1", head="SECTION {n}: {t}", upper=True, sub="{s}",
    ids=[("Chemical identity", "Mixture"), ("Product code", "HS-64175-EXP")], use="Cleaning spirit for leather, plastics and glass.", not_use="None identified.", address=["Canal Road Depot, Sowerfield HX0 0XX", "Switchboard 01632 960 200, sales 01632 960 201", "Fax 01632 960 202", "sds@hebblethwaite.example"], phones=[("Emergency (24 h)", "01632 960 299"), ("Ireland (poisons centre)", "+353 1 809 2166")], ufi=None,
    h=["H225", "H319", "H336"], p=["P210", "P233", "P261", "P271", "P280", "P305+P351+P338", "P403+P233", "P501"], signal="danger", c21="table", lab={"c.class": "Hazard class", "c.h": "Code", "c.t": "Statement"}, codes_as="both", plus="+", picto="GHS02 GHS07",
    ing=[dict(key="ipa", r="[50,100)"), dict(key="ethanol", r="[25,50)"), dict(key="mek", r="[1,2.5)"), dict(key="meoh", r="(,0.5)", scl="STOT SE 2; H371: 3 % ≤ C < 10 %")],
    ing_as="table", cols=["name", "cas", "ec", "reach", "range", "class"], widths=[20, 12, 13, 19, 16, 20], range="clptight",
    limits=[("ipa", "UK", "twa", 999, 400), ("ipa", "UK", "stel", 1250, 500), ("ethanol", "UK", "twa", 1920, 1000), ("mek", "UK", "twa", 600, 200), ("mek", "UK", "stel", 899, 300), ("meoh", "UK", "twa", 266, 200), ("meoh", "UK", "stel", 333, 250), ("meoh", "EU", "twa", 260, 200)], limits_as="wide",
    nine=dict(state="Liquid", colour="Colourless", odour="Alcoholic", ph="Not applicable", melt="-89 °C", boil="78 – 82 °C", flash="12 °C (closed cup)", lel="2 % (v/v) - 13 % (v/v)", vp="43 hPa at 20 °C", vdens="2.1", dens="789 kg/m³ at 20 °C", sol="Completely miscible", auto="399 °C", visc="3.1 mm²/s at 20 °C", voc="789 g/l"),
    t=dict(ph=NA, state="liquid", density=dict(low=0.789, high=0.789, celsius=20), flash=dict(celsius=12.0, sign="=", not_applicable=False), boiling=dict(low=78, high=82), vp=43.0, voc=dict(value=789, unit="g/l")),
    transport={"un": "1987", "name": "ALCOHOLS, N.O.S. (propan-2-ol, ethanol)", "class": "3", "pg": "II"}, transport_as="subs", append={16: scenarios()},
    o=dict(kv="table", kvw=[32, 68], font="Liberation Sans", fs="9.5pt", border="0.3pt solid #777777", h2='font-weight="bold" font-size="10.5pt" background-color="#d0d7e5" padding="2pt" space-before="8pt" space-after="3pt"', h3='font-weight="bold" space-before="5pt" space-after="1pt"', codes="table", codew=[24, 76], of=" of ", row=' keep-together.within-page="always"',
           head_lines=lambda d: [("Version 14.1", ""), ("Revision date:", d["date"])],
           header=lambda d: '<fo:block font-size="8pt">Calder Spirit Cleaner IPA-E</fo:block><fo:block font-size="8pt">Version 14.1, revision date 09.01.2024, print date 10.01.2024</fo:block>', footer=lambda d: '<fo:block font-size="8pt" text-align="center">@PAGE@</fo:block>')))

SHEETS.append(dict(
    file="uk-saddle-oil", producer="gropdf", layout="justified-paragraphs", render=gropdf, voice="uk", prose="uk", kinds={"mild"},
    fill=fill("uk", gloves="Not normally needed.", filter="Not normally needed.", decomp="carbon oxides, acrid smoke.", incompat="Strong oxidising agents.", reactions="Rags may heat up and take fire by themselves.", waste="20 01 26*", national=""),
    nd=["Not applicable to this product", "Unknown"], product="Old Drover Neatsfoot Blend", supplier="J. R. Wetherell & Daughters", date="2019-10-30", date_form="long", revision="2", head="{n}. {t}", sub="{s}",
    use="Oil dressing for harness leather.", address=["Bridge Street, Ludbury SY0 0QQ", "Telephone 01632 960 555"], phones=[("Emergency", "01632 960 556")], ufi=None,
    h=["H304"], p=["P301+P310", "P331", "P405", "P501"], signal="danger", c21="text", codes_as="codes", other_hazards="Rags soaked with the oil may ignite spontaneously.",
    ing=[dict(key="hc1013", r="[60,70]"), dict(name="Neatsfoot oil", cas="8002-64-0", ec="232-300-4", reach=None, r="[30,40]", codes=[]), dict(key="linalool", r="=0.2")],
    ing_as="para", range="endash",
    limits=[], no_limits="There are no workplace exposure limits for the ingredients.",
    nine=dict(state="Oily liquid", colour="Amber", odour="Lavender", ph="Not applicable", boil="180 °C", flash="72 °C", dens="0.84 g/ml at 15 °C", sol="Insoluble", vp="0.4 mm Hg at 20 °C", visc="6 mm²/s at 40 °C"),
    t=dict(ph=NA, state="liquid", density=dict(low=0.84, high=0.84, celsius=15), flash=dict(celsius=72.0, sign="=", not_applicable=False), boiling=dict(low=180, high=180), vp=0.5),
    transport=None, not_regulated="Not classified for carriage by road, sea or air.",
    o=dict(kv="dots", family="T", ps=11, justify=True, head_lines=lambda d: [("Old Drover Neatsfoot Blend", ""), ("Revision date:", d["date"]), ("Version:", "2")], subfont="I", args=["-P-pa4"], fit=72,
           header=lambda d: ("Old Drover Neatsfoot Blend", "", "Version 2"), footer=lambda d: ("30 October 2019", "", "%"))))
