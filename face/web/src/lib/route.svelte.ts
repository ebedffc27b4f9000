// The address bar is the state: every page and every choice has an address of its own.
export const route = $state({ path: location.pathname, search: location.search });

function read(): void {
  route.path = location.pathname;
  route.search = location.search;
}
addEventListener("popstate", read);

export function go(to: string): void {
  history.pushState(null, "", to);
  read();
  scrollTo(0, 0);
}
/** Rewrites the address of the page that is open, without a step in the history. */
export function rewrite(search: URLSearchParams): void {
  const text = search.toString();
  history.replaceState(null, "", location.pathname + (text ? `?${text}` : ""));
  route.search = location.search;
}
/** Lets ordinary links change the page without loading it again. */
export function follow(event: MouseEvent): void {
  if (event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
  const link = (event.target as Element | null)?.closest?.("a");
  if (!link || link.target || link.origin !== location.origin || link.pathname.startsWith("/api/") || link.hasAttribute("download")) return;
  if (link.hash && link.pathname === location.pathname && link.search === location.search) return;
  event.preventDefault();
  go(link.pathname + link.search + link.hash);
}
