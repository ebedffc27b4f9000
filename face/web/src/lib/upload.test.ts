import { describe, expect, it } from "vitest";
import { part_bytes, send, sha256_hex, type Line } from "./upload";

/** A program that breaks the line after some parts and stands where it stood. */
class Door implements Line {
  got = new Uint8Array(0);
  whole = 0;
  calls = 0;
  constructor(private breaks: number[] = []) {}
  private at = () => ({ have_bytes: this.got.length, done: this.whole > 0 && this.got.length === this.whole });
  begin = async (_id: string, bytes: number) => {
    this.whole = bytes;
    return this.at();
  };
  append = async (_id: string, offset: number, part: Blob) => {
    this.calls += 1;
    if (this.breaks.includes(this.calls)) throw new Error("cut");
    const bytes = new Uint8Array(await part.arrayBuffer());
    if (offset === this.got.length) this.got = new Uint8Array([...this.got, ...bytes]);
    return this.at();
  };
}
const photo = (size: number) => ({ id: "x", name: "p.jpg", arrival: "file" as const, bytes: new Blob([Uint8Array.from({ length: size }, (_, i) => i % 251)]) });

describe("a photograph on its way", () => {
  it("arrives whole after the line was cut twice, and is not sent from the start again", async () => {
    const p = photo(3 * part_bytes + 17);
    const door = new Door([2, 4]);
    for (let i = 0; i < 2; i++) await expect(send(door, p, () => {})).rejects.toThrow("cut");
    const heard: number[] = [];
    await send(door, p, (n) => heard.push(n));
    expect(heard[0]).toBe(2 * part_bytes);
    expect(door.calls).toBe(6);
    expect(await sha256_hex(new Blob([door.got]))).toBe(await sha256_hex(p.bytes));
  });
  it("is not sent when the program has it", async () => {
    const p = photo(10);
    const door = new Door();
    await send(door, p, () => {});
    const calls = door.calls;
    await send(door, p, () => {});
    expect(door.calls).toBe(calls);
  });
  it("gives up on a door that stands still", async () => {
    const door: Line = { begin: async () => ({ have_bytes: 0, done: false }), append: async () => ({ have_bytes: 0, done: false }) };
    await expect(send(door, photo(5), () => {})).rejects.toThrow("takes no more");
  });
  it("is named by its hash", async () => expect(await sha256_hex(new Blob(["abc"]))).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"));
});
