import { describe, expect, it } from "vitest";
import { answered, given, keep_told, request_of, tapped, told_of } from "./call";
import type { Box } from "./outbox";
import { from_search, to_search, type Form } from "./request";

function box(): Box & { size: () => number } {
  const held = new Map<string, string>();
  return { size: () => held.size, getItem: (k) => held.get(k) ?? null, setItem: (k, v) => void held.set(k, v), removeItem: (k) => void held.delete(k) };
}
const none = { choices: [], number_1: null, unit: "", text: "" };

describe("a call in the address", () => {
  const form = answered(answered(answered({ caller: "Ms B" }, { ...none, question: "people", choices: ["none"] }), { ...none, question: "dose", number_1: 40, unit: "ml", text: "half a bottle" }), { ...none, question: "wet", choices: ["dont_know"] });
  it("comes back as it was said", () => {
    expect(given(from_search(to_search(form).toString()))).toEqual([
      { ...none, question: "people", choices: ["none"] },
      { ...none, question: "dose", number_1: 40, unit: "ml", text: "half a bottle" },
      { ...none, question: "wet", choices: ["dont_know"] },
    ]);
  });
  it("is asked with what was said and nothing else", () => {
    expect(request_of({ ...form, may: "vinegar,oil", call: "c1" }, [])).toEqual({
      caller: "Ms B",
      answers: [{ question: "people", choices: ["none"] }, { question: "dose", number_1: 40, unit: "ml", text: "half a bottle" }, { question: "wet", choices: ["dont_know"] }],
      may_i: ["vinegar", "oil"],
    });
  });
  it("can be answered otherwise and taken back, question by question", () => {
    const other = answered(form, { ...none, question: "wet", choices: ["yes"] });
    expect(given(other).find((g) => g.question === "wet")?.choices).toEqual(["yes"]);
    expect(given(answered(other, { ...none, question: "dose" })).map((g) => g.question)).toEqual(["people", "wet"]);
  });
  it("begins with nothing", () => expect(request_of({} as Form, [])).toEqual({ answers: [] }));
});
describe("taps", () => {
  it("give one choice where one is asked for, and again none", () => {
    expect(tapped({ several: false }, ["a"], "b")).toEqual(["b"]);
    expect(tapped({ several: false }, ["b"], "b")).toEqual([]);
  });
  it("never put “don't know” beside anything else", () => {
    expect(tapped({ several: true }, ["a", "b"], "dont_know")).toEqual(["dont_know"]);
    expect(tapped({ several: true }, ["dont_know"], "a")).toEqual(["a"]);
    expect(tapped({ several: true }, ["a"], "b")).toEqual(["a", "b"]);
    expect(tapped({ several: true }, ["none"], "a")).toEqual(["a"]);
    expect(tapped({ several: true }, ["a", "b"], "none")).toEqual(["none"]);
  });
});
describe("what was told", () => {
  it("keeps its times, of the last fifty calls", () => {
    const b = box();
    for (let i = 0; i < 60; i++) keep_told(b, `c${i}`, [{ key: "blot", at: "2026-03-04T12:00:00Z" }]);
    expect(told_of(b, "c59")).toEqual([{ key: "blot", at: "2026-03-04T12:00:00Z" }]);
    expect([told_of(b, "c0"), told_of(b, "")]).toEqual([[], []]);
    expect(b.size()).toBe(51);
  });
});
