import type { ZodType } from 'zod';
import { ResultsError } from './results-error.ts';
import { openSealed } from './seal.ts';

/** How a kind of sealed file is checked. */
export interface Layout<T> {
  /** A reader refuses another. */
  version: number;
  schema: ZodType<T>;
  /** Why parts that are sound alone do not belong together; undefined when they do. */
  disagreement: (value: T) => string | undefined;
  /** What gives a good file, a sentence. */
  again: string;
}

/**
 * The value of a sealed file, checked in full: nothing that was changed, cut off or damaged since it was written is read.
 * @throws ResultsError that says what is wrong and what to do
 */
export function readLayout<T>(
  file: string,
  text: string,
  { version, schema, disagreement, again }: Layout<T>,
): T {
  let opened: ReturnType<typeof openSealed>;
  try {
    opened = openSealed(text);
  } catch (error) {
    throw new ResultsError(`${file}: not readable as JSON (${(error as Error).message}). ${again}`);
  }
  const written = (opened.value as { version?: unknown } | null)?.version;
  if (written !== version) {
    const layout = typeof written === 'number' ? `in layout ${written}` : 'in no layout of this program';
    throw new ResultsError(`${file}: written ${layout}; this program reads layout ${version}. ${again}`);
  }
  if ('fault' in opened) {
    const what =
      opened.fault === 'changed'
        ? 'it does not match its digest: something in it was changed after it was written'
        : 'it holds no digest to check it by: its first lines were changed';
    throw new ResultsError(
      `${file}: ${what}, by hand or by a fault of the disk, and none of it can be trusted. ${again}`,
    );
  }
  const parsed = schema.safeParse(opened.value);
  const first = parsed.error?.issues[0];
  const wrong = first ? `${first.path.join('.')}: ${first.message}` : disagreement(parsed.data!);
  if (wrong === undefined) return parsed.data!;
  throw new ResultsError(`${file}: ${wrong}. ${again}`);
}
