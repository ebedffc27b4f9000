import { describe, expect, it } from "vitest";
import { address_of, build, field_of, form_of_leather, form_of_liquid, form_of_use, from_search, liquid_of, readings, row_count, shown_defaults, step_of, to_search } from "./request";
import { use_defaults } from "../wire";



describe("the request", () => {
  it("holds two ids and nothing else while the rest is left alone", () => {
    expect(build({ people: "well", liquid: "a", leather: "b" }).request).toEqual({ liquid: { id: "a" }, leather: { id: "b" } });
  });
  it("waits until there is a liquid and a leather", () => {
    expect(build({ liquid: "a" }).request).toBe(null);
    expect(build({ leather: "a" }).request).toBe(null);
    expect(build({ liquid: "own", leather: "b" }).request).toBe(null);
  });
  it("says what it met", () => {
    expect(build({ liquid: "a", leather: "b", meets: "c,d" }).request?.meets).toEqual(["c", "d"]);
    expect(build({ liquid: "a", leather: "b", meets: "" }).request).not.toHaveProperty("meets");
  });
  it("sends only what was changed", () => {
    expect(build({ liquid: "a", leather: "b", dwell: "10 min", area: "5 hands", rinse: "2", dilution: "1:10" }).request?.use).toEqual({
      dose: { area_cm2: 875 },
      parts_water: 10,
      dwell_s: 600,
      rinse: { passes: 2 },
    });
  });
  it("lets a typed unit choose the kind of amount", () => {
    expect(build({ liquid: "a", leather: "b", count: "10 g" }).request?.use?.dose).toEqual({ amount: "grams", count: 10 });
    expect(build({ liquid: "a", leather: "b", count: "3", amount: "cloth_wipes" }).request?.use?.dose).toEqual({ amount: "cloth_wipes", count: 3 });
  });
  it("takes an own liquid by its rows", () => {
    const got = build({ liquid: "own", leather: "b", own_name: "bucket", i0_name: "soda", i0_cas: "497-19-8", i0_pct: "1,5", stated_ph: "11" });
    expect(got.problems).toEqual({});
    expect(got.request?.liquid).toEqual({ name: "bucket", label_known: true, ingredients: [{ name: "soda", cas: "497-19-8", content_pct: 1.5 }], stated_ph: 11 });
  });
  it("keeps a bottle without a label apart from water", () => {
    expect(build({ liquid: "unlabelled", leather: "b" }).request?.liquid).toMatchObject({ label_known: false });
  });
  it("takes readings of an own leather with their units", () => {
    expect(build({ liquid: "a", leather: "own", class: "aniline", thickness: "1,1 mm", surface_ph: "pH 4,4" }).request?.leather).toEqual({ name: "own leather", leather_class: "aniline", thickness_mm: 1.1, surface_ph: 4.4 });
  });
  it("names the field of what cannot be read and asks nothing", () => {
    const got = build({ liquid: "own", leather: "b", i0_name: "soda", i0_pct: "much", dwell: "long", repeats: "1.5" });
    expect(Object.keys(got.problems).sort()).toEqual(["dwell", "i0_pct", "repeats"]);
    expect(got.request).toBe(null);
  });
  it("reads every default it shows without a problem", () => {
    expect(build({ liquid: "a", leather: "b", ...shown_defaults }).problems).toEqual({});
  });
});

describe("how entries were read", () => {
  it("is said in plain units where it differs from what was typed", () => {
    expect(readings({ dilution: "1:10", count: "2 tsp", area: "5 hands", dwell: "1,5", wiped: "40", i0_pct: "2,5", surface_ph: "4,4" })).toEqual({
      dilution: "1 part product, 10 parts water",
      count: "10 grams",
      area: "875 cm²",
      dwell: "90 s",
      i0_pct: "2.5 %",
      surface_ph: "pH 4.4",
    });
  });
  it("counts grams on a square metre out for the area beside them", () => {
    expect(readings({ count: "50 g/m2", area: "2000 cm2" }).count).toBe("10 grams");
    expect(build({ liquid: "a", leather: "b", count: "50 g/m²" }).request?.use?.dose).toEqual({ amount: "grams", count: 4.5 });
    expect(Object.keys(build({ liquid: "a", leather: "b", count: "50 g/m2", area: "large" }).problems).sort()).toEqual(["area", "count"]);
  });
  it("is not repeated where nothing was read into it", () => {
    expect(readings({ count: "5", dwell: "10 min", thickness: "1.1 mm", surface_ph: "4.4", dilution: "neat", wiped: "50 %" })).toEqual({});
    expect(readings({ count: "some", area: "", dwell: "long" })).toEqual({});
  });
});

describe("records of the shelf", () => {
  const liquid = { id: "l1", name: "Bucket", family: "wash", ingredients: [{ name: "soda", cas: "497-19-8", content_pct: 1.5, molality_mol_kg: null, content_to_pct: null }], stated_ph: 11, label_known: true, standing: "estimate" as const, note: "", stated_ph_to: null, read_ph: null, read_ph_tenfold: null };
  it("come back into the form as they were", () => {
    expect(liquid_of(form_of_liquid(liquid))).toEqual({ name: "Bucket", family: "wash", label_known: true, ingredients: [{ name: "soda", cas: "497-19-8", content_pct: 1.5 }], stated_ph: 11 });
    const leather = { id: "h1", name: "Stool", leather_class: "aniline", tannage: "chrome", thickness_mm: 1.1, finish_um: null, surface_ph: 4.4, extract_ph: null, shrinkage_c: null, decayed: true, standing: "estimate" as const, note: "", water_drop: "not_done" as const };
    expect(build({ liquid: "a", ...form_of_leather(leather) }).request?.leather).toEqual({ name: "Stool", leather_class: "aniline", tannage: "chrome", thickness_mm: 1.1, surface_ph: 4.4, decayed: true });
  });
});

describe("ranges and readings", () => {
  const shelf = { liquids: [{ id: "l1", name: "Bucket", family: "", ingredients: [{ name: "soda", cas: "", content_pct: 1, molality_mol_kg: null, content_to_pct: 5 }], stated_ph: 10, stated_ph_to: 11, read_ph: null, read_ph_tenfold: null, label_known: true, standing: "estimate" as const, note: "" }], leathers: [{ id: "h1", name: "Stool", leather_class: "aniline", tannage: "chrome", thickness_mm: 1.1, finish_um: null, surface_ph: null, extract_ph: null, shrinkage_c: null, decayed: false, standing: "estimate" as const, note: "", water_drop: "not_done" as const }] };
  it("go out with both ends, and back into the form as they are printed", () => {
    const form = { liquid: "own", leather: "b", i0_name: "soda", i0_pct: "1–5 %", stated_ph: "pH 10,5 to 11", read_ph_tenfold: "9,8" };
    expect(build(form).request?.liquid).toEqual({ name: "own liquid", label_known: true, ingredients: [{ name: "soda", cas: "", content_pct: 1, content_to_pct: 5 }], stated_ph: 10.5, stated_ph_to: 11, read_ph_tenfold: 9.8 });
    expect(form_of_liquid(shelf.liquids[0])).toMatchObject({ i0_pct: "1 to 5", stated_ph: "10 to 11" });
    expect(readings(form)).toMatchObject({ i0_pct: "1 to 5 %", stated_ph: "pH 10.5 to 11", read_ph_tenfold: "pH 9.8" });
  });
  it("go with a record of the shelf, whole and without what it leaves open", () => {
    const got = build({ liquid: "l1", leather: "h1", read_ph: "9.9", water_drop: "under_2_min", surface_ph: "4,2" }, shelf).request;
    expect(got?.liquid).toEqual({ id: "l1", name: "Bucket", ingredients: [{ name: "soda", content_pct: 1, content_to_pct: 5 }], stated_ph: 10, stated_ph_to: 11, label_known: true, standing: "estimate", read_ph: 9.9 });
    expect(got?.leather).toEqual({ id: "h1", name: "Stool", leather_class: "aniline", tannage: "chrome", thickness_mm: 1.1, decayed: false, standing: "estimate", surface_ph: 4.2, water_drop: "under_2_min" });
  });
  it("wait for the shelf, so that no reading is lost", () => {
    expect(build({ liquid: "l1", leather: "h1", read_ph: "9.9" }, { liquids: [], leathers: [] }).request).toBe(null);
    expect(build({ liquid: "l1", leather: "h1" }, { liquids: [], leathers: [] }).request).toEqual({ liquid: { id: "l1" }, leather: { id: "h1" } });
  });
  it("are enough for a bottle without a label", () => {
    expect(build({ liquid: "unlabelled", leather: "b", read_ph: "12" }).request?.liquid).toMatchObject({ label_known: false, read_ph: 12 });
    expect(build({ liquid: "own", leather: "b", read_ph: "8" }).request?.liquid).toMatchObject({ ingredients: [], read_ph: 8 });
  });
  it("have a field each", () => {
    expect(["liquid.read_ph", "liquid.read_ph_tenfold", "liquid.stated_ph_to", "liquid.ingredients[0].content_to_pct", "leather.water_drop"].map((w) => field_of(w))).toEqual(["read_ph", "read_ph_tenfold", "stated_ph", "i0_pct", "water_drop"]);
    expect(["read_ph", "water_drop", "shrinkage"].map(step_of)).toEqual(["liquid", "leather", "leather"]);
  });
});

describe("a kept question", () => {
  const use = { ...use_defaults, parts_water: 2.5, dwell_s: 90, dose: { amount: "grams" as const, count: 5, area_cm2: 350 }, rinse: { ...use_defaults.rinse, passes: 2 }, rest_h: 72 };
  it("comes back as what differs from the defaults, and reads the same", () => {
    const form = form_of_use(use);
    expect(form).toEqual({ dilution: "1:2.5", amount: "grams", count: "5", area: "350 cm²", dwell: "90 s", rinse: "2", rest: "72 h" });
    expect(build({ liquid: "a", leather: "b", ...form }).request?.use).toEqual({ parts_water: 2.5, dose: { amount: "grams", count: 5, area_cm2: 350 }, dwell_s: 90, rinse: { passes: 2 }, rest_h: 72 });
    expect(form_of_use(use_defaults)).toEqual({});
  });
  it("has no address when the form cannot hold all of it", () => {
    const liquid = { id: "l1", name: "", family: "", ingredients: [], stated_ph: null, label_known: true, standing: "estimate" as const, note: "", stated_ph_to: null, read_ph: null, read_ph_tenfold: null };
    const leather = { id: "h1", name: "", leather_class: "", tannage: "", thickness_mm: null, finish_um: null, surface_ph: null, extract_ph: null, shrinkage_c: null, decayed: false, standing: "estimate" as const, note: "", water_drop: "not_done" as const };
    expect(address_of({ liquid, leather, use: use_defaults })).toBe("/judge?liquid=l1&leather=h1");
    expect(address_of({ liquid: { ...liquid, read_ph: 9.5 }, leather: { ...leather, water_drop: "under_10_s" }, use: use_defaults })).toBe("/judge?liquid=l1&read_ph=9.5&leather=h1&water_drop=under_10_s");
    expect(address_of({ liquid, leather, use: { ...use, rinse: { ...use.rinse, water_g_m2: 80 } } })).toBe("");
    expect(address_of({ liquid: { ...liquid, id: "", ingredients: [{ name: "x", cas: "", content_pct: null, molality_mol_kg: 1, content_to_pct: null }] }, leather, use })).toBe("");
  });
});

describe("problems of the server", () => {
  it("stand at the field they mean", () => {
    expect(field_of("liquid.ingredients[1].cas")).toBe("i1_cas");
    expect(field_of("liquid.ingredients[0].content_pct")).toBe("i0_pct");
    expect(field_of("liquid.ingredients[1].cas", { i0_name: "soda", i2_name: "soap" })).toBe("i2_cas");
    expect(field_of("/use/dose/area_cm2")).toBe("area");
    expect(field_of("use.dwell_s")).toBe("dwell");
    expect(field_of("leather.surface_ph")).toBe("surface_ph");
    expect(field_of("liquid.id")).toBe("liquid");
    expect(field_of("somewhere")).toBe("");
  });
  it("open the step that the field stands in", () => {
    expect(["i1_cas", "stated_ph", "class", "surface_ph", "area", "dwell"].map(step_of)).toEqual(["liquid", "liquid", "leather", "leather", "use", "use"]);
  });
});

describe("the address", () => {
  it("holds the whole form and gives it back", () => {
    const form = { people: "well", liquid: "own", i0_name: "Soda & water", i0_pct: "1,5 %", i1_name: "x", area: "900 cm²" };
    expect(from_search(`?${to_search(form)}`)).toEqual(form);
    expect(row_count(form)).toBe(2);
  });
});
