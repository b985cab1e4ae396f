import { parse, stringify } from 'yaml';
import { z } from 'zod';
import { nameList } from '../nearest-name.ts';
import { beyondPlain } from '../text/plain-yaml.ts';

/** Version of the file's layout; a reader refuses another. */
const BOOK_VERSION = 1;

/** How cars and books are named: they are names of folders too. */
const NAME = /^[a-z0-9][a-z0-9-]{0,59}$/;
/** What such a name may hold, in words. */
export const BOOK_NAME_WORDS = 'small letters, digits and hyphens, 60 at most';
export const isBookName = (text: string): boolean => NAME.test(text);

const shortText = z.string().trim().min(1).max(80);
const bookSchema = z.strictObject({
  format: z.literal('tubgap book'),
  version: z.literal(BOOK_VERSION),
  name: z.string().regex(NAME),
  /** True when the shop and its cars are made up. */
  invented: z.boolean().default(false),
  /** Whoever sets its tubs out; what one builder does wrong he may do wrong again. */
  builder: shortText.optional(),
  /** The tape that its tyres are measured with: an error of it is in all of them. */
  tape: shortText.optional(),
});

/** What a shop's book says of the shop. */
export type BookFile = z.output<typeof bookSchema>;

const HEAD = `# A shop's book: its cars, and what was seen of them. A folder a car lies in cars/. The fields may be changed by hand.
`;

/** A book's file as text. */
export const bookFileText = (book: Omit<BookFile, 'format' | 'version'>): string =>
  HEAD +
  stringify(bookSchema.parse({ format: 'tubgap book', version: BOOK_VERSION, ...book }), { lineWidth: 110 });

/** A book's file from its text, or why it is none. */
export function readBookFile(text: string): BookFile | { problem: string } {
  const beyond = beyondPlain(text);
  if (beyond !== undefined) return { problem: beyond.problem.reason };
  let raw: unknown;
  try {
    raw = parse(text, { maxAliasCount: 0 });
  } catch (error) {
    return { problem: `it is not sound YAML: ${(error as Error).message.split('\n')[0]}` };
  }
  const { format, version } = (raw ?? {}) as { format?: unknown; version?: unknown };
  if (format !== 'tubgap book') return { problem: 'it is no book: "format: tubgap book" must stand in it' };
  if (version !== BOOK_VERSION) {
    return { problem: `it has layout ${String(version)}, this program reads layout ${BOOK_VERSION}` };
  }
  const read = bookSchema.safeParse(raw);
  if (read.success) return read.data;
  const { path, message } = read.error.issues[0]!;
  const fields = nameList(Object.keys(bookSchema.shape));
  return { problem: `${path.join('.') || 'a field'}: ${message}; its fields are ${fields}` };
}
