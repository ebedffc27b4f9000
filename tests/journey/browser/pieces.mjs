// Journeys of the piece on the bench: walked at phone size, read at desk size, with tabs and programs that die.
//
//     node pieces.mjs BINARY [PATTERN]      PICTURES=FOLDER also keeps screenshots
import assert from "node:assert/strict";
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { free_port, start } from "./program.mjs";

const require = createRequire(new URL("../../../face/web/package.json", import.meta.url));
const { chromium } = require("playwright-core");
const axe_source = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const [binary, pattern = ""] = process.argv.slice(2);
const pictures = process.env.PICTURES ?? "";
if (pictures) mkdirSync(pictures, { recursive: true });

const data = mkdtempSync(join(tmpdir(), "hidewright-pieces-"));
const port = await free_port();
let program = await start(binary, data, port);
const { base } = program;
const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"] });
const phone = { width: 360, height: 740 };
const pc = { width: 1440, height: 900 };
const complaints = [];

async function context_of(viewport, more = {}) {
  const context = await browser.newContext({ viewport, reducedMotion: "reduce", hasTouch: viewport.width < 500, ...more });
  context.setDefaultTimeout(30000);
  return context;
}
async function open(context, path) {
  const page = await context.newPage();
  page.on("pageerror", (e) => complaints.push(`${path}: ${e.message}`));
  await page.goto(base + path);
  await page.locator("main h1").waitFor();
  return page;
}
const get = (path) => fetch(base + path).then((r) => r.json());
const shot = async (page, name) => pictures && (await page.screenshot({ path: join(pictures, `${name}.png`), fullPage: true }));
const saved = (page) => page.getByRole("status").filter({ hasText: "Saved." }).waitFor();

/** Begins a piece on the page, as a thumb would. */
async function begin(page, family, name) {
  await page.goto(`${base}/pieces`);
  await page.getByRole("button", { name: "A new piece" }).click();
  await page.getByRole("button", { name: family, exact: true }).click();
  await page.getByLabel("What the shop calls it").fill(name);
  await page.getByRole("button", { name: "Begin" }).click();
  await page.getByRole("heading", { level: 1, name }).waitFor();
  await saved(page);
  return page.url().split("/").pop();
}
/** Chooses a panel by the list, which says the same as the drawing. */
async function choose(page, code) {
  const list = page.locator("details.list");
  if (!(await list.evaluate((d) => d.open))) await list.locator("summary").click();
  await list.locator("label").filter({ has: page.locator(`.quiet`, { hasText: new RegExp(`^${code}(,|$)`) }) }).locator("input").check();
}
async function note(page, group, term, severity, extent) {
  await page.getByRole("button", { name: "Condition", exact: true }).click();
  await page.getByRole("button", { name: group, exact: true }).click();
  await page.getByRole("button", { name: term, exact: true }).click();
  await page.getByRole("button", { name: severity, exact: true }).click();
  await page.getByRole("button", { name: extent, exact: true }).click();
  await page.getByRole("button", { name: "Note it" }).click();
}

let passed = 0;
const failed = [];
async function journey(sentence, run) {
  if (!new RegExp(pattern).test(sentence)) return;
  const began = Date.now();
  try {
    await run();
    passed += 1;
    console.log(`ok      ${sentence} (${Date.now() - began} ms)`);
  } catch (e) {
    failed.push(sentence);
    console.log(`FAILED  ${sentence}\n        ${String(e.stack ?? e).replace(/\n/g, "\n        ")}`);
  }
}

const words = await get("/api/inspection_words");

await journey("a piece of each family is recorded at phone size and read on the desk", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/pieces");
  const begun = [];
  for (const family of words.families) {
    const name = `${family.name} of the journey`;
    const id = await begin(page, family.name, name);
    const told = await get(`/api/pieces/${id}`);
    assert.ok(told.panels.length > 0, `${family.key} has no panels`);
    // The largest panel of the first view is met by a tap in the middle of its mark's place.
    const code = told.panels.find((p) => !p.often_other_material).code;
    await choose(page, code);
    await note(page, "Colour", "fading", "heavy", "25 %");
    await page.getByText("fading, heavy, 25 % of it").first().waitFor();
    await saved(page);
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), phone.width, `${family.key} is wider than the phone`);
    if (["sofa", "front_seat", "steering_wheel"].includes(family.key)) await shot(page, `phone-${family.key}`);
    begun.push({ id, name, code });
  }
  await context.close();
  const desk = await context_of(pc);
  for (const { id, name, code } of begun) {
    const read = await open(desk, `/pieces/${id}`);
    await read.getByRole("heading", { level: 1, name }).waitFor();
    await read.getByText("1 noted").first().waitFor({ state: "attached" });
    const told = await get(`/api/pieces/${id}`);
    const panel = told.panels.find((p) => p.code === code);
    assert.ok(Math.abs(panel.index.value - (100 - 10 * 3 * 0.5)) < 1e-9, `index of ${name}: ${panel.index.value}`);
    await shot(read, `desk-${told.make_up.family}`);
    await read.close();
  }
  await desk.close();
});

await journey("areas on the page agree with those worked out by hand", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/pieces");
  await begin(page, "Free piece, panel by panel", "Three panels");
  await page.locator("textarea").fill("Seat: 50 x 40\nWing: 50 / 30 x 40\nFlap: 0,0 40,0 20,30");
  await page.getByRole("button", { name: "Enter the measures" }).click();
  await page.getByText("3 panels").waitFor();
  await page.getByText("Areas as a table").click();
  const rows = await page.locator("table tbody tr").allInnerTexts();
  // 50 x 40 = 2000; (50 + 30) / 2 x 40 = 1600; 40 x 30 / 2 = 600.
  for (const [name, area] of [["Seat", 2000], ["Wing", 1600], ["Flap", 600]]) assert.ok(rows.some((r) => r.startsWith(name) && new RegExp(`\\b${area} ±`).test(r)), `${name} in ${rows.join(" | ")}`);
  await context.close();
});

await journey("a tap on the drawing chooses the panel under it, and a thin one by its rim", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/pieces");
  const id = await begin(page, "Armchair", "Tapped chair");
  const told = await get(`/api/pieces/${id}`);
  const top = page.locator('path.panel[data-panel="SC1-top"]').first();
  const box = await top.boundingBox();
  await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2);
  const heading = page.getByRole("region", { name: "What is chosen" }).getByRole("heading", { level: 2 });
  assert.equal(await heading.innerText(), told.panels.find((p) => p.code === "SC1-top").name);
  await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2);
  await page.getByText("Tap panels on the drawing").waitFor();
  await context.close();
});

await journey("a tab that dies loses neither what was typed nor what was entered", async () => {
  const context = await context_of(phone);
  let page = await open(context, "/pieces");
  const id = await begin(page, "Ottoman", "Dying tab");
  await choose(page, "SC1-top");
  await page.getByRole("button", { name: "Condition", exact: true }).click();
  await page.getByRole("button", { name: "Marks", exact: true }).click();
  await page.getByRole("button", { name: "ink", exact: true }).click();
  await page.getByLabel("Note", { exact: true }).fill("blue ball pen, two li");
  await page.close({ runBeforeUnload: false });
  page = await open(context, `/pieces/${id}`);
  await choose(page, "SC1-top");
  await page.getByRole("button", { name: "Condition", exact: true }).click();
  assert.equal(await page.getByLabel("Note", { exact: true }).inputValue(), "blue ball pen, two li");
  // Entered while the program cannot be reached, and the tab closed before it came back.
  await program.kill();
  await page.getByRole("button", { name: "plain to see", exact: true }).click();
  await page.getByRole("button", { name: "all of it", exact: true }).click();
  await page.getByRole("button", { name: "Note it" }).click();
  await page.getByText("1 not sent yet; kept here.").waitFor();
  await page.close({ runBeforeUnload: false });
  program = await start(binary, data, port);
  page = await open(context, `/pieces/${id}`);
  await saved(page);
  const told = await get(`/api/pieces/${id}`);
  const inks = told.entries.filter((e) => e.entry.condition?.term === "ink");
  assert.equal(inks.length, 1, "kept once");
  assert.equal(inks[0].entry.condition.note, "blue ball pen, two li");
  await context.close();
});

await journey("a program that is killed in the middle of work has everything that was shown as saved", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/pieces");
  const id = await begin(page, "Stool", "Killed program");
  const code = (await get(`/api/pieces/${id}`)).panels[0].code;
  await choose(page, code);
  await note(page, "Leather", "tear", "failed", "5 %");
  await page.getByText("tear, failed, 5 % of it").first().waitFor();
  await saved(page);
  await program.kill();
  await note(page, "Seams", "open seam", "plain to see", "25 %");
  await page.getByText("1 not sent yet; kept here.").waitFor();
  program = await start(binary, data, port);
  await saved(page);
  const kept = (await get(`/api/pieces/${id}`)).entries.map((e) => e.entry.condition?.term).filter(Boolean);
  assert.deepEqual(kept.sort(), ["seam_open", "tear"]);
  await context.close();
});

await journey("everything that was entered can be undone and brought back", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/pieces");
  const id = await begin(page, "Headboard", "Undone");
  const code = (await get(`/api/pieces/${id}`)).panels[0].code;
  await choose(page, code);
  await note(page, "Marks", "stain", "faint", "5 %");
  await page.getByRole("button", { name: /^Undo: / }).click();
  await page.getByText("Taken back:").waitFor();
  await saved(page);
  assert.equal((await get(`/api/pieces/${id}`)).panels.find((p) => p.code === code).conditions.length, 0);
  await page.getByText("newest first").click();
  await page.getByRole("button", { name: /Bring it back/ }).click();
  await page.getByText("stain, faint, 5 % of it").first().waitFor();
  await context.close();
});

await journey("two devices that did not know of each other are both shown until one is chosen", async () => {
  const one = await context_of(phone);
  const two = await context_of(pc);
  const a = await open(one, "/pieces");
  const id = await begin(a, "Dining chair", "Two accounts");
  const code = (await get(`/api/pieces/${id}`)).panels.find((p) => !p.often_other_material).code;
  const b = await open(two, `/pieces/${id}`);
  await b.getByRole("heading", { level: 1, name: "Two accounts" }).waitFor();
  for (const [page, material] of [[a, "aniline"], [b, "nubuck"]]) {
    await choose(page, code);
    await page.getByRole("button", { name: "Made of", exact: true }).click();
    await page.getByRole("button", { name: material, exact: true }).click();
    await page.getByRole("button", { name: "Enter it" }).click();
    await saved(page);
  }
  await b.getByText(`Two devices said different things about the material of ${code}.`).waitFor();
  await b.getByRole("button", { name: "This holds" }).first().click();
  await b.getByText("Two devices said different things").waitFor({ state: "detached" });
  assert.equal((await get(`/api/pieces/${id}`)).panels.find((p) => p.code === code).material, "aniline");
  await one.close();
  await two.close();
});

await journey("an airbag that was found stops the needle on screen, and a reading says what stands behind it", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/pieces");
  const id = await begin(page, "Front seat", "Airbag");
  const asked = (await get(`/api/pieces/${id}`)).panels.find((p) => p.questions.some((q) => q.kind === "airbag")).code;
  await choose(page, asked);
  await page.getByRole("button", { name: "Part behind" }).click();
  await page.getByRole("button", { name: "Airbag seam", exact: true }).click();
  await page.getByRole("button", { name: "It is there" }).click();
  await page.locator("p.stops", { hasText: "Never cut" }).waitFor();
  await page.goto(`${base}/meters`);
  await page.getByLabel("Name of a meter").fill("Bench meter");
  await page.getByRole("button", { name: "Keep it" }).first().click();
  await page.getByRole("button", { name: "Bench meter", exact: true, pressed: true }).waitFor();
  await page.getByLabel("Shown by the meter, pH").first().fill("4,05");
  await page.getByLabel("Shown by the meter, pH").nth(1).fill("6,98");
  await page.getByRole("button", { name: "Keep it" }).last().click();
  await page.getByText("Calibrated: 98 % of the ideal slope").first().waitFor();
  await shot(page, "phone-meters");
  await page.goto(`${base}/pieces/${id}`);
  await choose(page, asked);
  await page.getByRole("button", { name: "Reading", exact: true }).click();
  await page.getByRole("button", { name: "Surface pH", exact: true }).click();
  await page.getByLabel("Shown, 3 places").fill("4,1 4,3 4,2");
  await page.getByRole("button", { name: "Bench meter", exact: true }).click();
  await page.getByRole("button", { name: "Enter it" }).click();
  await page.getByText("98 % slope").waitFor();
  await shot(page, "phone-airbag");
  await context.close();
});

await journey("a photograph survives a dead program and a dead tab, and the same one is kept once", async () => {
  const context = await context_of(phone);
  let page = await open(context, "/pieces");
  const id = await begin(page, "Ottoman", "Photographed");
  const picture = { name: "bench.png", mimeType: "image/png", buffer: await page.screenshot({ fullPage: true }) };
  await program.kill();
  const whole_of = (p) => p.locator("section", { has: p.getByRole("heading", { name: "Photographs of the whole piece" }) });
  const whole = whole_of(page);
  await whole.locator("input[type=file]").nth(1).setInputFiles(picture);
  await whole.locator("progress").waitFor();
  await page.close({ runBeforeUnload: false });
  program = await start(binary, data, port);
  page = await open(context, `/pieces/${id}`);
  await saved(page);
  const shown = page.getByRole("img", { name: /^Photograph of the whole piece/ });
  await shown.waitFor();
  await shown.scrollIntoViewIfNeeded();
  await page.waitForFunction(() => [...document.querySelectorAll(".photos img")].every((i) => i.complete && i.naturalWidth > 0));
  // The same picture again, of a panel: another entry, the same photograph.
  await choose(page, "SC1-top");
  await page.getByRole("region", { name: "What is chosen" }).locator("input[type=file]").nth(1).setInputFiles(picture);
  await page.getByRole("region", { name: "What is chosen" }).getByRole("img", { name: /^Photograph of / }).waitFor();
  await saved(page);
  const told = await get(`/api/pieces/${id}`);
  assert.equal(told.entries.filter((e) => e.entry.did === "photo").length, 2);
  const photos = (await get("/api/photos")).items;
  assert.equal(photos.length, 1, "kept once");
  assert.equal(photos[0].name, "bench.png");
  assert.equal(photos[0].arrival, "file");
  assert.deepEqual(Buffer.from(await (await fetch(`${base}/api/photos/${photos[0].id}/original`)).arrayBuffer()), picture.buffer);
  // A condition names the photographs that show it.
  await page.getByRole("button", { name: "Condition", exact: true }).click();
  await page.getByRole("button", { name: "Soil", exact: true }).click();
  await page.locator(".sheet-form").getByRole("group", { name: "Which" }).getByRole("button").first().click();
  await page.getByRole("group", { name: "Photographs that show it" }).getByRole("button").click();
  // Nothing is recorded that nobody said.
  await page.getByRole("button", { name: "Note it" }).click();
  await page.getByText("Choose how bad it is and over how much.").waitFor();
  await page.getByRole("button", { name: "plain to see", exact: true }).click();
  await page.getByRole("button", { name: "25 %", exact: true }).click();
  await page.getByRole("button", { name: "Note it" }).click();
  await saved(page);
  await page.getByRole("link", { name: "photograph 1" }).waitFor();
  assert.deepEqual((await get(`/api/pieces/${id}`)).entries.find((e) => e.entry.did === "condition").entry.condition.photos, [photos[0].id]);
  // What is no picture is refused with what to do, and can be thrown away.
  await whole_of(page).locator("input[type=file]").nth(1).setInputFiles({ name: "notes.jpg", mimeType: "image/jpeg", buffer: Buffer.from("these are no bytes of a picture at all") });
  await page.locator(".photos .problem").waitFor();
  await page.getByRole("button", { name: /^Throw it away/ }).click();
  await page.locator(".photos .problem").waitFor({ state: "detached" });
  await shot(page, "phone-photographs");
  await context.close();
});

await journey("a piece that was put away leaves the list, keeps everything, and comes back", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/pieces");
  const id = await begin(page, "Ottoman", "Away and back");
  const listed = async () => (await get("/api/pieces?limit=200")).items.some((p) => p.id === id);
  await page.getByRole("button", { name: "Put this piece away" }).click();
  await page.getByText("This piece is put away").waitFor();
  assert.equal(await listed(), false);
  assert.equal((await get(`/api/pieces/${id}`)).entries.length, 1);
  await page.reload();
  await page.getByRole("button", { name: "Bring the piece back" }).click();
  await page.getByRole("button", { name: "Put this piece away" }).waitFor();
  assert.equal(await listed(), true);
  await context.close();
});

await journey("pieces, a piece and meters have no barrier in any theme, down to 320 px", async () => {
  const pieces = (await get("/api/pieces?limit=5")).items;
  for (const viewport of [pc, { width: 320, height: 640 }]) {
    const context = await context_of(viewport);
    for (const path of ["/pieces", `/pieces/${pieces[0].id}`, "/meters"]) {
      const page = await open(context, path);
      if (path.length > 20) {
        await saved(page);
        await choose(page, (await get(`/api${path}`)).panels[0].code);
        await page.getByRole("button", { name: "Condition", exact: true }).click();
      }
      await page.evaluate(axe_source);
      // Themes change in place: light and dark are the device's, bench is chosen.
      for (const theme of ["light", "dark", "bench"]) {
        await page.emulateMedia({ colorScheme: theme === "dark" ? "dark" : "light" });
        const violations = await page.evaluate(async (name) => {
          if (name === "bench") document.documentElement.dataset.theme = name;
          await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
          return (await window.axe.run(document, { resultTypes: ["violations"] })).violations;
        }, theme);
        assert.deepEqual(violations.map((v) => `${v.id}: ${v.nodes[0].target.join(" ")}`), [], `${path} ${theme} ${viewport.width}`);
        assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= viewport.width, `${path} ${theme} is wider than ${viewport.width}`);
        await shot(page, `${path.split("/")[1]}${path.length > 20 ? "-one" : ""}-${theme}-${viewport.width}`);
      }
      await page.close();
    }
    await context.close();
  }
});

await browser.close();
await program.kill("SIGTERM");
rmSync(data, { recursive: true, force: true });
if (complaints.length) console.log(`The page complained:\n  ${complaints.join("\n  ")}`);
console.log(`${passed} passed, ${failed.length + (complaints.length ? 1 : 0)} failed`);
process.exit(failed.length || complaints.length ? 1 : 0);
