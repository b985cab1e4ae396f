import { legEndSide, type Tub, tubGap, VERTICAL } from '../tub/profile.ts';
import { heightForNotch } from './notch.ts';

/**
 * Whether what lies beyond ±100° of an outline surely stays clear of the legs with the arc's centre at a height: it lies
 * below the axle and reaches no further than the widest radius. Endless legs are taken: they reach further down.
 */
export function sidesFit(
  widest: number,
  halfExtent: number,
  offset: number,
  radius: number,
  centre: number,
): boolean {
  const reach = widest + Math.abs(offset);
  // Whatever the slant; most tubs pass here, without a sine.
  if (reach - Math.min(0, centre) <= radius) return true;
  if (halfExtent >= VERTICAL) return reach <= radius;
  return reach * Math.sin(halfExtent) - centre * Math.cos(halfExtent) <= radius;
}

/**
 * Whether a round tyre stands clear below the widest part of a tub: between its legs, or under the ends of legs that it
 * is too wide for. With the arc's centre above the axle every higher place of the tub leaves more room.
 */
function standsBelow(widest: number, tub: Tub, offset: number, reserve: number, centre: number): boolean {
  const round = widest + reserve;
  const side = Math.abs(offset);
  if (!(centre > 0 && side < legEndSide(tub))) return false;
  // Neither an upright leg nor its end is nearer than this: most moments of a tub that is too narrow end here.
  if (tub.halfExtent >= VERTICAL && tub.radius - side < round && centre - tub.legLength < 0) return false;
  return tubGap(tub, -offset, -centre) >= round;
}

/**
 * Whether a round outline keeps the reserve with the crown at a height: then no outline that stays within it needs
 * more. Decides what need not be searched.
 * @param largest  at least the largest radius of the outline within ±100°, m
 * @param widest  the same within ±120°
 * @param height  of the crown above the axle, m
 */
export function roundFits(
  largest: number,
  widest: number,
  tub: Tub,
  offset: number,
  reserve: number,
  height: number,
): boolean {
  const room = tub.radius - largest - reserve;
  const centre = height - tub.radius;
  if (
    !(room > 0 && offset * offset + centre * centre <= room * room) ||
    !sidesFit(widest, tub.halfExtent, offset, tub.radius - reserve, centre)
  ) {
    return standsBelow(widest, tub, offset, reserve, centre);
  }
  if (tub.notches !== undefined) {
    for (const notch of tub.notches) {
      if (heightForNotch(tub, notch, largest, offset, reserve) > height) return false;
    }
  }
  return true;
}
