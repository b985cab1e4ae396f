import { demoPage } from '@tubgap/bench/page';
import { writeFileSync } from 'node:fs';
writeFileSync('/tmp/pageshots/demo.html', demoPage());
