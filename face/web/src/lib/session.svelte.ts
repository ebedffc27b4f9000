// Who is signed in here, and whether that is needed at all.
import { api, on_sign_in_needed } from "../api";
import type { SessionState } from "../wire";

export const session = $state<{ state: SessionState | null }>({ state: null });

export async function ask_session(): Promise<void> {
  session.state = await api.session().catch(() => null);
}
on_sign_in_needed(() => void ask_session());
