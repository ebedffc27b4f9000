// The real program on a folder of its own, for journeys that stop and start it.
import { spawn } from "node:child_process";
import { createServer } from "node:net";

export const free_port = () =>
  new Promise((done, fail) => {
    const probe = createServer();
    probe.once("error", fail);
    probe.listen(0, "127.0.0.1", () => {
      const { port } = probe.address();
      probe.close(() => done(port));
    });
  });

/** A signal that the program does not follow within this gives way to one that it cannot refuse. */
const patience_ms = 3000;

/** Starts the program and waits until it answers. `kill` ends it without a word, as a power cut would; with "SIGTERM" it is asked first. */
export async function start(binary, data, port) {
  const child = spawn(binary, ["serve", "--port", String(port), "--data", data], { stdio: ["ignore", "pipe", "pipe"] });
  let said = "";
  child.stdout.on("data", (d) => (said += d));
  child.stderr.on("data", (d) => (said += d));
  const base = `http://127.0.0.1:${port}`;
  const give_up = Date.now() + 180000;
  while (!(await fetch(`${base}/api/about`).then((r) => r.ok, () => false))) {
    if (child.exitCode !== null) throw new Error(`the program ended with ${child.exitCode}:\n${said}`);
    if (Date.now() > give_up) throw new Error(`the program did not answer within three minutes:\n${said}`);
    await new Promise((r) => setTimeout(r, 100));
  }
  const kill = async (signal = "SIGKILL") => {
    if (child.exitCode !== null || child.signalCode !== null) return;
    const ended = new Promise((r) => child.once("exit", r));
    child.kill(signal);
    const late = setTimeout(() => child.kill("SIGKILL"), patience_ms);
    await ended;
    clearTimeout(late);
  };
  return { base, kill };
}
