import { levelDimension } from './dimension.ts';
import { SOFT_INK } from './ink.ts';
import { type Markup, markup } from './markup.ts';
import { label, straight } from './picture.ts';

/** A tub from behind, the car's middle on the left. Lengths in m. */
export interface EndView {
  insideWidth: number;
  skin: number;
  /** Flange round the open side. */
  returned: number;
  widthText: string;
  /** Where the case knows it: places from the wheels' mounting face, inward negative. */
  across?: {
    innerPanel: number;
    bodySide: number;
    backspacing: number;
    panelText: string;
    bodyText: string;
    backspacingText: string;
  };
  acrossText: string;
}

/** Where the view stands on the sheet. */
interface Place {
  left: number;
  units: number;
  crownY: number;
  trackY: number;
  legEndY: number;
}

const WIDE = 2.4;
const turned90 = { anchor: 'middle', turn: -90, ink: SOFT_INK, halo: true } as const;

/** Room that the view takes across, m: the tub, or from inner panel to body side. */
export const endWidth = ({ insideWidth, across }: EndView): number =>
  Math.max(insideWidth, across === undefined ? 0 : across.innerPanel + across.bodySide);

/** The tub from behind: a full panel towards the car's middle, open with a return where the wheel goes in. */
export function endView(end: EndView, { left, units, crownY, trackY, legEndY }: Place): Markup {
  const { across, insideWidth } = end;
  const right = left + units * insideWidth;
  const turned = units * end.returned;
  const face = across && left + units * across.innerPanel;
  const line = (x1: number, y1: number, x2: number, y2: number, part: string): Markup =>
    straight(x1, y1, x2, y2, { width: WIDE, part });
  const thin = (x: number, y1: number, y2: number): Markup =>
    straight(x, y1, x, y2, { width: 1, dashes: '14 3 3 3', ink: SOFT_INK });
  const placed: Markup[] =
    across === undefined || face === undefined
      ? []
      : [
          thin(face, crownY - 46, trackY + 4),
          label(face, crownY - 50, 'wheel face', { anchor: 'middle' }),
          straight(face + units * across.bodySide, crownY + 20, face + units * across.bodySide, trackY, {
            width: 1,
            dashes: '8 4',
            part: 'body side',
          }),
          levelDimension(left, face, legEndY + 18, [legEndY, legEndY], across.panelText, 'inner panel'),
          levelDimension(
            face,
            face + units * across.bodySide,
            legEndY + 48,
            [legEndY + 18, legEndY],
            across.bodyText,
            'body side place',
          ),
          levelDimension(
            face - units * across.backspacing,
            face,
            crownY - 30,
            [crownY - 38, crownY - 38],
            across.backspacingText,
            'backspacing',
          ),
        ];
  return markup`${[
    line(left, crownY, right, crownY, 'skin'),
    line(left, crownY, left, legEndY, 'inner panel'),
    line(right, crownY, right, crownY + turned, 'return'),
    straight(right, crownY + turned, right, legEndY, { width: 1, dashes: '2 4', ink: SOFT_INK }),
    straight(left - 12, trackY, Math.max(right, left + units * endWidth(end)) + 10, trackY, { width: WIDE }),
    levelDimension(left, right, crownY + 40, [crownY, crownY], end.widthText, 'inside width'),
    label(left - 6, 0.5 * (crownY + legEndY), 'full end panel', turned90),
    label(right - 6, 0.5 * (crownY + legEndY), 'open, with a return', turned90),
    label(left, trackY + 16, 'middle of the car'),
    label(left, trackY + 34, end.acrossText, { ink: SOFT_INK }),
  ]}${placed}`;
}
