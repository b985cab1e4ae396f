import { writeFileSync } from 'node:fs';
import { drawSide } from '@tubgap/kit';
import { demoCase } from './demo-case.mjs';

const [to = 'side-view.svg'] = process.argv.slice(2);
writeFileSync(to, drawSide(demoCase(), 'street-42', 39.25 * 0.0254));
console.log(`written to ${to}`);
