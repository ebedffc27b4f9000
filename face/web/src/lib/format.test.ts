import { describe, expect, it } from "vitest";
import { as_text, depth, duration, fixed, glue, places, plain, test_time, times, written } from "./format";

const n = (value: number, plus_minus: number, unit = "pH") => ({ value, plus_minus, unit, standing: "derived" as const, band_from: "" });

describe("figures", () => {
  it("show no digit that the band cannot carry", () => {
    expect(as_text(n(8.6123, 0.2))).toBe("pH 8.6 ± 0.2");
    expect(as_text(n(8.6123, 0.15))).toBe("pH 8.61 ± 0.15");
    expect(as_text(n(1234.5, 60, "mmol/m²"))).toBe("1235 ± 60 mmol/m²");
    expect(as_text(n(0.04567, 0.003, "mol/kg"))).toBe("0.046 ± 0.003 mol/kg");
  });
  it("count the places of a band of one digit, or two when it starts with 1", () => {
    expect([0.5, 0.2, 0.19, 0.1, 0.03, 2, 1, 12, 60].map(places)).toEqual([1, 1, 2, 2, 2, 0, 1, 0, 0]);
  });
  it("keep one decimal of a stated pH limit", () => {
    expect(as_text(n(6, 0))).toBe("pH 6.0");
  });
  it("say so when there is none", () => {
    expect(written(n(NaN, 0.1)).value).toBe("not stated");
    expect(written({ ...n(0, 0.1), value: null as unknown as number }).value).toBe("not stated");
  });
  it("keep a true minus sign and never print minus zero", () => {
    expect(fixed(-2.5, 1)).toBe("\u22122.5");
    expect(fixed(-0.01, 1)).toBe("0.0");
  });
  it("group from five digits on and keep three significant digits without a band", () => {
    expect(fixed(12500, 0)).toBe("12\u202f500");
    expect(plain(0.012345)).toBe("0.0123");
    expect(plain(7)).toBe("7");
    expect(plain(0)).toBe("0");
    expect(plain(0.0000012)).toBe("1.2 × 10⁻⁶");
  });
});

describe("sentences", () => {
  it("say how long a test takes as a workshop would", () => {
    expect([5, 1, 60, 75, 120, 1439].map(test_time)).toEqual(["about 5 minutes", "about 1 minute", "about 1 hour", "about 1 hour 15 minutes", "about 2 hours", "about 23 hours 59 minutes"]);
    expect([1440, 2880].map(test_time)).toEqual(["2 min of work, read after 24 h", "2 min of work, read after 48 h"]);
    expect(test_time(0)).toBe("");
  });
  it("word a factor with one significant digit", () => {
    for (let units = 0.3; units < 14; units += 0.07) {
      const [digits] = /\d[\d\u202f]*/.exec(times(units)) ?? [""];
      expect(digits.replace(/\u202f/g, "").replace(/0+$/, ""), times(units)).toMatch(/^\d$/);
    }
  });
  it("keep a number and its unit together, and nothing else", () => {
    expect(glue("Lye, 0.1 % in water at pH 12.3 for 24 h, 10 µm")).toBe("Lye, 0.1\u00a0% in water at pH\u00a012.3 for 24\u00a0h, 10\u00a0µm");
    expect(glue("in 3 homes and 5 goods")).toBe("in 3 homes and 5 goods");
  });
});

describe("words for sizes", () => {
  it("say times as a workshop does", () => {
    expect([0, 5, 90, 120, 150, 3600, 86400, 172800].map(duration)).toEqual(["0 s", "5 s", "90 s", "2 min", "2.5 min", "60 min", "24 h", "2 days"]);
  });
  it("say depths in micrometres, then millimetres", () => {
    expect([0, 4.2, 140, 1120].map(depth)).toEqual(["0 µm", "4.2 µm", "140 µm", "1.12 mm"]);
  });
  it("turn a pH difference into its factor of ten per unit", () => {
    expect(times(1)).toBe("about 10 times");
    expect(times(-2)).toBe("about 100 times");
    expect(times(0.1)).toBe("about the same");
    expect(times(0.5)).toBe("about 3 times");
    expect(times(6.88)).toBe("about 8 million times");
    expect(times(3.99)).toBe("about 10\u202f000 times");
  });
});
