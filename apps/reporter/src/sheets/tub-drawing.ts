import { benchDrawing, type EndView, type Markup } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { angleHeading, type Figures } from '@tubgap/units';
import { figuresOf } from '../figures-of.ts';
import { hardPointShape } from '../hard-points/hard-shape.ts';
import { type ChosenTub, isSetHigher, RETURN } from './chosen-tub.ts';
import { toleranceText } from './lengths.ts';
import { standingView } from './side-drawing.ts';

type HardPoint = Result['hardPoints'][number];

/** Where a hard point is from the axle: its middle, or its corners' range. */
function placeTexts(point: HardPoint, { units, length, offset }: Figures): string[] {
  // Millimetres take more letters than the drawing has room for if each has its unit.
  const along = (ahead: number): string =>
    units === 'mm' ? offset(ahead).replace(' mm', '') : offset(ahead);
  const at = (ahead: number, above: number): string =>
    `${along(ahead)}, ${length(Math.abs(above), 'nearest')} ${above < 0 ? 'under' : 'over'} axle`;
  if (point.shape === 'circle')
    return [`${point.name}, ${length(2 * point.radius, 'nearest')} dia.`, at(point.ahead, point.above)];
  const lowest = point.points.reduce((a, b) => (b.above < a.above ? b : a));
  return [point.name, `corner ${at(lowest.ahead, lowest.above)}`];
}

/** The tub across the car, as far as the case knows the place of its panels. */
function acrossView(result: Result, { tub }: ChosenTub): EndView {
  const { length } = figuresOf(result);
  const { across, build } = result;
  const backspacing = result.tyres.find(({ name }) => name === build.tyre)?.backspacing;
  const nearest = (metres: number): string => length(metres, 'nearest');
  return {
    insideWidth: tub.insideWidth,
    skin: tub.skinThickness,
    returned: RETURN,
    widthText: `${length(tub.insideWidth, 'down')} inside`,
    ...(across !== undefined && backspacing !== undefined
      ? {
          across: {
            ...across,
            backspacing,
            panelText: `inner wall ${nearest(across.innerPanel)}`,
            bodyText: `body side ${nearest(across.bodySide)}`,
            backspacingText: `backspacing ${nearest(backspacing)}`,
          },
          acrossText: 'from the wheel face',
        }
      : { acrossText: 'place across the car: not in the case' }),
  };
}

/** The bench drawing of the tub to build as it is set out. */
export function tubDrawing(result: Result, chosen: ChosenTub): Markup {
  const figures = figuresOf(result);
  const { shown, length, alongBoth } = figures;
  const { tub, setOut, height, reach, allowed } = chosen;
  const side = standingView(result, chosen);
  const top = shown(setOut, 'up');
  const leg = tub.legLength - reach.legTrim;
  const legText = length(leg, reach.legTrim > 0 ? 'down' : 'nearest');
  const end = shown(reach.legEnd, reach.legTrim > 0 ? 'up' : 'down');
  const lower = toleranceText(allowed?.lower ?? 0, figures);
  const along = `ahead ${toleranceText(allowed?.ahead ?? 0, figures)}, back ${toleranceText(allowed?.back ?? 0, figures)}`;
  return {
    markup: benchDrawing({
      words: {
        id: 'tub-drawing',
        title: `${tub.name} from the side and from behind`,
        description: `To scale. ${side.words.description} Inside radius ${length(tub.radius, 'nearest')}, legs ${legText}, ending ${end.both} above the track, ${length(tub.insideWidth, 'down')} wide inside.`,
      },
      side: { ...side, tub: { ...side.tub, legLength: leg } },
      standingLabel: side.standingLabel,
      end: acrossView(result, chosen),
      topTexts: [
        `top inside ${top.both}`,
        ...(isSetHigher(chosen) ? [`at the least ${length(height.topHeight, 'up')}`] : []),
      ],
      axleTexts: side.axleTexts,
      centreTexts: side.centreTexts,
      offsetText: side.offsetText,
      radiusText: `R ${length(tub.radius, 'nearest')}`,
      ...(leg > 0 && { legText: `leg ${legText}` }),
      legEndTexts: ['ends at', end.own, end.other],
      hardPoints: result.hardPoints.map((point) => ({
        point: hardPointShape(point),
        texts: placeTexts(point, figures),
      })),
      notches: tub.notches.map(({ angle, depth }) => ({
        angle,
        depth,
        texts: [`notch ${angleHeading(angle)},`, `${length(depth, 'down')} inside the arc`],
      })),
      block: [
        {
          name: 'drawn',
          text: `${tub.name}, ${length(tub.diameter, 'down')} inside, bare skin; both sides alike`,
        },
        { name: 'tolerances', text: `top lower by ${lower}; centre ${along}` },
        {
          name: 'lengths',
          text: `${figures.units === 'mm' ? 'mm' : 'inches'} (${figures.units === 'mm' ? 'inches' : 'mm'}); centre ${alongBoth(tub.centreForward)}`,
        },
        { name: 'issue', text: `${result.case.name}, ${result.madeBy}, seed ${String(result.seed)}` },
        { name: 'date, drawn by', text: '' },
      ],
    }),
  };
}
