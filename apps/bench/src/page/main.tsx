import './no-eval.ts';
import './style.css';
import { hydrate, render } from 'preact';
import type { Carried } from '../carried/carried.ts';
import { answerQuestions } from '../worker/worker.ts';
import { App } from './app.tsx';
import { beginWorker } from './estimate.ts';

// The page's workers run this same script, so that the file holds the engine once.
if (typeof document === 'undefined') answerQuestions();
else {
  beginWorker();
  document.getElementById('asleep')?.remove();
  const place = document.getElementById('page')!;
  try {
    const carried = JSON.parse(document.getElementById('carried')!.textContent!) as Carried;
    const link = location.hash.slice(1);
    const app = <App carried={carried} link={link} />;
    // Without a link the page stands there as it first looks, drawn when the case was put in.
    if (place.hasChildNodes()) hydrate(app, place);
    else render(app, place);
    place.inert = false;
  } catch (error) {
    // Only a page that was changed by hand carries a case that cannot be read.
    place.textContent = `This page cannot be shown: ${error instanceof Error ? error.message : String(error)}`;
  }
}
