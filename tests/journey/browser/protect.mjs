// Journeys of the safety card: sheet to card in one sitting, mould, a closed car.
//
//     node protect.mjs BINARY|http://ADDRESS [PATTERN]      PICTURES=FOLDER also keeps screenshots
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { begin_walk, pc, phone, plain_spaces } from "./walk.mjs";

const walk = await begin_walk("protect");
const { base, journey, open, context_of, open_to_all, shot } = walk;
const sheet = new URL("../../sheets/open/en-lacquer-02.pdf", import.meta.url);
const main_text = async (page) => plain_spaces(await page.locator("main").innerText());
const answered = (page) => page.locator(".answer:not(.stale) #safety-sentence").waitFor();
const pick = (page, group, name) => page.getByRole("group", { name: group, exact: true }).getByRole("button", { name, exact: true }).click();
const fill = async (page, id, text) => {
  await page.locator(`#s-${id}`).fill(text);
  await page.locator(`#s-${id}`).press("Tab");
};

await journey("sheet, facts with places, judgement and safety card in one sitting", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/shelf/sheets");
  await page.locator('input[type="file"]').setInputFiles({ name: "lacquer.pdf", mimeType: "application/pdf", buffer: readFileSync(sheet) });
  await page.waitForURL(/\/shelf\/sheets\/[0-9a-f]{64}$/);
  await page.getByText("Flash point").first().waitFor({ state: "attached" });
  await page.getByRole("button", { name: "Put it on the shelf" }).click();
  const judge = await page.getByRole("link", { name: "Judge it" }).getAttribute("href");
  const judged = await walk.post("/api/judge", { liquid: { id: new URL(judge, base).searchParams.get("liquid") }, leather: { leather_class: "pigmented_furniture", tannage: "chrome" } });
  assert.equal(judged.status, 200);
  await page.getByRole("link", { name: "Safety card", exact: true }).click();
  await page.waitForURL(/\/safety\?l0_id=/);
  await pick(page, "Where?", "room in a customer’s home");
  await fill(page, "l0_ml", "60");
  await pick(page, "How does it go on?", "brush");
  await answered(page);
  assert.match(await main_text(page), /First: who lives there\?/);
  for (const who of ["Somebody is pregnant", "Small children", "Cats, dogs or other pets", "Caged birds", "Allergies", "Somebody sleeps in that room"]) await pick(page, who, "No");
  await pick(page, "Asthma, lung illness or a weak immune system", "Yes");
  await page.locator(".answer:not(.stale) .parts").getByText("Somebody has asthma").waitFor();
  const said = await main_text(page);
  assert.match(said, /the sheet names nitrile, 0\.4 mm, over 480 min/);
  assert.match(said, /filter of type A-P2/);
  assert.match(said, /20 01 29/);
  for (const name of ["acetone", "n-butyl acetate", "ethanol", "1-methoxy-2-propanol"]) assert.ok(said.includes(name), name);
  await shot(page, "safety-360");
  await open_to_all(page, "a safety card at 360");
  for (const [button, file] of [["The card on paper (PDF)", "safety-card.pdf"], ["The note for the household (PDF)", "note-for-the-home.pdf"]]) {
    const saved = page.waitForEvent("download");
    await page.getByRole("button", { name: button }).click();
    const got = await saved;
    assert.equal(got.suggestedFilename(), file);
    assert.ok(readFileSync(await got.path(), "latin1").startsWith("%PDF-"));
  }
  const address = page.url();
  await page.goto(`${base}/`);
  await page.goto(address);
  await answered(page);
  await context.close();
});

await journey("mould: health first, the sensitive out, and over a square metre it is referred", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/safety?job=mould&place=home_room");
  await answered(page);
  assert.match(await main_text(page), /First question: does anybody there have asthma/);
  await pick(page, "Asthma, lung illness or a weak immune system", "Yes");
  await fill(page, "area", "0,3");
  await fill(page, "humidity", "82");
  await page.locator(".answer:not(.stale)").getByText("mould is seen after about 7 days").first().waitFor();
  const said = await main_text(page);
  for (const wanted of [/out before the piece is touched/, /FFP3 or P100/, /Goggles without air holes/, /under 60 %/, /HEPA/, /No chlorine bleach/, /Nothing here says that the air is free of mould/]) assert.match(said, wanted);
  assert.doesNotMatch(said, /kill(s|ed)? 100/i);
  await shot(page, "safety-mould-360");
  await open_to_all(page, "a mould card at 360");
  await fill(page, "area", "1,5");
  await page.locator(".answer:not(.stale)").getByRole("heading", { name: /not for the workshop/ }).waitFor();
  await shot(page, "safety-mould-stop-360");
  await context.close();
});

await journey("a closed car: over the limit with the doors shut, under it with the doors open", async () => {
  const gel = (await walk.get("/api/liquids?limit=200")).items;
  const mine = await walk.post("/api/liquids", { name: "Degreasing alcohol of the journey", family: "solvent", ingredients: [{ name: "2-propanol", cas: "67-63-0", content_pct: 99 }] });
  assert.ok(gel.length > 0);
  const context = await context_of(pc, { colorScheme: "dark" });
  const page = await open(context, `/safety?l0_id=${mine.body.id}&l0_ml=10&l0_min=15&l0_on=swab&place=closed_car`);
  await answered(page);
  let said = await main_text(page);
  assert.match(said, /passes the number of a limit/);
  assert.match(said, /3\.8 ml reach the number of its limit/);
  assert.match(said, /All doors open and extraction before the lid comes off/);
  assert.match(said, /tin with a tight lid/);
  assert.match(said, /Airbag, seat belt, heater and seat sensor/);
  await shot(page, "safety-car-1440-dark");
  await open_to_all(page, "a closed car at 1440, dark");
  // The shop's own limit outranks the tables; taken back, the table counts again.
  await page.getByText(/^Limits of your own authority/).click();
  await page.locator("#o-value").fill("200");
  await page.getByRole("button", { name: "Add the limit" }).click();
  await page.getByRole("alert").filter({ hasText: /./ }).first().waitFor();
  for (const [id, text] of [["substance", "2-propanol"], ["cas", "67-63-0"], ["value", "200"], ["jurisdiction", "Here"], ["source", "List of the journey"], ["dated", "2026-01-31"]]) {
    await page.locator(`#o-${id}`).fill(text);
    await page.locator(`#o-${id}`).press("Tab");
  }
  await page.getByRole("button", { name: "Add the limit" }).click();
  await page.locator(".answer:not(.stale)").getByText("200 ppm, Here").waitFor();
  await shot(page, "safety-own-limit-1440-dark");
  await page.getByRole("button", { name: "Take back the limit of 2-propanol" }).click();
  await page.locator(".answer:not(.stale)").getByText("400 ppm, United States, OSHA").waitFor();
  await page.getByText("How it rises and falls").click();
  assert.ok((await page.locator("details table tbody tr").count()) >= 13, "the curve has its numbers");
  await pick(page, "Where?", "car, all doors open");
  await fill(page, "l0_ml", "2");
  await page.locator(".answer:not(.stale)").getByText("stays under the limits").first().waitFor();
  await page.getByRole("button", { name: "Undo" }).click();
  await fill(page, "l0_ml", "some");
  await page.locator("#s-l0_ml[aria-invalid=true]").waitFor();
  await context.close();
});

await walk.end();
