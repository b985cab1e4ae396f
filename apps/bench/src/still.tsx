import { renderToString } from 'preact-render-to-string';
import { NOTHING_ASKED } from './ask/ask-state.ts';
import type { Carried } from './carried/carried.ts';
import { Root } from './page/root.tsx';

/**
 * The page of a case as it first looks, as HTML: it stands in the file, to be seen before any script has run, and the
 * script takes it over as it is. Without a case: the questions, nothing asked yet. @throws Error when the case is not sound
 */
export const stillOf = (carried: Carried | null): string =>
  renderToString(<Root carried={carried} demo={undefined} link="" kept={NOTHING_ASKED} />);
