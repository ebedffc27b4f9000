import { describe, expect, it } from "vitest";
import { chance_text, in_words, parts_of, pct } from "./chance";

describe("a chance in words", () => {
  it("counts in tenths, and never says none or all of what is neither", () => {
    expect([0, 0.004, 0.02, 0.06, 0.12, 0.5, 0.71, 0.94, 0.96, 0.999, 1].map(in_words)).toEqual([
      "next to none", "next to none", "fewer than 1 in 20", "about 1 in 10", "about 1 in 10", "about 5 in 10", "about 7 in 10", "about 9 in 10", "more than 19 in 20", "practically all", "practically all",
    ]);
  });
  it("stands beside its figure", () => {
    expect(chance_text(0.71)).toBe("about 7 in 10 (71 %)");
    expect([0, 0.0004, 0.004, 0.0951, 0.9949, 0.9996, 1].map(pct)).toEqual(["0 %", "under 0.1 %", "0.4 %", "10 %", "99.5 %", "over 99.9 %", "100 %"]);
  });
  it("fills one bar, with what lasts inside what is passed", () => {
    for (const [p, l] of [[0.9, 0.3], [1, 1], [0, 0], [0.2, 0.5], [1.2, -1]]) {
      const b = parts_of(p, l);
      expect(b.lasting + b.back + b.within).toBeCloseTo(1, 12);
      expect(Math.min(b.lasting, b.back, b.within)).toBeGreaterThanOrEqual(0);
    }
    expect(parts_of(0.9, 0.3).back).toBeCloseTo(0.6, 12);
  });
});
