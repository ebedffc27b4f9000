// Keeps the screen on while a clock runs, where the browser can; asked again when the page comes back into sight.
export function stay_awake(): () => void {
  const screen = (navigator as Navigator & { wakeLock?: { request: (what: "screen") => Promise<{ release: () => Promise<void> }> } }).wakeLock;
  if (!screen) return () => {};
  let held: { release: () => Promise<void> } | null = null;
  let over = false;
  const ask = async () => {
    if (over || document.visibilityState !== "visible") return;
    try {
      held = await screen.request("screen");
      if (over) void held.release().catch(() => {});
    } catch {
      held = null; // a low battery may refuse it: the clock goes on all the same
    }
  };
  void ask();
  document.addEventListener("visibilitychange", ask);
  return () => {
    over = true;
    document.removeEventListener("visibilitychange", ask);
    void held?.release().catch(() => {});
  };
}
