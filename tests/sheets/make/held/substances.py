"""Substances: key | CAS | EC | REACH registration | en | fr | de | es | codes | toxicity lines. '-' where there is none."""

TABLE = """
ethanol|64-17-5|200-578-6|01-2119457610-43|Ethanol|Éthanol|Ethanol|Etanol|H225 H319|LD50 oral 10470 mg/kg; LC50 inhal 117 mg/l
ipa|67-63-0|200-661-7|01-2119457558-25|Propan-2-ol|Propane-2-ol|Propan-2-ol|Propan-2-ol|H225 H319 H336|LD50 oral 5840 mg/kg; LD50 dermal 13900 mg/kg
acetone|67-64-1|200-662-2|01-2119471330-49|Acetone|Acétone|Aceton|Acetona|H225 H319 H336|LD50 oral 5800 mg/kg
mek|78-93-3|201-159-0|01-2119457290-43|Butanone|Butanone|Butanon|Butanona|H225 H319 H336|LD50 oral 2193 mg/kg
butoxy|111-76-2|203-905-0|01-2119475108-36|2-Butoxyethanol|2-butoxyéthanol|2-Butoxyethanol|2-butoxietanol|H302 H331 H315 H319|LD50 oral 1200 mg/kg
dpm|34590-94-8|252-104-2|01-2119450011-60|(2-Methoxymethylethoxy)propanol|(2-méthoxyméthyléthoxy)propanol|(2-Methoxymethylethoxy)propanol|(2-metoximetiletoxi)propanol|-|LD50 oral 5135 mg/kg
pm|107-98-2|203-539-1|01-2119457435-35|1-Methoxy-2-propanol|1-méthoxy-2-propanol|1-Methoxy-2-propanol|1-metoxi-2-propanol|H226 H336|LD50 oral 4016 mg/kg
pma|108-65-6|203-603-9|01-2119475791-29|2-Methoxy-1-methylethyl acetate|Acétate de 2-méthoxy-1-méthyléthyle|2-Methoxy-1-methylethylacetat|Acetato de 2-metoxi-1-metiletilo|H226 H336|LD50 oral 8532 mg/kg
buac|123-86-4|204-658-1|01-2119485493-29|n-Butyl acetate|Acétate de n-butyle|n-Butylacetat|Acetato de n-butilo|H226 H336|LD50 oral 10760 mg/kg
etac|141-78-6|205-500-4|01-2119475103-46|Ethyl acetate|Acétate d'éthyle|Ethylacetat|Acetato de etilo|H225 H319 H336|LD50 oral 5620 mg/kg
toluene|108-88-3|203-625-9|01-2119471310-51|Toluene|Toluène|Toluol|Tolueno|H225 H361d H304 H373 H315 H336|LD50 oral 5580 mg/kg
cyhex|110-82-7|203-806-2|01-2119463273-41|Cyclohexane|Cyclohexane|Cyclohexan|Ciclohexano|H225 H304 H315 H336 H400 H410|LD50 oral 12705 mg/kg
hc911|-|919-857-5|01-2119463258-33|Hydrocarbons, C9-C11, n-alkanes, isoalkanes, cyclics, <2% aromatics|Hydrocarbures, C9-C11, n-alcanes, isoalcanes, cycliques, <2% aromatiques|Kohlenwasserstoffe, C9-C11, n-Alkane, Isoalkane, Cycloalkane, <2% Aromaten|Hidrocarburos, C9-C11, n-alcanos, isoalcanos, cíclicos, <2% aromáticos|H226 H304 H336|LD50 oral > 5000 mg/kg
hc1013|-|918-481-9|01-2119457273-39|Hydrocarbons, C10-C13, n-alkanes, isoalkanes, cyclics, <2% aromatics|Hydrocarbures, C10-C13, n-alcanes, isoalcanes, cycliques, <2% aromatiques|Kohlenwasserstoffe, C10-C13, n-Alkane, Isoalkane, Cycloalkane, <2% Aromaten|Hidrocarburos, C10-C13, n-alcanos, isoalcanos, cíclicos, <2% aromáticos|H304|LD50 oral > 5000 mg/kg
hc7|-|927-510-4|01-2119475515-33|Hydrocarbons, C7, n-alkanes, isoalkanes, cyclics|Hydrocarbures, C7, n-alcanes, isoalcanes, cycliques|Kohlenwasserstoffe, C7, n-Alkane, Isoalkane, Cycloalkane|Hidrocarburos, C7, n-alcanos, isoalcanos, cíclicos|H225 H304 H315 H336 H411|LD50 oral > 5840 mg/kg
nh3|1336-21-6|215-647-6|01-2119982985-14|Ammonia ... %|Ammoniac en solution aqueuse à 25 %|Ammoniak, wässrige Lösung|Amoníaco en solución acuosa|H314 H335 H400|LD50 oral 350 mg/kg
naoh|1310-73-2|215-185-5|01-2119457892-27|Sodium hydroxide|Hydroxyde de sodium|Natriumhydroxid|Hidróxido de sodio|H290 H314|-
naocl|7681-52-9|231-668-3|01-2119488154-34|Sodium hypochlorite, solution ... % Cl active|Hypochlorite de sodium, solution à ... % de chlore actif|Natriumhypochlorit, Lösung ... % Cl aktiv|Hipoclorito de sodio, solución ... % cloro activo|H290 H314 H400 H410|LD50 oral 1100 mg/kg
na2co3|497-19-8|207-838-8|01-2119485498-19|Sodium carbonate|Carbonate de sodium|Natriumcarbonat|Carbonato de sodio|H319|LD50 oral 2800 mg/kg
metasil|10213-79-3|229-912-9|01-2119449811-37|Disodium metasilicate pentahydrate|Métasilicate de disodium pentahydraté|Dinatriummetasilicat-Pentahydrat|Metasilicato de disodio pentahidratado|H290 H314 H335|LD50 oral 1153 mg/kg
mea|141-43-5|205-483-3|01-2119486455-28|2-Aminoethanol|2-aminoéthanol|2-Aminoethanol|2-aminoetanol|H302 H312 H314 H332 H335 H412|LD50 oral 1515 mg/kg
dmae|108-01-0|203-542-8|01-2119492298-24|2-Dimethylaminoethanol|2-diméthylaminoéthanol|2-Dimethylaminoethanol|2-dimetilaminoetanol|H226 H302 H311 H314 H331 H335|LD50 oral 1182 mg/kg
tea|121-44-8|204-469-4|01-2119475467-26|Triethylamine|Triéthylamine|Triethylamin|Trietilamina|H225 H302 H311 H314 H331 H335|LD50 oral 730 mg/kg
acetic|64-19-7|200-580-7|01-2119475328-30|Acetic acid|Acide acétique|Essigsäure|Ácido acético|H226 H314|LD50 oral 3310 mg/kg
formic|64-18-6|200-579-1|01-2119491174-37|Formic acid|Acide formique|Ameisensäure|Ácido fórmico|H226 H302 H314 H331|LD50 oral 730 mg/kg
citric|5949-29-1|201-069-1|01-2119457026-42|Citric acid monohydrate|Acide citrique monohydraté|Citronensäure-Monohydrat|Ácido cítrico monohidratado|H319 H335|LD50 oral 5400 mg/kg
citrica|77-92-9|201-069-1|01-2119457026-42|Citric acid|Acide citrique|Citronensäure|Ácido cítrico|H319 H335|LD50 oral 5400 mg/kg
oxalic|144-62-7|205-634-3|01-2119534576-33|Oxalic acid|Acide oxalique|Oxalsäure|Ácido oxálico|H302 H312 H318|LD50 oral 375 mg/kg
phos|7664-38-2|231-633-2|01-2119485924-24|Phosphoric acid|Acide phosphorique|Phosphorsäure|Ácido fosfórico|H290 H302 H314|LD50 oral 1530 mg/kg
lactic|79-33-4|201-196-2|01-2119474164-39|L-(+)-Lactic acid|Acide L-(+)-lactique|L-(+)-Milchsäure|Ácido L-(+)-láctico|H314|LD50 oral 3543 mg/kg
sulfamic|5329-14-6|226-218-8|01-2119488633-28|Sulphamidic acid|Acide sulfamidique|Sulfamidsäure|Ácido sulfamídico|H315 H319 H412|LD50 oral 3160 mg/kg
hdio|28182-81-2|500-060-2|01-2119485796-17|Hexamethylene diisocyanate, oligomers|Diisocyanate d'hexaméthylène, oligomères|Hexamethylendiisocyanat, Oligomere|Diisocianato de hexametileno, oligómeros|H317 H332 H335|LD50 oral > 2500 mg/kg; LC50 inhal 0.39 mg/l
hdi|822-06-0|212-485-8|01-2119457571-37|Hexamethylene-di-isocyanate|Diisocyanate d'hexaméthylène|Hexamethylen-1,6-diisocyanat|Diisocianato de hexametileno|H302 H330 H315 H319 H317 H334 H335|LC50 inhal 0.124 mg/l
azir|64265-57-2|264-763-3|-|2-Ethyl-2-[[3-(2-methylaziridin-1-yl)propionyl]methyl]propane-1,3-diyl bis(2-methylaziridine-1-propionate)|Bis(2-méthylaziridine-1-propionate) de 2-éthyl-2-[[3-(2-méthylaziridine-1-yl)propionyl]méthyl]propane-1,3-diyle|2-Ethyl-2-[[3-(2-methylaziridin-1-yl)propionyl]methyl]propan-1,3-diyl-bis(2-methylaziridin-1-propionat)|Bis(2-metilaziridina-1-propionato) de 2-etil-2-[[3-(2-metilaziridin-1-il)propionil]metil]propano-1,3-diílo|H317 H318 H341 H411|LD50 oral > 2000 mg/kg
mazir|75-55-8|200-878-7|-|2-Methylaziridine|2-méthylaziridine|2-Methylaziridin|2-metilaziridina|H225 H301 H310 H330 H318 H350 H411|LD50 oral 19 mg/kg
bzoh|100-51-6|202-859-9|01-2119492630-38|Benzyl alcohol|Alcool benzylique|Benzylalkohol|Alcohol bencílico|H302 H319 H332|LD50 oral 1620 mg/kg
bit|2634-33-5|220-120-9|01-2120761540-60|1,2-Benzisothiazol-3(2H)-one|1,2-benzisothiazole-3(2H)-one|1,2-Benzisothiazol-3(2H)-on|1,2-bencisotiazol-3(2H)-ona|H302 H315 H317 H318 H400|LD50 oral 1020 mg/kg
cmit|55965-84-9|-|01-2120764691-48|Reaction mass of 5-chloro-2-methyl-2H-isothiazol-3-one and 2-methyl-2H-isothiazol-3-one (3:1)|Masse de réaction de 5-chloro-2-méthyl-2H-isothiazol-3-one et de 2-méthyl-2H-isothiazol-3-one (3:1)|Reaktionsmasse aus 5-Chlor-2-methyl-2H-isothiazol-3-on und 2-Methyl-2H-isothiazol-3-on (3:1)|Mezcla de 5-cloro-2-metil-2H-isotiazol-3-ona y 2-metil-2H-isotiazol-3-ona (3:1)|H301 H310 H330 H314 H317 H400 H410|-
mit|2682-20-4|220-239-6|01-2120764690-50|2-Methylisothiazol-3(2H)-one|2-méthylisothiazol-3(2H)-one|2-Methylisothiazol-3(2H)-on|2-metilisotiazol-3(2H)-ona|H301 H311 H330 H314 H317 H400 H410|-
bac|68424-85-1|270-325-2|01-2119970550-39|Quaternary ammonium compounds, benzyl-C12-16-alkyldimethyl, chlorides|Composés de l'ion ammonium quaternaire, benzylalkyl en C12-16 diméthyles, chlorures|Quaternäre Ammoniumverbindungen, Benzyl-C12-16-alkyldimethyl-, Chloride|Compuestos de amonio cuaternario, bencil-C12-16-alquildimetil, cloruros|H302 H314 H400 H410|LD50 oral 344 mg/kg
ddac|7173-51-5|230-525-2|01-2119945987-15|Didecyldimethylammonium chloride|Chlorure de didécyldiméthylammonium|Didecyldimethylammoniumchlorid|Cloruro de didecildimetilamonio|H301 H314 H400 H411|LD50 oral 238 mg/kg
dme|115-10-6|204-065-8|01-2119472128-37|Dimethyl ether|Oxyde de diméthyle|Dimethylether|Éter dimetílico|H220 H280|-
propane|74-98-6|200-827-9|01-2119486944-21|Propane|Propane|Propan|Propano|H220 H280|-
butane|106-97-8|203-448-7|01-2119474691-32|Butane|Butane|Butan|Butano|H220 H280|-
isobut|75-28-5|200-857-2|01-2119485395-27|Isobutane|Isobutane|Isobutan|Isobutano|H220 H280|-
turp|8006-64-2|232-350-7|01-2119553060-53|Turpentine, oil|Essence de térébenthine|Terpentinöl|Esencia de trementina|H226 H302 H304 H312 H315 H317 H319 H332 H411|LD50 oral 5760 mg/kg
limonene|5989-27-5|227-813-5|01-2119529223-47|d-Limonene|d-limonène|D-Limonen|d-limoneno|H226 H304 H315 H317 H400 H412|LD50 oral 4400 mg/kg
linalool|78-70-6|201-134-4|01-2119474016-42|Linalool|Linalol|Linalool|Linalol|H315 H317 H319|LD50 oral 2790 mg/kg
glycerol|56-81-5|200-289-5|01-2119471987-18|Glycerol|Glycérol|Glycerin|Glicerol|-|LD50 oral 12600 mg/kg
sles|68891-38-3|500-234-8|01-2119488639-16|Alcohols, C12-14, ethoxylated, sulphates, sodium salts|Alcools en C12-14, éthoxylés, sulfatés, sels de sodium|Alkohole, C12-14, ethoxyliert, Sulfate, Natriumsalze|Alcoholes, C12-14, etoxilados, sulfatos, sales de sodio|H315 H318 H412|LD50 oral 4100 mg/kg
apg|68515-73-1|500-220-1|01-2119488530-36|D-Glucopyranose, oligomeric, decyl octyl glycosides|D-glucopyranose, oligomères, décyl octyl glycosides|D-Glucopyranose, oligomer, Decyloctylglykoside|D-glucopiranosa, oligomérica, decil octil glicósidos|H318|LD50 oral > 5000 mg/kg
itd|69011-36-5|500-241-6|-|Isotridecanol, ethoxylated|Isotridécanol, éthoxylé|Isotridecanol, ethoxyliert|Isotridecanol, etoxilado|H302 H318|LD50 oral 500 mg/kg
sas|97489-15-1|307-055-2|01-2119489924-20|Sulfonic acids, C14-17-sec-alkane, sodium salts|Acides sulfoniques, sec-alcane en C14-17, sels de sodium|Sulfonsäuren, C14-17-sec-Alkan-, Natriumsalze|Ácidos sulfónicos, C14-17-sec-alcano, sales de sodio|H302 H315 H318 H412|LD50 oral 1300 mg/kg
pheneth|122-99-6|204-589-7|01-2119488943-21|2-Phenoxyethanol|2-phénoxyéthanol|2-Phenoxyethanol|2-fenoxietanol|H302 H318 H335|LD50 oral 1394 mg/kg
h2o2|7722-84-1|231-765-0|01-2119485845-22|Hydrogen peroxide solution ... %|Peroxyde d'hydrogène en solution à ... %|Wasserstoffperoxid in Lösung ... %|Peróxido de hidrógeno en solución ... %|H302 H314 H332 H335|LD50 oral 693 mg/kg
rosin|8050-09-7|232-475-7|01-2119480418-32|Rosin|Colophane|Kolophonium|Colofonia|H317|LD50 oral 2800 mg/kg
zno|1314-13-2|215-222-5|01-2119463881-32|Zinc oxide|Oxyde de zinc|Zinkoxid|Óxido de cinc|H400 H410|LD50 oral > 5000 mg/kg
nc|9004-70-0|-|-|Nitrocellulose|Nitrocellulose|Nitrocellulose|Nitrocelulosa|-|-
meoh|67-56-1|200-659-6|01-2119433307-44|Methanol|Méthanol|Methanol|Metanol|H225 H301 H311 H331|-
dioxol|646-06-0|211-463-5|01-2119490744-29|1,3-Dioxolane|1,3-dioxolane|1,3-Dioxolan|1,3-dioxolano|H225 H319|LD50 oral 5800 mg/kg
dibk|108-83-8|203-620-1|01-2119474441-41|2,6-Dimethylheptan-4-one|2,6-diméthylheptan-4-one|2,6-Dimethylheptan-4-on|2,6-dimetilheptan-4-ona|H226 H335|LD50 oral 5750 mg/kg
ab1|1064-48-8|213-903-1|-|C.I. Acid Black 1|C.I. Acid Black 1|C.I. Acid Black 1|C.I. Acid Black 1|-|-
ao7|633-96-5|211-199-0|-|C.I. Acid Orange 7|C.I. Acid Orange 7|C.I. Acid Orange 7|C.I. Acid Orange 7|H319|LD50 oral > 10000 mg/kg
tio2|13463-67-7|236-675-5|01-2119489379-17|Titanium dioxide|Dioxyde de titane|Titandioxid|Dióxido de titanio|-|LD50 oral > 5000 mg/kg
cb|1333-86-4|215-609-9|01-2119384822-32|Carbon black|Noir de carbone|Ruß|Negro de carbón|-|LD50 oral > 8000 mg/kg
water|7732-18-5|231-791-2|-|Water|Eau|Wasser|Agua|-|-
"""

SUB = {}
for line in TABLE.strip().splitlines():
    c = line.split("|")
    assert len(c) == 10, line
    none = lambda s: None if s == "-" else s
    SUB[c[0]] = {"cas": none(c[1]), "ec": none(c[2]), "reach": none(c[3]), "en": c[4], "fr": c[5], "de": c[6], "es": c[7],
                 "codes": [] if c[8] == "-" else c[8].split(), "tox": none(c[9])}


def check_digit(cas):
    digits = cas.replace("-", "")
    return sum((i + 1) * int(d) for i, d in enumerate(reversed(digits[:-1]))) % 10 == int(digits[-1])


def ec_digit(ec):
    d = [int(x) for x in ec.replace("-", "")]
    return sum((i + 1) * x for i, x in enumerate(d[:6])) % 11 == d[6]
