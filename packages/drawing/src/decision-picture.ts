import { RUST, SOFT_INK } from './ink.ts';
import { type Markup, markup } from './markup.ts';
import { label, labels, type PictureWords, picture, wrapped } from './picture.ts';
import { panelShapes, type RunPanels } from './run-panels.ts';
import { type SideView, sideShapes } from './side-view.ts';

/** The decision in one picture: what to build in words, and the side view beside it. */
export interface DecisionPicture {
  words: PictureWords;
  /** Over everything: the car, and that it is invented when it is. */
  heading: string;
  stamp?: string;
  /** What stands in the car already, before the rest, and the words between the two. */
  lead?: { headline: string; rows: readonly { name: string; text: string }[]; anew: string };
  headline: string;
  place: string;
  rows: readonly { name: string; text: string }[];
  caution: { strong: string; rest: string };
  /** The tub standing and in a run; the standing alone where no run is known. */
  side: RunPanels | SideView;
}

const COLUMN = 380;
const LEFT = 16;
const NAME = 74;
const LEADING = 15;

/** The decision as one picture, words on the left and the side view on the right. */
export function decisionPicture(drawn: DecisionPicture): string {
  const side = 'run' in drawn.side ? panelShapes(drawn.side) : sideShapes(drawn.side);
  const parts: Markup[] = [];
  let y = 26;
  const lines = (
    texts: readonly string[],
    x: number,
    style: Parameters<typeof labels>[3],
    leading = LEADING,
  ): void => {
    parts.push(labels(x, y, texts, style, leading));
    y += texts.length * leading;
  };
  lines(wrapped(drawn.heading, 58), LEFT, { size: 12, ink: SOFT_INK });
  if (drawn.stamp !== undefined) lines([drawn.stamp], LEFT, { size: 12, bold: true, ink: RUST });
  y += 14;
  const told = (rows: DecisionPicture['rows']): void => {
    for (const { name, text } of rows) {
      parts.push(label(LEFT, y, name, { size: 12, ink: SOFT_INK }));
      lines(wrapped(text, 46), LEFT + NAME, { size: 12 });
      y += 4;
    }
  };
  if (drawn.lead !== undefined) {
    lines(wrapped(drawn.lead.headline, 46), LEFT, { size: 14, bold: true }, 19);
    told(drawn.lead.rows);
    y += 10;
    lines([drawn.lead.anew], LEFT, { size: 12, ink: SOFT_INK });
    y += 10;
  }
  lines(wrapped(drawn.headline, 30), LEFT, { size: 21, bold: true }, 26);
  lines(wrapped(drawn.place, 58), LEFT, { size: 12 });
  y += 10;
  told(drawn.rows);
  y += 10;
  const top = y - 13;
  lines([drawn.caution.strong], LEFT + 12, { size: 12, bold: true });
  lines(wrapped(drawn.caution.rest, 56), LEFT + 12, { size: 12 });
  parts.push(markup`<rect x="${LEFT}" y="${top}" width="4" height="${y - 12 - top}" fill="${RUST}"/>`);
  const height = Math.max(y + 8, side.height + 16);
  const body = markup`${parts}<g transform="translate(${COLUMN + 20} 8)">${side.body}</g>`;
  return picture(drawn.words, COLUMN + 20 + side.width, height, body);
}
