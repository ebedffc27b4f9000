import { describe, expect, it } from "vitest";
import type { Grade, Reason } from "../wire";
import { answer } from "../fixtures/judgement";
import { advice, sort_reasons } from "./advice";

const reason = (kind: string, weight: string): Reason => ({ kind, weight, sentence: `${kind}.`, basis: { rule: "", source: "", locator: "", standing: "invented", inputs: "" } });

describe("the first line", () => {
  it("says what to do for every grade", () => {
    const said = (["stays_within", "comes_back", "lasting", "deep", "unknown"] as Grade[]).map((g) => advice(g, []));
    expect(said).toEqual(["No limit is passed, used like this", "Passes a limit for a while, then comes back", "Do not use it like this", "Keep it off, it goes deep", "Not known yet: test first"]);
  });
  it("says that it bleaches, whatever the grade and wherever the reason stands", () => {
    for (const g of ["stays_within", "deep", "unknown"] as Grade[]) expect(advice(g, [reason("limit_passed", "decides"), reason("oxidiser", "caution")])).toBe("Keep it off: it bleaches");
  });
  it("does not sound harmless where pH cannot tell", () => {
    expect(advice("stays_within", [reason("solvent", "caution")])).toBe("No limit is passed, used like this; test the finish first");
    expect(advice("comes_back", [reason("more_than_a_pass", "caution")])).toBe("Passes a limit for a while, then comes back; use less at a time");
    expect(advice("comes_back", [reason("liquid_below_floor", "caution")])).toBe("Passes a limit for a while, then comes back; mind dye and metal");
    expect(advice("lasting", [reason("solvent", "caution")])).toBe("Do not use it like this");
    expect(advice("stays_within", [reason("unknown_part", "caution"), reason("solvent", "caution")])).toMatch(/part of it is not known$/);
  });
});

describe("the first line over every kind of harm", () => {
  const harm = (grade: Grade) => ({ ...answer.harms[0], grade });
  it("speaks of no kind of harm by itself", () => {
    for (const g of ["stays_within", "comes_back", "lasting", "deep", "unknown"] as Grade[]) expect(advice(g, [])).not.toMatch(/pH|grain|alkali|acid/);
  });
  it("counts what is not known where it would sound harmless, and only there", () => {
    expect(advice("stays_within", [], [harm("stays_within"), harm("unknown")])).toMatch(/; one thing is not known$/);
    expect(advice("comes_back", [], [harm("unknown"), harm("unknown")])).toMatch(/; 2 things are not known$/);
    expect(advice("deep", [], [harm("unknown")])).toBe("Keep it off, it goes deep");
  });
});

describe("the reasons", () => {
  const many = [reason("a", "decides"), reason("b", "adds"), reason("c", "adds"), reason("d", "adds"), reason("e", "caution"), reason("f", "caution"), reason("g", "note")];
  const kinds = (list: Reason[]) => list.map((r) => r.kind).join("");
  it("fold away no caution, wherever it stands", () => {
    const { because, cautions, rest } = sort_reasons(many);
    expect([kinds(because), kinds(cautions), kinds(rest)]).toEqual(["abc", "ef", "dg"]);
  });
  it("lose none and show none twice", () => {
    for (const list of [many, [...many].reverse(), [], [reason("h", "caution")]]) {
      const s = sort_reasons(list);
      expect([...s.because, ...s.cautions, ...s.rest].map((r) => r.kind).sort()).toEqual(list.map((r) => r.kind).sort());
    }
  });
});
