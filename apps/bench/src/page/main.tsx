import './no-eval.ts';
import './style.css';
import './phone.css';
import '../ask/ask.css';
import { hydrate, render } from 'preact';
import { NOTHING_ASKED } from '../ask/ask-state.ts';
import { keptState } from '../ask/kept.ts';
import type { Carried } from '../carried/carried.ts';
import { answerQuestions } from '../worker/worker.ts';
import { beginWorker } from './page-worker.ts';
import { Root } from './root.tsx';

const jsonOf = <T,>(id: string): T => JSON.parse(document.getElementById(id)!.textContent!) as T;

// The page's workers run this same script, so that the file holds the engine once.
if (typeof document === 'undefined') answerQuestions();
else {
  beginWorker();
  document.getElementById('asleep')?.remove();
  const place = document.getElementById('page')!;
  try {
    const carried = jsonOf<Carried | null>('carried');
    const link = location.hash.slice(1);
    const kept = carried === null ? keptState() : undefined;
    if (kept !== undefined) place.textContent = '';
    const root = (
      <Root
        carried={carried}
        demo={carried === null ? jsonOf<Carried>('demo') : undefined}
        link={link}
        kept={kept ?? NOTHING_ASKED}
      />
    );
    // Without a link the page stands there as it first looks, drawn when it was made.
    if (place.hasChildNodes()) hydrate(root, place);
    else render(root, place);
    place.inert = false;
  } catch (error) {
    // Only a page that was changed by hand carries a case that cannot be read.
    place.textContent = `This page cannot be shown: ${error instanceof Error ? error.message : String(error)}`;
  }
}
