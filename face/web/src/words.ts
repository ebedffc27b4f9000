// The words people read for the words of the wire.
import type { Amount, Grade, Harm, Standing, WaterDrop } from "./wire";

/** A grade where it stands alone: says of what, in the words of the program. */
export const grade_words: Record<Grade, string> = {
  stays_within: "No limit passed",
  comes_back: "Past a limit for a while",
  lasting: "Past a limit, lasting",
  deep: "Past a limit, deep down",
  unknown: "Not known",
  stop: "Stop",
};
/** Of a kind of harm, whose grade is that of the middle case. */
export const harm_words = (h: Pick<Harm, "grade" | "chance_1">): string => grade_words[h.grade] + (h.grade === "stays_within" && (h.chance_1 ?? 0) > 0 ? " in most cases" : "");
/** Order on the scale, mildest first, as the server lists them. */
export const grade_scale: Grade[] = ["stays_within", "comes_back", "lasting", "deep"];
/** The steps of the scale, drawn as a stair. */
export const step_words = ["within", "comes back", "lasts", "goes deep"];

/** Place on the scale, in words. */
export function grade_place(grade: Grade): string {
  return ["mildest of four", "second mildest of four", "second gravest of four", "gravest of four"][grade_scale.indexOf(grade)] ?? "not on the scale";
}

export const standing_words: Record<Standing, string> = {
  published: "published",
  common_practice: "trade custom, no source",
  from_memory: "recalled, not re-read",
  derived: "worked out",
  estimate: "estimate",
  measured: "measured",
  invented: "invented for the demo",
};
/** A shape per standing, filled the more it can bear. */
export const standing_marks: Record<Standing, string> = {
  published: "●",
  measured: "◆",
  derived: "◐",
  from_memory: "◔",
  common_practice: "○",
  estimate: "◌",
  invented: "✕",
};
export const amount_words: Record<Amount, string> = { sprays: "sprays", cloth_wipes: "wipes", grams: "grams" };

export const layer_words: Record<string, string> = { film: "liquid on top", finish: "finish", grain: "grain", corium: "corium" };

/** How long a drop of clean water stood before the leather darkened. */
export const water_drop_words: Record<WaterDrop, string> = {
  not_done: "not tried",
  under_10_s: "dark within 10 s",
  under_2_min: "dark within 2 min",
  under_10_min: "dark within 10 min",
  not_at_all: "not dark after 10 min",
};

/** A wire word nobody has given better words for yet. */
export function readable(key: string): string {
  return key.replace(/_/g, " ");
}
