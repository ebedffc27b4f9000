// Journeys of the shelf: a product and its bottle, used until it is to be ordered, found by its address, tables out and in, a new sheet.
//
//     node shelf.mjs BINARY|http://ADDRESS [PATTERN]      PICTURES=FOLDER also keeps screenshots
import assert from "node:assert/strict";
import { begin_walk, pc, phone } from "./walk.mjs";

const walk = await begin_walk("shelf");
const { base, journey, open, context_of, open_to_all, shot, get, post } = walk;
const name = "Grundreinigungskonzentrat der Reise";
let product = "";

/** Says one fact on the page of a product. */
async function say(page, what, value) {
  const row = page.locator(".facts > li").filter({ hasText: what }).first();
  const closed = page.locator("details", { has: row });
  if ((await closed.count()) && !(await closed.first().evaluate((d) => d.open))) await closed.first().locator("summary").first().click();
  await row.getByRole("button").click();
  const form = page.locator(".facts form");
  await form.getByLabel(what).fill(value);
  await form.getByRole("button", { name: "Keep it" }).click();
  await form.waitFor({ state: "detached" });
}

await journey("a product and a bottle are added on a phone, opened, and used until it is to be ordered", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/shelf");
  await page.getByRole("heading", { name: "To see to" }).waitFor();
  await shot(page, "shelf-360");
  await open_to_all(page, "the shelf at 360");
  await page.getByRole("button", { name: "Add a product" }).click();
  await page.getByLabel("What is it called?").fill(name);
  await page.getByRole("button", { name: "Keep it" }).click();
  await page.getByRole("heading", { level: 1, name }).waitFor();
  product = new URL(page.url()).pathname.split("/").pop();
  await page.getByRole("button", { name: "A bottle came" }).click();
  await page.getByLabel("How much, ml").fill("some");
  await page.getByRole("button", { name: "Keep it" }).click();
  await page.getByRole("alert").filter({ hasText: "as a number" }).waitFor();
  await page.getByLabel("How much, ml").fill("1000");
  await page.getByLabel("Code on the bottle").fill("R-1");
  await page.getByLabel("Date printed on it").fill("2099-03");
  await page.getByRole("button", { name: "Keep it" }).click();
  await page.getByRole("heading", { name: /^Take lot R-1 next/ }).waitFor();
  await say(page, "Used in a usual week", "200");
  await say(page, "Give or take", "0");
  await say(page, "From order to arrival", "14");
  await page.getByText("Order when 400 ml are left").waitFor();
  await page.getByRole("button", { name: "I opened it" }).click();
  await page.getByText("Opened now.").waitFor();
  const used = page.locator(".next");
  await used.getByLabel("How much, ml").fill("599");
  await used.getByRole("button", { name: "Used so much" }).click();
  await page.getByText("401 ml left, ", { exact: false }).or(page.getByText("401 ml left.")).first().waitFor();
  assert.equal(await page.getByText("Order now:").count(), 0, "one above the point nothing is to be ordered");
  await used.getByLabel("How much, ml").fill("1");
  await used.getByRole("button", { name: "Used so much" }).click();
  await page.getByText("Order now:").waitFor();
  await shot(page, "product-360");
  await open_to_all(page, "a product at 360");
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByText("Order now:").waitFor({ state: "detached" });
  await context.close();
});

await journey("the address on a label, in the search field, opens the product", async () => {
  const context = await context_of(pc);
  const page = await open(context, "/shelf");
  await page.getByRole("heading", { name: "To see to" }).waitFor();
  await shot(page, "shelf-1440");
  await open_to_all(page, "the shelf at 1440");
  await page.locator('input[type="search"]').fill(`https://werkstatt.local:8443/shelf/${product}`);
  await page.locator('input[type="search"]').press("Enter");
  await page.getByRole("heading", { level: 1, name }).waitFor();
  await page.goto(`${base}/shelf`);
  await page.locator('input[type="search"]').fill("r-1");
  await page.locator('input[type="search"]').press("Enter");
  await page.getByRole("heading", { level: 1, name }).waitFor();
  const label = await fetch(`${base}/api/shelf/labels.pdf?name=${product}&paper=letter`);
  assert.equal(label.status, 200);
  assert.equal(Buffer.from(await label.arrayBuffer()).subarray(0, 5).toString(), "%PDF-");
  await context.close();
});

await journey("tables go out, come back unchanged, and what would change is shown first", async () => {
  const context = await context_of(pc);
  const page = await open(context, "/shelf/tables");
  const lots = await fetch(`${base}/api/shelf/lots.csv`).then((r) => r.text());
  const pick = (text) => page.locator('input[type="file"]').setInputFiles({ name: "lots.csv", mimeType: "text/csv", buffer: Buffer.from(text) });
  await pick(lots);
  await page.getByText("Nothing to take in").waitFor();
  const row = lots.split("\r\n").find((l) => l.includes("R-1"));
  const fields = row.split(",");
  assert.equal(fields[6], "401");
  fields[6] = "300";
  await pick(`${lots.split("\r\n")[0]}\r\n${fields.join(",")}\r\n`);
  await page.getByText("This would happen").waitFor();
  assert.equal((await get(`/api/shelf/${product}`)).in_hand, 401, "a trial changes nothing");
  await shot(page, "tables-1440");
  await open_to_all(page, "tables");
  await page.getByRole("button", { name: "Take it in" }).click();
  await page.getByText("Taken in: ").waitFor();
  assert.equal((await get(`/api/shelf/${product}`)).in_hand, 300);
  for (const table of ["products", "lots"]) {
    const text = await fetch(`${base}/api/shelf/${table}.csv`).then((r) => r.text());
    const again = await post("/api/shelf/import", { text, take: true });
    assert.equal(again.body.same, text.trim().split("\r\n").length - 1, `${table}: every line comes back as it went`);
    assert.deepEqual([again.body.fresh, again.body.changed, again.body.refused], [0, 0, 0]);
  }
  const bad = await post("/api/shelf/import", { text: "name,minimum\r\nGood,1\r\nBad,lots\r\n", take: true });
  assert.equal(bad.body.taken, false);
  assert.deepEqual([bad.body.lines[1].line, bad.body.lines[1].column], [3, "minimum"]);
  await context.close();
});

await journey("a new revision of a sheet warns differently, and who was told is written down", async () => {
  const shelf = await get("/api/shelf?limit=200");
  const demo = shelf.to_see.find((t) => t.kind === "tell_people");
  assert.ok(demo, "the demo has a product whose sheet changed");
  const context = await context_of(phone);
  const page = await open(context, `/shelf/${demo.product}`);
  await page.getByText("The signal word was Danger, now Warning.").waitFor();
  await page.getByText(/New warning: H319/).waitFor();
  await page.getByText(/No longer warned of: H318/).waitFor();
  await shot(page, "product-sheet-360");
  await open_to_all(page, "a product with a changed sheet");
  await page.getByLabel("Somebody else was told").fill("Ada");
  await page.getByRole("button", { name: "Write it down" }).click();
  await page.getByText(/^Ada, told /).waitFor();
  await page.getByText("Everybody was told.").waitFor();
  assert.ok(!(await get("/api/shelf?limit=200")).to_see.some((t) => t.kind === "tell_people"));
  await page.goto(base);
  await page.getByRole("heading", { name: "On the shelf, to see to" }).waitFor();
  await shot(page, "today-360");
  await open_to_all(page, "today with the shelf");
  await context.close();
});

await walk.end();
