import { writeFileSync } from 'node:fs';
import { demoPage } from '@tubgap/bench/page';

writeFileSync('/tmp/pageshots/demo.html', demoPage());
