import { renderToString } from 'preact-render-to-string';
import type { Carried } from './carried/carried.ts';
import { App } from './page/app.tsx';

/**
 * The page of a case as it first looks, as HTML: it stands in the file, to be seen before any script has run, and the
 * script takes it over as it is. @throws Error when the case is not sound
 */
export const stillOf = (carried: Carried): string => renderToString(<App carried={carried} link="" />);
