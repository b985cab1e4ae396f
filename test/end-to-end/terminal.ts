import { spawn } from 'node:child_process';
import { stripVTControlCharacters } from 'node:util';
import { FRONT_DOOR } from './command.ts';

/** What ended at a terminal: its exit code, and all that was shown, without colours. */
export interface Shown {
  code: number | null;
  shown: string;
}

/** A question that is open (◆), or whose answer was refused (▲). */
const OPEN = /[◆▲] {2}.+/g;

const quoted = (word: string) => `'${word.replaceAll("'", "'\\''")}'`;

/**
 * Runs `tubgap …` in a folder at a terminal of its own (the system's `script`), and answers each question as it opens.
 * @param answer  keys for a question, Enter among them; `refused`: what was answered stands there still
 */
export function atTerminal(
  folder: string,
  words: readonly string[],
  answer: (question: string, refused: boolean) => string,
): Promise<Shown> {
  const command = [process.execPath, FRONT_DOOR, ...words].map(quoted).join(' ');
  const child = spawn('script', ['-qefc', `stty cols 200 rows 50; exec ${command}`, '/dev/null'], {
    cwd: folder,
    env: { ...process.env, TERM: 'xterm-256color' },
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  let shown = '';
  let last = { question: '', refused: false };
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    shown += text;
    const line = [...stripVTControlCharacters(shown).matchAll(OPEN)].at(-1)?.[0].trim() ?? '';
    const [question, refused] = [line.slice(3), line.startsWith('▲')];
    // A refused answer that is typed anew opens its question again.
    const isNew = question !== last.question || (refused && !last.refused);
    if (line === '' || !isNew) return;
    last = { question, refused };
    child.stdin.write(answer(question, refused));
  });
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, shown: stripVTControlCharacters(shown) }));
  });
}
