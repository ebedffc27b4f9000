import { afterEach, describe, expect, it, vi } from "vitest";
import { api, Refused } from "./api";

afterEach(() => vi.unstubAllGlobals());
const answers = (status: number, body: string, type: string) => {
  const asked: [string, RequestInit][] = [];
  vi.stubGlobal("fetch", async (path: string, init: RequestInit) => {
    asked.push([path, init]);
    return new Response(body, { status, headers: { "Content-Type": type } });
  });
  return asked;
};
const question = { liquids: [{ id: "a" }], leathers: [{ id: "b" }], uses: [{ name: "as asked", use: {} }] };

describe("comparing", () => {
  it("sends the whole question and gives the rows back", async () => {
    const asked = answers(200, JSON.stringify({ rows: [{ use: "as asked", rank: 1 }], sentence: "One.", cautions: [], version: "x" }), "application/json");
    expect((await api.compare(question)).rows).toEqual([{ use: "as asked", rank: 1 }]);
    expect(asked[0][0]).toBe("/api/compare");
    expect(JSON.parse(asked[0][1].body as string)).toEqual(question);
  });
  it("takes the table as it comes", async () => {
    const asked = answers(200, "liquid,leather\r\nA,B\r\n", "text/csv");
    expect(await (await api.compare_csv(question)).text()).toBe("liquid,leather\r\nA,B\r\n");
    expect(asked[0][0]).toBe("/api/compare.csv");
    expect(JSON.parse(asked[0][1].body as string)).toEqual(question);
  });
  it("tells a refusal with the field it means, of the table too", async () => {
    answers(400, JSON.stringify({ title: "Input is not valid", detail: "Give at least one liquid.", where: "liquids" }), "application/problem+json");
    for (const ask of [api.compare, api.compare_csv]) {
      const fault = await ask(question).then(() => null, (e: unknown) => e);
      expect(fault).toBeInstanceOf(Refused);
      expect((fault as Refused).problem).toMatchObject({ status: 400, where: "liquids", detail: "Give at least one liquid." });
    }
  });
  it("says that the program does not answer, unless the question was taken back", async () => {
    vi.stubGlobal("fetch", () => Promise.reject(new TypeError("no way")));
    expect(((await api.compare(question).then(() => null, (e: unknown) => e)) as Refused).problem.title).toBe("The program does not answer.");
    const control = new AbortController();
    control.abort();
    expect(await api.compare(question, control.signal).then(() => null, (e: unknown) => e)).toBeInstanceOf(TypeError);
  });
});
