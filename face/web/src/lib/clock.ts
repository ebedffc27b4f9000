// Times of spots: the clock time first, then how long still.

/** "14:05", with the day where it is another. */
export function clock_words(at: string, now: Date): string {
  const then = new Date(at);
  const time = then.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
  return then.toDateString() === now.toDateString() ? time : `${then.toLocaleDateString([], { weekday: "short", day: "numeric", month: "short" })}, ${time}`;
}

/** "3 h 20 min"; empty when it is over. */
export function still_words(at: string, now: Date): string {
  const minutes = Math.ceil((new Date(at).getTime() - now.getTime()) / 60000);
  if (minutes <= 0) return "";
  const h = Math.floor(minutes / 60);
  return h ? `${h} h${minutes % 60 ? ` ${minutes % 60} min` : ""}` : `${minutes} min`;
}
