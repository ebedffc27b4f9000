// What the cut through the hide says beside the picture: where depth counts from, the worst moment, and the labels.
import type { Profile } from "../wire";
import { depth } from "./format";
import type { Drawn } from "./ruler";

const skin = new Set(["film", "finish"]);

/** Where the leather begins in the depths of the profile, which count from the top of the finish. */
export function leather_top_um(layers: Profile["layers"]): number {
  const leather = layers.filter((l) => !skin.has(l.name));
  return leather.length ? Math.min(...leather.map((l) => l.top_um)) : 0;
}

export interface Worst {
  index: number;
  /** Largest shift of pH anywhere in the leather at that moment, against how it began. */
  shift: number;
}
/** The moment at which the leather itself, below its finish, lies farthest from the pH that it began with. */
export function worst_moment(profile: Profile): Worst {
  const top = leather_top_um(profile.layers);
  const from = profile.depth_um.findIndex((d) => d >= top);
  const before = profile.ph[0]?.[profile.depth_um.length - 1] ?? null;
  let worst: Worst = { index: 0, shift: 0 };
  profile.ph.forEach((line, index) => {
    for (let i = Math.max(0, from); i < line.length; i++) {
      const now = line[i];
      if (now === null || before === null) continue;
      const shift = Math.abs(now - before);
      if (shift > worst.shift + 1e-9) worst = { index, shift };
    }
  });
  return worst;
}

export interface Station {
  layer: string;
  /** Where the figure is read, in the depths of the profile. */
  um: number;
  /** Place on the picture. */
  y: number;
  /** Depth as it is written: from the top of the leather down. */
  said: string;
}
/** Depths that get a figure: the middle of the finish, the top of the grain, then down through the leather. */
export function stations(layers: readonly Drawn[], depth_um: readonly number[], near: boolean, zero_um: number): Station[] {
  const out: Station[] = [];
  for (const l of layers) {
    if (l.name === "film") continue;
    if (l.name === "finish") {
      out.push({ layer: l.name, um: (l.top_um + l.bottom_um) / 2, y: (l.top + l.bottom) / 2, said: "finish" });
      continue;
    }
    const tall = l.bottom - l.top;
    if (l.top_um <= zero_um) {
      // The topmost cell of the leather itself: between cells, finish and grain would be mixed.
      const first = depth_um.find((d) => d >= l.top_um && d <= l.bottom_um) ?? l.top_um;
      out.push({ layer: l.name, um: first, y: l.top + 1, said: "top" });
    }
    const parts = l.name === "grain" ? (near ? [0.15, 0.4, 0.9] : [0.8]) : tall < 60 ? [0.5] : [0.2, 0.55, 0.93];
    for (const p of parts) {
      const um = l.top_um + p * (l.bottom_um - l.top_um);
      out.push({ layer: l.name, um, y: l.top + p * tall, said: depth(um - zero_um) });
    }
  }
  return out;
}

/** Moves places apart until each has `gap` to the next, in their order and inside [from, to]; what has room stays put. */
export function spread(places: readonly number[], gap: number, from: number, to: number): number[] {
  const out = [...places];
  for (let i = 0; i < out.length; i++) out[i] = Math.max(out[i], i ? out[i - 1] + gap : from);
  for (let i = out.length - 1; i >= 0; i--) out[i] = Math.min(out[i], i + 1 < out.length ? out[i + 1] - gap : to);
  return out;
}
