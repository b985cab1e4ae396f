import { z } from 'zod';
import { changesUnder, exact, exactChange, exactOrLaw, inputsUnder, name } from './schema-fields.ts';
import { section } from './schema-parts.ts';

const rearDownforce = section({
  force: exactOrLaw('aero.rearDownforce.force'),
  at: exact('aero.rearDownforce.at'),
  airDensity: exact('aero.rearDownforce.airDensity').optional(),
}).optional();

/** What stands in the suspension beside its uncertain numbers. */
const links = (leftOut: string) => ({
  instantCentre: section({
    ahead: exact('suspension.instantCentre.ahead'),
    height: exact('suspension.instantCentre.height'),
  }).optional(),
  antiRollBar: z
    .boolean()
    .optional()
    .meta({
      description: `Whether the rear axle has an anti-roll bar; sets the default of torqueRoll. ${leftOut}.`,
    }),
});

export const aero = section({ ...inputsUnder('aero'), rearDownforce });

export const suspension = section({ ...inputsUnder('suspension'), ...links('Default: false') });

export const run = section({
  distance: exact('run.distance').optional(),
  ...inputsUnder('run'),
  gripLost: section({
    chance: exact('run.gripLost.chance').optional(),
    ...inputsUnder('run.gripLost'),
  }).optional(),
});

/** One of some fields. The errors of the build are those of the one tub, whatever class the car runs in. */
const justField = <Field>(fields: Readonly<Record<string, Field>>, one: string): Record<string, Field> =>
  Object.fromEntries(Object.entries(fields).filter(([field]) => field === one));

/** What of the car changes when it runs in the class of a tyre. */
export const tyreClass = section({
  name: name(
    'What the shop calls the class. Needed where a tyre stands in the list more than once, to tell its classes apart.',
  ).optional(),
  car: section(changesUnder('car')).optional(),
  weather: section(changesUnder('weather')).optional(),
  build: section({
    reserve: exactChange('build.reserve').optional(),
    ...justField(changesUnder('build'), 'addedMass'),
  }).optional(),
  run: section({
    distance: exactChange('run.distance').optional(),
    ...changesUnder('run'),
    gripLost: section({
      chance: exactChange('run.gripLost.chance').optional(),
      ...changesUnder('run.gripLost'),
    }).optional(),
  }).optional(),
  aero: section({ ...changesUnder('aero'), rearDownforce }).optional(),
  suspension: section({ ...changesUnder('suspension'), ...links('Left out: as in the case') }).optional(),
  accept: section({ runRisk: exactChange('accept.runRisk').optional() }).optional(),
}).meta({
  description:
    'What changes on the car when it runs in the class of this tyre; the rest stays as the case says. ' +
    'Ballast is the mass with it and the share on the rear axle then: what the rear axle carries more than when the place ' +
    'of the tub was set lowers the body, unless build.addedMass says otherwise. A season counts the runs of all classes, so accept.seasonRisk is that of the whole car.',
});
