/** Offset basis and prime of FNV-1a with 64 bits (Fowler, Noll and Vo; draft-eastlake-fnv), from memory. */
const BASIS = 0xcbf29ce484222325n;
const PRIME = 0x100000001b3n;

/**
 * FNV-1a digest of a text's UTF-8 bytes, 16 hexadecimal digits. Every step keeps different states different, so that a
 * change of one byte is always found; it guards against accidents and edits, not against anyone who works out another.
 * @example textDigest('a')  // 'af63dc4c8601ec8c'
 */
export function textDigest(text: string): string {
  let hash = BASIS;
  for (const byte of new TextEncoder().encode(text)) hash = BigInt.asUintN(64, (hash ^ BigInt(byte)) * PRIME);
  return hash.toString(16).padStart(16, '0');
}
