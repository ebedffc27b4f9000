import { describe, expect, it } from "vitest";
import { device, draft, keep_draft, put_in, refuse, refused_one, take_out, waiting, type Box } from "./outbox";
import { uuid7 } from "./uuid";

class Drawer implements Box {
  kept = new Map<string, string>();
  getItem = (k: string) => this.kept.get(k) ?? null;
  setItem = (k: string, v: string) => void this.kept.set(k, v);
  removeItem = (k: string) => void this.kept.delete(k);
}
const entry = (id: string) => ({ id, did: "condition" as const });

describe("the outbox", () => {
  it("holds what was entered until the program has it, across a reload", () => {
    const box = new Drawer();
    put_in(box, "p", [entry("a"), entry("b")]);
    put_in(box, "q", [entry("c")]);
    expect(waiting(box, "p").map((w) => w.entry.id)).toEqual(["a", "b"]);
    take_out(box, "p", ["a"]);
    expect(waiting(box, "p").map((w) => w.entry.id)).toEqual(["b"]);
    take_out(box, "p", ["b"]);
    expect([...box.kept.keys()]).toEqual(["outbox:q"]);
  });
  it("keeps what was refused, with the reason", () => {
    const box = new Drawer();
    put_in(box, "p", [entry("a"), entry("b")]);
    refuse(box, "p", "b", "no such panel");
    expect(waiting(box, "p")).toEqual([{ entry: entry("a") }, { entry: entry("b"), refused: "no such panel" }]);
  });
  it("starts empty from what cannot be read", () => {
    const box = new Drawer();
    box.setItem("outbox:p", "{broken");
    expect(waiting(box, "p")).toEqual([]);
    box.setItem("outbox:p", '{"a": 1}');
    expect(waiting(box, "p")).toEqual([]);
  });
  it("knows which entry a refusal is about", () => {
    expect(refused_one("entries[1].condition.term", [entry("a"), entry("b")])).toBe("b");
    expect(refused_one("piece", [entry("a")])).toBe("");
  });
  it("names this device once", () => {
    const box = new Drawer();
    expect(device(box, () => "one")).toBe("one");
    expect(device(box, () => "two")).toBe("one");
  });
  it("keeps a draft while it says something", () => {
    const box = new Drawer();
    keep_draft(box, "p", { note: "half a sen", term: "" });
    expect(draft(box, "p")).toEqual({ note: "half a sen" });
    keep_draft(box, "p", { note: "" });
    expect(box.kept.size).toBe(0);
  });
});

describe("an id", () => {
  it("is a UUID of version 7 that begins with its time", () => {
    const id = uuid7(0x0190aaaabbbb, new Uint8Array(10).fill(255));
    expect(id).toBe("0190aaaa-bbbb-7fff-bfff-ffffffffffff");
    expect(uuid7()).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  });
});
