"""From the description of a sheet (specs.py) to its text, block by block, and the truth that goes with it.

Blocks: ["sub", number, title] ["kv", label, value] ["p", text] ["li", [items]] ["table", key, columns, rows, widths] ["note", text]
["codes", [[code, text], ...]]. A renderer turns them into a page; it never changes a word."""

import re

import texts_de
import texts_en
import texts_es
import texts_fr
from statements import CLASS, TEXT, text
from substances import SUB

PROSE = {"frA": texts_fr.A, "frB": texts_fr.B, "uk": texts_en.UK, "us": texts_en.US, "de": texts_de.DE, "es": texts_es.ES}

TITLES = {
    "fr": ["Identification de la substance/du mélange et de la société/l'entreprise", "Identification des dangers", "Composition/informations sur les composants", "Premiers secours", "Mesures de lutte contre l'incendie", "Mesures à prendre en cas de dispersion accidentelle", "Manipulation et stockage", "Contrôles de l'exposition/protection individuelle", "Propriétés physiques et chimiques", "Stabilité et réactivité", "Informations toxicologiques", "Informations écologiques", "Considérations relatives à l'élimination", "Informations relatives au transport", "Informations relatives à la réglementation", "Autres informations"],
    "uk": ["Identification of the substance/mixture and of the company/undertaking", "Hazards identification", "Composition/information on ingredients", "First aid measures", "Firefighting measures", "Accidental release measures", "Handling and storage", "Exposure controls/personal protection", "Physical and chemical properties", "Stability and reactivity", "Toxicological information", "Ecological information", "Disposal considerations", "Transport information", "Regulatory information", "Other information"],
    "us": ["Identification", "Hazard(s) identification", "Composition/information on ingredients", "First-aid measures", "Fire-fighting measures", "Accidental release measures", "Handling and storage", "Exposure controls/personal protection", "Physical and chemical properties", "Stability and reactivity", "Toxicological information", "Ecological information", "Disposal considerations", "Transport information", "Regulatory information", "Other information"],
    "de": ["Bezeichnung des Stoffs beziehungsweise des Gemischs und des Unternehmens", "Mögliche Gefahren", "Zusammensetzung/Angaben zu Bestandteilen", "Erste-Hilfe-Maßnahmen", "Maßnahmen zur Brandbekämpfung", "Maßnahmen bei unbeabsichtigter Freisetzung", "Handhabung und Lagerung", "Begrenzung und Überwachung der Exposition/Persönliche Schutzausrüstungen", "Physikalische und chemische Eigenschaften", "Stabilität und Reaktivität", "Toxikologische Angaben", "Umweltbezogene Angaben", "Hinweise zur Entsorgung", "Angaben zum Transport", "Rechtsvorschriften", "Sonstige Angaben"],
    "es": ["Identificación de la sustancia o la mezcla y de la sociedad o la empresa", "Identificación de los peligros", "Composición/información sobre los componentes", "Primeros auxilios", "Medidas de lucha contra incendios", "Medidas en caso de vertido accidental", "Manipulación y almacenamiento", "Controles de exposición/protección individual", "Propiedades físicas y químicas", "Estabilidad y reactividad", "Información toxicológica", "Información ecológica", "Consideraciones relativas a la eliminación", "Información relativa al transporte", "Información reglamentaria", "Otra información"],
}

# Words of the form; a sheet may put its own with spec["lab"].
LAB = {
    "fr": {"1.1": "Identificateur de produit", "1.2": "Utilisations identifiées pertinentes de la substance ou du mélange et utilisations déconseillées", "1.3": "Renseignements concernant le fournisseur de la fiche de données de sécurité", "1.4": "Numéro d'appel d'urgence", "name": "Nom du produit", "use": "Utilisation", "not": "Utilisations déconseillées", "supplier": "Fournisseur", "emerg": "Appel d'urgence", "2.1": "Classification de la substance ou du mélange", "2.2": "Éléments d'étiquetage", "2.3": "Autres dangers", "clp": "Classification selon le règlement (CE) n° 1272/2008 :", "signal": "Mention d'avertissement", "danger": "Danger", "warning": "Attention", "none": "Aucune", "picto": "Pictogrammes de danger", "H": "Mentions de danger", "P": "Conseils de prudence", "EUH": "Informations additionnelles sur les dangers", "contains": "Contient", "no_hazard": "Le mélange n'est pas classé comme dangereux au sens du règlement (CE) n° 1272/2008.", "2.3t": "Le mélange ne contient pas de substance PBT ou vPvB ni de perturbateur endocrinien à une concentration de 0,1 % ou plus.", "3": "Mélanges", "3.n": "3.2", "c.name": "Nom chimique", "c.cas": "N° CAS", "c.ec": "N° CE", "c.reach": "N° REACH", "c.range": "% (m/m)", "c.codes": "Classification (CE) 1272/2008", "c.ids": "Identifiants", "c.stack": "Identification", "see16": "Texte intégral des mentions H : voir rubrique 16.", "8.1": "Paramètres de contrôle", "9.1": "Informations sur les propriétés physiques et chimiques essentielles", "9.2": "Autres informations", "11.1": "Informations sur les classes de danger", "14none": "Non soumis à la réglementation des transports (ADR, RID, IMDG, IATA).", "un": "Numéro ONU", "psn": "Désignation officielle de transport", "tclass": "Classe(s) de danger pour le transport", "pg": "Groupe d'emballage", "env": "Dangers pour l'environnement", "user": "Précautions particulières à prendre par l'utilisateur", "bulk": "Transport maritime en vrac conformément aux instruments de l'OMI", "h16": "Libellé des phrases H figurant à la rubrique 3 :", "disc": "Les informations de cette fiche sont basées sur l'état de nos connaissances à la date indiquée. Elles sont données de bonne foi et ne constituent pas une garantie des propriétés du produit.", "na": "Non applicable", "natest": "Compte tenu des données disponibles, les critères de classification ne sont pas remplis.", "toxcols": ["Composant", "Valeur"], "date": "Date de révision", "rev": "Version", "title": "FICHE DE DONNÉES DE SÉCURITÉ", "page": "Page", "tel": "Téléphone",
           "tox": ["Toxicité aiguë", "Corrosion cutanée/irritation cutanée", "Lésions oculaires graves/irritation oculaire", "Sensibilisation respiratoire ou cutanée", "Mutagénicité sur les cellules germinales", "Cancérogénicité", "Toxicité pour la reproduction", "Toxicité spécifique pour certains organes cibles, exposition unique", "Toxicité spécifique pour certains organes cibles, exposition répétée", "Danger par aspiration"]},
    "uk": {"1.1": "Product identifier", "1.2": "Relevant identified uses of the substance or mixture and uses advised against", "1.3": "Details of the supplier of the safety data sheet", "1.4": "Emergency telephone number", "name": "Product name", "use": "Use", "not": "Uses advised against", "supplier": "Supplier", "emerg": "Emergency telephone", "2.1": "Classification of the substance or mixture", "2.2": "Label elements", "2.3": "Other hazards", "clp": "Classification according to GB CLP:", "signal": "Signal word", "danger": "Danger", "warning": "Warning", "none": "None", "picto": "Hazard pictograms", "H": "Hazard statements", "P": "Precautionary statements", "EUH": "Supplemental information", "contains": "Contains", "no_hazard": "The mixture is not classified as hazardous under GB CLP.", "2.3t": "No substance at 0.1 % or above meets the criteria for PBT, vPvB or endocrine disruption.", "3": "Mixtures", "3.n": "3.2", "c.name": "Chemical name", "c.cas": "CAS No.", "c.ec": "EC No.", "c.reach": "REACH Reg. No.", "c.range": "% w/w", "c.codes": "Classification", "c.ids": "Identifiers", "c.stack": "Identification", "see16": "The full text of H statements is given in section 16.", "8.1": "Control parameters", "9.1": "Information on basic physical and chemical properties", "9.2": "Other information", "11.1": "Information on hazard classes", "14none": "The product is not covered by international regulations on the transport of dangerous goods.", "un": "UN number or ID number", "psn": "UN proper shipping name", "tclass": "Transport hazard class(es)", "pg": "Packing group", "env": "Environmental hazards", "user": "Special precautions for user", "bulk": "Maritime transport in bulk according to IMO instruments", "h16": "Hazard statements in full, as used in section 3:", "disc": "The information in this sheet is believed to be true at the date of issue. It describes the product with regard to safety and is no warranty of its properties.", "na": "Not applicable", "natest": "Based on available data, the classification criteria are not met.", "toxcols": ["Component", "Value"], "date": "Revision date", "rev": "Version", "title": "SAFETY DATA SHEET", "page": "Page", "tel": "Telephone",
           "tox": ["Acute toxicity", "Skin corrosion/irritation", "Serious eye damage/irritation", "Respiratory or skin sensitisation", "Germ cell mutagenicity", "Carcinogenicity", "Reproductive toxicity", "STOT - single exposure", "STOT - repeated exposure", "Aspiration hazard"]},
    "de": {"1.1": "Produktidentifikator", "1.2": "Relevante identifizierte Verwendungen des Stoffs oder Gemischs und Verwendungen, von denen abgeraten wird", "1.3": "Einzelheiten zum Lieferanten, der das Sicherheitsdatenblatt bereitstellt", "1.4": "Notrufnummer", "name": "Handelsname", "use": "Verwendung", "not": "Verwendungen, von denen abgeraten wird", "supplier": "Lieferant", "emerg": "Notruf", "2.1": "Einstufung des Stoffs oder Gemischs", "2.2": "Kennzeichnungselemente", "2.3": "Sonstige Gefahren", "clp": "Einstufung gemäß Verordnung (EG) Nr. 1272/2008:", "signal": "Signalwort", "danger": "Gefahr", "warning": "Achtung", "none": "Entfällt", "picto": "Gefahrenpiktogramme", "H": "Gefahrenhinweise", "P": "Sicherheitshinweise", "EUH": "Ergänzende Gefahrenmerkmale", "contains": "Enthält", "no_hazard": "Das Gemisch ist gemäß Verordnung (EG) Nr. 1272/2008 nicht als gefährlich eingestuft.", "2.3t": "Das Gemisch enthält keine PBT- oder vPvB-Stoffe in Mengen ab 0,1 %.", "3": "Gemische", "3.n": "3.2", "c.name": "Bezeichnung", "c.cas": "CAS-Nr.", "c.ec": "EG-Nr.", "c.reach": "REACH-Nr.", "c.range": "Gew.-%", "c.codes": "Einstufung", "c.ids": "Kennnummern", "c.stack": "Stoff", "see16": "Wortlaut der H-Sätze: siehe Abschnitt 16.", "8.1": "Zu überwachende Parameter", "9.1": "Angaben zu den grundlegenden physikalischen und chemischen Eigenschaften", "9.2": "Sonstige Angaben", "11.1": "Angaben zu den Gefahrenklassen", "14none": "Kein Gefahrgut im Sinne der Transportvorschriften.", "un": "UN-Nummer oder ID-Nummer", "psn": "Ordnungsgemäße UN-Versandbezeichnung", "tclass": "Transportgefahrenklassen", "pg": "Verpackungsgruppe", "env": "Umweltgefahren", "user": "Besondere Vorsichtsmaßnahmen für den Verwender", "bulk": "Massengutbeförderung auf dem Seeweg gemäß IMO-Instrumenten", "h16": "Wortlaut der H-Sätze aus Abschnitt 3:", "disc": "Die Angaben stützen sich auf den heutigen Stand unserer Kenntnisse und stellen keine Zusicherung von Eigenschaften dar.", "na": "Nicht anwendbar", "natest": "Aufgrund der verfügbaren Daten sind die Einstufungskriterien nicht erfüllt.", "toxcols": ["Bestandteil", "Wert"], "date": "Überarbeitet am", "rev": "Version", "title": "SICHERHEITSDATENBLATT", "page": "Seite", "tel": "Telefon",
           "tox": ["Akute Toxizität", "Ätz-/Reizwirkung auf die Haut", "Schwere Augenschädigung/-reizung", "Sensibilisierung der Atemwege/Haut", "Keimzellmutagenität", "Karzinogenität", "Reproduktionstoxizität", "STOT bei einmaliger Exposition", "STOT bei wiederholter Exposition", "Aspirationsgefahr"]},
    "es": {"1.1": "Identificador del producto", "1.2": "Usos pertinentes identificados de la sustancia o de la mezcla y usos desaconsejados", "1.3": "Datos del proveedor de la ficha de datos de seguridad", "1.4": "Teléfono de emergencia", "name": "Nombre comercial", "use": "Uso", "not": "Usos desaconsejados", "supplier": "Proveedor", "emerg": "Urgencias", "2.1": "Clasificación de la sustancia o de la mezcla", "2.2": "Elementos de la etiqueta", "2.3": "Otros peligros", "clp": "Clasificación según el Reglamento (CE) n.º 1272/2008:", "signal": "Palabra de advertencia", "danger": "Peligro", "warning": "Atención", "none": "Sin palabra de advertencia", "picto": "Pictogramas", "H": "Indicaciones de peligro", "P": "Consejos de prudencia", "EUH": "Indicaciones de peligro suplementarias", "contains": "Contiene", "no_hazard": "La mezcla no se clasifica como peligrosa según el Reglamento (CE) n.º 1272/2008.", "2.3t": "La mezcla no contiene sustancias PBT o mPmB.", "3": "Mezclas", "3.n": "3.2", "c.name": "Nombre", "c.cas": "N.º CAS", "c.ec": "N.º CE", "c.reach": "N.º registro", "c.range": "Concentración", "c.codes": "Clasificación según Reglamento 1272/2008", "c.ids": "Identificadores", "c.stack": "Identificación", "see16": "El texto completo de las frases H se indica en la sección 16.", "8.1": "Parámetros de control", "9.1": "Información sobre propiedades físicas y químicas básicas", "9.2": "Otros datos", "11.1": "Información sobre las clases de peligro", "14none": "No es peligroso en el transporte (ADR, IMDG, ICAO/IATA).", "un": "Número ONU o número ID", "psn": "Designación oficial de transporte", "tclass": "Clase(s) de peligro para el transporte", "pg": "Grupo de embalaje", "env": "Peligros para el medio ambiente", "user": "Precauciones particulares para los usuarios", "bulk": "Transporte marítimo a granel con arreglo a los instrumentos de la OMI", "h16": "Texto completo de las frases H de la sección 3:", "disc": "La información de esta ficha se basa en los conocimientos actuales y no garantiza las propiedades del producto.", "na": "No aplicable", "natest": "A la vista de los datos disponibles, no se cumplen los criterios de clasificación.", "toxcols": ["Componente", "Valor"], "date": "Fecha de revisión", "rev": "Versión", "title": "FICHA DE DATOS DE SEGURIDAD", "page": "Página", "tel": "Teléfono",
           "tox": ["Toxicidad aguda", "Corrosión o irritación cutánea", "Lesión o irritación ocular grave", "Sensibilización respiratoria o cutánea", "Mutagenicidad", "Carcinogenicidad", "Toxicidad para la reproducción", "STOT, exposición única", "STOT, exposición repetida", "Peligro de aspiración"]},
}
LAB["us"] = dict(LAB["uk"])
LAB["us"].update({"1.1": "Product identifier used on the label", "1.2": "Recommended use and restrictions on use", "1.3": "Manufacturer", "1.4": "Emergency phone number", "2.1": "GHS classification", "2.2": "GHS label elements", "2.3": "Hazards not otherwise classified", "clp": "This product is considered hazardous under the OSHA Hazard Communication Standard (29 CFR 1910.1200).", "no_hazard": "This product is not classified as hazardous under 29 CFR 1910.1200.", "2.3t": "None known.", "c.cas": "CAS #", "c.range": "Weight %", "3": "Mixture", "see16": "Exact percentages are not disclosed where a range is shown.", "8.1": "Exposure limits", "un": "UN number", "disc": "The above is believed to be accurate as of the date shown. No warranty, expressed or implied, is made.", "14none": "Not regulated by DOT, IMDG or IATA.", "bulk": "Transport in bulk", "tel": "Phone"})

NINE = {
    "fr": {"state": "État physique", "colour": "Couleur", "odour": "Odeur", "threshold": "Seuil olfactif", "ph": "pH", "melt": "Point de fusion/point de congélation", "boil": "Point initial d'ébullition et intervalle d'ébullition", "flash": "Point d'éclair", "evap": "Taux d'évaporation", "flammab": "Inflammabilité", "lel": "Limites inférieure et supérieure d'explosion", "vp": "Pression de vapeur", "vdens": "Densité de vapeur relative", "dens": "Masse volumique", "sol": "Solubilité dans l'eau", "logk": "Coefficient de partage n-octanol/eau (valeur log)", "auto": "Température d'auto-inflammation", "decomp": "Température de décomposition", "visc": "Viscosité cinématique", "part": "Caractéristiques des particules", "voc": "Teneur en COV"},
    "uk": {"state": "Physical state", "colour": "Colour", "odour": "Odour", "threshold": "Odour threshold", "ph": "pH", "melt": "Melting point/freezing point", "boil": "Boiling point or initial boiling point and boiling range", "flash": "Flash point", "evap": "Evaporation rate", "flammab": "Flammability", "lel": "Lower and upper explosion limit", "vp": "Vapour pressure", "vdens": "Relative vapour density", "dens": "Density and/or relative density", "sol": "Solubility", "logk": "Partition coefficient n-octanol/water (log value)", "auto": "Auto-ignition temperature", "decomp": "Decomposition temperature", "visc": "Kinematic viscosity", "part": "Particle characteristics", "voc": "VOC content"},
    "de": {"state": "Aggregatzustand", "colour": "Farbe", "odour": "Geruch", "threshold": "Geruchsschwelle", "ph": "pH-Wert", "melt": "Schmelzpunkt/Gefrierpunkt", "boil": "Siedepunkt oder Siedebeginn und Siedebereich", "flash": "Flammpunkt", "evap": "Verdampfungsgeschwindigkeit", "flammab": "Entzündbarkeit", "lel": "Untere und obere Explosionsgrenze", "vp": "Dampfdruck", "vdens": "Relative Dampfdichte", "dens": "Dichte", "sol": "Löslichkeit in Wasser", "logk": "Verteilungskoeffizient n-Octanol/Wasser (log-Wert)", "auto": "Zündtemperatur", "decomp": "Zersetzungstemperatur", "visc": "Kinematische Viskosität", "part": "Partikeleigenschaften", "voc": "VOC-Gehalt"},
    "es": {"state": "Estado físico", "colour": "Color", "odour": "Olor", "threshold": "Umbral olfativo", "ph": "pH", "melt": "Punto de fusión/punto de congelación", "boil": "Punto de ebullición o punto inicial de ebullición e intervalo de ebullición", "flash": "Punto de inflamación", "evap": "Tasa de evaporación", "flammab": "Inflamabilidad", "lel": "Límite inferior y superior de explosividad", "vp": "Presión de vapor", "vdens": "Densidad de vapor relativa", "dens": "Densidad", "sol": "Solubilidad en agua", "logk": "Coeficiente de reparto n-octanol/agua (log)", "auto": "Temperatura de auto-inflamación", "decomp": "Temperatura de descomposición", "visc": "Viscosidad cinemática", "part": "Características de las partículas", "voc": "COV"},
}
NINE["us"] = dict(NINE["uk"], colour="Color", odour="Odor", threshold="Odor threshold", vp="Vapor pressure", vdens="Vapor density (air = 1)", dens="Specific gravity", boil="Initial boiling point and boiling range", evap="Evaporation rate (n-butyl acetate = 1)")
NINE_ORDER = ["state", "colour", "odour", "threshold", "ph", "melt", "boil", "flash", "evap", "flammab", "lel", "vp", "vdens", "dens", "sol", "logk", "auto", "decomp", "visc", "part", "voc"]

LIMIT_NAMES = {
    "fr": {"twa": "VME (8 h)", "stel": "VLCT (15 min)", "ceiling": "valeur plafond", "who": {"EU": "UE", "FR": "France", "DE": "Allemagne", "UK": "Royaume-Uni", "ES": "Espagne", "US-ACGIH": "ACGIH"}, "head": ["Substance", "N° CAS", "Pays", "Type", "mg/m³", "ppm"]},
    "uk": {"twa": "Long-term (8 h TWA)", "stel": "Short-term (15 min)", "ceiling": "Ceiling", "who": {"EU": "EU", "UK": "UK (EH40)", "DE": "Germany", "FR": "France"}, "head": ["Substance", "CAS No.", "Source", "Type", "mg/m³", "ppm"]},
    "us": {"twa": "TWA", "stel": "STEL", "ceiling": "Ceiling", "who": {"US-OSHA": "OSHA PEL", "US-ACGIH": "ACGIH TLV", "US-NIOSH": "NIOSH REL"}, "head": ["Chemical name", "CAS #", "Source", "Type", "mg/m³", "ppm"]},
    "de": {"twa": "8 h", "stel": "15 min", "ceiling": "Momentanwert", "who": {"EU": "EU-Grenzwert", "DE": "AGW (TRGS 900)"}, "head": ["Stoff", "CAS-Nr.", "Grundlage", "Dauer", "mg/m³", "ppm"]},
    "es": {"twa": "VLA-ED", "stel": "VLA-EC", "ceiling": "techo", "who": {"EU": "Unión Europea", "ES": "España (INSST)"}, "head": ["Nombre", "N.º CAS", "País", "Valor límite", "mg/m³", "ppm"]},
}

MONTHS = {"fr": "janvier février mars avril mai juin juillet août septembre octobre novembre décembre".split(),
          "uk": "January February March April May June July August September October November December".split(),
          "de": "Januar Februar März April Mai Juni Juli August September Oktober November Dezember".split(),
          "es": "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre".split()}
MONTHS["us"] = MONTHS["uk"]


def date_as(iso, form, voice):
    y, m, d = iso.split("-")
    month = MONTHS[voice][int(m) - 1]
    return {"iso": iso, "dmy/": f"{d}/{m}/{y}", "dmy.": f"{d}.{m}.{y}", "mdy/": f"{m}/{d}/{y}", "dmy-": f"{d}-{m}-{y}", "long": f"{int(d)} {month} {y}",
            "longde": f"{int(d)}. {month} {y}", "longes": f"{int(d)} de {month} de {y}", "longus": f"{month} {int(d)}, {y}", "dMy": f"{d}-{month[:3]}-{y}"}[form]


def number(x, voice):
    s = f"{x:g}"
    return s.replace(".", ",") if voice in ("fr", "de", "es") else s


def bounds(said):
    """'[10,25)' as in mathematics; '=12.5' one value."""
    if said.startswith("="):
        x = float(said[1:])
        return {"low": x, "low_open": False, "high": x, "high_open": False}
    lo, hi = said[1:-1].split(",")
    return {"low": float(lo) if lo else None, "low_open": said[0] == "(" and bool(lo), "high": float(hi) if hi else None, "high_open": said[-1] == ")" and bool(hi)}


def range_as(r, style, voice):
    """How a range looks in print; where a style can't show which ends are open the range must have both closed."""
    lo, hi = r["low"], r["high"]
    n = lambda x: number(x, voice)
    unit = {"clp": " %", "bare": "", "tight": "%"}.get(style.split("/")[1] if "/" in style else "clp", " %")
    style = style.split("/")[0]
    if lo is not None and lo == hi:
        return n(lo) + unit
    if lo is None:
        if style == "max" and not r["high_open"]:
            return f"max. {n(hi)}{unit}"
        if style in ("le", "x") and not r["high_open"]:
            return f"<= {n(hi)}{unit}"
        return ("< " if r["high_open"] else "≤ ") + n(hi) + unit
    if hi is None:
        return ("> " if r["low_open"] else (">= " if style in ("le", "x") else "≥ ")) + n(lo) + unit
    if style == "clp":
        return f"{'> ' if r['low_open'] else '≥ '}{n(lo)} - {'< ' if r['high_open'] else '≤ '}{n(hi)}{unit}"
    if style == "clptight":
        return f"{'>' if r['low_open'] else '≥'}{n(lo)}-{'<' if r['high_open'] else '≤'}{n(hi)}{unit}"
    if style == "le":
        return f"{'>' if r['low_open'] else '>='}{n(lo)} - {'<' if r['high_open'] else '<='}{n(hi)}{unit}"
    if style == "x":
        return f"{n(lo)} {'<' if r['low_open'] else '<='} x {'<' if r['high_open'] else '<='} {n(hi)}{unit}"
    if style == "half":
        assert not r["low_open"]
        return f"{n(lo)} – {'< ' if r['high_open'] else ''}{n(hi)}{unit}"
    assert not r["low_open"] and not r["high_open"], (style, r)
    return {"endash": f"{n(lo)}–{n(hi)}", "spaced": f"{n(lo)} - {n(hi)}", "max": f"{n(lo)}-{n(hi)}", "to": f"{n(lo)} to {n(hi)}", "a": f"{n(lo)} à {n(hi)}"}[style] + unit


def prose(spec, section):
    """The blocks of one section out of the voice's prose."""
    kinds, fill = spec["kinds"], spec["fill"]
    out, on, bullets = [], False, []
    for line in PROSE[spec["prose"]].strip().splitlines():
        if line.startswith("@"):
            head, _, title = line[1:].partition(" ")
            on = head.split(".")[0] == str(section)
            if on and bullets:
                out.append(["li", bullets])
                bullets = []
            if on:
                out.append(["sub", head if "." in head else "", title])
            continue
        if not on:
            continue
        m = re.match(r"\[(\w+)\](.*)", line)
        if m:
            if m.group(1) not in kinds:
                continue
            line = m.group(2)
        for k, v in fill.items():
            line = line.replace("{" + k + "}", v)
        line = line.strip().replace("..", ".")
        assert "{" not in line, line
        if not line:
            continue
        if line.startswith("- "):
            bullets.append(line[2:])
            continue
        if bullets:
            out.append(["li", bullets])
            bullets = []
        if line.startswith("*"):
            label, value = line[1:].split("|", 1)
            out.append(["kv", label, value])
        else:
            out.append(["p", line])
    if bullets:
        out.append(["li", bullets])
    # A subsection that lost its lines to the kind has nothing to say: it says so.
    full = []
    for i, b in enumerate(out):
        full.append(b)
        if b[0] == "sub" and (i + 1 == len(out) or out[i + 1][0] == "sub"):
            full.append(["p", spec["nd"][0] + "."])
    return full


def build(spec):
    voice = spec["voice"]
    lang = "en" if voice in ("uk", "us") else voice
    us = voice == "us"
    lab = dict(LAB[voice], **spec.get("lab", {}))
    seen = []

    def seen_add(codes):
        for c in codes:
            if c not in seen:
                seen.append(c)

    what = spec.get("euh208", "")
    say = lambda c: text(c, lang, us, what)
    nd = spec["nd"]
    date = date_as(spec["date"], spec["date_form"], voice)
    doc = {"lang": lang, "voice": voice, "title": lab["title"], "product": spec["product"], "supplier": spec["supplier"], "date": date, "date_label": lab["date"],
           "rev_label": lab["rev"], "revision": spec["revision"], "page": lab["page"], "lab": lab, "extra_head": spec.get("extra_head", []), "sections": []}

    # Section 1
    s1 = [["sub", "1.1", lab["1.1"]], ["kv", lab["name"], spec["product"]]]
    if spec.get("ufi"):
        s1.append(["kv", "UFI", spec["ufi"]])
    for l, v in spec.get("ids", []):
        s1.append(["kv", l, v])
    s1 += [["sub", "1.2", lab["1.2"]], ["kv", lab["use"], spec["use"]]]
    if spec.get("not_use"):
        s1.append(["kv", lab["not"], spec["not_use"]])
    s1 += [["sub", "1.3", lab["1.3"]]]
    if spec.get("supplier_as", "block") == "block":
        s1.append(["kv", lab["supplier"], "\n".join([spec["supplier"]] + spec["address"])])
    elif spec["supplier_as"] == "lines":
        s1 += [["p", l] for l in [spec["supplier"]] + spec["address"]]
    else:
        s1.append(["kv", lab["supplier"], spec["supplier"]])
        for l, v in spec["address"]:
            s1.append(["kv", l, v])
    s1.append(["sub", "1.4", lab["1.4"]])
    for l, v in spec["phones"]:
        s1.append(["kv", l, v])

    # Section 2
    s2 = [["sub", "2.1", lab["2.1"]]]
    mode = spec.get("codes_as", "both")
    hs = spec["h"]
    cls = spec.get("cls", {})
    name_class = lambda c: cls.get(c, CLASS[c])
    if not hs:
        s2.append(["p", lab["no_hazard"]])
    else:
        s2.append(["p", lab["clp"]])
        c21 = spec.get("c21", "lines")
        if c21 == "table":
            s2.append(["table", "class", [lab.get("c.class", "Classe"), lab.get("c.h", "Code"), lab.get("c.t", "Texte")], [[name_class(c), c, say(c)] for c in hs], [24, 12, 64]])
            seen_add(hs)
        elif c21 == "lines":
            s2 += [["p", f"{name_class(c)}, {c}"] for c in hs]
            seen_add(hs)
        elif c21 == "semi":
            s2.append(["p", "; ".join(f"{name_class(c)} - {c}" for c in hs) + "."])
            seen_add(hs)
        elif c21 == "text":
            s2 += [["p", f"{name_class(c)} – {say(c)}"] for c in hs]
            seen_add(hs)
        elif c21 == "names":
            s2 += [["p", name_class(c)] for c in hs]
        else:
            raise ValueError(c21)
    for b in spec.get("after_21", []):
        s2.append(b)
    s2.append(["sub", "2.2", lab["2.2"]])
    if spec.get("picto"):
        s2.append(["kv", lab["picto"], spec["picto"]])
    if spec["signal"] is not None:
        s2.append(["kv", lab["signal"], spec.get("signal_print", lab[spec["signal"]])])
    if spec.get("contains"):
        s2.append(["kv", lab["contains"], spec["contains"]])

    def group(label, codes):
        if not codes:
            return
        if mode == "both":
            s2.append(["kv", label, ""])
            s2.append(["codes", [[c.replace("+", spec.get("plus", " + ")), say(c)] for c in codes]])
        elif mode == "codes":
            s2.append(["kv", label, ", ".join(c.replace("+", spec.get("plus", "+")) for c in codes)])
        elif mode == "text":
            s2.append(["kv", label, ""])
            s2.extend(["p", say(c)] for c in codes)
        elif mode == "run":
            s2.append(["kv", label, " ".join(f"{c.replace('+', spec.get('plus', '+'))} {say(c)}" for c in codes)])
        elif mode == "paren":
            s2.append(["kv", label, ""])
            s2.extend(["p", f"{say(c)} ({c.replace('+', spec.get('plus', '+'))})"] for c in codes)
        seen_add(codes)

    if spec.get("euh_first"):
        group(lab["EUH"], spec.get("euh", []))
    label_h = spec.get("label_h", hs)
    group(lab["H"], label_h)
    if not spec.get("euh_first") and not spec.get("euh_last"):
        group(lab["EUH"], spec.get("euh", []))
    group(lab["P"], spec.get("p", []))
    if spec.get("euh_last"):
        group(lab["EUH"], spec.get("euh", []))
    s2 += [["sub", "2.3", lab["2.3"]], ["p", spec.get("other_hazards", lab["2.3t"])]]

    # Section 3
    s3 = [["sub", lab["3.n"], lab["3"]]]
    if spec.get("descr"):
        s3.append(["kv", spec.get("descr_label", {"fr": "Description", "de": "Beschreibung", "es": "Descripción"}.get(voice, "Description")), spec["descr"]])
    truth_ing, rows = [], []
    bad = []
    for item in spec["ing"]:
        sub = SUB[item["key"]] if item.get("key") else {"cas": None, "ec": None, "reach": None, "codes": [], "tox": None}
        name = item.get("name") or sub[lang]
        cas = item.get("cas", sub["cas"])
        ec, reach = item.get("ec", sub["ec"]), item.get("reach", sub["reach"])
        if us:
            ec = reach = None
        # The truth holds what stands on the page: a number without a column or a line of its own is not stated.
        shown_as = set(spec.get("cols", ["ids"]))
        if spec.get("no_ec") or not shown_as & {"ec", "ids", "stack"}:
            ec = None
        if spec.get("no_reach") or not shown_as & {"reach", "ids", "stack"}:
            reach = None
        codes = item.get("codes", sub["codes"])
        if spec.get("no_ing_codes"):
            codes = []
        rng = None
        shown = item.get("shown", "")
        if item.get("r"):
            rng = bounds(item["r"])
            shown = item.get("shown") or range_as(rng, item.get("style", spec["range"]), voice)
            rng["unit"] = item.get("unit", "%")
        t_cas = cas
        if item.get("bad"):
            bad.append(cas)
            t_cas = None
        truth_ing.append({"name": name, "cas": t_cas, "ec": ec, "reach": reach, "range": rng, "trade_secret": bool(item.get("secret")), "codes": codes})
        dash = spec.get("dash", "-")
        cell = {"name": name, "cas": cas or item.get("cas_shown", dash), "ec": ec or dash, "reach": (reach + spec.get("reach_tail", "")) if reach else dash, "range": shown,
                "codes": ", ".join(codes) or dash, "class": "; ".join(f"{item.get('cls', {}).get(c, CLASS[c])}, {c}" for c in codes) or item.get("class_none", dash),
                "classl": "\n".join(f"{item.get('cls', {}).get(c, CLASS[c])} {c}" for c in codes) or item.get("class_none", dash)}
        lines = []
        if cas:
            lines.append(f"CAS: {cas}")
        elif item.get("cas_shown"):
            lines.append(f"CAS: {item['cas_shown']}")
        if ec:
            lines.append(f"{'CE' if voice in ('fr', 'es') else 'EG' if voice == 'de' else 'EC'}: {ec}")
        if reach:
            lines.append(f"REACH: {reach}{spec.get('reach_tail', '')}")
        cell["ids"] = "\n".join(lines) or dash
        cell["stack"] = "\n".join(lines + [name]) if spec.get("ids_first") else "\n".join([name] + lines)
        if item.get("scl"):
            cell["class"] += "\n" + item["scl"]
            cell["classl"] += "\n" + item["scl"]
        rows.append(cell)
    mode3 = spec["ing_as"]
    heads = {"name": lab["c.name"], "cas": lab["c.cas"], "ec": lab["c.ec"], "reach": lab["c.reach"], "range": lab["c.range"], "codes": lab["c.codes"], "class": lab["c.codes"], "classl": lab["c.codes"], "ids": lab["c.ids"], "stack": lab["c.stack"]}
    if mode3 == "table":
        s3.append(["table", "ing", [heads[c] for c in spec["cols"]], [[r[c] for c in spec["cols"]] for r in rows], spec["widths"]])
    elif mode3 == "para":
        for r, t in zip(rows, truth_ing):
            ids = r["ids"].replace("\n", ", ")
            tail = f"; {r['class']}" if t["codes"] else ""
            s3.append(["p", f"{r['name']} ({ids}): {r['range']}{tail}." if ids != "-" else f"{r['name']}: {r['range']}{tail}."])
    elif mode3 == "kv":
        for i, r in enumerate(rows):
            s3.append(["kv", heads["name"], r["name"]])
            for c in spec["cols"]:
                if c != "name":
                    s3.append(["kv", heads[c], r[c]])
            s3.append(["p", ""])
    else:
        raise ValueError(mode3)
    if spec.get("after_3"):
        s3 += [["p", x] for x in spec["after_3"]]
    if spec.get("see16", True):
        s3.append(["note", lab["see16"]])

    # Section 8
    ln = dict(LIMIT_NAMES[voice], **spec.get("limit_names", {}))
    limits = spec.get("limits", [])
    s8 = [["sub", "8.1", lab["8.1"]]] if not us else [["sub", "", lab["8.1"]]]
    n = lambda x: "" if x is None else number(x, voice)
    if spec.get("thin"):
        n = lambda x: "" if x is None else (f"{x:,.0f}".replace(",", "\u00a0") if x >= 1000 else number(x, voice))
    names = {k: (next((i.get("name") for i in spec["ing"] if i.get("key") == k and i.get("name")), None) or SUB[k][lang]) for k, *_ in limits}
    as8 = spec.get("limits_as", "rows")
    if not limits:
        s8.append(["p", spec.get("no_limits", {"fr": "Aucune valeur limite d'exposition professionnelle n'est disponible.", "uk": "No workplace exposure limits are set for the components.", "us": "No exposure limits established.", "de": "Keine Arbeitsplatzgrenzwerte vorhanden.", "es": "No existen valores límite de exposición."}[voice])])
    elif as8 == "rows":
        s8.append(["table", "limits", ln["head"], [[names[k], SUB[k]["cas"] or "-", ln["who"][j], ln[kind], n(mg) or "-", n(ppm) or "-"] for k, j, kind, mg, ppm in limits], [28, 14, 18, 18, 11, 11]])
    elif as8 == "wide":
        head = [ln["head"][0], ln["head"][1], ln["head"][2], ln["twa"] + " mg/m³", ln["twa"] + " ppm", ln["stel"] + " mg/m³", ln["stel"] + " ppm"]
        merged = {}
        for k, j, kind, mg, ppm in limits:
            merged.setdefault((k, j), {})[kind] = (n(mg) or "-", n(ppm) or "-")
        s8.append(["table", "limits", head, [[names[k], SUB[k]["cas"], ln["who"][j], *v.get("twa", ("-", "-")), *v.get("stel", ("-", "-"))] for (k, j), v in merged.items()], [23, 13, 16, 12, 12, 12, 12]])
    elif as8 == "across":
        whos = []
        for _, j, *_ in limits:
            if j not in whos:
                whos.append(j)
        rows8 = {}
        for k, j, kind, mg, ppm in limits:
            both = [f"{n(ppm)} ppm" if ppm is not None else "", f"{n(mg)} mg/m³" if mg is not None else ""]
            rows8.setdefault(k, {}).setdefault(j, []).append(f"{ln[kind]}: " + (f"{both[0]} ({both[1]})" if all(both) else both[0] or both[1]))
        s8.append(["table", "limits", [ln["head"][0]] + [ln["who"][j] for j in whos], [[f"{names[k]}\n{SUB[k]['cas']}"] + ["\n".join(v.get(j, [spec.get("limit_none", "N.E.")])) for j in whos] for k, v in rows8.items()], [28] + [72 // len(whos)] * len(whos)])
    elif as8 == "para":
        merged = {}
        for k, j, kind, mg, ppm in limits:
            vals = ", ".join(x for x in [f"{n(mg)} mg/m³" if mg is not None else "", f"{n(ppm)} ppm" if ppm is not None else ""] if x)
            merged.setdefault((k, j), []).append(f"{ln[kind]} {vals}")
        for (k, j), v in merged.items():
            s8.append(["p", f"{names[k]} (CAS {SUB[k]['cas']}), {ln['who'][j]}: " + "; ".join(v)])
    for b in spec.get("after_81", []):
        s8.append(b)
    s8 += prose(spec, 8)

    # Section 9
    s9 = [["sub", "9.1", lab["9.1"]]] if not us else []
    nine_lab = dict(NINE[voice], **spec.get("nine_lab", {}))
    order = spec.get("nine_order", NINE_ORDER)
    said = spec["nine"]
    spare = 0
    for k in order:
        if k in said:
            if said[k] is not None:
                s9.append(["kv", nine_lab[k], said[k]])
        else:
            if k == "voc":
                continue
            s9.append(["kv", nine_lab[k], nd[spare % len(nd)]])
            spare += 1
    for k in said:
        assert k in order, k
    s9 += [["sub", "9.2", lab["9.2"]], ["p", spec.get("nine_more", nd[0])]] if not us else []

    # Section 11
    s11 = [["sub", "11.1" if not us else "", lab["11.1"]]]
    tox = [[t["name"], SUB[i["key"]]["tox"]] for i, t in zip(spec["ing"], truth_ing) if i.get("key") and SUB[i["key"]]["tox"]]
    if tox and spec.get("tox_table", True):
        s11.append(["table", "tox", lab["toxcols"], tox, [55, 45]])
    effects = [("H301", "H302", "H310", "H311", "H312", "H330", "H331", "H332"), ("H314", "H315"), ("H314", "H318", "H319"), ("H317", "H334"), ("H341",), ("H350",), ("H361d",), ("H335", "H336"), ("H373",), ("H304",)]
    for label, codes in zip(lab["tox"], effects):
        hit = [c for c in codes if c in hs]
        s11.append(["kv", label, " ".join(say(c) for c in hit) if hit else lab["natest"]])

    # Section 14
    tr = spec.get("transport")
    if not tr:
        s14 = [["p", spec.get("not_regulated", lab["14none"])]] if spec.get("transport_as") != "na" else [["sub" if not us else "kv", f"14.{i + 1}" if not us else lab[k], lab[k] if not us else "n/a"] for i, k in enumerate(["un", "psn", "tclass", "pg", "env"])]
        if spec.get("transport_as") == "na":
            s14 = []
            for i, k in enumerate(["un", "psn", "tclass", "pg", "env"]):
                s14 += [["sub", f"14.{i + 1}", lab[k]], ["p", lab["na"]]]
    elif spec.get("transport_as", "subs") == "subs":
        env = {"fr": "non", "uk": "no", "us": "no", "de": "nein", "es": "no"}[voice] if not tr.get("env") else tr["env"]
        s14 = [["sub", "14.1", lab["un"]], ["p", f"UN {tr['un']}"], ["sub", "14.2", lab["psn"]], ["p", tr["name"]], ["sub", "14.3", lab["tclass"]], ["p", tr["class"]],
               ["sub", "14.4", lab["pg"]], ["p", tr["pg"] or lab["na"]], ["sub", "14.5", lab["env"]], ["p", env], ["sub", "14.6", lab["user"]], ["p", nd[0]], ["sub", "14.7", lab["bulk"]], ["p", lab["na"]]]
    elif spec["transport_as"] == "table":
        s14 = [["table", "transport", ["", "ADR/RID", "IMDG", "IATA"], [[lab["un"]] + [tr["un"]] * 3, [lab["psn"]] + [tr["name"]] + [tr["name_en"]] * 2, [lab["tclass"]] + [tr["class"]] * 3, [lab["pg"]] + [tr["pg"] or "-"] * 3], [28, 24, 24, 24]]]
    elif spec["transport_as"] == "line":
        s14 = [["p", f"{m}: UN {tr['un']}, {tr['name']}, {tr['class']}" + (f", {tr['pg']}" if tr["pg"] else "")] for m in spec.get("modes", ["ADR", "IMDG", "IATA"])]
    elif spec["transport_as"] == "kv":
        s14 = []
        for m in spec.get("modes", ["DOT", "IMDG"]):
            s14 += [["sub", "", m], ["kv", lab["un"], "UN" + tr["un"]], ["kv", lab["psn"], tr["name"]], ["kv", lab["tclass"], tr["class"]], ["kv", lab["pg"], tr["pg"] or "-"]]
    for b in spec.get("after_14", []):
        s14.append(b)

    # Section 16
    s16 = []
    for b in spec.get("before_16", []):
        s16.append(b)
    if spec.get("h16", True):
        all_h = sorted({c for t in truth_ing for c in t["codes"]})
        if all_h:
            s16 += [["kv", lab["h16"], ""], ["codes", [[c, say(c)] for c in all_h]]]
    s16 += [["p", x] for x in spec.get("sixteen", [])]
    s16.append(["p", lab["disc"]])

    made = {1: s1, 2: s2, 3: s3, 8: s8, 9: s9, 11: s11 + spec.get("after_11", []), 14: s14, 16: s16}
    titles = spec.get("titles", TITLES[voice])
    for i in range(1, 17):
        if i in spec.get("omit", []):
            continue
        t = titles[i - 1]
        t = t.upper() if spec.get("upper") else t
        heading = spec["head"].replace("{n}", str(i)).replace("{t}", t)
        blocks = made.get(i) or prose(spec, i)
        blocks = [b for b in blocks]
        for b in spec.get("append", {}).get(i, []):
            blocks.append(b)
        style = spec.get("sub", "{s}")
        for b in blocks:
            if b[0] == "sub" and b[1]:
                b[1] = style.replace("{s}", b[1])
        doc["sections"].append({"n": i, "heading": heading, "blocks": [list(b) for b in blocks]})
    doc["annex"] = spec.get("annex", [])

    truth = {
        "file": spec["file"] + ".pdf", "language": lang, "producer": spec["producer"], "layout": spec["layout"], "pages": 0, "expected": "facts",
        "product": spec["product"], "supplier": spec["supplier"], "revision_date": spec["date"], "revision": spec["revision"],
        "signal_word": spec["signal"], "codes": seen, "ingredients": truth_ing, "bad_cas": bad, "ufi": spec.get("ufi"),
        "ph": spec["t"].get("ph"), "state": spec["t"].get("state"), "density_g_ml": spec["t"].get("density"), "flash_point": spec["t"].get("flash"),
        "boiling_c": spec["t"].get("boiling"), "vapour_pressure_hpa": spec["t"].get("vp"), "voc": spec["t"].get("voc"),
        "limits": [{"cas": SUB[k]["cas"], "jurisdiction": j, "kind": kind, "mg_m3": mg, "ppm": ppm} for k, j, kind, mg, ppm in limits],
        "transport": {"un": tr["un"], "class": tr["class_truth"] if "class_truth" in tr else tr["class"], "packing_group": tr["pg"]} if tr else None,
        "sections": [], "contradictions": spec.get("contradictions", []),
    }
    if spec.get("curly"):
        doc = curl(doc)
        truth["supplier"] = curl(truth["supplier"])
        truth["product"] = curl(truth["product"])
        for i in truth["ingredients"]:
            i["name"] = curl(i["name"])
    return doc, truth


def curl(x):
    """Typographic apostrophes through and through."""
    if isinstance(x, str):
        return x.replace("'", "’")
    if isinstance(x, list):
        return [curl(i) for i in x]
    if isinstance(x, dict):
        return {k: curl(v) for k, v in x.items()}
    return x
