import { OTHER_NAMES, type QuantityKind, TYPED_NUMBER, UNITS, unitList } from '@tubgap/units';
import { lawForm } from './law.ts';
import { caseSchema } from './schema.ts';
import { definition, definitionName, writtenForm } from './schema-parts.ts';

type JsonSchema = Record<string, unknown>;

const escaped = (text: string) => text.replace(/[/.*+?^${}()|[\]\\%]/g, '\\$&');

/** A unit in every spelling that is read: `m²`, `m^2` and `m 2` for m2, `°F` and `° F` for degF. */
const spelled = (unit: string): string =>
  unit
    .split(/(deg)|/)
    .filter((part) => part !== undefined && part !== '')
    .map((part) => {
      if (part === 'deg') return '(?:d\\s*e\\s*g|°)';
      return part === '2' || part === '3' ? `(?:\\^?\\s*${part}|${part === '2' ? '²' : '³'})` : escaped(part);
    })
    .join('\\s*');

/** Whole feet stand before what is left over. */
const BELOW_TWELVE = String.raw`(?!0*(?:1[2-9]|[2-9]\d|\d{3,}))`;
/** As 3'3" or 3 ft 3 1/2 in. */
const FEET_AND_INCHES = String.raw`[+\-−]?\d+\s*(?:['’′]\s*-?\s*${BELOW_TWELVE}${TYPED_NUMBER}\s*(?:["”″]|''|’’|in|inch|inches)?|(?:ft|feet|foot)\s*-?\s*${BELOW_TWELVE}${TYPED_NUMBER}\s*(?:["”″]|in|inch|inches))`;

/** A number with one of the kind's units, as editors check it. */
function quantityForm(kind: QuantityKind): JsonSchema {
  if (kind === 'ratio') {
    const pattern = `^\\s*(${TYPED_NUMBER}\\s*%?|1 in [0-9,]+)\\s*$`;
    return {
      description: 'A number, a percentage, or a chance such as "1 in 2000".',
      anyOf: [{ type: 'number' }, { type: 'string', pattern }],
    };
  }
  const names = UNITS[kind]
    .flatMap(({ name }) => [name, ...(OTHER_NAMES[name] ?? [])])
    .map(spelled)
    .join('|');
  const feet = kind === 'length' ? `|${FEET_AND_INCHES}` : '';
  const description = `A number and a unit: ${unitList(kind)}. Fractions as on a tape, such as 39 1/4, are allowed.`;
  return { description, type: 'string', pattern: `^\\s*(${TYPED_NUMBER}\\s*(${names})${feet})\\s*$` };
}

/**
 * JSON Schema (draft 2020-12) of the case file, for editors: every field with its description, unit, range and default.
 * It knows less than `parseCase`: no catalogue, and no range that hangs on a unit.
 */
export function caseJsonSchema(): JsonSchema {
  const form = writtenForm(caseSchema);
  const isUsed = (name: string) => JSON.stringify(form).includes(`"#/$defs/${name}"`);
  const definitions: JsonSchema = {};
  for (const kind of Object.keys(UNITS) as QuantityKind[]) {
    const lawName = definitionName(kind, true);
    definitions[definitionName(kind, false)] = quantityForm(kind);
    if (isUsed(lawName)) definitions[lawName] = { anyOf: [{ $ref: definition(kind, false) }, lawForm(kind)] };
  }
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'Case file',
    description:
      'A car, its tyres and the tubs to judge. Numbers carry their units; what is left out has a default.',
    ...form,
    $defs: definitions,
  };
}
