import { expect, test } from "vitest";
import { read, rows_of } from "./safety";

const shelf = [{ id: "a" }, { id: "b" }];

test("what was left alone is left out", () => {
  const got = read({ place: "closed_car", l0_id: "a", l0_ml: "10", l0_on: "swab" }, shelf);
  expect(got.wrong).toEqual({});
  expect(got.request?.place).toEqual({ key: "closed_car" });
  expect(got.request?.items).toEqual([{ liquid: { id: "a" }, ml: 10, goes_on: "swab" }]);
  expect(got.request?.household).toEqual({});
});

test("a decimal comma is read, and what cannot be read stands at its field", () => {
  expect(read({ l0_id: "a", l0_ml: "3,8" }, shelf).request?.items?.[0].ml).toBe(3.8);
  const bad = read({ l0_id: "a", l0_ml: "some" }, shelf);
  expect(bad.request).toBeNull();
  expect(Object.keys(bad.wrong)).toEqual(["l0_ml"]);
  expect(Object.keys(read({ l0_id: "a" }, shelf).wrong)).toEqual(["l0_ml"]);
  expect(Object.keys(read({ l0_id: "gone", l0_ml: "1" }, shelf).wrong)).toEqual(["l0_id"]);
});

test("nothing is asked while no liquid is planned, but mould needs none", () => {
  expect(read({}, shelf).request).toBeNull();
  const mould = read({ job: "mould", place: "home_room", area: "0.3", humidity: "82", hidden: "no", asthma: "yes" }, shelf).request;
  expect(mould?.mould).toEqual({ area_m2: 0.3, humidity_pct: 82, hidden: "no" });
  expect(mould?.household).toEqual({ asthma: "yes" });
});

test("rows keep their numbers when one between was taken out", () => {
  expect(rows_of({ l0_id: "a", l2_id: "b" })).toEqual([0, 2]);
  expect(rows_of({})).toEqual([0]);
});
