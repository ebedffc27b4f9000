import { describe, expect, it } from "vitest";
import { parse_lab } from "./lab";

const two = [
  { l: 38.2, a: 4.6, b: 9.8 },
  { l: 38.5, a: 4.4, b: -0.5 },
];
const cgats = `CGATS.17
ORIGINATOR "bench"
NUMBER_OF_FIELDS 5
BEGIN_DATA_FORMAT
SAMPLE_ID SAMPLE_NAME LAB_L LAB_A LAB_B
END_DATA_FORMAT
NUMBER_OF_SETS 2
BEGIN_DATA
1 "left arm" 38.2 4.6 9.8
2 "right" 38.5 4.4 -0.5
END_DATA
`;

describe("colour readings", () => {
  it("are read as they are typed, pasted or exported", () => {
    for (const text of ["38.2 4.6 9.8\n38.5 4.4 -0.5", "38,2; 4,6; 9,8\n38,5; 4,4; -0,5", "L*,a*,b*\n38.2,4.6,9.8\n38.5,4.4,-0.5", cgats, cgats.replace(/\n/g, "\r\n")])
      expect(parse_lab(text)).toEqual({ ok: true, value: two });
  });
  it("are refused with what to do", () => {
    for (const [text, says] of [["", "one place a line"], ["38.2 4.6", "holds 2 numbers"], ["38.2 4.6 x", "not a number"], [cgats.replace("LAB_B", "XYZ_X"), "Let the instrument save"], [cgats.replace("38.2", "none"), "no three numbers"], ["1 2 3\n".repeat(201), "More than 200"]]) {
      const read = parse_lab(text);
      expect(read.ok ? "" : read.why).toContain(says);
    }
  });
});
