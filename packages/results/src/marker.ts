import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';

/**
 * The file by which a folder is known as one of this program's own. It lists what the program wrote there, each file with
 * the SHA-256 of the bytes that were written: whatever is not listed belongs to somebody else, and a file of another digest
 * was changed by somebody. The same results give the same bytes.
 *
 *     { "format": "tubgap folder", "version": 1, "kind": "pick", "asked": "tubgap pick case/case.yaml",
 *       "files": { "case/case.yaml": "9f86…", "result.json": "60303…" }, "kept": ["check-sheet.changed.csv"] }
 */
export const MARKER_FILE = 'written.json';

/** What a folder holds: a folder is replaced only by one of the same kind. */
const KINDS = [
  'pick',
  'sweep',
  'compare',
  'place',
  'optimise',
  'learned',
  'first test',
  'year',
  'book',
] as const;
export type FolderKind = (typeof KINDS)[number];

const markerSchema = z.strictObject({
  format: z.literal('tubgap folder'),
  version: z.literal(1),
  kind: z.enum(KINDS),
  /** The command that makes the same again. */
  asked: z.string(),
  /** Names, below folders with '/', and the SHA-256 of what was written, in hexadecimal digits. */
  files: z.record(z.string(), z.string().regex(/^[0-9a-f]{64}$/)),
  /** Files of somebody else that stay with the folder when it is written anew. */
  kept: z.array(z.string()),
});
export type Marker = z.infer<typeof markerSchema>;

/** SHA-256 of a file's bytes, in hexadecimal digits. */
export const digestOf = (bytes: string | Uint8Array): string =>
  createHash('sha256').update(bytes).digest('hex');

/** The list of a folder; undefined when there is none that this program can read. */
export function readMarker(place: string): Marker | undefined {
  const file = join(place, MARKER_FILE);
  if (!existsSync(file)) return undefined;
  try {
    return markerSchema.parse(JSON.parse(readFileSync(file, 'utf8')));
  } catch {
    return undefined;
  }
}

/** A list as the text of its file, names in order. */
export function markerText(marker: Marker): string {
  const files = Object.fromEntries(Object.entries(marker.files).sort(([a], [b]) => (a < b ? -1 : 1)));
  return `${JSON.stringify({ ...marker, files, kept: [...marker.kept].sort() }, null, 1)}\n`;
}
