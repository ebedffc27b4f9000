"""German prose; the mark-up is that of texts_fr."""

DE = """
@4.1 Beschreibung der Erste-Hilfe-Maßnahmen
*Allgemeine Hinweise|Beschmutzte, getränkte Kleidung sofort ausziehen. Bei Auftreten von Symptomen oder in Zweifelsfällen ärztlichen Rat einholen.
*Nach Einatmen|Für Frischluft sorgen. Bei Atembeschwerden Sauerstoffzufuhr durch geschultes Personal.
*Nach Hautkontakt|Mit viel Wasser und milder Seife gründlich abwaschen und gut nachspülen.
[corr]Sofortige ärztliche Behandlung notwendig, da nicht behandelte Verätzungen zu schwer heilenden Wunden führen.
*Nach Augenkontakt|Augenlider spreizen und mindestens zehn bis fünfzehn Minuten unter fließendem Wasser spülen. Augenarzt aufsuchen.
*Nach Verschlucken|Mund ausspülen. Kein Erbrechen herbeiführen. Einem Bewusstlosen niemals etwas einflößen. Arzt hinzuziehen.
@4.2 Wichtigste akute und verzögert auftretende Symptome und Wirkungen
[flam]Kopfschmerzen, Benommenheit, Übelkeit, Reizung der Schleimhäute.
[corr]Schmerzhafte Verätzungen von Haut und Schleimhäuten, Erblindungsgefahr.
[mild]Bei bestimmungsgemäßer Verwendung sind keine Wirkungen bekannt.
Wiederholter Kontakt kann die Haut entfetten.
@4.3 Hinweise auf ärztliche Soforthilfe oder Spezialbehandlung
Symptomatische Behandlung.
@5.1 Löschmittel
*Geeignete Löschmittel|Alkoholbeständiger Schaum, Löschpulver, Kohlendioxid, Wassersprühstrahl.
*Ungeeignete Löschmittel|Wasservollstrahl.
@5.2 Besondere vom Stoff oder Gemisch ausgehende Gefahren
Im Brandfall können entstehen: {decomp}.
[flam]Dämpfe sind schwerer als Luft und können mit Luft explosionsfähige Gemische bilden.
@5.3 Hinweise für die Brandbekämpfung
Umgebungsluftunabhängiges Atemschutzgerät und Vollschutzanzug tragen. Kontaminiertes Löschwasser getrennt sammeln, nicht in die Kanalisation gelangen lassen.
@6.1 Personenbezogene Vorsichtsmaßnahmen, Schutzausrüstungen und in Notfällen anzuwendende Verfahren
Persönliche Schutzausrüstung tragen. Ungeschützte Personen fernhalten. Für ausreichende Lüftung sorgen. Rutschgefahr durch auslaufendes Produkt.
[flam]Zündquellen entfernen.
@6.2 Umweltschutzmaßnahmen
Nicht in die Kanalisation, in Oberflächengewässer oder in das Grundwasser gelangen lassen.
@6.3 Methoden und Material für Rückhaltung und Reinigung
Mit flüssigkeitsbindendem Material (Sand, Kieselgur, Universalbinder) aufnehmen und in geeigneten Behältern der Entsorgung zuführen. Reste mit viel Wasser wegspülen und das Spülwasser auffangen.
@6.4 Verweis auf andere Abschnitte
Informationen zur sicheren Handhabung siehe Abschnitt 7, zur persönlichen Schutzausrüstung siehe Abschnitt 8, zur Entsorgung siehe Abschnitt 13.
@7.1 Schutzmaßnahmen zur sicheren Handhabung
Berührung mit den Augen und der Haut vermeiden. Behälter nach Entnahme sofort verschließen. Bei der Arbeit nicht essen, trinken, rauchen.
[flam]Maßnahmen gegen elektrostatische Aufladung treffen. Explosionsgeschützte Geräte verwenden.
*Hygienemaßnahmen|Vor den Pausen und bei Arbeitsende Hände waschen, Hautschutzplan beachten.
@7.2 Bedingungen zur sicheren Lagerung unter Berücksichtigung von Unverträglichkeiten
Nur im Originalbehälter kühl und trocken bei 5 bis 25 °C lagern. Vor Frost und direkter Sonneneinstrahlung schützen.
*Zusammenlagerungshinweise|Nicht zusammen lagern mit: {incompat}
*Lagerklasse nach TRGS 510|{lgk}
@7.3 Spezifische Endanwendungen
Pflege und Instandsetzung von Leder.
@8.2 Begrenzung und Überwachung der Exposition
*Technische Schutzmaßnahmen|Gute Raumlüftung, bei großflächiger Anwendung örtliche Absaugung. Augenspülflasche bereithalten.
*Augen-/Gesichtsschutz|Dicht schließende Schutzbrille nach EN 166.
*Handschutz|{gloves}
*Körperschutz|Arbeitsschutzkleidung, gegebenenfalls Schürze.
*Atemschutz|{filter}
@10.1 Reaktivität
Bei sachgemäßer Lagerung und Handhabung sind keine gefährlichen Reaktionen bekannt.
@10.2 Chemische Stabilität
Unter den in Abschnitt 7 genannten Lagerbedingungen stabil.
@10.3 Möglichkeit gefährlicher Reaktionen
{reactions}
@10.4 Zu vermeidende Bedingungen
Hitze, Frost, offene Flammen.
@10.5 Unverträgliche Materialien
{incompat}
@10.6 Gefährliche Zersetzungsprodukte
{decomp}
@12.1 Toxizität
Für das Gemisch liegen keine Prüfergebnisse vor. Die Einstufung beruht auf der Berechnungsmethode.
@12.2 Persistenz und Abbaubarkeit
Die enthaltenen Tenside erfüllen die Bedingungen der biologischen Abbaubarkeit der Verordnung (EG) Nr. 648/2004.
@12.3 Bioakkumulationspotenzial
Keine Daten verfügbar.
@12.4 Mobilität im Boden
Keine Daten verfügbar.
@12.5 Ergebnisse der PBT- und vPvB-Beurteilung
Das Gemisch enthält keine Stoffe in Mengen ab 0,1 %, die als PBT oder vPvB beurteilt sind.
@12.6 Endokrinschädliche Eigenschaften
Keine bekannt.
@12.7 Andere schädliche Wirkungen
Wassergefährdungsklasse: {wgk}
@13.1 Verfahren der Abfallbehandlung
*Produkt|Nicht mit dem Hausmüll entsorgen. Abfallschlüssel nach Abfallverzeichnis-Verordnung: {waste}.
*Ungereinigte Verpackungen|Restentleerte Gebinde der Wertstoffsammlung zuführen; nicht restentleerte Gebinde wie das Produkt entsorgen.
@15.1 Vorschriften zu Sicherheit, Gesundheits- und Umweltschutz/spezifische Rechtsvorschriften für den Stoff oder das Gemisch
Verordnungen (EG) Nr. 1907/2006 und Nr. 1272/2008; TRGS 900 Arbeitsplatzgrenzwerte; TRGS 401 Gefährdung durch Hautkontakt; Beschäftigungsbeschränkungen nach Jugendarbeitsschutzgesetz und Mutterschutzgesetz beachten.
{national}
@15.2 Stoffsicherheitsbeurteilung
Eine Stoffsicherheitsbeurteilung wurde nicht durchgeführt.
"""
