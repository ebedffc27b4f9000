import { describe, expect, it } from "vitest";
import { plan } from "../fixtures/bring_back";
import { card_ids, card_of, clock_text, expected_at, finishes, keep_card, kept_card, left_s, moved_on, started, undone } from "./card";
import type { Box } from "./outbox";

const at = (s: number) => new Date(Date.parse("2026-03-04T12:00:00Z") + 1000 * s).toISOString();
const ms = (s: number) => Date.parse(at(s));
const fresh = () => card_of(plan, "c1", at(0));
function box(): Box & { held: Map<string, string> } {
  const held = new Map<string, string>();
  return { held, getItem: (k) => held.get(k) ?? null, setItem: (k, v) => void held.set(k, v), removeItem: (k) => void held.delete(k) };
}

describe("the bench card", () => {
  it("takes the rinse of the way that is recommended", () => expect(fresh().rinse).toEqual({ liquid: "clean-water", name: "Clean water", g_m2: 30, dwell_s: 60, blotted_pct: 60 }));
  it("has a clock by the wall: reloaded, it is as far as the wall says", () => {
    const b = box();
    const second = moved_on(fresh(), at(10), "?a=1");
    expect(left_s(second, ms(20))).toBeNull();
    keep_card(b, started(second, at(20)));
    const again = kept_card(b, "c1");
    expect(again && left_s(again, ms(50))).toBe(30);
    expect(again && left_s(again, ms(500))).toBe(0);
  });
  it("starts no clock where the step has none", () => expect(started(fresh(), at(0)).clock).toBeNull());
  it("finishes a pass with its last step that is no reading, begun when its first was", () => {
    let card = moved_on(fresh(), at(10), "");
    expect(finishes(card)).toBe(0);
    card = moved_on(started(card, at(20)), at(90), "");
    expect(finishes(card)).toBe(1);
    expect(card.begun[1]).toBe(at(20));
    card = moved_on(card, at(120), "");
    expect([card.steps[card.at].reading, finishes(card)]).toEqual([true, 0]);
  });
  it("knows what is expected of the reading that it asks for", () => {
    expect(expected_at(fresh(), 3)?.kind).toBe("surface_ph");
    expect(expected_at(fresh(), 1)).toBeNull();
    const twice = { ...fresh(), steps: [plan.card[3], ...plan.card] };
    expect([expected_at(twice, 0), expected_at(twice, 4)?.kind]).toEqual([null, "surface_ph"]);
  });
  it("gives back step, clock and story when undone", () => {
    const running = started(moved_on(fresh(), at(10), "?a=1"), at(20));
    const on = moved_on(running, at(90), "?a=1&b=2", ["e1"]);
    const back = undone(on);
    expect(back?.card).toEqual(running);
    expect([back?.search, back?.entries]).toEqual(["?a=1&b=2", ["e1"]]);
    expect(undone(fresh())).toBeNull();
  });
  it("takes back what the step that is left had sent, and keeps what the step before had", () => {
    const read = { ...moved_on(fresh(), at(10), ""), sent: ["r1"] };
    const on = { ...moved_on(read, at(20), "?x=1", ["p1"]), sent: ["r2"] };
    expect(undone(on)).toMatchObject({ card: { sent: ["r1"] }, entries: ["p1", "r2"] });
  });
  it("does not run past its end", () => {
    let card = fresh();
    for (let i = 0; i < 9; i++) card = moved_on(card, at(i), "");
    expect(card.at).toBe(plan.card.length);
  });
  it("is kept, the newest twenty of them", () => {
    const b = box();
    for (let i = 0; i < 25; i++) keep_card(b, { ...fresh(), id: `c${i}` });
    expect(card_ids(b)).toHaveLength(20);
    expect([kept_card(b, "c0"), kept_card(b, "c24")?.id]).toEqual([null, "c24"]);
    b.setItem("card:c24", "{");
    expect(kept_card(b, "c24")).toBeNull();
  });
  it("writes its clock as clocks do", () => expect([0, 59, 60, 3599, 3600, 86400].map(clock_text)).toEqual(["0:00", "0:59", "1:00", "59:59", "1:00:00", "24:00:00"]));
});
