// Journey of test spots at phone size: planned mild first, made, read wet and dry, and what came of them at the panel and in judge.
//
//     node spot.mjs BINARY|http://ADDRESS [PATTERN]      PICTURES=FOLDER also keeps screenshots
import assert from "node:assert/strict";
import { begin_walk, pc, phone, plain_spaces } from "./walk.mjs";

const walk = await begin_walk("spot");
const { journey, open, context_of, open_to_all, shot, post, get } = walk;
const sofa = "de300000-0003-7000-8000-000000000000";
const mild = "Mild leather cleaner, demo";
const gel = "Hand gel, demo";
const dish = "Dish liquid, demo";
const address = `/pieces/${sofa}/spots?panel=SC1-top&products=demo_hand_gel,demo_dish,demo_mild`;
const hours_ago = (h) => {
  const t = new Date(Date.now() - h * 3600 * 1000);
  return new Date(t.getTime() - t.getTimezoneOffset() * 60000).toISOString().slice(0, 16);
};
const said = async (page) => plain_spaces(await page.locator("main").innerText());
const product = (page, name) => page.locator("li.product").filter({ has: page.getByRole("heading", { level: 3, name, exact: true }) });
const spot = (page, name) => page.getByRole("article", { name: `Spot of ${name}`, exact: true });
async function pick(form, group, word) {
  await form.getByRole("group", { name: group, exact: true }).getByRole("button", { name: word, exact: true }).click();
}
/** Taps every sign that a pass needs; `ring` as given. */
async function read_signs(form, ring) {
  await pick(form, "Colour on the white cloth", "5");
  await pick(form, "Change of colour", "4/5");
  await pick(form, "Ring or edge", ring);
  await pick(form, "Tack", "tissue comes off clean");
  await pick(form, "Bend", "as the untouched leather");
  await pick(form, "Finish", "whole");
  await pick(form, "Dry rub", "4/5");
}
async function make(page, name, hours) {
  const card = product(page, name);
  await card.getByRole("button", { name: /^Hidden spot made/ }).click();
  await card.getByRole("group", { name: "Place" }).getByRole("button", { name: "Underside border" }).click();
  await card.getByLabel("When, if not now").fill(hours_ago(hours));
  await card.getByRole("button", { name: "Keep this spot" }).click();
  await spot(page, name).waitFor();
}
async function read(page, name, { stage, ring }) {
  const card = spot(page, name);
  await card.getByRole("button", { name: "Read this spot" }).click();
  await pick(card, "Wet or dry", stage);
  await read_signs(card, ring);
  await card.getByRole("button", { name: "Keep this reading" }).click();
  await card.getByRole("button", { name: "Keep this reading" }).waitFor({ state: "detached" });
}

await journey("spots of three products on a class: planned mild first, judged dry only, one passes and one fails", async () => {
  const made_of = await post("/api/inspect", { piece: sofa, entries: [{ did: "panels", facts: { panels: ["SC1-top", "SC2-top"], material: "pigmented_furniture", tannage: "chrome", wear: "worn", exposure: "seat" } }] });
  assert.equal(made_of.status, 200);
  const context = await context_of(phone);
  const page = await open(context, address);
  await product(page, mild).waitFor();
  const order = await page.locator("li.product h3").allInnerTexts();
  assert.deepEqual(order, [mild, dish, gel], "mild comes first");
  assert.match(plain_spaces(await product(page, gel).innerText()), /First read what is milder to the end/);
  assert.equal(await page.getByRole("button", { name: /^Hidden spot made/ }).count(), 0, "no spot before the owner agreed");
  await shot(page, "spot-plan-360");
  await open_to_all(page, "the plan at 360");

  await page.getByLabel("Test spots may be made in hidden places.").check();
  await page.getByLabel("Name", { exact: true }).fill("Owner");
  await page.getByRole("button", { name: "Keep it as told" }).click();
  await product(page, mild).getByRole("button", { name: /^Hidden spot made/ }).waitFor();

  await product(page, mild).getByRole("button", { name: /^Card for the bench/ }).click();
  await page.getByText("Swab, barely wet").waitFor();
  await shot(page, "spot-card-360", false);
  await page.getByRole("button", { name: "Close the card" }).click();

  await make(page, mild, 100);
  assert.match(await said(page), /Read it now/);
  await read(page, mild, { stage: "still wet", ring: "none in either light" });
  assert.match(plain_spaces(await spot(page, mild).innerText()), /Kept, not judged\. It was read wet/);
  await read(page, mild, { stage: "dry", ring: "none in either light" });
  assert.match(plain_spaces(await spot(page, mild).innerText()), /Passes/);
  assert.match(plain_spaces(await product(page, mild).innerText()), /proves almost nothing: up to 95 %/);

  await make(page, dish, 200);
  await read(page, dish, { stage: "dry", ring: "seen from a metre" });
  assert.match(plain_spaces(await spot(page, dish).innerText()), /Fails: ring or edge/);
  assert.match(plain_spaces(await product(page, dish).innerText()), /Not on this class/);
  assert.match(plain_spaces(await product(page, gel).innerText()), /Something milder failed here/);
  await shot(page, "spot-read-360");
  await open_to_all(page, "spots that were read, at 360");
  await context.close();

  const desk = await context_of(pc);
  const piece = await open(desk, `/pieces/${sofa}`);
  await piece.locator('path[data-panel="SC2-top"]').first().click();
  await piece.getByText("Test spots of its class").waitFor();
  assert.match(await said(piece), /Dish liquid, demo, hidden on .*Fails: ring or edge/);
  await shot(piece, "spot-piece-1440");
  const stands = await get(`/api/pieces/${sofa}`);
  const marks = Object.fromEntries(stands.spots.map((s) => [s.product, s.mark]));
  assert.deepEqual(marks, { [mild]: "pass", [dish]: "fail" });
  const leather = stands.panels.find((p) => p.code === "SC2-top").leather;
  const judged = await post("/api/judge", { liquid: { id: "demo_dish" }, leather, members: 32, piece: sofa, panel: "SC2-top" });
  assert.match(judged.body.sentence, /^A test spot of it failed/);
  const rates = await get("/api/spots/rates");
  assert.equal(rates.items.find((r) => r.product === dish).failed, 1);
  const all = await open(desk, "/spots");
  await all.getByText(dish).first().waitFor();
  await shot(all, "spots-1440");
  await open_to_all(all, "all spots at 1440");
  await desk.close();
});

await walk.end();
