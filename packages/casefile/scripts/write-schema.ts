import { writeFileSync } from 'node:fs';
import { caseJsonSchema, learnedJsonSchema, shopPriorsJsonSchema } from '@tubgap/casefile';

const schemas = {
  'case.schema.json': caseJsonSchema(),
  'learned.schema.json': learnedJsonSchema(),
  'shop-priors.schema.json': shopPriorsJsonSchema(),
};
for (const [name, schema] of Object.entries(schemas)) {
  writeFileSync(new URL(`../${name}`, import.meta.url), `${JSON.stringify(schema, null, 2)}\n`);
}
