import { decisionPicture } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { CAUTION, decisionOf, type Piece } from './decision-rows.ts';
import { sideDrawing } from './side-figure.ts';

const plain = (piece: Piece): string => (typeof piece === 'string' ? piece : piece.strong);

/** The decision as one picture in SVG, to be sent or hung up; undefined without a pick. */
export function decisionSvg(result: Result): string | undefined {
  const decision = decisionOf(result);
  const side = sideDrawing(result);
  if (decision === undefined || side === undefined) return undefined;
  const { headline, place, rows } = decision;
  return `${decisionPicture({
    words: {
      id: 'decision',
      title: headline,
      description: `${headline}, ${place} ${side.words.description}`,
    },
    heading: result.case.title,
    ...(result.case.invented ? { stamp: 'Invented example, no real car' } : {}),
    headline,
    place,
    rows: rows.map(({ name, pieces }) => ({ name, text: pieces.map(plain).join('') })),
    caution: CAUTION,
    side,
  })}\n`;
}
