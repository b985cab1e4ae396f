/**
 * Text of a file's bytes: UTF-8, or UTF-16 with its mark; what is neither is taken for the single-byte letters of
 * Western Europe, which differ from UTF-8 in names alone, never in numbers.
 */
export function textOf(bytes: Uint8Array): string {
  const [first, second] = bytes;
  const text =
    first === 0xff && second === 0xfe
      ? new TextDecoder('utf-16le').decode(bytes)
      : first === 0xfe && second === 0xff
        ? new TextDecoder('utf-16be').decode(bytes)
        : utf8Or(bytes, 'windows-1252');
  // Some old systems end lines with this letter alone.
  return text.includes('\n') ? text : text.replaceAll('\r', '\n');
}

function utf8Or(bytes: Uint8Array, other: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder(other).decode(bytes);
  }
}
