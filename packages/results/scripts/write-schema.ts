import { writeFileSync } from 'node:fs';
import { resultJsonSchema, sampleJsonSchema, studyJsonSchema } from '@tubgap/results';

const schemas = {
  'result.schema.json': resultJsonSchema(),
  'sample.schema.json': sampleJsonSchema(),
  'study.schema.json': studyJsonSchema(),
};
for (const [name, schema] of Object.entries(schemas)) {
  writeFileSync(new URL(`../${name}`, import.meta.url), `${JSON.stringify(schema, null, 2)}\n`);
}
