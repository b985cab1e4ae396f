import { answerCall, type CallAnswer, Outdated } from '@tubgap/interview';
import { count, type Listener, lookAt, refine } from './estimator.ts';
import { learnFromTables } from './learning.ts';
import { limitsFor } from './limits.ts';
import { type Mate, mateAt, serveAt } from './mate.ts';
import type {
  AskedCall,
  LearnAnswer,
  LearnQuestion,
  LimitsAnswer,
  LimitsQuestion,
  MateOffered,
  MateWanted,
  Question,
} from './messages.ts';

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
let mate: Mate | undefined;

/** Works out an answer and tells it bit by bit, as long as no newer question came. */
async function answer<Body extends object>(
  id: number,
  work: (listener: { tell: (body: Body) => void; goOn: () => Promise<boolean> }) => Promise<void>,
): Promise<void> {
  newest = id;
  const post = (body: object): void => {
    if (newest === id) self.postMessage({ id, ...body });
  };
  const goOn = async (): Promise<boolean> => {
    await turn();
    return newest === id;
  };
  try {
    await work({ tell: post, goOn });
  } catch (error) {
    if (error instanceof Outdated) return;
    post({ kind: 'problem', message: error instanceof Error ? error.message : String(error) });
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

async function tellLimits(question: LimitsQuestion): Promise<void> {
  const tell = (answer: LimitsAnswer): void => self.postMessage(answer);
  try {
    tell({ kind: 'limits', found: await limitsFor(question, (share) => tell({ kind: 'doing', share })) });
  } catch (error) {
    tell({ kind: 'problem', message: error instanceof Error ? error.message : String(error) });
  }
}

/** Answers a call; with one that nobody asks the engine is made quick, and once the mate is there the mate's as well. */
async function answerOrWarmUp(call: AskedCall): Promise<void> {
  const work = (): Promise<void> =>
    answer<CallAnswer>(call.id, (listener) => answerCall(call, { ...listener, mate: mate?.perform() }));
  await work();
  if (!call.warmUp || mate === undefined) return;
  await mate.there;
  if (newest === call.id) await work();
}

/** Answers the questions that reach this worker. */
export function answerQuestions(): void {
  self.onmessage = ({
    data,
  }: MessageEvent<Question | AskedCall | LearnQuestion | LimitsQuestion | MateOffered | MateWanted>) => {
    if (data.kind === 'learn') teach(data);
    else if (data.kind === 'limits') void tellLimits(data);
    else if (data.kind === 'mate') mate = mateAt(data.port);
    else if (data.kind === 'serve') serveAt(data.port);
    else if (data.kind === 'ask') void answerOrWarmUp(data);
    else {
      const work = { look: lookAt, count, refine }[data.kind];
      void answer<Parameters<Listener['tell']>[0]>(data.id, (listener) => work(data, listener));
    }
  };
}
