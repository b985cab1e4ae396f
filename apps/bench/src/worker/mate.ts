import { openPiece, type Piece, type PieceResult } from '@tubgap/interview';
import type { AskedPiece, MateAnswer } from './messages.ts';

/** Another worker that takes pieces of the work. */
export interface Mate {
  /** Settled when it can be given pieces. */
  there: Promise<void>;
  /** Gives it pieces, one at a time; undefined as long as it is not there. */
  perform: () => ((number: number, piece: Piece) => Promise<PieceResult>) | undefined;
}

/** The mate at the far end of a port. */
export function mateAt(port: MessagePort): Mate {
  let isThere = false;
  let arrive: () => void;
  const there = new Promise<void>((resolve) => {
    arrive = resolve;
  });
  const waiting: ((answer: MateAnswer) => void)[] = [];
  port.onmessage = ({ data }: MessageEvent<MateAnswer>) => {
    if (data.kind === 'there') {
      isThere = true;
      arrive();
    } else waiting.shift()?.(data);
  };
  const perform = (number: number, piece: Piece): Promise<PieceResult> =>
    new Promise((resolve, reject) => {
      waiting.push((answer) => {
        if (answer.kind === 'result') resolve(answer.result);
        else if (answer.kind === 'problem') reject(answer.error);
      });
      port.postMessage({ number, piece } satisfies AskedPiece);
    });
  return { there, perform: () => (isThere ? perform : undefined) };
}

/** Works out the pieces that come through a port, in their order; what they are of is made ready once. */
export function serveAt(port: MessagePort): void {
  let ready: { number: number; perform: ReturnType<typeof openPiece> } | undefined;
  const say = (answer: MateAnswer): void => port.postMessage(answer);
  port.onmessage = ({ data: { number, piece } }: MessageEvent<AskedPiece>) => {
    try {
      if (ready?.number !== number) ready = { number, perform: openPiece(piece) };
      say({ kind: 'result', result: ready.perform(piece.task) });
    } catch (error) {
      say({ kind: 'problem', error });
    }
  };
  say({ kind: 'there' });
}
