import { angleHeading, gapWords, onTape, rareRun, type ShownLength, shownLength, whole } from '@tubgap/units';
import { unbroken } from './unbroken.ts';

/** The run that the accepted risk allows, beside the car standing still: what both panels of a drawing speak of. SI. */
export interface PanelSubject {
  accepted: number;
  reserve: number;
  tyre: string;
  /** The moment that leaves the run least, and the gap then, before the reserve is taken off. */
  rare: { moment: string; gap: number; drop: number };
  /** The ray that both panels show: the gap to see standing still, and what the run leaves of it. */
  ray: { angle: number; seen: number; left: number };
  units: 'inch' | 'mm';
}

/** What the two panels say. */
export interface PanelWords {
  standingTitle: string;
  title: string;
  downText: string;
  rayTexts: string[];
  tightTexts: string[];
  runLabel: string;
}

/** How much of what is left is reserve. What is left is rounded down and the reserve up: a part is no more than its whole. */
function ofReserve(gap: number, reserve: number, units: PanelSubject['units']): string {
  if (gap <= 0 || reserve <= 0) return '';
  const isAll = onTape(gap, 'down', units) <= onTape(reserve, 'up', units);
  return isAll ? ', all of it reserve' : `, ${shownLength(reserve, 'up')[units]} of it reserve`;
}

/** Words of the two panels: the gap to see, and the worst run accepted with what it leaves and how much of that is reserve. */
export function panelWords({ accepted, reserve, tyre, rare, ray, units }: PanelSubject): PanelWords {
  const left = gapWords(rare.gap, units);
  const heading = angleHeading(ray.angle);
  return {
    standingTitle: `Standing: see ${whole(shownLength(ray.seen, 'up')[units])} here, ${heading}`,
    title: `The worst run accepted, ${rareRun(accepted)}: ${left} left${ofReserve(rare.gap, reserve, units)}`,
    downText: `body down ${shownLength(rare.drop, 'up')[units]}`,
    rayTexts: [heading, gapWords(ray.left, units)],
    tightTexts: [`${left} left here`],
    runLabel: `${tyre}, ${rare.moment}`,
  };
}

/** What the hatched band of a drawing is. */
export const reserveWords = (reserve: number, units: keyof ShownLength): string =>
  `reserve: ${unbroken(shownLength(reserve, 'up')[units])} to be kept`;

/** Of the rays that a standing car is measured along the one nearest to where a run is tight. */
export const nearestRay = <Ray extends { angle: number }>(rays: readonly Ray[], tightAngle: number): Ray =>
  rays.reduce((a, b) => (Math.abs(b.angle - tightAngle) < Math.abs(a.angle - tightAngle) ? b : a));
