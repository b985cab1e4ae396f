import { decisionPicture } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { ANEW, existingRows } from '../existing-tub.ts';
import { CAUTION, decisionOf, type Piece } from './decision-rows.ts';
import { sideDrawing } from './side-figure.ts';

const plain = (piece: Piece): string => (typeof piece === 'string' ? piece : piece.strong);

/** The decision as one picture in SVG, to be sent or hung up; undefined without a pick. */
export function decisionSvg(result: Result): string | undefined {
  const decision = decisionOf(result);
  const side = sideDrawing(result);
  if (decision === undefined || side === undefined) return undefined;
  const { headline, place, rows, more } = decision;
  const [standing, ...told] = existingRows(result);
  const named = ({ label, text }: (typeof told)[number]) => ({ name: label, text });
  return `${decisionPicture({
    words: {
      id: 'decision',
      title: headline,
      description: `${standing === undefined ? '' : `In the car: ${standing.text}. ${ANEW}: `}${headline}, ${place} ${side.words.description}`,
    },
    heading: result.case.title,
    ...(result.case.invented ? { stamp: 'Invented example, no real car' } : {}),
    ...(standing === undefined
      ? {}
      : { lead: { headline: `In the car: ${standing.text}`, rows: told.map(named), anew: ANEW } }),
    headline,
    place,
    rows: [...rows, ...more].map(({ name, pieces }) => ({ name, text: pieces.map(plain).join('') })),
    caution: CAUTION,
    side,
  })}\n`;
}
