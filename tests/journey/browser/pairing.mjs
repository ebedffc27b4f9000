// A phone joins the workshop: the network is switched on, a second browser profile that trusts the workshop's certificate
// opens it over TLS with no certificate error ignored, pairs by the code, survives a restart, and is ended from the PC.
//
//     node pairing.mjs BINARY [FOLDER]      pictures of the screens go into FOLDER, when one is given
import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { free_port } from "./program.mjs";

const require = createRequire(new URL("../../../face/web/package.json", import.meta.url));
const { chromium } = require("playwright-core");
const axe_source = require("node:fs").readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const [binary, pictures] = process.argv.slice(2);
if (!binary) {
  console.error("usage: node pairing.mjs BINARY [FOLDER]");
  process.exit(2);
}

const scratch = mkdtempSync(join(tmpdir(), "hidewright-pairing-"));
const data = join(scratch, "records");
const [port, tls_port, first_port] = [await free_port(), await free_port(), await free_port()];
const pc_base = `http://127.0.0.1:${port}`;
const name = "workshop.localhost";
const phone_base = `https://${name}:${tls_port}`;

let child;
async function start() {
  let said = "";
  child = spawn(binary, ["serve", "--data", data, "--port", port, "--tls-port", tls_port, "--first-port", first_port].map(String), { stdio: ["ignore", "pipe", "pipe"] });
  child.stdout.on("data", (d) => (said += d));
  child.stderr.on("data", (d) => (said += d));
  for (const give_up = Date.now() + 180000; ; await new Promise((r) => setTimeout(r, 100))) {
    if (child.exitCode !== null || Date.now() > give_up) throw new Error(`the program did not start:\n${said}`);
    if (await fetch(`${pc_base}/api/session`).then((r) => r.ok, () => false)) return;
  }
}
async function stop() {
  const ended = new Promise((r) => child.once("exit", r));
  child.kill("SIGTERM");
  await ended;
}

const args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];
/** A browser with a home, and so a list of trusted certificates, of its own. */
async function browser_of(who, viewport, trusts) {
  const home = join(scratch, who);
  const trust = join(home, ".pki/nssdb");
  mkdirSync(trust, { recursive: true });
  execFileSync("certutil", ["-N", "-d", `sql:${trust}`, "--empty-password"]);
  if (trusts) execFileSync("certutil", ["-A", "-d", `sql:${trust}`, "-n", "workshop", "-t", "C,,", "-i", trusts]);
  const context = await chromium.launchPersistentContext(join(home, "profile"), { executablePath: "/usr/bin/chromium", args, viewport, reducedMotion: "reduce", ignoreHTTPSErrors: false, env: { ...process.env, HOME: home } });
  context.setDefaultTimeout(30000);
  return context;
}

const complaints = [];
async function accessible(page, where) {
  await page.evaluate(axe_source);
  for (const scheme of ["light", "dark"]) {
    await page.emulateMedia({ colorScheme: scheme });
    const { violations } = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ["violations"] }));
    for (const v of violations) complaints.push(`${where}, ${scheme}: ${v.id} ${v.nodes[0].html.slice(0, 120)}`);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    if (wide > 0) complaints.push(`${where}: ${wide} px wider than the screen`);
    if (!pictures) continue;
    for (const [w, h] of [[360, 740], [1440, 900]]) {
      const before = page.viewportSize();
      await page.setViewportSize({ width: w, height: h });
      await page.screenshot({ path: join(pictures, `${where}-${w}-${scheme}.png`), fullPage: true });
      await page.setViewportSize(before);
    }
  }
  await page.emulateMedia({ colorScheme: "light" });
}
const said = (step) => console.log(`ok      ${step}`);
const open = [];
try {
  await start();
  const pc = await browser_of("pc", { width: 1280, height: 900 });
  open.push(pc);
  const desk = pc.pages()[0];
  desk.on("pageerror", (e) => complaints.push(e.message));
  await desk.goto(`${pc_base}/people`);
  await desk.getByText("Only this computer can open these pages").waitFor();
  await accessible(desk, "people-before");
  const add = desk.getByRole("form", { name: "Add somebody" });
  await add.getByLabel("Name").fill("Ada");
  await add.getByLabel(/Password/).fill("a long sentence");
  await add.getByRole("button", { name: "Add" }).click();
  await desk.getByText("Ada is added.").waitFor();
  await desk.getByLabel("What phones shall call this computer").fill(name);
  await desk.getByRole("button", { name: "Switch the network on" }).click();
  await desk.getByRole("heading", { name: "Sign in" }).waitFor();
  assert.equal((await fetch(`${pc_base}/api/liquids`)).status, 401);
  await accessible(desk, "sign-in");
  await desk.getByLabel("Name").fill("ada");
  await desk.getByLabel("Password").fill("a wrong sentence");
  await desk.getByRole("button", { name: "Sign in" }).click();
  await desk.getByText("The name or the password is not right.").waitFor();
  await desk.getByLabel("Password").fill("a long sentence");
  await desk.getByLabel(/What to call this browser/).fill("PC in the office");
  await desk.getByRole("button", { name: "Sign in" }).click();
  await desk.getByText(`https://${name}:${tls_port}/`).waitFor();
  said("an owner is added and the network switched on; from then on the PC asks who is there");

  await desk.getByRole("button", { name: "Pair a phone" }).click();
  await desk.getByRole("heading", { name: /Sign the phone in/ }).waitFor();
  const der = Buffer.from(await (await fetch(`http://127.0.0.1:${first_port}/authority.crt`)).arrayBuffer());
  const print = createHash("sha256").update(der).digest("hex").toUpperCase().match(/../g).join(":");
  const plain = (html) => html.replace(/<[^>]*>|\s|:/g, "");
  assert.ok(plain(await desk.locator("code").innerText()).includes(plain(print)), "the PC shows another fingerprint");
  assert.ok(plain(await (await fetch(`http://127.0.0.1:${first_port}/`)).text()).includes(plain(print)), "the first page shows another fingerprint");
  for (const path of ["/api/session", "/api/people", "/index.html", "/pair", "/network/authority.pem"]) assert.equal((await fetch(`http://127.0.0.1:${first_port}${path}`)).status, 404, path);
  await accessible(desk, "people-pairing");
  await desk.getByText("Without a camera").click();
  const address = (await desk.locator("details[open] .address").innerText()).trim();
  assert.match(address, /^https:\/\/workshop\.localhost:\d+\/pair#[A-Za-z0-9_-]{22}$/);
  said("both sides show the fingerprint of the certificate, and the plain port holds nothing else");

  const stranger = await browser_of("stranger", { width: 360, height: 740 });
  open.push(stranger);
  const refused = await stranger.pages()[0].goto(address).then(() => "it opened", (e) => e.message);
  assert.match(refused, /ERR_CERT_AUTHORITY_INVALID/);
  said("a browser that does not trust the workshop is warned");

  const pem = join(scratch, "authority.pem");
  writeFileSync(pem, `-----BEGIN CERTIFICATE-----\n${der.toString("base64").match(/.{1,64}/g).join("\n")}\n-----END CERTIFICATE-----\n`);
  const mobile = await browser_of("phone", { width: 360, height: 740 }, pem);
  open.push(mobile);
  const phone = mobile.pages()[0];
  phone.on("pageerror", (e) => complaints.push(e.message));
  const sent = [];
  phone.on("request", (r) => sent.push(r.url()));
  await phone.goto(address);
  await phone.getByRole("heading", { name: "Pair this phone" }).waitFor();
  assert.equal(await phone.evaluate(() => location.hash), "", "the code stays in the address bar");
  assert.ok(await phone.evaluate(() => isSecureContext && typeof navigator.mediaDevices.getUserMedia === "function"), "no secure context");
  await accessible(phone, "pair");
  await phone.getByLabel("What to call this phone").fill("phone at the bench");
  await phone.getByRole("button", { name: "Pair this phone" }).click();
  await phone.getByRole("heading", { name: "This phone is paired" }).waitFor();
  await accessible(phone, "paired");
  assert.ok(!sent.some((u) => u.includes(address.split("#")[1])), "the code went out in an address");
  const manifest = await phone.evaluate(async () => (await fetch(document.querySelector("link[rel=manifest]").href)).json());
  for (const icon of manifest.icons) assert.equal(await phone.evaluate(async (src) => (await fetch(src)).headers.get("content-type"), icon.src), "image/png");
  const [cookie] = await mobile.cookies(phone_base);
  assert.deepEqual([cookie.name, cookie.httpOnly, cookie.secure, cookie.sameSite, cookie.path, cookie.domain], ["__Host-hidewright", true, true, "Strict", "/", name]);
  said("a second profile that trusts it pairs by the code over TLS, in a secure context, with nothing ignored");

  await phone.goto("about:blank");
  await phone.goto(address);
  await phone.getByRole("button", { name: "Pair this phone" }).click();
  await phone.getByText("This code was used already or has run out.").waitFor();
  said("the code works once");

  await stop();
  await start();
  const give_up = Date.now() + 20000;
  while (!(await phone.goto(`${phone_base}/people`).then(() => true, () => false)) && Date.now() < give_up) await new Promise((r) => setTimeout(r, 200));
  await phone.getByText("Signed in: Ada").waitFor();
  await phone.locator("th", { hasText: /phone at the bench\s+\(this one\)/ }).waitFor();
  await accessible(phone, "people-on-phone");
  said("the phone is still signed in after a restart");

  await desk.goto(`${pc_base}/people`);
  await desk.getByRole("button", { name: "End phone at the bench of Ada" }).click();
  await desk.getByText("phone at the bench is signed out.").waitFor();
  await phone.reload();
  await phone.getByRole("heading", { name: "Sign in" }).waitFor();
  assert.equal(await phone.evaluate(() => fetch("/api/liquids").then((r) => r.status)), 401);
  said("ended from the PC, the phone is out at once");

  assert.deepEqual(complaints, []);
  said("no page erred, none is wider than its screen, axe finds nothing in light or dark");
} finally {
  for (const context of open) await context.close();
  if (child && child.exitCode === null) await stop();
  rmSync(scratch, { recursive: true, force: true });
}
