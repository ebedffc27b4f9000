// What every page that meets a bottle asks and says first.
import type { Stop } from "../wire";

// First aid in the general words of labels and data sheets; shown before anything is asked or computed.
export const people_first: Stop = {
  kind: "people_affected",
  headline: "Look after the person. The leather can wait.",
  do_now: [
    "Hard to breathe, unconscious, or very ill: call your local emergency number now.",
    "Fumes: get everyone out into fresh air and leave the liquid where it is.",
    "Eyes: rinse at once with plenty of clean water, lids held open, and go on rinsing while you call for help.",
    "Skin: take off wet clothing and rinse with plenty of water.",
    "Swallowed: do not make them vomit. Call a poison centre with the label in your hand.",
    "Then follow section 4 (first aid) of the product’s own data sheet.",
  ],
  never: ["Never pour anything else onto the spill to neutralise it.", "Never go back into fumes to look or to tidy up."],
  basis: { rule: "First aid as labels and data sheets generally give it; the product’s own data sheet and the emergency service come first.", source: "", locator: "", standing: "common_practice", inputs: "your answer on this page" },
};
