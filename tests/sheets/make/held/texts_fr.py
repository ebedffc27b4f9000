"""French prose of sections 4 to 8, 10 to 13, 15 and 16. '@' opens a subsection, '*label|value' is a labelled line, '- ' a bullet,
'[kind]' keeps a line for products of that kind only."""

A = """
@4.1 Description des premiers secours
*Conseils généraux|En cas de doute ou si des symptômes persistent, faire appel à un médecin et lui montrer cette fiche. Ne jamais rien faire avaler à une personne inconsciente.
*Après inhalation|Amener la victime à l'air frais, la tenir au chaud et au repos. Si la respiration est irrégulière ou s'est arrêtée, pratiquer la respiration artificielle et appeler un médecin.
*Après contact avec la peau|Enlever les vêtements souillés. Laver soigneusement avec de l'eau et un savon doux pendant au moins 15 minutes.
[corr]Les brûlures chimiques doivent être traitées sans délai par un médecin ; couvrir les lésions d'un pansement stérile.
*Après contact avec les yeux|Rincer abondamment à l'eau claire, paupières bien écartées, pendant 15 minutes. Consulter un ophtalmologiste.
*Après ingestion|Rincer la bouche avec de l'eau. Ne pas faire vomir. Garder la personne sous surveillance et appeler un centre antipoison.
@4.2 Principaux symptômes et effets, aigus et différés
[flam]Les vapeurs en forte concentration peuvent causer maux de tête, nausées, fatigue et troubles de la coordination.
[corr]Douleur immédiate, rougeur, cloques et destruction des tissus. Les effets peuvent être différés de plusieurs heures.
[iso]Chez une personne déjà sensibilisée, une crise d'asthme peut survenir jusqu'à 48 heures après une exposition très faible.
Un contact prolongé ou répété peut dégraisser la peau et provoquer une dermatose.
@4.3 Indication des éventuels soins médicaux immédiats et traitements particuliers nécessaires
Traiter de façon symptomatique. Aucun antidote spécifique n'est connu.
@5.1 Moyens d'extinction
*Moyens appropriés|Mousse résistant à l'alcool, dioxyde de carbone (CO2), poudre sèche, eau pulvérisée.
*Moyens inappropriés|Jet d'eau à grand débit, qui pourrait répandre le feu.
@5.2 Dangers particuliers résultant de la substance ou du mélange
Un incendie produira souvent une épaisse fumée noire. En cas de décomposition thermique, il peut se former : {decomp}.
[flam]Les vapeurs sont plus lourdes que l'air et peuvent s'étendre au ras du sol jusqu'à une source d'ignition éloignée.
[aero]Les aérosols échauffés peuvent éclater et être projetés avec force hors du foyer.
@5.3 Conseils aux pompiers
Porter un appareil respiratoire autonome isolant et une tenue de protection complète. Refroidir à l'eau les emballages fermés exposés au feu. Empêcher les eaux d'extinction d'atteindre les égouts.
@6.1 Précautions individuelles, équipement de protection et procédures d'urgence
Pour les non-secouristes : éloigner les personnes, aérer la zone, ne pas marcher dans le produit répandu, éviter tout contact avec la peau et les yeux.
[flam]Supprimer toute source d'ignition ; couper les appareils électriques non protégés.
Pour les secouristes : porter les équipements décrits à la rubrique 8.
@6.2 Précautions pour la protection de l'environnement
Contenir les fuites avec des matériaux absorbants non combustibles. Empêcher toute pénétration dans les égouts ou les cours d'eau ; en cas de pollution, alerter les autorités compétentes.
@6.3 Méthodes et matériel de confinement et de nettoyage
Recueillir le produit avec du sable, de la terre ou de la vermiculite et le déposer dans un fût étiqueté. Nettoyer ensuite à l'eau additionnée de détergent ; éviter les solvants.
[corr]Neutraliser avec précaution les restes par petites quantités, en surveillant le dégagement de chaleur.
@6.4 Référence à d'autres rubriques
Voir les rubriques 7, 8 et 13.
@7.1 Précautions à prendre pour une manipulation sans danger
Se laver les mains après chaque utilisation. Prévoir une aspiration à la source lorsque le produit est appliqué sur de grandes surfaces de cuir. Ne jamais aspirer à la bouche.
[flam]Prendre des mesures contre les décharges électrostatiques. Utiliser le produit dans des locaux dépourvus de toute flamme nue.
[iso]Les personnes souffrant d'asthme, d'allergies ou de troubles respiratoires chroniques ne doivent pas être employées à des travaux utilisant ce mélange.
*Équipements et procédures interdits|Il est interdit de fumer, manger et boire dans les locaux où le mélange est utilisé.
@7.2 Conditions d'un stockage sûr, y compris d'éventuelles incompatibilités
Conserver le récipient bien fermé, dans un endroit sec, frais et bien ventilé, entre 5 °C et 25 °C. Tenir éloigné des aliments et boissons, y compris ceux pour animaux.
*À tenir éloigné de|{incompat}
@7.3 Utilisation(s) finale(s) particulière(s)
Entretien et remise en état du cuir. Aucune autre utilisation n'est prévue.
@8.2 Contrôles de l'exposition
*Contrôles techniques appropriés|Veiller à une ventilation suffisante, si possible par aspiration aux postes de travail. Une douche oculaire doit être à portée.
*Protection des yeux et du visage|Lunettes à protection latérale conformes à la norme EN 166.
*Protection des mains|{gloves}
*Protection du corps|Vêtement de travail à manches longues ; tablier résistant aux produits chimiques en cas de risque de projections.
*Protection respiratoire|{filter}
*Contrôle de l'exposition de l'environnement|Ne pas rejeter à l'égout.
@10.1 Réactivité
Aucune réaction dangereuse n'est connue dans les conditions prévues d'utilisation.
@10.2 Stabilité chimique
Ce mélange est stable aux conditions de manipulation et de stockage recommandées à la rubrique 7.
@10.3 Possibilité de réactions dangereuses
{reactions}
@10.4 Conditions à éviter
Le gel, l'accumulation de charges électrostatiques, l'échauffement, l'humidité prolongée.
@10.5 Matières incompatibles
{incompat}
@10.6 Produits de décomposition dangereux
La décomposition thermique peut dégager ou former : {decomp}.
@12.1 Toxicité
Aucune donnée relative au mélange lui-même. Les évaluations reposent sur les substances citées à la rubrique 3.
@12.2 Persistance et dégradabilité
Les agents de surface contenus respectent les critères de biodégradabilité du règlement (CE) n° 648/2004.
@12.3 Potentiel de bioaccumulation
Une accumulation notable dans les organismes n'est pas attendue.
@12.4 Mobilité dans le sol
Aucune donnée n'est disponible.
@12.5 Résultats des évaluations PBT et vPvB
Le mélange ne contient pas de substance remplissant les critères de l'annexe XIII du règlement REACH à une teneur de 0,1 % ou plus.
@12.6 Propriétés perturbant le système endocrinien
Aucune substance inscrite n'est présente à une teneur de 0,1 % ou plus.
@12.7 Autres effets néfastes
Aucune donnée n'est disponible.
@13.1 Méthodes de traitement des déchets
Ne pas déverser dans les égouts ni dans les cours d'eau. Les déchets sont remis à un collecteur agréé, dans l'emballage fermé et étiqueté.
*Emballages souillés|Vider complètement le récipient, conserver l'étiquette, remettre à un éliminateur agréé.
*Code de déchet (décision 2014/955/UE)|{waste}
@15.1 Réglementations/législation particulières à la substance ou au mélange en matière de sécurité, de santé et d'environnement
- Règlement (CE) n° 1272/2008 modifié, dit CLP
- Règlement (CE) n° 1907/2006, annexe II, modifié par le règlement (UE) 2020/878
- Tableaux des maladies professionnelles selon le Code du travail : n° 65 et n° 84
{national}
@15.2 Évaluation de la sécurité chimique
Aucune évaluation de la sécurité chimique n'a été effectuée pour ce mélange.
"""

B = """
@4.1 Description des mesures de premiers secours
*Inhalation|Faire respirer de l'air frais. Position demi-assise en cas de gêne. Appeler le 15 en cas de malaise.
*Contact cutané|Rincer la peau à grande eau. Ôter vêtements, montre et chaussures éclaboussés et les laver avant de les remettre.
*Contact oculaire|Rincer immédiatement à l'eau tiède durant un quart d'heure au moins, y compris sous les paupières. Retirer les lentilles si cela se fait sans peine. Avis médical.
[corr]Transporter sans attendre la personne aux urgences ophtalmologiques en continuant à rincer.
*Ingestion|Faire rincer la bouche, faire boire un ou deux verres d'eau à petites gorgées, ne pas provoquer de vomissement. Consulter.
@4.2 Symptômes et effets principaux
[corr]Peau : sensation de brûlure, lésions profondes. Yeux : larmoiement, opacité de la cornée, risque de perte de la vue. Ingestion : brûlures de la bouche et de l'œsophage.
[flam]Inhalation : ivresse légère, somnolence, irritation du nez et de la gorge.
[mild]Aucun symptôme n'est attendu dans des conditions normales d'emploi. Un picotement passager des yeux est possible.
@4.3 Soins médicaux immédiats
Traitement symptomatique. Numéro d'appel pour le médecin : voir rubrique 1.4.
@5.1 Moyens d'extinction
Adapter à l'environnement : mousse, poudre, gaz carbonique, brouillard d'eau. Proscrire le jet bâton.
@5.2 Dangers particuliers
Fumées pouvant contenir : {decomp}.
[flam]Formation possible de mélanges explosifs avec l'air, même dans les emballages vides non nettoyés.
[corr]Au contact de certains métaux (aluminium, zinc), de l'hydrogène peut se dégager.
@5.3 Conseils aux pompiers
Vêtement de protection intégral et appareil respiratoire isolant. Recueillir séparément l'eau d'extinction.
@6.1 Précautions individuelles
Ventiler. Mettre gants, lunettes et bottes. Écarter les curieux. Attention, sol glissant.
[flam]Pas de flamme, pas d'étincelle, pas de cigarette ; outils ne produisant pas d'étincelles.
@6.2 Précautions pour l'environnement
Ne pas laisser s'écouler dans la canalisation, le sol, les eaux de surface ou souterraines.
@6.3 Confinement et nettoyage
Endiguer, absorber avec un produit inerte, ramasser à la pelle plastique, rincer la place à l'eau et recueillir l'eau de lavage.
@6.4 Renvoi à d'autres sections
Équipement individuel : section 8. Élimination : section 13.
@7.1 Manipulation
Manipuler selon les bonnes pratiques d'hygiène et de sécurité. Refermer après chaque prélèvement. Ne pas transvaser dans un récipient alimentaire. Ne jamais mélanger avec un autre produit d'entretien.
[flam]Mettre à la terre les récipients lors de transvasements de plus de cinq litres.
@7.2 Stockage
Garder dans l'emballage d'origine, debout, à l'abri du gel et du soleil, entre + 5 et + 30 °C, hors de portée des enfants.
*Matériaux déconseillés|{incompat}
*Durée de conservation|24 mois dans l'emballage non ouvert.
@7.3 Utilisations particulières
Voir la notice technique du produit.
@8.2 Contrôles de l'exposition et protections individuelles
*Mesures d'ordre technique|Bonne aération générale ; extraction locale lors d'un travail prolongé.
*Mains|{gloves}
*Yeux|Lunettes étanches aux projections (EN 166).
*Voies respiratoires|{filter}
*Hygiène|Se laver les mains avant les pauses. Enlever aussitôt les vêtements imprégnés.
@10.1 Réactivité
Pas de réactivité particulière connue.
@10.2 Stabilité
Stable dans les conditions normales.
@10.3 Réactions dangereuses
{reactions}
@10.4 Conditions à éviter
Chaleur, rayonnement solaire direct, gel.
@10.5 Matières incompatibles
{incompat}
@10.6 Produits de décomposition
{decomp}
@12.1 Toxicité
Pas d'essai sur le mélange. Voir les données par composant ci-dessus.
@12.2 Persistance et dégradabilité
Facilement biodégradable selon les données des composants organiques (OCDE 301).
@12.3 Bioaccumulation
Faible potentiel.
@12.4 Mobilité
Miscible à l'eau, mobile dans le sol.
@12.5 PBT, vPvB
Non concerné.
@12.6 Perturbation endocrinienne
Non concerné.
@12.7 Autres effets
En grande quantité, modifie le pH des eaux et peut nuire aux poissons.
@13.1 Traitement des déchets
*Produit|Déchet dangereux à confier à une entreprise autorisée. Code indicatif : {waste}.
*Emballage|Emballages rincés : recyclage selon les consignes locales.
@15.1 Réglementation
Règlements (CE) 1907/2006 et 1272/2008 ; règlement (CE) 648/2004 relatif aux détergents ; Code de l'environnement, nomenclature des installations classées.
{national}
@15.2 Évaluation de la sécurité chimique
Non réalisée.
"""
