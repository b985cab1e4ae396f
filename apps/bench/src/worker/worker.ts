import { count, type Listener, lookAt, refine } from './estimator.ts';
import { learnFromTables } from './learning.ts';
import type { Answer, LearnAnswer, LearnQuestion, Question } from './messages.ts';

let channel: MessageChannel | undefined;
const turns: (() => void)[] = [];

/** Lets the messages that wait be taken before the work goes on; a timer would wait longer. */
function turn(): Promise<void> {
  if (channel === undefined) {
    channel = new MessageChannel();
    channel.port1.onmessage = () => turns.shift()?.();
  }
  const { port2 } = channel;
  return new Promise((resolve) => {
    turns.push(resolve);
    port2.postMessage(0);
  });
}

let newest = -1;

async function answer({ data }: MessageEvent<Question>): Promise<void> {
  const { id } = data;
  newest = id;
  const listener: Listener = {
    tell: (answer) => {
      if (newest === id) self.postMessage({ id, ...answer } as Answer);
    },
    goOn: async () => {
      await turn();
      return newest === id;
    },
  };
  try {
    await { look: lookAt, count, refine }[data.kind](data, listener);
  } catch (error) {
    listener.tell({ kind: 'problem', message: error instanceof Error ? error.message : String(error) });
  }
}

function teach({ lesson }: LearnQuestion): void {
  const tell = (answer: LearnAnswer): void => self.postMessage(answer);
  try {
    tell({ kind: 'learnt', learnt: learnFromTables(lesson, (words) => tell({ kind: 'doing', words })) });
  } catch (error) {
    tell({ kind: 'problem', message: error instanceof Error ? error.message : String(error) });
  }
}

/** Answers the questions that reach this worker. */
export function answerQuestions(): void {
  self.onmessage = (event: MessageEvent<Question | LearnQuestion>) => {
    if (event.data.kind === 'learn') teach(event.data);
    else void answer(event as MessageEvent<Question>);
  };
}
