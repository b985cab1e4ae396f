import type { Case, CaseTub } from '../case.ts';
import type { Catalogue, CatalogueTub } from '../catalogue/catalogue.ts';
import { lastPart } from '../catalogue/catalogue-file.ts';
import { didYouMean, nameList } from '../nearest-name.ts';
import type { WrittenCase } from '../schema.ts';
import type { Ledger } from './ledger.ts';
import type { Report } from './selection.ts';
import { caseTub } from './tub.ts';

/** What a tub is called that is told by its measures alone. */
const OWN_NAME = 'existing';

type Written = NonNullable<WrittenCase['build']['existing']>;

/** A tub by its own measures; undefined after a report. */
function ownTub(
  written: Written,
  centreForward: number,
  ledger: Ledger,
  report: Report,
): CaseTub | undefined {
  const { insideDiameter, insideWidth } = written;
  if (insideDiameter === undefined || insideWidth === undefined) {
    const reason =
      'it is not said which tub it is: give tub, its name in the catalogue, or insideDiameter and insideWidth';
    report(['build', 'existing'], { code: 'missing', reason });
    return undefined;
  }
  const taken = (field: 'liner' | 'arcExtent' | 'legLength'): number => written[field] ?? assumed(field);
  const assumed = (field: string): number => ledger.assume(`tubs[].${field}`, ['build', 'existing', field]);
  return {
    name: OWN_NAME,
    diameter: insideDiameter,
    insideWidth,
    liner: taken('liner'),
    arcExtent: taken('arcExtent'),
    legLength: taken('legLength'),
    skinThickness: assumed('skinThickness'),
    arealDensity: assumed('arealDensity'),
    centreForward,
    notches: [],
  };
}

/**
 * The tub that is in the car already: one of the catalogue by its name, whether the case lists it or not, or one by its own
 * measures. It may be too small for the tyres: that is for the verdict to say.
 * @param listed  the case's tubs: where one of its name stands, and its notches, are taken from there
 */
export function existingTub(
  { build, tubCentreForward }: WrittenCase,
  { file, rows, issues }: Catalogue<CatalogueTub>,
  listed: readonly CaseTub[],
  ledger: Ledger,
  report: Report,
): Case['existing'] {
  const written = build.existing;
  if (written === undefined) return undefined;
  const { tub: name, topHeight } = written;
  const known = listed.find((tub) => tub.name === name);
  const centre = (): number =>
    written.centreForward ?? known?.centreForward ?? tubCentreForward ?? ledger.assume('tubCentreForward');
  if (name === undefined) {
    const tub = ownTub(written, centre(), ledger, report);
    return tub && { tub, topHeight };
  }
  const measures = (['insideDiameter', 'insideWidth', 'liner', 'arcExtent', 'legLength'] as const).filter(
    (field) => written[field] !== undefined,
  );
  for (const field of measures) {
    const reason = `tub names one of the catalogue, which has its own ${field}; leave out one of the two`;
    report(['build', 'existing', field], { code: 'contradiction', reason }, 'error', 'key');
  }
  const row = rows.find((candidate) => candidate.name === name);
  if (row === undefined) {
    if (issues.length > 0) return undefined;
    const names = rows.map((candidate) => candidate.name);
    const hint = didYouMean(name, names);
    report(['build', 'existing', 'tub'], {
      code: 'unknown-name',
      reason: `the catalogue has no tub of this name${hint ? '' : `; it has ${nameList(names)}`}; a tub that is not in it is told by insideDiameter and insideWidth`,
      ...(hint ? { hint } : {}),
    });
    return undefined;
  }
  const tub = known ?? caseTub(row, lastPart(file), 0, ledger);
  return { tub: { ...tub, centreForward: centre() }, topHeight };
}
