import { describe, expect, it } from "vitest";
import { answer } from "../fixtures/judgement";
import type { Profile } from "../wire";
import { stack_layers } from "./ruler";
import { leather_top_um, spread, stations, worst_moment } from "./section";

const layers = [
  { name: "finish", top_um: 0, bottom_um: 20 },
  { name: "grain", top_um: 20, bottom_um: 320 },
  { name: "corium", top_um: 320, bottom_um: 1220 },
];
const profile = (ph: number[][]): Profile => ({ ...answer.profile, layers, depth_um: [5, 15, 25, 100, 900], time_s: ph.map((_, i) => i * 10), ph });

describe("depth", () => {
  it("counts from the top of the leather, below the finish", () => {
    expect(leather_top_um(layers)).toBe(20);
    expect(leather_top_um(layers.slice(1).map((l) => ({ ...l, top_um: l.top_um - 20, bottom_um: l.bottom_um - 20 })))).toBe(0);
    const said = stations(stack_layers(layers, 50, 380), [5, 15, 25, 100, 900], false, 20);
    expect(said.map((s) => s.said)).toEqual(["finish", "top", "240 µm", "480 µm", "795 µm", "1.14 mm"]);
    expect(said[1].um).toBe(25);
  });
  it("labels the top of the grain whatever the view", () => {
    for (const near of [true, false])
      for (const cut of [layers, layers.slice(1)]) expect(stations(stack_layers(cut, 0, 380), [25, 100], near, 20).filter((s) => s.said === "top")).toHaveLength(1);
  });
});

describe("the worst moment", () => {
  it("is when the leather is farthest from how it began, not the finish", () => {
    expect(worst_moment(profile([[4, 4, 4, 4, 4], [12, 11, 5, 4, 4], [9, 9, 8, 5, 4], [6, 6, 6, 6, 4]]))).toEqual({ index: 2, shift: 4 });
    expect(worst_moment(profile([[4, 4, 4, 4, 4], [2, 2, 2.5, 4, 4], [3, 3, 3, 3, 4]])).index).toBe(1);
  });
  it("keeps the first of equals and says when nothing moves", () => {
    expect(worst_moment(profile([[4, 4, 4, 4, 4], [6, 6, 6, 4, 4], [6, 6, 6, 4, 4]])).index).toBe(1);
    expect(worst_moment(profile([[4, 4, 4, 4, 4], [4, 4, 4, 4, 4]]))).toEqual({ index: 0, shift: 0 });
  });
});

describe("labels", () => {
  it("are moved apart, keep their order and stay inside", () => {
    for (const at of [[5, 6, 7, 300], [370, 372, 379], [0, 190, 379], [10, 50, 90], []]) {
      const got = spread(at, 32, 10, 360);
      got.forEach((y, i) => {
        expect(y).toBeGreaterThanOrEqual(10);
        expect(y).toBeLessThanOrEqual(360);
        if (i) expect(y - got[i - 1]).toBeGreaterThanOrEqual(32);
      });
    }
    expect(spread([40, 100, 200], 32, 10, 360)).toEqual([40, 100, 200]);
  });
});
