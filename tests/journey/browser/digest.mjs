// Journeys of a data sheet: dropped, looked through, corrected, put on the shelf, judged; and those that are not taken.
//
//     node digest.mjs BINARY|http://ADDRESS [PATTERN]      PICTURES=FOLDER also keeps screenshots
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { begin_walk, pc, phone, plain_spaces } from "./walk.mjs";

const sheets = new URL("../../sheets/open/", import.meta.url);
const truth = (name) => JSON.parse(readFileSync(new URL(`${name}.json`, sheets), "utf8"));
const pdf = (name) => ({ name: `${name}.pdf`, mimeType: "application/pdf", buffer: readFileSync(new URL(`${name}.pdf`, sheets)) });
const walk = await begin_walk("digest");
const { base, journey, open, context_of, open_to_all, shot } = walk;

const pick = (page, file) => page.locator('input[type="file"]').setInputFiles(file);
/** Hands a file to the page by dropping it anywhere. */
async function drop(page, file) {
  const data = await page.evaluateHandle(({ name, bytes }) => {
    const d = new DataTransfer();
    d.items.add(new File([Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0))], name, { type: "application/pdf" }));
    return d;
  }, { name: file.name, bytes: file.buffer.toString("base64") });
  await page.dispatchEvent("main", "drop", { dataTransfer: data });
}
const at_sheet = (page) => page.waitForURL(/\/shelf\/sheets\/[0-9a-f]{64}$/);
/** A button whose name goes on for screen readers: "Correct", then what. */
const button = (where, does, what) => where.getByRole("button", { name: new RegExp(`^(${does})\\s*: ${what}$`) });
const fact = (page, key) => page.locator(`#fact-${key}`);

await journey("a sheet is dropped, and what it says stands there with its places", async () => {
  // The demo's own sheets are put away: this begins with none.
  for (const { id } of (await walk.get("/api/sheets")).items) await walk.post(`/api/sheets/${id}/bin`, {});
  const context = await context_of(pc);
  const page = await open(context, "/shelf/sheets");
  await page.getByText("No sheet is kept yet").waitFor();
  await shot(page, "sheets-empty-1440");
  await open_to_all(page, "no sheets yet");
  const wanted = truth("en-degreaser-01");
  await drop(page, pdf("en-degreaser-01"));
  await at_sheet(page);
  await page.getByRole("heading", { level: 1, name: wanted.product }).waitFor();
  const said = plain_spaces(await page.locator("main").innerText());
  for (const i of wanted.ingredients) assert.ok(said.includes(i.cas), `${i.cas} stands there`);
  // The words of a fact are shown where they stand: the picture of its page has come, and the mark lies inside of the cut.
  const cut = fact(page, "ph").locator("svg");
  await cut.waitFor();
  const drawn = await cut.evaluate(async (svg) => {
    const href = svg.querySelector("image").getAttribute("href");
    const image = new Image();
    image.src = href;
    await image.decode();
    const [x, y, w, h] = svg.getAttribute("viewBox").split(" ").map(Number);
    const mark = svg.querySelector("rect");
    const at = (k) => Number(mark.getAttribute(k));
    return { wide: image.naturalWidth, inside: at("x") >= x - 3 && at("y") >= y - 3 && at("x") + at("width") <= x + w + 3 && at("y") < y + h };
  });
  assert.ok(drawn.wide > 600, `the page is drawn ${drawn.wide} px wide`);
  assert.ok(drawn.inside, "the mark lies in the cut-out");
  await shot(page, "sheet-1440");
  await open_to_all(page, "a sheet at 1440");
  await context.close();
});

await journey("a value is corrected by typing, a measured one outranks it, and both are kept", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/shelf/sheets");
  await pick(page, pdf("en-degreaser-01"));
  await at_sheet(page);
  const ph = fact(page, "ph");
  await button(ph, "Correct|Type it", "pH").click();
  await ph.getByLabel("pH", { exact: true }).fill("very strong");
  await ph.getByRole("button", { name: "Keep it" }).click();
  await ph.getByRole("alert").filter({ hasText: "no number or range" }).waitFor();
  await shot(page, "sheet-correct-360", false);
  await ph.getByLabel("pH", { exact: true }).fill("11,5 to 12");
  await ph.getByRole("button", { name: "Keep it" }).click();
  await ph.getByText("11.5 to 12", { exact: true }).waitFor();
  await ph.getByText("The sheet says:").waitFor();
  await button(ph, "Correct", "pH").click();
  await ph.getByLabel("pH", { exact: true }).fill("12.4");
  await ph.getByLabel("measured in the bottle").check();
  await ph.getByRole("button", { name: "Keep it" }).click();
  await ph.getByText("12.4", { exact: true }).waitFor();
  await open_to_all(page, "a corrected sheet at 360");
  await shot(page, "sheet-360");
  // Taken back, the typed value counts again; taken back too, the sheet does.
  await button(ph, "Correct", "pH").click();
  await ph.getByRole("button", { name: "Back to the sheet" }).click();
  await ph.getByText("11.5 to 12", { exact: true }).waitFor();
  const kept = await walk.get(`/api/sheets/${page.url().split("/").pop()}`);
  assert.equal(kept.corrections.length, 3);
  await context.close();
});

await journey("it is put on the shelf when somebody says so, and judged", async () => {
  const context = await context_of(pc);
  const page = await open(context, "/shelf/sheets");
  await pick(page, pdf("en-degreaser-01"));
  await at_sheet(page);
  const before = (await walk.get("/api/liquids?limit=200")).items.length;
  await page.getByText("A data sheet is not a recipe").waitFor();
  await page.getByRole("button", { name: "Put it on the shelf" }).click();
  await page.getByRole("link", { name: "Judge it" }).waitFor();
  const after = (await walk.get("/api/liquids?limit=200")).items;
  assert.equal(after.length, before + 1);
  const liquid = after.find((l) => l.name === truth("en-degreaser-01").product);
  assert.ok(liquid.note.includes("not a recipe"));
  assert.equal(liquid.ingredients.length, truth("en-degreaser-01").ingredients.length);
  await page.getByRole("link", { name: "Judge it" }).click();
  await page.waitForURL(/\/judge\?liquid=/);
  await page.getByRole("button", { name: "No, everyone is well" }).click();
  await page.getByText(liquid.name).locator("visible=true").first().waitFor();
  // Again is the same liquid, not another.
  await page.goto(`${base}/shelf/sheets`);
  await page.getByRole("link", { name: liquid.name }).click();
  await page.getByRole("button", { name: "Bring the shelf up to date" }).click();
  await page.getByRole("status").filter({ hasText: "is on the shelf" }).waitFor({ state: "attached" });
  assert.equal((await walk.get("/api/liquids?limit=200")).items.length, before + 1);
  await context.close();
});

await journey("what is not taken says why and what to do; a scan is typed from its pages", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/shelf/sheets");
  await pick(page, pdf("open-price-list-47"));
  await page.getByRole("alert").filter({ hasText: "was not taken" }).waitFor();
  await pick(page, { name: "note.txt", mimeType: "text/plain", buffer: Buffer.from("hello") });
  await page.getByRole("alert").filter({ hasText: "This is no PDF" }).waitFor();
  await pick(page, pdf("open-scan-48"));
  await page.getByRole("button", { name: "Keep it and type what it says" }).waitFor();
  await shot(page, "sheets-refused-360");
  await open_to_all(page, "a refused scan at 360");
  await page.getByRole("button", { name: "Keep it and type what it says" }).click();
  await at_sheet(page);
  await page.getByRole("heading", { name: "The pages to type from" }).waitFor();
  await button(fact(page, "product"), "Type it", "Product").click();
  await fact(page, "product").getByLabel("Product", { exact: true }).fill("Old tin of cleaner");
  await fact(page, "product").getByRole("button", { name: "Keep it" }).click();
  await page.getByRole("heading", { level: 1, name: "Old tin of cleaner" }).waitFor();
  await page.getByRole("button", { name: "Add an ingredient" }).click();
  await page.getByLabel("Name", { exact: true }).fill("2-aminoethanol");
  await page.getByLabel("CAS number, if there is one").fill("141-43-6");
  await page.getByRole("button", { name: "Keep it" }).click();
  await page.getByRole("alert").filter({ hasText: "check digit" }).waitFor();
  await shot(page, "sheet-by-hand-360");
  await open_to_all(page, "a sheet typed by hand at 360");
  await context.close();
});

await journey("sheets are put away and taken back, and found by keyboard, in the dark", async () => {
  const context = await context_of(pc, { colorScheme: "dark" });
  const page = await open(context, "/shelf");
  await page.getByRole("link", { name: "Data sheets" }).focus();
  await page.keyboard.press("Enter");
  await page.waitForURL(/\/shelf\/sheets$/);
  const product = truth("en-degreaser-01").product;
  await button(page, "Put away", product).click();
  await page.getByText("is in the bin").waitFor();
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByRole("link", { name: product }).focus();
  await shot(page, "sheets-dark-1440");
  await open_to_all(page, "the sheets in the dark");
  await page.keyboard.press("Enter");
  await at_sheet(page);
  await page.getByRole("heading", { level: 1, name: product }).waitFor();
  await shot(page, "sheet-dark-1440");
  await open_to_all(page, "a sheet in the dark");
  await context.close();
});

await journey("a long sheet in another language fits the narrowest screen, with every place shown", async () => {
  const context = await context_of({ width: 320, height: 700 });
  await context.addInitScript(() => localStorage.setItem("theme", "bench"));
  const page = await open(context, "/shelf/sheets");
  await pick(page, pdf("de-adhesive-07"));
  await at_sheet(page);
  await page.getByRole("button", { name: "Show where each stands" }).click();
  await page.locator(".cut").first().waitFor();
  await open_to_all(page, "a long German sheet at 320");
  await shot(page, "sheet-german-320");
  await context.close();
});

await walk.end();
