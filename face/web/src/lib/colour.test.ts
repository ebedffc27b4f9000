import { describe, expect, it } from "vitest";
import { linear_to_oklab, ph_css, ph_linear, ph_oklab, ph_rgb } from "./colour";

const apart = (a: readonly number[], b: readonly number[]) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

// Machado, Oliveira and Fernandes, IEEE Trans. Vis. Comput. Graph. 15 (2009) 1291, matrices at severity 1.0,
// on linear sRGB.
const without: Record<string, number[][]> = {
  protan: [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]],
  deutan: [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.01182, 0.04294, 0.968881]],
  tritan: [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.3039]],
};
const seen = (ph: number, m: number[][]) => linear_to_oklab(m.map((row) => Math.max(0, row[0] * ph_linear(ph)[0] + row[1] * ph_linear(ph)[1] + row[2] * ph_linear(ph)[2])));

describe("the pH colours", () => {
  it("follow the universal indicator: red, orange, yellow, green, blue, violet", () => {
    const hue = (ph: number) => ((Math.atan2(ph_oklab(ph)[2], ph_oklab(ph)[1]) * 180) / Math.PI + 360) % 360;
    expect(hue(1)).toBeLessThan(45);
    expect(hue(4)).toBeGreaterThan(45);
    expect(hue(4)).toBeLessThan(75);
    expect(hue(6)).toBeGreaterThan(85);
    expect(hue(6)).toBeLessThan(115);
    expect(hue(7)).toBeGreaterThan(130);
    expect(hue(7)).toBeLessThan(170);
    expect(hue(10)).toBeGreaterThan(220);
    expect(hue(10)).toBeLessThan(275);
    expect(hue(13)).toBeGreaterThan(280);
  });
  it("turn smoothly: no step of a tenth of a unit is larger than 0.02 in OKLab", () => {
    for (let ph = 0; ph < 14; ph += 0.1) expect(apart(ph_oklab(ph), ph_oklab(ph + 0.1)), `pH ${ph}`).toBeLessThan(0.02);
  });
  it("rise in lightness to pH 6 and fall from there, so that they order without hue on either side", () => {
    for (let ph = 0; ph < 6; ph += 0.5) expect(ph_oklab(ph + 0.5)[0]).toBeGreaterThan(ph_oklab(ph)[0]);
    for (let ph = 6; ph < 14; ph += 0.5) expect(ph_oklab(ph + 0.5)[0]).toBeLessThan(ph_oklab(ph)[0]);
  });
  it("stay in the gamut of the screen, so that nothing is clipped to a neighbour", () => {
    for (let ph = 0; ph <= 14; ph += 0.25) expect(apart(linear_to_oklab(ph_linear(ph)), ph_oklab(ph)), `pH ${ph}`).toBeLessThan(0.05);
  });
  for (const [name, matrix] of Object.entries(without)) {
    it(`keep whole units two or more apart distinct for ${name} vision`, () => {
      for (let a = 2; a <= 12; a++) {
        for (let b = a + 2; b <= 12; b++) expect(apart(seen(a, matrix), seen(b, matrix)), `pH ${a} and ${b}`).toBeGreaterThan(0.05);
      }
    });
  }
  it("hold their ends", () => {
    expect(ph_rgb(-1)).toEqual(ph_rgb(0));
    expect(ph_css(15)).toBe(ph_css(14));
  });
});
