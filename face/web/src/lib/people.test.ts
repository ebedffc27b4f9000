import { describe, expect, it } from "vitest";
import { ago, code_of, fingerprint_lines, qr_image } from "./people";

describe("a fingerprint", () => {
  it("stands in lines of eight pairs and loses none", () => {
    const print = Array.from({ length: 32 }, (_, i) => i.toString(16).padStart(2, "0").toUpperCase()).join(":");
    const lines = fingerprint_lines(print);
    expect(lines.map((l) => l.split(":").length)).toEqual([8, 8, 8, 8]);
    expect(lines.join(":")).toBe(print);
  });
});

describe("how long ago", () => {
  const now = Date.parse("2026-03-10T12:00:00Z");
  it("is told in the coarsest true words", () => {
    expect(ago("2026-03-10T11:57:00Z", now)).toBe("just now");
    expect(ago("2026-03-10T11:20:00Z", now)).toBe("40 min ago");
    expect(ago("2026-03-09T13:00:00Z", now)).toBe("23 h ago");
    expect(ago("2026-03-01T12:00:00Z", now)).toBe("9 days ago");
  });
  it("does not run ahead of a clock that is behind", () => expect(ago("2026-03-10T12:30:00Z", now)).toBe("just now"));
});

describe("a code", () => {
  it("is 22 letters behind the hash, and nothing else is one", () => {
    expect(code_of("#qXFRb3_cEXZmJRIgUbvuDQ")).toBe("qXFRb3_cEXZmJRIgUbvuDQ");
    for (const bad of ["", "#", "#short", "#qXFRb3_cEXZmJRIgUbvuDQx", "#<script>qXFRb3_cEXZmJ>"]) expect(code_of(bad)).toBe("");
  });
});

describe("a picture of a code", () => {
  it("can stand in an address", () => expect(qr_image('<svg fill="#fff"/>')).toBe("data:image/svg+xml;charset=utf-8,%3Csvg%20fill%3D%22%23fff%22%2F%3E"));
});
