import { describe, expect, it } from "vitest";
import { band_text, scale_of, span_text } from "./band";

const band = (median: number, half: number, unit: string) => ({ median, low_50: median, high_50: median, low_90: median - half, high_90: median + half, unit });
describe("a band in words", () => {
  it("has the digits that its width can carry", () => {
    expect(band_text(band(12.4321, 3, "mmol/m²"))).toBe("12 mmol/m², nine in ten between 9 and 15 mmol/m²");
    expect(band_text(band(7.634, 0.4, "pH"))).toBe("pH 7.6, nine in ten between 7.2 and 8.0");
    expect(span_text(band(7.634, 0.4, "pH"))).toBe("pH 7.2 to 8.0");
    expect(span_text(band(0.5, 0.12, "mL"))).toBe("0.38 to 0.62 mL");
  });
  it("says when nothing was computed, and gives a bare figure where there is no width", () => {
    expect(band_text(band(0, 0, ""))).toBe("not computed");
    expect(band_text(band(4, 0, "pH"))).toBe("pH 4.0");
  });
  it("lies on a scale that holds all of it", () => {
    const at = scale_of([2, 4, 6]);
    expect([at(2), at(4), at(6)].map((v) => v.toFixed(3))).toEqual(["0.037", "0.500", "0.963"]);
    expect(scale_of([3, 3])(3)).toBe(0.5);
  });
});
