"""Hazard and precautionary statements of the CLP regulation, in four languages: code | en | fr | de | es."""

TABLE = """
H220|Extremely flammable gas.|Gaz extrêmement inflammable.|Extrem entzündbares Gas.|Gas extremadamente inflamable.
H222|Extremely flammable aerosol.|Aérosol extrêmement inflammable.|Extrem entzündbares Aerosol.|Aerosol extremadamente inflamable.
H225|Highly flammable liquid and vapour.|Liquide et vapeurs très inflammables.|Flüssigkeit und Dampf leicht entzündbar.|Líquido y vapores muy inflamables.
H226|Flammable liquid and vapour.|Liquide et vapeurs inflammables.|Flüssigkeit und Dampf entzündbar.|Líquidos y vapores inflamables.
H229|Pressurised container: May burst if heated.|Récipient sous pression: peut éclater sous l'effet de la chaleur.|Behälter steht unter Druck: Kann bei Erwärmung bersten.|Recipiente a presión: Puede reventar si se calienta.
H280|Contains gas under pressure; may explode if heated.|Contient un gaz sous pression; peut exploser sous l'effet de la chaleur.|Enthält Gas unter Druck; kann bei Erwärmung explodieren.|Contiene gas a presión; peligro de explosión en caso de calentamiento.
H290|May be corrosive to metals.|Peut être corrosif pour les métaux.|Kann gegenüber Metallen korrosiv sein.|Puede ser corrosivo para los metales.
H301|Toxic if swallowed.|Toxique en cas d'ingestion.|Giftig bei Verschlucken.|Tóxico en caso de ingestión.
H302|Harmful if swallowed.|Nocif en cas d'ingestion.|Gesundheitsschädlich bei Verschlucken.|Nocivo en caso de ingestión.
H304|May be fatal if swallowed and enters airways.|Peut être mortel en cas d'ingestion et de pénétration dans les voies respiratoires.|Kann bei Verschlucken und Eindringen in die Atemwege tödlich sein.|Puede ser mortal en caso de ingestión y penetración en las vías respiratorias.
H310|Fatal in contact with skin.|Mortel par contact cutané.|Lebensgefahr bei Hautkontakt.|Mortal en contacto con la piel.
H311|Toxic in contact with skin.|Toxique par contact cutané.|Giftig bei Hautkontakt.|Tóxico en contacto con la piel.
H312|Harmful in contact with skin.|Nocif par contact cutané.|Gesundheitsschädlich bei Hautkontakt.|Nocivo en contacto con la piel.
H314|Causes severe skin burns and eye damage.|Provoque de graves brûlures de la peau et de graves lésions des yeux.|Verursacht schwere Verätzungen der Haut und schwere Augenschäden.|Provoca quemaduras graves en la piel y lesiones oculares graves.
H315|Causes skin irritation.|Provoque une irritation cutanée.|Verursacht Hautreizungen.|Provoca irritación cutánea.
H317|May cause an allergic skin reaction.|Peut provoquer une allergie cutanée.|Kann allergische Hautreaktionen verursachen.|Puede provocar una reacción alérgica en la piel.
H318|Causes serious eye damage.|Provoque de graves lésions des yeux.|Verursacht schwere Augenschäden.|Provoca lesiones oculares graves.
H319|Causes serious eye irritation.|Provoque une sévère irritation des yeux.|Verursacht schwere Augenreizung.|Provoca irritación ocular grave.
H330|Fatal if inhaled.|Mortel par inhalation.|Lebensgefahr bei Einatmen.|Mortal en caso de inhalación.
H331|Toxic if inhaled.|Toxique par inhalation.|Giftig bei Einatmen.|Tóxico en caso de inhalación.
H332|Harmful if inhaled.|Nocif par inhalation.|Gesundheitsschädlich bei Einatmen.|Nocivo en caso de inhalación.
H334|May cause allergy or asthma symptoms or breathing difficulties if inhaled.|Peut provoquer des symptômes allergiques ou d'asthme ou des difficultés respiratoires par inhalation.|Kann bei Einatmen Allergie, asthmaartige Symptome oder Atembeschwerden verursachen.|Puede provocar síntomas de alergia o asma o dificultades respiratorias en caso de inhalación.
H335|May cause respiratory irritation.|Peut irriter les voies respiratoires.|Kann die Atemwege reizen.|Puede irritar las vías respiratorias.
H336|May cause drowsiness or dizziness.|Peut provoquer somnolence ou vertiges.|Kann Schläfrigkeit und Benommenheit verursachen.|Puede provocar somnolencia o vértigo.
H341|Suspected of causing genetic defects.|Susceptible d'induire des anomalies génétiques.|Kann vermutlich genetische Defekte verursachen.|Se sospecha que provoca defectos genéticos.
H350|May cause cancer.|Peut provoquer le cancer.|Kann Krebs erzeugen.|Puede provocar cáncer.
H361d|Suspected of damaging the unborn child.|Susceptible de nuire au fœtus.|Kann vermutlich das Kind im Mutterleib schädigen.|Se sospecha que daña al feto.
H373|May cause damage to organs through prolonged or repeated exposure.|Risque présumé d'effets graves pour les organes à la suite d'expositions répétées ou d'une exposition prolongée.|Kann die Organe schädigen bei längerer oder wiederholter Exposition.|Puede provocar daños en los órganos tras exposiciones prolongadas o repetidas.
H400|Very toxic to aquatic life.|Très toxique pour les organismes aquatiques.|Sehr giftig für Wasserorganismen.|Muy tóxico para los organismos acuáticos.
H410|Very toxic to aquatic life with long lasting effects.|Très toxique pour les organismes aquatiques, entraîne des effets néfastes à long terme.|Sehr giftig für Wasserorganismen mit langfristiger Wirkung.|Muy tóxico para los organismos acuáticos, con efectos nocivos duraderos.
H411|Toxic to aquatic life with long lasting effects.|Toxique pour les organismes aquatiques, entraîne des effets néfastes à long terme.|Giftig für Wasserorganismen, mit langfristiger Wirkung.|Tóxico para los organismos acuáticos, con efectos nocivos duraderos.
H412|Harmful to aquatic life with long lasting effects.|Nocif pour les organismes aquatiques, entraîne des effets néfastes à long terme.|Schädlich für Wasserorganismen, mit langfristiger Wirkung.|Nocivo para los organismos acuáticos, con efectos nocivos duraderos.
EUH031|Contact with acids liberates toxic gas.|Au contact d'un acide, dégage un gaz toxique.|Entwickelt bei Berührung mit Säure giftige Gase.|En contacto con ácidos libera gases tóxicos.
EUH066|Repeated exposure may cause skin dryness or cracking.|L'exposition répétée peut provoquer dessèchement ou gerçures de la peau.|Wiederholter Kontakt kann zu spröder oder rissiger Haut führen.|La exposición repetida puede provocar sequedad o formación de grietas en la piel.
EUH071|Corrosive to the respiratory tract.|Corrosif pour les voies respiratoires.|Wirkt ätzend auf die Atemwege.|Corrosivo para las vías respiratorias.
EUH204|Contains isocyanates. May produce an allergic reaction.|Contient des isocyanates. Peut produire une réaction allergique.|Enthält Isocyanate. Kann allergische Reaktionen hervorrufen.|Contiene isocianatos. Puede provocar una reacción alérgica.
EUH206|Warning! Do not use together with other products. May release dangerous gases (chlorine).|Attention! Ne pas utiliser en combinaison avec d'autres produits. Peut libérer des gaz dangereux (chlore).|Achtung! Nicht zusammen mit anderen Produkten verwenden, da gefährliche Gase (Chlor) freigesetzt werden können.|¡Atención! No utilizar junto con otros productos. Puede desprender gases peligrosos (cloro).
EUH208|Contains {x}. May produce an allergic reaction.|Contient {x}. Peut produire une réaction allergique.|Enthält {x}. Kann allergische Reaktionen hervorrufen.|Contiene {x}. Puede provocar una reacción alérgica.
EUH210|Safety data sheet available on request.|Fiche de données de sécurité disponible sur demande.|Sicherheitsdatenblatt auf Anfrage erhältlich.|Puede solicitarse la ficha de datos de seguridad.
P101|If medical advice is needed, have product container or label at hand.|En cas de consultation d'un médecin, garder à disposition le récipient ou l'étiquette.|Ist ärztlicher Rat erforderlich, Verpackung oder Kennzeichnungsetikett bereithalten.|Si se necesita consejo médico, tener a mano el envase o la etiqueta.
P102|Keep out of reach of children.|Tenir hors de portée des enfants.|Darf nicht in die Hände von Kindern gelangen.|Mantener fuera del alcance de los niños.
P103|Read carefully and follow all instructions.|Lire attentivement et bien respecter toutes les instructions.|Lesen Sie sämtliche Anweisungen aufmerksam und befolgen Sie diese.|Lea atentamente y siga todas las instrucciones.
P210|Keep away from heat, hot surfaces, sparks, open flames and other ignition sources. No smoking.|Tenir à l'écart de la chaleur, des surfaces chaudes, des étincelles, des flammes nues et de toute autre source d'inflammation. Ne pas fumer.|Von Hitze, heißen Oberflächen, Funken, offenen Flammen sowie anderen Zündquellenarten fernhalten. Nicht rauchen.|Mantener alejado del calor, de superficies calientes, de chispas, de llamas abiertas y de cualquier otra fuente de ignición. No fumar.
P211|Do not spray on an open flame or other ignition source.|Ne pas vaporiser sur une flamme nue ou sur toute autre source d'ignition.|Nicht gegen offene Flamme oder andere Zündquelle sprühen.|No pulverizar sobre una llama abierta u otra fuente de ignición.
P233|Keep container tightly closed.|Maintenir le récipient fermé de manière étanche.|Behälter dicht verschlossen halten.|Mantener el recipiente herméticamente cerrado.
P234|Keep only in original packaging.|Conserver uniquement dans l'emballage d'origine.|Nur in Originalverpackung aufbewahren.|Conservar únicamente en el embalaje original.
P251|Do not pierce or burn, even after use.|Ne pas perforer, ni brûler, même après usage.|Nicht durchstechen oder verbrennen, auch nicht nach Gebrauch.|No perforar ni quemar, incluso después de su uso.
P260|Do not breathe vapours.|Ne pas respirer les vapeurs.|Dampf nicht einatmen.|No respirar los vapores.
P261|Avoid breathing vapours.|Éviter de respirer les vapeurs.|Einatmen von Dampf vermeiden.|Evitar respirar los vapores.
P264|Wash hands thoroughly after handling.|Se laver les mains soigneusement après manipulation.|Nach Gebrauch Hände gründlich waschen.|Lavarse las manos concienzudamente tras la manipulación.
P270|Do not eat, drink or smoke when using this product.|Ne pas manger, boire ou fumer en manipulant ce produit.|Bei Gebrauch nicht essen, trinken oder rauchen.|No comer, beber ni fumar durante su utilización.
P271|Use only outdoors or in a well-ventilated area.|Utiliser seulement en plein air ou dans un endroit bien ventilé.|Nur im Freien oder in gut belüfteten Räumen verwenden.|Utilizar únicamente en exteriores o en un lugar bien ventilado.
P272|Contaminated work clothing should not be allowed out of the workplace.|Les vêtements de travail contaminés ne devraient pas sortir du lieu de travail.|Kontaminierte Arbeitskleidung nicht außerhalb des Arbeitsplatzes tragen.|Las prendas de trabajo contaminadas no podrán sacarse del lugar de trabajo.
P273|Avoid release to the environment.|Éviter le rejet dans l'environnement.|Freisetzung in die Umwelt vermeiden.|Evitar su liberación al medio ambiente.
P280|Wear protective gloves/protective clothing/eye protection/face protection.|Porter des gants de protection/des vêtements de protection/un équipement de protection des yeux/du visage.|Schutzhandschuhe/Schutzkleidung/Augenschutz/Gesichtsschutz tragen.|Llevar guantes/ropa de protección/equipo de protección para los ojos/la cara.
P284|Wear respiratory protection.|Porter un équipement de protection respiratoire.|Atemschutz tragen.|Llevar equipo de protección respiratoria.
P301+P310|IF SWALLOWED: Immediately call a POISON CENTER/doctor.|EN CAS D'INGESTION: Appeler immédiatement un CENTRE ANTIPOISON/un médecin.|BEI VERSCHLUCKEN: Sofort GIFTINFORMATIONSZENTRUM/Arzt anrufen.|EN CASO DE INGESTIÓN: Llamar inmediatamente a un CENTRO DE TOXICOLOGÍA/médico.
P301+P330+P331|IF SWALLOWED: Rinse mouth. Do NOT induce vomiting.|EN CAS D'INGESTION: Rincer la bouche. NE PAS faire vomir.|BEI VERSCHLUCKEN: Mund ausspülen. KEIN Erbrechen herbeiführen.|EN CASO DE INGESTIÓN: Enjuagar la boca. NO provocar el vómito.
P302+P352|IF ON SKIN: Wash with plenty of water.|EN CAS DE CONTACT AVEC LA PEAU: Laver abondamment à l'eau.|BEI BERÜHRUNG MIT DER HAUT: Mit viel Wasser waschen.|EN CASO DE CONTACTO CON LA PIEL: Lavar con abundante agua.
P303+P361+P353|IF ON SKIN (or hair): Take off immediately all contaminated clothing. Rinse skin with water.|EN CAS DE CONTACT AVEC LA PEAU (ou les cheveux): Enlever immédiatement tous les vêtements contaminés. Rincer la peau à l'eau.|BEI BERÜHRUNG MIT DER HAUT (oder dem Haar): Alle kontaminierten Kleidungsstücke sofort ausziehen. Haut mit Wasser abwaschen.|EN CASO DE CONTACTO CON LA PIEL (o el pelo): Quitar inmediatamente toda la ropa contaminada. Enjuagar la piel con agua.
P304+P340|IF INHALED: Remove person to fresh air and keep comfortable for breathing.|EN CAS D'INHALATION: Transporter la personne à l'extérieur et la maintenir dans une position où elle peut confortablement respirer.|BEI EINATMEN: Die Person an die frische Luft bringen und für ungehinderte Atmung sorgen.|EN CASO DE INHALACIÓN: Transportar a la persona al aire libre y mantenerla en una posición que le facilite la respiración.
P305+P351+P338|IF IN EYES: Rinse cautiously with water for several minutes. Remove contact lenses, if present and easy to do. Continue rinsing.|EN CAS DE CONTACT AVEC LES YEUX: Rincer avec précaution à l'eau pendant plusieurs minutes. Enlever les lentilles de contact si la victime en porte et si elles peuvent être facilement enlevées. Continuer à rincer.|BEI KONTAKT MIT DEN AUGEN: Einige Minuten lang behutsam mit Wasser spülen. Eventuell vorhandene Kontaktlinsen nach Möglichkeit entfernen. Weiter spülen.|EN CASO DE CONTACTO CON LOS OJOS: Enjuagar con agua cuidadosamente durante varios minutos. Quitar las lentes de contacto cuando estén presentes y pueda hacerse con facilidad. Proseguir con el lavado.
P308+P313|IF exposed or concerned: Get medical advice/attention.|EN CAS d'exposition prouvée ou suspectée: Consulter un médecin.|BEI Exposition oder falls betroffen: Ärztlichen Rat einholen/ärztliche Hilfe hinzuziehen.|EN CASO DE exposición manifiesta o presunta: Consultar a un médico.
P310|Immediately call a POISON CENTER/doctor.|Appeler immédiatement un CENTRE ANTIPOISON/un médecin.|Sofort GIFTINFORMATIONSZENTRUM/Arzt anrufen.|Llamar inmediatamente a un CENTRO DE TOXICOLOGÍA/médico.
P331|Do NOT induce vomiting.|NE PAS faire vomir.|KEIN Erbrechen herbeiführen.|NO provocar el vómito.
P333+P313|If skin irritation or rash occurs: Get medical advice/attention.|En cas d'irritation ou d'éruption cutanée: consulter un médecin.|Bei Hautreizung oder -ausschlag: Ärztlichen Rat einholen/ärztliche Hilfe hinzuziehen.|En caso de irritación o erupción cutánea: Consultar a un médico.
P337+P313|If eye irritation persists: Get medical advice/attention.|Si l'irritation oculaire persiste: consulter un médecin.|Bei anhaltender Augenreizung: Ärztlichen Rat einholen/ärztliche Hilfe hinzuziehen.|Si persiste la irritación ocular: Consultar a un médico.
P342+P311|If experiencing respiratory symptoms: Call a POISON CENTER/doctor.|En cas de symptômes respiratoires: Appeler un CENTRE ANTIPOISON/un médecin.|Bei Symptomen der Atemwege: GIFTINFORMATIONSZENTRUM/Arzt anrufen.|En caso de síntomas respiratorios: Llamar a un CENTRO DE TOXICOLOGÍA/médico.
P362+P364|Take off contaminated clothing and wash it before reuse.|Enlever les vêtements contaminés et les laver avant réutilisation.|Kontaminierte Kleidung ausziehen und vor erneutem Tragen waschen.|Quitar las prendas contaminadas y lavarlas antes de volver a usarlas.
P390|Absorb spillage to prevent material damage.|Absorber toute substance répandue pour éviter qu'elle attaque les matériaux environnants.|Verschüttete Mengen aufnehmen, um Materialschäden zu vermeiden.|Absorber el vertido para que no dañe otros materiales.
P391|Collect spillage.|Recueillir le produit répandu.|Verschüttete Mengen aufnehmen.|Recoger el vertido.
P403+P233|Store in a well-ventilated place. Keep container tightly closed.|Stocker dans un endroit bien ventilé. Maintenir le récipient fermé de manière étanche.|An einem gut belüfteten Ort aufbewahren. Behälter dicht verschlossen halten.|Almacenar en un lugar bien ventilado. Mantener el recipiente cerrado herméticamente.
P403+P235|Store in a well-ventilated place. Keep cool.|Stocker dans un endroit bien ventilé. Tenir au frais.|An einem gut belüfteten Ort aufbewahren. Kühl halten.|Almacenar en un lugar bien ventilado. Mantener en lugar fresco.
P405|Store locked up.|Garder sous clef.|Unter Verschluss aufbewahren.|Guardar bajo llave.
P410+P412|Protect from sunlight. Do not expose to temperatures exceeding 50 °C/122 °F.|Protéger du rayonnement solaire. Ne pas exposer à une température supérieure à 50 °C/122 °F.|Vor Sonnenbestrahlung schützen. Nicht Temperaturen über 50 °C/122 °F aussetzen.|Proteger de la luz del sol. No exponer a temperaturas superiores a 50 °C/122 °F.
P501|Dispose of contents/container to an approved waste collection point.|Éliminer le contenu/récipient dans un point de collecte de déchets agréé.|Inhalt/Behälter einer zugelassenen Sammelstelle zuführen.|Eliminar el contenido/el recipiente en un punto de recogida de residuos autorizado.
"""

LANGS = ("en", "fr", "de", "es")
TEXT = {}
for line in TABLE.strip().splitlines():
    cells = line.split("|")
    assert len(cells) == 5, line
    TEXT[cells[0]] = dict(zip(LANGS, cells[1:]))


def text(code, lang, us=False, what=""):
    said = TEXT[code][lang].replace("{x}", what)
    if us:
        said = said.replace("vapours", "vapors").replace("vapour", "vapor").replace("Pressurised", "Pressurized")
    return said


# Hazard classes as they are abbreviated in Annex VI, the same in every language.
CLASS = {
    "H220": "Flam. Gas 1A", "H222": "Aerosol 1", "H225": "Flam. Liq. 2", "H226": "Flam. Liq. 3", "H229": "Aerosol 1",
    "H280": "Press. Gas (Comp.)", "H290": "Met. Corr. 1", "H301": "Acute Tox. 3 (oral)", "H302": "Acute Tox. 4 (oral)", "H304": "Asp. Tox. 1",
    "H310": "Acute Tox. 2 (dermal)", "H311": "Acute Tox. 3 (dermal)", "H312": "Acute Tox. 4 (dermal)", "H314": "Skin Corr. 1B",
    "H315": "Skin Irrit. 2", "H317": "Skin Sens. 1", "H318": "Eye Dam. 1", "H319": "Eye Irrit. 2",
    "H330": "Acute Tox. 2 (inhal.)", "H331": "Acute Tox. 3 (inhal.)", "H332": "Acute Tox. 4 (inhal.)", "H334": "Resp. Sens. 1", "H335": "STOT SE 3",
    "H336": "STOT SE 3", "H341": "Muta. 2", "H350": "Carc. 1B", "H361d": "Repr. 2", "H373": "STOT RE 2",
    "H400": "Aquatic Acute 1", "H410": "Aquatic Chronic 1", "H411": "Aquatic Chronic 2", "H412": "Aquatic Chronic 3",
}
