#!/usr/bin/env node
// Stands here before the first build, so that npm can link the command when it installs.
import module from 'node:module';

// Node from 22.8 on keeps what it has compiled; the line before does without.
module.enableCompileCache?.();
await import('../dist/tubgap.js');
