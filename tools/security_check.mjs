// The security checklist. Run by tools/security_check.sh; needs nothing but node and the program.
import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { X509Certificate, createHash } from "node:crypto";
import { mkdtempSync, readFileSync, readdirSync, rmSync, statSync } from "node:fs";
import http from "node:http";
import https from "node:https";
import net, { createServer } from "node:net";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import tls from "node:tls";
import { fileURLToPath } from "node:url";
import { deflateSync } from "node:zlib";

const [program, ...wanted] = process.argv.slice(2);
const page = join(dirname(fileURLToPath(import.meta.url)), "../docs/reference/security.md");
const data = mkdtempSync(join(tmpdir(), "hidewright-security-"));
const name = "workshop.localhost";
const free_port = () => new Promise((done) => { const p = createServer(); p.listen(0, "127.0.0.1", () => { const { port } = p.address(); p.close(() => done(port)); }); });
const [port, tls_port, first_port] = [await free_port(), await free_port(), await free_port()];
const run = (args, input = "") => execFileSync(program, [...args, "--data", data], { input, stdio: ["pipe", "pipe", "pipe"] }).toString();
const wait = (ms) => new Promise((r) => setTimeout(r, ms));

// ---- the program ---------------------------------------------------------------------------------------------------

let child, ca;
async function start() {
  child = spawn(program, ["serve", "--data", data, "--port", port, "--tls-port", tls_port, "--first-port", first_port].map(String), { stdio: "ignore" });
  for (const give_up = Date.now() + 120000; ; await wait(50)) {
    if (child.exitCode !== null || Date.now() > give_up) throw new Error("the program did not start");
    if (await ask("GET", "/api/session", { door: "first", path: "/authority.crt" }).then((r) => r.status === 200 && (ca = `-----BEGIN CERTIFICATE-----\n${r.bytes.toString("base64")}\n-----END CERTIFICATE-----\n`), () => false)) return;
  }
}
async function stop() {
  const ended = new Promise((r) => child.once("exit", r));
  child.kill("SIGTERM");
  await ended;
}

/** One request; door is tls, loopback or first. Gives status, headers, text and how long it took. */
function ask(method, path, { cookie = "", body, headers = {}, host = name, door = "tls", type = "application/json", path: other } = {}) {
  const to = { tls: tls_port, loopback: port, first: first_port }[door];
  const bytes = body === undefined ? undefined : Buffer.isBuffer(body) ? body : Buffer.from(typeof body === "string" ? body : JSON.stringify(body));
  const all = { Host: `${door === "tls" ? host : host === name ? "localhost" : host}:${to}`, ...(bytes && { "Content-Type": type, "Content-Length": bytes.length }), ...(cookie && { Cookie: cookie }), ...headers };
  for (const k of Object.keys(all)) if (all[k] === null) delete all[k];
  return new Promise((done, fail) => {
    const began = process.hrtime.bigint();
    const r = (door === "tls" ? https : http).request({ host: "127.0.0.1", port: to, method, path: other ?? path, headers: all, setHost: false, agent: false, ...(door === "tls" && { ca, servername: name }) }, (reply) => {
      const parts = [];
      reply.on("data", (d) => parts.push(d));
      reply.on("end", () => { const b = Buffer.concat(parts); done({ status: reply.statusCode, headers: reply.headers, bytes: b, text: b.toString(), ms: Number(process.hrtime.bigint() - began) / 1e6 }); });
    });
    r.on("error", fail);
    r.end(bytes);
  });
}
const sign_in = (who, password = secret, door = "tls") => ask("POST", "/api/session", { body: { name: who, password }, door });
const cookie_of = (reply) => reply.headers["set-cookie"]?.[0].split(";")[0] ?? "";

const secret = "a long sentence";
const roles = ["none", "reader", "technician", "owner"];
for (const role of roles.slice(1)) run(["people", "add", `the ${role}`, "--role", role], secret);
run(["people", "add", "somebody else", "--role", "technician"], secret);
const few = 10, each = 4;
for (let i = 0; i < few; i++) run(["people", "add", `known ${i}`, "--role", "reader"], secret);
run(["network", "on", "--name", name]);
await start();
const session = { none: "" };
for (const role of roles.slice(1)) session[role] = cookie_of(await sign_in(`the ${role}`));
const openapi = JSON.parse((await ask("GET", "/api/openapi.json", { cookie: session.reader })).text);

// ---- items ---------------------------------------------------------------------------------------------------------

const items = {};

items.cookies = async () => {
  const tls_cookie = (await sign_in("the reader")).headers["set-cookie"][0];
  for (const flag of ["HttpOnly", "Secure", "SameSite=Strict", "Path=/"]) assert.ok(tls_cookie.split("; ").includes(flag), `no ${flag}`);
  assert.match(tls_cookie, /^__Host-hidewright=[A-Za-z0-9_-]{43};/);
  assert.ok(!/Domain=/i.test(tls_cookie));
  const plain = (await sign_in("the reader", secret, "loopback")).headers["set-cookie"][0];
  for (const flag of ["HttpOnly", "SameSite=Strict", "Path=/"]) assert.ok(plain.split("; ").includes(flag), `no ${flag} on loopback`);
  const token = session.owner.split("=")[1];
  for (const file of readdirSync(data, { recursive: true })) if (statSync(join(data, file)).isFile()) assert.ok(!readFileSync(join(data, file)).includes(token), `${file} holds a token`);
  return "__Host-, HttpOnly, Secure, SameSite=Strict; 256 bits, of which only a digest is kept";
};

items.csrf = async () => {
  const cookie = session.owner, body = {};
  const post = (headers, type) => ask("POST", "/api/network/on", { cookie, body, headers, type }).then((r) => r.status);
  for (const origin of ["https://evil.example", "null", `http://${name}:${tls_port}`, `https://${name}`, `https://${name}:${tls_port}.evil.example`]) assert.equal(await post({ Origin: origin }), 403, origin);
  for (const site of ["cross-site", "same-site"]) assert.equal(await post({ "Sec-Fetch-Site": site }), 403, site);
  for (const type of ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", ""]) assert.equal(await post({}, type), 415, type);
  assert.equal(await post({ Origin: `https://${name}:${tls_port}`, "Sec-Fetch-Site": "same-origin" }), 400, "our own page is not taken");
  const read = Object.entries(openapi.paths).filter(([, m]) => m.get).map(([path]) => new RegExp(`^${path.replace(/{.*?}/g, "[^/]+")}$`));
  for (const [path, methods] of Object.entries(openapi.paths)) {
    if (!methods.post || methods.get) continue;
    const asked = path.replace(/{.*?}/g, "x");
    // Where another address is read by name ("/api/shelf/{id}"), this one is such a name, and nothing is kept under it.
    const answer = read.some((r) => r.test(asked)) ? 404 : 405;
    assert.equal((await ask("GET", asked, { cookie })).status, answer, `GET ${path}`);
  }
  return "Origin, Sec-Fetch-Site and Content-Type of another page are refused; no GET reaches what changes";
};

items.host = async () => {
  for (const host of ["evil.example", `${name}.evil.example`, "8.8.8.8", "evil.localhost", `evil.${name}`]) assert.equal((await ask("GET", "/api/session", { host })).status, 403, host);
  for (const host of ["evil.example", `${name}`.replace("workshop", "other"), "127.0.0.1.evil.example"]) assert.equal((await ask("GET", "/api/session", { host, door: "loopback" })).status, 403, `loopback ${host}`);
  assert.equal((await ask("GET", "/", { host: "evil.example", door: "first" })).status, 403, "first door");
  assert.equal((await ask("GET", "/api/session")).status, 200);
  return "names and addresses that are not this computer's are refused at all three doors";
};

items.headers = async () => {
  const replies = [await ask("GET", "/"), await ask("GET", "/api/session"), await ask("GET", "/api/people"), await ask("GET", "/nothing.js"), await ask("GET", "/", { door: "first" })];
  for (const { headers: h } of replies) {
    const policy = h["content-security-policy"];
    assert.match(policy, /default-src 'self'/);
    assert.match(policy, /frame-ancestors 'none'/);
    assert.match(policy, /object-src 'none'/);
    assert.match(policy, /base-uri 'none'/);
    assert.doesNotMatch(policy, /unsafe|\*/);
    assert.equal(h["x-content-type-options"], "nosniff");
    assert.equal(h["referrer-policy"], "no-referrer");
    assert.equal(h["cross-origin-resource-policy"], "same-origin");
  }
  assert.equal(replies[1].headers["cache-control"], "no-store");
  const state = JSON.parse((await ask("GET", "/api/network", { cookie: session.owner })).text);
  const lasting = [...state.addresses.map((a) => (a.includes(":") ? `[${a}]` : a)), ...state.names.filter((n) => !/localhost$/.test(n))];
  for (const host of lasting) assert.match((await ask("GET", "/", { host })).headers["strict-transport-security"] ?? "", /max-age=\d{7}/, host);
  for (const host of ["localhost", name, "127.0.0.1"]) assert.equal((await ask("GET", "/", { host })).headers["strict-transport-security"], undefined, host);
  return `policy without inline script or frames, nosniff; TLS only for ${lasting.length} name(s) that are not loopback`;
};

items.tls = async () => {
  const cert = new X509Certificate(ca);
  assert.ok(cert.ca);
  const [leaf, from, to] = await new Promise((done, fail) => {
    const s = tls.connect({ host: "127.0.0.1", port: tls_port, ca, servername: name }, () => { const c = s.getPeerCertificate(); s.end(); done([c, Date.parse(c.valid_from), Date.parse(c.valid_to)]); });
    s.on("error", fail);
  });
  assert.ok((to - from) / 86400000 <= 90, "longer than 90 days");
  assert.deepEqual(leaf.ext_key_usage, ["1.3.6.1.5.5.7.3.1"]);
  for (const version of ["TLSv1", "TLSv1.1"]) await assert.rejects(new Promise((done, fail) => tls.connect({ host: "127.0.0.1", port: tls_port, ca, servername: name, minVersion: version, maxVersion: version, ciphers: "DEFAULT@SECLEVEL=0" }, done).on("error", fail)), version);
  await assert.rejects(new Promise((done, fail) => tls.connect({ host: "127.0.0.1", port: tls_port, servername: name }, done).on("error", fail)), "taken without trust");
  // id-ce-nameConstraints 2.5.29.30, critical (RFC 5280, 4.2.1.10).
  assert.ok(cert.raw.includes(Buffer.from("0603551d1e0101ff", "hex")), "no critical name constraint");
  for (const file of ["authority.pem", "server.pem"]) assert.equal(statSync(join(data, "network", file)).mode & 0o777, 0o600, file);
  for (const file of ["workshop.db", "workshop.db-wal"]) assert.equal(statSync(join(data, file)).mode & 0o777, 0o600, file);
  for (const path of ["/api/session", "/api/openapi.json", "/index.html", "/pair", "/network/authority.pem", "/../workshop.db"]) assert.equal((await ask("GET", path, { door: "first" })).status, 404, path);
  assert.equal((await ask("POST", "/", { door: "first", body: {} })).status, 405);
  return `TLS 1.2 and 1.3 only, server's certificate ${Math.round((to - from) / 86400000)} days, authority limited by name, keys 0600, plain port holds nothing else`;
};

items.bodies = async () => {
  const raw = (text) => new Promise((done, fail) => { const s = net.connect(port, "127.0.0.1", () => s.write(text)); let out = ""; s.on("data", (d) => (out += d)); s.on("close", () => done(out)); s.on("error", fail); setTimeout(() => s.destroy(), 3000); });
  const plain = cookie_of(await sign_in("the technician", secret, "loopback"));
  const head = (cookie, length) => `POST /api/judge HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nCookie: ${cookie}\r\nContent-Length: ${length}\r\nConnection: close\r\n\r\n`;
  assert.match(await raw(head(plain, 2000000)), /^HTTP\/1.1 413/);
  assert.match(await raw(head("hidewright=guess", 500000)), /^HTTP\/1.1 401/, "a body is awaited of somebody who is not signed in");
  const sent = await new Promise((done) => {
    let n = 0;
    const s = net.connect(port, "127.0.0.1", () => s.write(`POST /api/judge HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nCookie: ${plain}\r\nTransfer-Encoding: chunked\r\n\r\n`));
    const more = () => { while (n < 512 && !s.destroyed && s.write(`10000\r\n${" ".repeat(65536)}\r\n`)) n++; if (n >= 512) s.destroy(); };
    s.on("connect", more).on("drain", more).on("error", () => {}).on("close", () => done(n));
  });
  assert.ok(sent < 512, "32 MiB without a stated length were taken");
  assert.equal((await ask("POST", "/api/judge", { cookie: session.reader, body: "[".repeat(200) + "]".repeat(200) })).status, 400);
  assert.equal((await ask("GET", "/api/session")).status, 200);
  return "more than 1 MiB is refused before it is sent, or cut; nobody's body is read before signing in";
};

/** A small PNG (W3C PNG, 3rd edition): one grey row of 64 after another. */
function png() {
  const crc = (bytes) => { let c = ~0; for (const x of bytes) { c ^= x; for (let k = 0; k < 8; k++) c = (c >>> 1) ^ (c & 1 ? 0xedb88320 : 0); } return ~c >>> 0; };
  const chunk = (kind, bytes) => { const body = Buffer.concat([Buffer.from(kind), bytes]), out = Buffer.alloc(body.length + 8); out.writeUInt32BE(bytes.length, 0); body.copy(out, 4); out.writeUInt32BE(crc(body), body.length + 4); return out; };
  const head = Buffer.from([0, 0, 0, 64, 0, 0, 0, 64, 8, 0, 0, 0, 0]);
  return Buffer.concat([Buffer.from("\x89PNG\r\n\x1a\n", "latin1"), chunk("IHDR", head), chunk("IDAT", deflateSync(Buffer.alloc(64 * 65, 0))), chunk("IEND", Buffer.alloc(0))]);
}
const sha256 = (bytes) => createHash("sha256").update(bytes).digest("hex");
async function upload(bytes, called, id = sha256(bytes)) {
  const cookie = session.technician;
  const begun = await ask("POST", "/api/photos", { cookie, body: { sha256: id, bytes: bytes.length, name: called, arrival: "file" } });
  return begun.status !== 200 ? begun : ask("POST", `/api/photos/${id}/bytes?offset=0`, { cookie, body: bytes, type: "application/octet-stream" });
}
items.user_files = async () => {
  if (!openapi.paths["/api/photos"]) return { skip: "this program takes no files from users yet" };
  const good = png(), id = sha256(good), called = "../../x\"><script>alert(1)</script>.html";
  const sent = await upload(good, called);
  assert.equal(sent.status, 200, sent.text);
  const row = JSON.parse((await ask("GET", `/api/photos/${id}`, { cookie: session.reader })).text);
  for (const [size, type] of [["original", "image/png"], ["screen", "image/jpeg"], ["small", "image/jpeg"]]) {
    const r = await ask("GET", `/api/photos/${id}/${size}`, { cookie: session.reader });
    assert.equal(r.status, 200, size);
    assert.equal(r.headers["content-type"], type);
    assert.equal(r.headers["x-content-type-options"], "nosniff");
    assert.match(r.headers["content-security-policy"], /sandbox/);
    assert.match(r.headers["cache-control"], /^private/);
    assert.doesNotMatch(JSON.stringify(r.headers), /script|\.\./);
    if (size === "original") assert.match(r.headers["content-disposition"], /^attachment; filename="[0-9a-f]+\.png"$/);
    assert.equal((await ask("GET", `/api/photos/${id}/${size}`)).status, 401, `${size} without signing in`);
  }
  assert.equal(row.type, "image/png");
  const page_bytes = Buffer.from("<!doctype html><script>alert(1)</script>");
  assert.ok((await upload(page_bytes, "photo.png")).status >= 400, "a page passes for a photograph");
  const drawing = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>');
  assert.ok((await upload(drawing, "photo.png")).status >= 400, "a drawing with a script passes for a photograph");
  const other = Buffer.concat([good, Buffer.from("x")]);
  assert.ok((await upload(other, "photo.png", sha256("something else"))).status >= 400, "bytes stand under another's hash");
  for (const path of ["..%2f..%2fworkshop.db", "%2e%2e/workshop.db", "../network/authority.pem"]) {
    const r = await ask("GET", `/api/photos/${path}/original`, { cookie: session.owner });
    assert.ok(r.status >= 400 && !/SQLite format|PRIVATE KEY/.test(r.text), path);
  }
  return "a photograph comes back as image only, sandboxed, named by its hash; a page, a drawing and another's hash are refused; no path leads out";
};

const median = (list) => { const s = [...list].sort((a, b) => a - b), m = s.length >> 1; return s.length % 2 ? s[m] : (s[m - 1] + s[m]) / 2; };
/** The difference of the medians of which chance alone stays below in 999 of 1000 shuffles of the same times. */
function by_chance(a, b) {
  const all = [...a, ...b], out = [];
  let seed = 12345;
  const dice = (n) => (seed = (seed * 1103515245 + 12345) % 2147483648) % n;
  for (let k = 0; k < 4000; k++) {
    for (let i = all.length - 1; i > 0; i--) { const j = dice(i + 1); [all[i], all[j]] = [all[j], all[i]]; }
    out.push(Math.abs(median(all.slice(0, a.length)) - median(all.slice(a.length))));
  }
  return out.sort((x, y) => x - y)[Math.floor(out.length * 0.999)];
}
items.enumeration = async () => {
  const known = [], unknown = [], waiting = [], answers = new Set();
  for (let i = 0; i < few; i++) {
    for (let k = 0; k < each; k++)
      for (const [list, who] of k % 2 ? [[known, `known ${i}`], [unknown, `nobody ${i}`]] : [[unknown, `nobody ${i}`], [known, `known ${i}`]]) {
        const r = await sign_in(who, "a wrong sentence");
        list.push(r.ms);
        const { id, ...said } = JSON.parse(r.text);
        answers.add(`${r.status} ${JSON.stringify(said)}`);
      }
    // With a handful of each no shuffle could be told from another.
    if (i < 8) { await sign_in(`known ${i}`, "wrong"); for (let k = 0; k < 4; k++) { const r = await sign_in(`known ${i}`, "wrong"); if (r.status === 429) waiting.push(r.ms); } }
    run(["people", "unlock", `known ${i}`]);  // the address, too, may go on
  }
  assert.equal(answers.size, 1, [...answers].join(" | "));
  const apart = Math.abs(median(known) - median(unknown)), bound = by_chance(known, unknown);
  const words = `medians ${median(known).toFixed(1)} ms (known name) and ${median(unknown).toFixed(1)} ms (unknown), ${apart.toFixed(2)} apart, bound ${bound.toFixed(2)} ms: what chance stays below in 999 of 1000 shuffles of these ${known.length} + ${unknown.length} times`;
  assert.ok(apart <= bound, words);
  assert.ok(waiting.length >= 12 && Math.abs(median(known) - median(waiting)) > by_chance(known.slice(0, waiting.length), waiting), "the same test does not even see the tries that are not made");
  return `${words}; the same words`;
};

items.rate = async () => {
  const who = "somebody else";
  let waits = [];
  for (let i = 0; i < 9 && waits.length < 3; i++) {
    const r = await sign_in(who, "wrong");
    if (r.status !== 429) continue;
    waits.push(Number(r.headers["retry-after"]));
    await wait(1000 * waits.at(-1));
    await sign_in(who, "wrong");
  }
  assert.equal(waits.length, 3, "no wait after nine failures");
  assert.ok(waits[0] < waits[2], `the wait does not grow: ${waits}`);
  assert.equal((await sign_in(who)).status, 429, "the right password does not wait");
  await stop();
  await start();
  assert.equal((await sign_in(who)).status, 429, "a restart ends the wait");
  run(["people", "unlock", who]);
  assert.equal((await sign_in(who)).status, 200, "unlocking on the console does not help");
  const spread = [];
  for (let i = 0; i < 30; i++) spread.push((await sign_in(`anybody ${i}`, "wrong")).status);
  assert.ok(spread.includes(429), "one address may try thirty names");
  run(["people", "unlock", who]);
  return `waits ${waits.join(", ")} s and growing; survives a restart; ${spread.indexOf(429)} names from one address; unlocked on the console`;
};

items.survival = async () => {
  await stop();
  await start();
  for (const role of roles.slice(1)) assert.equal(JSON.parse((await ask("GET", "/api/session", { cookie: session[role] })).text).role, role);
  assert.equal((await ask("GET", "/api/liquids", { door: "loopback" })).status, 401, "the network is on, and loopback asks nobody");
  return "three sessions survive a restart; loopback, too, asks for signing in";
};

items.end = async () => {
  const cookie = cookie_of(await sign_in("the technician"));
  assert.equal((await ask("POST", "/api/session/end", { cookie, body: {} })).status, 200);
  assert.equal((await ask("GET", "/api/liquids", { cookie })).status, 401, "signed out, and still in");
  const other = cookie_of(await sign_in("somebody else"));
  const rows = JSON.parse((await ask("GET", "/api/sessions", { cookie: session.owner })).text).items;
  const theirs = rows.find((r) => r.person === "somebody else");
  assert.equal((await ask("POST", `/api/sessions/${theirs.id}/end`, { cookie: session.owner, body: {} })).status, 200);
  assert.equal((await ask("GET", "/api/liquids", { cookie: other })).status, 401);
  const before = cookie_of(await sign_in("somebody else"));
  const person = JSON.parse((await ask("GET", "/api/people", { cookie: session.owner })).text).items.find((p) => p.name === "somebody else");
  assert.equal((await ask("POST", `/api/people/${person.id}/password`, { cookie: session.owner, body: { password: secret } })).status, 200);
  assert.equal((await ask("GET", "/api/liquids", { cookie: before })).status, 401, "a new password leaves sessions open");
  return "by its person, by an owner, and by a new password: out at once";
};

items.matrix = async () => {
  const served = execFileSync(program, ["routes"]).toString().trim().split("\n").map((l) => l.split(" "));
  const described = new Set(Object.entries(openapi.paths).flatMap(([p, m]) => Object.keys(m).map((k) => `${k.toUpperCase()} ${p}`)));
  const said = new Map(readFileSync(page, "utf8").split("\n").map((l) => /^\| (GET|POST) \| `([^`]+)` \| (\w+) \| ([^|]+) \|/.exec(l)).filter(Boolean).map((m) => [`${m[1]} ${m[2]}`, { least: m[3], object: m[4].trim() }]));
  const wrong = [];
  for (const [method, path, least] of served) {
    const route = `${method} ${path}`;
    if (!described.has(route)) wrong.push(`${route} is served, and openapi does not know it`);
    if (!said.has(route)) wrong.push(`${route} is missing in docs/reference/security.md`);
    else if (said.get(route).least !== least) wrong.push(`${route}: the table says ${least}, the page ${said.get(route).least}`);
  }
  for (const route of described) if (!served.some(([m, p]) => `${m} ${p}` === route)) wrong.push(`${route} is described, and not served`);
  let calls = 0;
  const judge = JSON.parse(execFileSync(program, ["examples", "judge"]).toString());
  const kept = await ask("POST", "/api/judge", { cookie: session.reader, body: { ...judge, keep: true } });
  if (kept.status !== 403) wrong.push(`a reader keeps a judgement: ${kept.status}`);
  const call = await ask("POST", "/api/triage", { cookie: session.reader, body: { keep: true } });
  if (call.status !== 403) wrong.push(`a reader keeps a call: ${call.status}`);
  const piece = JSON.parse(execFileSync(program, ["examples", "inspect"]).toString());
  const begun = JSON.parse((await ask("POST", "/api/inspect", { cookie: session.owner, body: piece })).text);
  const theirs_id = begun.entries.find((e) => e.entry.did === "condition").entry.id;
  const back = { piece: begun.piece, entries: [{ did: "take_back", takes_back: theirs_id }] };
  for (const [role, expected] of [["none", 401], ["reader", 403], ["technician", 409], ["owner", 200]]) {
    const r = await ask("POST", "/api/inspect", { cookie: session[role], body: back });
    if (r.status !== expected) wrong.push(`${role} takes back an entry of the owner: ${r.status}`);
  }
  const last = (p) => (p === "/api/network/off" ? 1 : 0);
  for (const [method, path] of served.sort((a, b) => last(a[1]) - last(b[1]))) {
    const rule = said.get(`${method} ${path}`);
    if (!rule) continue;
    for (const role of roles) {
      let cookie = session[role];
      if (path === "/api/session/end" && role !== "none") cookie = cookie_of(await sign_in(`the ${role}`));
      const r = await ask(method, path.replace(/{.*?}/g, "nothing"), { cookie, body: method === "POST" ? {} : undefined, type: Object.keys(openapi.paths[path][method.toLowerCase()].requestBody?.content ?? {})[0] ?? "application/json" });
      calls++;
      const may = roles.indexOf(role) >= roles.indexOf(rule.least);
      const turned = r.status === (role === "none" ? 401 : 403);
      if (may ? r.status === 401 || r.status === 403 || r.status >= 500 : !turned) wrong.push(`${role} ${method} ${path}: ${r.status}`);
      if (!rule.object.startsWith("own")) continue;
      // Somebody else's object: unknown to all but an owner, and untouched.
      const other = cookie_of(await sign_in("somebody else"));
      const theirs = JSON.parse((await ask("GET", "/api/sessions", { cookie: other })).text).items.find((s) => s.here);
      const end = await ask("POST", `/api/sessions/${theirs.id}/end`, { cookie: session[role], body: {} });
      calls++;
      const alive = (await ask("GET", "/api/liquids", { cookie: other })).status === 200;
      const good = role === "owner" ? end.status === 200 && !alive : end.status === (role === "none" ? 401 : 404) && alive;
      if (!good) wrong.push(`${role} on somebody else's: ${method} ${path} gave ${end.status}, ${alive ? "it lives" : "it is gone"}`);
      const listed = await ask("GET", "/api/sessions", { cookie: session[role] });
      const foreign = listed.status === 200 && JSON.parse(listed.text).items.some((s) => s.person !== `the ${role}`);
      if (foreign && role !== "owner") wrong.push(`${role} sees sessions of others`);
    }
  }
  assert.deepEqual(wrong, []);
  return `${served.length} routes × ${roles.length} roles, ${calls} calls; what is somebody else's stays so; every route is described and on the page`;
};

// ---- run -----------------------------------------------------------------------------------------------------------

let failed = 0;
const order = Object.keys(items);
for (const unknown of wanted.filter((w) => !order.includes(w))) { console.log(`FAIL  ${unknown}  there is no such item; there are ${order.join(", ")}`); failed++; }
try {
  for (const item of order.filter((i) => !wanted.length || wanted.includes(i))) {
    const how = `tools/security_check.sh PROGRAM ${item}`;
    try {
      const seen = await items[item]();
      console.log(seen.skip ? `skip  ${item.padEnd(12)} ${seen.skip}  [${how}]` : `pass  ${item.padEnd(12)} ${seen}  [${how}]`);
    } catch (e) {
      failed++;
      console.log(`FAIL  ${item.padEnd(12)} ${String(e.message).replace(/\s*\n\s*/g, " ")}  [${how}]`);
    }
  }
} finally {
  if (child.exitCode === null) await stop();
  rmSync(data, { recursive: true, force: true });
}
console.log(failed ? `${failed} failed` : "all passed");
process.exit(failed ? 1 : 0);
