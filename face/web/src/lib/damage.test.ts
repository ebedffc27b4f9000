import { expect, test } from "vitest";
import type { SeparatingTest } from "../api.gen";
import { advice_of, diagnosis_of, question_of, with_sign } from "./damage";

test("a sign stands in one list only", () => {
  const found = with_sign({ not: "oil,tacky", piece: "p" }, "oil", "there");
  expect(found).toMatchObject({ there: "oil", not: "tacky", piece: "p" });
  expect(with_sign(found, "oil", "").there).toBe("");
});
test("what was passed over is neither found nor not found", () => {
  const asked = diagnosis_of({ there: "oil", not: "tacky", passed: "darker", panel: "AT-L", piece: "p" });
  expect(asked.saw).toEqual([{ sign: "oil", saw: "there" }, { sign: "tacky", saw: "not_there" }]);
  expect(asked.panels).toEqual(["AT-L"]);
});
test("the next question is the first that was not passed over", () => {
  const tests = [{ signs: ["a", "b"], questions: ["A?", "B?"] }, { signs: ["c"], questions: ["C?"] }] as SeparatingTest[];
  expect(question_of(tests, {})?.question).toBe("A?");
  expect(question_of(tests, { passed: "a,b" })?.question).toBe("C?");
  expect(question_of(tests, { passed: "a,b,c" })).toBeNull();
});
test("what is said of the place goes along, with a comma too; nonsense names its field", () => {
  expect(advice_of({ there: "oil" }).panels).toBeUndefined();
  expect(advice_of({ thickness_mm: "1,2", weak_seam_mm: "0.9", airbag: "yes", flex: "fold" }).panels).toEqual([{ name: "The damage", thickness_mm: 1.2, weak_seam_mm: 0.9, airbag: true, flex: "fold" }]);
  expect(() => advice_of({ repair_h: "long" })).toThrow("Repair, hours");
});
