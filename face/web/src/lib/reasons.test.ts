import { describe, expect, it } from "vitest";
import type { Reason } from "../wire";
import { sort_reasons } from "./reasons";

const reason = (kind: string, weight: string): Reason => ({ kind, weight, sentence: `${kind}.`, basis: { rule: "", source: "", locator: "", standing: "invented", inputs: "" } });

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
