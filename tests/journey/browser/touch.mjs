// Journeys of the chart of the shelf: worked out, broken off, gone on with, one liquid changed, printed; and two that must never meet.
//
//     node touch.mjs BINARY|http://ADDRESS [PATTERN]      PICTURES=FOLDER also keeps screenshots
import assert from "node:assert/strict";
import { begin_walk, pc, phone } from "./walk.mjs";

const walk = await begin_walk("touch");
const { base, journey, open, context_of, open_to_all, shot } = walk;

const post = async (path, body) => {
  const r = await fetch(`${base}${path}`, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) });
  assert.ok(r.ok, `${path}: ${r.status} ${r.ok ? "" : await r.text()}`);
  return r.json();
};
const button = (page, name) => page.getByRole("button", { name, exact: true });

await journey("the chart is worked out on a phone, broken off, and gone on with", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/shelf");
  await page.getByRole("link", { name: "What may touch what" }).click();
  await page.getByText(/are still to do/).waitFor();
  await shot(page, "touch-empty-360");
  await button(page, "Work it out").click();
  await page.getByRole("status").getByText(/First look: .+ on .+/).waitFor();
  await page.getByText(/are preliminary/).waitFor();
  await button(page, "Cancel").click();
  await button(page, "Go on").waitFor();
  const broken = await post("/api/touch", {});
  assert.ok(broken.preliminary + broken.computed > 0, "what was worked out is kept");
  assert.ok(broken.not_computed > 0, "and the rest was not");
  await button(page, "Go on").click();
  await page.getByRole("status").waitFor();
  await button(page, "Cancel").click();
  await button(page, "Go on").waitFor();
  const more = await post("/api/touch", {});
  assert.ok(more.not_computed <= broken.not_computed, "nothing was lost");
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "nothing runs over the edge of a phone");
  await shot(page, "touch-360");
  await open_to_all(page, "the chart on a phone");
  await context.close();
});

await journey("a liquid that changes makes exactly its own row stale, and the wall chart comes as a PDF", async () => {
  // A shelf liquid of the shop itself, worked out on its own row.
  const mine = { name: "Bench cleaner", family: "cleaner", ingredients: [{ name: "citric acid", content_pct: 0.3 }], stated_ph: 2.6 };
  const { id } = await post("/api/liquids", mine);
  const { id: work } = await post("/api/touch/begin", { liquids: [id], classes: ["aniline", "nubuck"], members: 128 });
  for (let n = 0; ; n++) {
    const state = await (await fetch(`${base}/api/running/${work}`)).json();
    if (state.finished) break;
    assert.ok(n < 200, "it ends");
    await new Promise((r) => setTimeout(r, 100));
  }
  const before = await post("/api/touch", { members: 128 });
  await post("/api/liquids", { ...mine, id, ingredients: [{ name: "citric acid", content_pct: 0.6 }] });
  const after = await post("/api/touch", { members: 128 });
  assert.equal(after.stale - before.stale, 2);
  assert.ok(after.cells.filter((c) => c.state === "stale").every((c) => c.liquid === id));
  const context = await context_of(pc);
  const page = await open(context, "/shelf/touch");
  const row = page.locator(`tr[data-liquid="${id}"]`);
  await row.getByText("old: something changed").first().waitFor();
  assert.equal(await page.locator(".desk .cell.stale").count(), 2);
  await shot(page, "touch-1440");
  const coming = page.waitForEvent("download");
  await button(page, "Wall chart (PDF)").click();
  const file = await coming;
  assert.equal(file.suggestedFilename(), "shelf-chart.pdf");
  await open_to_all(page, "the chart at 1440");
  await context.close();
});

await journey("two that must never meet cover the screen", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/shelf/touch");
  await page.getByLabel("First").selectOption("demo_bleach");
  await page.getByLabel("Second").selectOption("demo_vinegar");
  await button(page, "Ask").click();
  const stop = page.getByRole("alertdialog");
  await stop.getByText("Chlorine bleach and an acid give off chlorine gas.").waitFor();
  await page.keyboard.press("Escape");
  assert.ok(await stop.isVisible(), "it does not close by itself");
  await shot(page, "touch-stop-360");
  await stop.getByRole("checkbox").check();
  await stop.getByRole("button", { name: "Back to the choices" }).click();
  await page.getByLabel("First").selectOption("demo_water");
  await button(page, "Ask").click();
  await page.getByText("No meeting that must not be is known between these").waitFor();
  await context.close();
});

await walk.end();
