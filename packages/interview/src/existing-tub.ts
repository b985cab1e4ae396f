import type { Case } from '@tubgap/casefile';
import { formatQuantity } from '@tubgap/units';
import type { InterviewedCase } from './to-case.ts';

/**
 * A case with the tub that is in the car, as told: inside it is as a tape shows it, whatever lies on the skin; its width is
 * that of the tub of the list that is nearest in size, for nobody is asked for it.
 * @param tubs  of the shop's list, one or more
 */
export function withExisting(interviewed: InterviewedCase, tubs: Case['tubs']): InterviewedCase {
  const { document, existing } = interviewed;
  if (existing === undefined) return interviewed;
  const { diameter, topHeight, centreForward } = existing;
  const away = (tub: Case['tubs'][number]): number => Math.abs(tub.diameter - diameter.value);
  const nearest = tubs.reduce((best, tub) => (away(tub) < away(best) ? tub : best));
  const written = {
    insideDiameter: diameter.text,
    insideWidth: formatQuantity(nearest.insideWidth, 'length'),
    liner: '0 in',
    topHeight: topHeight.text,
    ...(centreForward && { centreForward: centreForward.text }),
  };
  return {
    ...interviewed,
    document: { ...document, build: { ...(document.build as object), existing: written } },
  };
}
