import { writeFileSync } from 'node:fs';
import { caseJsonSchema } from '@tubgap/casefile';

const file = new URL('../case.schema.json', import.meta.url);
writeFileSync(file, `${JSON.stringify(caseJsonSchema(), null, 2)}\n`);
