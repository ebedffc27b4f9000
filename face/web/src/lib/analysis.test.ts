import { describe, expect, it } from "vitest";
import { analysis_defaults, build_analysis, field_of_analysis, step_of_analysis } from "./analysis";

describe("the question what a liquid is", () => {
  it("sends only what was said", () => {
    expect(build_analysis({ people: "well", liquid: "a" }).request).toEqual({ liquid: { id: "a" } });
  });
  it("reads every entry in the units of the wire", () => {
    expect(build_analysis({ liquid: "a", dilution: "2:5", hardness: "200", liquid_c: "18,5 °C", air: "open", target: "pH 3,8", meets: "b,c" })).toEqual({
      request: { liquid: { id: "a" }, parts_water: 2.5, hardness_mg_l: 200, liquid_c: 18.5, air: "open", target_ph: 3.8, meets: ["b", "c"] },
      problems: {},
    });
  });
  it("takes a typed liquid, and leaves out what only a judgement asks", () => {
    const got = build_analysis({ liquid: "own", own_name: "Bucket", i0_name: "soda", i0_pct: "1,5", area: "nonsense", surface_ph: "nonsense", dwell: "10 min" });
    expect(got.problems).toEqual({});
    expect(got.request).toEqual({ liquid: { name: "Bucket", label_known: true, ingredients: [{ name: "soda", cas: "", content_pct: 1.5 }] } });
  });
  it("asks nothing while an entry cannot be read, and says so at its field", () => {
    const got = build_analysis({ liquid: "a", liquid_c: "warm", target: "low", dilution: "a lot" });
    expect(got.request).toBe(null);
    expect(Object.keys(got.problems).sort()).toEqual(["dilution", "liquid_c", "target"]);
  });
  it("asks also about what nobody knows; the program says what can be said", () => {
    expect(build_analysis({ liquid: "own", stated_ph: "11" }).request).toEqual({ liquid: { name: "own liquid", label_known: true, ingredients: [], stated_ph: 11 } });
    expect(build_analysis({ liquid: "unlabelled" }).request).toEqual({ liquid: { name: "product without a label", label_known: false, ingredients: [] } });
    expect(build_analysis({ liquid: "own" }).request).toBe(null);
  });
  it("reads every default that it shows without a problem", () => {
    expect(build_analysis({ liquid: "a", ...analysis_defaults })).toEqual({ request: { liquid: { id: "a" }, parts_water: 0, hardness_mg_l: 0, liquid_c: 25, target_ph: 4.5 }, problems: {} });
  });
});

describe("problems of the server", () => {
  it("stand at the field they mean, in the step that holds it", () => {
    expect(["liquid_c", "target_ph", "parts_water", "hardness_mg_l", "meets[0]", "liquid.ingredients[0].cas", "liquid.id", "somewhere"].map((w) => field_of_analysis(w))).toEqual(["liquid_c", "target", "dilution", "hardness", "meets", "i0_cas", "liquid", ""]);
    expect(["liquid_c", "target", "meets", "i0_cas", "liquid"].map(step_of_analysis)).toEqual(["use", "use", "liquid", "liquid", "liquid"]);
  });
});
