// What the journeys of a browser share: the program (or one that runs already), a browser, one line per journey, and the
// look for barriers.
//
//     const walk = await begin_walk("name");   node FILE BINARY|http://ADDRESS [PATTERN]   PICTURES=FOLDER keeps screenshots
import assert from "node:assert/strict";
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { free_port, start } from "./program.mjs";

const require = createRequire(new URL("../../../face/web/package.json", import.meta.url));
const { chromium } = require("playwright-core");
const axe_source = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

export const phone = { width: 360, height: 740 };
export const pc = { width: 1440, height: 900 };
/** The page binds numbers to their units with no-break spaces; the program does not. */
export const plain_spaces = (text) => text.replace(/\u00a0/g, " ");

export async function begin_walk(name) {
  const [target, pattern = ""] = process.argv.slice(2);
  if (!target) {
    console.error(`usage: node ${name}.mjs BINARY [PATTERN]`);
    process.exit(2);
  }
  const pictures = process.env.PICTURES ?? "";
  if (pictures) mkdirSync(pictures, { recursive: true });
  const data = mkdtempSync(join(tmpdir(), `hidewright-${name}-`));
  const running = /^http:/.test(target) ? { base: target.replace(/\/$/, ""), kill: async () => {} } : await start(target, data, await free_port());
  const { base } = running;
  const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"] });
  const complaints = [];
  const failed = [];
  let passed = 0;

  const walk = {
    base,
    async context_of(viewport, more = {}) {
      const context = await browser.newContext({ viewport, reducedMotion: "reduce", hasTouch: viewport.width < 500, ...more });
      context.setDefaultTimeout(60000);
      return context;
    },
    async open(context, path) {
      const page = await context.newPage();
      page.on("pageerror", (e) => complaints.push(`${path}: ${e.message}`));
      await page.goto(base + path);
      await page.locator("main h1").waitFor();
      return page;
    },
    get: (path) => fetch(base + path).then((r) => r.json()),
    post: (path, body) => fetch(base + path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) }).then(async (r) => ({ status: r.status, body: await r.json() })),
    shot: async (page, file, full = true) => pictures && (await page.screenshot({ path: join(pictures, `${file}.png`), fullPage: full })),
    /** No barrier that axe knows, nothing wider than the screen. */
    async open_to_all(page, what) {
      await page.evaluate(axe_source);
      const { violations } = await page.evaluate(() => window.axe.run(document, { rules: { "color-contrast-enhanced": { enabled: true }, "target-size": { enabled: true } }, resultTypes: ["violations"] }));
      assert.deepEqual(violations.map((v) => `${v.id}: ${v.nodes[0].target.join(" ")}`), [], what);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(over <= 0, `${what} is ${over} px too wide`);
    },
    async journey(sentence, run) {
      if (!new RegExp(pattern).test(sentence)) return;
      const began = Date.now();
      try {
        await run();
        passed += 1;
        console.log(`ok      ${sentence} (${Date.now() - began} ms)`);
      } catch (e) {
        failed.push(sentence);
        for (const context of browser.contexts()) {
          for (const page of context.pages()) await walk.shot(page, `failed-${failed.length}-${Date.now()}`).catch(() => {});
          await context.close().catch(() => {});  // what it still computes would slow the next one
        }
        console.log(`FAILED  ${sentence}\n        ${String(e.stack ?? e).replace(/\n/g, "\n        ")}`);
      }
    },
    async end() {
      await browser.close();
      await running.kill("SIGTERM");
      rmSync(data, { recursive: true, force: true });
      if (complaints.length) console.log(`The page complained:\n  ${complaints.join("\n  ")}`);
      console.log(`${passed} passed, ${failed.length + (complaints.length ? 1 : 0)} failed`);
      process.exit(failed.length || complaints.length ? 1 : 0);
    },
  };
  return walk;
}
