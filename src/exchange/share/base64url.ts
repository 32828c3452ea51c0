/** Bytes as letters, digits, - and _ (base64url without padding, RFC 4648, section 5), which an address may hold. */

/** Bytes that one call takes as its arguments. */
const PIECE = 0x2000;

export function toBase64url(bytes: Uint8Array): string {
  let binary = "";
  for (let i = 0; i < bytes.length; i += PIECE) binary += String.fromCharCode(...bytes.subarray(i, i + PIECE));
  return btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}

/** The bytes of such a text; null where it is none, or has another spelling than `toBase64url` gives. */
export function fromBase64url(text: string): Uint8Array | null {
  if (!/^[A-Za-z0-9_-]*$/.test(text) || text.length % 4 === 1) return null;
  const binary = atob(text.replaceAll("-", "+").replaceAll("_", "/"));
  const bytes = Uint8Array.from(binary, (sign) => sign.charCodeAt(0));
  return toBase64url(bytes) === text ? bytes : null;
}
