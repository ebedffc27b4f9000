import { describe, expect, it } from "vitest";
import { name_of, outside, ranges, takes } from "./ranges";
import { field_of, shown_defaults } from "./request";

describe("entries outside their range", () => {
  it("are all named, with what the field takes and its unit", () => {
    expect(outside({ liquid: "a", leather: "own", class: "aniline", thickness: "9", area: "0.5 cm2", dwell: "2 days", air_c: "60 °C", wiped: "50 %" })).toEqual({
      thickness: "Give 0.3 to 6 mm; 9 mm is outside.",
      area: "Give 1 to 100\u202f000 cm²; 0.5 cm² is outside.",
      dwell: "Give 1 s to 24 h; 2 days is outside.",
      air_c: "Give 5 to 40 °C; 60 °C is outside.",
    });
  });
  it("are named beside entries that cannot be read at all", () => {
    expect(Object.keys(outside({ liquid: "own", leather: "b", i0_name: "soda", i0_pct: "120 %", i1_name: "salt", i1_pct: "much", stated_ph: "pH 19", humidity: "99", dwell: "long" })).sort()).toEqual(["humidity", "i0_pct", "stated_ph"]);
  });
  it("are none among the defaults and in an empty form", () => {
    expect(outside({})).toEqual({});
    expect(outside({ liquid: "a", leather: "b", ...shown_defaults })).toEqual({});
  });
});

describe("the names of fields", () => {
  it("are words, for every field that the program can refuse", () => {
    for (const [field, r] of Object.entries(ranges)) {
      expect(field_of(r.path)).toBe(field);
      expect(name_of(field)).toMatch(/^[A-Zp]/);
      expect(takes(field)).toMatch(/ to /);
    }
    expect(name_of("i1_cas")).toBe("Ingredient 2, CAS number");
    expect(takes("i1_cas")).toBe("");
    expect(takes("i0_pct")).toBe("0 to 100 %");
  });
});
