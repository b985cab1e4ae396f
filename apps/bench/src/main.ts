#!/usr/bin/env node
process.stdout.write('');
