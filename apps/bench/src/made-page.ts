import { readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Asked, readAsked } from './asked-case.ts';
import { demoIn, withCarried } from './carried/carried.ts';
import { stillOf } from './still.tsx';

/** The page as it is built: without a case, so that it begins with its questions. */
const PAGE = new URL('./bench.html', import.meta.url);
/** What the page is called in a results folder; the report links to it by this name. */
export const PAGE_FILE = 'at-the-car.html';

/** The page that begins with its questions. */
export const askingPage = (): string => readFileSync(fileURLToPath(PAGE), 'utf8');

/** The page with a case in it. */
export const pageOf = ({ carried }: Pick<Asked, 'carried'>): string =>
  withCarried(askingPage(), carried, stillOf(carried));

/** The page with the demo in it. */
export const demoPage = (): string => pageOf({ carried: demoIn(askingPage()) });

/**
 * The page of a results folder, by its name there: of the case as it was read for them, begun at their pick.
 * @throws ResultsError, BadInputError
 */
export const resultsPage = (place: string): Record<string, string> => ({
  [PAGE_FILE]: pageOf(readAsked(place, dirname(place), [])),
});
