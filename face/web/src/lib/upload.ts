// A photograph on its way: kept in the browser until the program has it whole, sent piece by piece, and found again by
// its hash after a broken connection, a closed tab or a restart.
export interface Sending {
  id: string;
  piece: string;
  name: string;
  arrival: "camera" | "file";
  bytes: Blob;
  refused?: string;
}
/** As much of the network as is needed: the answer, or a refusal that asking again would not change. */
export interface Line {
  begin(id: string, bytes: number, name: string, arrival: string): Promise<{ have_bytes: number; done: boolean }>;
  append(id: string, offset: number, part: Blob): Promise<{ have_bytes: number; done: boolean }>;
}
export const part_bytes = 512 * 1024;

export async function sha256_hex(bytes: Blob): Promise<string> {
  const digest = await crypto.subtle.digest("SHA-256", await bytes.arrayBuffer());
  return [...new Uint8Array(digest)].map((b) => b.toString(16).padStart(2, "0")).join("");
}

/** Sends what is missing, from where the program stands. `told` hears how much is there. */
export async function send(line: Line, photo: Pick<Sending, "id" | "name" | "arrival" | "bytes">, told: (have: number) => void): Promise<void> {
  let at = await line.begin(photo.id, photo.bytes.size, photo.name, photo.arrival);
  // An answer that never moves on would go round for ever.
  let still = 0;
  while (!at.done) {
    told(at.have_bytes);
    const before = at.have_bytes;
    at = await line.append(photo.id, before, photo.bytes.slice(before, before + part_bytes));
    still = at.have_bytes > before ? 0 : still + 1;
    if (still > 3) throw new Error("The program takes no more of this photograph.");
  }
  told(photo.bytes.size);
}

const store = "photos";
function database(): Promise<IDBDatabase> {
  return new Promise((done, fail) => {
    const asked = indexedDB.open("hidewright", 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(store, { keyPath: "id" });
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => fail(asked.error ?? new Error("The browser keeps nothing here."));
  });
}
async function with_store<T>(mode: IDBTransactionMode, act: (s: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const db = await database();
  try {
    return await new Promise<T>((done, fail) => {
      const tx = db.transaction(store, mode);
      const asked = act(tx.objectStore(store));
      tx.oncomplete = () => done(asked.result);
      tx.onerror = tx.onabort = () => fail(tx.error ?? new Error("The browser has no room to keep it."));
    });
  } finally {
    db.close();
  }
}
export const keep = (photo: Sending) => with_store("readwrite", (s) => s.put(photo));
export const forget = (id: string) => with_store("readwrite", (s) => s.delete(id));
export const kept_for = async (piece: string) => (await with_store<Sending[]>("readonly", (s) => s.getAll())).filter((p) => p.piece === piece);
