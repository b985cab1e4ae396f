import { benchDrawing, type EndView, type Markup } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { alongText, angleHeading, offsetText, shownLength, sixteenths } from '@tubgap/units';
import { hardPointShape } from '../hard-points/hard-shape.ts';
import { type ChosenTub, isSetHigher, RETURN } from './chosen-tub.ts';
import { toleranceText } from './lengths.ts';
import { standingView } from './side-drawing.ts';

type HardPoint = Result['hardPoints'][number];

/** Where a hard point is from the axle: its middle, or its corners' range. */
function placeTexts(point: HardPoint): string[] {
  const at = (ahead: number, above: number): string =>
    `${offsetText(ahead, 'inch')}, ${sixteenths(Math.abs(above), 'nearest')} ${above < 0 ? 'under' : 'over'} axle`;
  if (point.shape === 'circle')
    return [`${point.name}, ${sixteenths(2 * point.radius, 'nearest')} dia.`, at(point.ahead, point.above)];
  const lowest = point.points.reduce((a, b) => (b.above < a.above ? b : a));
  return [point.name, `corner ${at(lowest.ahead, lowest.above)}`];
}

/** The tub across the car, as far as the case knows the place of its panels. */
function acrossView(result: Result, { tub }: ChosenTub): EndView {
  const { across, build } = result;
  const backspacing = result.tyres.find(({ name }) => name === build.tyre)?.backspacing;
  const inch = (metres: number): string => sixteenths(metres, 'nearest');
  return {
    insideWidth: tub.insideWidth,
    skin: tub.skinThickness,
    returned: RETURN,
    widthText: `${sixteenths(tub.insideWidth, 'down')} inside`,
    ...(across !== undefined && backspacing !== undefined
      ? {
          across: {
            ...across,
            backspacing,
            panelText: `inner wall ${inch(across.innerPanel)}`,
            bodyText: `body side ${inch(across.bodySide)}`,
            backspacingText: `backspacing ${inch(backspacing)}`,
          },
          acrossText: 'from the wheel face',
        }
      : { acrossText: 'place across the car: not in the case' }),
  };
}

/** The bench drawing of the tub to build as it is set out. */
export function tubDrawing(result: Result, chosen: ChosenTub): Markup {
  const { tub, setOut, height, reach, allowed } = chosen;
  const side = standingView(result, chosen);
  const top = shownLength(setOut, 'up');
  const leg = tub.legLength - reach.legTrim;
  const legText = sixteenths(leg, reach.legTrim > 0 ? 'down' : 'nearest');
  const end = shownLength(reach.legEnd, reach.legTrim > 0 ? 'up' : 'down');
  const lower = toleranceText(allowed?.lower ?? 0);
  const along = `ahead ${toleranceText(allowed?.ahead ?? 0)}, back ${toleranceText(allowed?.back ?? 0)}`;
  return {
    markup: benchDrawing({
      words: {
        id: 'tub-drawing',
        title: `${tub.name} from the side and from behind`,
        description: `To scale. ${side.words.description} Inside radius ${sixteenths(tub.radius, 'nearest')}, legs ${legText}, ending ${end.both} above the track, ${sixteenths(tub.insideWidth, 'down')} wide inside.`,
      },
      side: { ...side, tub: { ...side.tub, legLength: leg } },
      standingLabel: side.standingLabel,
      end: acrossView(result, chosen),
      topTexts: [
        `top inside ${top.both}`,
        ...(isSetHigher(chosen) ? [`at the least ${sixteenths(height.topHeight, 'up')}`] : []),
      ],
      axleTexts: side.axleTexts,
      centreTexts: side.centreTexts,
      offsetText: side.offsetText,
      radiusText: `R ${sixteenths(tub.radius, 'nearest')}`,
      ...(leg > 0 && { legText: `leg ${legText}` }),
      legEndTexts: ['ends at', end.inch, end.mm],
      hardPoints: result.hardPoints.map((point) => ({
        point: hardPointShape(point),
        texts: placeTexts(point),
      })),
      notches: tub.notches.map(({ angle, depth }) => ({
        angle,
        depth,
        texts: [`notch ${angleHeading(angle)},`, `${sixteenths(depth, 'down')} inside the arc`],
      })),
      block: [
        {
          name: 'drawn',
          text: `${tub.name}, ${sixteenths(tub.diameter, 'down')} inside, bare skin; both sides alike`,
        },
        { name: 'tolerances', text: `top lower by ${lower}; centre ${along}` },
        { name: 'lengths', text: `inches (mm); centre ${alongText(tub.centreForward, 'both')}` },
        { name: 'issue', text: `${result.case.name}, ${result.madeBy}, seed ${String(result.seed)}` },
        { name: 'date, drawn by', text: '' },
      ],
    }),
  };
}
