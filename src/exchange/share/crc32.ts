/** The check sum CRC-32 of ISO 3309 and PNG (ISO/IEC 15948, annex D), 0 to 2^32 - 1: it sees every single change of up to 32 bits in a row. */
export function crc32(bytes: Uint8Array): number {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return (sum ^ 0xffffffff) >>> 0;
}
