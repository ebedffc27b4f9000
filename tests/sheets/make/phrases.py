"""Words of the invented sheets in four languages. The statements are the regulation's and are read from the tables of the project."""
import csv
import os

HERE = os.path.dirname(os.path.abspath(__file__))
ATLAS = os.path.join(HERE, "..", "..", "..", "atlas")
LANGS = ["en", "de", "es", "fr"]

WORDING = {}
for row in csv.DictReader(open(os.path.join(ATLAS, "sheet_statements.csv"), encoding="utf-8")):
    WORDING[row["code"], row["language"]] = row["wording"]
TITLES = {}
for row in csv.DictReader(open(os.path.join(ATLAS, "sheet_titles.csv"), encoding="utf-8")):
    TITLES.setdefault((int(row["section_1"]), row["language"]), []).append(row["title"])

FILL = {"en": {"P264": "Wash hands thoroughly after handling.", "P501": "Dispose of contents/container to an approved waste disposal plant.", "P378": "Use dry sand, dry chemical or alcohol-resistant foam to extinguish.", "EUH208": "Contains {x}. May produce an allergic reaction.", "P310": "Immediately call a POISON CENTER/doctor.", "P311": "Call a POISON CENTER/doctor.", "P312": "Call a POISON CENTER/doctor if you feel unwell.", "P352": "Wash with plenty of water/soap.", "P353": "Rinse skin with water/shower.", "P284": "Wear respiratory protection."},
        "de": {"P264": "Nach Gebrauch Hände gründlich waschen.", "P501": "Inhalt/Behälter einer zugelassenen Entsorgungsanlage zuführen.", "P378": "Trockensand, Trockenlöschmittel oder alkoholbeständigen Schaum zum Löschen verwenden.", "EUH208": "Enthält {x}. Kann allergische Reaktionen hervorrufen.", "P310": "Sofort GIFTINFORMATIONSZENTRUM/Arzt anrufen.", "P311": "GIFTINFORMATIONSZENTRUM/Arzt anrufen.", "P312": "Bei Unwohlsein GIFTINFORMATIONSZENTRUM/Arzt anrufen.", "P352": "Mit viel Wasser/Seife waschen.", "P353": "Haut mit Wasser abwaschen/duschen.", "P284": "Atemschutz tragen."},
        "es": {"P264": "Lavarse las manos concienzudamente tras la manipulación.", "P501": "Eliminar el contenido/el recipiente en una planta de residuos autorizada.", "P378": "Utilizar arena seca, polvo químico seco o espuma resistente al alcohol para la extinción.", "EUH208": "Contiene {x}. Puede provocar una reacción alérgica.", "P310": "Llamar inmediatamente a un CENTRO DE TOXICOLOGÍA/médico.", "P311": "Llamar a un CENTRO DE TOXICOLOGÍA/médico.", "P312": "Llamar a un CENTRO DE TOXICOLOGÍA/médico si la persona se encuentra mal.", "P352": "Lavar con abundante agua/jabón.", "P353": "Enjuagar la piel con agua/ducharse.", "P284": "Llevar equipo de protección respiratoria."},
        "fr": {"P264": "Se laver les mains soigneusement après manipulation.", "P501": "Éliminer le contenu/récipient dans une installation d’élimination agréée.", "P378": "Utiliser du sable sec, une poudre chimique ou une mousse résistant à l’alcool pour l’extinction.", "EUH208": "Contient {x}. Peut produire une réaction allergique.", "P310": "Appeler immédiatement un CENTRE ANTIPOISON/un médecin.", "P311": "Appeler un CENTRE ANTIPOISON/un médecin.", "P312": "Appeler un CENTRE ANTIPOISON/un médecin en cas de malaise.", "P352": "Laver abondamment à l’eau/au savon.", "P353": "Rincer la peau à l’eau/se doucher.", "P284": "Porter un équipement de protection respiratoire."}}


def wording(code, lang, fill=""):
    parts = []
    for c in (code.split("+") if code[0] == "P" else [code]):
        parts.append(FILL[lang].get(c) or WORDING[c, lang])
    return " ".join(parts).replace("{x}", fill)


# each: en, de, es, fr; alternatives separated by "|"
L = {
 "product": ("Product name|Trade name|Product identifier", "Handelsname|Produktname|Produktidentifikator", "Nombre comercial|Nombre del producto", "Nom commercial|Nom du produit"),
 "use": ("Relevant identified uses", "Identifizierte Verwendungen", "Usos identificados", "Utilisations identifiées"),
 "supplier": ("Supplier|Manufacturer|Company", "Lieferant|Hersteller/Lieferant|Firma", "Proveedor|Fabricante", "Fournisseur|Fabricant"),
 "address": ("Address", "Anschrift", "Dirección", "Adresse"),
 "phone": ("Telephone", "Telefon", "Teléfono", "Téléphone"),
 "emergency": ("Emergency telephone number", "Notrufnummer", "Teléfono de emergencia", "Numéro d'appel d'urgence"),
 "revdate": ("Revision date|Date of issue|Revised", "Überarbeitet am|Stand|Überarbeitungsdatum", "Fecha de revisión|Revisado el", "Date de révision|Révisé le"),
 "printdate": ("Print date", "Druckdatum", "Fecha de impresión", "Date d'impression"),
 "version": ("Version|Revision number|Revision", "Version|Versionsnummer", "Versión|Número de revisión", "Version|Numéro de version"),
 "signal": ("Signal word", "Signalwort", "Palabra de advertencia", "Mention d'avertissement"),
 "hstat": ("Hazard statements", "Gefahrenhinweise", "Indicaciones de peligro", "Mentions de danger"),
 "pstat": ("Precautionary statements", "Sicherheitshinweise", "Consejos de prudencia", "Conseils de prudence"),
 "suppl": ("Supplemental hazard information", "Ergänzende Gefahrenmerkmale", "Información suplementaria", "Informations additionnelles"),
 "classif": ("Classification according to Regulation (EC) No 1272/2008", "Einstufung gemäß Verordnung (EG) Nr. 1272/2008", "Clasificación según el Reglamento (CE) n.º 1272/2008", "Classification selon le règlement (CE) n° 1272/2008"),
 "notclass": ("The mixture is not classified as hazardous according to Regulation (EC) No 1272/2008.", "Das Gemisch ist gemäß Verordnung (EG) Nr. 1272/2008 nicht als gefährlich eingestuft.", "La mezcla no está clasificada como peligrosa según el Reglamento (CE) n.º 1272/2008.", "Le mélange n'est pas classé comme dangereux selon le règlement (CE) n° 1272/2008."),
 "none": ("None", "Keines", "Ninguna", "Aucune"),
 "danger": ("Danger", "Gefahr", "Peligro", "Danger"),
 "warning": ("Warning", "Achtung", "Atención", "Attention"),
 "na": ("not applicable|Not applicable", "nicht anwendbar|entfällt", "no aplicable|No aplicable", "non applicable|sans objet"),
 "nd": ("not determined|no data available", "nicht bestimmt|keine Daten verfügbar", "no determinado|sin datos disponibles", "non déterminé|pas de données disponibles"),
 "c_name": ("Chemical name|Substance|Ingredient|Name", "Stoffname|Bezeichnung|Inhaltsstoff", "Nombre químico|Sustancia|Componente", "Nom chimique|Substance|Composant"),
 "c_cas": ("CAS No.|CAS number|CAS", "CAS-Nr.|CAS-Nummer", "N.º CAS|Nº CAS", "N° CAS"),
 "c_ec": ("EC No.|EC number", "EG-Nr.", "N.º CE", "N° CE"),
 "c_reach": ("REACH No.|REACH registration No.", "REACH-Nr.|REACH-Registrierungsnr.", "N.º registro REACH", "N° d'enregistrement REACH"),
 "c_index": ("Index No.", "Index-Nr.", "N.º índice", "N° index"),
 "c_range": ("Concentration|%|% by weight|Content (%)", "Gehalt|Konzentration|Gew.-%|Anteil (%)", "Concentración|% en peso|Contenido", "Concentration|% en poids|Teneur"),
 "c_class": ("Classification|Classification (CLP)", "Einstufung|Einstufung (CLP)", "Clasificación|Clasificación (CLP)", "Classification|Classification (CLP)"),
 "ts": ("Trade secret", "Geschäftsgeheimnis", "Secreto comercial", "Secret commercial"),
 "state": ("Physical state|Form|Appearance", "Aggregatzustand|Form|Aussehen", "Estado físico|Aspecto", "État physique|Aspect"),
 "colour": ("Colour", "Farbe", "Color", "Couleur"),
 "odour": ("Odour", "Geruch", "Olor", "Odeur"),
 "ph": ("pH|pH value", "pH-Wert|pH", "pH|Valor pH", "pH"),
 "melting": ("Melting point/freezing point", "Schmelzpunkt/Gefrierpunkt", "Punto de fusión/punto de congelación", "Point de fusion/point de congélation"),
 "boiling": ("Boiling point or initial boiling point and boiling range|Boiling point|Boiling range", "Siedepunkt oder Siedebeginn und Siedebereich|Siedebereich", "Punto de ebullición o punto inicial de ebullición e intervalo de ebullición|Punto de ebullición", "Point d'ébullition ou point initial d'ébullition et intervalle d'ébullition|Point d'ébullition"),
 "flash": ("Flash point", "Flammpunkt", "Punto de inflamación", "Point d'éclair"),
 "vp": ("Vapour pressure", "Dampfdruck", "Presión de vapor", "Pression de vapeur"),
 "density": ("Density|Density and/or relative density|Relative density", "Dichte|Dichte und/oder relative Dichte", "Densidad|Densidad relativa", "Densité|Masse volumique"),
 "solub": ("Solubility in water", "Löslichkeit in Wasser", "Solubilidad en agua", "Solubilité dans l'eau"),
 "visc": ("Kinematic viscosity", "Kinematische Viskosität", "Viscosidad cinemática", "Viscosité cinématique"),
 "autoign": ("Auto-ignition temperature", "Zündtemperatur", "Temperatura de auto-inflamación", "Température d'auto-inflammation"),
 "voc": ("VOC content|Volatile organic compounds (VOC)", "VOC-Gehalt|Flüchtige organische Verbindungen (VOC)", "Contenido en COV|Compuestos orgánicos volátiles (COV)", "Teneur en COV|Composés organiques volatils (COV)"),
 "incompat": ("Incompatible materials", "Unverträgliche Materialien", "Materiales incompatibles", "Matières incompatibles"),
 "storage": ("Conditions for safe storage, including any incompatibilities", "Bedingungen zur sicheren Lagerung unter Berücksichtigung von Unverträglichkeiten", "Condiciones de almacenamiento seguro, incluidas posibles incompatibilidades", "Conditions d'un stockage sûr, y compris les éventuelles incompatibilités"),
 "waste": ("Waste treatment methods", "Verfahren der Abfallbehandlung", "Métodos para el tratamiento de residuos", "Méthodes de traitement des déchets"),
 "un": ("UN number|UN number or ID number", "UN-Nummer|UN-Nummer oder ID-Nummer", "Número ONU|Número ONU o número ID", "Numéro ONU|Numéro ONU ou numéro d'identification"),
 "shipname": ("UN proper shipping name", "Ordnungsgemäße UN-Versandbezeichnung", "Designación oficial de transporte de las Naciones Unidas", "Désignation officielle de transport de l'ONU"),
 "class": ("Transport hazard class(es)|Class", "Transportgefahrenklassen|Klasse", "Clase(s) de peligro para el transporte|Clase", "Classe(s) de danger pour le transport|Classe"),
 "pg": ("Packing group", "Verpackungsgruppe", "Grupo de embalaje", "Groupe d'emballage"),
 "nodg": ("Not classified as dangerous for transport.", "Kein Gefahrgut im Sinne der Transportvorschriften.", "No clasificado como peligroso para el transporte.", "Non dangereux au sens des réglementations de transport."),
 "propcol": ("Property", "Eigenschaft", "Propiedad", "Propriété"), "valcol": ("Value", "Wert", "Valor", "Valeur"), "remcol": ("Method / remark", "Methode / Bemerkung", "Método / observación", "Méthode / remarque"),
 "lim_basis": ("Basis|Source", "Grundlage|Quelle", "Base|Fuente", "Base|Source"), "lim_type": ("Type", "Art", "Tipo", "Type"),
 "sheet": ("SAFETY DATA SHEET", "SICHERHEITSDATENBLATT", "FICHA DE DATOS DE SEGURIDAD", "FICHE DE DONNÉES DE SÉCURITÉ"),
 "according": ("according to Regulation (EC) No 1907/2006 (REACH)", "gemäß Verordnung (EG) Nr. 1907/2006 (REACH)", "según el Reglamento (CE) n.º 1907/2006 (REACH)", "selon le règlement (CE) n° 1907/2006 (REACH)"),
 "page": ("Page", "Seite", "Página", "Page"), "of": ("of", "von", "de", "sur"),
 "section": ("SECTION", "ABSCHNITT", "SECCIÓN", "RUBRIQUE"),
}
ALT = {"state": {
 "liquid": ("liquid", "flüssig", "líquido", "liquide"), "solid": ("solid (powder)", "fest (Pulver)", "sólido (polvo)", "solide (poudre)"), "paste": ("paste", "Paste", "pasta", "pâte"),
 "aerosol": ("aerosol", "Aerosol", "aerosol", "aérosol"), "cloth": ("impregnated cloth", "getränktes Tuch", "toallita impregnada", "lingette imprégnée")}}
KIND = {"twa": ("TWA (8 h)", "AGW (8 h)", "VLA-ED (8 h)", "VLEP-8h"), "stel": ("STEL (15 min)", "Kurzzeitwert (15 min)", "VLA-EC (15 min)", "VLCT (15 min)"), "ceiling": ("Ceiling", "Höchstwert", "Valor techo", "Valeur plafond")}
JUR = {"EU": ("EU IOELV", "EU-Grenzwert (IOELV)", "UE (IOELV)", "UE (IOELV)"), "DE": ("Germany (TRGS 900)", "TRGS 900 (Deutschland)", "Alemania (TRGS 900)", "Allemagne (TRGS 900)"), "UK": ("UK EH40", "Vereinigtes Königreich (EH40)", "Reino Unido (EH40)", "Royaume-Uni (EH40)"),
       "ES": ("Spain (INSST)", "Spanien (INSST)", "España (INSST)", "Espagne (INSST)"), "FR": ("France (INRS)", "Frankreich (INRS)", "Francia (INRS)", "France (INRS)"), "US-OSHA": ("OSHA PEL",) * 4, "US-NIOSH": ("NIOSH REL",) * 4, "US-ACGIH": ("ACGIH TLV",) * 4}
SUB = {  # headings of the second order
 "1.1": ("Product identifier", "Produktidentifikator", "Identificador del producto", "Identificateur de produit"),
 "1.2": ("Relevant identified uses of the substance or mixture and uses advised against", "Relevante identifizierte Verwendungen des Stoffs oder Gemischs und Verwendungen, von denen abgeraten wird", "Usos pertinentes identificados de la sustancia o de la mezcla y usos desaconsejados", "Utilisations identifiées pertinentes de la substance ou du mélange et utilisations déconseillées"),
 "1.3": ("Details of the supplier of the safety data sheet", "Einzelheiten zum Lieferanten, der das Sicherheitsdatenblatt bereitstellt", "Datos del proveedor de la ficha de datos de seguridad", "Renseignements concernant le fournisseur de la fiche de données de sécurité"),
 "1.4": ("Emergency telephone number", "Notrufnummer", "Teléfono de emergencia", "Numéro d'appel d'urgence"),
 "2.1": ("Classification of the substance or mixture", "Einstufung des Stoffs oder Gemischs", "Clasificación de la sustancia o de la mezcla", "Classification de la substance ou du mélange"),
 "2.2": ("Label elements", "Kennzeichnungselemente", "Elementos de la etiqueta", "Éléments d'étiquetage"),
 "2.3": ("Other hazards", "Sonstige Gefahren", "Otros peligros", "Autres dangers"),
 "3.2": ("Mixtures", "Gemische", "Mezclas", "Mélanges"),
 "7.1": ("Precautions for safe handling", "Schutzmaßnahmen zur sicheren Handhabung", "Precauciones para una manipulación segura", "Précautions à prendre pour une manipulation sans danger"),
 "7.2": None, "8.1": ("Control parameters", "Zu überwachende Parameter", "Parámetros de control", "Paramètres de contrôle"),
 "8.2": ("Exposure controls", "Begrenzung und Überwachung der Exposition", "Controles de la exposición", "Contrôles de l'exposition"),
 "9.1": ("Information on basic physical and chemical properties", "Angaben zu den grundlegenden physikalischen und chemischen Eigenschaften", "Información sobre propiedades físicas y químicas básicas", "Informations sur les propriétés physiques et chimiques essentielles"),
 "9.2": ("Other information", "Sonstige Angaben", "Otra información", "Autres informations"),
 "10.5": None, "13.1": None}
TEXT = {  # free text by section
 "use": ("Cleaning and care of leather, professional use", "Reinigung und Pflege von Leder, gewerbliche Verwendung", "Limpieza y cuidado del cuero, uso profesional", "Nettoyage et entretien du cuir, usage professionnel"),
 2: ("The mixture contains no substances assessed to be PBT or vPvB.", "Das Gemisch enthält keine Stoffe, die als PBT oder vPvB bewertet wurden.", "La mezcla no contiene sustancias evaluadas como PBT o mPmB.", "Le mélange ne contient pas de substances évaluées comme PBT ou vPvB."),
 3: ("Full text of H statements: see section 16.", "Vollständiger Wortlaut der H-Sätze: siehe Abschnitt 16.", "Texto completo de las frases H: véase la sección 16.", "Texte intégral des mentions H: voir rubrique 16."),
 4: (["After inhalation: move the person to fresh air and keep at rest in a position that eases breathing. Seek medical advice if symptoms persist.", "After skin contact: take off splashed clothing and wash the skin with plenty of water for at least 15 minutes.", "After eye contact: rinse with the lids held open for at least 15 minutes under running water and see an eye doctor.", "After swallowing: rinse the mouth, drink small sips of water, do not induce vomiting. Show this sheet to the doctor."],
     ["Nach Einatmen: Die Person an die frische Luft bringen und ruhig lagern. Bei anhaltenden Beschwerden einen Arzt aufsuchen.", "Nach Hautkontakt: Benetzte Kleidung ablegen und die Haut mindestens 15 Minuten mit viel Wasser waschen.", "Nach Augenkontakt: Bei geöffnetem Lidspalt mindestens 15 Minuten unter fließendem Wasser spülen und einen Augenarzt aufsuchen.", "Nach Verschlucken: Mund spülen, in kleinen Schlucken Wasser trinken, kein Erbrechen herbeiführen. Dem Arzt dieses Datenblatt vorzeigen."],
     ["Tras inhalación: llevar a la persona al aire libre y mantenerla en reposo. Consultar a un médico si los síntomas continúan.", "Tras contacto con la piel: retirar la ropa salpicada y lavar con agua abundante durante 15 minutos como mínimo.", "Tras contacto con los ojos: lavar con los párpados abiertos durante 15 minutos con agua corriente y acudir al oculista.", "Tras ingestión: enjuagar la boca, beber agua a sorbos, no provocar el vómito. Mostrar esta ficha al médico."],
     ["Après inhalation: transporter la personne à l'air libre et la laisser au repos. Consulter un médecin si les symptômes persistent.", "Après contact avec la peau: retirer les vêtements éclaboussés et laver à grande eau pendant 15 minutes au moins.", "Après contact avec les yeux: rincer paupières ouvertes pendant 15 minutes à l'eau courante et consulter un ophtalmologue.", "Après ingestion: rincer la bouche, boire de l'eau par petites gorgées, ne pas faire vomir. Montrer cette fiche au médecin."]),
 5: (["Suitable extinguishing media: water spray, foam, dry powder, carbon dioxide. Unsuitable: full water jet.", "In a fire carbon monoxide and nitrogen oxides may form. Fire crews wear self-contained breathing apparatus."],
     ["Geeignete Löschmittel: Sprühwasser, Schaum, Trockenpulver, Kohlendioxid. Ungeeignet: Wasservollstrahl.", "Im Brandfall können Kohlenmonoxid und Stickoxide entstehen. Umluftunabhängiges Atemschutzgerät tragen."],
     ["Medios de extinción apropiados: agua pulverizada, espuma, polvo seco, dióxido de carbono. No apropiados: chorro de agua.", "En un incendio pueden formarse monóxido de carbono y óxidos de nitrógeno. Usar equipo de respiración autónomo."],
     ["Moyens d'extinction appropriés: eau pulvérisée, mousse, poudre sèche, dioxyde de carbone. Inappropriés: jet d'eau à grand débit.", "En cas d'incendie peuvent se former du monoxyde de carbone et des oxydes d'azote. Porter un appareil respiratoire autonome."]),
 6: (["Keep people away and upwind. Ventilate. Do not let it reach drains or watercourses. Take up with sand or another absorbent and hand over as in section 13."],
     ["Personen fernhalten und auf windzugewandter Seite bleiben. Lüften. Nicht in die Kanalisation gelangen lassen. Mit Sand oder Bindemittel aufnehmen und wie in Abschnitt 13 entsorgen."],
     ["Mantener alejadas a las personas y situarse contra el viento. Ventilar. Evitar que llegue a los desagües. Recoger con arena u otro absorbente y eliminar según la sección 13."],
     ["Éloigner les personnes et rester au vent. Aérer. Ne pas laisser pénétrer dans les égouts. Recueillir avec du sable ou un absorbant et éliminer selon la rubrique 13."]),
 "handling": ("Use with good ventilation. Avoid contact with skin and eyes. Do not eat, drink or smoke at the bench.", "Für gute Lüftung sorgen. Berührung mit Haut und Augen vermeiden. Bei der Arbeit nicht essen, trinken, rauchen.", "Utilizar con buena ventilación. Evitar el contacto con la piel y los ojos. No comer, beber ni fumar en el puesto.", "Utiliser avec une bonne ventilation. Éviter le contact avec la peau et les yeux. Ne pas manger, boire ou fumer au poste."),
 "storage": ("Store in the closed original container in a cool, dry and well aired room between 5 and 30 °C, away from acids.", "In verschlossenem Originalgebinde kühl, trocken und gut belüftet zwischen 5 und 30 °C lagern, getrennt von Säuren.", "Almacenar en el envase original cerrado, en lugar fresco, seco y aireado entre 5 y 30 °C, separado de ácidos.", "Conserver dans l'emballage d'origine fermé, au frais, au sec et bien aéré entre 5 et 30 °C, à l'écart des acides."),
 "ppe": (["Hands: nitrile gloves, thickness 0.4 mm, breakthrough time above 480 min (EN 374).", "Eyes: tightly fitting goggles (EN 166).", "Breathing: with poor ventilation a filter of type A-P2."],
         ["Handschutz: Nitrilhandschuhe, Dicke 0,4 mm, Durchbruchzeit über 480 min (EN 374).", "Augenschutz: dicht schließende Schutzbrille (EN 166).", "Atemschutz: bei schlechter Lüftung Filter Typ A-P2."],
         ["Manos: guantes de nitrilo, espesor 0,4 mm, tiempo de penetración superior a 480 min (EN 374).", "Ojos: gafas estancas (EN 166).", "Respiración: con mala ventilación filtro tipo A-P2."],
         ["Mains: gants en nitrile, épaisseur 0,4 mm, temps de perméation supérieur à 480 min (EN 374).", "Yeux: lunettes étanches (EN 166).", "Respiration: en cas de ventilation insuffisante filtre type A-P2."]),
 10: ("Stable under the stated conditions of storage. No dangerous reactions known.", "Stabil unter den angegebenen Lagerbedingungen. Keine gefährlichen Reaktionen bekannt.", "Estable en las condiciones de almacenamiento indicadas. No se conocen reacciones peligrosas.", "Stable dans les conditions de stockage indiquées. Pas de réactions dangereuses connues."),
 "incompat": ("Strong acids, strong oxidising agents, light metals", "Starke Säuren, starke Oxidationsmittel, Leichtmetalle", "Ácidos fuertes, agentes oxidantes fuertes, metales ligeros", "Acides forts, agents oxydants forts, métaux légers"),
 11: (["No toxicological tests have been made with the mixture. The statements follow from its components.", "Acute toxicity, oral: ATE above 2000 mg/kg (calculated). LD50 (rat, oral): 1515 mg/kg for one component. LC50 (rat, inhalation): 11 mg/l (4 h).", "Skin corrosion/irritation, serious eye damage, sensitisation: see section 2."],
      ["Mit dem Gemisch wurden keine toxikologischen Prüfungen durchgeführt. Die Angaben leiten sich von den Bestandteilen ab.", "Akute Toxizität, oral: ATE über 2000 mg/kg (berechnet). LD50 (Ratte, oral): 1515 mg/kg für einen Bestandteil. LC50 (Ratte, inhalativ): 11 mg/l (4 h).", "Ätz-/Reizwirkung auf die Haut, schwere Augenschädigung, Sensibilisierung: siehe Abschnitt 2."],
      ["No se han realizado ensayos toxicológicos con la mezcla. Los datos se derivan de sus componentes.", "Toxicidad aguda, oral: ETA superior a 2000 mg/kg (calculada). DL50 (rata, oral): 1515 mg/kg para un componente. CL50 (rata, inhalación): 11 mg/l (4 h).", "Corrosión o irritación cutáneas, lesiones oculares, sensibilización: véase la sección 2."],
      ["Aucun essai toxicologique n'a été effectué avec le mélange. Les indications découlent des composants.", "Toxicité aiguë, orale: ETA supérieure à 2000 mg/kg (calculée). DL50 (rat, oral): 1515 mg/kg pour un composant. CL50 (rat, inhalation): 11 mg/l (4 h).", "Corrosion cutanée/irritation, lésions oculaires, sensibilisation: voir rubrique 2."]),
 12: (["Fish, LC50 (96 h): 150 mg/l. Daphnia, EC50 (48 h): 65 mg/l. Readily biodegradable: more than 70 % in 28 days."],
      ["Fische, LC50 (96 h): 150 mg/l. Daphnien, EC50 (48 h): 65 mg/l. Leicht biologisch abbaubar: mehr als 70 % in 28 Tagen."],
      ["Peces, CL50 (96 h): 150 mg/l. Dafnias, CE50 (48 h): 65 mg/l. Fácilmente biodegradable: más del 70 % en 28 días."],
      ["Poissons, CL50 (96 h): 150 mg/l. Daphnies, CE50 (48 h): 65 mg/l. Facilement biodégradable: plus de 70 % en 28 jours."]),
 "waste": ("Hand over to a licensed collector. Waste code 20 01 29*. Do not pour into the sink.", "Einem zugelassenen Entsorger übergeben. Abfallschlüssel 20 01 29*. Nicht in den Ausguss schütten.", "Entregar a un gestor autorizado. Código de residuo 20 01 29*. No verter por el fregadero.", "Remettre à un collecteur agréé. Code déchet 20 01 29*. Ne pas verser dans l'évier."),
 15: (["Observe the rules for young workers and expectant mothers. No chemical safety assessment has been carried out for the mixture."],
      ["Beschäftigungsbeschränkungen für Jugendliche und werdende Mütter beachten. Eine Stoffsicherheitsbeurteilung wurde nicht durchgeführt."],
      ["Observar las restricciones para jóvenes y mujeres embarazadas. No se ha realizado una evaluación de la seguridad química."],
      ["Respecter les restrictions pour les jeunes travailleurs et les femmes enceintes. Aucune évaluation de la sécurité chimique n'a été effectuée."]),
 16: (["The statements rest on what we know today and are no promise of properties. The user keeps to the law of the place."],
      ["Die Angaben beruhen auf dem heutigen Stand unserer Kenntnisse und sichern keine Eigenschaften zu. Der Verwender beachtet die örtlichen Vorschriften."],
      ["Los datos se basan en nuestros conocimientos actuales y no garantizan propiedades. El usuario cumple las normas del lugar."],
      ["Les indications reposent sur l'état actuel de nos connaissances et ne garantissent pas de propriétés. L'utilisateur respecte les règles locales."]),
 "color": ("colourless", "farblos", "incoloro", "incolore"), "smell": ("mild", "schwach", "suave", "léger"), "mix": ("fully miscible", "vollständig mischbar", "totalmente miscible", "entièrement miscible"),
}
