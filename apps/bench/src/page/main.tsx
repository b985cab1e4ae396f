import './style.css';
import { render } from 'preact';
import type { Carried } from '../carried/carried.ts';
import { answerQuestions } from '../worker/worker.ts';
import { App } from './app.tsx';

// The page's workers run this same script, so that the file holds the engine once.
if (typeof document === 'undefined') answerQuestions();
else {
  const carried = JSON.parse(document.getElementById('carried')!.textContent!) as Carried;
  render(<App carried={carried} />, document.getElementById('page')!);
}
