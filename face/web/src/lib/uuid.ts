// Ids are made where something is typed, so that what is sent twice is kept once (RFC 9562, version 7: time first).
export function uuid7(now = Date.now(), random = crypto.getRandomValues(new Uint8Array(10))): string {
  const time = now.toString(16).padStart(12, "0");
  const bytes = [...random];
  bytes[0] = 0x70 | (bytes[0] & 0x0f);
  bytes[2] = 0x80 | (bytes[2] & 0x3f);
  const hex = time + bytes.map((b) => b.toString(16).padStart(2, "0")).join("");
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}
