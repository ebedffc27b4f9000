import { describe, expect, it } from "vitest";
import { use_defaults } from "../wire";
import { amount_words } from "../words";
import { dials, stop_of, ways, whole_use } from "./dials";
import { build } from "./request";

describe("what can be moved", () => {
  it("stands where the form stands, and what a stop writes is read back as the same figure", () => {
    const given = build({ liquid: "a", leather: "b", count: "20 g", dwell: "10 min", wiped: "80", dilution: "1:10", rinse: "2" }).request?.use;
    expect(dials(given, amount_words).map((d) => [d.key, d.value])).toEqual([["count", 20], ["dwell", 600], ["wiped", 80], ["dilution", 10], ["rinse", 2]]);
    for (const d of dials({}, amount_words))
      for (const s of d.stops) {
        const use = build({ liquid: "a", leather: "b", [d.key]: d.write(s) }).request?.use;
        expect(dials(use, amount_words).find((e) => e.key === d.key)?.value, `${d.key} ${s}`).toBe(s);
      }
  });
  it("has rising stops that hold every default", () => {
    for (const d of dials({}, amount_words)) {
      expect([...d.stops].sort((a, b) => a - b)).toEqual(d.stops);
      expect(d.stops).toContain(d.value);
    }
  });
  it("shows the nearest stop for a figure between two", () => {
    expect([0, 6, 1e9].map((v) => stop_of([1, 5, 10], v))).toEqual([0, 1, 2]);
  });
});

describe("what if", () => {
  it("changes one thing of the use, and its form asks the same", () => {
    const given = { dwell_s: 900, rinse: { water_g_m2: 40 } };
    for (const w of ways) {
      const whole = whole_use(w.change(given));
      const before = whole_use(given);
      const changed = Object.keys(before).filter((k) => JSON.stringify(before[k as keyof typeof before]) !== JSON.stringify(whole[k as keyof typeof whole]));
      expect(changed, w.name).toHaveLength(1);
      const by_form = whole_use(build({ liquid: "a", leather: "b", ...w.form }).request?.use);
      expect(by_form).toEqual(whole_use(w.change({})));
    }
    expect(whole_use(ways[0].change(given)).rinse).toEqual({ ...use_defaults.rinse, water_g_m2: 40, passes: 2 });
  });
});
