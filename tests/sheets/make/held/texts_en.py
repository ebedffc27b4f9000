"""English prose, one set as written in the United Kingdom, one as in the United States; the mark-up is that of texts_fr."""

UK = """
@4.1 Description of first aid measures
*General|Show this sheet to the doctor in attendance. Move out of the dangerous area. First-aiders should protect themselves.
*If inhaled|Bring into fresh air. If breathing is difficult, give oxygen through trained staff. Seek advice if symptoms last.
*In case of skin contact|Take off soaked clothing and shoes at once. Wash off with soap and plenty of water.
[corr]Burns must be seen by a doctor without delay; untreated wounds heal slowly and badly.
*In case of eye contact|Hold the lids apart and flush with clean water for at least fifteen minutes. See an eye specialist.
*If swallowed|Rinse the mouth. Give small sips of water if the person is fully awake. Do not induce vomiting. Seek medical help.
@4.2 Most important symptoms and effects, both acute and delayed
[flam]Headache, light-headedness, tiredness and, at very high concentrations, unconsciousness.
[corr]Pain, blistering, deep damage to tissue. In the eye, loss of sight is possible.
[mild]None known; brief stinging of the eyes may occur.
Repeated contact may remove the natural fat from the skin.
@4.3 Indication of any immediate medical attention and special treatment needed
Treat according to symptoms.
@5.1 Extinguishing media
*Suitable|Alcohol-resistant foam, dry powder, carbon dioxide, water fog.
*Unsuitable|High volume water jet.
@5.2 Special hazards arising from the substance or mixture
Hazardous combustion products: {decomp}.
[flam]Vapour is heavier than air, may travel along floors and flash back from a distant source of ignition.
[aero]Cans may rocket or burst in a fire.
@5.3 Advice for firefighters
Wear self-contained breathing apparatus and full protective clothing. Keep run-off out of drains.
@6.1 Personal precautions, protective equipment and emergency procedures
Keep people away. Ventilate the room. Wear the equipment of section 8. Beware of slippery floors.
[flam]Put out naked flames, switch off heaters and anything that sparks.
@6.2 Environmental precautions
Do not let the product enter drains, watercourses or soil. Tell the authorities if it does.
@6.3 Methods and material for containment and cleaning up
Soak up with sand, earth or another inert absorbent and shovel into a closable, labelled container. Wash the place with water and a little detergent.
@6.4 Reference to other sections
For disposal see section 13; for protective equipment see section 8.
@7.1 Precautions for safe handling
Handle in line with good occupational hygiene. Do not eat, drink or smoke at the bench. Avoid contact with skin and eyes. Close the container after use.
[flam]Take precautions against static discharge. Use only non-sparking tools. Rags soaked with the product belong into a closed metal bin.
@7.2 Conditions for safe storage, including any incompatibilities
Keep in the original container, tightly closed, upright, in a cool and well-ventilated place between 5 and 25 °C. Keep away from food and feed.
*Do not store together with|{incompat}
*Storage class|See local rules.
@7.3 Specific end use(s)
Care and repair of leather; see the technical leaflet.
@8.2 Exposure controls
*Appropriate engineering controls|Good general ventilation; local extraction where large areas are treated. Eye wash bottle at the bench.
*Eye/face protection|Safety glasses with side shields to EN 166.
*Hand protection|{gloves}
*Skin and body protection|Overall or apron, closed shoes.
*Respiratory protection|{filter}
*Environmental exposure controls|Do not empty into drains.
@10.1 Reactivity
No dangerous reactions known under conditions of normal use.
@10.2 Chemical stability
Stable under the storage conditions given in section 7.
@10.3 Possibility of hazardous reactions
{reactions}
@10.4 Conditions to avoid
Heat, frost, direct sunlight.
@10.5 Incompatible materials
{incompat}
@10.6 Hazardous decomposition products
None if stored and used as intended. In fire: {decomp}.
@12.1 Toxicity
The mixture has not been tested. The statement is derived from the properties of its components.
@12.2 Persistence and degradability
The surfactants comply with the biodegradability criteria of retained Regulation (EC) No 648/2004.
@12.3 Bioaccumulative potential
Not expected to build up in organisms.
@12.4 Mobility in soil
No data.
@12.5 Results of PBT and vPvB assessment
No component at 0.1 % or above is considered PBT or vPvB.
@12.6 Endocrine disrupting properties
No component at 0.1 % or above is listed.
@12.7 Other adverse effects
None known.
@13.1 Waste treatment methods
*Product|Hand over to a licensed contractor. Do not mix with other waste. European waste code, for guidance: {waste}.
*Packaging|Empty completely, then recycle; packaging that can't be cleaned is disposed of like the product.
@15.1 Safety, health and environmental regulations/legislation specific for the substance or mixture
GB CLP Regulation; Control of Substances Hazardous to Health Regulations 2002 (COSHH); EH40/2005 Workplace exposure limits (fourth edition).
{national}
@15.2 Chemical safety assessment
No assessment has been carried out for this mixture.
"""

US = """
@4 Inhalation
Remove to fresh air. If breathing is labored, trained personnel should give oxygen. If not breathing, give artificial respiration. Get medical attention.
@4 Skin contact
Wash skin with soap and plenty of water for 15 minutes. Launder clothing before reuse. Discard leather items that cannot be decontaminated.
@4 Eye contact
Flush with large amounts of tepid water for at least 15 minutes, lifting eyelids occasionally. Remove contact lenses after the first five minutes. Get medical attention.
@4 Ingestion
Do not induce vomiting. Never give anything by mouth to an unconscious person. Call a physician or poison control center.
@4 Most important symptoms/effects, acute and delayed
[corr]Burning pain, redness, blisters, permanent eye damage.
[flam]Headache, dizziness, dryness of the throat.
Defatting of the skin on prolonged contact.
@4 Notes to physician
Treat symptomatically. Keep victim under observation.
@5 Suitable extinguishing media
Alcohol foam, carbon dioxide, dry chemical, water spray.
@5 Unsuitable extinguishing media
Do not use a solid stream of water.
@5 Specific hazards arising from the chemical
Combustion may yield {decomp}.
[flam]Vapors may travel a considerable distance to a source of ignition and flash back. Containers may rupture when heated above 120 °F.
@5 Special protective equipment and precautions for firefighters
NIOSH-approved self-contained breathing apparatus operated in positive pressure mode, full turnout gear.
@6 Personal precautions, protective equipment and emergency procedures
Evacuate unneeded personnel. Ventilate area. Wear equipment listed in Section 8.
[flam]Eliminate all ignition sources. Ground all equipment.
@6 Methods and materials for containment and cleaning up
Dike the spill. Absorb with clay, vermiculite or another inert material and place in a closed drum for disposal. Keep out of sewers, storm drains and soil. Report releases as required by 40 CFR 302.
@7 Precautions for safe handling
Use with adequate ventilation. Avoid contact with eyes, skin and clothing. Wash hands before eating. Keep container closed. Emptied containers retain residue and may be dangerous.
[flam]Bond and ground containers when transferring. Do not cut, weld or drill empty drums.
@7 Conditions for safe storage, including any incompatibilities
Store between 40 °F and 90 °F in a dry, well-ventilated place. Keep from freezing. Keep away from {incompat}
@8 Appropriate engineering controls
General room ventilation of six or more air changes an hour; local exhaust where mists are formed.
@8 Individual protection measures
*Eye/face protection|Chemical splash goggles meeting ANSI Z87.1.
*Skin protection|{gloves}
*Respiratory protection|{filter}
*General hygiene|Eyewash station and quick-drench shower should be within 10 seconds of the work area.
@10 Reactivity
Not reactive under normal conditions of storage and use.
@10 Chemical stability
Stable.
@10 Possibility of hazardous reactions
{reactions}
@10 Conditions to avoid
Temperatures above 104 °F, freezing, incompatible materials.
@10 Incompatible materials
{incompat}
@10 Hazardous decomposition products
{decomp}
@12 Ecotoxicity
This material has not been tested for environmental effects. Keep out of surface water.
@12 Persistence and degradability
Components are expected to biodegrade.
@12 Bioaccumulative potential
Low.
@12 Mobility in soil
Not determined.
@12 Other adverse effects
None reported.
@13 Disposal methods
Dispose of in accordance with local, state and federal regulations. RCRA status of the unused product: {waste}. Do not flush to sewer. Do not reuse empty containers.
@15 US federal regulations
*TSCA|All components are listed as active on the TSCA inventory or are exempt.
*SARA 302|No chemicals are subject to the reporting requirements of this section.
*SARA 311/312|See the hazards named in Section 2.
*CERCLA|Reportable quantity: see 40 CFR 302.4 for each component.
@15 US state regulations
{national}
@15 International inventories
Canada DSL: components listed or exempt. Australia AIIC: not reviewed.
"""
